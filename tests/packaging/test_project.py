"""What is written about the project agrees with what is in it."""

import ast
import re
import sys
import tomllib
from importlib.metadata import packages_distributions
from pathlib import Path

import pytest
from platformdirs.macos import MacOS
from platformdirs.unix import Unix

CHECKOUT = Path(__file__).resolve().parents[2]
README = (CHECKOUT / "README.md").read_text(encoding="utf-8")
PYPROJECT = tomllib.loads((CHECKOUT / "pyproject.toml").read_text(encoding="utf-8"))
PACKAGE = CHECKOUT / "greenroom"


def canonical(requirement):
    """The name of a requirement as PEP 503 normalises it."""
    name = re.match(r"[A-Za-z0-9][A-Za-z0-9._-]*", requirement).group()
    return re.sub(r"[-_.]+", "-", name).lower()


def imported_names(path):
    """The top-level names that a module imports from elsewhere."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name.split(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.level == 0:
            yield node.module.split(".")[0]


def package_files():
    return [path for path in PACKAGE.rglob("*") if path.is_file() and "__pycache__" not in path.parts]


@pytest.mark.parametrize("command", ["python3 packaging/start.py", "python3 packaging/check.py"])
def test_the_readme_gives_the_commands_that_are_there(command):
    assert f"\n    {command}\n" in README
    assert (CHECKOUT / command.split()[1]).is_file()


def test_the_readme_opens_with_one_paragraph_on_the_job():
    title, opening, heading = README.split("\n\n")[:3]
    assert title.startswith("# ")
    assert not opening.startswith("#")
    assert heading.startswith("## ")


def test_the_readme_names_the_folder_that_the_system_keeps_for_a_programs_data(monkeypatch):
    """Expected: platformdirs, which follows the XDG base directory specification and Apple's guide."""
    monkeypatch.delenv("XDG_DATA_HOME")
    for system in (Unix, MacOS):
        folder = system("greenroom").user_data_dir.replace(str(Path.home()), "~")
        assert f"`{folder}`" in README


def test_every_library_the_program_imports_is_declared():
    extras = PYPROJECT["project"]["optional-dependencies"]
    offered = [requirement for name, wanted in extras.items() if name != "test" for requirement in wanted]
    declared = {canonical(text) for text in PYPROJECT["project"]["dependencies"] + offered}
    known = sys.stdlib_module_names | {"greenroom"}
    brought_by = packages_distributions()
    undeclared = [
        f"{path.relative_to(CHECKOUT)} imports {name}"
        for path in PACKAGE.rglob("*.py")
        for name in set(imported_names(path)) - known
        if declared.isdisjoint(canonical(text) for text in brought_by.get(name, [name]))
    ]
    assert undeclared == []


def test_the_package_holds_only_code_since_only_resources_are_installed_beside_it():
    strays = [str(path.relative_to(CHECKOUT)) for path in package_files() if path.suffix != ".py"]
    assert strays == []


def test_every_folder_of_code_is_a_package_or_it_would_not_be_installed():
    folders = {path.parent for path in package_files()}
    assert [str(folder) for folder in folders if not (folder / "__init__.py").exists()] == []


def test_a_wheel_without_a_resource_or_with_a_leftover_is_caught(script, tmp_path):
    wheel = script("wheel")
    for name in ("greenroom/app.py", "resources/guide/pepper.toml", "resources/.hidden"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("")
    wanted = wheel.expected(tmp_path)
    assert wanted == {"greenroom/app.py", "greenroom/resources/guide/pepper.toml"}
    about = "greenroom-0.1.0.dist-info/METADATA"
    assert wheel.faults(wanted, {*wanted, about}) == []
    assert wheel.faults(wanted, {"greenroom/app.py", "greenroom/old.py", about}) == [
        "missing from the wheel: greenroom/resources/guide/pepper.toml",
        "in the wheel but not in the checkout: greenroom/old.py",
    ]


def test_every_folder_of_code_is_in_the_wheel_and_nothing_else():
    named = set(PYPROJECT["tool"]["setuptools"]["packages"])
    folders = {
        ".".join(path.parent.relative_to(CHECKOUT).parts)
        for path in CHECKOUT.glob("greenroom/**/__init__.py")
    }
    assert named == folders | {"greenroom.resources"}
