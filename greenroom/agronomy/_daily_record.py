"""A place's daily weather record, checked on the way in."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from greenroom.agronomy._checks import (
    Floats,
    Numbers,
    day_array,
    number,
    refuse,
    refuse_crossed,
)

COLDEST_C = -100.0
WARMEST_C = 70.0
"""Beyond the coldest and warmest air ever measured, -89.2 and 56.7 °C (World Meteorological Organization
archive of extremes, from memory). Fahrenheit summers and codes for missing days fall outside."""
WETTEST_MM = 2000.0
"""Above the wettest day ever measured, 1825 mm (same archive, from memory)."""
GUSTIEST_M_S = 120.0
"""Above the strongest gust ever measured, 113 m/s (same archive, from memory)."""


def _column(name: str, values: object, length: int, low: float, high: float) -> Floats:
    column = np.array(number(name, values, low=low, high=high))
    if column.shape != (length,):
        refuse(name, f"of shape {column.shape}", f"it must hold one number a date, here {length}")
    column.flags.writeable = False
    return column


def _refuse_unordered(days: NDArray[np.datetime64]) -> None:
    for wrong in np.flatnonzero(np.diff(days) <= np.timedelta64(0, "D"))[:1]:
        refuse(f"dates[{wrong + 1}]", f"{days[wrong + 1]} after {days[wrong]}", "each must be a later day")


@dataclass(frozen=True, eq=False, init=False)
class DailyWeather:
    """A place's daily record, one entry a day.

    Parameters
    ----------
    dates : sequence of date or datetime64, shape (n,)
        Ascending, each once. Days may be left out; they count as missing, as NaN does.
    tmin, tmax : array, shape (n,)
        Coldest and warmest of the day [°C].
    rain : array, shape (n,), or None
        [mm]
    gust : array, shape (n,), or None
        Strongest gust [m/s].

    Attributes
    ----------
    dates : array of datetime64[D], shape (n,)
    tmin, tmax : array of float, shape (n,)
    rain, gust : array of float, shape (n,), or None
        All read-only copies.

    Raises
    ------
    ValueError
        Naming the argument and the place in it: lengths that differ, dates out of order, tmax below tmin,
        or a number no weather reaches (a Fahrenheit column, a code such as -9999 for a missing day).
    """

    dates: NDArray[np.datetime64]
    tmin: Floats
    tmax: Floats
    rain: Floats | None
    gust: Floats | None

    def __init__(
        self,
        dates: ArrayLike | Sequence[dt.date],
        tmin: Numbers,
        tmax: Numbers,
        rain: Numbers | None = None,
        gust: Numbers | None = None,
    ) -> None:
        days = day_array("dates", dates)
        _refuse_unordered(days)
        columns = {
            "tmin": _column("tmin", tmin, days.size, COLDEST_C, WARMEST_C),
            "tmax": _column("tmax", tmax, days.size, COLDEST_C, WARMEST_C),
            "rain": None if rain is None else _column("rain", rain, days.size, 0.0, WETTEST_MM),
            "gust": None if gust is None else _column("gust", gust, days.size, 0.0, GUSTIEST_M_S),
        }
        days.flags.writeable = False
        object.__setattr__(self, "dates", days)
        for name, column in columns.items():
            object.__setattr__(self, name, column)
        refuse_crossed(self.tmin, self.tmax)

    def __len__(self) -> int:
        return int(self.dates.size)
