"""Build the Debian package into dist/: python3 packaging/deb.py.

It holds a private environment with greenroom and every library it stands on, so that it needs only the
system's Python and the system libraries of Qt. It is for the release of Debian whose Python it is built with.
Needs dpkg-deb, and pip where it is run.
"""

from __future__ import annotations

import argparse
import gzip
import hashlib
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

import _about
import _deb_texts
import _slim
import wheel

HOME = Path("usr/lib/greenroom")
PYTHON = f"python{sys.version_info[0]}.{sys.version_info[1]}"
LIBRARIES = HOME / "lib" / PYTHON / "site-packages"
LAUNCHER = f"""\
#!/bin/sh
exec /{HOME}/bin/python3 -I -m greenroom "$@"
"""
ENVIRONMENT = """\
home = /usr/bin
include-system-site-packages = false
version = {version}
"""
# Python's files are made ready to run when the package comes, and what was made goes with it.
AFTER_INSTALL = f"""\
#!/bin/sh
set -e
if [ "$1" = configure ]; then
    py3compile -p {_deb_texts.PACKAGE} /{HOME}
fi
"""
BEFORE_REMOVAL = f"""\
#!/bin/sh
set -e
py3clean -p {_deb_texts.PACKAGE}
"""
QUICK = ("-Zgzip", "-z1")
SMALL = ("-Zxz", "-z6")


def main() -> int:
    """Build the package and say where it is."""
    parser = argparse.ArgumentParser(description="Build the Debian package into dist/.")
    parser.add_argument(
        "--quick", action="store_true", help="pack in less time, twice as large: for trying it"
    )
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        tree = Path(folder) / "tree"
        tree.mkdir(mode=0o755)
        fill(tree, wheel.build(_about.CHECKOUT, Path(folder)))
        built = pack(tree, _about.CHECKOUT / "dist", QUICK if asked.quick else SMALL)
    print(f"The package is {built} ({built.stat().st_size / 1e6:.0f} MB)")
    return 0


def fill(tree: Path, built: Path) -> None:
    """Lay out under a folder what the package installs, from a wheel of greenroom."""
    install_libraries(tree, built)
    put_in_menus(tree)
    document(tree)
    describe(tree)


def install_libraries(tree: Path, built: Path) -> None:
    """Make the private environment and the command that starts greenroom in it."""
    libraries = tree / LIBRARIES
    command = [sys.executable, "-m", "pip", "install", "--quiet", "--target", str(libraries)]
    options = ["--only-binary", ":all:", "--no-compile", "--no-warn-conflicts", _about.with_extras(built)]
    if subprocess.run([*command, *options], stdin=subprocess.DEVNULL, check=False).returncode:
        raise SystemExit("pip could not install greenroom and its libraries; its last lines stand above.")
    _slim.slim(libraries)
    programs = tree / HOME / "bin"
    programs.mkdir()
    (programs / "python3").symlink_to(f"../../../bin/{PYTHON}")
    version = ".".join(map(str, sys.version_info[:3]))
    (tree / HOME / "pyvenv.cfg").write_text(ENVIRONMENT.format(version=version), encoding="ascii")
    write(tree / "usr/bin/greenroom", LAUNCHER, mode=0o755)


def put_in_menus(tree: Path) -> None:
    """Put the desktop entry, the icons and the metainfo where desktops look for them."""
    share = tree / "usr" / "share"
    shutil.copytree(_about.ICONS, share / "icons" / "hicolor")
    name = _about.app_id()
    for source, folder in ((f"{name}.desktop", "applications"), (f"{name}.metainfo.xml", "metainfo")):
        (share / folder).mkdir()
        shutil.copyfile(_about.LINUX / source, share / folder / source)


def document(tree: Path) -> None:
    """Write the copyright, the changelog, the manual page and what the package's checker is to let pass."""
    share, releases = tree / "usr" / "share", _about.released()
    about = share / "doc" / _deb_texts.PACKAGE
    write(about / "copyright", _deb_texts.copyright_text(tree / LIBRARIES, f"{LIBRARIES}"))
    write_packed(about / "changelog.gz", _deb_texts.changelog(releases))
    manual = (_about.LINUX / "greenroom.1").read_text(encoding="utf-8")
    manual = manual.replace("@VERSION@", _about.version()).replace("@DAY@", str(releases[0].day))
    write_packed(share / "man" / "man1" / "greenroom.1.gz", manual)
    overrides = (_about.LINUX / "lintian-overrides").read_text(encoding="utf-8")
    write(share / "lintian" / "overrides" / _deb_texts.PACKAGE, overrides)


def describe(tree: Path) -> None:
    """Set the rights of every file and write what the package says of itself."""
    files = set_rights(tree)
    sums = [
        f"{hashlib.md5(path.read_bytes(), usedforsecurity=False).hexdigest()}  {path.relative_to(tree)}"
        for path in files
    ]
    kilobytes = sum(path.stat().st_size for path in files) // 1024
    architecture = subprocess.run(
        ["dpkg", "--print-architecture"], capture_output=True, text=True, check=True
    ).stdout.strip()
    about = tree / "DEBIAN"
    write(about / "control", _deb_texts.control(architecture, sys.version_info[:2], kilobytes))
    write(about / "md5sums", "\n".join(sums) + "\n")
    write(about / "postinst", AFTER_INSTALL, mode=0o755)
    write(about / "prerm", BEFORE_REMOVAL, mode=0o755)
    about.chmod(0o755)


def set_rights(tree: Path) -> list[Path]:
    """Let everybody read every file and only the launcher be run; return the files in order."""
    files = []
    for path in sorted(tree.rglob("*")):
        if path.is_symlink():
            continue
        runs = path.is_dir() or path == tree / "usr/bin/greenroom"
        path.chmod(0o755 if runs else 0o644)
        if path.is_file():
            files.append(path)
    return files


def pack(tree: Path, folder: Path, compression: tuple[str, str]) -> Path:
    """Pack a laid out tree into a folder and return the package."""
    folder.mkdir(exist_ok=True)
    command = ["dpkg-deb", "--root-owner-group", *compression, "--build", str(tree), str(folder)]
    told = subprocess.run(command, capture_output=True, text=True, check=False)
    if told.returncode:
        raise SystemExit(f"dpkg-deb could not pack the package: {told.stderr.strip()}")
    version = _deb_texts.debian_version(_about.version())
    (built,) = folder.glob(f"{_deb_texts.PACKAGE}_{version}_*.deb")
    return built


def write(path: Path, text: str, mode: int = 0o644) -> None:
    """Write a text file of the package, and the folders above it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8", newline="\n")
    path.chmod(mode)


def write_packed(path: Path, text: str) -> None:
    """Write a text file packed, without a note of when."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(gzip.compress(text.encode(), 9, mtime=0))


if __name__ == "__main__":
    sys.exit(main())
