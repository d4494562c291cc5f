"""A daily record laid out season by season, the same way for both hemispheres.

A northern season is the calendar year. A southern one runs from 1 July to 30 June and is named by the
year of its spring. Either way the first half holds the spring and the second the autumn.
"""

import datetime as dt
from dataclasses import dataclass

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from greenroom.agronomy._checks import Floats

LONGEST_SEASON_DAYS = 366
MISSING_ALLOWED_PERCENT = 10
JULY = 7
JANUARY_NEXT = 13

Whole = NDArray[np.int64]
Dates = NDArray[np.datetime64]


def season_years(dates: Dates, *, southern: bool) -> Whole:
    """Year that names the season of each date."""
    months = dates.astype("datetime64[M]").astype(np.int64)
    return (months - (JULY - 1 if southern else 0)) // 12 + 1970


def season_starts(years: Whole, *, southern: bool) -> Dates:
    """First day of each season: 1 January, or 1 July in the south."""
    return _month_starts(years, JULY if southern else 1)


def days_in_years(month: int, day: int, years: Whole, *, southern: bool) -> Whole:
    """Days from the start of each season to the given day of its year; 29 February falls back to the 28th."""
    calendar_years = years + 1 if southern and month < JULY else years
    starts = _month_starts(calendar_years, month)
    lengths = _days_between(starts, _month_starts(calendar_years, month + 1))
    return _days_between(season_starts(years, southern=southern), starts) + np.minimum(day, lengths) - 1


def too_many_missing(missing: NDArray[np.bool_], part: NDArray[np.bool_]) -> NDArray[np.bool_]:
    """Whether more than 10 % of the days in a part of each season are missing.

    Parameters
    ----------
    missing, part : array of bool, shape (n seasons, n days)

    Returns
    -------
    array of bool, shape (n seasons,)
    """
    return (missing & part).sum(axis=1) * 100 > part.sum(axis=1) * MISSING_ALLOWED_PERCENT


def warm_run_starts(tmin: Floats, threshold: float, run: int) -> NDArray[np.bool_]:
    """Days that begin a run of nights all at or above the threshold.

    Parameters
    ----------
    tmin : array, shape (seasons, days)
        Coldest of the night [°C]; NaN is missing and breaks a run.
    threshold : float
    run : int

    Returns
    -------
    array of bool, shape (seasons, days)
        False where the run would pass the end of the season.
    """
    starts = np.zeros(tmin.shape, dtype=bool)
    if run <= tmin.shape[1] and tmin.shape[0]:
        warm = sliding_window_view(tmin >= threshold, run, axis=1).all(axis=2)
        starts[:, : warm.shape[1]] = warm
    return starts


def _month_starts(years: Whole, month: int) -> Dates:
    """First day of month 1 to 13 (the next January) of each year."""
    return ((years - 1970) * 12 + month - 1).astype("datetime64[M]").astype("datetime64[D]")


def _days_between(first: Dates, last: Dates) -> Whole:
    return (last - first).astype(np.int64)


@dataclass(frozen=True, eq=False)
class SeasonGrid:
    """Where each day of a record falls: a row a season, a column a day from its start.

    Parameters
    ----------
    years, starts, lengths, halves : array, shape (n seasons,)
        Name of each season, its first day, its length [days], and the days before its second half.
    rows, columns : array, shape (n days of the record,)
    """

    years: Whole
    starts: Dates
    lengths: Whole
    halves: Whole
    rows: Whole
    columns: Whole

    @classmethod
    def over(cls, dates: Dates, *, southern: bool = False) -> "SeasonGrid":
        """Lay out every season that the (ascending) dates touch."""
        of_date = season_years(dates, southern=southern)
        years = np.arange(of_date[0], of_date[-1] + 1) if of_date.size else of_date
        starts = season_starts(years, southern=southern)
        rows = of_date - years[:1]
        return cls(
            years=years,
            starts=starts,
            lengths=_days_between(starts, season_starts(years + 1, southern=southern)),
            halves=_days_between(starts, _month_starts(years, JANUARY_NEXT if southern else JULY)),
            rows=rows,
            columns=_days_between(starts[rows], dates),
        )

    def lay(self, values: Floats) -> Floats:
        """A value a day of the record, shape (n seasons, 366); NaN where the record has none."""
        laid = np.full((self.years.size, LONGEST_SEASON_DAYS), np.nan)
        laid[self.rows, self.columns] = values
        return laid

    def within(self) -> NDArray[np.bool_]:
        """Shape (n seasons, 366): False beyond a season's last day."""
        return np.arange(LONGEST_SEASON_DAYS) < self.lengths[:, np.newaxis]

    def in_half(self, half: int) -> NDArray[np.bool_]:
        """Shape (n seasons, 366): True in the first (0) or second (1) half."""
        first = np.arange(LONGEST_SEASON_DAYS) < self.halves[:, np.newaxis]
        return first if half == 0 else self.within() & ~first

    def date(self, row: int, column: int) -> dt.date:
        """The calendar day at a place of the grid."""
        day: dt.date = (self.starts[row] + np.timedelta64(column, "D")).item()
        return day
