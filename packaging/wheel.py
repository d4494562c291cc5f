"""Build the wheel into dist/ and see that it carries the whole program: python3 packaging/wheel.py."""

from __future__ import annotations

import shutil
import subprocess
import sys
import tempfile
import zipfile
from collections.abc import Iterable
from pathlib import Path

from _about import CHECKOUT

LEFT_OUT = {".ts"}
"""What only those read who change the program: what translators edit."""


def expected(checkout: Path) -> set[str]:
    """Return the names that the wheel must hold: every module, and every resource beside them."""
    code = {path.relative_to(checkout).as_posix() for path in (checkout / "greenroom").rglob("*.py")}
    resources = {
        f"greenroom/{path.relative_to(checkout).as_posix()}"
        for path in (checkout / "resources").rglob("*")
        if path.is_file() and not path.name.startswith(".") and path.suffix not in LEFT_OUT
    }
    return code | resources


def faults(wanted: Iterable[str], held: Iterable[str]) -> list[str]:
    """Return a line for each name that the wheel lacks, and for each it should not hold."""
    wanted = set(wanted)
    program = {name for name in held if not name.split("/")[0].endswith(".dist-info")}
    return [
        *(f"missing from the wheel: {name}" for name in sorted(wanted - program)),
        *(f"in the wheel but not in the checkout: {name}" for name in sorted(program - wanted)),
    ]


def build(checkout: Path, folder: Path) -> Path:
    """Build the wheel into the folder, which must be empty, and return its path."""
    shutil.rmtree(checkout / "build" / "lib", ignore_errors=True)  # setuptools packs its leftovers
    command = [sys.executable, "-m", "pip", "wheel", "--quiet", "--no-deps", "--wheel-dir", str(folder), "."]
    subprocess.run(command, cwd=checkout, stdin=subprocess.DEVNULL, check=True)
    (wheel,) = folder.glob("greenroom-*.whl")
    return wheel


def main() -> int:
    """Build, check, and keep the wheel only if nothing is wrong with it."""
    with tempfile.TemporaryDirectory() as folder:
        wheel = build(CHECKOUT, Path(folder))
        with zipfile.ZipFile(wheel) as archive:
            found = faults(expected(CHECKOUT), archive.namelist())
        if found:
            print("\n".join(found), file=sys.stderr)
            return 1
        kept = CHECKOUT / "dist" / wheel.name
        kept.parent.mkdir(exist_ok=True)
        kept.write_bytes(wheel.read_bytes())
    print(f"The wheel is {kept}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
