"""Reads troubles.toml, and refuses whatever is not right in it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any

from greenroom.guide.entries import SOURCES_FILE, Place, entry_place, read_sources
from greenroom.guide.loader import tables_of
from greenroom.guide.records import Source
from greenroom.guide.shapes import Choice, Number, Prose, ProseList, Shape, Text, TextList
from greenroom.guide.troubles import (
    FIELDS,
    OFTEN,
    SPEAKS,
    STAGES,
    Cause,
    Pest,
    Question,
    Sign,
    Threshold,
    Troubles,
)
from greenroom.own_files import resources_folder

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

FILE = "troubles.toml"
TEXT, PROSE, LIST = Text(), Prose(), TextList()
CITED: dict[str, Shape] = {"name": PROSE, "sources": LIST, "from_memory": LIST}
PEST: dict[str, Shape] = {
    **CITED,
    "picture": TEXT,
    "look": PROSE,
    "seen": PROSE,
    "now": ProseList(),
    "later": PROSE,
    "count": PROSE,
}
CAUSE: dict[str, Shape] = {
    **CITED,
    "key": TEXT,
    "often": Choice(OFTEN),
    "check": PROSE,
    "now": PROSE,
    "later": PROSE,
}
SIGN: dict[str, Shape] = {"name": PROSE, "stage": Choice(STAGES), "picture": TEXT, "seen": PROSE}
QUESTION: dict[str, Shape] = {"key": TEXT, "ask": PROSE, "known": TEXT}
OPTIONAL = frozenset({"count", "known", "threshold"})
MOST = Number(1, 100_000, "")

Sources = Mapping[str, Source]


def load_troubles(folder: Path | Traversable | None = None) -> Troubles:
    """Read the troubles of a guide's folder; by default of the one that comes with the program.

    Raises
    ------
    GuideError
        If the file is not TOML, or a key, value, source, question or answer in it is not right.
    FileNotFoundError
        If the file is missing.
    """
    place = resources_folder() / "guide" if folder is None else folder
    for name in (FILE, SOURCES_FILE):
        if not (place / name).is_file():
            raise FileNotFoundError(f"The guide cannot be read: there is no file {name} in {place}.")
    told = tables_of(place / FILE)
    sources = read_sources(tables_of(place / SOURCES_FILE)) | read_sources(told.get("sources", {}), FILE)
    rules = told.get("rules", {})
    at = Place(FILE, "rules")
    return Troubles(
        MappingProxyType({key: _pest(key, table, sources) for key, table in told.get("pests", {}).items()}),
        MappingProxyType({key: _sign(key, table, sources) for key, table in told.get("signs", {}).items()}),
        MappingProxyType(sources),
        at.value("spray", rules.get("spray"), PROSE),
        _sources(at, rules.get("spray_sources"), sources),
        at.value("doubt", rules.get("doubt"), PROSE),
    )


def _pest(key: str, table: dict[str, Any], sources: Sources) -> Pest:
    at = entry_place(FILE, key)
    said = _read(at, table, PEST, also=("threshold",))
    threshold = table.get("threshold")
    if threshold is not None:
        said["threshold"] = _threshold(at, threshold, sources)
    return Pest(key=key, **_cited(at, said, sources))


def _threshold(at: Place, table: dict[str, Any], sources: Sources) -> Threshold:
    return Threshold(
        int(at.value("threshold.at", table.get("at"), MOST)),
        at.value("threshold.words", table.get("words"), PROSE),
        _sources(at, [table.get("source")], sources)[0],
    )


def _sign(key: str, table: dict[str, Any], sources: Sources) -> Sign:
    at = entry_place(FILE, key)
    said = _read(at, table, SIGN, also=("questions", "causes"))
    questions = tuple(_question(at, one) for one in table.get("questions", []))
    causes = tuple(_cause(at, one, questions, sources) for one in table.get("causes", []))
    for name, found, least in (("questions", questions, 2), ("causes", causes, 2)):
        keys = [one.key for one in found]
        if len(keys) < least or len(set(keys)) < len(keys):
            raise at.refuse(name, f"{keys} are not allowed; {least} or more of different keys are.")
    return Sign(key=key, questions=questions, causes=causes, **said)


def _question(at: Place, table: dict[str, Any]) -> Question:
    said = _read(at, table, QUESTION, also=("answers", "bands"))
    answers, bands = table.get("answers", {}), table.get("bands", [])
    if len(answers) < 2:
        raise at.refuse(f"answers to {said['key']}", f"{answers!r} is not allowed; two or more are.")
    words = {key: at.value(f"answers.{key}", text, PROSE) for key, text in answers.items()}
    if bands and (len(bands) != len(answers) - 1 or bands != sorted(set(bands))):
        raise at.refuse(
            f"bands of {said['key']}", f"{bands} is not allowed; a rising limit between answers is."
        )
    return Question(said["key"], said["ask"], MappingProxyType(words), said.get("known"), tuple(bands))


def _cause(at: Place, table: dict[str, Any], questions: Iterable[Question], sources: Sources) -> Cause:
    said = _read(at, table, CAUSE, also=("when",))
    known = {one.key: one.answers for one in questions}
    when = {}
    for key, answers in table.get("when", {}).items():
        if key not in known:
            raise at.refuse(f"{said['key']}, when", f"{key!r} is no question; {', '.join(known)} are.")
        for answer, speaks in answers.items():
            if answer not in known[key]:
                raise at.refuse(f"{said['key']}, {key}", f"{answer!r} is no answer; {_list(known[key])} are.")
            at.value(f"{said['key']}, {key}.{answer}", speaks, Choice(SPEAKS))
        when[key] = MappingProxyType(dict(answers))
    return Cause(when=MappingProxyType(when), **_cited(at, said, sources))


def _read(
    at: Place, table: dict[str, Any], shapes: Mapping[str, Shape], also: tuple[str, ...] = ()
) -> dict[str, Any]:
    for key in table:
        if key not in shapes and key not in also:
            raise at.refuse_key(key, (*shapes, *also))
    missing = [key for key in shapes if key not in table and key not in OPTIONAL]
    if missing:
        raise at.refuse(missing[0], "is missing.")
    empty = {"from_memory"}  # it alone may be an empty list
    return {
        key: () if key in empty and table[key] == [] else at.value(key, table[key], shape)
        for key, shape in shapes.items()
        if key in table
    }


def _cited(at: Place, said: dict[str, Any], sources: Sources) -> dict[str, Any]:
    """Return what was said with its sources in place of their keys."""
    for name in said["from_memory"]:
        if name not in FIELDS or name not in said:
            raise at.refuse("from_memory", f"{name!r} is no field of it; {_list(FIELDS)} may be.")
    memory = frozenset(said["from_memory"])
    return said | {"sources": _sources(at, said["sources"], sources), "from_memory": memory}


def _sources(at: Place, keys: Any, sources: Sources) -> tuple[Source, ...]:  # noqa: ANN401 - as written
    if not keys:
        raise at.refuse("sources", f"{keys!r} is not allowed; one or more keys are.")
    for key in keys:
        if key not in sources:
            raise at.refuse("sources", f"{key!r} is not a source; a key of {FILE} or {SOURCES_FILE} is.")
    return tuple(sources[key] for key in keys)


def _list(words: Iterable[str]) -> str:
    return ", ".join(words)
