"""Air temperature through the day and night, drawn between the coldest and the warmest of each day."""

from collections.abc import Sequence
from datetime import date

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy import _sun_place
from greenroom.agronomy._checks import (
    Floats,
    Numbers,
    day_array,
    number,
    plain,
    refuse,
    refuse_crossed,
    refuse_where,
    single,
)
from greenroom.agronomy._moments import Moments, days_since_2000, noons_since_2000

__all__ = ["temperature_at"]

PEAK_AFTER_NOON_H = 1.86  # Parton and Logan 1981, a for air at 150 cm
NIGHT_DECAY = 2.20  # the same, b
COLDEST_AFTER_SUNRISE_H = -0.17  # the same, c
SHORTEST_DAY_H, LONGEST_DAY_H = 4.0, 20.0
"""Days beyond the polar circles are drawn as if the sun were up this long: this program's own rule."""
HOURS_PER_DAY = 24.0


def temperature_at(
    when_utc: Moments,
    days: Sequence[date] | NDArray[np.datetime64],
    tmin: Numbers,
    tmax: Numbers,
    latitude: float,
    longitude: float,
) -> float | Floats:
    """Air temperature at moments, drawn from the coldest and warmest of each day.

    Parameters
    ----------
    when_utc : aware datetime or datetime64, scalar or array
        Moments; a datetime64 is UTC.
    days : sequence of date, shape (n,)
        Ascending, each once; days may be left out.
    tmin, tmax : array, shape (n,)
        Coldest (about sunrise) and warmest of each day [°C]. NaN is not known.
    latitude, longitude : float [degrees]

    Returns
    -------
    float or array [°C]
        NaN where it cannot be told: by day on a day that is not known, by night between two such days.

    Raises
    ------
    ValueError
        For rows of different length, dates out of order, tmax below tmin, or as `sun_position`.

    Notes
    -----
    From the coldest moment, 0.17 h before sunrise, to sunset a sine through the day's warmest 1.86 h
    after solar noon; then an exponential fall to the coldest of the next day. Parton and Logan's night
    ends a ninth of the way short of that; here it is stretched to meet it, so that the curve has no
    step. A night of which one side only is known is drawn from that side. Their constants are for air
    at 150 cm near Denver; they report mean errors of 1.2 to 2.6 °C at various heights (from memory).

    References
    ----------
    Parton, W. J. and Logan, J. A. 1981. A model for diurnal variation in soil and air temperature.
        Agricultural Meteorology 23:205-216, doi:10.1016/0002-1571(81)90105-9.
    Goudriaan, J. and van Laar, H. H. 1994. Modelling Potential Crop Growth Processes. Kluwer (a night
        that meets the next day's minimum).
    """
    known = day_array("days", days)
    low, high = (_row(name, values, known.size) for name, values in (("tmin", tmin), ("tmax", tmax)))
    refuse_crossed(low, high)
    moments = days_since_2000(when_utc)
    if known.size == 0:
        return plain(np.full(moments.shape, np.nan))
    latitude = single("latitude", latitude, low=-90, high=90)
    longitude = single("longitude", longitude, low=-180, high=180)
    dates, low, high = _without_gaps(known, low, high)
    noon, length = _noons_and_lengths(dates, latitude, longitude)
    return plain(_drawn(np.asarray(moments), low, high, noon, length))


def _row(name: str, values: object, length: int) -> Floats:
    row = number(name, values)
    if row.shape != (length,):
        refuse(name, f"of shape {row.shape}", f"it must hold one number a day, here {length}")
    return row


def _without_gaps(
    days: NDArray[np.datetime64], low: Floats, high: Floats
) -> tuple[NDArray[np.datetime64], Floats, Floats]:
    """Every day from the one before the first to the one after the last; NaN where nothing is known."""
    steps = np.diff(days).astype(np.int64)
    refuse_where(steps <= 0, "days", steps.astype(float), "each must be a later day than the one before")
    dates = np.arange(days[0] - 1, days[-1] + 2)
    places = (days - dates[0]).astype(np.int64)
    whole = ~(np.isnan(low) | np.isnan(high))
    rows = []
    for values in (low, high):
        row = np.full(dates.size, np.nan)
        row[places] = np.where(whole, values, np.nan)
        rows.append(row)
    return dates, rows[0], rows[1]


def _noons_and_lengths(
    dates: NDArray[np.datetime64], latitude: float, longitude: float
) -> tuple[Floats, Floats]:
    """Solar noon [days since 2000] and the time from sunrise to sunset [days] of each date."""
    place = np.asarray(longitude)
    noon = _sun_place.noon(np.asarray(noons_since_2000(dates) - longitude / 360), place)
    rise, fall = _sun_place.crossings(noon, np.full(noon.shape, latitude), place)
    highest, _ = _sun_place.direction(noon, np.asarray(latitude), place)
    always = np.where(highest > 0, LONGEST_DAY_H, SHORTEST_DAY_H)
    hours = np.where(np.isnan(rise), always, (fall - rise) * HOURS_PER_DAY)
    return noon, np.clip(hours, SHORTEST_DAY_H, LONGEST_DAY_H) / HOURS_PER_DAY


def _drawn(moments: Floats, low: Floats, high: Floats, noon: Floats, length: Floats) -> Floats:
    lag, peak = COLDEST_AFTER_SUNRISE_H / HOURS_PER_DAY, PEAK_AFTER_NOON_H / HOURS_PER_DAY
    coldest = noon - length / 2 + lag
    day = np.searchsorted(coldest, moments, side="right") - 1
    outside = (day < 0) | (day >= coldest.size - 1)
    day = np.clip(day, 0, coldest.size - 2)
    passed = moments - coldest[day]
    daylight = length[day] - lag  # from the coldest moment to sunset
    width = length[day] + 2 * (peak - lag)  # of the whole half wave: Parton and Logan 1981, eq. 1
    by_day = low[day] + (high[day] - low[day]) * np.sin(np.pi * np.clip(passed, 0, daylight) / width)
    at_sunset, end = _night_ends(low, high, length, day)
    night = (coldest[day + 1] - coldest[day]) - daylight
    fallen = -np.expm1(-NIGHT_DECAY * np.clip((passed - daylight) / night, 0, 1))  # eq. 2
    by_night = at_sunset + (end - at_sunset) * fallen / -np.expm1(-NIGHT_DECAY)
    return np.where(outside, np.nan, np.where(passed < daylight, by_day, by_night))


def _night_ends(low: Floats, high: Floats, length: Floats, day: NDArray[np.int64]) -> tuple[Floats, Floats]:
    """Temperature at sunset and at the end of the night after each day; an unknown side like the other."""
    lag, peak = COLDEST_AFTER_SUNRISE_H / HOURS_PER_DAY, PEAK_AFTER_NOON_H / HOURS_PER_DAY
    side = np.where(np.isnan(high[day]), day + 1, day)
    share = np.sin(np.pi * (length[day] - lag) / (length[day] + 2 * (peak - lag)))
    at_sunset = low[side] + (high[side] - low[side]) * share
    return at_sunset, np.where(np.isnan(low[day + 1]), low[side], low[day + 1])
