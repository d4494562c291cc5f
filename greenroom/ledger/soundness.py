"""What a fact must be before it is kept: of the right types, true on its own, and in one form.

SQLite keeps nearly anything in any column: it makes NaN a NULL, text of a number and a blob of
another library's integer. What it would change is refused here instead, in a sentence, so that a
fact read back is always the fact that was written.
"""

from __future__ import annotations

import types
import typing
from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import fields, replace
from datetime import UTC, date, datetime
from functools import cache
from operator import attrgetter
from typing import Any

from greenroom.ledger.facts import KINDS, ROWS, BadFactError, Fact, WeatherDay
from greenroom.ledger.facts.place import WEATHER_RANGES
from greenroom.speech import tr

LARGEST_INTEGER = 2**31 - 1  # what every database keeps
LARGEST_NUMBER = 1e300
FIRST_YEAR, LAST_YEAR = 1801, 2199  # of facts and moments: the sun is reckoned for a year more each way
FIRST_DATE, LAST_DATE = 1700, 2200  # of the days told in them: records of weather are older than any deed
SURROGATES = ("\ud800", "\udfff")  # half characters, which no file can hold


def sound(facts: Iterable[Fact]) -> list[Fact]:
    """Return the facts as they will be read back; raise BadFactError if one cannot be kept."""
    kept: dict[str, Fact] = {}
    for fact in facts:
        one = _sound(fact)
        if one.id in kept:
            raise BadFactError(
                tr("two facts of one act have the id {id!r}; each needs one of its own", id=one.id)
            )
        kept[one.id] = one
    return list(kept.values())


def _sound(fact: Fact) -> Fact:
    if KINDS.get(getattr(fact, "kind", "")) is not type(fact):
        raise BadFactError(
            tr("{fact!r} is no kind of fact; {kinds} are allowed", fact=fact, kinds=", ".join(KINDS))
        )
    changed = {}
    for name, (plain, optional) in forms_of(fact.kind).items():
        value = getattr(fact, name)
        if value is None and optional:
            continue
        kept, allowed = _keep(name, plain, value)
        if kept is None:
            raise BadFactError(
                tr(
                    "the {field} of a {fact} cannot be {value!r}; {allowed} is allowed",
                    field=name,
                    fact=fact.words,
                    value=value,
                    allowed=allowed,
                )
            )
        if kept is not value:
            changed[name] = kept
    if not FIRST_YEAR <= fact.day.year <= LAST_YEAR:
        raise BadFactError(
            tr(
                "a {fact} cannot be of {day}; the years {first_year} to {last_year} are allowed",
                fact=fact.words,
                day=fact.day,
                first_year=FIRST_YEAR,
                last_year=LAST_YEAR,
            )
        )
    fact.check()
    return replace(fact, **changed) if changed else fact


def _keep(name: str, plain: Hashable, value: object) -> tuple[Any, str]:
    """Return a value as it is kept, None if it cannot be, and what is allowed in its place."""
    row = row_type(plain)
    if row is not None:
        if row in ROW_RANGES:
            allowed = tr(
                "a tuple of {field} with numbers or nothing, none beyond all ever measured,", field=name
            )
        else:
            allowed = tr("a tuple of {field} with numbers or nothing", field=name)
        return _rows(row, value), allowed
    keep, allowed = FORMS[plain]
    return keep(value), allowed


@cache
def forms_of(kind: str) -> dict[str, tuple[Any, bool]]:
    """Return the plain type of each field of a kind and whether it may be None."""
    hints = typing.get_type_hints(KINDS[kind])
    return {entry.name: plain_type(hints[entry.name]) for entry in fields(KINDS[kind])}


def plain_type(hint: object) -> tuple[Any, bool]:
    """Return the type of a field without "or None", and whether it had that."""
    if not isinstance(hint, types.UnionType):
        return hint, False
    return next(part for part in typing.get_args(hint) if part is not types.NoneType), True


def row_type(hint: object) -> type[Any] | None:
    """Return the named tuple of which a field of this type holds many, or None."""
    if typing.get_origin(hint) is not tuple:
        return None
    return next(row for row in ROWS.values() if row is typing.get_args(hint)[0])


def _row_fields(row: type[Any]) -> tuple[tuple[str, Any, bool], ...]:
    hints = typing.get_type_hints(row)
    return tuple((name, *plain_type(hints[name])) for name in row._fields)


def kept_text(value: object) -> str | None:
    """Return a text that every ledger can hold; None for one that it cannot, and for what is none."""
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
    if type(value) is not date:  # a moment is a date too, to Python
        return None
    return value if FIRST_DATE <= value.year <= LAST_DATE else None


def _moment(value: object) -> datetime | None:
    if (
        not isinstance(value, datetime)
        or value.utcoffset() is None
        or not FIRST_YEAR <= value.year <= LAST_YEAR
    ):
        return None
    return value if value.tzinfo is UTC else value.astimezone(UTC)


def _truth(value: object) -> bool | None:
    return value if isinstance(value, bool) else None


def _rows(row: type[Any], value: object) -> tuple[Any, ...] | None:
    """Return rows with every value kept; None if one of them cannot be."""
    if not isinstance(value, tuple):
        return None
    forms = [(FORMS[plain][0], optional) for _, plain, optional in ROW_FIELDS[row]]
    kept = []
    for one in value:
        if not isinstance(one, row):
            return None
        values = [keep(part) for part, (keep, _) in zip(one, forms, strict=True)]
        if any(
            found is None and not (part is None and optional)
            for found, part, (_, optional) in zip(values, one, forms, strict=True)
        ):
            return None
        kept.append(row(*values))
    return tuple(kept) if out_of_range(row, kept) is None else None


def out_of_range(row: type[Any], rows: Sequence[tuple[Any, ...]]) -> str | None:
    """Return the name of a value that some row holds and none may, or None."""
    for name, (low, high) in ROW_RANGES.get(row, {}).items():
        there = [value for value in map(attrgetter(name), rows) if value is not None]
        if there and not (low <= min(there) and max(there) <= high):
            return name
    return None


# What keeps a value of each type, and what is said to be allowed.
FORMS: dict[Any, tuple[Callable[[object], Any], str]] = {
    str: (kept_text, tr("text without control code 0 and half characters")),
    int: (_integer, tr("a whole number")),
    float: (_number, tr("a number")),
    date: (
        _day,
        tr(
            "a date without a time, of the years {first_date} to {last_date},",
            first_date=FIRST_DATE,
            last_date=LAST_DATE,
        ),
    ),
    datetime: (
        _moment,
        tr(
            "a moment with its time zone, of the years {first_year} to {last_year},",
            first_year=FIRST_YEAR,
            last_year=LAST_YEAR,
        ),
    ),
    bool: (_truth, tr("true or false")),
}

# The fields of each named tuple that facts hold many of: name, plain type, whether it may be None.
ROW_RANGES: Mapping[type[Any], Mapping[str, tuple[float, float]]] = {WeatherDay: WEATHER_RANGES}

ROW_FIELDS: dict[type[Any], tuple[tuple[str, Any, bool], ...]] = {
    row: _row_fields(row) for row in ROWS.values()
}
