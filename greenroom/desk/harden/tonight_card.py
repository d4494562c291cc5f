"""Tonight: whether the chosen holder may stay out, and the cold nights ahead for plants already set out."""

from __future__ import annotations

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QPushButton

from greenroom.desk.bench import Bench
from greenroom.desk.cover_bar import CoverBar
from greenroom.desk.harden.days_ahead import WIDTH_PX
from greenroom.desk.nothing_yet import WORKING_OUT
from greenroom.desk.parts import Card, WhyLink, label, restyle, row
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.cold_snap import (
    ColdSnap,
    cold_snaps,
    crops_standing_out,
    snap_why,
    snap_words,
)
from greenroom.season.hardening_words import time_words
from greenroom.season.tonight import Tonight, tonight, tonight_why, tonight_words
from greenroom.season.two_clocks import two_clocks
from greenroom.season.why import Why
from greenroom.speech import tr

AFTER_PAINTING_MS = 60


class TonightCard(Card):
    """Worked out a little after it is asked for, so that a click on the page need not wait for it."""

    told = Signal()  # it may take another height now

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.setFixedWidth(WIDTH_PX)
        self.setAccessibleName(tr("Tonight"))
        self.body.setSpacing(2)
        self.aside.hide()
        self.body.removeItem(self.head)
        self._bench = bench
        self._key = ""
        self._night: tuple[Tonight, TwoClocks] | None = None
        self._snap: ColdSnap | None = None
        self.why = WhyLink(bench, self._night_why)
        self.why.setAccessibleName(tr("why tonight"))
        self.words = label(WORKING_OUT, "quiet", wrap=True)
        self.why.hide()
        self.snap = label("", "alert", wrap=True)
        self.snap_why = WhyLink(bench, self._snap_why)
        self.snap_why.setAccessibleName(tr("why this warning"))
        self.what = QPushButton(tr("Plants set out: what to do"))
        self.what.setObjectName("cold-what")
        self.what.setProperty("kind", "link")
        self.what.setCheckable(True)
        self.steps = label("", wrap=True)
        line = row(self.words, self.why)
        line.setStretch(0, 1)
        self.body.addLayout(line)
        told = row(self.snap, self.snap_why)
        told.setStretch(0, 1)
        self.body.addLayout(told)
        self.body.addLayout(row(self.what, None))
        self.body.addWidget(self.steps)
        self.cover = CoverBar(bench)
        self.body.addWidget(self.cover)
        self.what.toggled.connect(lambda _on: self._show_snap())
        self._timer = QTimer(self, singleShot=True, interval=AFTER_PAINTING_MS)
        self._timer.timeout.connect(self._work_out)
        self._show_snap()

    def show_holder(self, key: str) -> None:
        """Show the night of a holder soon."""
        self._key = key
        self._timer.start()

    def stop(self) -> None:
        """Work nothing out until it is asked for again."""
        self._timer.stop()

    def _work_out(self) -> None:
        keeper = self._bench.keeper
        season, today = keeper.season, keeper.today
        stand = two_clocks(season, self._key, today, keeper.now) if self._key else None
        self._night = (tonight(season, stand), stand) if stand else None
        crops = crops_standing_out(season)
        snaps = cold_snaps(season, crops, today) if crops else []
        self._snap = snaps[0] if snaps else None
        self.cover.refresh()
        self._show_night()
        self._show_snap()
        self.body.activate()
        self.told.emit()

    def _show_night(self) -> None:
        self.why.setVisible(self._night is not None)
        if self._night is None:
            self.words.setText("")
            return
        night, _ = self._night
        words = tonight_words(night, self._bench.keeper.place)
        if night.stay_out:
            self.words.setText(tr("Tonight may stay out"))
        elif night.before is None:
            self.words.setText(tr("Tonight in before dusk"))
        else:
            before = time_words(night.before, self._bench.keeper.place)
            self.words.setText(tr("Tonight in before {time}", time=before))
        self.words.setAccessibleName(tr("Tonight: {night}", night=words))
        self.words.setToolTip(self.words.accessibleName())
        restyle(self.words, "role", "good" if night.stay_out else "strong")

    def _show_snap(self) -> None:
        snap = self._snap
        for part in (self.snap, self.what, self.snap_why):
            part.setVisible(snap is not None)
        self.steps.setVisible(snap is not None and self.what.isChecked())
        if snap is None:
            return
        self.snap.setText(snap_words(snap, self._bench.keeper.place))
        self.steps.setText("\n".join(f"{place}. {step}" for place, step in enumerate(snap.to_do, start=1)))
        self.steps.setAccessibleName(" ".join(snap.to_do))

    def _night_why(self) -> Why | None:
        return tonight_why(*self._night, self._bench.keeper.place) if self._night else None

    def _snap_why(self) -> Why | None:
        return snap_why(self._snap, self._bench.keeper.place) if self._snap else None
