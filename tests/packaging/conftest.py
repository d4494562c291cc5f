"""The set-up scripts as modules, and a checkout in miniature to try them in."""

import importlib
import shutil
import sys
from pathlib import Path

import pytest

CHECKOUT = Path(__file__).resolve().parents[2]
TELL_TALE = """\
#!/bin/sh
echo "$(basename "$0")" "$@" "on" "$QT_QPA_PLATFORM"
exit "${ENDS_WITH:-0}"
"""


@pytest.fixture
def script(monkeypatch):
    """A function that imports one of the modules of packaging/ by name."""
    monkeypatch.syspath_prepend(str(CHECKOUT / "packaging"))
    return importlib.import_module


@pytest.fixture
def small_checkout(tmp_path, script):
    """A folder with the scripts, and an environment made for it whose programs tell what they were given."""
    environment = script("_environment")
    shutil.copytree(CHECKOUT / "packaging", tmp_path / "packaging")
    (tmp_path / "pyproject.toml").write_text("[project]\nname = 'greenroom'\n")
    programs = tmp_path / ".venv" / "bin"
    programs.mkdir(parents=True)
    for name in ("python", "greenroom"):
        program = programs / name
        program.write_text(TELL_TALE)
        program.chmod(0o755)
    settings = environment.digest([(tmp_path / "pyproject.toml").read_bytes()])
    version = ".".join(map(str, sys.version_info[:3]))
    stamp = environment.Stamp(version, str(tmp_path.resolve()), settings, tests=True)
    environment.write_stamp(tmp_path / ".venv" / "installed.json", stamp)
    return tmp_path
