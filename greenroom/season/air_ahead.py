"""The weather by the clock: from the forecast's hours where it tells them, else drawn from the days."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy.day_curve import temperature_at
from greenroom.agronomy.sun_minutes import sun_weight
from greenroom.ledger.facts import HourAhead
from greenroom.season.place import Place, hours_ahead, place_of, weather_days
from greenroom.season.sky import sky_of
from greenroom.season.state import Season

STEP = timedelta(minutes=5)
ONE_DAY = timedelta(days=1)
WIDEST_GAP = timedelta(hours=3)
"""Hours further apart than this say nothing of the time between: services tell 1 or 3 hours."""

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, eq=False)
class AirAhead:
    """The weather in steps of five minutes; each value is of the step that begins at its moment.

    ``temperature_c``, ``gust_ms`` and ``rain_mm_h`` are NaN where they are not known. ``gust_ms`` is the
    hour's where the forecast tells hours, else the day's. ``weight`` is the clear sky's light against
    its noon, ``share`` what cloud and cloth let through of it. ``by_hour`` tells where the temperature
    comes from the forecast's hours and not from a curve between the day's coldest and warmest.
    """

    moments: tuple[datetime, ...]
    temperature_c: Floats
    gust_ms: Floats
    rain_mm_h: Floats
    weight: Floats
    share: Floats
    by_hour: Flags

    @property
    def light(self) -> Floats:
        """Light of each step against the clear noon."""
        return self.weight * self.share

    @property
    def end(self) -> datetime:
        """The end of the last step."""
        return self.moments[-1] + STEP

    def moment(self, step: int) -> datetime:
        """Return when a step begins; the step after the last begins at the end."""
        return self.moments[0] + step * STEP


def air_between(season: Season, start: datetime, end: datetime, holder: str | None = None) -> AirAhead:
    """Return the weather between two moments, under the cloth of a holder if one is named."""
    place = place_of(season)
    steps = max(1, -((start - end) // STEP))
    moments = tuple(start + number * STEP for number in range(steps))
    hours = hours_ahead(season)
    told, known = _temperatures(hours, moments), _drawn(season, place, moments)
    by_hour = ~np.isnan(told)
    gust = _of_hour(hours, moments, lambda hour: hour.gust_ms)
    daily = np.array([_gust(season, place.local(moment).date()) for moment in moments])
    sky = sky_of(season)
    return AirAhead(
        moments=moments,
        temperature_c=np.where(by_hour, told, known),
        gust_ms=np.where(np.isnan(gust), daily, gust),
        rain_mm_h=_of_hour(hours, moments, lambda hour: hour.rain_mm),
        weight=_weights(place, moments),
        share=np.array([sky.share(moment, holder)[0] for moment in moments]),
        by_hour=by_hour,
    )


def _temperatures(hours: Sequence[HourAhead], moments: Sequence[datetime]) -> Floats:
    """Return the temperature straight between the forecast's hours; NaN outside and in wide gaps."""
    told = [(hour.at, hour.temperature_c) for hour in hours if hour.temperature_c is not None]
    found = np.full(len(moments), np.nan)
    if not told:
        return found
    ats, celsius = [at for at, _ in told], [value for _, value in told]
    for number, moment in enumerate(moments):
        after = bisect_right(ats, moment)
        if 0 < after < len(ats) and ats[after] - ats[after - 1] <= WIDEST_GAP:
            part = (moment - ats[after - 1]) / (ats[after] - ats[after - 1])
            found[number] = celsius[after - 1] + part * (celsius[after] - celsius[after - 1])
    return found


def _of_hour(
    hours: Sequence[HourAhead], moments: Sequence[datetime], value: Callable[[HourAhead], float | None]
) -> Floats:
    """Return a value of the hour each moment lies in; NaN where none is told."""
    ats = [hour.at for hour in hours]
    found = np.full(len(moments), np.nan)
    for number, moment in enumerate(moments):
        at = bisect_right(ats, moment) - 1
        if at >= 0 and moment < hours[at].at + timedelta(hours=1):
            told = value(hours[at])
            found[number] = np.nan if told is None else told
    return found


def _drawn(season: Season, place: Place, moments: Sequence[datetime]) -> Floats:
    """Return the temperature drawn between the coldest and warmest of the days; NaN without a place."""
    if place.latitude is None or place.longitude is None:
        return np.full(len(moments), np.nan)
    first, last = (place.local(moments[at]).date() for at in (0, -1))
    days = [first - ONE_DAY + number * ONE_DAY for number in range((last - first).days + 3)]
    known = weather_days(season)
    told = [known.get(day) for day in days]
    low = np.array([None if day is None else day.tmin_c for day in told], dtype=float)  # None becomes NaN
    high = np.array([None if day is None else day.tmax_c for day in told], dtype=float)
    high = np.where(high < low, np.nan, high)  # a day told so is not known
    drawn = temperature_at(list(moments), days, low, high, place.latitude, place.longitude)
    return np.atleast_1d(drawn)


def _gust(season: Season, day: date) -> float:
    told = weather_days(season).get(day)
    return np.nan if told is None or told.gust_ms is None else told.gust_ms


def _weights(place: Place, moments: Sequence[datetime]) -> Floats:
    """Return the clear light at the middle of each step; as at noon all day where no place is known."""
    if place.latitude is None or place.longitude is None:
        return np.ones(len(moments))
    middles = [moment + STEP / 2 for moment in moments]
    return np.atleast_1d(sun_weight(middles, place.latitude, place.longitude))
