"""What could not be sent to the server yet: acts kept on this machine's disk until they are there.

An outbox is a ledger of its own, with two tables more: what each of its acts strikes out on the server,
and what became of the act. So an act that waits is kept as durably as one in a file, and comes through an
update of the program as every ledger does. It knows neither the server's address nor a password.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, replace
from pathlib import Path

import sqlalchemy as sa

from greenroom.ledger import reading, writing
from greenroom.ledger.change import Act, Entry
from greenroom.ledger.explaining import explained
from greenroom.ledger.facts import Fact
from greenroom.ledger.opening import open_engine
from greenroom.ledger.soundness import sound
from greenroom.ledger.tables import act_table

FIRST_WAITING = 1 << 40
"""Facts and acts that wait are numbered from here on, after all that a server will ever have numbered."""

WAITING, SENT, HELD, LET_GO = "waiting", "sent", "held", "let go"

_metadata = sa.MetaData()
_state_table = sa.Table(
    "waiting",
    _metadata,
    sa.Column("act", sa.Integer, primary_key=True),
    sa.Column("state", sa.Text, nullable=False),
    sa.Column("reason", sa.Text, nullable=False),
)
_strike_table = sa.Table(
    "waiting_strike",
    _metadata,
    sa.Column("act", sa.Integer, primary_key=True),
    sa.Column("fact", sa.Text, primary_key=True),
)


@dataclass(frozen=True, slots=True)
class Waiting:
    """An act that waits: what it writes, and the ids of what it strikes out on the server.

    ``reason`` is empty while it waits to be sent; else why it is held back for the grower to decide.
    """

    act: Act
    added: tuple[Entry, ...] = ()
    strike: tuple[str, ...] = ()
    reason: str = ""

    @property
    def facts(self) -> tuple[Fact, ...]:
        """What it writes."""
        return tuple(entry.fact for entry in self.added)


class Outbox:
    """The acts that wait on this machine for one server; one window has it at a time."""

    def __init__(self, path: Path) -> None:
        self._path = path
        self._engine, self._name = open_engine(path)
        with explained(self._name), self._engine.begin() as connection:
            _metadata.create_all(connection)

    def close(self) -> None:
        """Close it."""
        self._engine.dispose()

    def add(self, act: Act, facts: Sequence[Fact], strike: Sequence[str]) -> Waiting:
        """Keep an act; it is on the disk when this returns."""
        kept = sound(facts)
        with self._writing() as connection:
            number = writing.next_number(connection, act_table)
            local = replace(act, number=number, deed="do", reverses=None)
            writing.write_act(connection, local)
            added = writing.write_facts(connection, number, kept)
            for one in dict.fromkeys(strike):
                connection.execute(_strike_table.insert(), {"act": number, "fact": one})
            connection.execute(_state_table.insert(), {"act": number, "state": WAITING, "reason": ""})
        return _shown(local, added, strike, "")

    def waiting(self) -> list[Waiting]:
        """Return the acts that wait to be sent, in the order they were done."""
        return self._in_state(WAITING)

    def held(self) -> list[Waiting]:
        """Return the acts that met what others did, each with the reason, for the grower to decide."""
        return self._in_state(HELD)

    def act(self, number: int) -> Act | None:
        """Return an act that was kept here, by the number it waits under."""
        for one in (*self.waiting(), *self.held()):
            if one.act.number == number:
                return one.act
        return None

    def sent(self, acts: Sequence[Waiting]) -> None:
        """Note that acts are on the server."""
        self._turn(acts, SENT, "")

    def hold(self, one: Waiting, reason: str) -> None:
        """Keep an act back, with one sentence why."""
        self._turn([one], HELD, reason)

    def let_go(self, one: Waiting) -> None:
        """Give up an act, as the grower decided."""
        self._turn([one], LET_GO, "")

    def _turn(self, acts: Sequence[Waiting], state: str, reason: str) -> None:
        with self._writing() as connection:
            for one in acts:
                here = _state_table.c.act == one.act.number - FIRST_WAITING
                connection.execute(_state_table.update().where(here).values(state=state, reason=reason))

    def _in_state(self, state: str) -> list[Waiting]:
        with self._writing() as connection:
            query = sa.select(_state_table).where(_state_table.c.state == state).order_by(_state_table.c.act)
            reasons = {act: reason for act, _, reason in connection.execute(query)}
            if not reasons:
                return []
            book = reading.book(connection)
            struck = defaultdict(list)
            for act, fact in connection.execute(sa.select(_strike_table)):
                struck[act].append(fact)
        added = defaultdict(list)
        for entry in book.entries:
            added[entry.act].append(entry)
        acts = [act for act in book.acts if act.number in reasons]
        return [_shown(act, added[act.number], struck[act.number], reasons[act.number]) for act in acts]

    @contextmanager
    def _writing(self) -> Iterator[sa.Connection]:
        with explained(self._name), self._engine.begin() as connection:
            yield connection


def _shown(act: Act, added: Sequence[Entry], strike: Sequence[str], reason: str) -> Waiting:
    """Return an act of the outbox under the numbers it is shown by until the server gives it its own."""
    number = FIRST_WAITING + act.number
    entries = (Entry(FIRST_WAITING + entry.number, number, entry.fact) for entry in added)
    return Waiting(replace(act, number=number), tuple(entries), tuple(strike), reason)
