"""The card of the ramp chart: its title, the ready date, the key, and the chart once there is need of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QPushButton, QSizePolicy

from greenroom.desk.bench import Bench
from greenroom.desk.harden.bar_art import ChartKey
from greenroom.desk.harden.chart_strip import ChartStrip
from greenroom.desk.harden.ready_view import ReadyView
from greenroom.desk.parts import Card, WhyLink, label, restyle
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.deeds_outdoors import CAUSE_WORDS
from greenroom.season.door import ready_words
from greenroom.season.hardening_words import SETBACK_WORDS, day_words, whole_minutes
from greenroom.season.outdoors_why import schedules_why
from greenroom.season.ramp_days import DayKind, RampDay, ramp_days
from greenroom.season.why import Why

if TYPE_CHECKING:
    from greenroom.desk.harden.ramp_chart import RampChart

COALESCE_MS = 40
ROOM_FOR_KEY_PX = 170
ROOM_FOR_STRIP_PX = 230


class ChartCard(Card):
    """Draws a little after the last change, and only while it is seen."""

    def __init__(self, bench: Bench, why: Callable[[], Why | None]) -> None:
        super().__init__("Minutes by day")
        self._bench = bench
        self._days: list[RampDay] = []
        self._name = ""
        self._stale = False
        self.chart: RampChart | None = None
        self.ready = label("", "good")
        self.ready.setObjectName("ready")
        self.why = WhyLink(bench, why)
        self.why.setAccessibleName("why this ready date")
        self.when = QPushButton("Odds")
        self.when.setObjectName("ready-when")
        self.when.setProperty("kind", "link")
        self.when.setCheckable(True)
        self.when.setAccessibleName("How sure is the ready date?")
        self.light = _turning("Light", "chart-light", "Light in the sun by day, in mol/m²")
        self.schedules = _turning("Schedules", "chart-schedules", "What published schedules ask for")
        self.schedules_why = WhyLink(bench, lambda: schedules_why(len(self._days)), "sources")
        self.schedules_why.setAccessibleName("the published schedules and their sources")
        self.schedules_why.hide()
        self._coming: Mapping[date, float] = {}
        self.view = ReadyView(bench)
        self.view.hide()
        self.strip = ChartStrip(bench)
        self.strip.hide()
        self.strip.moved.connect(self._show_weather)
        self._stand: TwoClocks | None = None
        self.title.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.aside.hide()
        self.head.setStretch(0, 1)
        self.head.addWidget(self.ready)
        self.head.addWidget(self.why)
        for link in (self.schedules_why, self.schedules, self.light, self.when):
            self.head.addWidget(link)
        self._key = ChartKey(bench.look)
        self.body.addWidget(self._key)
        self.body.addWidget(self.view, 1)
        for link in (self.when, self.light, self.schedules):
            link.toggled.connect(lambda _on: self._turn())
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(132)
        self._timer = QTimer(self, singleShot=True, interval=COALESCE_MS)
        self._timer.timeout.connect(self._draw)

    def show_stand(self, stand: TwoClocks, name: str) -> None:
        """Show the ramp of a holder."""
        self.view.show_holder(stand.holder)
        self._stand = stand
        days = ramp_days(stand)
        words = ready_words(stand)
        self._name = name
        self._show_title()
        self.ready.setText(words.replace("ready to set out", "ready").replace("first planned", "planned"))
        restyle(self.ready, "role", "alert" if stand.days_later > 0 or stand.ready_on is None else "good")
        self.setAccessibleName(f"{name}, minutes by day")
        self.setAccessibleDescription(summary(days, words))
        if days != self._days or self.chart is None:
            self._days = days
            self._stale = True
            if self.isVisible():
                self._timer.start()

    def show_light_ahead(self, coming: Mapping[date, float]) -> None:
        """Take the light that days to come would have in their best hours [mol m-2]."""
        if coming != self._coming:
            self._coming = coming
            self._stale = self._stale or self.light.isChecked()
            if self._stale and self.isVisible():
                self._timer.start()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._stale:
            self._timer.start()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._show_key()

    def _show_key(self) -> None:
        self._key.setVisible(self.height() >= ROOM_FOR_KEY_PX and not self.when.isChecked())
        drawn = self.chart is not None and not self.when.isChecked()
        self.strip.setVisible(drawn and self.height() >= ROOM_FOR_STRIP_PX)

    def _show_title(self) -> None:
        minutes = "light by day" if self.light.isChecked() else "minutes by day"
        shown = "when ready" if self.when.isChecked() else minutes
        crowded = self.schedules.isChecked() and not self.when.isChecked()  # the links need the room
        self.title.setText(self._name if crowded else f"{self._name}, {shown}")

    def _turn(self) -> None:
        """Show how sure the ready date is in place of the chart, or the chart again."""
        asked = self.when.isChecked()
        self.when.setText("Chart" if asked else "Odds")
        self.when.setAccessibleName("Back to the chart" if asked else "How sure is the ready date?")
        self.view.setVisible(asked)
        if self.chart is not None:
            self.chart.setVisible(not asked)
        light, schedules = self.light.isChecked(), self.schedules.isChecked()
        self.light.setText("Minutes" if light else "Light")
        self.light.setVisible(not asked)
        self.schedules.setVisible(not asked and not light)
        self.schedules_why.setVisible(schedules and not asked and not light)
        self._key.show_bands(schedules and not light)
        self._stale = True
        self._timer.start()
        self._show_title()
        self._show_key()

    def _draw(self) -> None:
        if self.chart is None:
            from greenroom.desk.harden.ramp_chart import RampChart

            self.chart = RampChart(self._bench.look)
            self.chart.told = told_at
            self.body.addWidget(self.chart, 1)
            self.body.addWidget(self.strip)
            self.chart.setVisible(not self.when.isChecked())
            self.chart.getPlotItem().getViewBox().sigResized.connect(self._show_weather)
            self._show_key()
        self._stale = False
        self.chart.setAccessibleName(self.accessibleName())
        self.chart.setAccessibleDescription(self.accessibleDescription())
        self.chart.show_days(
            self._days,
            light=self.light.isChecked(),
            schedules=self.schedules.isChecked(),
            coming=self._coming,
        )
        self._show_weather()

    def _show_weather(self) -> None:
        """Let the weather stand under the bars."""
        if self.chart is not None and self._stand is not None and self.strip.isVisible():
            self.strip.follow(self.chart, self._stand, self._days)


def summary(days: list[RampDay], ready: str) -> str:
    """Return the chart in words: what was done, what set it back, what is to come."""
    done = [day for day in days if day.done > 0 and day.settled]
    parts = [f"{day_words(day.date)} {_done_words(day)}" for day in done]
    held = [f"{day_words(day.date)} hold, {day.note}" for day in days if day.kind is DayKind.HOLD]
    coming = [day for day in days if day.kind is DayKind.COMING]
    if coming:
        first, last = coming[0], coming[-1]
        held.append(
            f"to come {len(coming)} days, from {first.planned:.0f} minutes on {day_words(first.date)} "
            f"to {last.planned:.0f} on {day_words(last.date)}"
        )
    return f"{'; '.join([*parts, *held])}. {ready[0].upper()}{ready[1:]}."


def told_at(day: RampDay) -> str:
    """Return what there is to tell of one day under the pointer."""
    if day.kind is DayKind.HOLD:
        words = f"hold, {day.note}" if day.note else "hold"
    elif day.kind is DayKind.COMING:
        words = f"{day.planned:.0f} minutes to come"
    else:
        words = _done_words(day)
    return f"{day_words(day.date)}: {words}"


def _done_words(day: RampDay) -> str:
    words = f"{whole_minutes(day.done)} of {day.planned:.0f} minutes"
    if day.shade:
        words += f" and {whole_minutes(day.shade)} in shade"
    if day.light_mol_m2 is not None:
        words += f", {day.light_mol_m2:.1f} mol/m²"
    if day.cause:
        return f"{words}, {SETBACK_WORDS.get(day.note, 'set back')} {CAUSE_WORDS[day.cause]}"
    return f"{words}, {day.kind.value}"


def _turning(words: str, name: str, tip: str) -> QPushButton:
    made = QPushButton(words)
    made.setObjectName(name)
    made.setProperty("kind", "link")
    made.setCheckable(True)
    made.setAccessibleName(tip)
    made.setToolTip(tip)
    return made
