"""Seed lists from CSV files: look first, match the columns, then read the whole list or nothing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import TypeVar

from greenroom.exchange.column_match import refuse_columns
from greenroom.exchange.seed_columns import FIELD_WORDS, ColumnMatch, propose_match
from greenroom.exchange.seed_values import (
    LONGEST_NAME,
    UnfitCellError,
    UnfitError,
    read_count,
    read_days,
    read_germinations,
    read_text,
    read_year,
)
from greenroom.exchange.text_lines import LEGACY, Limits, shown
from greenroom.exchange.text_table import TextTable, open_table
from greenroom.speech import tr

__all__ = ["FIELD_WORDS", "ColumnMatch", "SeedListLook", "SeedRow", "look_at_seed_list", "read_seed_list"]

LIMITS = Limits(megabytes=10, lines=20_000, columns=100, meaning=tr("20,000 packets"))
PREVIEW_ROWS = 10
LEGACY_NOTE = tr(
    "The text is not UTF-8 and was read as Windows-1252, so check accents and signs in the names."
)

Value = TypeVar("Value")
Rows = list[tuple[int, list[str]]]


def look_at_seed_list(path: str | Path) -> SeedListLook:
    """Look at a seed list and propose which column holds what.

    Parameters
    ----------
    path : str or Path
        The file: up to 20,000 lines and 100 columns; comma, semicolon, tab or bar between the cells.

    Returns
    -------
    SeedListLook
        Header, first rows, proposed columns, and what the grower should know before reading on.

    Raises
    ------
    BadFileError
        If the file is not such a table. Values are not checked yet.
    """
    with open_table(path, LIMITS, LEGACY) as table:
        rows = list(table.rows())
    return SeedListLook(
        header=table.header,
        rows=tuple(tuple(read_text(cell) for cell in cells) for _, cells in islice(rows, PREVIEW_ROWS)),
        count=len(rows),
        match=propose_match(table.header),
        note="" if table.encoding != LEGACY else LEGACY_NOTE,
        repeats=_repeats(rows),
    )


def read_seed_list(path: str | Path, match: ColumnMatch) -> tuple[SeedRow, ...]:
    """Read a seed list, whole or not at all.

    Parameters
    ----------
    path : str or Path
        The file.
    match : ColumnMatch
        The column, counted from 0, of each field; that of the variety's name is needed.

    Returns
    -------
    tuple of SeedRow
        One for each row, in the order of the file. Rows that are alike are all kept.

    Raises
    ------
    BadFileError
        If anything in the file is wrong; one sentence says what, where and what is allowed.
    """
    with open_table(path, LIMITS, LEGACY) as table:
        columns = _checked_columns(table, match)
        rows = list(table.rows())
    names = _column(table, rows, columns.get("name"), _read_name)
    species = _column(table, rows, columns.get("species"), read_text)
    lots = _column(table, rows, columns.get("lot"), read_text)
    packed = _column(table, rows, columns.get("packed"), read_year)
    seeds = _column(table, rows, columns.get("seeds"), read_count)
    ripe = _column(table, rows, columns.get("days_to_ripe"), read_days)
    germination = _germination(table, rows, columns.get("germination"))
    return tuple(
        SeedRow(
            names[i] or "",
            species[i] or "",
            lots[i] or "",
            packed[i],
            seeds[i],
            germination[i],
            ripe[i],
            line,
        )
        for i, (line, _) in enumerate(rows)
    )


def _repeats(rows: Rows) -> tuple[tuple[int, int], ...]:
    """Return the lines of rows that repeat an earlier row in every cell, and the line of that row."""
    first: dict[tuple[str, ...], int] = {}
    repeats = []
    for line, cells in rows:
        earlier = first.setdefault(tuple(map(read_text, cells)), line)
        if earlier != line:
            repeats.append((line, earlier))
    return tuple(repeats)


def _checked_columns(table: TextTable, match: ColumnMatch) -> dict[str, int]:
    columns = match.used()
    if "name" not in columns:
        raise table.refusal(tr("no column is chosen for the variety name; one is needed"))
    refuse_columns(table, columns, FIELD_WORDS)
    return columns


def _column(
    table: TextTable, rows: Rows, column: int | None, read: Callable[[str], Value]
) -> Sequence[Value | None]:
    """Read one column of all rows; a list of None if the table has no such column."""
    if column is None:
        return [None] * len(rows)
    values: list[Value | None] = []
    for line, cells in rows:
        try:
            values.append(read(cells[column]))
        except UnfitError as error:
            raise table.refusal(_unfit(cells[column], error), line, column) from error
    return values


def _germination(table: TextTable, rows: Rows, column: int | None) -> Sequence[float | None]:
    if column is None:
        return [None] * len(rows)
    try:
        return read_germinations([cells[column] for _, cells in rows])
    except UnfitCellError as error:
        line, cells = rows[error.place]
        raise table.refusal(_unfit(cells[column], error), line, column) from error


def _unfit(cell: str, error: UnfitError) -> str:
    what = shown(" ".join(cell.split())) if cell.strip() else tr("nothing")
    return tr("{found} stands where {needed} is needed", found=what, needed=error)


def _read_name(text: str) -> str:
    name = read_text(text)
    if not any(letter.isalnum() for letter in name) or len(name) > LONGEST_NAME:
        raise UnfitError(
            tr(
                "a variety name with at least one letter or digit and up to {most} signs",
                most=LONGEST_NAME,
            )
        )
    return name


@dataclass(frozen=True, slots=True)
class SeedListLook:
    """What a seed list holds, to be shown before it is read.

    ``note`` is empty or a sentence for the grower. ``repeats`` gives, for each row that is the same as
    an earlier one in every cell, its line and the earlier line.
    """

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    count: int
    match: ColumnMatch
    note: str
    repeats: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class SeedRow:
    """One packet as the list has it; text is empty and a number None where the list says nothing."""

    name: str
    species: str
    lot: str
    packed: int | None
    seeds: int | None
    germination: float | None
    days_to_ripe: int | None
    line: int
