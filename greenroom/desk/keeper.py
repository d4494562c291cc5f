"""The keeper: takes what the grower asks for to the ledger, and tells the window what changed."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator, Sequence
from datetime import date, datetime
from itertools import count

from PySide6.QtCore import QObject, Signal

from greenroom.desk.clock import Clock
from greenroom.desk.instance import Instance
from greenroom.ledger import BadFactError, Change, Entry, Ledger, LedgerError
from greenroom.ledger.facts import Fact
from greenroom.season.place import Place, place_of
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.state import Season, Touched

log = logging.getLogger(__name__)

Acts = Sequence[tuple[str, Sequence[Fact]]]


class Keeper(QObject):
    """Holds the ledger and the season made from it; every act of the window goes through here.

    ``changed`` carries what was touched, once, after the act is on the disk. ``refused`` carries one
    sentence, when nothing was changed. ``did`` carries the name of the act.

    ``to_write`` are acts, each a name and its facts, for a ledger that holds nothing yet. The season
    is made from them at once; the ledger takes them in when it is first asked for, or by ``write_up``.
    """

    changed = Signal(object)
    refused = Signal(str)
    did = Signal(str)

    def __init__(self, ledger: Ledger, clock: Clock, to_write: Acts = ()) -> None:
        super().__init__()
        self._ledger = ledger
        self._to_write = tuple(to_write)
        self.clock = clock
        self.lock: Instance | None = None
        self.season = Season(_numbered(self._to_write) if to_write else ledger.entries())

    @property
    def ledger(self) -> Ledger:
        """The ledger, with everything in it that the season holds."""
        self.write_up()
        return self._ledger

    def write_up(self) -> None:
        """Write what the keeper was given to write; from then on this does nothing."""
        acts, self._to_write = self._to_write, ()
        for name, facts in acts:
            self._ledger.record(*facts, name=name)

    @property
    def place(self) -> Place:
        """The place as last set."""
        return place_of(self.season)

    @property
    def today(self) -> date:
        """The day it is at the place."""
        return self.clock.today(self.place.zone)

    @property
    def now(self) -> datetime:
        """This moment, in UTC."""
        return self.clock.now()

    def do(self, make: Callable[[], Proposal]) -> bool:
        """Carry out what ``make`` proposes; tell why not if it is refused. True if it was written."""
        try:
            proposal = make()
            if proposal.empty:
                return False
            change = self.ledger.do(proposal.name, record=proposal.record, strike=proposal.strike)
        except (RefusedError, BadFactError, LedgerError) as error:
            self.refused.emit(sentence(str(error)))
            return False
        self.take(change)
        self.did.emit(proposal.name)
        return True

    def undo(self) -> bool:
        """Take the latest act back."""
        return self._turn(self.ledger.undo, "There is nothing to undo.", "undone: {}")

    def redo(self) -> bool:
        """Do again what was undone last."""
        return self._turn(self.ledger.redo, "There is nothing to redo.", "done again: {}")

    def take(self, change: Change) -> None:
        """Take a change that is in the ledger into the season and tell the window."""
        touched: Touched = self.season.take(change)
        self.changed.emit(touched)

    def _turn(self, turn: Callable[[], Change | None], nothing: str, words: str) -> bool:
        try:
            change = turn()
        except LedgerError as error:
            self.refused.emit(sentence(str(error)))
            return False
        if change is None:
            self.refused.emit(nothing)
            return False
        self.take(change)
        self.did.emit(words.format(change.act.name))
        return True


def _numbered(acts: Acts) -> Iterator[Entry]:
    """Yield the facts with the numbers that an empty ledger will give them."""
    numbers = count(1)
    for act, (_, facts) in enumerate(acts, start=1):
        yield from (Entry(next(numbers), act, fact) for fact in facts)


def sentence(text: str) -> str:
    """Return text as a sentence: a capital first, a full stop last."""
    text = text.strip()
    if not text:
        return text
    stopped = text if text.endswith((".", "?", "!")) else f"{text}."
    return stopped[0].upper() + stopped[1:]
