"""The Debian package carries the program whole, and says truly what it needs."""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from greenroom import APP_ID, __version__, app

CHECKOUT = Path(__file__).resolve().parents[2]
MANUAL = CHECKOUT / "packaging" / "linux" / "greenroom.1"
PLUM = """\
Metadata-Version: 2.4
Name: plum
Version: 3.1
License: BSD 3-Clause "New" licence
Author: Those who wrote plum
"""
RECORD = "plum/__init__.py,,\nplum-3.1.dist-info/METADATA,,\nplum-3.1.dist-info/RECORD,,\n../../bin/plum,,\n"

needs_dpkg = pytest.mark.skipif(shutil.which("dpkg-deb") is None, reason="dpkg-deb is not installed")


@pytest.fixture
def deb(script):
    return script("deb")


@pytest.fixture
def texts(script):
    return script("_deb_texts")


@pytest.fixture
def small_tree(deb, tmp_path, monkeypatch):
    """What the package installs, with one small library in place of all those of the program."""

    def install(command, **_named):
        libraries = Path(command[command.index("--target") + 1])
        for name, text in (("plum/__init__.py", ""), ("plum/tests/test_plum.py", ""), ("bin/plum", "")):
            deb.write(libraries / name, text)
        deb.write(libraries / "plum-3.1.dist-info" / "METADATA", PLUM)
        deb.write(libraries / "plum-3.1.dist-info" / "RECORD", RECORD)
        return subprocess.CompletedProcess(command, 0)

    tree = tmp_path / "tree"
    tree.mkdir()
    with monkeypatch.context() as without_pip:
        without_pip.setattr(deb.subprocess, "run", install)
        deb.install_libraries(tree, tmp_path / "greenroom.whl")
    deb.put_in_menus(tree)
    deb.document(tree)
    return tree


@needs_dpkg
def test_the_package_holds_command_libraries_menus_and_papers(deb, small_tree, tmp_path):
    """Expected: dpkg-deb's own reading; places from the FHS and the specifications of freedesktop."""
    deb.describe(small_tree)
    built = deb.pack(small_tree, tmp_path / "dist", deb.QUICK)
    listed = subprocess.run(
        ["dpkg-deb", "--contents", built], capture_output=True, text=True, check=True
    ).stdout
    rights = {line.split()[5].removeprefix("."): line.split()[0] for line in listed.splitlines()}
    assert {
        "/usr/bin/greenroom",
        f"/usr/lib/greenroom/lib/{deb.PYTHON}/site-packages/plum/__init__.py",
        f"/usr/share/applications/{APP_ID}.desktop",
        f"/usr/share/metainfo/{APP_ID}.metainfo.xml",
        f"/usr/share/icons/hicolor/16x16/apps/{APP_ID}.png",
        f"/usr/share/icons/hicolor/scalable/apps/{APP_ID}.svg",
        "/usr/share/doc/greenroom/copyright",
        "/usr/share/doc/greenroom/changelog.gz",
        "/usr/share/man/man1/greenroom.1.gz",
    } <= set(rights)
    assert not [name for name in rights if "plum/tests" in name or name.endswith("site-packages/bin")]
    assert [name for name, held in rights.items() if held == "-rwxr-xr-x"] == ["/usr/bin/greenroom"]
    assert all("root/root" in line for line in listed.splitlines())
    field = ["dpkg-deb", "--field", built, "Version"]
    assert subprocess.run(field, capture_output=True, text=True, check=True).stdout.strip() == __version__


def test_the_command_starts_the_private_python_apart_from_the_users_own(deb, small_tree):
    """Expected: PEP 405, which tells an environment by pyvenv.cfg beside or above the interpreter."""
    home = small_tree / deb.HOME
    assert (home / "bin" / "python3").readlink() == Path(f"../../../bin/{deb.PYTHON}")
    assert "include-system-site-packages = false" in (home / "pyvenv.cfg").read_text()
    launcher = (small_tree / "usr/bin/greenroom").read_text()
    assert launcher == '#!/bin/sh\nexec /usr/lib/greenroom/bin/python3 -I -m greenroom "$@"\n'


@pytest.mark.skipif(os.name == "nt", reason="environments are laid out otherwise on Windows")
def test_an_environment_laid_out_so_finds_its_own_libraries_and_no_others(deb, small_tree):
    python = small_tree / deb.HOME / "bin" / "python3"
    python.unlink()
    python.symlink_to(Path(sys.executable).resolve())
    look = "import sys, plum; print(plum.__file__); print(*sys.path, sep='\\n')"
    told = subprocess.run([python, "-I", "-c", look], capture_output=True, text=True, check=True).stdout
    found, *searched = told.splitlines()
    assert found == str(small_tree / deb.LIBRARIES / "plum" / "__init__.py")
    assert [place for place in searched if "site-packages" in place] == [str(small_tree / deb.LIBRARIES)]


