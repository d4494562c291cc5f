"""Hardening off: the ramp of sun minutes, what each day does to it, and the days ahead.

A tray walks up a ramp of outings. The ramp counts minutes in *direct sun* only, which is why it can
start at 20: published schedules that start at one to four hours start in shade. Every rule below is
this program's own. The published schedules agree on one to two weeks of rising doses and on stepping
back after harm, but none of them says what a skipped day does or how far to step back.
"""

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from greenroom.agronomy._checks import calendar_day
from greenroom.agronomy._outing_days import ENOUGH_SHARE, OutingDay, RampState, Setback, Walked, follow
from greenroom.agronomy._outing_weather import DayWeather, HoldLimits, Verdict, WeatherOfDay, verdict
from greenroom.agronomy._ramp import (
    FEWEST_OUTINGS,
    MOST_OUTINGS,
    ChangingRamp,
    Climb,
    OutdoorRamp,
    Ramp,
    dose_at,
)

__all__ = [
    "ENOUGH_SHARE",
    "FEWEST_OUTINGS",
    "MOST_OUTINGS",
    "REST",
    "ChangingRamp",
    "Climb",
    "DayWeather",
    "HoldLimits",
    "OutdoorRamp",
    "OutingDay",
    "Planned",
    "Ramp",
    "RampState",
    "Setback",
    "Verdict",
    "Walked",
    "WeatherOfDay",
    "dose_at",
    "follow",
    "project",
    "replay",
    "rests_on",
    "state_on",
    "step_after",
    "step_on",
    "verdict",
]

ONE_DAY = dt.timedelta(days=1)
REST = "rest after leaf scorch"


def replay(ramp: Climb, days: Iterable[OutingDay]) -> list[Walked]:
    """Walk the ramp from step 0 and tell the step before and after each day.

    Parameters
    ----------
    ramp : Ramp, OutdoorRamp or ChangingRamp
    days : iterable of OutingDay
        In any order, at most one a date. Calendar days missing between the first and the last are
        days in, and are returned as such (0 minutes).

    Returns
    -------
    list of Walked
        One a calendar day, in order; empty if `days` is.

    Raises
    ------
    ValueError
        If a date comes twice.

    Notes
    -----
    The rules, each this program's own:

    - at least 80 % of the step's minutes and no setback: one step up; less, but some sun: same step;
    - a day in: same step; each further day in running: one step down, a hardened tray included;
    - a day of shade only keeps the step and ends the run of days in;
    - droop: the lower of one step down and the highest step whose minutes had been borne when it
      showed; wilt one lower still; scorch two lower still;
    - the day after a scorch, if spent in, costs nothing *and is not counted into the run*: the first
      day in after it is free as any first day in is, and the run starts there. If the tray went out
      that day all the same, the day counts for what it was;
    - a setback noted on a day spent in is still a day in for the run;
    - on an `OutdoorRamp` an outing counts for every step whose minutes it holds;
    - never below step 0; a setback on a hardened tray counts from the last step.

    A droop in dry mix that recovers after water is thirst: do not hand it in as a setback.
    """
    return [Walked(day, before.step, after.step) for day, before, after in _walk(ramp, _in_order(days))]


def step_after(ramp: Climb, days: Iterable[OutingDay]) -> int:
    """Step for the day after the last of `days`; `ramp.outings` means hardened.

    Parameters, rules and errors as in `replay`. Without days the step is 0.
    """
    return _standing_after(ramp, _in_order(days)).step


def step_on(ramp: Climb, days: Iterable[OutingDay], day: dt.date) -> int:
    """Step for `day`; each day between the last of `days` and it was a day in.

    Raises
    ------
    ValueError
        If `day` does not lie after all of `days`, or as in `replay`.
    """
    return state_on(ramp, _in_order(days), calendar_day("day", day)).step


def rests_on(days: Iterable[OutingDay], day: dt.date) -> bool:
    """Whether `day` is the rest day that follows a leaf scorch."""
    return any(past.setback == "scorch" and past.date + ONE_DAY == day for past in days)


