"""When to go out: the hours of a day that are warm, calm, dry and sunny enough, and the gentlest of them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import Enum
from itertools import pairwise

import numpy as np

from greenroom.agronomy.hardening import HoldLimits
from greenroom.agronomy.sun_minutes import noon_light
from greenroom.agronomy.sunlight import solar_noon
from greenroom.season.air_ahead import STEP, AirAhead, Flags, Floats, air_between
from greenroom.season.counted import CLOCK
from greenroom.season.outings import midnight
from greenroom.season.place import Place, place_of
from greenroom.season.state import Season
from greenroom.season.yard_sun import yard_sun
from greenroom.speech import tr

MIDDAY = timedelta(hours=2)
"""Either side of solar noon: the four hours of strongest sun, as the World Health Organization counts them
(Global Solar UV Index, 2002: 10 to 14 h by the sun)."""
LEAST_LIGHT = 0.25
"""Share of the clear noon light below which a clear sun is too low to harden by: this program's own rule."""
MODERATE_RAIN_MM_H = 2.5
"""Moderate rain begins above it: American Meteorological Society, Glossary of Meteorology, rain."""
STEP_MINUTES = STEP / timedelta(minutes=1)

TOO_COLD, GUSTS, RAIN, NO_SUN, LOW_SUN = (
    tr("too cold"),
    tr("gusts"),
    tr("rain"),
    tr("no sun on the step"),
    tr("the sun is low"),
)


