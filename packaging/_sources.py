"""Finds every text of the program that is to be translated, in its code and its resources."""

from __future__ import annotations

import ast
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

GUIDE = "guide"
"""The sense under which the texts of resources are looked up, as in greenroom/speech.py."""
Keys = tuple[str, ...]
SPOKEN = {"tr": 1, "trn": 2, "many": 2, "marked": 1}
"""What takes an English text, and how many arguments it says it with."""

CROPS = (
    "*.name",
    "*.aliases",
    "*.*.pests",
    "*.*.notes",
    "*.*.*.pests",
    "*.*.*.notes",
    "*.*.test_directions",
    "*.*.*.test_directions",
)
PROSE: dict[str, tuple[str, ...]] = {
    **{
        f"guide/{group}.toml": CROPS
        for group in (
            "alliums",
            "brassicas",
            "common",
            "cucurbits",
            "flowers",
            "herbs",
            "leaves",
            "nightshades",
            "other-vegetables",
            "peppers",
            "tomatoes",
        )
    },
    "guide/sources.toml": ("*.note", "memory.author"),
    "guide/troubles.toml": (
        "rules.spray",
        "rules.doubt",
        "sources.*.note",
        "pests.*.name",
        "pests.*.look",
        "pests.*.seen",
        "pests.*.count",
        "pests.*.now",
        "pests.*.later",
        "pests.*.threshold.words",
        "signs.*.name",
        "signs.*.seen",
        "signs.*.questions.ask",
        "signs.*.questions.answers.*",
        "signs.*.causes.name",
        "signs.*.causes.check",
        "signs.*.causes.now",
        "signs.*.causes.later",
    ),
    "help/glossary.toml": ("sources.*.note", "terms.*.name", "terms.*.also", "terms.*.words"),
}
"""The fields of each resource, by its path under resources/, that are texts for the grower.

A field is named by the keys that lead to it, a star for any key; lists on the way are not counted.
"""


@dataclass(frozen=True, slots=True)
class Message:
    """A text to translate: its English source, its sense, whether it counts, and the files it is in."""

    source: str
    sense: str
    counts: bool
    places: tuple[str, ...]


class SourceError(ValueError):
    """A text that cannot be gathered, said with its file and line."""


def messages(root: Path) -> list[Message]:
    """Return every text, each once, in the order of the files they are first in.

    Raises
    ------
    SourceError
        If a text is not written out where it is said.
    """
    found: dict[tuple[str, str], tuple[bool, list[str]]] = {}
    for place, source, sense, counts in (*_in_code(root), *_in_resources(root)):
        held, places = found.setdefault((source, sense), (counts, []))
        if held is not counts:
            raise SourceError(f"{place}: {source!r} counts in one place and not in another.")
        if place not in places:
            places.append(place)
    return [
        Message(source, sense, counts, tuple(places)) for (source, sense), (counts, places) in found.items()
    ]


def _in_code(root: Path) -> Iterator[tuple[str, str, str, bool]]:
    for file in sorted((root / "greenroom").rglob("*.py")):
        place = file.relative_to(root).as_posix()
        if place == "greenroom/speech.py":
            continue
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in SPOKEN:
                yield place, *_said(node, node.func.id, f"{place}:{node.lineno}")


def _said(node: ast.Call, name: str, where: str) -> tuple[str, str, bool]:
    sense = next((_written(one.value, where) for one in node.keywords if one.arg == "sense"), "")
    if name == "many":
        return f"{{n:,}} {_written(node.args[1], where)}s", sense, True
    return _written(node.args[SPOKEN[name] - 1], where), sense, name == "trn"


def _written(node: ast.expr, where: str) -> str:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    raise SourceError(f"{where}: the text is not written out; a text in quotes is needed.")


def _in_resources(root: Path) -> Iterator[tuple[str, str, str, bool]]:
    for name, fields in sorted(PROSE.items()):
        file = root / "resources" / name
        wanted = tuple(tuple(field.split(".")) for field in fields)
        for text in _prose(tomllib.loads(file.read_text(encoding="utf-8")), wanted):
            yield f"resources/{name}", text, GUIDE, False


def _prose(held: object, fields: Sequence[Keys], at: Keys = ()) -> Iterator[str]:
    """Walk a resource; yield the texts that stand in one of the fields, alone or in a list."""
    if isinstance(held, dict):
        for key, value in held.items():
            yield from _prose(value, fields, (*at, key))
    elif isinstance(held, list):
        for value in held:
            yield from _prose(value, fields, at)
    elif isinstance(held, str) and any(_is_in(at, field) for field in fields):
        yield held


def _is_in(at: Keys, field: Keys) -> bool:
    return len(at) == len(field) and all(key in ("*", here) for here, key in zip(at, field, strict=True))
