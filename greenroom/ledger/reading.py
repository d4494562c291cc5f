"""Reading facts back: few statements, plain rows, records built once.

Every fact has a row in ``fact`` and one in the table of its kind. Where one of the two is missing,
or holds what cannot be read, the ledger is damaged: that is said, and no fact is left out quietly.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager
from dataclasses import fields
from typing import Any, TypeVar

import sqlalchemy as sa

from greenroom.ledger.book import Book, Strike
from greenroom.ledger.change import Act, Entry
from greenroom.ledger.errors import DamagedLedgerError
from greenroom.ledger.facts import KINDS
from greenroom.ledger.readback import require_sound
from greenroom.ledger.tables import (
    act_table,
    detail_tables,
    fact_table,
    row_tables,
    rows_of_kind,
    strike_table,
)
from greenroom.speech import tr

Item = TypeVar("Item")

CHUNK = 500  # ids a statement; SQLite allows 999 variables in its oldest builds
RESTORE = tr("restore the ledger from a backup")
LONGEST_SAID = 120


def entries(connection: sa.Connection, kind: str | None = None, *, struck: bool = False) -> list[Entry]:
    """Return the facts in force, of one kind or of all, by number; with those ``struck`` out if asked."""
    if kind is not None and kind not in KINDS:
        raise ValueError(f"kind {kind!r} is not a kind of fact; one of {', '.join(KINDS)} is allowed")
    out = set() if struck else struck_numbers(connection)
    counted = _count_by_kind(connection)
    kinds = [one for one in counted if kind in (None, one)]
    found: list[Entry] = []
    for one in kinds:
        rows = _rows_of_kind(connection, one)
        _require_all(one, len(rows), counted[one])
        found += _built(connection, one, [row for row in rows if row[0] not in out])
    if len(kinds) > 1:
        found.sort(key=lambda entry: entry.number)
    return found


def book(connection: sa.Connection) -> Book:
    """Return every act, fact and strike, by number."""
    acts = connection.execute(
        sa.select(*(act_table.c[name] for name in Act.__slots__)).order_by(act_table.c.number)
    )
    strikes = connection.execute(
        sa.select(strike_table.c.fact, strike_table.c.act, strike_table.c.restored).order_by(
            strike_table.c.number
        )
    )
    with _told(tr("An act")):
        told = tuple(Act(*row) for row in acts)
    with _told(tr("What was struck out")):
        struck = tuple(Strike(*row) for row in strikes)
    return Book(told, tuple(entries(connection, struck=True)), struck)


def entries_by_number(connection: sa.Connection, numbers: Sequence[int]) -> list[Entry]:
    """Return the entries with these numbers, struck out or not, by number."""
    kinds: dict[str, list[int]] = defaultdict(list)
    for chunk in _chunks(numbers):
        query = sa.select(fact_table.c.number, fact_table.c.kind).where(fact_table.c.number.in_(chunk))
        for number, kind in connection.execute(query):
            kinds[kind].append(number)
    found: list[Entry] = []
    for kind, wanted in kinds.items():
        rows = [row for chunk in _chunks(wanted) for row in _rows_of_kind(connection, kind, chunk)]
        _require_all(kind, len(rows), len(wanted))
        found += _built(connection, kind, rows)
    return sorted(found, key=lambda entry: entry.number)


def numbers_of(connection: sa.Connection, ids: Iterable[str]) -> dict[str, int]:
    """Return the number of each id that names a fact."""
    found: dict[str, int] = {}
    for chunk in _chunks(list(dict.fromkeys(ids))):
        query = sa.select(fact_table.c.id, fact_table.c.number).where(fact_table.c.id.in_(chunk))
        found.update((one, number) for one, number in connection.execute(query))
    return found


def struck_numbers(connection: sa.Connection, among: Collection[int] | None = None) -> set[int]:
    """Return the numbers of the facts whose latest strike stands; of ``among`` if given."""
    columns = sa.select(strike_table.c.fact, strike_table.c.restored).order_by(strike_table.c.number)
    latest: dict[int, bool] = {}
    if among is None:
        latest.update((fact, restored) for fact, restored in connection.execute(columns))
    else:
        for chunk in _chunks(list(among)):
            rows = connection.execute(columns.where(strike_table.c.fact.in_(chunk)))
            latest.update((fact, restored) for fact, restored in rows)
    return {fact for fact, restored in latest.items() if not restored}


def _count_by_kind(connection: sa.Connection) -> dict[str, int]:
    query = sa.select(fact_table.c.kind, sa.func.count()).group_by(fact_table.c.kind)
    return {kind: count for kind, count in connection.execute(query)}  # noqa: C416 rows are no pairs to mypy


def _require_all(kind: str, found: int, wanted: int) -> None:
    if found != wanted:
        raise DamagedLedgerError(
            tr(
                "Of {wanted:,} facts of the kind {kind} only {found:,} can be read; {restore}.",
                wanted=wanted,
                kind=kind,
                found=found,
                restore=RESTORE,
            )
        )


def _names(kind: str) -> list[str]:
    """Return the fields of a kind that stand in its own table."""
    table = detail_tables[kind]
    return [entry.name for entry in fields(KINDS[kind]) if entry.name in table.c]


def _rows_of_kind(
    connection: sa.Connection, kind: str, numbers: Sequence[int] | None = None
) -> list[tuple[Any, ...]]:
    """Return number, act, id, day and the fields of the facts of one kind, by number."""
    if kind not in KINDS:
        raise DamagedLedgerError(
            tr(
                "The ledger holds facts of the kind {kind!r}, which is none; {restore}.",
                kind=kind,
                restore=RESTORE,
            )
        )
    table = detail_tables[kind]
    query = (
        sa.select(fact_table.c.number, fact_table.c.act, fact_table.c.id, fact_table.c.day)
        .add_columns(*(table.c[name] for name in _names(kind)))
        .join(table, table.c.number == fact_table.c.number)
        .order_by(fact_table.c.number)
    )
    if numbers is not None:
        query = query.where(fact_table.c.number.in_(numbers))
    with _told_as_damage(kind):
        return [tuple(row) for row in connection.execute(query)]


def _built(connection: sa.Connection, kind: str, rows: Sequence[tuple[Any, ...]]) -> list[Entry]:
    cls, names = KINDS[kind], _names(kind)
    with _told_as_damage(kind):
        many = {
            name: _many(connection, of, [row[0] for row in rows]) for name, of in rows_of_kind[kind].items()
        }
        found = []
        for number, act, one, day, *rest in rows:
            values = dict(zip(names, rest, strict=True))
            values.update((name, tuple(of[number])) for name, of in many.items())
            found.append(Entry(number, act, cls(id=one, day=day, **values)))
        require_sound(kind, [entry.fact for entry in found])
        return found


def _many(connection: sa.Connection, row: type[Any], records: Sequence[int]) -> defaultdict[int, list[Any]]:
    """Return the rows that the facts with these numbers hold, in order."""
    table = row_tables[row]
    found: defaultdict[int, list[Any]] = defaultdict(list)
    for chunk in _chunks(records):
        query = sa.select(table).where(table.c.record.in_(chunk)).order_by(*table.primary_key.columns)
        for record, *values in connection.execute(query):
            found[record].append(row(*values))
    return found


def _told_as_damage(kind: str) -> AbstractContextManager[None]:
    return _told(tr("A fact of the kind {kind}", kind=kind))


@contextmanager
def _told(what: str) -> Iterator[None]:
    """Tell what cannot be read as damage, in a sentence."""
    try:
        yield
    except (ValueError, TypeError, OverflowError) as error:
        raise DamagedLedgerError(
            tr(
                "{what} cannot be read ({detail}); {restore}.",
                what=what,
                detail=_short(error),
                restore=RESTORE,
            )
        ) from error


def _short(error: Exception) -> str:
    """Return what an error says, fit to stand in a sentence."""
    said = str(error).partition("\n")[0][:LONGEST_SAID].rstrip(".")
    return "".join(letter if letter.isprintable() else "�" for letter in said)


def _chunks(items: Sequence[Item]) -> Iterable[Sequence[Item]]:
    for start in range(0, len(items), CHUNK):
        yield items[start : start + CHUNK]
