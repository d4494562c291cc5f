"""What the parts of the plan view share: the season planned, the variety chosen, the sowing day tried."""

from __future__ import annotations

from datetime import date, timedelta

from PySide6.QtCore import QObject, Signal

from greenroom.desk.bench import Bench
from greenroom.season.deeds_plan import choose_sowing
from greenroom.season.frost_plan import FrostPlan, frost_plan, frosts_of
from greenroom.season.hardening_words import day_words
from greenroom.season.plan import KINDS, Plan, PlanRow, plan_of
from greenroom.season.plan_chart import Sowing
from greenroom.season.temperatures import temperature
from greenroom.season.wants import frost_dates, sowing_span
from greenroom.speech import tr

KIND_NAMES = frozenset(kind.kind for kind in KINDS) | {"units_set"}


class PlanDesk(QObject):
    """``changed`` tells of another plan, ``picked`` of another variety, ``tried`` of another day tried.

    A day is tried while it is dragged; ``keep`` writes it down, ``let_go`` forgets it.
    """

    changed = Signal()
    picked = Signal()
    tried = Signal()

    def __init__(self, bench: Bench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self._today = bench.keeper.today
        self.year = self.usual_year
        self.key: str | None = None
        self.trial: date | None = None

    @property
    def usual_year(self) -> int:
        """The season that is sown next, or is being sown: this year's as long as its sowing lasts."""
        today = self.bench.keeper.today
        last = sowing_span(self.bench.keeper.season, today.year).last
        return today.year if today <= last else today.year + 1

    @property
    def plan(self) -> Plan:
        """The plan as it stands."""
        keeper = self.bench.keeper
        return plan_of(keeper.season, self.year, keeper.today)

    @property
    def row(self) -> PlanRow | None:
        """The plan of the variety chosen; of the first still to be sown if that one is not wanted."""
        plan = self.plan
        found = plan.row(self.key) if self.key is not None else None
        if found is not None:
            return found
        return next((one for one in plan.rows if not one.sown), plan.rows[0] if plan.rows else None)

    def say_c(self, celsius: float) -> str:
        """Return a temperature in the reader's unit."""
        return temperature(celsius, self.bench.keeper.place.temperature)

    def day_of(self, row: PlanRow) -> date:
        """Return the day a variety is sown on: the day tried, or the plan's."""
        return self.trial if self.trial is not None and self._is_picked(row) else row.on

    def sowing_of(self, row: PlanRow) -> Sowing | None:
        """Return what comes of the day a variety is sown on, by the place's years."""
        chart = self.plan.chart
        if chart is None or row.sowing is None or self.day_of(row) == row.on:
            return row.sowing
        return chart.sown(row.variety, self.day_of(row))

    def frosts_of(self, row: PlanRow) -> FrostPlan | None:
        """Return what comes of it by the calendar alone."""
        given = frost_dates(self.bench.keeper.season)
        if given is None or row.frosts is None or self.day_of(row) == row.on:
            return row.frosts
        return frost_plan(row.needs, self.day_of(row), frosts_of(given, self.year))

    def is_short(self, row: PlanRow) -> bool:
        """Whether a variety falls short of the odds wanted on the day it is sown."""
        sowing, frosts = self.sowing_of(row), self.frosts_of(row)
        if sowing is not None:
            return sowing.odds.share < self.plan.rules.odds
        return frosts is not None and frosts.spare_days < 0

    def show_year(self, year: int) -> None:
        """Plan another season."""
        if year != self.year:
            self.year, self.trial = year, None
            self.changed.emit()

    def pick(self, variety: str | None) -> None:
        """Choose a variety."""
        if variety is not None and variety != self.key:
            self.let_go()
            self.key = variety
            self.picked.emit()

    def try_day(self, day: date) -> None:
        """Try a sowing day for the variety chosen; one outside the season's is taken as its nearest."""
        row = self.row
        if row is None:
            return
        span = sowing_span(self.bench.keeper.season, self.year)
        day = min(max(day, span.first), span.last)
        if day != self.day_of(row):
            self.key = row.variety
            self.trial = day
            self.tried.emit()

    def step(self, days: int) -> None:
        """Try a day so much later."""
        if (row := self.row) is not None:
            self.try_day(self.day_of(row) + timedelta(days=days))

    def let_go(self) -> None:
        """Go back to the plan's own day."""
        if self.trial is not None:
            self.trial = None
            self.tried.emit()

    def keep(self) -> None:
        """Write down the day tried; what is sown already stays as it was."""
        row, day = self.row, self.trial
        if row is None or day is None:
            return
        if row.sown:
            self.let_go()
            self.bench.say(
                tr("{variety} was sown on {day}; that stays.", variety=row.name, day=day_words(row.on))
            )
            return
        keeper = self.bench.keeper
        done = keeper.do(lambda: choose_sowing(keeper.season, row.variety, self.year, day, keeper.today))
        if not done:
            self.let_go()

    def take(self, touched: object) -> None:
        """Hear of a change; a plan that it touches is told to everyone."""
        kinds: frozenset[str] = getattr(touched, "kinds", frozenset())
        if kinds & KIND_NAMES:
            self.trial = None
            self.changed.emit()

    def follow_today(self) -> None:
        """Go on to a new day at midnight."""
        if self._today != self.bench.keeper.today:
            self._today = self.bench.keeper.today
            self.changed.emit()

    def _is_picked(self, row: PlanRow) -> bool:
        picked = self.row
        return picked is not None and picked.variety == row.variety
