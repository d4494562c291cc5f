"""Emergence as time to an event: the observed curve with cells still bare, and the chance of those cells."""

from dataclasses import dataclass
from typing import overload

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy._checks import Floats, Numbers, Row, known, number, plain, refuse, series

# Products of exact shares miss one half by a rounding error; a curve this close has reached it.
_ROUNDING = 1e-12


def kaplan_meier(days: Row, up: Row, confidence: float = 0.95) -> "BareCurve":
    """Share of seeds still bare, counting fairly the ones nobody could follow to the end.

    Parameters
    ----------
    days : 1-D array
        One entry a seed [d after sowing], 0 or later: the day it came up, or was last seen bare.
    up : 1-D array of bool, same length
        True where it came up on that day; False where it was still bare when last looked at
        (right-censored: it may yet come up, or was lost to the count).
    confidence : float
        Of the band, between 0 and 1.

    Returns
    -------
    BareCurve

    Raises
    ------
    ValueError
        For an empty row, rows of different length, a day below 0, or `up` that is not true or false.

    Notes
    -----
    A seed last seen bare on a day counts as bare through that day: seedlings up on a day come before
    losses on the same day. The band is Greenwood's variance on the log(-log) scale, so it stays
    inside 0 and 1. It closes to a point before the first seedling, and is NaN once none is bare.

    References
    ----------
    Kaplan, E. L. and Meier, P. (1958) J. Am. Statistical Association 53:457-481.
    McNair, J. N., Sunkara, A. and Frobish, D. (2012) Seed Science Research 22:77-95 (for seeds).
    Kalbfleisch, J. D. and Prentice, R. L. (1980) The Statistical Analysis of Failure Time Data (the band).
    """
    day, came = series("days", days, low=0.0), _flags(up)
    if came.shape != day.shape:
        refuse("up", f"{came.size} long", f"it must be as long as days, {day.size}")
    number("confidence", confidence, above=0.0, below=1.0)
    looked, place = np.unique(day, return_inverse=True)
    ups = np.bincount(place[came], minlength=looked.size).astype(float)
    seeds = np.bincount(place).astype(float)
    at_risk = day.size - np.concatenate(([0.0], np.cumsum(seeds)[:-1]))
    bare = np.cumprod(1.0 - ups / at_risk)
    low, high = _band(bare, ups, at_risk, confidence)
    return BareCurve(_sealed(looked), _sealed(bare), _sealed(low), _sealed(high), day.size)


@overload
def chance_still_up(  # type: ignore[overload-overlap]  # single numbers take this form
    day: float, median: float, spread: float, viable: float, horizon: float | None = ...
) -> float: ...
@overload
def chance_still_up(
    day: Numbers, median: Numbers, spread: Numbers, viable: Numbers, horizon: Numbers | None = ...
) -> Floats: ...
def chance_still_up(
    day: Numbers, median: Numbers, spread: Numbers, viable: Numbers, horizon: Numbers | None = None
) -> float | Floats:
    """Chance that a cell still bare on `day` comes up yet.

    Parameters
    ----------
    day : float or array
        Days since sowing [d], 0 or more.
    median : float or array
        Day by which half of the seeds that ever come up are up [d], above 0.
    spread : float or array
        Standard deviation of the natural logarithm of the days to emerge, above 0. With 0.25 the
        middle two thirds come up between 0.78 and 1.28 of the median, with 0.5 between 0.61 and 1.65.
    viable : float or array
        Share of seeds that would ever come up, 0 to 1.
    horizon : float or array, optional
        Count only the next `horizon` days [d], 0 or more; without it, ever.

    Returns
    -------
    float or array of the common shape
        A chance from 0 to 1. Without a horizon it starts at `viable` and never rises with `day`.
        With one it first rises towards the days when most come up.

    Raises
    ------
    ValueError
        For a value outside its range.

    Notes
    -----
    Days to emerge are log-normal among the viable share v, with F their distribution and S = 1 - F;
    given bare on day t, the chance of coming up by t + h is v (S(t) - S(t + h)) / (1 - v F(t)).

    References
    ----------
    Onofri, A., Mesgaran, M. B. and Ritz, C. (2022) Weed Science 70:259-271 (log-normal with a viable share).
    """
    # Here, not at the top: scipy.special takes an eighth of a second; the first window need not wait for it.
    from scipy.special import log_ndtr

    since, half, sigma = (
        number("day", day, low=0.0),
        number("median", median, above=0.0),
        number("spread", spread, above=0.0),
    )
    share = number("viable", viable, low=0.0, high=1.0)
    with np.errstate(divide="ignore"):
        log_bare = log_ndtr(-np.log(since / half) / sigma)
        ever = _share_of_bare(share, log_bare)
        if horizon is None:
            return plain(ever)
        later = since + number("horizon", horizon, low=0.0)
        log_later = log_ndtr(-np.log(later / half) / sigma)
    # S(t) - S(t + h) as S(t) (1 - S(t + h) / S(t)), in logarithms: late days underflow otherwise.
    return plain(ever * -np.expm1(log_later - log_bare))


