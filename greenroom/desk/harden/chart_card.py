"""The card of the ramp chart: its title, the ready date, the key, and the chart once there is need of it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtGui import QResizeEvent, QShowEvent
from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.harden.bar_art import ChartKey
from greenroom.desk.harden.chart_strip import ChartStrip
from greenroom.desk.harden.ready_view import ReadyView
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, WhyLink, label, restyle
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.door import ready_words
from greenroom.season.hardening_words import (
    FROM_A_CAUSE,
    SETBACK_WORDS,
    day_words,
    whole_minutes,
)
from greenroom.season.outdoors_why import schedules_why
from greenroom.season.ramp_days import DayKind, RampDay, ramp_days
from greenroom.season.reasons import kept_words
from greenroom.season.why import Why
from greenroom.season.within import in_row, opening
from greenroom.speech import tr, trn

if TYPE_CHECKING:
    from greenroom.desk.harden.ramp_chart import RampChart
    from greenroom.exchange.tables.table import Table

COALESCE_MS = 40
ROOM_FOR_KEY_PX = 170
ROOM_FOR_STRIP_PX = 230
ODDS, LIGHT = tr("Odds"), tr("Light")
KIND_WORDS = {
    DayKind.DONE: tr("done", sense="a day of hardening"),
    DayKind.SHORT: tr("too short for a step"),
    DayKind.SHADE: tr("shade only"),
    DayKind.IN: tr("in", sense="indoors"),
    DayKind.SET_BACK: tr("set back"),
    DayKind.TODAY: tr("today"),
    DayKind.COMING: tr("to come"),
    DayKind.HOLD: tr("hold", sense="a day of hardening"),
}


class ChartCard(Card):
    """Draws a little after the last change, and only while it is seen."""

    def __init__(self, bench: Bench, why: Callable[[], Why | None]) -> None:
        super().__init__(tr("Minutes by day"))
        self._bench = bench
        self._days: list[RampDay] = []
        self._name = ""
        self._stale = False
        self.chart: RampChart | None = None
        self.ready = label("", "good")
        self.ready.setObjectName("ready")
        self.why = WhyLink(bench, why)
        self.why.setAccessibleName(tr("why this ready date"))
        self.when = QPushButton(ODDS)
        self.when.setObjectName("ready-when")
        self.when.setProperty("kind", "link")
        self.when.setCheckable(True)
        self.when.setAccessibleName(tr("How sure is the ready date?"))
        self.light = _turning(LIGHT, "chart-light", tr("Light in the sun by day, in mol/m²"))
        self.schedules = _turning(tr("Schedules"), "chart-schedules", tr("What published schedules ask for"))
        self.schedules_why = WhyLink(bench, lambda: schedules_why(len(self._days)), tr("sources"))
        self.schedules_why.setAccessibleName(tr("the published schedules and their sources"))
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
        self.head.setSpacing(GAP - 4)
        self.head.addWidget(self.ready)
        self.head.addWidget(self.why)
        self.numbers = TableButton(bench, self._table, self._drawn)
        for link in (self.schedules_why, self.schedules, self.light, self.when, self.numbers):
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
        self.ready.setText(_short_ready(stand))
        restyle(self.ready, "role", "alert" if stand.days_later > 0 or stand.ready_on is None else "good")
        self.setAccessibleName(tr("{name}, minutes by day", name=name))
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

    def _table(self, bench: Bench) -> Table | None:
        """Return the table behind what is shown: the days of the ramp, or the mornings of the spread."""
        if self.when.isChecked():
            return sources.spread(bench, self.view.band.mornings)
        return sources.hardening(bench, self._stand.holder) if self._stand is not None else None

    def _drawn(self) -> QWidget | None:
        """Return what is shown, to be saved as a picture."""
        return self.view.band if self.when.isChecked() else self.chart

    def _show_key(self) -> None:
        self._key.setVisible(self.height() >= ROOM_FOR_KEY_PX and not self.when.isChecked())
        drawn = self.chart is not None and not self.when.isChecked()
        self.strip.setVisible(drawn and self.height() >= ROOM_FOR_STRIP_PX)

    def _show_title(self) -> None:
        minutes = tr("light by day") if self.light.isChecked() else tr("minutes by day")
        shown = tr("when ready") if self.when.isChecked() else minutes
        crowded = self.schedules.isChecked() and not self.when.isChecked()  # the links need the room
        self.title.setText(self._name if crowded else f"{self._name}, {shown}")

    def _turn(self) -> None:
        """Show how sure the ready date is in place of the chart, or the chart again."""
        asked = self.when.isChecked()
        self.when.setText(tr("Chart") if asked else ODDS)
        self.when.setAccessibleName(tr("Back to the chart") if asked else tr("How sure is the ready date?"))
        self.view.setVisible(asked)
        if self.chart is not None:
            self.chart.setVisible(not asked)
        light, schedules = self.light.isChecked(), self.schedules.isChecked()
        self.light.setText(tr("Minutes") if light else LIGHT)
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
    held = [
        tr("{day} hold, {reason}", day=day_words(day.date), reason=kept_words(day.note))
        for day in days
        if day.kind is DayKind.HOLD
    ]
    coming = [day for day in days if day.kind is DayKind.COMING]
    if coming:
        first, last = coming[0], coming[-1]
        held.append(
            trn(
                "to come {n} day, from {least:.0f} minutes on {first} to {most:.0f} on {last}",
                "to come {n} days, from {least:.0f} minutes on {first} to {most:.0f} on {last}",
                len(coming),
                least=first.planned,
                first=day_words(first.date),
                most=last.planned,
                last=day_words(last.date),
            )
        )
    return f"{in_row([*parts, *held])}. {opening(ready)}."


def told_at(day: RampDay) -> str:
    """Return what there is to tell of one day under the pointer."""
    if day.kind is DayKind.HOLD:
        words = tr("hold, {reason}", reason=kept_words(day.note)) if day.note else KIND_WORDS[day.kind]
    elif day.kind is DayKind.COMING:
        words = tr("{minutes:.0f} minutes to come", minutes=day.planned)
    else:
        words = _done_words(day)
    return tr("{name}: {what}", name=day_words(day.date), what=words)


def _done_words(day: RampDay) -> str:
    done, shade = whole_minutes(day.done), whole_minutes(day.shade)
    words = tr("{done} of {planned:.0f} minutes", done=done, planned=day.planned)
    if day.shade:
        words = tr(
            "{done} of {planned:.0f} minutes and {shade} in shade",
            done=done,
            planned=day.planned,
            shade=shade,
        )
    if day.light_mol_m2 is not None:
        words += tr(", {light:.1f} mol/m²", light=day.light_mol_m2)
    if day.cause:
        return (
            f"{words}, {SETBACK_WORDS.get(day.note, KIND_WORDS[DayKind.SET_BACK])} {FROM_A_CAUSE[day.cause]}"
        )
    return f"{words}, {KIND_WORDS[day.kind]}"


def _short_ready(stand: TwoClocks) -> str:
    """Return the ready date against the plan, where room is short."""
    if stand.ready_on is None:
        return ready_words(stand)
    day, late = day_words(stand.ready_on), stand.days_later
    ready = tr("hardened off on {day}", day=day) if stand.hardened else tr("ready {day}", day=day)
    if late == 0:
        return f"{ready}, {tr('as planned')}"
    if late > 0:
        later = trn("{n} day later than planned", "{n} days later than planned", late)
        return f"{ready}, {later}"
    return f"{ready}, {trn('{n} day earlier than planned', '{n} days earlier than planned', -late)}"


def _turning(words: str, name: str, tip: str) -> QPushButton:
    made = QPushButton(words)
    made.setObjectName(name)
    made.setProperty("kind", "link")
    made.setCheckable(True)
    made.setAccessibleName(tip)
    made.setToolTip(tip)
    return made
