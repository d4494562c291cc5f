"""What a place's daily record says of its seasons: cold nights, warm runs, heat."""

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Literal, overload

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy._checks import (
    Floats,
    Numbers,
    day_array,
    number,
    one_of,
    plain,
    refuse,
    refuse_crossed,
    single,
    whole,
)
from greenroom.agronomy._daily_record import DailyWeather
from greenroom.agronomy._seasons import (
    SeasonGrid,
    season_starts,
    season_years,
    too_many_missing,
    warm_run_starts,
)

__all__ = [
    "DailyWeather",
    "HeatMethod",
    "YearDates",
    "date_quantile",
    "degree_days",
    "first_cold_night",
    "first_warm_run",
    "last_cold_night",
]

HeatMethod = Literal["mean", "clamp"]
YearDates = dict[int, dt.date | None]

JANUARY_TO_JUNE_DAYS = 181
JULY_TO_DECEMBER_DAYS = 184


def last_cold_night(weather: DailyWeather, threshold: float = 0.0, *, southern: bool = False) -> YearDates:
    """Last night at or below a threshold in the first half of each year.

    Parameters
    ----------
    weather : DailyWeather
    threshold : float
        Coldest of the night [°C].
    southern : bool
        Swap the halves: the last such night from 1 July to 31 December.

    Returns
    -------
    dict of year to date or None
        Each year the record touches. None if no night was that cold, or if more than 10 % of the
        half's nights are missing.

    Raises
    ------
    ValueError
        If the threshold is no known number.

    Notes
    -----
    Air frost at 0 °C in a thermometer screen; ground frost comes with warmer nights. "Last in spring,
    first in autumn, halves parted at midsummer" is how national climate services count freeze dates.

    References
    ----------
    NOAA National Centers for Environmental Information: freeze and frost probabilities.
    """
    return _cold_night(weather, threshold, southern, half=0)


def first_cold_night(weather: DailyWeather, threshold: float = 0.0, *, southern: bool = False) -> YearDates:
    """First night at or below a threshold from 1 July on (southern: from 1 January on).

    Parameters, errors and references as in `last_cold_night`. A southern year is named by the spring
    before: the autumn of 2021 stands under 2020.
    """
    return _cold_night(weather, threshold, southern, half=1)


def first_warm_run(
    weather: DailyWeather, threshold: float = 10.0, run: int = 7, *, southern: bool = False
) -> YearDates:
    """First day of the first unbroken run of nights all at or above a threshold.

    Parameters
    ----------
    weather : DailyWeather
    threshold : float
        Coldest of the night [°C].
    run : int
        Nights in the run, at least 1. A missing night breaks it.
    southern : bool
        Look from 1 July instead of 1 January; the year is named by the spring.

    Returns
    -------
    dict of year to date or None
        Each year the record touches. None if there is no such run by the end of the season, or if more
        than 10 % of the nights from its start to the end of the run are missing (without a run: of the
        whole season).

    Raises
    ------
    ValueError
        If the threshold is no known number or `run` is no whole number from 1 on.

    Notes
    -----
    Nights above 10 °C are what most extension services ask for before peppers are set out; Utah State
    University Extension asks for 15 to 18 °C. The run of seven is common practice, no source.
    """
    threshold = single("threshold", threshold)
    nights = int(whole("run", single("run", run, low=1)))
    grid = SeasonGrid.over(weather.dates, southern=southern)
    tmin = grid.lay(weather.tmin)
    starts = warm_run_starts(tmin, threshold, nights)
    found, first = starts.any(axis=1), starts.argmax(axis=1)
    used = np.where(found, first + nights, grid.lengths)
    part = np.arange(tmin.shape[1]) < used[:, np.newaxis]
    return _dates(grid, first, found & ~too_many_missing(np.isnan(tmin), part))


@overload
def date_quantile(
    dates: Iterable[dt.date | None] | YearDates, q: float, *, southern: bool = False
) -> int | None: ...


@overload
def date_quantile(
    dates: Iterable[dt.date | None] | YearDates,
    q: Sequence[float] | NDArray[Any],
    *,
    southern: bool = False,
) -> NDArray[np.int64] | None: ...


