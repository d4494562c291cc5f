"""The two clocks of hardening planned together: minutes of direct sun, and minutes outdoors.

Published schedules disagree because they mix the two. Sun is what scorches, wind and dry air are what
wilt in the shade; each clock has steps of its own, goes up by what it was given and is set back only by
the harm it did. A tray is hardened when it has walked up both.
"""

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy._checks import refuse
from greenroom.agronomy.hardening import (
    REST,
    Climb,
    HoldLimits,
    OutdoorRamp,
    OutingDay,
    RampState,
    Verdict,
    WeatherOfDay,
    dose_at,
    follow,
    verdict,
)

__all__ = ["BothStates", "Clocks", "PlannedBoth", "days_to_ready", "morning_after", "project_both"]

ONE_DAY = dt.timedelta(days=1)
NOT_READY = -1
AT_THE_FOOT = RampState()

Whole = NDArray[np.int64]
Flags = NDArray[np.bool_]


def project_both(
    clocks: "Clocks",
    states: "BothStates",
    first: dt.date,
    forecast: Mapping[dt.date, WeatherOfDay],
    until: dt.date,
    *,
    limits: HoldLimits | None = None,
) -> list["PlannedBoth"]:
    """Plan both clocks ahead, each day done as planned and without setback.

    Parameters
    ----------
    clocks : Clocks
    states : BothStates
        Where the tray stands on the morning of `first`. A clock that `first` has settled already is
        taken to stand where that day left it.
    first, until : date
        First and last day to plan.
    forecast : mapping of date to an object with tmin, tmax [°C], gust [m/s] and rain [mm]
        A day it does not hold counts as "out".
    limits : HoldLimits or None
        The weather that holds, as in `verdict`.

    Returns
    -------
    list of PlannedBoth
        One a day up to `until`, or up to the day that completes both clocks; empty if both are done
        already. On a day to hold, and on the day of rest after leaf scorch, both have 0 minutes.

    Notes
    -----
    A day out gives the sun clock its step's minutes and the outdoor clock its own, or the sun minutes
    if they are more. The rest of the rules are those of `greenroom.agronomy.hardening.replay`.
    """
    plan: list[PlannedBoth] = []
    day = first
    while day <= until and not states.done(clocks):
        planned = _plan_day(clocks, states, day, forecast.get(day), limits)
        plan.append(planned)
        states = _morning_after(clocks, states, planned)
        day += ONE_DAY
    return plan


def morning_after(
    clocks: "Clocks",
    states: "BothStates",
    day: dt.date,
    weather: WeatherOfDay | None,
    *,
    limits: HoldLimits | None = None,
) -> "BothStates":
    """Where a tray stands once `day` has gone as planned; parameters as in `project_both`."""
    return _morning_after(clocks, states, _plan_day(clocks, states, day, weather, limits))


def days_to_ready(clocks: "Clocks", states: "BothStates", held: Flags) -> Whole:
    """Days until both clocks are done, for many weathers at once.

    Parameters
    ----------
    clocks : Clocks
    states : BothStates
        Where the tray stands on the morning of the first day; nothing of that day may be settled.
    held : array of bool, shape (..., n days)
        Days of which the weather holds; one row a weather.

    Returns
    -------
    array of int, shape (...)
        1 if the first day completes both, 0 if both were done before it, -1 if n days do not.

    Raises
    ------
    ValueError
        If `held` has no axis, or a clock of `states` is settled for the first day.

    Notes
    -----
    The same walk as `project_both`, day by day over all rows at once.
    """
    if held.ndim == 0:
        refuse("held", "a single value", "it must hold one row of days or more")
    if states.sun_settled or states.air_settled:
        refuse("states", "settled for the first day", "it must be where the tray stands in the morning")
    walk = _Walk.start(clocks, states, held.shape[:-1])
    ready = np.where(walk.done, 0, NOT_READY)
    for number in range(held.shape[-1]):
        if (ready != NOT_READY).all():
            break
        walk.follow(held[..., number])
        ready = np.where((ready == NOT_READY) & walk.done, number + 1, ready)
    return ready


