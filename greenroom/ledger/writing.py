"""Writing acts, facts and strikes: rows are only ever added, inside a transaction of the caller's."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import sqlalchemy as sa

from greenroom.ledger.book import Strike
from greenroom.ledger.change import Act, Entry
from greenroom.ledger.facts import Fact
from greenroom.ledger.tables import (
    act_table,
    detail_tables,
    fact_table,
    row_tables,
    rows_of_kind,
    strike_table,
)


def next_number(connection: sa.Connection, table: sa.Table) -> int:
    """Return the number after the last one of ``table``; a writer's lock keeps it free."""
    latest: int | None = connection.execute(sa.select(sa.func.max(table.c.number))).scalar()
    return (latest or 0) + 1


def write_act(connection: sa.Connection, act: Act) -> None:
    """Add one act."""
    write_acts(connection, [act])


def write_acts(connection: sa.Connection, acts: Sequence[Act]) -> None:
    """Add acts that have their numbers."""
    connection.execute(
        act_table.insert(), [{slot: getattr(act, slot) for slot in Act.__slots__} for act in acts]
    )


def write_facts(connection: sa.Connection, act: int, facts: Sequence[Fact]) -> list[Entry]:
    """Add facts under an act and return them with their numbers."""
    if not facts:
        return []
    first = next_number(connection, fact_table)
    added = [Entry(first + place, act, fact) for place, fact in enumerate(facts)]
    write_entries(connection, added)
    return added


def write_entries(connection: sa.Connection, entries: Sequence[Entry]) -> None:
    """Add facts that have their numbers and acts."""
    if not entries:
        return
    connection.execute(fact_table.insert(), [_head_row(entry) for entry in entries])
    for kind in dict.fromkeys(entry.fact.kind for entry in entries):
        rows = [_detail_row(entry) for entry in entries if entry.fact.kind == kind]
        connection.execute(detail_tables[kind].insert(), rows)
    for entry in entries:
        _write_rows(connection, entry)


def write_strikes(connection: sa.Connection, act: int, entries: Iterable[Entry], *, restored: bool) -> None:
    """Strike entries out under an act, or restore them."""
    write_strike_rows(connection, [Strike(entry.number, act, restored) for entry in entries])


def write_strike_rows(connection: sa.Connection, strikes: Sequence[Strike]) -> None:
    """Add strikes and restorations."""
    if strikes:
        connection.execute(strike_table.insert(), [strike._asdict() for strike in strikes])


def _write_rows(connection: sa.Connection, entry: Entry) -> None:
    for name, row in rows_of_kind[entry.fact.kind].items():
        rows = [{"record": entry.number, **one._asdict()} for one in getattr(entry.fact, name)]
        if rows:
            connection.execute(row_tables[row].insert(), rows)


def _head_row(entry: Entry) -> dict[str, object]:
    number, act, fact = entry
    return {"number": number, "id": fact.id, "kind": fact.kind, "day": fact.day, "act": act}


def _detail_row(entry: Entry) -> dict[str, object]:
    columns = detail_tables[entry.fact.kind].c.keys()
    values = {name: getattr(entry.fact, name) for name in columns if name != "number"}
    return {"number": entry.number, **values}
