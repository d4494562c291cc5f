"""When a heat need is reached: by the heat gathered so far, and then by every year of a place's record.

Pure functions on arrays; days are counted from the first of the heat handed in.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy.climate import DailyWeather, degree_days
from greenroom.agronomy.ripening import HEAT_ROUNDING_C_D
from greenroom.season.ripening_heat import Heat

Floats = NDArray[np.float64]
Days = NDArray[np.int64]

NEVER = 1_000_000
"""A day that does not come within the season."""

NEEDS = 9
"""So many equally likely heat needs stand for how far plants of a variety differ from what is known of it."""

MISSING_AT_MOST = 0.1
"""With more of its days missing a year is left out."""


@dataclass(frozen=True, slots=True)
class YearsAhead:
    """The rest of the season as each year of the record had it.

    ``heat`` [°C·d] has a row a year and a column a day; ``killed`` is the column of the first killing night,
    `NEVER` where none came.
    """

    years: tuple[int, ...]
    heat: Floats
    killed: Days


def needs_about(figure: float, low: float, high: float) -> Floats:
    """Return equally likely heat needs about a figure that lies between two others nine times in ten."""
    reach = (high - low) / (2 * NormalDist().inv_cdf(0.95))
    if reach <= 0:
        return np.array([figure])
    shares = [(place + 0.5) / NEEDS for place in range(NEEDS)]
    return np.maximum(1.0, [NormalDist(figure, reach).inv_cdf(share) for share in shares])


def years_ahead(
    weather: DailyWeather, heat: Heat, first: date, last: date, half: date, killing_c: float
) -> YearsAhead:
    """Return the days from ``first`` to ``last`` as each other year of the record had them.

    A killing night counts from ``half`` on, the first day of the season's second half. A year with more than
    a tenth of the days missing is left out; in the others they are taken from the days around them.
    """
    count, own = (last - first).days + 1, first.year
    later = max(0, (half - first).days)
    years, heats, killed = [], [], []
    for year in _years(weather):
        low, high = _days_from(weather, in_year(first, year), count)
        known = ~(np.isnan(low) | np.isnan(high))
        if year == own or count - known.sum() > MISSING_AT_MOST * count:
            continue
        years.append(year)
        heats.append(_filled(low, high, known, heat))
        cold = np.flatnonzero(low[later:] <= killing_c)
        killed.append(later + int(cold[0]) if cold.size else NEVER)
    rows = np.array(heats) if heats else np.zeros((0, count))
    return YearsAhead(tuple(years), rows, np.array(killed, dtype=np.int64))


def reached(so_far: Floats, ahead: YearsAhead, needs: Floats, end: int = NEVER) -> Days:
    """Return the day each need is reached in each year, shape (years, needs); `NEVER` if frost comes first.

    Parameters
    ----------
    so_far : array, shape (d,)
        Heat of the days that are known, from setting out on [°C·d].
    ahead : YearsAhead
        What follows them.
    needs : array, shape (k,)
        [°C·d]
    end : int
        The day of a killing night among those that are known, or are forecast.
    """
    count = so_far.size
    found = np.full((len(ahead.years), needs.size), NEVER, dtype=np.int64)
    for row, heat in enumerate(ahead.heat):
        gathered = np.cumsum(np.concatenate((so_far, heat)))
        day = np.searchsorted(gathered, needs - HEAT_ROUNDING_C_D)
        killed = min(end, count + int(ahead.killed[row]))
        found[row] = np.where((day < gathered.size) & (day < killed), day, NEVER)
    return found


def share_day(days: Days, share: float) -> int | None:
    """Return the day by which a share of all cases had come, or None where so many never do."""
    ordered = np.sort(days, axis=None)
    if not ordered.size:
        return None
    day = int(ordered[max(0, ceil(share * ordered.size - 1e-9) - 1)])
    return None if day == NEVER else day


def in_year(day: date, year: int) -> date:
    """Return a month and day in another year; 29 February falls back to the 28th."""
    return day.replace(year=year, day=28 if (day.month, day.day) == (2, 29) else day.day)


def daily_heat(low: Floats, high: Floats, heat: Heat) -> Floats:
    """Return the heat of days [°C·d]; those not known are taken from the days around them."""
    return _filled(low, high, ~(np.isnan(low) | np.isnan(high)), heat)


def _filled(low: Floats, high: Floats, known: NDArray[np.bool_], heat: Heat) -> Floats:
    counted = np.asarray(degree_days(low[known], high[known], heat.base_c, heat.cap_c, "clamp"), dtype=float)
    places = np.arange(low.size)
    return np.interp(places, places[known], counted) if counted.size else np.zeros(low.size)


def _years(weather: DailyWeather) -> list[int]:
    first, last = (weather.dates[place].astype(object).year for place in (0, -1))
    return list(range(first, last + 1))


def _days_from(weather: DailyWeather, first: date, count: int) -> tuple[Floats, Floats]:
    """Return coldest and warmest of some days, NaN where the record does not tell."""
    start = np.datetime64(first)
    end = np.datetime64(first + timedelta(days=count))
    begin, stop = np.searchsorted(weather.dates, [start, end])
    low, high = np.full(count, np.nan), np.full(count, np.nan)
    places = (weather.dates[begin:stop] - start).astype(np.int64)
    low[places], high[places] = weather.tmin[begin:stop], weather.tmax[begin:stop]
    return low, high