def project(
    ramp: Climb,
    days: Sequence[OutingDay],
    today: dt.date,
    forecast: Mapping[dt.date, WeatherOfDay],
    until: dt.date,
    *,
    limits: HoldLimits | None = None,
) -> list["Planned"]:
    """Plan the outings ahead, each day done as planned and without setback.

    Parameters
    ----------
    ramp : Ramp, OutdoorRamp or ChangingRamp
    days : sequence of OutingDay
        What happened, up to `today` at the latest.
    today : date
        The plan starts today, or tomorrow if `days` already holds today. Days between the last of
        `days` and today were days in.
    forecast : mapping of date to an object with tmin, tmax [°C], gust [m/s] and rain [mm]
        `DayWeather` will do. A day it does not hold counts as "out".
    until : date
        Last day to plan.
    limits : HoldLimits or None
        The weather that holds, as in `verdict`.

    Returns
    -------
    list of Planned
        One a day up to `until`, or up to the outing that completes the ramp; empty if hardened
        already. A day to "hold" has 0 minutes and counts as a day in, so a second one running costs
        a step. A "sheltered" day is an outing of the step's full minutes, in sun but out of the wind
        and under cover from rain. The day after a scorch is held with the reason "rest after leaf scorch".

    Raises
    ------
    ValueError
        If one of `days` lies after today, or as in `replay` and `verdict`.
    """
    past = _in_order(days)
    day = calendar_day("today", today)
    if past and past[-1].date > day:
        raise ValueError(f"days holds {past[-1].date}; none may lie after today, {day}")
    if past and past[-1].date == day:
        day += ONE_DAY
    standing = state_on(ramp, past, day)
    plan: list[Planned] = []
    while day <= until and standing.step < ramp.outings:
        planned = _plan_day(ramp, standing, day, forecast.get(day), limits)
        plan.append(planned)
        standing = follow(ramp, standing, OutingDay(day, planned.minutes))
        day += ONE_DAY
    return plan


def _in_order(days: Iterable[OutingDay]) -> list[OutingDay]:
    ordered = sorted(days, key=lambda day: day.date)
    for earlier, later in pairwise(ordered):
        if earlier.date == later.date:
            raise ValueError(f"days holds two entries for {later.date}; there must be at most one a date")
    return ordered


def _each_day(days: Sequence[OutingDay]) -> Iterator[OutingDay]:
    """The days given, and a day in for each calendar day missing between them."""
    for at, day in enumerate(days):
        yield day
        missing = day.date + ONE_DAY
        while at + 1 < len(days) and missing < days[at + 1].date:
            yield OutingDay(missing, 0)
            missing += ONE_DAY


def _walk(ramp: Climb, days: Sequence[OutingDay]) -> Iterator[tuple[OutingDay, RampState, RampState]]:
    standing = RampState()
    for day in _each_day(days):
        before, standing = standing, follow(ramp, standing, day)
        yield day, before, standing


def _standing_after(ramp: Climb, days: Sequence[OutingDay]) -> RampState:
    standing = RampState()
    for _, _, after in _walk(ramp, days):
        standing = after
    return standing


def state_on(ramp: Climb, days: Sequence[OutingDay], day: dt.date) -> RampState:
    """Where the tray stands on the morning of `day`: as `step_on`, with the run of days in and the rest."""
    past = _in_order(days)
    standing = _standing_after(ramp, past)
    if not past:
        return standing
    if past[-1].date >= day:
        raise ValueError(f"days holds {past[-1].date}; the last must lie before {day}")
    for gap in range(1, (day - past[-1].date).days):
        standing = follow(ramp, standing, OutingDay(past[-1].date + gap * ONE_DAY, 0))
    return standing


def _plan_day(
    ramp: Climb,
    standing: RampState,
    day: dt.date,
    weather: WeatherOfDay | None,
    limits: HoldLimits | None,
) -> "Planned":
    if standing.resting:
        return Planned(day, standing.step, 0, "hold", (REST,))
    said: tuple[Verdict, tuple[str, ...]] = ("out", ())
    if weather is not None:
        said = verdict(weather.tmin, weather.tmax, weather.gust, weather.rain, limits=limits)
    minutes = 0 if said[0] == "hold" else ramp.on(day).doses[standing.step]
    return Planned(day, standing.step, minutes, *said)


@dataclass(frozen=True)
class Planned:
    """A day ahead: the step it begins with, its sun minutes (0 when held), the verdict and its reasons."""

    date: dt.date
    step: int
    minutes: int
    verdict: Verdict
    reasons: tuple[str, ...] = ()
