"""The ledger: facts go in whole acts, durably, and are struck out, never changed."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable, Collection, Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType
from typing import Self

import sqlalchemy as sa

from greenroom.ledger import bringing, reading, writing
from greenroom.ledger.backup import file_of
from greenroom.ledger.book import Book, checked
from greenroom.ledger.change import Act, Change, Entry
from greenroom.ledger.engines import BEGIN, TO_READ, TO_WRITE, announce, lock_for_writing, raw_connection
from greenroom.ledger.errors import LedgerUnavailableError, UnknownFactError
from greenroom.ledger.explaining import explained
from greenroom.ledger.facts import BadFactError, Fact
from greenroom.ledger.history import History
from greenroom.ledger.naming import act_name, user_name
from greenroom.ledger.opening import open_engine
from greenroom.ledger.soundness import sound
from greenroom.ledger.tables import act_table
from greenroom.speech import tr

Clock = Callable[[], datetime]


def utc_now() -> datetime:
    """Return this moment, in UTC."""
    return datetime.now(UTC)


class Ledger:
    """All facts of one grower, in one SQLite file or one database named by a URL.

    Every call that writes returns only when the act is on the disk, whole; if it raises, nothing of
    it was kept. The calls may come from any thread, one at a time.
    """

    def __init__(self, engine: sa.Engine, name: str, *, clock: Clock, who: str, zone: str) -> None:
        self._engine = engine
        self._name = name
        self._clock = clock
        self._who = who
        self._zone = zone
        self._lock = threading.RLock()
        self._connection = engine.connect()
        self._history = History(self._connection)

    @classmethod
    def open(
        cls,
        url_or_path: str | os.PathLike[str],
        *,
        clock: Clock = utc_now,
        who: str | None = None,
        zone: str = "UTC",
    ) -> Self:
        """Open a ledger, or make it where there is none.

        Parameters
        ----------
        url_or_path : str or path
            A file, or the URL of a database.
        clock : callable
            Returns this moment as an aware datetime; it dates what is written.
        who, zone : str
            Whose hand writes, and the time zone it writes in; kept with every act.

        Raises
        ------
        LedgerError
            With one sentence, when what is there is no sound ledger; the file is left untouched.
        """
        engine, name = open_engine(url_or_path)
        return cls(engine, name, clock=clock, who=who or user_name(), zone=zone)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def close(self) -> None:
        """Close the ledger; closing twice is closing once."""
        with self._lock:
            self._connection.close()
            self._engine.dispose()

    @property
    def file(self) -> Path | None:
        """The file it is kept in, or None if a server or the memory keeps it."""
        if not self.in_one_file:
            return None
        with self._transaction(TO_READ):
            named = file_of(raw_connection(self._connection))
        return Path(named) if named else None

    @property
    def in_one_file(self) -> bool:
        """Whether it is of the kind that is one file, or in memory for a while; else a server keeps it."""
        return self._engine.dialect.name == "sqlite"

    def facts(self, kind: str | None = None) -> list[Fact]:
        """Return the facts in force, oldest first; of one kind if ``kind`` names one."""
        return [entry.fact for entry in self.entries(kind)]

    def entries(self, kind: str | None = None) -> list[Entry]:
        """Return the facts in force with their numbers, oldest first."""
        with self._transaction(TO_READ):
            return reading.entries(self._connection, kind)

    def book(self) -> Book:
        """Return the whole book: every act, every fact ever written, every strike."""
        with self._transaction(TO_READ):
            return reading.book(self._connection)

    def written(self, kind: str) -> list[Entry]:
        """Return every fact of a kind that was ever written, struck out or not, oldest first."""
        with self._transaction(TO_READ):
            return reading.entries(self._connection, kind, struck=True)

    def act(self, number: int) -> Act:
        """Return one act: who wrote it, when, and what it was called."""
        with self._transaction(TO_READ):
            return self._history.act(number)

    def acts(self, last: int = 100) -> list[Act]:
        """Return the latest ``last`` acts, the newest first."""
        with self._transaction(TO_READ):
            return self._history.latest(last)

    @property
    def undo_name(self) -> str | None:
        """What undo would take back, or None."""
        with self._transaction(TO_READ):
            act = self._history.to_undo()
        return act.name if act else None

    @property
    def redo_name(self) -> str | None:
        """What redo would do again, or None."""
        with self._transaction(TO_READ):
            act = self._history.to_redo()
        return act.name if act else None

    def record(self, *facts: Fact, name: str = "") -> Change:
        """Write facts as one act: all of them or none."""
        return self.do(name, record=facts)

    def strike(self, *ids: str, name: str = "") -> Change:
        """Strike facts out as one act: all of them or none."""
        return self.do(name or tr("struck out"), strike=ids)

    def restore(self, *ids: str, name: str = "") -> Change:
        """Bring facts that were struck out back into force, as one act."""
        return self.do(name or tr("restored"), restore=ids)

    def do(
        self,
        name: str,
        *,
        record: Sequence[Fact] = (),
        strike: Sequence[str] = (),
        restore: Sequence[str] = (),
    ) -> Change:
        """Carry out one act of the grower, named for the history (by itself, if ``name`` is empty).

        Raises
        ------
        BadFactError
            If a fact cannot be true or was written before, or there is nothing to do.
        UnknownFactError
            If an id to strike is not in force, or one to restore is not struck out.
        LedgerError
            If the disk or the database refuses. In each case nothing is changed.
        """
        facts = sound(record)
        if not (facts or strike or restore):
            raise BadFactError(tr("an act needs at least one fact to write, to strike out or to restore"))
        with self._transaction(TO_WRITE):
            self._require_new(facts)
            leaving = self._pick(strike, struck=False)
            returning = self._pick(restore, struck=True)
            act = self._write_act("do", name or act_name(facts), None)
            added = writing.write_facts(self._connection, act.number, facts)
            self._write_strikes(act, leaving, returning)
        return Change(act, tuple(added) + tuple(returning), tuple(leaving))

    def bring_in(
        self,
        name: str,
        book: Book,
        *,
        aside: Collection[str] = (),
        strike: Sequence[str] = (),
        restore: Sequence[str] = (),
    ) -> Change:
        """Bring the book of another ledger in, as one act of this one; nothing is written twice.

        An empty ledger takes the book over whole, with its history of acts; what can be undone then is
        what could be undone there. A used one takes the facts it does not hold, each with who wrote it
        and when. There the bringing in is one act to undo.

        Parameters
        ----------
        name : str
            What the history calls it.
        book : Book
        aside : collection of str
            Ids of new facts that are kept but do not come into force.
        strike, restore : sequence of str
            Ids of facts of this ledger to strike out, and to bring back into force.

        Raises
        ------
        BadFactError
            If the book is not sound, or nothing in it is new.
        LedgerError
            If the disk or the database refuses. In each case nothing is changed.
        """
        whole = checked(book)
        with self._transaction(TO_WRITE):
            if writing.next_number(self._connection, act_table) == 1:
                if not whole.acts:
                    raise BadFactError(tr("nothing is in it to bring in"))
                bringing.write_whole(self._connection, whole)
                return Change(whole.acts[-1], tuple(whole.standing))
            known = reading.numbers_of(self._connection, [entry.fact.id for entry in whole.entries])
            new = {entry.fact.id for entry in whole.entries} - known.keys()
            if not (new or strike or restore):
                raise BadFactError(tr("all of it is here already"))
            leaving = self._pick(strike, struck=False)
            returning = self._pick(restore, struck=True)
            taking_back = Act(0, "undo", name, self._clock().astimezone(UTC), self._zone, self._who, 0)
            written = bringing.write_aside(self._connection, whole, new, taking_back)
            out = {entry.fact.id for entry in whole.entries if entry.number in whole.struck} | {*aside}
            returning += [entry for entry in written if entry.fact.id not in out]
            act = self._write_act("do", name, None)
            self._write_strikes(act, leaving, returning)
        return Change(act, tuple(returning), tuple(leaving))

    def undo(self) -> Change | None:
        """Take the latest act back, in an act of its own; None when there is nothing to undo."""
        return self._reverse("undo", self._history.to_undo)

    def redo(self) -> Change | None:
        """Do again what was undone last; None when there is nothing to redo."""
        return self._reverse("redo", self._history.to_redo)

    def _reverse(self, deed: str, choose: Callable[[], Act | None]) -> Change | None:
        with self._transaction(TO_WRITE):
            target = choose()
            if target is None:
                return None
            leaving, returning = self._turned(deed, target)
            act = self._write_act(deed, target.name, target.number)
            self._write_strikes(act, leaving, returning)
        return Change(act, tuple(returning), tuple(leaving))

    def _turned(self, deed: str, target: Act) -> tuple[list[Entry], list[Entry]]:
        """Return what an undo or a redo of an act takes out of force, and what it brings back."""
        written, struck, restored = self._history.effect(target.number)
        coming, going = (struck, written + restored) if deed == "undo" else (written + restored, struck)
        leaving, returning = (reading.entries_by_number(self._connection, one) for one in (going, coming))
        return leaving, returning

    def _require_new(self, facts: Sequence[Fact]) -> None:
        for one in reading.numbers_of(self._connection, [fact.id for fact in facts]):
            raise BadFactError(
                tr("the fact {id!r} was written before; restore it or give the new one a new id", id=one)
            )

    def _pick(self, ids: Sequence[str], *, struck: bool) -> list[Entry]:
        """Return the entries with these ids; each must be struck out, or in force, as asked."""
        if not ids:
            return []
        numbers = reading.numbers_of(self._connection, ids)
        out = reading.struck_numbers(self._connection, numbers.values())
        for one in ids:
            if one not in numbers:
                raise UnknownFactError(
                    tr("There is no fact {id!r} in {name}; nothing was changed.", id=one, name=self._name)
                )
            if (numbers[one] in out) is not struck:
                words = (
                    tr("The fact {id!r} is not struck out; nothing was changed.", id=one)
                    if struck
                    else tr("The fact {id!r} is struck out already; nothing was changed.", id=one)
                )
                raise UnknownFactError(words)
        return reading.entries_by_number(self._connection, [numbers[one] for one in dict.fromkeys(ids)])

    def _write_act(self, deed: str, name: str, reverses: int | None) -> Act:
        number = writing.next_number(self._connection, act_table)
        written = self._clock().astimezone(UTC)
        act = Act(number, deed, name, written, self._zone, self._who, reverses)
        writing.write_act(self._connection, act)
        return act

    def _write_strikes(self, act: Act, leaving: Sequence[Entry], returning: Sequence[Entry]) -> None:
        writing.write_strikes(self._connection, act.number, leaving, restored=False)
        writing.write_strikes(self._connection, act.number, returning, restored=True)

    @contextmanager
    def _transaction(self, begin: str) -> Iterator[None]:
        """Hold one transaction: whole when the block ends, nothing when it raises."""
        with self._lock, explained(self._name):
            if self._connection.closed:
                raise LedgerUnavailableError(tr("{name} was closed before; open it again.", name=self._name))
            self._connection.execution_options(**{BEGIN: begin})
            try:
                with self._connection.begin():
                    if begin == TO_WRITE:
                        lock_for_writing(self._connection)
                        self._before_writing()
                    yield
                    if begin == TO_WRITE:
                        announce(self._connection)
            except BaseException:
                self._end_transaction()
                raise

    def _before_writing(self) -> None:
        """Look whether an act may be written, with other writers kept off."""

    def _end_transaction(self) -> None:
        """Take back what a refused commit left open; SQLAlchemy holds any commit for the end of it."""
        if not self._connection.invalidated:
            self._connection.connection.rollback()
