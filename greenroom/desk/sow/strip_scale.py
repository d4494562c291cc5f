"""Where the days of the season strip lie, and the stages of one variety on it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.season.months import month_starts
from greenroom.season.plan import PlanRow
from greenroom.season.plan_stages import Stages, stages_from

NAME_PX, RIGHT_PX = 138, 16
MARGIN = timedelta(days=12)
BEFORE = timedelta(days=21)


@dataclass(frozen=True, slots=True)
class Scale:
    """Days from left to right, beside the names."""

    first: date
    last: date
    width: int

    @property
    def day_px(self) -> float:
        """The width of a day."""
        room = self.width - NAME_PX - RIGHT_PX
        return max(0.5, room / max(1, (self.last - self.first).days))

    def x(self, day: date) -> float:
        """Return where a day begins."""
        return NAME_PX + (day - self.first).days * self.day_px

    def days(self, pixels: float) -> int:
        """Return the days a way is long."""
        return round(pixels / self.day_px)

    def months(self) -> list[date]:
        """Return the firsts of the months that are shown."""
        return month_starts(self.first, self.last)


def stages_of(desk: PlanDesk, row: PlanRow) -> Stages:
    """Return the stages of a variety sown on the day tried or planned."""
    found = desk.sowing_of(row), desk.frosts_of(row)
    return stages_from(desk.bench.guide, row.needs, desk.day_of(row), *found)


def scale_of(desk: PlanDesk, width: int) -> Scale:
    """Return the scale on which the whole season of every variety has room."""
    rows, plan = desk.plan.rows, desk.plan
    days: list[date] = []
    for row in rows:
        stages = stages_of(desk, row)
        days += [
            one for one in (stages.on - MARGIN, stages.up, stages.set_out, stages.ripe) if one is not None
        ]
        if row.window is not None:
            days.append(row.window.first - BEFORE)
        if stages.ripe_spread is not None:
            days.append(stages.ripe_spread.late)
        if row.frosts is not None:
            days.append(row.frosts.end)
    if plan.frost is not None:
        days.append(plan.frost.late)
    if not days:
        days = [date(plan.year, 1, 1), date(plan.year, 12, 1)]
    return Scale(min(days), max(days) + MARGIN, width)
