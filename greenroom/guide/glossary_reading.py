"""Reads the glossary, and refuses whatever is not right in it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from greenroom.guide.entries import SOURCES_FILE, Place, entry_place, read_sources
from greenroom.guide.glossary import Glossary, Term
from greenroom.guide.loader import tables_of
from greenroom.guide.matching import plain
from greenroom.guide.records import Source
from greenroom.guide.shapes import Shape, Text, TextList
from greenroom.own_files import resources_folder
from greenroom.speech import tr_resource

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

FILE = "glossary.toml"
SHAPES: Mapping[str, Shape] = MappingProxyType(
    {"name": Text(), "words": Text(), "sources": TextList(), "also": TextList(), "see": TextList()}
)
NEEDED = ("name", "words", "sources")
LINKED = "linked"


@cache
def own_glossary() -> Glossary:
    """Return the glossary that comes with the program, read when it is first asked for."""
    return load_glossary()


def load_glossary(file: Path | Traversable | None = None) -> Glossary:
    """Read a glossary; by default the one that comes with the program.

    Its sources are its own and those of the guide that comes with the program.

    Raises
    ------
    GuideError
        If the file is not TOML, or a key, a value, a source or another word named in it is not right.
    FileNotFoundError
        If the file is missing.
    """
    place = resources_folder() / "help" / FILE if file is None else file
    if not place.is_file():
        raise FileNotFoundError(f"The glossary cannot be read: there is no file {FILE} in its folder.")
    told = tables_of(place)
    listed = tables_of(resources_folder() / "guide" / SOURCES_FILE)
    sources = read_sources(listed) | read_sources(told.get("sources", {}), FILE)
    terms = {key: _term(key, table, sources) for key, table in told.get("terms", {}).items()}
    _check_links(terms)
    in_order = sorted(map(_spoken, terms.values()), key=lambda term: plain(term.name))
    return Glossary(MappingProxyType({term.key: term for term in in_order}))


def _term(key: str, table: object, sources: Mapping[str, Source]) -> Term:
    at = entry_place(FILE, key)
    said = _values(at, table)
    for source in said["sources"]:
        if source not in sources:
            raise at.refuse("sources", f"{source!r} is not a source; a key of {FILE} or {SOURCES_FILE} is.")
    return Term(key=key, **said | {"sources": tuple(sources[one] for one in said["sources"])})


def _spoken(term: Term) -> Term:
    """Return a word in the language of the program."""
    name = tr_resource(term.name)
    also = dict.fromkeys(map(tr_resource, term.also))
    return replace(
        term, name=name, words=tr_resource(term.words), also=tuple(form for form in also if form != name)
    )


def _values(at: Place, table: object) -> dict[str, Any]:
    values = at.table("terms", table)
    missing = next((key for key in NEEDED if key not in values), None)
    if missing is not None:
        raise at.refuse(missing, "is missing; every word has a name, a meaning and a source.")
    return {key: _value(at, key, raw) for key, raw in values.items()}


def _value(at: Place, key: str, raw: object) -> object:
    if key == LINKED:
        if not isinstance(raw, bool):
            raise at.refuse(key, f"{raw!r} is not allowed; true or false is.")
        return raw
    if key not in SHAPES:
        raise at.refuse_key(key, (*SHAPES, LINKED))
    value: object = at.value(key, raw, SHAPES[key])
    return value


def _check_links(terms: Mapping[str, Term]) -> None:
    """Refuse a form that two words share, and a word to see also that is none."""
    forms: dict[str, str] = {}
    for term in terms.values():
        at = Place(FILE, term.key)
        for other in term.see:
            if other not in terms or other == term.key:
                raise at.refuse("see", f"{other!r} is not allowed; the key of another word is.")
        for form in term.forms:
            taken = forms.setdefault(form.casefold(), term.key)
            if taken != term.key:
                raise at.refuse(
                    "also", f"{form!r} is written so in {taken}, too; one word of a form is allowed."
                )
