"""The keeper: takes what the grower asks for to the ledger, and tells the window what changed."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator, Sequence
from datetime import date, datetime
from itertools import count
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from greenroom.desk.clock import Clock
from greenroom.desk.instance import Instance
from greenroom.desk.worker import Worker
from greenroom.ledger import Act, BadFactError, Change, Entry, LedgerError
from greenroom.ledger.facts import Fact
from greenroom.season.place import Place, place_of
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.state import Season, Touched
from greenroom.season.within import opening
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.desk.live import Live
    from greenroom.ledger import Ledger

log = logging.getLogger(__name__)

Acts = Sequence[tuple[str, Sequence[Fact]]]

BUSY = tr("Something large is still being written down; try again in a moment.")


class Writing(Worker[Change]):
    """One act that is being written off the window's thread; ``ended`` tells whether it was written."""

    ended = Signal(bool)


class Keeper(QObject):
    """Holds the ledger and the season made from it; every act of the window goes through here.

    ``changed`` carries what was touched, once, after the act is on the disk. ``refused`` carries one
    sentence, when nothing was changed. ``did`` carries the name of the act; ``undone`` follows it when
    that act took another back.

    ``to_write`` are acts, each a name and its facts, for a ledger that holds nothing yet. The season
    is made from them at once; such a ledger is opened, and takes them in, when it is first asked for,
    or by ``write_up``.
    """

    changed = Signal(object)
    refused = Signal(str)
    did = Signal(str)
    undone = Signal()

    def __init__(self, ledger: Ledger | Callable[[], Ledger], clock: Clock, to_write: Acts = ()) -> None:
        super().__init__()
        self._ledger = ledger
        self._to_write = tuple(to_write)
        self.clock = clock
        self.lock: Instance | None = None
        self.demo = False
        self.walk_asked = False
        self.live: Live | None = None  # where several hands write one ledger
        self._writings: list[Writing] = []
        self.season = Season(_numbered(self._to_write) if to_write else self.ledger.entries())

    @property
    def ledger(self) -> Ledger:
        """The ledger, with everything in it that the season holds."""
        if callable(self._ledger):
            self._ledger = self._ledger()
        acts, self._to_write = self._to_write, ()
        for name, facts in acts:
            self._ledger.record(*facts, name=name)
        return self._ledger

    @property
    def writing(self) -> bool:
        """Whether a large act is still being written down."""
        return bool(self._writings)

    def write_up(self) -> None:
        """Write what the keeper was given to write; from then on this does nothing."""
        _ = self.ledger  # asking for it opens it and writes

    def act(self, number: int) -> Act | None:
        """Return an act of the season; None while the server that holds it cannot be reached."""
        return self.live.act(number) if self.live else self.ledger.act(number)

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
            change = self.live.write(proposal) if self.live else self._write(self.ledger, proposal)
        except (RefusedError, BadFactError, LedgerError) as error:
            self.refused.emit(sentence(str(error)))
            return False
        self.take(change)
        self.did.emit(proposal.name)
        return True

    def do_apart(
        self, make: Callable[[], Proposal], then: Callable[[bool], object], *, quietly: bool = False
    ) -> None:
        """Carry out a large act as ``do`` does, but write it off the window's thread.

        ``then`` hears whether it was written. Until it is, nothing is undone or done again. What comes
        by itself is done ``quietly``: without a word of it.
        """
        try:
            proposal = make()
        except (RefusedError, BadFactError) as error:
            self.refused.emit(sentence(str(error)))
            then(False)
            return
        if proposal.empty:
            then(False)
            return
        if self.live is not None and self.live.waits:
            then(self.do(lambda: proposal))
            return
        if self.live is not None:
            self.write_apart(self.live.apart(proposal), then, quietly=quietly)
        else:
            self.write_apart(lambda ledger: self._write(ledger, proposal), then, quietly=quietly)

    def write_apart(
        self, write: Callable[[Ledger], Change], then: Callable[[bool], object], *, quietly: bool = False
    ) -> None:
        """Let ``write`` write one act off the window's thread, and take in what it changed."""
        ledger, writing = self.ledger, Writing((RefusedError, BadFactError, LedgerError), self)
        self._writings.append(writing)
        writing.ended.connect(then)
        writing.finished.connect(lambda change: self._wrote(writing, change, quietly))
        writing.failed.connect(lambda error: self._could_not_write(writing, error))
        writing.start(lambda _progress, _cancelled: write(ledger))

    def undo(self) -> bool:
        """Take the latest act back."""
        turned = self._turn("undo", tr("There is nothing to undo."), tr("undone: {act}"))
        if turned:
            self.undone.emit()
        return turned

    def redo(self) -> bool:
        """Do again what was undone last."""
        return self._turn("redo", tr("There is nothing to redo."), tr("done again: {act}"))

    def take(self, change: Change) -> None:
        """Take a change that is in the ledger into the season and tell the window."""
        touched: Touched = self.season.take(change)
        self.changed.emit(touched)

    @staticmethod
    def _write(ledger: Ledger, proposal: Proposal) -> Change:
        return ledger.do(proposal.name, record=proposal.record, strike=proposal.strike)

    def _wrote(self, writing: Writing, change: Change, quietly: bool) -> None:
        self._writings.remove(writing)
        self._unpack()
        self.take(change)
        if not quietly:
            self.did.emit(change.act.name)
        writing.ended.emit(True)
        writing.deleteLater()

    def _could_not_write(self, writing: Writing, error: Exception) -> None:
        self._writings.remove(writing)
        self._unpack()
        self.refused.emit(sentence(str(error)))
        writing.ended.emit(False)
        writing.deleteLater()

    def _unpack(self) -> None:
        """Take in what others wrote while an act was written apart."""
        if self.live is not None:
            self.live.unpack()

    def _turn(self, deed: str, nothing: str, words: str) -> bool:
        if self._writings:
            self.refused.emit(BUSY)
            return False
        try:
            if self.live is not None:
                change = self.live.turn(deed)
            else:
                change = self.ledger.undo() if deed == "undo" else self.ledger.redo()
        except (RefusedError, LedgerError) as error:
            self.refused.emit(sentence(str(error)))
            return False
        if change is None:
            self.refused.emit(nothing)
            return False
        self.take(change)
        self.did.emit(words.format(act=change.act.name))
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
    return opening(stopped)
