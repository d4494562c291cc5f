"""One window among several on a ledger: takes in what others write, and goes on while the server is away.

An act made while the server does not answer is kept in the outbox on this machine's disk and shown at once.
When the server is back, what others wrote is taken in first; then each act that waited is held against it.
Those that still fit are sent, in one go; one that does not is held back, with the reason, until the grower
decides on it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer, Signal

from greenroom.desk import live_words as words
from greenroom.desk.live_ears import Ears
from greenroom.ledger import Act, Change
from greenroom.ledger.errors import ServerAwayError
from greenroom.season.filing import spots_of
from greenroom.season.meeting import clash, first_hand
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.state import Touched
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.desk.keeper import Keeper
    from greenroom.ledger.outbox import Outbox, Waiting
    from greenroom.ledger.sharing import SharedLedger

LATER_MS = 200
REMEMBERED = 1000


class Live(QObject):
    """``turned`` tells that the connection, what waits or who writes may have changed."""

    turned = Signal()

    pictures: Path | None = None  # the folder of pictures on this machine
    where = ""  # what the ledger is called, and what to know of the way there
    caution = ""

    def __init__(self, keeper: Keeper, ledger: SharedLedger, outbox: Outbox) -> None:
        super().__init__(keeper)
        self._keeper = keeper
        self._ledger = ledger
        self._outbox = outbox
        self._touched: list[Touched] = []
        self._said: list[str] = []
        self._stash: list[Change] = []  # what was met while an act was written apart
        self._shown: dict[int, Change] = {}
        self.waiting = outbox.waiting()
        self.away = False
        self._stopped = False
        self._ears = Ears(ledger.listening, self)
        self._ears.heard.connect(self.catch_up)
        self._ears.reached.connect(self._reached)
        self._ears.lost.connect(self._lost)
        self._hands: dict[int, str] = {}
        if self.waiting:  # whom they may clash with
            self._hands = {act.number: act.who for act in ledger.acts(REMEMBERED)}
        for one in self.waiting:
            self._show(one)
        self._touched.clear()  # nothing is painted yet

    @property
    def ledger(self) -> SharedLedger:
        """The ledger; what it is asked raises LedgerError while the server is away."""
        return self._ledger

    @property
    def waits(self) -> bool:
        """Whether what is marked now has to wait."""
        return self.away or bool(self.waiting)

    @property
    def held(self) -> list[Waiting]:
        """The acts that were held back, each with its reason."""
        return self._outbox.held()

    def start(self) -> None:
        """Start listening to the server."""
        self._ears.start()

    def stop(self) -> None:
        """Stop listening; called once, before the ledger is closed."""
        self._stopped = True
        self._ears.stop()

    def act(self, number: int) -> Act | None:
        """Return an act by its number; None while the server that holds it does not answer."""
        shown = self._shown.get(number)
        if shown is not None:
            return shown.act
        try:
            return self._ledger.act(number)
        except ServerAwayError:
            self._lost()
            return None

    def write(self, proposal: Proposal) -> Change:
        """Write an act once what others wrote is taken in, or keep it while the server is away.

        Raises
        ------
        RefusedError
            If it no longer fits what another hand wrote first.
        LedgerError
            If neither the server nor this machine's disk keeps it.
        """
        written = self._keeper.now
        if self.waits:
            return self._keep(proposal, written)
        try:
            return self._ledger.do_seen(
                proposal.name,
                record=proposal.record,
                strike=proposal.strike,
                written=written,
                meet=lambda news: self._meet(news, proposal),
            )
        except ServerAwayError:
            self._lost()
            return self._keep(proposal, written)
        finally:
            self._tell()

    def apart(self, proposal: Proposal) -> Callable[[object], Change]:
        """Return what writes an act in another thread; there the season is not asked.

        It is refused if another hand wrote meanwhile about any of the same spots.
        """
        leaving = self._keeper.season.entries_of(proposal.strike)
        facts = [*proposal.record, *(entry.fact for entry in leaving)]
        spots, written = frozenset(key for fact in facts for key in spots_of(fact)), self._keeper.now

        def meet(news: Sequence[Change]) -> None:
            self._stash.extend(news)
            for change in news:
                if any(
                    spots.intersection(spots_of(entry.fact)) for entry in (*change.added, *change.removed)
                ):
                    raise RefusedError(words.MEANWHILE.format(who=change.act.who))

        return lambda _ledger: self._ledger.do_seen(
            proposal.name, record=proposal.record, strike=proposal.strike, written=written, meet=meet
        )

    def unpack(self) -> None:
        """Take in what others wrote while an act was written apart."""
        self._take_in([])
        self._tell()

    def turn(self, deed: str) -> Change | None:
        """Undo or redo the latest own act, unless what others wrote since rests on it.

        Raises
        ------
        RefusedError, LedgerError
            If that cannot be; nothing is changed.
        """
        if self.waits:
            raise RefusedError(words.NOT_NOW)
        try:
            self._take_in(self._ledger.news())
            coming = self._ledger.turning(deed)
            if coming is None:
                return None
            proposal = Proposal(
                coming.act.name,
                tuple(entry.fact for entry in coming.added),
                tuple(entry.fact.id for entry in coming.removed),
            )
            self._require_fit([], proposal)
            if deed == "undo":
                self._require_alone(coming)
            return self._ledger.turn_seen(deed, lambda news: self._meet(news, proposal))
        except ServerAwayError as error:
            self._lost()
            raise RefusedError(words.NOT_NOW) from error
        finally:
            self._tell()

    def catch_up(self) -> None:
        """Take in what others wrote, and send what waited."""
        if self._stopped:
            return
        if self._keeper.writing:  # what it writes is taken in first, so that nothing is known too early
            QTimer.singleShot(LATER_MS, self, self.catch_up)
            return
        try:
            self._catch_up()
        except ServerAwayError:  # a connection that dropped says so once, and is there again the next time
            try:
                self._catch_up()
            except ServerAwayError:
                self._lost()
        self._tell()

    def send_held(self, one: Waiting) -> None:
        """Write an act that was held back, as it is; what it would strike out may be gone."""
        still = [entry.fact.id for entry in self._keeper.season.entries_of(one.strike)]
        if self._keeper.do(lambda: Proposal(one.act.name, one.facts, tuple(still))):
            self._outbox.sent([one])
            self.turned.emit()

    def let_go(self, one: Waiting) -> None:
        """Give an act up that was held back."""
        self._outbox.let_go(one)
        self.turned.emit()

    def _keep(self, proposal: Proposal, written: datetime) -> Change:
        act = Act(0, "do", proposal.name, written, self._ledger.zone, self._ledger.who)
        one = self._outbox.add(act, proposal.record, proposal.strike)
        self.waiting.append(one)
        self._shown[one.act.number] = change = self._change(one)
        self.turned.emit()
        return change

    def _change(self, one: Waiting) -> Change:
        return Change(one.act, one.added, tuple(self._keeper.season.entries_of(one.strike)))

    def _show(self, one: Waiting) -> None:
        self._shown[one.act.number] = change = self._change(one)
        self._take_in([change])

    def _hide(self, one: Waiting) -> None:
        change = self._shown.pop(one.act.number)
        self._take_in([Change(change.act, change.removed, change.added)])

    def _catch_up(self) -> None:
        if self.waiting:
            self._send()
        else:
            self._take_in(self._ledger.news())

    def _send(self) -> None:
        sent: list[Waiting] = []

        def choose(news: list[Change], there: list[Waiting]) -> Sequence[Waiting]:
            for one in reversed(self.waiting):
                self._hide(one)
            self._take_in(news)
            sent.extend(there)
            self._sort_out(there)
            return self.waiting

        changes = self._ledger.deliver(list(self.waiting), choose)
        for one, change in zip(self.waiting, changes, strict=True):
            shown = self._shown.pop(one.act.number)
            self._take_in([Change(change.act, change.added, shown.added)])
        sent += self.waiting
        self.waiting = []
        self._outbox.sent(sent)
        if sent:
            self._said.insert(0, words.back_words(len(sent)))
        self.turned.emit()

    def _sort_out(self, there: Sequence[Waiting]) -> None:
        """Hold back what no longer fits; show again what does, and leave it waiting."""
        fit = []
        self._outbox.sent(there)
        for one in self.waiting:
            if one in there:
                continue
            proposal = Proposal(one.act.name, one.facts, one.strike)
            reason = clash(self._keeper.season, proposal)
            if reason:
                who = self._first(proposal)
                self._outbox.hold(one, words.FIRST.format(who=who, reason=reason))
                self._said.append(words.HELD.format(name=one.act.name, who=who))
            else:
                self._show(one)
                fit.append(one)
        self.waiting = fit

    def _meet(self, news: Sequence[Change], proposal: Proposal) -> None:
        self._take_in(news)
        self._require_fit(news, proposal)

    def _require_fit(self, news: Sequence[Change], proposal: Proposal) -> None:
        reason = clash(self._keeper.season, proposal)
        if reason:
            raise RefusedError(
                words.FIRST.format(who=self._first(proposal), reason=reason) if news else f"{reason}."
            )

    def _require_alone(self, undoing: Change) -> None:
        """Raise where another hand wrote about the same spots since the act that is to be undone."""
        season = self._keeper.season
        hands: dict[int, str] = {}
        for entry in (*undoing.added, *undoing.removed):
            for key in spots_of(entry.fact):
                for later in season.spot_facts(key):
                    if later.act > undoing.act.number and later.act not in hands:
                        hands[later.act] = self._ledger.act(later.act).who
                        if hands[later.act] != self._ledger.who:
                            name = season.holder(key.holder).name
                            raise RefusedError(
                                words.SINCE.format(
                                    who=hands[later.act],
                                    spot=tr("{cell} of {tray}", cell=key.label, tray=name),
                                )
                            )

    def _first(self, proposal: Proposal) -> str:
        return first_hand(self._keeper.season, proposal, self._hands, self._ledger.who) or words.SOMEBODY

    def _take_in(self, changes: Sequence[Change]) -> None:
        """Take changes into the season; ``_tell`` tells the window, when no lock is held."""
        changes, self._stash = [*self._stash, *changes], []
        self._hands.update((change.act.number, change.act.who) for change in changes)
        self._touched += [self._keeper.season.take(change) for change in changes]

    def _tell(self) -> None:
        said, self._said = self._said, []
        for sentence in said:
            self._keeper.refused.emit(sentence)
        touched, self._touched = self._touched, []
        if not touched:
            return
        self._keeper.changed.emit(
            Touched(
                frozenset().union(*(one.spots for one in touched)),
                frozenset().union(*(one.holders for one in touched)),
                frozenset().union(*(one.kinds for one in touched)),
            )
        )
        self.turned.emit()

    def _reached(self) -> None:
        if self._stopped:
            return
        self.away = False
        self.turned.emit()
        self.catch_up()

    def _lost(self) -> None:
        if not (self.away or self._stopped):
            self.away = True
            self._ears.connect_anew()
            self._keeper.refused.emit(words.LOST)
            self.turned.emit()