def _plan_day(
    clocks: "Clocks",
    states: "BothStates",
    day: dt.date,
    weather: WeatherOfDay | None,
    limits: HoldLimits | None,
) -> "PlannedBoth":
    steps = states.sun.step, states.air.step
    if states.rests:
        return PlannedBoth(day, steps[0], 0, steps[1], 0, "hold", (REST,))
    said: tuple[Verdict, tuple[str, ...]] = ("out", ())
    if weather is not None:
        said = verdict(weather.tmin, weather.tmax, weather.gust, weather.rain, limits=limits)
    if said[0] == "hold":
        return PlannedBoth(day, steps[0], 0, steps[1], 0, *said)
    sun = 0 if states.sun_settled else dose_at(clocks.sun.on(day).doses, steps[0])
    air = 0 if states.air_settled else max(sun, dose_at(clocks.air.doses, steps[1]))
    return PlannedBoth(day, steps[0], sun, steps[1], air, *said)


def _morning_after(clocks: "Clocks", states: "BothStates", planned: "PlannedBoth") -> "BothStates":
    sun = states.sun if states.sun_settled else follow(clocks.sun, states.sun, planned.sun_day)
    air = states.air if states.air_settled else follow(clocks.air, states.air, planned.air_day)
    return BothStates(sun, air)


@dataclass(frozen=True, slots=True)
class Clocks:
    """The two ramps of a tray: of sun minutes, and of minutes outdoors."""

    sun: Climb
    air: OutdoorRamp


@dataclass(frozen=True, slots=True)
class BothStates:
    """Where a tray stands on both clocks; a settled one needs nothing more of the day at hand."""

    sun: RampState = AT_THE_FOOT
    air: RampState = AT_THE_FOOT
    sun_settled: bool = False
    air_settled: bool = False

    @property
    def rests(self) -> bool:
        """Whether the day is one of rest, in, after scorched leaves."""
        sun = self.sun.resting and not self.sun_settled
        return sun or (self.air.resting and not self.air_settled)

    def done(self, clocks: Clocks) -> bool:
        """Whether both clocks have been walked up."""
        return self.sun.step >= clocks.sun.outings and self.air.step >= clocks.air.outings


@dataclass(frozen=True, slots=True)
class PlannedBoth:
    """A day ahead: the step of each clock, its minutes (0 when held or settled), verdict and reasons."""

    date: dt.date
    sun_step: int
    sun_minutes: int
    air_step: int
    air_minutes: int
    verdict: Verdict
    reasons: tuple[str, ...] = ()

    @property
    def shade_minutes(self) -> int:
        """Minutes outdoors that are to be spent in shade."""
        return max(0, self.air_minutes - self.sun_minutes)

    @property
    def sun_day(self) -> OutingDay:
        """The day as the sun clock sees it once it is done."""
        return OutingDay(self.date, self.sun_minutes, shade_minutes=self.shade_minutes)

    @property
    def air_day(self) -> OutingDay:
        """The day as the outdoor clock sees it once it is done."""
        return OutingDay(self.date, self.air_minutes)


class _Walk:
    """Both clocks of many rows at once; the rows differ in their weather only."""

    def __init__(self, clocks: Clocks, states: BothStates, shape: tuple[int, ...]) -> None:
        self.ends = (clocks.sun.outings, clocks.air.outings)
        self.steps = [np.full(shape, one.step) for one in (states.sun, states.air)]
        self.days_in = [np.full(shape, one.days_in) for one in (states.sun, states.air)]
        self.resting = (states.sun.resting, states.air.resting)
        doses = [*clocks.sun.doses, clocks.sun.doses[-1]]
        # Steps of the outdoor clock that the sun minutes of each sun step hold.
        self.held_by = np.searchsorted(np.asarray(clocks.air.doses), doses, side="right")

    @classmethod
    def start(cls, clocks: Clocks, states: BothStates, shape: tuple[int, ...]) -> "_Walk":
        """Every row where the tray stands."""
        return cls(clocks, states, shape)

    @property
    def done(self) -> Flags:
        """The rows that have walked up both clocks."""
        return (self.steps[0] >= self.ends[0]) & (self.steps[1] >= self.ends[1])

    def follow(self, held: Flags) -> None:
        """Take one day in."""
        rests, self.resting = self.resting, (False, False)
        held = held | any(rests)
        borne = self.held_by[np.minimum(self.steps[0], self.ends[0])]
        up = (self.steps[0] + 1, np.maximum(self.steps[1] + 1, borne))
        for clock in (0, 1):
            step, days_in = self.steps[clock], self.days_in[clock]
            if rests[clock]:
                continue  # a day in that costs nothing and begins no run
            down = np.maximum(0, step - (days_in > 0))
            self.steps[clock] = np.where(held, down, np.minimum(up[clock], self.ends[clock]))
            self.days_in[clock] = np.where(held, days_in + 1, 0)
