"""The jobs that were put off or struck out, each with its way back."""

from __future__ import annotations

from PySide6.QtCore import Signal

from greenroom.desk.parts import Card
from greenroom.desk.round.done_row import QuietRow
from greenroom.season.hardening_words import day_words
from greenroom.season.round import Round
from greenroom.speech import tr


class AsideCard(Card):
    """``brought_back`` carries the job."""

    brought_back = Signal(object)

    def __init__(self) -> None:
        super().__init__(tr("Put aside"))
        self.setObjectName("round-aside")
        self.rows: list[QuietRow] = []

    def show_round(self, found: Round) -> None:
        """Show what was put aside."""
        for row in self.rows:
            self.body.removeWidget(row)
            row.hide()
            row.deleteLater()
        lines = [(job, tr("put off until {day}", day=day_words(until))) for job, until in found.put_off]
        lines += [(job, tr("struck out for good")) for job in found.struck]
        self.rows = []
        for job, words in lines:
            row = QuietRow(job.what, words, tr("bring back"), "·")
            row.back.connect(lambda job=job: self.brought_back.emit(job))
            self.body.addWidget(row)
            self.rows.append(row)
