"""Watering: what the air asks of a plot, and when a weighed pot will be dry enough to water."""

from collections.abc import Sequence
from datetime import date, timedelta
from typing import TypeVar, overload

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy._checks import Floats, Row, refuse, rising, series, single
from greenroom.agronomy._evapotranspiration import (
    extraterrestrial_radiation,
    reference_et_hargreaves,
    reference_et_penman,
    saturation_vapour_pressure,
)

__all__ = [
    "days_to_dry",
    "extraterrestrial_radiation",
    "reference_et_hargreaves",
    "reference_et_penman",
    "saturation_vapour_pressure",
]

# A crossing further off than this is no forecast for a pot but noise in a pot that is not drying.
FURTHEST_DAYS = 366.0

Moment = TypeVar("Moment", bound=date)


@overload
def days_to_dry(
    weights: Row, times: Sequence[Moment], wet: float, dry: float, trigger: float = ...
) -> Moment | None: ...
@overload
def days_to_dry(
    weights: Row, times: NDArray[np.datetime64], wet: float, dry: float, trigger: float = ...
) -> np.datetime64 | None: ...
@overload
def days_to_dry(weights: Row, times: Row, wet: float, dry: float, trigger: float = ...) -> float | None: ...
def days_to_dry(
    weights: Row,
    times: Sequence[date] | NDArray[np.datetime64] | Row,
    wet: float,
    dry: float,
    trigger: float = 0.5,
) -> float | date | np.datetime64 | None:
    """When the water a pot holds falls to `trigger` of full, from weighings since it was last watered.

    Parameters
    ----------
    weights : 1-D array
        Weighings of the pot [g], 0 or more.
    times : 1-D array, same length, strictly rising
        When each was taken: days [d] on any clock, numpy datetime64, or dates or datetimes.
    wet : float
        Weight of the pot soaked and drained [g].
    dry : float
        Weight of the pot when a plant in it just begins to flag [g], above 0 and below `wet`.
    trigger : float
        Share of the held water (wet - dry) at which to water, above 0 and at most 1.

    Returns
    -------
    float, datetime64, date or datetime, as `times`; or None
        The moment, on the clock of `times`: with days since watering it is the day to water. It lies
        in the past for a pot already drier. None if it cannot be told: fewer than two weighings above
        `dry`, a pot that is not getting lighter, or a crossing more than a year from the weighings.

    Raises
    ------
    ValueError
        For a value outside its range, times that do not rise, or rows of different length.

    Notes
    -----
    The drier the mix, the slower it gives water up: the share held is taken to fall by the same part
    each day, f(t) = exp(a - k t). The line of ln f on t is fitted by least squares with weights f²,
    so that an error of a gram counts alike in a wet and in a dry pot. Weighings at or below `dry` have
    no logarithm and are left out. A pot under a steady demand loses a steady weight a day at first;
    then the forecast errs until the last weighing is near the trigger.

    References
    ----------
    Dumroese, R. K., Montville, M. E. and Pinto, J. R. (2015) Native Plants Journal 16:67-74 (watering by
    weight, as a share of the weight at capacity). The exponential is common practice, no source.
    """
    weight, day = series("weights", weights, low=0.0), _as_days(times)
    rising("times", day)
    if weight.size != day.size:
        refuse("weights", f"{weight.size} long", f"it must be as long as times, {day.size}")
    share = _share_held(weight, wet, dry)
    at = single("trigger", trigger, above=0.0, high=1.0)
    held = share > 0.0
    crossing = _crossing(day[held], share[held], at)
    if crossing is None or not day[0] - FURTHEST_DAYS <= crossing <= day[-1] + FURTHEST_DAYS:
        return None
    return _moment(times, crossing)


def _share_held(weight: Floats, wet: float, dry: float) -> Floats:
    """Share of the water of a soaked pot still held; below 0 when drier than `dry`."""
    bottom, top = single("dry", dry, above=0.0), single("wet", wet, above=0.0)
    if bottom >= top:
        refuse("dry", f"{bottom:g}", f"it must be below wet, {top:g}")
    return (weight - bottom) / (top - bottom)


def _crossing(day: Floats, share: Floats, at: float) -> float | None:
    """Day on which exp(a - k t), fitted to `share`, falls to `at`; None if it is not falling."""
    if day.size < 2:
        return None
    weight, log_share = share**2, np.log(share)
    middle, level = np.average(day, weights=weight), np.average(log_share, weights=weight)
    apart = day - middle
    loss = -float((weight * apart) @ (log_share - level) / ((weight * apart) @ apart))
    return float(middle + (level - np.log(at)) / loss) if loss > 0.0 else None


def _as_days(times: Sequence[date] | NDArray[np.datetime64] | Row) -> Floats:
    """Numbers as they are; dates and moments as days since the first."""
    array = np.asarray(times)
    if array.ndim == 1 and array.dtype.kind == "M":
        return series("times", (array - array[:1]) / np.timedelta64(1, "D"))
    if array.ndim == 1 and array.dtype.kind == "O" and array.size:
        kind = type(array[0])
        if not issubclass(kind, date) or any(type(moment) is not kind for moment in array):
            refuse("times", repr(list(array)), "it must be all days, all dates or all datetimes")
        return np.array([(moment - array[0]) / timedelta(days=1) for moment in array])
    return series("times", times)


def _moment(times: Sequence[date] | NDArray[np.datetime64] | Row, day: float) -> float | date | np.datetime64:
    """The way back: `day` as the kind of time that came in."""
    first = np.asarray(times)[0]
    if isinstance(first, np.datetime64):
        return first.astype("datetime64[us]") + np.timedelta64(round(day * 86_400e6), "us")
    # A date takes whole days only, so a date comes out as the date on which the moment falls.
    return first + timedelta(days=day) if isinstance(first, date) else day
