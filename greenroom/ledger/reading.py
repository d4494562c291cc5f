"""Reading facts back: few statements, plain rows, records built once.

Every fact has a row in ``fact`` and one in the table of its kind. Where one of the two is missing,
or holds what cannot be read, the ledger is damaged: that is said, and no fact is left out quietly.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Sequence
from dataclasses import fields
from typing import Any, TypeVar

import sqlalchemy as sa

from greenroom.ledger.change import Entry
from greenroom.ledger.errors import DamagedLedgerError
from greenroom.ledger.facts import KINDS, Fact, WeatherDay, WeatherRecord
from greenroom.ledger.tables import detail_tables, fact_table, strike_table, weather_day_table

Item = TypeVar("Item")

CHUNK = 500  # ids a statement; SQLite allows 999 variables in its oldest builds
RESTORE = "restore the ledger from a backup"


def entries(connection: sa.Connection, kind: str | None = None) -> list[Entry]:
    """Return the facts in force, of one kind or of all, by number."""
    if kind is not None and kind not in KINDS:
        raise ValueError(f"kind {kind!r} is not a kind of fact; one of {', '.join(KINDS)} is allowed")
    out = struck_numbers(connection)
    counted = _count_by_kind(connection)
    kinds = [one for one in counted if kind in (None, one)]
    found: list[Entry] = []
    for one in kinds:
        of_kind = _of_kind(connection, one)
        _require_all(one, len(of_kind), counted[one])
        found += [entry for entry in of_kind if entry.number not in out]
    if len(kinds) > 1:
        found.sort(key=lambda entry: entry.number)
    return found


def entries_by_number(connection: sa.Connection, numbers: Sequence[int]) -> list[Entry]:
    """Return the entries with these numbers, struck out or not, by number."""
    kinds: dict[str, list[int]] = defaultdict(list)
    for chunk in _chunks(numbers):
        query = sa.select(fact_table.c.number, fact_table.c.kind).where(fact_table.c.number.in_(chunk))
        for number, kind in connection.execute(query):
            kinds[kind].append(number)
    found: list[Entry] = []
    for kind, wanted in kinds.items():
        of_kind = [entry for chunk in _chunks(wanted) for entry in _of_kind(connection, kind, chunk)]
        _require_all(kind, len(of_kind), len(wanted))
        found += of_kind
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
            f"Of {wanted:,} facts of the kind {kind} only {found:,} can be read; {RESTORE}."
        )


def _of_kind(connection: sa.Connection, kind: str, numbers: Sequence[int] | None = None) -> list[Entry]:
    if kind not in KINDS:
        raise DamagedLedgerError(f"The ledger holds facts of the kind {kind!r}, which is none; {RESTORE}.")
    table = detail_tables[kind]
    names = [entry.name for entry in fields(KINDS[kind]) if entry.name in table.c]
    query = (
        sa.select(fact_table.c.number, fact_table.c.act, fact_table.c.id, fact_table.c.day)
        .add_columns(*(table.c[name] for name in names))
        .join(table, table.c.number == fact_table.c.number)
        .order_by(fact_table.c.number)
    )
    if numbers is not None:
        query = query.where(fact_table.c.number.in_(numbers))
    try:
        return _build(connection, KINDS[kind], names, query)
    except (ValueError, TypeError) as error:
        raise DamagedLedgerError(f"A fact of the kind {kind} cannot be read ({error}); {RESTORE}.") from error


def _build(
    connection: sa.Connection, cls: type[Fact], names: Sequence[str], query: sa.Select[Any]
) -> list[Entry]:
    found = []
    for number, act, one, day, *rest in connection.execute(query).all():
        values = dict(zip(names, rest, strict=True))
        if cls is WeatherRecord:
            values["days"] = _weather_days(connection, number)
        found.append(Entry(number, act, cls(id=one, day=day, **values)))
    return found


def _weather_days(connection: sa.Connection, record: int) -> tuple[WeatherDay, ...]:
    columns = [weather_day_table.c[name] for name in WeatherDay._fields]
    query = sa.select(*columns).where(weather_day_table.c.record == record).order_by(weather_day_table.c.day)
    return tuple(WeatherDay._make(values) for values in connection.execute(query))


def _chunks(items: Sequence[Item]) -> Iterable[Sequence[Item]]:
    for start in range(0, len(items), CHUNK):
        yield items[start : start + CHUNK]