def date_quantile(
    dates: Iterable[dt.date | None] | YearDates,
    q: float | Sequence[float] | NDArray[Any],
    *,
    southern: bool = False,
) -> int | NDArray[np.int64] | None:
    """Day of the year by which a share of the years had seen the event.

    Parameters
    ----------
    dates : iterable of date or None, or mapping of year to date or None
        One a year; None is left out.
    q : float or array
        Share of years, 0 to 1.
    southern : bool
        Count from 1 July, so that dates on both sides of New Year stay neighbours; the answer is still
        a day of the calendar year.

    Returns
    -------
    int, array of int, or None
        Day of the year, 1 = 1 January, rounded to a day (half to even); None without dates.

    Raises
    ------
    ValueError
        If `q` lies outside 0 to 1 or something in `dates` is no date.

    Notes
    -----
    Linear between ordered days (numpy's default; Hyndman & Fan's type 7). In a leap year days after
    29 February count one more, as in any day of the year.

    References
    ----------
    Hyndman, R. J., Fan, Y. 1996. Sample quantiles in statistical packages. The American Statistician
    50(4): 361-365. doi:10.1080/00031305.1996.10473566
    """
    share = number("q", q, low=0, high=1)
    given = dates.values() if isinstance(dates, Mapping) else dates
    known = day_array("dates", [day for day in given if day is not None])
    if not known.size:
        return None
    starts = season_starts(season_years(known, southern=southern), southern=southern)
    days = np.rint(np.quantile((known - starts).astype(np.int64) + 1, share)).astype(np.int64)
    if southern:
        new_year = days > JULY_TO_DECEMBER_DAYS
        days = np.where(new_year, days - JULY_TO_DECEMBER_DAYS, days + JANUARY_TO_JUNE_DAYS)
    return days if share.ndim else int(days)


def degree_days(
    tmin: Numbers,
    tmax: Numbers,
    base: float = 10.0,
    cap: float | None = None,
    method: HeatMethod = "mean",
) -> float | Floats:
    """Growing degree days of each day.

    Parameters
    ----------
    tmin, tmax : float or array, broadcast against each other
        Coldest and warmest of the day [°C]. NaN in an array is a missing day and stays NaN.
    base : float
        Temperature below which nothing grows [°C].
    cap : float or None
        Temperature above which growth gains nothing more [°C]; used by "clamp" alone.
    method : "mean" or "clamp"
        "mean": max(0, (tmin + tmax)/2 - base). "clamp": tmin and tmax are first brought into base to cap.

    Returns
    -------
    float or array
        [°C·d], never negative.

    Raises
    ------
    ValueError
        If tmax lies below tmin, cap not above base, or the method is unknown.

    Notes
    -----
    Base temperatures from 9.3 to 17.8 °C have been measured in peppers, so 10 °C (50 °F) is a
    convention and not a constant. With 50 and 86 °F "clamp" is the 86/50 method of American field trials.

    References
    ----------
    McMaster, G. S., Wilhelm, W. W. 1997. Growing degree-days: one equation, two interpretations.
    Agricultural and Forest Meteorology 87: 291-300. doi:10.1016/S0168-1923(97)00027-0
    Oregon State University Extension EM 9305 (limits applied to maximum and minimum).
    Dickson et al. 2024. HortScience 59: 1293 (base temperatures of peppers).
    """
    low, high = number("tmin", tmin), number("tmax", tmax)
    base = single("base", base)
    one_of("method", method, ("mean", "clamp"))
    refuse_crossed(low, high)
    if cap is not None and single("cap", cap) <= base:
        refuse("cap", f"{cap:g}", f"it must be above base, here {base:g}, or None")
    if method == "clamp":
        low, high = np.clip(low, base, cap), np.clip(high, base, cap)
    return plain(np.maximum(0.0, (low + high) / 2 - base))


def _cold_night(weather: DailyWeather, threshold: float, southern: bool, half: int) -> YearDates:
    threshold = single("threshold", threshold)
    grid = SeasonGrid.over(weather.dates, southern=southern)
    tmin, part = grid.lay(weather.tmin), grid.in_half(half)
    cold = part & (tmin <= threshold)
    nearest = cold.argmax(axis=1) if half else cold.shape[1] - 1 - cold[:, ::-1].argmax(axis=1)
    return _dates(grid, nearest, cold.any(axis=1) & ~too_many_missing(np.isnan(tmin), part))


def _dates(grid: SeasonGrid, columns: NDArray[np.int64], known: NDArray[np.bool_]) -> YearDates:
    return {
        year: grid.date(row, int(columns[row])) if known[row] else None
        for row, year in enumerate(grid.years.tolist())
    }