def test_the_package_depends_on_all_that_qt_opens_and_only_recommends_what_it_can_do_without(texts, script):
    libraries = script("_libraries")
    control = texts.control("amd64", (3, 11), 1000)
    fields = dict(re.findall(r"^([\w-]+): (.*)$", control, re.MULTILINE))
    depends, recommends = fields["Depends"].split(", "), fields["Recommends"].split(", ")
    assert set(libraries.ALWAYS.values()) | set(libraries.X_SCREEN.values()) <= set(depends)
    assert "python3.11" in depends
    assert "libcups2" in recommends
    assert set(depends).isdisjoint(recommends)


def test_the_control_file_has_what_debian_requires(texts):
    """Debian Policy 5.3: these fields; the description's lines begin with a space, an empty one is a dot."""
    control = texts.control("amd64", (3, 11), 1000)
    for field in ("Package", "Version", "Section", "Priority", "Architecture", "Maintainer", "Description"):
        assert re.search(rf"^{field}: \S", control, re.MULTILINE), field
    assert control.endswith("\n")
    body = control.partition("Description: ")[2].splitlines()[1:]
    assert all(line.startswith(" ") and line.strip() and len(line) <= 80 for line in body)


def test_every_library_in_the_package_stands_in_the_copyright_with_its_licence(texts, deb, small_tree):
    """The form: Debian's machine-readable copyright file, which wants a licence's name without spaces."""
    written = (small_tree / "usr/share/doc/greenroom/copyright").read_text(encoding="utf-8")
    place = f"{deb.LIBRARIES}"
    assert (
        f"Files:\n {place}/plum/*\n {place}/plum-3.1.dist-info/*\nCopyright: Those who wrote plum\n"
        in written
    )
    assert "License: BSD-3-Clause-New-licence\n plum 3.1: BSD 3-Clause" in written
    assert "@" not in written.replace("@LIBRARIES@", "!@")


@pytest.mark.parametrize(
    ("stated", "named"),
    [
        ({"License-Expression": "MIT", "License": "as said"}, "MIT"),
        ({"License": "\nApache-2.0\nand more"}, "Apache-2.0"),
        ({"License": "Copyright (c) 2001"}, "as its own text says"),
        ({}, "as its own text says"),
    ],
)
def test_a_licence_is_named_as_its_library_states_it(texts, stated, named):
    assert texts.licence(stated) == named


def test_the_manual_page_names_every_option(capsys):
    with pytest.raises(SystemExit):
        app.main(["--help"])
    offered = set(re.findall(r"--[a-z][a-z-]+", capsys.readouterr().out))
    page = MANUAL.read_text(encoding="utf-8").replace("\\-", "-")
    assert offered
    missing = [option for option in offered if option not in page]
    assert missing == [], f"{MANUAL.name} must tell of every option"


def test_what_is_left_out_is_nothing_that_the_program_imports(script):
    slim = script("_slim")
    imported = set()
    for path in (CHECKOUT / "greenroom").rglob("*.py"):
        imported |= set(re.findall(r"PySide6\.(Qt\w+)", path.read_text(encoding="utf-8")))
    assert {"QtCore", "QtWidgets"} <= imported
    dropped = [name for name in imported for part in slim.QT_PARTS_UNUSED if name.startswith(f"Qt{part}")]
    assert dropped == []


def test_the_clean_root_is_given_what_the_package_depends_on_and_nothing_more(script):
    root = script("clean_root")
    command = root.root_command(["python3", "libgl1"], ["one", "two"], "bookworm", [Path("a.sources")])
    assert "--include=python3,libgl1" in command
    assert "--variant=essential" in command
    assert command[-3:] == ["bookworm", "/dev/null", "a.sources"]
    assert command.index("--customize-hook=one") < command.index("--customize-hook=two")


def test_pictures_missing_or_empty_are_told(script, tmp_path):
    root = script("clean_root")
    assert root.faults(tmp_path) == ["greenroom drew no picture"]
    (tmp_path / "grow.png").write_bytes(root.PNG + bytes(root.LEAST_BYTES))
    assert root.faults(tmp_path) == []
    (tmp_path / "sow.png").write_bytes(root.PNG)
    (tmp_path / "pick.png").write_bytes(bytes(root.LEAST_BYTES))
    assert root.faults(tmp_path) == [f"{name}.png is no picture of a page" for name in ("pick", "sow")]
