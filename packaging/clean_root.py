"""Install the Debian package in a clean root and try it there: python3 packaging/clean_root.py.

It takes the package of this version from dist/, where packaging/deb.py left it, unless another is named.

The root holds Debian's essential packages and what the package says it depends on, nothing else. An ordinary
user of it asks greenroom for its version, imports every part of it and has it draw the demo; then the package
is purged and must leave nothing.
Needs mmdebstrap, the package lists of the Debian it runs on, and root or user namespaces.
"""

from __future__ import annotations

import argparse
import re
import shlex
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

import _about
import _deb_texts

SOURCES = Path("/etc/apt")
RELEASE = Path("/etc/os-release")
INSIDE = f"/{_deb_texts.PACKAGE}.deb"
NOBODY = "65534:65534"
USERS_HOME = "/tmp/grower"
PICTURES = f"{USERS_HOME}/pictures"
# Every module, what is loaded only when asked for, each language, and Qt's way to an X screen (none is here).
IMPORT_ALL = """\
import ctypes, importlib, pathlib, pkgutil, greenroom, psycopg, PySide6.QtPrintSupport
from PySide6.QtCore import QLibraryInfo
from skimage import filters, measure
from greenroom.desk.language import speak
from greenroom.speech import NAMES, SPEAKER
assert filters.threshold_otsu and measure.find_contours
for found in pkgutil.walk_packages(greenroom.__path__, "greenroom."):
    if found.name.rpartition(".")[2] not in ("__main__", "env"):
        importlib.import_module(found.name)
for code in NAMES:
    speak(code)
    assert SPEAKER.tongue.code == code
    own = pathlib.Path(QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)) / f"qtbase_{code}.qm"
    assert code == "en" or own.is_file(), own
plugins = pathlib.Path(PySide6.__file__).parent / "Qt" / "plugins"
for name in ("platforms/libqxcb.so", "xcbglintegrations/libqxcb-glx-integration.so"):
    ctypes.CDLL(str(plugins / name))
"""
MADE = "made"
"""The file that tells that the root was made, and the trying began."""
PNG = b"\x89PNG\r\n\x1a\n"
LEAST_BYTES = 10_000  # an empty page at 1024 x 700 packs into less


def main() -> int:
    """Make the root, try the package in it, and say what went wrong if anything did."""
    parser = argparse.ArgumentParser(
        description="Install the Debian package in a clean root and try it there."
    )
    parser.add_argument("package", type=Path, nargs="?", help="the .deb, unless it is the one in dist/")
    parser.add_argument(
        "--where-possible",
        action="store_true",
        help="do not fail on a machine that lets no root be made, or cannot fetch the packages for one",
    )
    asked = parser.parse_args()
    package = (asked.package or built()).resolve()
    if unknown := unknown_packages(depends(package)):
        print(f"{package.name} depends on what this Debian does not have: {', '.join(unknown)}")
        return 1
    with tempfile.TemporaryDirectory() as kept:
        made = Path(kept) / MADE
        command = root_command(depends(package), steps(package, Path(kept)), codename(), sources())
        done = subprocess.run(command, stdin=subprocess.DEVNULL, check=False)
        if done.returncode and not made.exists():
            print(f"NOT TRIED: no clean root could be made on this machine for {package.name}")
            return 0 if asked.where_possible else 1
        wrong = faults(Path(kept)) if done.returncode == 0 else [f"{package.name} failed in the clean root"]
    print("\n".join(wrong) or f"{package.name} installs, runs and goes without a trace")
    return 1 if wrong else 0


def unknown_packages(names: Sequence[str]) -> list[str]:
    """Return those of the packages that the package lists of this machine do not name."""
    told = subprocess.run(["apt-cache", "pkgnames"], capture_output=True, text=True, check=True)
    known = set(told.stdout.split())
    return [name for name in names if name not in known]


def built() -> Path:
    """Return the package of this version in dist/."""
    name = f"{_deb_texts.PACKAGE}_{_deb_texts.debian_version(_about.version())}_*.deb"
    found = list((_about.CHECKOUT / "dist").glob(name))
    if len(found) != 1:
        raise SystemExit(f"There must be one package {name} in dist/, and there are {len(found)}.")
    return found[0]


def depends(package: Path) -> list[str]:
    """Return the names of the packages that the package depends on."""
    told = subprocess.run(
        ["dpkg-deb", "--field", str(package), "Depends"], capture_output=True, text=True, check=True
    )
    return [re.split(r"[ (|]", entry.strip())[0] for entry in told.stdout.split(",")]


def steps(package: Path, kept: Path) -> list[str]:
    """Return what is done in the root, each as a line of shell that is given the root as $1."""
    as_user = f'chroot --userspec={NOBODY} "$1" env HOME={USERS_HOME}'
    version = shlex.quote(f"greenroom {_about.version()}")
    return [
        f"touch {shlex.quote(str(kept / MADE))}",
        f'cp {shlex.quote(str(package))} "$1{INSIDE}"',
        f'chroot "$1" dpkg --install {INSIDE}',
        f'mkdir -p "$1{USERS_HOME}" && chown {NOBODY} "$1{USERS_HOME}"',
        f'test "$({as_user} greenroom --version)" = {version}',
        f"{as_user} /usr/lib/greenroom/bin/python3 -I -c {shlex.quote(IMPORT_ALL)}",
        f"{as_user} greenroom --demo --pictures {PICTURES}",
        f'cp "$1{PICTURES}"/*.png {shlex.quote(str(kept))}',
        f'chroot "$1" dpkg --purge {_deb_texts.PACKAGE}',
        'test ! -e "$1/usr/lib/greenroom" && test ! -e "$1/usr/bin/greenroom"',
    ]


def root_command(
    packages: Sequence[str], hooks: Sequence[str], suite: str, from_sources: Sequence[Path]
) -> list[str]:
    """Return the command that makes the root, runs the steps in it and throws it away."""
    return [
        "mmdebstrap",
        "--quiet",
        "--variant=essential",
        "--format=null",
        "--dpkgopt=force-unsafe-io",
        f"--include={','.join(packages)}",
        *(f"--customize-hook={hook}" for hook in hooks),
        suite,
        "/dev/null",
        *map(str, from_sources),
    ]


def codename() -> str:
    """Return the name of the Debian that this is, such as bookworm."""
    found = re.search(r"^VERSION_CODENAME=(\w+)$", RELEASE.read_text(encoding="utf-8"), re.MULTILINE)
    if found is None:
        raise SystemExit(f"{RELEASE} names no Debian (VERSION_CODENAME), so no root can be made like it.")
    return found.group(1)


def sources() -> list[Path]:
    """Return the files that say where this machine gets its packages from."""
    found = [*SOURCES.glob("sources.list"), *sorted(SOURCES.glob("sources.list.d/*.sources"))]
    return [*found, *sorted(SOURCES.glob("sources.list.d/*.list"))]


def faults(folder: Path) -> list[str]:
    """Return a line for each thing wrong with the pictures that were drawn in the root."""
    pictures = sorted(folder.glob("*.png"))
    if not pictures:
        return ["greenroom drew no picture"]
    return [
        f"{path.name} is no picture of a page"
        for path in pictures
        if path.stat().st_size < LEAST_BYTES or not path.read_bytes().startswith(PNG)
    ]


if __name__ == "__main__":
    sys.exit(main())
