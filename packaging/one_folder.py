"""Build the one-folder program into dist/greenroom and try it: python3 packaging/one_folder.py.

The folder holds Python, greenroom and every library, and runs on systems like the one it was built on: on
Linux with the same or a newer C library. The Linux folder is built and tried here; the same command is meant
for Windows and macOS, where nobody has run it yet.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import venv
from pathlib import Path

import _about
import wheel

PYINSTALLER = "pyinstaller>=6.16,<7"
SPEC = _about.CHECKOUT / "packaging" / "pyinstaller" / "greenroom.spec"
WORK = _about.CHECKOUT / "build" / "one-folder"
BUILT = _about.CHECKOUT / "dist" / "greenroom"
ICONS = {"win32": ("--windows", "greenroom.ico"), "darwin": ("--mac", "greenroom.icns")}
# An old ledger, which the program must bring up to date with the steps that it carries.
OLD_LEDGER = _about.CHECKOUT / "tests" / "ledger" / "samples" / "v0001.greenroom"


def main() -> int:
    """Build the folder, try it, and say what went wrong if anything did."""
    shutil.rmtree(WORK, ignore_errors=True)
    WORK.mkdir(parents=True)
    build(environment())
    program = BUILT / ("greenroom.exe" if os.name == "nt" else "greenroom")
    with tempfile.TemporaryDirectory() as folder:
        wrong = faults(program, Path(folder))
    print("\n".join(wrong) or f"{program} starts, draws the demo and brings an old ledger up to date")
    return 1 if wrong else 0


def environment() -> Path:
    """Make an environment with greenroom as a user would have it, and PyInstaller; return its Python."""
    home = WORK / "environment"
    venv.EnvBuilder(with_pip=True, symlinks=os.name != "nt").create(home)
    python = home / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
    built = wheel.build(_about.CHECKOUT, WORK / "wheel")
    run([str(python), "-m", "pip", "install", "--quiet", _about.with_extras(built), PYINSTALLER])
    return python


def build(python: Path) -> None:
    """Draw the icon that this system wants, if any, and let PyInstaller collect the folder."""
    if sys.platform in ICONS:
        option, name = ICONS[sys.platform]
        run([str(python), str(_about.CHECKOUT / "packaging" / "make_icons.py"), option, str(WORK / name)])
    places = ["--distpath", str(BUILT.parent), "--workpath", str(WORK / "work")]
    # Apart from the checkout (-I): only the installed greenroom has its resources inside.
    run([str(python), "-I", "-m", "PyInstaller", "--noconfirm", "--log-level", "WARN", *places, str(SPEC)])


def faults(program: Path, folder: Path) -> list[str]:
    """Return a line for each thing that the program in the folder does not do as it should."""
    wrong = []
    if (told := answer([program, "--version"])) != f"greenroom {_about.version()}":
        wrong.append(f"--version answered {told!r}")
    ledger = shutil.copyfile(OLD_LEDGER, folder / "season.greenroom")
    for name, asked in (("demo", ["--demo"]), ("ledger", [str(ledger)])):
        pictures = folder / name
        answer([program, *asked, "--pictures", str(pictures)])
        if not list(pictures.glob("*.png")):
            wrong.append(f"no picture of the {name} was drawn")
    return wrong


def answer(command: list[str | Path]) -> str:
    """Return what a command prints, whatever its exit."""
    done = subprocess.run(command, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, text=True, check=False)
    return done.stdout.strip()


def run(command: list[str]) -> None:
    """Run a command that must succeed."""
    if subprocess.run(command, stdin=subprocess.DEVNULL, check=False).returncode:
        raise SystemExit(f"This step failed; its last lines stand above: {' '.join(command)}")


if __name__ == "__main__":
    sys.exit(main())
