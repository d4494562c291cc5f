"""What one day does to a tray on its ramp: a step up, none, or back, by the rules of `hardening.replay`."""

import datetime as dt
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Literal, NamedTuple

from greenroom.agronomy._checks import calendar_day, one_of, single
from greenroom.agronomy._ramp import DAY_MINUTES, Climb

Setback = Literal["droop", "wilt", "scorch"]

ENOUGH_SHARE = 0.8
"""Share of a step's minutes that counts as the step done: this program's own rule."""

FURTHER_DOWN: Mapping[str, int] = {"droop": 0, "wilt": 1, "scorch": 2}
"""Steps further down than a droop takes the tray: this program's own rule."""


def follow(ramp: Climb, standing: "RampState", day: "OutingDay") -> "RampState":
    """Where the tray stands after `day`, by the rules of `replay`."""
    steps = ramp.on(day.date)
    if day.setback is not None:
        return _after_setback(steps, standing, day)
    if day.minutes > 0:
        return RampState(_step_after_sun(steps, standing.step, day.minutes))
    if day.shade_minutes > 0:
        return RampState(standing.step)
    return _after_day_in(standing)


def _step_after_sun(ramp: Climb, step: int, minutes: float) -> int:
    if step == ramp.outings:
        return step
    held = bisect_right(ramp.doses, minutes) if ramp.catches_up else 0
    return max(held, step + (minutes >= ENOUGH_SHARE * ramp.doses[step]))


def _after_day_in(standing: "RampState") -> "RampState":
    if standing.resting:
        return replace(standing, resting=False)
    cost = 1 if standing.days_in else 0
    return RampState(max(0, standing.step - cost), standing.days_in + 1)


def _after_setback(ramp: Climb, standing: "RampState", day: "OutingDay") -> "RampState":
    borne = day.minutes if day.setback_after is None else day.setback_after
    one_down = min(standing.step, ramp.outings - 1) - 1
    highest_borne = bisect_right(ramp.doses, borne) - 1
    step = min(one_down, highest_borne) - FURTHER_DOWN[str(day.setback)]
    days_in = standing.days_in + 1 if day.spent_in else 0
    return RampState(max(0, step), days_in, resting=day.setback == "scorch")


@dataclass(frozen=True)
class OutingDay:
    """What one day gave a tray.

    Parameters
    ----------
    date : date
    minutes : float
        Minutes in direct sun, 0 to 1440.
    setback : "droop", "wilt", "scorch" or None
    setback_after : float or None
        Sun minutes when the setback showed, 0 to 1440; None: at the end, after all `minutes`. Give it when
        scorch is found on a later day than the sun that caused it. Without a setback it says nothing.
    shade_minutes : float
        Minutes outdoors out of direct sun, 0 to 1440.

    Raises
    ------
    ValueError
        Naming the argument out of range.
    """

    date: dt.date
    minutes: float
    setback: Setback | None = None
    setback_after: float | None = None
    shade_minutes: float = 0

    def __post_init__(self) -> None:
        calendar_day("date", self.date)
        single("minutes", self.minutes, low=0, high=DAY_MINUTES)
        single("shade_minutes", self.shade_minutes, low=0, high=DAY_MINUTES)
        if self.setback is not None:
            one_of("setback", self.setback, tuple(FURTHER_DOWN))
        if self.setback_after is not None:
            single("setback_after", self.setback_after, low=0, high=DAY_MINUTES)

    @property
    def spent_in(self) -> bool:
        """Neither sun nor shade outdoors."""
        return self.minutes == 0 and self.shade_minutes == 0


class Walked(NamedTuple):
    """A day of the ramp, with the step it began with and the step it left for the next day."""

    day: OutingDay
    before: int
    after: int


@dataclass(frozen=True, slots=True)
class RampState:
    """Step for the next day, days in running so far, and whether the next day is a rest after scorch."""

    step: int = 0
    days_in: int = 0
    resting: bool = False
