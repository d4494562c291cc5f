"""A table: its name, its columns with title, unit and kind, and its rows."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from enum import Enum
from math import isfinite, isnan

from greenroom.exchange.tables.headings import HEADINGS, UNITS

Cell = str | int | float | bool | date | datetime | None
Row = tuple[Cell, ...]


class Kind(Enum):
    """What a column holds."""

    TEXT = "text"
    WHOLE = "whole number"
    NUMBER = "number"
    YES_NO = "yes or no"
    DATE = "date"
    MOMENT = "moment with its time zone"


class TableError(ValueError):
    """Rows that do not fit their columns; the message says which and what is allowed."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column. ``key`` names it for programs, ``title`` and ``unit`` for people.

    Title, unit and cells are the same in the files whatever the language. In the window ``shown`` stands
    over it, if the title is not one of the known, and ``said`` tells how a word of a fixed list reads.
    """

    key: str
    title: str
    kind: Kind = Kind.TEXT
    unit: str = ""
    shown: str = ""
    said: Callable[[str], str] | None = field(default=None, compare=False)

    @property
    def header(self) -> str:
        """The title with its unit."""
        return f"{self.title} ({self.unit})" if self.unit else self.title

    @property
    def heading(self) -> str:
        """The title with its unit, in the grower's language."""
        title = self.shown or HEADINGS.get(self.title, self.title)
        unit = UNITS.get(self.unit, self.unit)
        return f"{title} ({unit})" if unit else title

    def read(self, value: Cell) -> Cell:
        """Return a cell as it is read in the window."""
        return self.said(value) if self.said is not None and isinstance(value, str) else value

    @property
    def numeric(self) -> bool:
        """Whether it holds numbers."""
        return self.kind in (Kind.WHOLE, Kind.NUMBER)


@dataclass(frozen=True, slots=True)
class Table:
    """A table. Each row has a cell a column, of the column's kind; None where nothing is known."""

    name: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    @classmethod
    def of(cls, name: str, columns: Sequence[Column], rows: Iterable[Sequence[Cell]]) -> Table:
        """Return a table of rows.

        Raises
        ------
        TableError
            If two columns share a key, or if a row has too many or too few cells, or one of another kind.
        """
        keys = [column.key for column in columns]
        if len(set(keys)) != len(keys):
            raise TableError(f"the table {name!r} has two columns of one key; each key is allowed once")
        return cls(name, tuple(columns), tuple(_row(name, columns, row) for row in rows))

    @property
    def headers(self) -> tuple[str, ...]:
        """The titles of the columns with their units."""
        return tuple(column.header for column in self.columns)

    def column(self, key: str) -> tuple[Cell, ...]:
        """Return the cells of one column, by its key."""
        place = [column.key for column in self.columns].index(key)
        return tuple(row[place] for row in self.rows)


def _row(name: str, columns: Sequence[Column], row: Sequence[Cell]) -> Row:
    if len(row) != len(columns):
        raise TableError(f"a row of {name!r} has {len(row)} cells; {len(columns)} are needed, one a column")
    return tuple(_cell(name, column, value) for column, value in zip(columns, row, strict=True))


def _cell(name: str, column: Column, value: Cell) -> Cell:
    if value is None or (isinstance(value, float) and isnan(value)):
        return None
    if not _fits(column.kind, value):
        raise TableError(
            f"{value!r} stands under {column.title!r} of {name!r}; a {column.kind.value} is needed"
        )
    return value


def _fits(kind: Kind, value: Cell) -> bool:
    if kind is Kind.TEXT:
        return isinstance(value, str)
    if kind is Kind.YES_NO:
        return isinstance(value, bool)
    if kind is Kind.MOMENT:
        return isinstance(value, datetime) and value.tzinfo is not None
    if kind is Kind.DATE:
        return isinstance(value, date) and not isinstance(value, datetime)
    if isinstance(value, bool):
        return False
    whole = isinstance(value, int)
    return whole or (kind is Kind.NUMBER and isinstance(value, float) and isfinite(value))
