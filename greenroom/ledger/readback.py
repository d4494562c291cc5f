"""What a fact read back must be: of the types its kind has, and true on its own.

A ledger is a file that others can write to, and SQLite keeps text in a column of numbers. The types are
looked at a column at a time, since a season has hundreds of thousands of facts.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date, datetime
from itertools import chain
from operator import attrgetter
from types import NoneType
from typing import Any

from greenroom.ledger.facts import Fact
from greenroom.ledger.facts.base import LONGEST_TEXT
from greenroom.ledger.soundness import (
    FIRST_DATE,
    FIRST_YEAR,
    LARGEST_INTEGER,
    LARGEST_NUMBER,
    LAST_DATE,
    LAST_YEAR,
    ROW_FIELDS,
    forms_of,
    out_of_range,
    row_type,
)
from greenroom.speech import tr


def require_sound(kind: str, facts: Sequence[Fact]) -> None:
    """Raise ValueError if a fact of one kind is not as its kind allows."""
    for name, (plain, optional) in forms_of(kind).items():
        values = list(map(attrgetter(name), facts))
        row = row_type(plain)
        if row is None:
            _require_column(name, plain, optional, values)
        else:
            _require_rows(row, list(chain.from_iterable(values)))
    for fact in facts:
        fact._check()
    days = [fact.day for fact in facts]
    if days and not (min(days).year >= FIRST_YEAR and max(days).year <= LAST_YEAR):
        raise ValueError(
            tr(
                "a day is not of the years {first_year} to {last_year}",
                first_year=FIRST_YEAR,
                last_year=LAST_YEAR,
            )
        )


def _require_rows(row: type[Any], rows: Sequence[tuple[Any, ...]]) -> None:
    for (name, plain, optional), values in zip(ROW_FIELDS[row], zip(*rows, strict=True), strict=False):
        _require_column(name, plain, optional, values)
    wrong = out_of_range(row, rows)
    if wrong is not None:
        raise ValueError(tr("a value of {field} is beyond what is allowed", field=wrong))


def _require_column(name: str, plain: Any, optional: bool, values: Collection[Any]) -> None:  # noqa: ANN401 the type is what is looked at
    odd = set(map(type, values)) - ({plain, NoneType} if optional else {plain})
    if odd:
        raise ValueError(
            tr(
                "the {field} is of the type {found} where {wanted} is allowed",
                field=name,
                found=odd.pop().__name__,
                wanted=plain.__name__,
            )
        )
    there = [value for value in values if value is not None] if optional else values
    if not _within(plain, there):
        raise ValueError(tr("a value of {field} is beyond what is allowed", field=name))


def _within(plain: Any, values: Collection[Any]) -> bool:  # noqa: ANN401 the type is what is looked at
    if not values:
        return True
    if plain is str:
        return max(map(len, values)) <= LONGEST_TEXT
    if plain in (int, float):
        largest = LARGEST_INTEGER if plain is int else LARGEST_NUMBER
        return -largest <= min(values) and max(values) <= largest
    if plain in (date, datetime):
        first, last = (FIRST_YEAR, LAST_YEAR) if plain is datetime else (FIRST_DATE, LAST_DATE)
        return first <= min(values).year and max(values).year <= last
    return True
