"""Reads one table of the guide's files, a source or an entry, and refuses whatever is not right in it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from greenroom.guide.keys import LABELS, LISTS, SOURCE_KEYS, VALUES, Key
from greenroom.guide.records import Cited, Rank, Seen, Source, Status
from greenroom.guide.shapes import Shape
from greenroom.speech import tr_resource

SOURCES_FILE = "sources.toml"
AGAINST = "against"
GROUPS = (*Status, AGAINST)
ENTRY_KEY = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")
FIGURES = VALUES | LISTS


class GuideError(ValueError):
    """Something in the guide's files is not right; its sentence says where, what, and what is allowed."""


@dataclass(frozen=True, slots=True)
class Place:
    """Where in the files something stands."""

    file: str
    entry: str

    def refuse(self, key: str, fault: str) -> GuideError:
        """Return the error whose sentence begins with the file, the entry and the key."""
        return GuideError(f"{self.file}, {self.entry}, {key}: {fault}")

    def refuse_key(self, key: str, known: Iterable[str]) -> GuideError:
        """Return the error of a key that is none of those known."""
        return self.refuse(key, f"is not a known key; allowed are {', '.join(known)}.")

    def value(self, key: str, raw: object, shape: Shape) -> Any:  # noqa: ANN401 - the shape decides
        """Return a value of the shape it must have; GuideError if it has another."""
        try:
            return shape.read(raw)
        except ValueError as error:
            raise self.refuse(key, f"{raw!r} is not allowed; {shape.allowed} is.") from error

    def table(self, key: str, raw: object) -> dict[str, Any]:
        """Return what must be a table; GuideError if it is none."""
        if not isinstance(raw, dict):
            raise self.refuse(key, f"{raw!r} is not allowed; a table is.")
        return raw


def entry_place(file: str, key: str) -> Place:
    """Return the place of an entry, whose key must be one that an entry may have."""
    place = Place(file, key)
    if not ENTRY_KEY.fullmatch(key):
        raise place.refuse("key", "is not allowed; small letters, digits and single hyphens are.")
    return place


@dataclass(frozen=True, slots=True)
class Draft:
    """One entry as written, before it takes over what it inherits."""

    place: Place
    labels: dict[str, Any]
    values: dict[str, Cited[Any]] = field(default_factory=dict)
    lists: dict[str, list[Cited[str]]] = field(default_factory=lambda: {name: [] for name in LISTS})
    against: list[tuple[str, Cited[Any]]] = field(default_factory=list)


def read_source(key: str, table: object, file: str = SOURCES_FILE) -> Source:
    """Return the source that a table of sources.toml, or of another file, describes."""
    place = Place(file, key)
    said = {name: _read(place, name, raw, SOURCE_KEYS) for name, raw in place.table("source", table).items()}
    for needed in ("author", "seen"):
        if needed not in said:
            raise place.refuse(needed, "is missing; every source names its author and how it was seen.")
    if "title" not in said and "note" not in said:
        raise place.refuse(
            "title", "is missing; a source whose title is not known says in a note what it is."
        )
    year = said.get("year")
    return Source(
        key=key,
        author=tr_resource(said["author"]) if key == Status.MEMORY else said["author"],
        title=said.get("title"),
        year=None if year is None else int(year),
        seen=Seen(said["seen"]),
        note=said.get("note"),
    )


def read_sources(tables: Mapping[str, object], file: str = SOURCES_FILE) -> dict[str, Source]:
    """Return the sources that the tables of a file describe, by key."""
    return {key: read_source(key, table, file) for key, table in tables.items()}


def read_entry(file: str, key: str, table: object, sources: Mapping[str, Source]) -> Draft:
    """Return the entry that a table of a crop file describes."""
    place = entry_place(file, key)
    entry = place.table("entry", table)
    draft = Draft(place, _labels(place, entry))
    for group in GROUPS:
        for source, values in _by_source(place, group, entry.get(group, {}), sources):
            for name, raw in values.items():
                _put(draft, group, source, name, raw)
    return draft


def _labels(place: Place, entry: dict[str, Any]) -> dict[str, Any]:
    labels: dict[str, Any] = {"aliases": ()}
    for name, raw in entry.items():
        if name in FIGURES:
            ways = f"[{place.entry}.read.SOURCE], [{place.entry}.computed.SOURCE] or [{place.entry}.memory]"
            raise place.refuse(name, f"has no source; it is allowed under {ways}.")
        if name not in GROUPS:
            labels[name] = _read(place, name, raw, LABELS, also=GROUPS)
    for needed in ("name", "rank"):
        if needed not in labels:
            raise place.refuse(needed, "is missing; every entry has a name and a rank.")
    return labels | {"rank": Rank(labels["rank"]), "aliases": _other_names(entry["name"], labels)}


def _other_names(english: str, labels: dict[str, Any]) -> tuple[str, ...]:
    """Return what else it goes by: in English, and in the language of the program."""
    names = (english, *labels["aliases"])
    others = dict.fromkeys((*names, *map(tr_resource, names)))
    return tuple(name for name in others if name != labels["name"])


def _by_source(
    place: Place, group: str, raw: object, sources: Mapping[str, Source]
) -> Iterator[tuple[Source, dict[str, Any]]]:
    table = place.table(group, raw)
    for key, values in ({group: table} if group == Status.MEMORY and table else table).items():
        where = group if key == group else f"{group}.{key}"
        if key in FIGURES:
            raise place.refuse(where, f"has no source; it is allowed under [{place.entry}.{group}.SOURCE].")
        if key not in sources or (key == Status.MEMORY) is not (group == Status.MEMORY):
            raise place.refuse(where, f"{key!r} is not a source; a key of {SOURCES_FILE} is allowed.")
        yield sources[key], place.table(where, values)


def _put(draft: Draft, group: str, source: Source, key: str, raw: object) -> None:
    place = draft.place
    value = _read(place, key, raw, FIGURES)
    status = Status.READ if group == AGAINST else Status(group)
    if key in LISTS:
        draft.lists[key].extend(Cited(text, source, status, place.entry) for text in value)
        return
    cited = Cited(value, source, status, place.entry)
    if group == AGAINST:
        draft.against.append((key, cited))
    elif key in draft.values:
        other = draft.values[key].source.key
        raise place.refuse(
            key, f"is given by {other} and by {source.key}; one is allowed, the other under {AGAINST}."
        )
    else:
        draft.values[key] = cited


def _read(place: Place, key: str, raw: object, keys: Mapping[str, Key], also: tuple[str, ...] = ()) -> Any:  # noqa: ANN401 - the key decides
    if key not in keys:
        raise place.refuse_key(key, (*keys, *also))
    return place.value(key, raw, keys[key].shape)
