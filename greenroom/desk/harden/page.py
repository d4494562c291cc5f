"""The Harden page: puts its parts together, and passes on what changed and what time it is."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from itertools import pairwise

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.harden.alarm import Alarm, message
from greenroom.desk.harden.alarm_strip import AlarmStrip
from greenroom.desk.harden.bell import Bell, desktop_bell
from greenroom.desk.harden.chart_card import ChartCard
from greenroom.desk.harden.days_ahead import DaysAhead
from greenroom.desk.harden.going_out import GoingOut, sendable
from greenroom.desk.harden.hours_ahead import HoursAhead
from greenroom.desk.harden.outing_card import OutingCard
from greenroom.desk.harden.standings import Standings
from greenroom.desk.harden.tonight_card import TonightCard
from greenroom.desk.harden.views import Views
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.page import Page
from greenroom.ledger.facts import (
    Forecast,
    HardeningStarted,
    Held,
    HolderMade,
    HolderRetired,
    OutingEnded,
    OutingStarted,
    OutingSwitched,
    PlaceSet,
    RampSet,
    SetbackSeen,
    SkySeen,
    UnitsSet,
    WeatherRecord,
    YardSun,
)
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.deeds_harden import all_in, all_out, all_switched
from greenroom.season.door import AtDoor
from greenroom.season.hardening import forecast_from
from greenroom.season.hardening_why import ready_why
from greenroom.season.state import Touched
from greenroom.season.why import Why

OF_ALL = frozenset(
    fact.kind
    for fact in (
        PlaceSet,
        UnitsSet,
        WeatherRecord,
        Forecast,
        HolderMade,
        HolderRetired,
        YardSun,
        SkySeen,
        RampSet,
    )
)
OF_ONE = frozenset(
    fact.kind for fact in (HardeningStarted, OutingStarted, OutingSwitched, OutingEnded, SetbackSeen, Held)
)

ROOM_FOR_PANEL_PX = 820
ROOM_FOR_ALARM_PX = 612
ROOM_FOR_SKY_PX = 690


class HardenPage(Page):
    """Everything it shows follows from the facts and the time; it counts nothing itself."""

    key = "harden"

    def __init__(self, bench: Bench, bell: Bell | None = None) -> None:
        super().__init__(bench)
        self.standings = Standings(bench.keeper)
        self.alarm = Alarm(desktop_bell() if bell is None else bell, self)
        self.strip = AlarmStrip(self._bring_in, self._into_shade, self._snooze)
        self.going = GoingOut(bench)
        self.hours = HoursAhead(bench, self)
        self.card = OutingCard(bench, self.standings, self.hours)
        self.days = DaysAhead(bench, self._ready_why)
        self.tonight = TonightCard(bench)
        self.chart = ChartCard(bench, self._ready_why)
        self.going.numbers.pictured_by(lambda: self.chart.chart)
        self.views = Views(bench, self._stands, lambda: self.going.current)
        self._assemble()
        self._connect()

    def take(self, touched: Touched) -> None:
        if touched.kinds & OF_ALL:
            self.standings.forget()
            self.hours.forget()
        else:
            self.standings.forget(touched.holders)
        on_ramp = touched.holders & frozenset(self.standings.keys())
        if not (touched.kinds & (OF_ALL | OF_ONE) or on_ramp):
            self.views.take(touched)
            return
        now = self.bench.keeper.now
        rows = self.standings.all_now(now)
        if touched.kinds & OF_ONE:
            self.alarm.tick(now, rows)
        if self.isVisible():
            self._show(rows, now)

    def tick(self, now: datetime) -> None:
        aged = self.standings.age(now)
        rows = self.standings.all_now(now)
        self.alarm.tick(now, rows)
        if self.isVisible():
            (self._show if aged else self._show_counters)(rows, now)

    def entered(self) -> None:
        self.standings.age(self.bench.keeper.now)
        self.refresh()
        errand = self.bench.errand(self.key)
        if isinstance(errand, str):
            self.going.choose(errand)

    def take_focus(self) -> None:
        if self.going.model.rows:
            self.going.view.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            super().take_focus()

    def refresh(self) -> None:
        """Show everything as it is."""
        now = self.bench.keeper.now
        self._show(self.standings.all_now(now), now)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.card.sky.set_compact(self.height() < ROOM_FOR_SKY_PX)
        self._place_chart()

    def _show(self, rows: list[AtDoor], now: datetime) -> None:
        self.going.show_now(rows)
        self.going.show_snoozed(self.alarm.snoozed(now, rows))
        self.days.setVisible(bool(rows))
        self.tonight.setVisible(bool(rows))
        self.card.show_day()
        if rows:
            self._show_chosen()
        else:
            self.card.show_empty()
        self._place_chart()
        self.views.refresh()

    def _assemble(self) -> None:
        upper = QHBoxLayout()
        upper.setSpacing(GAP + 4)
        upper.addWidget(self.card, 1)
        right = QVBoxLayout()
        right.setSpacing(GAP + 4)
        right.addWidget(self.days, 1)
        right.addWidget(self.tonight)
        upper.addLayout(right)
        cards = QWidget()
        inside = QVBoxLayout(cards)
        inside.setContentsMargins(0, 0, 0, 0)
        inside.setSpacing(GAP + 4)
        inside.addLayout(upper, 2)
        inside.addWidget(self.chart, 1)
        self.views.set_work(cards)
        middle = QVBoxLayout()
        middle.setSpacing(GAP + 4)
        middle.addWidget(self.strip)
        middle.addWidget(self.views, 1)
        aside = QVBoxLayout()
        aside.addWidget(self.going, 1)
        aside.addWidget(self.views.bar)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(PAGE_MARGIN, PAGE_MARGIN, PAGE_MARGIN, PAGE_MARGIN)
        layout.setSpacing(GAP + 8)
        layout.addLayout(aside)
        layout.addLayout(middle, 1)
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._set_focus_order()

    def _set_focus_order(self) -> None:
        order: list[QWidget] = [
            self.strip.bring,
            self.strip.shade,
            self.strip.later,
            self.going.view,
            self.card.buttons,
            self.going.send_all,
            self.going.bring_all,
            self.going.hush,
        ]
        for before, after in pairwise(order):
            QWidget.setTabOrder(before, after)

    def _connect(self) -> None:
        self.going.chosen.connect(lambda _key: self._show_chosen())
        self.going.all_out.connect(self._send_all_out)
        self.going.all_in.connect(self._bring_all_in)
        self.going.quiet.connect(self._set_quiet)
        self.going.start.connect(self._open_start)
        self.views.chosen.connect(self.going.choose)
        self.card.panel_changed.connect(self._panel_changed)
        self.card.sky.folded.connect(self._place_chart)
        self.alarm.changed.connect(self._show_due)
        self.hours.found.connect(self._show_hours)
        self.tonight.told.connect(self.views.fit_work)
        application = QCoreApplication.instance()
        if application is not None:
            application.aboutToQuit.connect(self.alarm.stop)
            application.aboutToQuit.connect(self.hours.stop)
            application.aboutToQuit.connect(self.tonight.stop)
            application.aboutToQuit.connect(self.chart.view.stop)
            application.aboutToQuit.connect(self.views.stop)

    def _place_chart(self) -> None:
        """Show the chart, unless a panel, or the alarm over a low page, needs its room."""
        self._make_room(alarm=not self.strip.isHidden())

    def _make_room(self, *, alarm: bool) -> None:
        panel = self.card.panel is not None or self.card.sky.opened
        needed = ROOM_FOR_PANEL_PX if panel else ROOM_FOR_ALARM_PX if alarm else 0
        cramped = self.height() < needed
        shown = bool(self.going.model.rows) and not cramped
        if self.chart.isHidden() == shown:
            self.chart.setVisible(shown)
            self.views.fit_work()  # at once, or what is shown next finds no room

    def _panel_changed(self) -> None:
        self._place_chart()
        self._show_chosen()

    def _show_chosen(self) -> None:
        """Show the chosen holder in the card, the days and the chart."""
        keeper = self.bench.keeper
        here = self.standings.now(self.going.current, keeper.now)
        if here is None:
            return
        self.card.show_holder(here.key)
        self.hours.want(here.stand, keeper.now)
        self.card.show_hours()
        self.card.show_now(here, keeper.now)
        self.card.refresh_panel()
        self.days.show_plan(here.stand, forecast_from(keeper.season, keeper.today))
        self.chart.show_stand(here.stand, here.name)
        self.tonight.show_holder(here.key)
        self._show_best()

    def _show_best(self) -> None:
        """Show the best hours of the days, and the light they would give, as far as they are known."""
        best = self.hours.best()
        self.days.show_best(best)
        found = {day: one.light_mol_m2 for day, one in best.items() if one is not None}
        self.chart.show_light_ahead({day: light for day, light in found.items() if light is not None})

    def _show_hours(self) -> None:
        """Show the hours of the chosen holder, now that they are worked out."""
        keeper = self.bench.keeper
        here = self.standings.now(self.going.current, keeper.now)
        if here is not None and self.isVisible():
            self.card.show_hours()
            self.card.show_now(here, keeper.now)
            self._show_best()

    def _show_counters(self, rows: list[AtDoor], now: datetime) -> None:
        """Show what the passing of seconds changes."""
        self.going.show_now(rows)
        self.going.show_snoozed(self.alarm.snoozed(now, rows))
        here = next((one for one in rows if one.key == self.card.key), None)
        if here is not None and here.out:
            self.card.show_now(here, now)

    def _show_due(self, due: list[AtDoor]) -> None:
        if due:
            self._make_room(alarm=True)
        self.strip.show_due(due)
        self._place_chart()
        if due and not self.isVisible():
            self.bench.say("{}. {}".format(*message(due)))

    def _bring_in(self, keys: list[str]) -> None:
        keeper = self.bench.keeper
        keeper.do(lambda: all_in(keeper.season, keys, keeper.now))

    def _into_shade(self, keys: list[str]) -> None:
        keeper = self.bench.keeper
        keeper.do(lambda: all_switched(keeper.season, keys, keeper.now, "shade"))

    def _snooze(self) -> None:
        now = self.bench.keeper.now
        self.alarm.snooze(now, self.standings.all_now(now))
        self._show_snoozed(now)

    def _set_quiet(self, quiet: bool) -> None:
        now = self.bench.keeper.now
        self.alarm.set_quiet(quiet, now, self.standings.all_now(now))

    def _show_snoozed(self, now: datetime) -> None:
        self.going.show_snoozed(self.alarm.snoozed(now, self.standings.all_now(now)))

    def _send_all_out(self) -> None:
        self._with_all(lambda rows: sendable(rows), out=True)

    def _bring_all_in(self) -> None:
        self._with_all(lambda rows: [here.key for here in rows if here.out], out=False)

    def _with_all(self, choose: Callable[[list[AtDoor]], list[str]], *, out: bool) -> None:
        keeper = self.bench.keeper
        now = keeper.now
        keys = choose(self.standings.all_now(now))
        keeper.do(lambda: all_out(keeper.season, keys, now) if out else all_in(keeper.season, keys, now))

    def _open_start(self) -> None:
        self.views.open(None)
        self.card.open_start()

    def _stands(self) -> list[TwoClocks]:
        found = map(self.standings.of, self.standings.keys())
        return [stand for stand in found if stand is not None]

    def _ready_why(self) -> Why | None:
        stand = self.standings.of(self.going.current)
        return ready_why(stand) if stand else None
