"""The program finds its own files, installed or not."""

from __future__ import annotations

import zipfile
from pathlib import Path

import pytest

from greenroom import own_files
from greenroom.guide import load_guide

SOURCES = '[book]\nauthor = "A. Grower"\ntitle = "Book"\nseen = "original"\n'
ENTRY = '[pepper]\nname = "Pepper"\nrank = "species"\n[pepper.read.book]\nnight_floor_c = 10\n'


def lay_out(package: Path, resources: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    package.mkdir(parents=True)
    resources.mkdir(parents=True)
    monkeypatch.setattr(own_files, "files", lambda name: package)


def test_in_a_checkout_the_files_lie_beside_the_package(tmp_path: Path, monkeypatch) -> None:
    lay_out(tmp_path / "greenroom", tmp_path / "resources", monkeypatch)
    assert own_files.resources_folder() == tmp_path / "resources"


def test_once_installed_the_files_lie_inside_the_package(tmp_path: Path, monkeypatch) -> None:
    lay_out(tmp_path / "greenroom", tmp_path / "greenroom" / "resources", monkeypatch)
    (tmp_path / "resources").mkdir()  # somebody else's
    assert own_files.resources_folder() == tmp_path / "greenroom" / "resources"


def test_files_that_are_missing_are_told_in_a_sentence(tmp_path: Path, monkeypatch) -> None:
    lay_out(tmp_path / "greenroom", tmp_path / "elsewhere", monkeypatch)
    with pytest.raises(FileNotFoundError, match=r"own files are missing: there is no folder resources in "):
        own_files.resources_folder()


def test_the_guide_is_read_from_a_packed_program_too(tmp_path: Path) -> None:
    with zipfile.ZipFile(tmp_path / "program.zip", "w") as packed:
        packed.writestr("guide/sources.toml", SOURCES)
        packed.writestr("guide/peppers.toml", ENTRY)
    with zipfile.ZipFile(tmp_path / "program.zip") as packed:
        guide = load_guide(zipfile.Path(packed) / "guide")
    assert guide.crop("pepper").night_floor_c.value == 10