def _share_of_bare(viable: Floats, log_bare: Floats) -> Floats:
    """Of the cells bare now, the share holding a seed that will come up: v S / (1 - v + v S)."""
    waiting = viable * np.exp(log_bare)
    empty = 1.0 - viable
    with np.errstate(invalid="ignore"):
        return np.where(empty == 0.0, 1.0, waiting / (empty + waiting))


def _flags(up: Row) -> NDArray[np.bool_]:
    flags = np.asarray(up)
    allowed = "it must be true (came up) or false (still bare), one for each seed"
    if flags.ndim != 1:
        refuse("up", repr(up), allowed)
    for place in np.flatnonzero(~np.isin(flags, (0, 1))):
        refuse(f"up[{place}]", repr(flags[place].item()), allowed)
    return flags.astype(bool)


def _band(bare: Floats, ups: Floats, at_risk: Floats, confidence: float) -> tuple[Floats, Floats]:
    """Band of the curve from Greenwood's sum on the log(-log) scale."""
    from scipy.special import ndtri  # as above: not before the first window

    with np.errstate(divide="ignore", invalid="ignore"):
        greenwood = np.cumsum(ups / (at_risk * (at_risk - ups)))
        width = ndtri(0.5 + confidence / 2.0) * np.sqrt(greenwood) / np.log(bare)
        low, high = bare ** np.exp(-width), bare ** np.exp(width)
    certain = bare == 1.0
    return np.where(certain, 1.0, low), np.where(certain, 1.0, high)


def _sealed(array: Floats) -> Floats:
    array.setflags(write=False)
    return array


@dataclass(frozen=True, eq=False)
class BareCurve:
    """Kaplan-Meier curve of seeds still bare.

    Attributes
    ----------
    days : 1-D array
        Each day on which a seed came up or was last seen bare [d], rising.
    bare : 1-D array
        Estimated share still bare after that day.
    low, high : 1-D arrays
        Confidence band of `bare`; NaN once none is bare.
    seeds : int
        How many seeds the curve rests on.
    """

    days: Floats
    bare: Floats
    low: Floats
    high: Floats
    seeds: int

    @property
    def median(self) -> float | None:
        """First day on which at most half are still bare [d]; None if never so far."""
        reached = np.flatnonzero(self.bare <= 0.5 + _ROUNDING)
        return float(self.days[reached[0]]) if reached.size else None

    @overload
    def at(self, day: float) -> float | None: ...
    @overload
    def at(self, day: Row) -> Floats: ...
    def at(self, day: Numbers) -> float | Floats | None:
        """Share still bare after `day` [d]: 1 before the first entry; None (in an array NaN) past the last
        look if any seed was then still bare, for nobody has looked since.

        Raises ValueError for a day that is no number or below 0.
        """
        when = number("day", day, low=0.0)
        steps = np.concatenate(([1.0], self.bare))
        share = steps[np.searchsorted(self.days, when, side="right")]
        unseen = (when > self.days[-1]) & (self.bare[-1] > 0.0)
        return known(np.where(unseen | np.isnan(when), np.nan, share))
