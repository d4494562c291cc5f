"""What can be read of a damaged ledger: act by act, fact by fact, strike by strike.

Every fact is checked as when it was written; one that lacks a part, or that cannot be true, is counted
and left out. Nothing is written to the damaged file: a copy of it is read.
"""

from __future__ import annotations

import shutil
import sqlite3
import tempfile
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping
from contextlib import closing, contextmanager
from dataclasses import MISSING, dataclass, fields, replace
from datetime import datetime
from pathlib import Path
from typing import Any

import sqlalchemy as sa
from sqlalchemy.dialects import sqlite

from greenroom.ledger.book import Book, Strike, checked
from greenroom.ledger.change import Act, Entry
from greenroom.ledger.errors import LedgerError
from greenroom.ledger.explaining import explained
from greenroom.ledger.facts import KINDS, BadFactError, Fact
from greenroom.ledger.files import journal_of
from greenroom.ledger.journal import require_own_journal
from greenroom.ledger.salvage_rows import Rows, highest_number
from greenroom.ledger.soundness import sound
from greenroom.ledger.tables import (
    act_table,
    detail_tables,
    fact_table,
    row_tables,
    rows_of_kind,
    strike_table,
)
from greenroom.speech import tr

FEW = 1000
SALVAGED = tr("found in the damaged ledger")
DIALECT = sqlite.dialect()

Convert = Callable[[Any], Any]


@dataclass(frozen=True, slots=True)
class Salvaged:
    """What was read, as a book of its own, and the facts that could not be: numbers, and ids if known.

    Facts are numbered without a gap, so a number that is missing is a fact that was there.
    """

    book: Book
    lost: Mapping[int, str]

    def lost_to(self, copy: Book) -> int:
        """Return how many of the facts that could not be read are not in a copy of the ledger either."""
        ids = {entry.fact.id for entry in copy.entries}
        numbers = {entry.number for entry in copy.entries}
        return sum(one not in ids if one else number not in numbers for number, one in self.lost.items())


def salvage(damaged: Path, moment: datetime, zone: str, who: str) -> Salvaged:
    """Read what can be read of a damaged ledger.

    Parameters
    ----------
    damaged : Path
        The file; it is left as it is.
    moment, zone, who : datetime, str, str
        What is said of facts whose act cannot be read.

    Returns
    -------
    Salvaged
        Its book is sound; it is empty if nothing could be read.

    Raises
    ------
    LedgerError
        If the disk refuses; damage is no error here.
    """
    with explained(damaged.name), _working_copy(damaged) as raw:
        if raw is None:
            return Salvaged(Book(), {})
        return _Reader(raw, Act(0, "do", SALVAGED, moment, zone, who)).read()


@contextmanager
def _working_copy(damaged: Path) -> Iterator[sqlite3.Connection | None]:
    """Give a connection on a copy of the file, with its journal played back if it is its own."""
    with tempfile.TemporaryDirectory(prefix="greenroom-") as folder:
        copy = Path(folder) / "copy"
        shutil.copyfile(damaged, copy)
        if _own_journal(damaged):
            shutil.copyfile(journal_of(damaged), journal_of(copy))
        with closing(sqlite3.connect(copy, isolation_level=None)) as raw:
            raw.text_factory = lambda text: text.decode("utf-8", "surrogateescape")
            yield raw if _answers(raw) else None


def _own_journal(damaged: Path) -> bool:
    try:
        require_own_journal(damaged)
    except LedgerError:
        return False
    return journal_of(damaged).exists()


def _answers(raw: sqlite3.Connection) -> bool:
    """Whether SQLite takes the file for a database at all.

    With the schema open to writing it does so even where the end of the file is cut off.
    """
    try:
        raw.execute("PRAGMA writable_schema=ON")
        raw.execute("SELECT count(*) FROM sqlite_master").fetchone()
    except sqlite3.Error:
        return False
    return True


