"""Missing system libraries are found before Qt stumbles over them, and named with the way to get them."""

import re
import shutil
import subprocess
from pathlib import Path

import pytest

LINUX = "linux"


@pytest.fixture
def libraries(script):
    return script("_libraries")


def test_only_what_cannot_be_loaded_is_missing(libraries):
    def load(name):
        if name == "libEGL.so.1":
            raise OSError(f"{name}: cannot open shared object file")

    found = libraries.missing({"libEGL.so.1": "libegl1", "libGL.so.1": "libgl1"}, load)
    assert found == {"libEGL.so.1": "libegl1"}


def test_a_library_of_no_system_is_missing_and_the_c_library_is_not(libraries):
    found = libraries.missing({"libc.so.6": "libc6", "libno-such-thing.so.9": "nothing"})
    assert found == {"libno-such-thing.so.9": "nothing"}


def test_a_screen_needs_its_own_libraries_on_top(libraries):
    none = libraries.needed({}, LINUX)
    x = libraries.needed({"DISPLAY": ":0"}, LINUX)
    both = libraries.needed({"DISPLAY": ":0", "WAYLAND_DISPLAY": "wayland-0"}, LINUX)
    assert none == libraries.ALWAYS
    assert "libxcb-cursor.so.0" in x.keys() - none.keys()
    assert "libwayland-cursor.so.0" in both.keys() - x.keys()


@pytest.mark.parametrize("platform", ["darwin", "win32"])
def test_other_systems_bring_what_qt_needs(libraries, platform):
    assert libraries.needed({"DISPLAY": ":0"}, platform) == {}


def test_the_command_names_each_package_once(libraries):
    sentence = libraries.advice(
        {"libgthread-2.0.so.0": "libglib2.0-0", "libglib-2.0.so.0": "libglib2.0-0", "libGL.so.1": "libgl1"},
        has_apt=True,
    )
    assert sentence.endswith(": sudo apt-get install libgl1 libglib2.0-0")


def test_where_there_is_no_apt_the_libraries_themselves_are_named(libraries):
    sentence = libraries.advice({"libGL.so.1": "libgl1"}, has_apt=False)
    assert "libGL.so.1" in sentence
    assert "apt" not in sentence


def test_nothing_is_installed_where_neither_root_nor_sudo_allows_it(libraries, monkeypatch):
    monkeypatch.setattr(libraries.os, "geteuid", lambda: 1000, raising=False)
    present = {"apt-get": "/usr/bin/apt-get"}
    monkeypatch.setattr(libraries.shutil, "which", present.get)
    assert libraries.apt_prefix() is None
    present["sudo"] = "/usr/bin/sudo"
    monkeypatch.setattr(libraries, "_sudo_asks_nothing", lambda: False)
    assert libraries.apt_prefix() is None
    monkeypatch.setattr(libraries, "_sudo_asks_nothing", lambda: True)
    assert libraries.apt_prefix()[0] == "sudo"


@pytest.mark.skipif(shutil.which("dpkg") is None, reason="needs the package database of Debian or Ubuntu")
def test_the_packages_are_those_that_debian_says_bring_the_libraries(libraries):
    """Expected: the package database of the system itself (dpkg -S)."""
    table = libraries.ALWAYS | libraries.X_SCREEN | libraries.WAYLAND_SCREEN | libraries.PRINTERS
    present = table.keys() - libraries.missing(table).keys()
    assert libraries.ALWAYS.keys() <= present
    owners = _owners(present)
    assert [name for name in sorted(present) if table[name] not in owners[name]] == []


def _owners(names):
    """The packages that hold each library; later Debians append t64 to some of their names."""
    command = ["dpkg", "-S", *(f"*/{name}" for name in names)]
    answer = subprocess.run(command, capture_output=True, text=True, check=False)
    owners = {name: set() for name in names}
    for line in answer.stdout.splitlines():
        packages, _, path = line.rpartition(": ")
        if not line.startswith("diversion") and Path(path).name in owners:
            found = {re.sub("t64$", "", package.split(":")[0].strip()) for package in packages.split(",")}
            owners[Path(path).name] |= found
    return owners