class Part(Enum):
    """The part of the day, in the order in which they are proposed."""

    MORNING = tr("morning")
    AFTERNOON = tr("late afternoon")
    MIDDAY = tr("midday")


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of the day; ``reasons`` tell why it is closed, and are empty where it is open."""

    start: datetime
    end: datetime
    reasons: tuple[str, ...] = ()

    @property
    def minutes(self) -> float:
        """Its length by the clock."""
        return (self.end - self.start).total_seconds() / 60


@dataclass(frozen=True, slots=True)
class Window:
    """A stretch proposed for the sun: by the clock, in sun minutes, and its light.

    ``whole`` tells whether it holds all the minutes asked for; if not, it is the longest there is.
    """

    start: datetime
    end: datetime
    part: Part
    minutes: float
    sun_minutes: float
    light_mol_m2: float | None
    whole: bool


@dataclass(frozen=True, slots=True)
class OutingPlan:
    """An outing proposed: out into the shade, into the sun, back into the shade, in; or shade alone."""

    out: datetime
    sun: Window | None
    back: datetime

    @property
    def shade_before(self) -> float:
        """Minutes of shade before the sun; all of them where there is no sun."""
        return ((self.sun.start if self.sun else self.back) - self.out).total_seconds() / 60

    @property
    def shade_after(self) -> float:
        """Minutes of shade after the sun."""
        return (self.back - self.sun.end).total_seconds() / 60 if self.sun else 0.0


@dataclass(frozen=True, slots=True)
class DayWindows:
    """When a holder can go out on a day.

    ``open`` are the hours of daylight warm, calm and dry enough, ``sunny`` those of them with sun on the
    step high enough to harden by, ``closed`` the rest of the daylight with its reasons. ``by_hour`` tells
    whether the temperature comes from the forecast's hours all day, ``known`` whether there is any at all.
    """

    day: date
    asked: float
    by: str
    limits: HoldLimits
    open: tuple[Span, ...]
    sunny: tuple[Span, ...]
    closed: tuple[Span, ...]
    yard: tuple[datetime, datetime] | None
    best: Window | None
    outing: OutingPlan | None
    by_hour: bool
    known: bool


def day_windows(
    season: Season,
    day: date,
    minutes: float,
    limits: HoldLimits,
    *,
    by: str = CLOCK,
    outdoors: float = 0.0,
    holder: str | None = None,
    now: datetime | None = None,
) -> DayWindows:
    """Return when a holder can go out on a day, and the outing proposed.

    ``minutes`` are those in the sun that are asked for, counted ``by`` the clock or the sun's strength;
    ``outdoors`` those outdoors, sun and shade together, by the clock. Nothing before ``now`` is proposed.
    """
    place = place_of(season)
    air = air_between(
        season, midnight(day, place.zone), midnight(day + timedelta(days=1), place.zone), holder
    )
    yard = yard_sun(season, day)
    light = _light(air, day, place)
    gates = _gates(air, limits, yard)
    closed = np.logical_or.reduce([gates[name] for name in (TOO_COLD, GUSTS, RAIN)])
    past = np.array([now is not None and moment < now for moment in air.moments])
    up = air.weight > 0
    fit = up & ~closed & ~past
    sunny = fit & ~gates[NO_SUN] & ~gates[LOW_SUN]
    best = _best(air, sunny, minutes, by, _noon(day, place, air), light)
    return DayWindows(
        day=day,
        asked=minutes,
        by=by,
        limits=limits,
        open=tuple(_spans(air, fit)),
        sunny=tuple(_spans(air, sunny)),
        closed=tuple(_closed(air, gates)),
        yard=yard,
        best=best,
        outing=_outing(air, fit, best, outdoors),
        by_hour=bool(air.by_hour[up].all()),
        known=not bool(np.isnan(air.temperature_c).all()),
    )


def _gates(air: AirAhead, limits: HoldLimits, yard: tuple[datetime, datetime] | None) -> dict[str, Flags]:
    """Return for each reason the steps it closes; what is not known closes nothing."""
    lit = [yard is not None and yard[0] <= moment < yard[1] for moment in air.moments]
    return {
        TOO_COLD: air.temperature_c < limits.cold_c,
        GUSTS: air.gust_ms >= limits.gust_m_s,
        RAIN: air.rain_mm_h > MODERATE_RAIN_MM_H,
        NO_SUN: ~np.array(lit),
        LOW_SUN: air.weight < LEAST_LIGHT,
    }


def _best(
    air: AirAhead, sunny: Flags, minutes: float, by: str, noon: datetime, light: Floats | None
) -> Window | None:
    """Return the gentlest stretch in the first part of the day that holds the minutes, or the longest."""
    if minutes <= 0 or not sunny.any():
        return None
    worth = np.full(len(sunny), STEP_MINUTES) if by == CLOCK else air.light * STEP_MINUTES
    runs = list(_runs(sunny))
    found = [window for run in runs for window in _windows(run, worth, minutes)]
    for part in Part:
        of_part = [one for one in found if _part(air, one, noon) is part]
        if of_part:
            first, last = min(of_part, key=lambda one: (_strength(air, one), one))
            return _window(air, (first, last), noon, light, minutes, by)
    longest = max(runs, key=lambda run: (float(np.sum(worth[run[0] : run[1]])), -run[0]))
    return _window(air, longest, noon, light, minutes, by)


def _windows(run: tuple[int, int], worth: Floats, minutes: float) -> Iterator[tuple[int, int]]:
    """Yield the shortest stretch from each step of a run that is worth the minutes."""
    gained = np.concatenate(([0.0], np.cumsum(worth[run[0] : run[1]])))
    ends = np.searchsorted(gained, gained[:-1] + minutes - 1e-9)
    yield from ((run[0] + at, run[0] + int(end)) for at, end in enumerate(ends) if end < gained.size)


def _strength(air: AirAhead, window: tuple[int, int]) -> float:
    """Return the mean light of a stretch, rounded so that a hair of difference chooses nothing."""
    return round(float(np.mean(air.light[window[0] : window[1]])), 6)


def _part(air: AirAhead, window: tuple[int, int], noon: datetime) -> Part:
    start, end = air.moment(window[0]), air.moment(window[1])
    if end <= noon - MIDDAY:
        return Part.MORNING
    return Part.AFTERNOON if start >= noon + MIDDAY else Part.MIDDAY


def _window(
    air: AirAhead, steps: tuple[int, int], noon: datetime, light: Floats | None, asked: float, by: str
) -> Window:
    """Return a stretch of steps as a window; its last step is cut to the minutes asked for."""
    first, last = steps
    parts = np.ones(last - first)
    worth = parts * STEP_MINUTES if by == CLOCK else air.light[first:last] * STEP_MINUTES
    had = float(np.sum(worth))
    if had > asked:
        parts[-1] = 1 - (had - asked) / worth[-1]
    return Window(
        start=air.moment(first),
        end=air.moment(last - 1) + STEP * float(parts[-1]),
        part=_part(air, steps, noon),
        minutes=float(np.sum(parts)) * STEP_MINUTES,
        sun_minutes=float(air.light[first:last] @ parts) * STEP_MINUTES,
        light_mol_m2=None if light is None else float(light[first:last] @ parts),
        whole=had >= asked - 1e-6,
    )


def _outing(air: AirAhead, fit: Flags, best: Window | None, outdoors: float) -> OutingPlan | None:
    """Return the outing with its shade, by daylight: after a morning's sun, else before it, the rest beyond.

    "Morning sun, afternoon shade" is how published schedules go on from shade (Beltrami County Master
    Gardeners, Minnesota).
    """
    if best is None:
        return _shade_alone(air, fit, outdoors)
    start = round((best.start - air.moments[0]) / STEP)
    around = next(((first, last) for first, last in _runs(fit) if first <= start < last), (start, start + 1))
    shade = timedelta(minutes=max(0.0, outdoors - best.minutes))
    room_before = best.start - air.moment(around[0])
    room_after = max(timedelta(), air.moment(around[1]) - best.end)
    if best.part is Part.MORNING:
        after = min(shade, room_after)
        before = min(shade - after, room_before)
    else:
        before = min(shade, room_before)
        after = min(shade - before, room_after)
    return OutingPlan(best.start - before, best, best.end + after)


def _shade_alone(air: AirAhead, fit: Flags, outdoors: float) -> OutingPlan | None:
    """Return the first stretch that holds the minutes of shade, or the longest; None without either."""
    runs = list(_runs(fit))
    if outdoors <= 0 or not runs:
        return None
    long = [run for run in runs if (run[1] - run[0]) * STEP_MINUTES >= outdoors]
    first, last = long[0] if long else max(runs, key=lambda run: run[1] - run[0])
    end = min(air.moment(last), air.moment(first) + timedelta(minutes=outdoors))
    return OutingPlan(air.moment(first), None, end)


def _closed(air: AirAhead, gates: dict[str, Flags]) -> Iterator[Span]:
    """Yield the stretches of daylight that are closed, each with all its reasons."""
    rows = list(zip(*(gates[name] for name in gates), strict=True))
    up = air.weight > 0
    edges = [0] + [at for at in range(1, len(rows)) if rows[at] != rows[at - 1] or up[at] != up[at - 1]]
    for first, last in pairwise([*edges, len(rows)]):
        reasons = tuple(name for name, shut in zip(gates, rows[first], strict=True) if shut)
        if up[first] and reasons:
            yield Span(air.moment(first), air.moment(last), reasons)


def _spans(air: AirAhead, flags: Flags) -> Iterator[Span]:
    yield from (Span(air.moment(first), air.moment(last)) for first, last in _runs(flags))


def _runs(flags: Flags) -> Iterator[tuple[int, int]]:
    """Yield where each unbroken run of true steps begins and ends."""
    edges = np.flatnonzero(np.diff(np.concatenate(([False], flags, [False])).astype(int)))
    yield from ((int(first), int(last)) for first, last in zip(edges[::2], edges[1::2], strict=True))


def _light(air: AirAhead, day: date, place: Place) -> Floats | None:
    """Return the light of each step [mol m-2], or None where no place is known."""
    if place.latitude is None or place.longitude is None:
        return None
    noon = noon_light(day, place.latitude, place.longitude)
    return air.light * noon * STEP.total_seconds() * 1e-6


def _noon(day: date, place: Place, air: AirAhead) -> datetime:
    """Return solar noon; the middle of the day's steps where no place is known."""
    if place.longitude is None:
        return air.moments[len(air.moments) // 2]
    return solar_noon(day, place.longitude)
