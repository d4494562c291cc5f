"""Write dist/SHA256SUMS over what is to be published: python3 packaging/checksums.py.

Takes every wheel, Debian package and archive in dist/, and packs the one-folder program into an archive first
if it is there. The file has the form that sha256sum --check reads; the maintainer then signs it, as
DEVELOPERS.md tells.
"""

from __future__ import annotations

import argparse
import hashlib
import platform
import sys
import tarfile
from collections.abc import Iterable
from pathlib import Path

import _about
import _deb_texts

DIST = _about.CHECKOUT / "dist"
NAME = "SHA256SUMS"
PUBLISHED = ("*.whl", "*.deb", "*.tar.gz", "*.zip", "*.dmg")
FOLDER = "greenroom"  # the one-folder program


def main() -> int:
    """Pack the folder if there is one, write the sums, and say over what."""
    parser = argparse.ArgumentParser(description="Write the checksums of what is to be published.")
    parser.add_argument("--folder", type=Path, default=DIST, help="where it lies, unless in dist/")
    folder = parser.parse_args().folder
    pack_folder(folder)
    found = published(folder)
    if not found:
        print(f"Nothing to publish is in {folder}: build the wheel, the package or the folder first.")
        return 1
    if strange := others(found):
        print(f"Not of version {_about.version()}; take them out of {folder} first: {', '.join(strange)}")
        return 1
    (folder / NAME).write_text(sums(found), encoding="utf-8", newline="\n")
    print(f"{folder / NAME} covers {', '.join(path.name for path in found)}")
    return 0


def published(folder: Path) -> list[Path]:
    """Return the files to publish, in the order of their names."""
    return sorted({path for pattern in PUBLISHED for path in folder.glob(pattern)})


def others(found: Iterable[Path]) -> list[str]:
    """Return the names that do not carry the program's own version: leftovers of an earlier release."""
    said = (f"-{_about.version()}-", f"_{_deb_texts.debian_version(_about.version())}_")
    return [path.name for path in found if not any(version in path.name for version in said)]


def sums(found: Iterable[Path]) -> str:
    """Return a line for each file, as sha256sum writes it: the sum, a star for bytes, the name."""
    return "".join(f"{digest(path)} *{path.name}\n" for path in found)


def digest(path: Path) -> str:
    """Return the SHA-256 of a file."""
    with path.open("rb") as stream:
        return hashlib.file_digest(stream, "sha256").hexdigest()


def pack_folder(folder: Path) -> None:
    """Pack the one-folder program, if it is there, into an archive named for version and system."""
    program = folder / FOLDER
    if not program.is_dir():
        return
    system = f"{platform.system()}-{platform.machine()}".lower()
    name = f"{FOLDER}-{_about.version()}-{system}"
    with tarfile.open(folder / f"{name}.tar.gz", "w:gz") as archive:
        archive.add(program, arcname=name)


if __name__ == "__main__":
    sys.exit(main())