class _Reader:
    """Reads one damaged ledger."""

    def __init__(self, raw: sqlite3.Connection, found: Act) -> None:
        self._raw = raw
        self._found = found
        self._torn: set[str] = set()
        highest = highest_number(raw, ["fact", *detail_tables])
        self._highest: dict[str, int | None] = dict.fromkeys(("fact", *detail_tables), highest)
        self._highest |= {table.name: 0 for table in row_tables.values()}  # torn is lost, in whole

    def read(self) -> Salvaged:
        """Return all that can be read."""
        acts = self._acts()
        rest = replace(self._found, number=max((act.number for act in acts), default=0) + 1)
        known = {act.number for act in acts}
        entries, lost = self._entries()
        kept = tuple(
            Entry(one.number, one.act if one.act in known else rest.number, one.fact) for one in entries
        )
        numbers = {one.number for one in kept}
        strikes = tuple(
            Strike(one.fact, one.act if one.act in known else rest.number, one.restored)
            for one in self._strikes()
            if one.fact in numbers
        )
        homeless = rest.number in {*(one.act for one in kept), *(one.act for one in strikes)}
        return Salvaged(checked(Book((*acts, rest) if homeless else acts, kept, strikes)), lost)

    def _acts(self) -> tuple[Act, ...]:
        found: dict[int, Act] = {}
        for values in self._rows(act_table):
            act = _act(values)
            if act is not None and (act.reverses is None or act.reverses in found):
                found.setdefault(act.number, act)
        return tuple(found[number] for number in sorted(found))

    def _strikes(self) -> list[Strike]:
        found = {
            row["number"]: Strike(row["fact"], row["act"], row["restored"])
            for row in self._rows(strike_table)
            if all(isinstance(row.get(name), int) for name in ("number", "fact", "act", "restored"))
        }
        return [found[number] for number in sorted(found)]

    def _entries(self) -> tuple[list[Entry], dict[int, str]]:
        """Return the facts that are whole, by number, and those that are not."""
        heads = {row["number"]: row for row in self._rows(fact_table) if isinstance(row.get("number"), int)}
        details = self._details({str(row.get("kind")) for row in heads.values()})
        found: list[Entry] = []
        ids: set[str] = set()
        for number in sorted(heads):
            fact = self._fact(heads[number], details)
            if fact is not None and fact.id not in ids:
                ids.add(fact.id)
                found.append(Entry(number, _whole_number(heads[number].get("act")), fact))
        seen = sorted(heads.keys() | {number for kind in details.values() for number in kind})
        believed = 2 * len(seen) + FEW  # a number far beyond the others is part of the damage
        until = max((number for number in seen if 0 < number <= believed), default=0)
        lost = set(range(1, until + 1)) - {entry.number for entry in found}
        return found, {number: _text(heads.get(number, {}).get("id")) for number in sorted(lost)}

    def _details(self, named: set[str]) -> dict[str, dict[int, dict[str, Any]]]:
        """Return the fields of the facts of each kind by their numbers, with the rows they hold."""
        found: dict[str, dict[int, dict[str, Any]]] = {}
        for kind, table in detail_tables.items():
            rows = {row["number"]: row for row in self._rows(table) if isinstance(row.get("number"), int)}
            if rows or kind in named:
                found[kind] = rows
        for kind, rows in found.items():
            for name, of in rows_of_kind[kind].items():
                held = self._held(of)
                for number, row in rows.items():
                    row[name] = tuple(held[number])
        return found

    def _held(self, of: type[Any]) -> defaultdict[int, list[Any]]:
        """Return the rows that facts hold, by the number of the fact, in order."""
        table = row_tables[of]
        held: defaultdict[int, list[Any]] = defaultdict(list)
        for row in self._rows(table):
            if len(row) == len(table.c) and isinstance(row["record"], int):
                held[row["record"]].append(of(**{name: row[name] for name in of._fields}))
        for rows in held.values():
            rows.sort(key=lambda one: str(one[0]))
        return held

    def _fact(self, head: dict[str, Any], details: dict[str, dict[int, dict[str, Any]]]) -> Fact | None:
        """Return a fact if every part of it was read and it can be true."""
        kind = str(head.get("kind"))
        row = details.get(kind, {}).get(head["number"])
        if row is None or any(row_tables[of].name in self._torn for of in rows_of_kind[kind].values()):
            return None  # where rows of many facts are torn, none can be told to be whole
        values = {one.name: row.get(one.name, one.default) for one in fields(KINDS[kind])}
        values |= {"id": head.get("id"), "day": head.get("day")}
        if MISSING in values.values():
            return None
        try:
            return sound([KINDS[kind](**values)])[0]
        except (ValueError, TypeError, AttributeError):
            return None

    def _rows(self, table: sa.Table) -> Iterator[dict[str, Any]]:
        """Yield the rows of a table by the names of its columns; a value that is none is left out."""
        columns = self._columns(table)
        if not columns:
            return
        rows = Rows(self._raw, table.name, columns, self._highest.get(table.name))
        if rows.gap:
            self._torn.add(table.name)
        convert = {name: _converter(table.c[name]) for name in columns}
        for row in rows.found:
            yield dict(_values(columns, row, convert))

    def _columns(self, table: sa.Table) -> list[str]:
        """Return the columns that the table has in this file: an older version may lack some."""
        try:
            rows = self._raw.execute(f"PRAGMA table_info({table.name})").fetchall()
        except sqlite3.Error:
            return []
        there = {row[1] for row in rows}
        return [column.name for column in table.c if column.name in there]


def _values(
    columns: list[str], row: tuple[Any, ...], convert: dict[str, Convert]
) -> Iterator[tuple[str, Any]]:
    for name, value in zip(columns, row, strict=True):
        try:
            yield name, convert[name](value)
        except (ValueError, TypeError, AttributeError):
            continue  # no value of this column's type: the fact that lacks it is counted as lost


def _converter(column: sa.Column[Any]) -> Convert:
    """Return what makes of SQLite's value the one that was written."""
    convert: Convert | None = column.type.dialect_impl(DIALECT).result_processor(DIALECT, None)
    return convert or (lambda value: value)


def _act(values: dict[str, Any]) -> Act | None:
    """Return an act if every part of it was read and it can be true."""
    if values.keys() != set(Act.__slots__) or not isinstance(values["number"], int):
        return None
    act = Act(**values)
    back = isinstance(act.reverses, int) and act.reverses < act.number and act.deed in ("undo", "redo")
    if not back and (act.reverses is not None or act.deed != "do"):
        return None
    try:
        checked(Book((replace(act, deed="do", reverses=None),)))
    except (BadFactError, TypeError, AttributeError):
        return None
    return act


def _text(value: object) -> str:
    return value if isinstance(value, str) else ""


def _whole_number(value: object) -> int:
    return value if isinstance(value, int) else 0
