"""Moments and dates as days since noon UTC of 1 January 2000, and back."""

from collections.abc import Sequence
from datetime import UTC, date, datetime
from typing import Any

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy._checks import Floats, refuse

Moment = datetime | np.datetime64
Moments = Moment | NDArray[Any] | Sequence[datetime]
"""One moment, or an array (or sequence) of moments: datetime64 in UTC, or datetime with its zone."""
Day = date | np.datetime64
Days = Day | NDArray[Any] | Sequence[date]
"""One date, or an array (or sequence) of dates."""

FIRST_MOMENT = np.datetime64("1800-01-01T00:00:00", "us")
LAST_MOMENT = np.datetime64("2201-01-01T00:00:00", "us")
NOON_2000 = np.datetime64("2000-01-01T12:00:00", "us")
ONE_DAY = np.timedelta64(1, "D")
MICROSECONDS_PER_DAY = 86400e6
MOMENT_ALLOWED = "it must be a datetime with its zone, or numpy datetime64 in UTC"
DAY_ALLOWED = "it must be a date without a time of day"


def days_since_2000(when_utc: Moments, name: str = "when_utc") -> Floats:
    """Days of 86400 s since noon UTC of 1 January 2000; NaN for NaT in an array."""
    given = np.asarray(when_utc)
    if given.dtype.kind == "O":
        naive = [_in_utc(name, moment) for moment in given.flat]
        given = np.array(naive, dtype="datetime64[us]").reshape(given.shape)
    if given.dtype.kind != "M":
        refuse(name, repr(when_utc), MOMENT_ALLOWED)
    return _days_of(name, given.astype("datetime64[us]"))


def noons_since_2000(day: Days) -> Floats:
    """Days since noon of 1 January 2000 at noon UTC of each date."""
    given = np.asarray(day)
    if given.dtype.kind == "O":
        if any(isinstance(one, datetime) or not isinstance(one, date) for one in given.flat):
            refuse("day", repr(day), DAY_ALLOWED)
        given = given.astype("datetime64[D]")
    if given.dtype.kind != "M":
        refuse("day", repr(day), DAY_ALLOWED)
    dates = given.astype("datetime64[D]")
    if np.any((dates != given) & ~np.isnat(given)):
        refuse("day", repr(day), DAY_ALLOWED)
    return _days_of("day", dates.astype("datetime64[us]")) + 0.5


def as_moments(days: Floats) -> datetime | NDArray[np.datetime64]:
    """A datetime in UTC for one number of days since 2000, datetime64[us] for an array."""
    gap = np.isnan(days)
    microseconds = np.rint(np.where(gap, 0.0, days) * MICROSECONDS_PER_DAY).astype("timedelta64[us]")
    moments = np.where(gap, np.datetime64("NaT", "us"), NOON_2000 + microseconds)
    return moments if moments.ndim else moments.item().replace(tzinfo=UTC)


def _in_utc(name: str, moment: object) -> datetime:
    if not isinstance(moment, datetime) or moment.utcoffset() is None:
        refuse(name, repr(moment), MOMENT_ALLOWED)
    return moment.astimezone(UTC).replace(tzinfo=None)


def _days_of(name: str, moments: NDArray[Any]) -> Floats:
    outside = (moments < FIRST_MOMENT) | (moments >= LAST_MOMENT)
    if moments.ndim == 0:
        outside |= np.isnat(moments)
    if np.any(outside):
        refuse(name, str(moments[outside][0]), "it must lie in the years 1800 to 2200")
    return np.asarray((moments - NOON_2000) / ONE_DAY)
