"""Find which system libraries of Qt are missing on Linux, and get the packages that bring them."""

from __future__ import annotations

import ctypes
import os
import shutil
import subprocess
from collections.abc import Callable, Iterable, Mapping, Sequence

# Library file -> package of Debian and Ubuntu. Read off the NEEDED entries of the Qt 6.10 wheels.
ALWAYS = {
    "libEGL.so.1": "libegl1",
    "libGL.so.1": "libgl1",
    "libX11.so.6": "libx11-6",
    "libdbus-1.so.3": "libdbus-1-3",
    "libfontconfig.so.1": "libfontconfig1",
    "libfreetype.so.6": "libfreetype6",
    "libglib-2.0.so.0": "libglib2.0-0",
    "libgssapi_krb5.so.2": "libgssapi-krb5-2",
    "libgthread-2.0.so.0": "libglib2.0-0",
    "libxkbcommon.so.0": "libxkbcommon0",
    "libz.so.1": "zlib1g",
    "libzstd.so.1": "libzstd1",
}
X_SCREEN = {
    "libX11-xcb.so.1": "libx11-xcb1",
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-glx.so.0": "libxcb-glx0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-image.so.0": "libxcb-image0",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-randr.so.0": "libxcb-randr0",
    "libxcb-render-util.so.0": "libxcb-render-util0",
    "libxcb-shape.so.0": "libxcb-shape0",
    "libxcb-shm.so.0": "libxcb-shm0",
    "libxcb-sync.so.1": "libxcb-sync1",
    "libxcb-util.so.1": "libxcb-util1",
    "libxcb-xfixes.so.0": "libxcb-xfixes0",
    "libxcb-xkb.so.1": "libxcb-xkb1",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
}
WAYLAND_SCREEN = {
    "libwayland-client.so.0": "libwayland-client0",
    "libwayland-cursor.so.0": "libwayland-cursor0",
    "libwayland-egl.so.1": "libwayland-egl1",
}
# What Qt's part for printers opens. Without it the program runs and writes PDF, but finds no printer.
PRINTERS = {"libcups.so.2": "libcups2"}

Loader = Callable[[str], object]


def needed(environ: Mapping[str, str], platform: str) -> dict[str, str]:
    """Return the libraries Qt needs for the screens at hand, each with its package."""
    if not platform.startswith("linux"):
        return {}
    libraries = dict(ALWAYS)
    if environ.get("DISPLAY"):
        libraries |= X_SCREEN
    if environ.get("WAYLAND_DISPLAY"):
        libraries |= WAYLAND_SCREEN
    return libraries


def missing(libraries: Mapping[str, str], load: Loader = ctypes.CDLL) -> dict[str, str]:
    """Return those of the libraries that the system cannot load."""
    return {name: package for name, package in libraries.items() if not _loads(name, load)}


def apt_prefix() -> list[str] | None:
    """Return what to put before apt-get to be allowed to install, or None where it may not."""
    if shutil.which("apt-get") is None:
        return None
    if os.geteuid() == 0:
        return ["env", "DEBIAN_FRONTEND=noninteractive"]
    if shutil.which("sudo") is None or not _sudo_asks_nothing():
        return None
    return ["sudo", "-n", "env", "DEBIAN_FRONTEND=noninteractive"]


def advice(libraries: Mapping[str, str], has_apt: bool) -> str:
    """Return the sentence that tells the person how to get the missing libraries."""
    if has_apt:
        packages = " ".join(sorted(set(libraries.values())))
        return f"System packages are missing; install them with: sudo apt-get install {packages}"
    names = ", ".join(sorted(libraries))
    return f"Install the packages of this system that bring these missing parts, then start again: {names}."


def install(packages: Iterable[str], prefix: Sequence[str]) -> None:
    """Run apt to install the packages; whether they are there then is for the caller to look."""
    for command in (["update"], ["install", "--yes", "--no-install-recommends", *sorted(set(packages))]):
        subprocess.run(
            [*prefix, "apt-get", "--quiet=2", *command],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            check=False,  # an update that fails leaves older lists, and those may do
        )


def _loads(name: str, load: Loader) -> bool:
    try:
        load(name)
    except OSError:
        return False
    return True


def _sudo_asks_nothing() -> bool:
    answer = subprocess.run(
        ["sudo", "-n", "true"], stdin=subprocess.DEVNULL, capture_output=True, check=False
    )
    return answer.returncode == 0
