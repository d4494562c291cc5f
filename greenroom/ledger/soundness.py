"""What a fact must be before it is kept: of the right types, true on its own, and in one form.

SQLite keeps nearly anything in any column: it makes NaN a NULL, text of a number and a blob of
another library's integer. What it would change is refused here instead, in a sentence, so that a
fact read back is always the fact that was written.
"""

from __future__ import annotations

import types
import typing
from collections.abc import Callable, Iterable
from dataclasses import fields, replace
from datetime import UTC, date, datetime
from functools import cache
from typing import Any

from greenroom.ledger.facts import KINDS, BadFactError, Fact, WeatherDay

LARGEST_INTEGER = 2**31 - 1  # what every database keeps
LARGEST_NUMBER = 1e300
SURROGATES = ("\ud800", "\udfff")  # half characters, which no file can hold


def sound(facts: Iterable[Fact]) -> list[Fact]:
    """Return the facts as they will be read back; raise BadFactError if one cannot be kept."""
    kept: dict[str, Fact] = {}
    for fact in facts:
        one = _sound(fact)
        if one.id in kept:
            raise BadFactError(f"two facts of one act have the id {one.id!r}; each needs one of its own")
        kept[one.id] = one
    return list(kept.values())


def _sound(fact: Fact) -> Fact:
    if KINDS.get(getattr(fact, "kind", "")) is not type(fact):
        raise BadFactError(f"{fact!r} is no kind of fact; {', '.join(KINDS)} are allowed")
    changed = {}
    for name, (plain, optional) in _forms(fact.kind).items():
        value = getattr(fact, name)
        if value is None and optional:
            continue
        keep, allowed = FORMS[plain]
        kept = keep(value)
        if kept is None:
            raise BadFactError(f"the {name} of a {fact.words} cannot be {value!r}; {allowed} is allowed")
        if kept is not value:
            changed[name] = kept
    fact.check()
    return replace(fact, **changed) if changed else fact


@cache
def _forms(kind: str) -> dict[str, tuple[Any, bool]]:
    """Return the plain type of each field of a kind and whether it may be None."""
    hints = typing.get_type_hints(KINDS[kind])
    return {entry.name: plain_type(hints[entry.name]) for entry in fields(KINDS[kind])}


def plain_type(hint: object) -> tuple[Any, bool]:
    """Return the type of a field without "or None", and whether it had that."""
    if not isinstance(hint, types.UnionType):
        return hint, False
    return next(part for part in typing.get_args(hint) if part is not types.NoneType), True


def _text(value: object) -> str | None:
    if not isinstance(value, str) or "\x00" in value:
        return None
    first, last = SURROGATES
    return value if value.isascii() or not any(first <= one <= last for one in value) else None


def _integer(value: object) -> int | None:
    if not isinstance(value, int) or isinstance(value, bool) or abs(value) > LARGEST_INTEGER:
        return None
    return value


def _number(value: object) -> float | None:
    if not isinstance(value, int | float) or isinstance(value, bool) or not abs(value) <= LARGEST_NUMBER:
        return None
    return float(value)


def _day(value: object) -> date | None:
    return value if type(value) is date else None  # a moment is a date too, to Python


def _moment(value: object) -> datetime | None:
    if not isinstance(value, datetime) or value.utcoffset() is None or not 1 < value.year < 9999:
        return None
    return value if value.tzinfo is UTC else value.astimezone(UTC)


def _weather_days(value: object) -> tuple[WeatherDay, ...] | None:
    if not isinstance(value, tuple):
        return None
    kept = tuple(_weather_day(entry) for entry in value)
    return None if None in kept else typing.cast(tuple[WeatherDay, ...], kept)


def _weather_day(value: object) -> WeatherDay | None:
    if not isinstance(value, WeatherDay) or _day(value.day) is None:
        return None
    numbers = [None if number is None else _number(number) for number in value[1:]]
    lost = any(kept is None and number is not None for kept, number in zip(numbers, value[1:], strict=True))
    return None if lost else WeatherDay(value.day, *numbers)


# What keeps a value of each type, and what is said to be allowed.
FORMS: dict[Any, tuple[Callable[[object], Any], str]] = {
    str: (_text, "text without control code 0 and half characters"),
    int: (_integer, "a whole number"),
    float: (_number, "a number"),
    date: (_day, "a date without a time"),
    datetime: (_moment, "a moment with its time zone"),
    tuple[WeatherDay, ...]: (_weather_days, "a tuple of days with numbers or nothing"),
}
