"""Small checks on arguments, shared by the agronomy modules.

Two rules hold everywhere. A single number must be known: NaN, None or text is a bad value. In an
array NaN stands for a gap and passes through, so that a season with a missing day still computes.
A bad value raises ValueError in one sentence: which argument, what it was, what is allowed.
"""

import datetime as dt
from collections.abc import Sequence
from typing import Any, NoReturn

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Row = NDArray[Any] | Sequence[float]
Numbers = float | Row
"""One number, or an array (or sequence) of numbers; broadcast against its neighbours."""


def number(
    name: str,
    value: object,
    *,
    low: float | None = None,
    high: float | None = None,
    above: float | None = None,
    below: float | None = None,
) -> Floats:
    """`value` as a float array (0-d for one number), inside low <= value <= high, above < value < below."""
    allowed = "it must be a number" + _range_words(low, high, above, below)
    array = _as_floats(name, value, allowed)
    outside = np.isinf(array) | (np.isnan(array) if array.ndim == 0 else False)
    if low is not None:
        outside |= array < low
    if high is not None:
        outside |= array > high
    if above is not None:
        outside |= array <= above
    if below is not None:
        outside |= array >= below
    refuse_where(outside, name, array, allowed)
    return array


def whole(name: str, value: object, *, low: float | None = None, high: float | None = None) -> Floats:
    """As `number`, but whole and without gaps: counts of seeds, cells, plants."""
    array = number(name, value, low=low, high=high)
    allowed = "it must be a whole number" + _range_words(low, high, None, None)
    refuse_where(array != np.floor(array), name, array, allowed)
    return array


def on_the_globe(latitude: Numbers, longitude: Numbers) -> tuple[Floats, Floats]:
    """A place on the globe [degrees, north and east positive]."""
    return number("latitude", latitude, low=-90, high=90), number("longitude", longitude, low=-180, high=180)


def refuse_crossed(low: Floats, high: Floats) -> None:
    """Refuse days whose highest temperature lies below their lowest."""
    refuse_where(high < low, "tmax", high, "it must be at least tmin of the same day")


def series(name: str, value: object, *, low: float | None = None, least: int = 1) -> Floats:
    """`value` as a 1-D float array of at least `least` numbers, without gaps."""
    array = number(name, value, low=low)
    if array.ndim != 1 or array.size < least:
        raise ValueError(f"{name} has shape {array.shape}; it must be a row of at least {least} number(s)")
    refuse_where(np.isnan(array), name, array, "it must be a number")
    return array


def rising(name: str, array: Floats) -> None:
    """Refuse a row that does not strictly rise."""
    falls = np.flatnonzero(np.diff(array) <= 0)
    if falls.size:
        at = int(falls[0]) + 1
        refuse(f"{name}[{at}]", f"{array[at]:g} after {array[at - 1]:g}", "each must be above the one before")


def single(
    name: str,
    value: object,
    *,
    low: float | None = None,
    high: float | None = None,
    above: float | None = None,
    below: float | None = None,
) -> float:
    """As `number`, for an argument that takes one number only: a plain float."""
    array = number(name, value, low=low, high=high, above=above, below=below)
    if array.ndim:
        refuse(name, f"an array of shape {array.shape}", "it must be one number")
    return float(array)


def calendar_day(name: str, value: object) -> dt.date:
    """`value` if it is a day without a time or zone."""
    if not isinstance(value, dt.date) or isinstance(value, dt.datetime):
        refuse(name, repr(value), "it must be a date without a time")
    return value


def day_array(name: str, value: object) -> NDArray[np.datetime64]:
    """`value` (dates, midnights or datetime64) as a 1-D datetime64[D] array without gaps."""
    allowed = "it must be a row of dates without times or zones"
    array = np.asarray(value)
    if array.ndim != 1 or (array.size and array.dtype.kind not in "MO"):
        refuse(name, f"an array of shape {array.shape} and type {array.dtype}", allowed)
    if array.dtype.kind == "O" and any(getattr(item, "tzinfo", None) is not None for item in array):
        refuse(name, "given with zones", allowed)
    try:
        moments = array.astype("datetime64[us]")
    except (TypeError, ValueError) as error:
        raise ValueError(f"{name} holds something that is no date; {allowed}") from error
    days = moments.astype("datetime64[D]")
    for wrong in np.flatnonzero(np.isnat(moments) | (days.astype("datetime64[us]") != moments))[:1]:
        refuse(f"{name}[{wrong}]", array[wrong], allowed)
    return days


def at_most(name: str, value: Floats, limit_name: str, limit: Floats) -> None:
    """Refuse a place where one argument is above another."""
    value, limit = np.broadcast_arrays(value, limit)
    over = value > limit
    if over.any():
        refuse_where(over, name, value, f"it must be at most {limit_name}, {limit[over][0]:.10g}")


def one_of(name: str, value: object, allowed: Sequence[str]) -> str:
    """`value` if it is one of the allowed words."""
    if not isinstance(value, str) or value not in allowed:
        raise ValueError(f"{name} is {value!r}; it must be one of: {', '.join(allowed)}")
    return value


def refuse_where(bad: NDArray[Any], name: str, array: NDArray[Any], allowed: str) -> None:
    """Raise for the first place where `bad` holds, naming it: `name[2] is -1; it must be ...`."""
    bad, array = np.broadcast_arrays(bad, array)
    if not bad.any():
        return
    place = tuple(int(axis) for axis in np.argwhere(bad)[0])
    spot = f"[{', '.join(map(str, place))}]" if place else ""
    refuse(f"{name}{spot}", f"{array[place]:.10g}", allowed)


def refuse(name: str, value: object, allowed: str) -> NoReturn:
    """Raise ValueError in the one form every module uses."""
    raise ValueError(f"{name} is {value}; {allowed}")


def plain(result: Floats) -> float | Floats:
    """A 0-d result as a plain Python number; a real array as it is."""
    array = np.asarray(result)
    return array.item() if array.ndim == 0 else array


def known(result: Floats) -> float | Floats | None:
    """As `plain`, with a single NaN given as None: not known."""
    value = plain(result)
    return None if isinstance(value, float) and np.isnan(value) else value


def _as_floats(name: str, value: object, allowed: str) -> Floats:
    if isinstance(value, str | bytes) or value is None:
        refuse(name, repr(value), allowed)
    try:
        return np.asarray(value, dtype=np.float64)
    except (TypeError, ValueError) as error:
        raise ValueError(f"{name} is {value!r}; {allowed}") from error


def _range_words(low: float | None, high: float | None, above: float | None, below: float | None) -> str:
    limits = [
        f"{word} {limit:g}"
        for word, limit in (("at least", low), ("at most", high), ("above", above), ("below", below))
        if limit is not None
    ]
    return ", " + " and ".join(limits) if limits else ""
