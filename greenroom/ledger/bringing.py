"""Bringing the book of another ledger in: whole into an empty one, what is new into a used one.

A used ledger keeps who wrote each fact and when: the acts of the book are written after its own, each
taken back at once by an act of its own, so that none of them is in force or waits to be undone. One last
act, the bringing in, restores what is to stand. Undoing that act takes all of it back.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace

import sqlalchemy as sa

from greenroom.ledger import writing
from greenroom.ledger.book import Book, Strike
from greenroom.ledger.change import Act, Entry
from greenroom.ledger.tables import act_table, fact_table


def write_whole(connection: sa.Connection, book: Book) -> None:
    """Write a book into a ledger that holds nothing."""
    _write(connection, book.acts, book.entries, book.strikes)


def write_aside(connection: sa.Connection, book: Book, ids: Collection[str], taking_back: Act) -> list[Entry]:
    """Write the facts with these ids under their own acts, taken back, and return them.

    ``taking_back`` tells moment, zone and hand of the acts that take them back.
    """
    wanted = [entry for entry in book.entries if entry.fact.id in ids]
    first_act = writing.next_number(connection, act_table)
    first_fact = writing.next_number(connection, fact_table)
    needed = {entry.act for entry in wanted}
    numbers: dict[int, int] = {}
    acts: list[Act] = []
    for act in book.acts:
        if act.number in needed:
            number = first_act + len(acts)
            numbers[act.number] = number
            acts.append(replace(act, number=number, deed="do", reverses=None))
            acts.append(replace(taking_back, number=number + 1, deed="undo", name=act.name, reverses=number))
    entries = [
        Entry(first_fact + place, numbers[entry.act], entry.fact) for place, entry in enumerate(wanted)
    ]
    _write(connection, acts, entries, [Strike(one.number, one.act + 1, restored=False) for one in entries])
    return entries


def _write(
    connection: sa.Connection, acts: Sequence[Act], entries: Sequence[Entry], strikes: Sequence[Strike]
) -> None:
    if acts:
        writing.write_acts(connection, acts)
    writing.write_entries(connection, entries)
    writing.write_strike_rows(connection, strikes)
