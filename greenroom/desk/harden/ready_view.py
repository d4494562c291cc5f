"""Ready when: the spread of the ready date, how it narrowed, and by when to start for a day."""

from __future__ import annotations

from datetime import date, timedelta

from PySide6.QtCore import QTimer
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QDateEdit, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.days import day_in, qt_day
from greenroom.desk.harden.spread_band import SpreadBand
from greenroom.desk.parts import WhyLink, column, label, row
from greenroom.season.hardening_words import day_words
from greenroom.season.ramp_rules import rules_of_holder
from greenroom.season.ready_history import (
    spread_history,
    spread_of,
    spread_why,
    spread_words,
    start_for,
    start_why,
)
from greenroom.season.ready_spread import ReadySpread, StartBy
from greenroom.season.two_clocks import two_clocks
from greenroom.season.why import Why
from greenroom.speech import tr

AFTER_PAINTING_MS = 30
USUAL_LEAD = timedelta(days=21)
NO_RECORD = tr("Bring in a record of past weather on The place, and the years will tell.")
DONE = tr("Hardened off; there is nothing more to wait for.")


class ReadyView(QWidget):
    """Works only while it is seen, a little after it was asked, for it plays all years of the record."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._key = ""
        self._spread: ReadySpread | None = None
        self._start: StartBy | None = None
        self.words = label("", "strong", wrap=True)
        self.why = WhyLink(bench, lambda: spread_why(self._spread) if self._spread else None)
        self.why.setAccessibleName(tr("why this spread"))
        self.day = _day_field()
        self.answer = label("", wrap=True)
        self.start_why = WhyLink(bench, self._why_start)
        self.start_why.setAccessibleName(tr("why this start"))
        self.band = SpreadBand(bench.look)
        self._assemble()
        self._timer = QTimer(self, singleShot=True, interval=AFTER_PAINTING_MS)
        self._timer.timeout.connect(self._work_out)
        self.day.dateChanged.connect(lambda _: self._timer.start())

    def show_holder(self, key: str) -> None:
        """Show a holder; another one asks for its own day."""
        if key != self._key:
            self._key = key
            self._ask(self._bench.keeper.today + USUAL_LEAD)
        if self.isVisible():
            self._timer.start()

    def stop(self) -> None:
        """Work nothing out until it is asked for again."""
        self._timer.stop()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._timer.start()

    def _assemble(self) -> None:
        told = row(self.words, self.why)
        told.setStretch(0, 1)
        asked = label(tr("New plants, to set out on"))
        answered = row(self.answer, self.start_why)
        answered.setStretch(0, 1)
        left = QWidget()
        lines = column(gap=4)
        left.setLayout(lines)
        lines.addLayout(told)
        lines.addLayout(row(asked, self.day, None))
        lines.addLayout(answered)
        lines.addStretch(1)
        both = row(left, self.band)
        both.setStretch(0, 1)
        both.setStretch(1, 1)
        self.setLayout(both)

    def _ask(self, day: date) -> None:
        self.day.blockSignals(True)
        self.day.setDate(qt_day(day))
        self.day.blockSignals(False)

    def _work_out(self) -> None:
        keeper = self._bench.keeper
        season, today = keeper.season, keeper.today
        stand = two_clocks(season, self._key, today, keeper.now) if self._key else None
        if stand is None:
            return
        self._spread = spread_of(season, stand)
        missing = DONE if stand.hardened else NO_RECORD
        self.words.setText(spread_words(self._spread) if self._spread else missing)
        self.why.setVisible(self._spread is not None)
        self.band.show_history(spread_history(season, stand) if self._spread else [])
        wanted = day_in(self.day)
        self._start = start_for(season, rules_of_holder(season, self._key), wanted, today)
        self.answer.setText(start_words(self._start, wanted, today))
        self.start_why.setVisible(self._start is not None)

    def _why_start(self) -> Why | None:
        return start_why(self._start) if self._start else None


def start_words(found: StartBy | None, wanted: date, today: date) -> str:
    """Return by when to start for a day, with the odds, in a sentence."""
    if wanted < today:
        return tr("{day} is past; choose a day to come.", day=day_words(wanted))
    if found is None:
        return NO_RECORD
    if found.latest is None:
        odds = found.odds(today) or 0.0
        return tr(
            "Even started today, ready in {odds:.0f} of {years} years.",
            odds=odds * found.years,
            years=found.years,
        )
    odds = found.odds(found.latest) or 0.0
    return tr(
        "Start by {day}: ready in {odds:.0f} of {years} years.",
        day=day_words(found.latest),
        odds=odds * found.years,
        years=found.years,
    )


def _day_field() -> QDateEdit:
    made = QDateEdit()
    made.setDisplayFormat(tr("d MMM yyyy", sense="form of a date"))
    made.setObjectName("set-out-on")
    made.setAccessibleName(tr("New plants, to set out on"))
    return made
