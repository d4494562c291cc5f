"""Rows of a damaged database, read around the damage: on from each place where reading goes on."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from typing import Any

Row = tuple[Any, ...]

FEW = 20_000  # places tried one by one, in about 0.1 s
STRIDE = 16  # of more than that, every so manieth: a page of the tree holds about as many rows


class Rows:
    """The rows of one table that can be read; ``gap`` tells whether some place of it could not be.

    Where the end of the table is damaged, rows are looked for up to the number ``highest``; with 0 the
    reading ends at the first damage.
    """

    def __init__(
        self, raw: sqlite3.Connection, table: str, columns: Sequence[str], highest: int | None = None
    ) -> None:
        self._raw = raw
        names = ", ".join(f'"{column}"' for column in columns)  # one may be a word of the language
        self._query = f'SELECT rowid, {names} FROM "{table}" NOT INDEXED'
        self._highest = highest
        self._numbered: list[Row] = []
        self.gap = False
        self._read()

    @property
    def found(self) -> list[Row]:
        """The rows, in the order of their numbers."""
        return [row[1:] for row in self._numbered]

    def _read(self) -> None:
        if self._read_on(0):
            return
        self.gap = True
        if self._highest == 0:
            return
        place = self._reached + 1
        end = self._end()
        stride = 1 if end - place <= FEW else STRIDE
        while place <= end:
            if not self._seek(place):
                place += stride
                continue
            for earlier in range(max(self._reached + 1, place - stride + 1), place + 1):
                if self._seek(earlier, keep=True):
                    break
            if self._read_on(self._reached + 1):
                return
            place = max(place, self._reached) + 1

    @property
    def _reached(self) -> int:
        return self._numbered[-1][0] if self._numbered else 0

    def _read_on(self, begin: int) -> bool:
        """Read rows from a place on; tell whether that went well to the end."""
        try:
            self._numbered.extend(
                self._raw.execute(f"{self._query} WHERE rowid >= ? ORDER BY rowid", (begin,))
            )
        except sqlite3.Error:
            return False
        return True

    def _seek(self, place: int, *, keep: bool = False) -> bool:
        """Tell whether the first row from a place on can be read, or there is none; keep it if asked."""
        query = f"{self._query} WHERE rowid >= ? ORDER BY rowid LIMIT 1"
        try:
            row = self._raw.execute(query, (place,)).fetchone()
        except sqlite3.Error:
            return False
        if keep and row is not None:
            self._numbered.append(row)
        return True

    def _end(self) -> int:
        """Return up to which number rows may be."""
        try:
            row = self._raw.execute(f"{self._query} ORDER BY rowid DESC LIMIT 1").fetchone()
        except sqlite3.Error:
            return self._reached + FEW if self._highest is None else self._highest
        return int(row[0]) if row else 0


def highest_number(raw: sqlite3.Connection, tables: Sequence[str]) -> int | None:
    """Return the highest number any of the tables tells of; None if none of them does."""
    found: list[int] = []
    for table in tables:
        try:
            row = raw.execute(
                f'SELECT rowid FROM "{table}" NOT INDEXED ORDER BY rowid DESC LIMIT 1'
            ).fetchone()
        except sqlite3.Error:
            continue
        found += [] if row is None else [int(row[0])]
    return max(found, default=None)
