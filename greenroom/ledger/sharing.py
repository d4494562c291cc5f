"""A ledger on a server that several hands write at once: what others did, and what is sent late.

``seen`` is the last act whose change this window has taken in. Before an act is written that must be held
against all that stands, and with other writers kept off, the window is shown what is newer than that; it
takes it in and may refuse its own act. So no writer comes too late twice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import datetime

import sqlalchemy as sa

from greenroom.ledger import reading, writing
from greenroom.ledger.change import Act, Change, Entry
from greenroom.ledger.engines import CHANNEL, TO_READ, TO_WRITE
from greenroom.ledger.errors import UnknownFactError
from greenroom.ledger.explaining import explain, explained
from greenroom.ledger.facts import Fact
from greenroom.ledger.history import History
from greenroom.ledger.outbox import Waiting
from greenroom.ledger.store import Clock, Ledger
from greenroom.ledger.tables import act_table
from greenroom.speech import tr

Meet = Callable[[list[Change]], None]
"""Is shown what others wrote, while they are kept off; what it raises refuses the act. It must not ask the
ledger anything."""

TURNED = {
    "undo": tr("{who} changed since what {name!r} did, so it can no longer be undone; correct it by hand."),
    "redo": tr(
        "{who} changed since what {name!r} did, so it can no longer be done again; correct it by hand."
    ),
}


Choose = Callable[[list[Change], list[Waiting]], Sequence[Waiting]]
"""Is shown what others wrote and which acts are there already, and names those to write; as ``Meet``."""


class SharedLedger(Ledger):
    """A ledger on a server, with the acts of others told apart from those of this window."""

    def __init__(self, engine: sa.Engine, name: str, *, clock: Clock, who: str, zone: str) -> None:
        super().__init__(engine, name, clock=clock, who=who, zone=zone)
        self._history = History(self._connection, who)  # each hand undoes its own
        self._seen: int | None = None
        self._own: set[int] = set()  # acts of this window that are newer than what was seen
        self._before = 0
        self._meet: Meet | None = None
        self._meet_always = False

    @property
    def who(self) -> str:
        """The hand this window writes with."""
        return self._who

    @property
    def zone(self) -> str:
        """The zone this window writes in."""
        return self._zone

    @property
    def name(self) -> str:
        """What the ledger is called."""
        return self._name

    def entries(self, kind: str | None = None) -> list[Entry]:
        """Return the facts in force; reading all of them for the first time is what is seen from then on."""
        with self._transaction(TO_READ):
            if kind is None and self._seen is None:
                self._seen = self._latest()
            return reading.entries(self._connection, kind)

    def news(self) -> list[Change]:
        """Return what was written since the last look, in order, without what this window wrote itself."""
        with self._transaction(TO_READ):
            return self._news()

    def writers(self) -> dict[str, int]:
        """Return who wrote, and how many acts each."""
        query = (
            sa.select(act_table.c.who, sa.func.count()).group_by(act_table.c.who).order_by(act_table.c.who)
        )
        with self._transaction(TO_READ):
            return {who: count for who, count in self._connection.execute(query)}  # noqa: C416 as in reading

    def present(self) -> list[str]:
        """Return who has a window open on the ledger now, as the server knows them."""
        query = (
            "SELECT DISTINCT usename FROM pg_stat_activity WHERE datname = current_database() "
            "AND usename IS NOT NULL ORDER BY usename"
        )
        with self._transaction(TO_READ):
            return [str(one) for one in self._connection.exec_driver_sql(query).scalars()]

    def do_seen(
        self, name: str, *, record: Sequence[Fact], strike: Sequence[str], written: datetime, meet: Meet
    ) -> Change:
        """Carry out one act as ``do`` does, dated ``written``, once what others wrote was met.

        Raises
        ------
        ServerAwayError
            If the connection broke off. The act may have been written in its last moment: when it is
            delivered later, that is found out.
        """
        with self._meeting(meet), self._dated(written):
            return self.do(name, record=record, strike=strike)

    def turn_seen(self, deed: str, meet: Meet) -> Change | None:
        """Undo or redo an act of this hand once what others wrote was met.

        Raises
        ------
        UnknownFactError
            If what the act did no longer stands as it left it.
        """
        with self._meeting(meet):
            return self.undo() if deed == "undo" else self.redo()

    def turning(self, deed: str) -> Change | None:
        """Return what undo or redo would change, without doing it; None if there is nothing."""
        with self._transaction(TO_READ):
            target = self._history.to_undo() if deed == "undo" else self._history.to_redo()
            if target is None:
                return None
            leaving, returning = self._turned(deed, target)
        return Change(target, tuple(returning), tuple(leaving))

    def deliver(self, waiting: Sequence[Waiting], choose: Choose) -> list[Change]:
        """Write acts that waited, all in one go and each exactly once; return what each changed.

        One that is there already (the connection broke off after it was written) is not written again.
        """
        chosen: list[Waiting] = []

        def meet(news: list[Change]) -> None:
            there = [one for one in waiting if self._there_already(one) is not None]
            chosen.extend(choose(news, there))

        with self._meeting(meet, always=True), self._transaction(TO_WRITE):
            return [self._deliver(one) for one in chosen]

    @contextmanager
    def listening(self) -> Iterator[Callable[[float], bool]]:
        """Give a function that waits up to some seconds and tells whether somebody wrote.

        It has a connection of its own and may be used in a thread of its own.
        """
        with explained(self._name), self._engine.connect() as connection:
            connection.execution_options(isolation_level="AUTOCOMMIT").exec_driver_sql(f"LISTEN {CHANNEL}")
            raw = connection.connection.driver_connection
            broken = self._engine.dialect.loaded_dbapi.OperationalError

            def heard(seconds: float) -> bool:
                try:
                    return any(True for _ in raw.notifies(timeout=seconds, stop_after=1))  # type: ignore[union-attr]
                except broken as error:
                    connection.invalidate()
                    raise explain(sa.exc.OperationalError("LISTEN", None, error), self._name) from error

            yield heard

    def _deliver(self, one: Waiting) -> Change:
        there = self._there_already(one)
        if there is not None:
            return self._changes([self._history.act(there)])[0]
        self._require_new(one.facts)
        leaving = self._pick(one.strike, struck=False)
        act = replace(one.act, number=writing.next_number(self._connection, act_table))
        writing.write_act(self._connection, act)
        added = writing.write_facts(self._connection, act.number, one.facts)
        self._write_strikes(act, leaving, ())
        return Change(act, tuple(added), tuple(leaving))

    def _there_already(self, one: Waiting) -> int | None:
        """Return the number of the act on the server that is the one that waited; None if it is not there.

        Its facts tell it; an act that only strikes out is told by its hand, its name and its moment.
        """
        ids = [fact.id for fact in one.facts]
        if ids:
            known = reading.numbers_of(self._connection, ids)
            if len(known) < len(ids):
                return None
            return reading.entries_by_number(self._connection, [known[ids[0]]])[0].act
        told = ("deed", "name", "written", "zone", "who")
        same = [act_table.c[slot] == getattr(one.act, slot) for slot in told]
        return self._connection.execute(sa.select(act_table.c.number).where(*same)).scalar()

    def _latest(self) -> int:
        return writing.next_number(self._connection, act_table) - 1

    def _reverse(self, deed: str, choose: Callable[[], Act | None]) -> Change | None:
        def as_left() -> Act | None:
            target = choose()
            if target is not None:
                self._require_as_left(target, deed)
            return target

        return super()._reverse(deed, as_left)

    def _require_as_left(self, target: Act, deed: str) -> None:
        """Raise if somebody struck out or restored since what an act would be turned back from."""
        written, struck, restored = self._history.effect(target.number)
        facts = [*written, *struck, *restored]
        out = reading.struck_numbers(self._connection, facts)
        expected = set(struck) if deed == "undo" else {*written, *restored}
        if out != expected:
            other = self._history.last_hand([*(out ^ expected)])
            raise UnknownFactError(TURNED[deed].format(who=other, name=target.name))

    def _news(self) -> list[Change]:
        after = self._seen or 0
        acts = self._history.since(after)
        found = self._changes([act for act in acts if act.number not in self._own])
        self._seen = acts[-1].number if acts else after
        self._own.clear()
        return found

    def _changes(self, acts: Sequence[Act]) -> list[Change]:
        """Return what each of some acts changed; all of it is read at once."""
        if not acts:
            return []
        effects = self._history.effects(acts[0].number, acts[-1].number)
        wanted = {number for act in acts for numbers in effects[act.number] for number in numbers}
        entries = {
            entry.number: entry for entry in reading.entries_by_number(self._connection, sorted(wanted))
        }
        changes = []
        for act in acts:
            written, struck, restored = effects[act.number]
            added = tuple(entries[number] for number in (*written, *restored))
            changes.append(Change(act, added, tuple(entries[number] for number in struck)))
        return changes

    def _before_writing(self) -> None:
        self._before = self._latest()
        if self._meet is None:
            return
        behind = self._before - (self._seen or 0) != len(self._own)
        if behind or self._meet_always:
            self._meet(self._news())

    @contextmanager
    def _transaction(self, begin: str) -> Iterator[None]:
        with self._lock:
            with super()._transaction(begin):
                yield
                latest = self._latest() if begin == TO_WRITE else 0
            if begin == TO_WRITE:
                self._own.update(range(self._before + 1, latest + 1))

    @contextmanager
    def _meeting(self, meet: Meet, *, always: bool = False) -> Iterator[None]:
        with self._lock:
            self._meet, self._meet_always = meet, always
            try:
                yield
            finally:
                self._meet, self._meet_always = None, False

    @contextmanager
    def _dated(self, written: datetime) -> Iterator[None]:
        clock = self._clock
        self._clock = lambda: written
        try:
            yield
        finally:
            self._clock = clock
