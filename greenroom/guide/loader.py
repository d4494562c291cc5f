"""Reads the guide's files."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from greenroom.guide.catalogue import Guide
from greenroom.guide.entries import SOURCES_FILE, Draft, GuideError, Place, read_entry, read_sources
from greenroom.guide.inheritance import crop_of
from greenroom.own_files import resources_folder

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

NO_CROPS = frozenset({SOURCES_FILE, "troubles.toml"})
"""Files of the guide that hold no crops."""


@cache
def own_guide() -> Guide:
    """Return the guide that comes with the program, read when it is first asked for."""
    return load_guide()


def load_guide(folder: Path | Traversable | None = None) -> Guide:
    """Read the list of sources and every crop file.

    Parameters
    ----------
    folder
        The folder with sources.toml and one file a crop group; by default the one that comes with
        the program.

    Raises
    ------
    GuideError
        If a file is not TOML, or an entry, key, value, source or inheritance in it is not right.
    FileNotFoundError
        If the folder, or the list of sources in it, is missing.
    """
    place = resources_folder() / "guide" if folder is None else folder
    if not (place / SOURCES_FILE).is_file():
        raise FileNotFoundError(f"The guide cannot be read: there is no file {SOURCES_FILE} in {place}.")
    sources = read_sources(tables_of(place / SOURCES_FILE))
    drafts: dict[str, Draft] = {}
    for file in _crop_files(place):
        for key, table in tables_of(file).items():
            if key in drafts:
                fault = f"stands already in {drafts[key].place.file}; one entry of a key is allowed."
                raise Place(file.name, key).refuse("key", fault)
            drafts[key] = read_entry(file.name, key, table, sources)
    entries = {key: crop_of(key, drafts) for key in drafts}
    return Guide(MappingProxyType(entries), MappingProxyType(sources))


def _crop_files(folder: Path | Traversable) -> list[Path | Traversable]:
    files = [each for each in folder.iterdir() if each.name.endswith(".toml") and each.name not in NO_CROPS]
    return sorted(files, key=lambda file: file.name)


def tables_of(file: Path | Traversable) -> dict[str, Any]:
    """Return the tables of one file of the guide; GuideError if it is not TOML."""
    try:
        return tomllib.loads(file.read_bytes().decode("utf-8"))
    except ValueError as error:  # what is not TOML as well as what is not UTF-8
        raise GuideError(f"{file.name}: cannot be read; TOML in UTF-8 is allowed ({error}).") from error
