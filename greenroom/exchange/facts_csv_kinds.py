"""The facts as tables: one a kind, its columns from the fields of the fact, and one for rows facts hold."""

from __future__ import annotations

import typing
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields
from datetime import UTC, date, datetime
from typing import Any

from greenroom.exchange.tables.table import Cell, Column, Kind, Table
from greenroom.ledger import Entry
from greenroom.ledger.facts import KINDS, ROW_KEYS, ROWS, Fact
from greenroom.ledger.soundness import plain_type, row_type
from greenroom.speech import tr

KINDS_OF_COLUMN: dict[type, Kind] = {
    str: Kind.TEXT,
    int: Kind.WHOLE,
    float: Kind.NUMBER,
    bool: Kind.YES_NO,
    date: Kind.DATE,
    datetime: Kind.MOMENT,
}
NUMBER = Column("number", "number", Kind.WHOLE)
OWNER = "fact"
UNITS = {
    "_c": "°C",
    "_ml": "mL",
    "grams": "g",
    "_g": "g",
    "_cm": "cm",
    "_mm": "mm",
    "_ms": "m/s",
    "_m2": "W/m²",
    "_m": "m",
    "_deg": "degrees clockwise",
    "litres": "L",
    "_percent": "%",
    "ppm_n": "mg N/L",
    "celsius": "°C",
    "ppfd": "µmol/m²/s",
    "lux": "lx",
    "_minutes": "min",
    "hours": "h",
    "_days": "days",
    "latitude": "degrees north",
    "longitude": "degrees east",
}
"""What a field counts in, by how its name ends; the first that fits."""


@dataclass(frozen=True, slots=True)
class FactTable:
    """The facts of one kind, or the rows they hold; ``words`` says what one row is.

    ``needed`` are the columns that are never empty, ``key`` those that tell its rows apart.
    """

    file: str
    words: str
    table: Table
    needed: frozenset[str]
    key: tuple[str, ...]
    owner: str | None = None


def fact_tables(entries: Sequence[Entry]) -> list[FactTable]:
    """Return a table for each kind of fact in force, and for the rows those hold, in the order of kinds."""
    by_kind: dict[str, list[Entry]] = {kind: [] for kind in KINDS}
    for entry in entries:
        by_kind[entry.fact.kind].append(entry)
    return [
        table
        for kind, found in by_kind.items()
        if found
        for table in (_kind_table(KINDS[kind], found), *_row_tables(KINDS[kind], found))
    ]


def unit_of(key: str) -> str:
    """Return what a field counts in; nothing where its name says none."""
    return next((unit for ending, unit in UNITS.items() if key.endswith(ending)), "")


def _kind_table(cls: type[Fact], entries: Sequence[Entry]) -> FactTable:
    hints = typing.get_type_hints(cls)
    names = [one.name for one in fields(cls) if row_type(hints[one.name]) is None]
    columns = (NUMBER, *(_column(name, hints[name]) for name in names))
    rows = ((entry.number, *(_cell(getattr(entry.fact, name)) for name in names)) for entry in entries)
    needed = {"number", *(name for name in names if _always_there(hints[name]))}
    return FactTable(
        f"{cls.kind}.csv", cls.words, Table.of(cls.kind, columns, rows), frozenset(needed), ("id",)
    )


def _row_tables(cls: type[Fact], entries: Sequence[Entry]) -> Iterator[FactTable]:
    hints = typing.get_type_hints(cls)
    for one in fields(cls):
        row = row_type(hints[one.name])
        if row is not None:
            yield _row_table(cls, one.name, row, entries)


def _row_table(cls: type[Fact], field: str, row: type[Any], entries: Sequence[Entry]) -> FactTable:
    hints = typing.get_type_hints(row)
    columns = (Column(OWNER, OWNER), *(_column(name, hints[name]) for name in row._fields))
    rows = ((entry.fact.id, *map(_cell, held)) for entry in entries for held in getattr(entry.fact, field))
    needed = {OWNER, *(name for name in row._fields if _always_there(hints[name]))}
    kept_as = next(key for key, known in ROWS.items() if known is row)
    name = f"{cls.kind}_{kept_as}"
    words = tr("row of a {kind}", sense="of a file", kind=cls.words)
    key = (OWNER, *ROW_KEYS[kept_as])
    return FactTable(
        f"{name}.csv", words, Table.of(name, columns, rows), frozenset(needed), key, owner=f"{cls.kind}.csv"
    )


def _column(name: str, hint: object) -> Column:
    return Column(name, name, KINDS_OF_COLUMN[plain_type(hint)[0]], unit_of(name))


def _always_there(hint: object) -> bool:
    """Whether a field is never empty in the file: text may be, for that of no letters is not told apart."""
    plain, optional = plain_type(hint)
    return not optional and plain is not str


def _cell(value: Any) -> Cell:  # noqa: ANN401 whatever a fact holds
    if isinstance(value, datetime):
        return value.astimezone(UTC)
    return typing.cast(Cell, value)
