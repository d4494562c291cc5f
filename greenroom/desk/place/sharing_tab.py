"""A ledger on a server: where it is, who is on it, and what waits on this machine to be sent."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, column, label, restyle, row
from greenroom.desk.place.sharing_words import (
    ALL_SENT,
    AWAY,
    IN_ONE_FILE,
    KEPT,
    REACHED,
    lives_words,
    people_words,
    written_row,
)
from greenroom.desk.rows_table import RowsTable
from greenroom.desk.tabs import Part
from greenroom.ledger import LedgerError
from greenroom.speech import tr, trn

if TYPE_CHECKING:
    from greenroom.desk.live import Live
    from greenroom.ledger.outbox import Waiting

ACTS_SHOWN = 12
WAITING_SHOWN = 6


class SharingTab(Part):
    """The connection, the people, what waits, what was held back, and who wrote what last."""

    def __init__(self, bench: Bench, live: Live) -> None:
        super().__init__()
        self._bench = bench
        self._live = live
        self.state = label("")
        self.people = label("", wrap=True)
        self.waits = label("", wrap=True)
        self.waiting = RowsTable(tr("Acts that wait to be sent"))
        self.held = Card(tr("Held back: another hand was first"))
        self.rows = QVBoxLayout()
        self.held.body.addLayout(self.rows)
        self.written = RowsTable(tr("Who wrote what last"))
        self._lay_out()
        live.turned.connect(self._on_turned)

    def refresh(self) -> None:
        """Show everything as it stands; what only the server knows stays while it is away."""
        self.state.setText(AWAY if self._live.away else REACHED)
        restyle(self.state, "role", "alert" if self._live.away else "")
        self._show_waiting()
        self._show_held()
        if not self._live.away:
            self._ask()

    def _on_turned(self) -> None:
        if self.isVisible():
            self.refresh()

    def _ask(self) -> None:
        try:
            present, writers = self._live.ledger.present(), self._live.ledger.writers()
            acts = self._live.ledger.acts(ACTS_SHOWN)
        except LedgerError:
            self.state.setText(AWAY)
            restyle(self.state, "role", "alert")
            return
        self.people.setText(people_words(present, writers))
        place = self._bench.keeper.place
        self.written.show_rows((tr("When"), tr("Who"), tr("What")), [written_row(act, place) for act in acts])
        self.written.fit(ACTS_SHOWN)

    def _show_waiting(self) -> None:
        waiting, place = self._live.waiting, self._bench.keeper.place
        self.waits.setText(
            trn("1 waiting to be sent:", "{n} waiting to be sent:", len(waiting)) if waiting else ALL_SENT
        )
        self.waiting.setVisible(bool(waiting))
        self.waiting.show_rows(
            (tr("When"), tr("Who"), tr("What")), [written_row(one.act, place) for one in waiting]
        )
        self.waiting.fit(WAITING_SHOWN)

    def _show_held(self) -> None:
        while (item := self.rows.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        held = self._live.held
        for place, one in enumerate(held):
            made = self._held_row(place, one)
            self.rows.addWidget(made)
            made.show()  # else a row made while the part comes to the front stays hidden
        self.held.setVisible(bool(held))

    def _held_row(self, place: int, one: Waiting) -> QWidget:
        when, _, what = written_row(one.act, self._bench.keeper.place)
        made = QWidget()
        send = button(
            tr("Write it all the same"), partial(self._live.send_held, one), name=f"send-held-{place}"
        )
        drop = button(tr("Let it go"), partial(self._live.let_go, one), name=f"drop-held-{place}")
        send.setAccessibleName(tr("write: {deed}", deed=what))
        drop.setAccessibleName(tr("let go: {deed}", deed=what))
        line = row(label(f"{what} ({when}). {one.reason}", wrap=True), send, drop)
        line.setStretch(0, 1)
        made.setLayout(line)
        return made

    def _lay_out(self) -> None:
        lives = Card(tr("Where this ledger lives"))
        lives.body.addWidget(label(lives_words(self._live.where, self._live.ledger.who), wrap=True))
        for part in (self.state, self.people, label(self._live.caution, "alert", wrap=True)):
            lives.body.addWidget(part)
            part.setVisible(part.text() != "" or part in (self.state, self.people))
        lives.body.addWidget(label(KEPT, "quiet", wrap=True))
        sending = Card(tr("Waiting to be sent"))
        sending.body.addWidget(self.waits)
        sending.body.addWidget(self.waiting)
        last = Card(tr("Who wrote what last"))
        last.body.addWidget(self.written)
        layout = column(lives, self.held, sending, last, None, gap=GAP + 4)
        layout.setContentsMargins(0, 0, 0, 0)
        self.setLayout(layout)


def how_to_share() -> Card:
    """Return a card that says how a ledger in a file comes to be shared."""
    card = Card(tr("Several hands on one ledger"))
    card.body.addWidget(label(IN_ONE_FILE, wrap=True))
    return card
