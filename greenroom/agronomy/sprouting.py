"""Sprouting: how many came up, when, whether more will, and how many seeds to sow."""

from typing import overload

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy._checks import Floats, Numbers, at_most, number, one_of, plain, refuse_where, whole
from greenroom.agronomy._emergence import CROPS, days_to_emerge
from greenroom.agronomy._indices import mean_days, median_days, speed_index, synchrony, uncertainty_bits
from greenroom.agronomy._survival import BareCurve, chance_still_up, kaplan_meier

__all__ = [
    "CROPS",
    "BareCurve",
    "blank_chance",
    "chance_still_up",
    "days_to_emerge",
    "final_fraction",
    "interval",
    "kaplan_meier",
    "mean_days",
    "median_days",
    "seeds_to_sow",
    "speed_index",
    "synchrony",
    "uncertainty_bits",
]

Ints = NDArray[np.int64]
_METHODS = ("wilson", "exact")
# A chance that equals the wanted confidence but for a rounding error is enough.
_ROUNDING = 1e-12


@overload
def final_fraction(  # type: ignore[overload-overlap]  # single numbers take this form
    sprouted: float, sown: float
) -> float: ...
@overload
def final_fraction(sprouted: Numbers, sown: Numbers) -> Floats: ...
def final_fraction(sprouted: Numbers, sown: Numbers) -> float | Floats:
    """Share of the seeds sown that came up.

    Parameters
    ----------
    sprouted, sown : int or array
        Seeds; whole, 0 <= sprouted <= sown, sown at least 1.

    Returns
    -------
    float or array of the common shape
        From 0 to 1. Give it with `interval`, which says how sure it is.

    Raises
    ------
    ValueError
        For a count outside its range.

    References
    ----------
    Ranal, M. A. and Garcia de Santana, D. (2006) Brazilian Journal of Botany 29:1-11 (from memory).
    """
    up, all_sown = _up_of("sprouted", sprouted, "sown", sown)
    return plain(up / all_sown)


@overload
def blank_chance(  # type: ignore[overload-overlap]  # single numbers take this form
    seeds: float, chance: float
) -> float: ...
@overload
def blank_chance(seeds: Numbers, chance: Numbers) -> Floats: ...
def blank_chance(seeds: Numbers, chance: Numbers) -> float | Floats:
    """Chance that a cell sown with `seeds` has none up, (1 - chance)^seeds.

    Parameters
    ----------
    seeds : int or array
        Seeds in the cell; whole, 0 or more.
    chance : float or array
        Chance of each seed, 0 to 1; seeds come up independently of each other.

    Returns
    -------
    float or array of the common shape
        From 0 to 1.

    Raises
    ------
    ValueError
        For a value outside its range.

    References
    ----------
    The binomial law, as used in the sowing tables of the USDA Forest Service nursery manuals.
    """
    return plain((1.0 - number("chance", chance, low=0.0, high=1.0)) ** whole("seeds", seeds, low=0.0))


@overload
def seeds_to_sow(  # type: ignore[overload-overlap]  # single numbers take this form
    wanted: float, chance: float, confidence: float = ...
) -> int: ...
@overload
def seeds_to_sow(wanted: Numbers, chance: Numbers, confidence: Numbers = ...) -> Ints: ...
def seeds_to_sow(wanted: Numbers, chance: Numbers, confidence: Numbers = 0.95) -> int | Ints:
    """Fewest seeds that give at least `wanted` seedlings with the given confidence.

    Parameters
    ----------
    wanted : int or array
        Seedlings; whole, 0 to a million.
    chance : float or array
        Chance of each seed, at least one in a million and at most 1. To count plants that also live
        to be set out, multiply it by the share that does.
    confidence : float or array
        Above 0 and below 1.

    Returns
    -------
    int or array of int of the common shape
        The least n with P(Binomial(n, chance) >= wanted) >= confidence.

    Raises
    ------
    ValueError
        For a value outside its range.

    Notes
    -----
    P(X >= k) is the incomplete beta function I_p(k, n - k + 1), which rises with n; n is found by halving.

    References
    ----------
    Abramowitz, M. and Stegun, I. A. (1964) Handbook of Mathematical Functions, 26.5.24.
    """
    target, each, sure = np.broadcast_arrays(
        whole("wanted", wanted, low=0.0, high=1e6),
        _known_chance(chance),
        number("confidence", confidence, above=0.0, below=1.0),
    )
    few, enough = target - 1.0, np.maximum(target, 1.0)
    while (short := ~_enough(enough, target, each, sure)).any():
        few, enough = np.where(short, enough, few), np.where(short, 2.0 * enough, enough)
    while (enough - few > 1.0).any():
        middle = np.floor((few + enough) / 2.0)
        reached = _enough(middle, target, each, sure)
        few, enough = np.where(reached, few, middle), np.where(reached, middle, enough)
    least = np.where(target == 0.0, 0.0, enough).astype(np.int64)
    return int(least) if least.ndim == 0 else least


@overload
def interval(  # type: ignore[overload-overlap]  # single numbers take this form
    k: float, n: float, confidence: float = ..., method: str = ...
) -> tuple[float, float]: ...
@overload
def interval(
    k: Numbers, n: Numbers, confidence: Numbers = ..., method: str = ...
) -> tuple[Floats, Floats]: ...
def interval(
    k: Numbers, n: Numbers, confidence: Numbers = 0.95, method: str = "wilson"
) -> tuple[float | Floats, float | Floats]:
    """Interval for the true share when `k` of `n` came up.

    Parameters
    ----------
    k, n : int or array
        Whole, 0 <= k <= n, n at least 1.
    confidence : float or array
        Above 0 and below 1.
    method : {"wilson", "exact"}
        "wilson": the score interval, right on average; "exact": Clopper and Pearson's, never too
        narrow and so wider with few seeds.

    Returns
    -------
    (low, high) : floats, or arrays of the common shape
        Shares from 0 to 1.

    Raises
    ------
    ValueError
        For a value outside its range or an unknown method.

    References
    ----------
    Wilson, E. B. (1927) J. Am. Statistical Association 22:209-212.
    Clopper, C. J. and Pearson, E. S. (1934) Biometrika 26:404-413.
    """
    up, tried = _up_of("k", k, "n", n)
    sure = number("confidence", confidence, above=0.0, below=1.0)
    bounds = _wilson if one_of("method", method, _METHODS) == "wilson" else _clopper_pearson
    low, high = bounds(up, tried, sure)
    # At the ends of the range the bound is the end itself, free of rounding.
    return plain(np.where(up == 0.0, 0.0, low)), plain(np.where(up == tried, 1.0, high))


def _wilson(up: Floats, tried: Floats, sure: Floats) -> tuple[Floats, Floats]:
    from scipy.special import ndtri  # slow to import: not before the first window

    z2 = ndtri(0.5 + sure / 2.0) ** 2
    middle = (up + z2 / 2.0) / (tried + z2)
    half = np.sqrt(z2 * (up * (tried - up) / tried + z2 / 4.0)) / (tried + z2)
    return middle - half, middle + half


def _clopper_pearson(up: Floats, tried: Floats, sure: Floats) -> tuple[Floats, Floats]:
    from scipy.special import betaincinv  # as in _wilson

    tail = (1.0 - sure) / 2.0
    # At 0 and at n one parameter would be 0; the caller puts the end of the range there.
    low = betaincinv(np.maximum(up, 1.0), tried - up + 1.0, tail)
    high = betaincinv(up + 1.0, np.maximum(tried - up, 1.0), 1.0 - tail)
    return low, high


def _enough(seeds: Floats, wanted: Floats, chance: Floats, confidence: Floats) -> NDArray[np.bool_]:
    """Whether `seeds` (at least `wanted`) give `wanted` with the confidence."""
    from scipy.special import betainc  # as in _wilson

    reached = betainc(np.maximum(wanted, 1.0), seeds - np.maximum(wanted, 1.0) + 1.0, chance)
    return (reached >= confidence - _ROUNDING) | (wanted == 0.0)


def _known_chance(chance: Numbers) -> Floats:
    each = number("chance", chance, low=1e-6, high=1.0)
    refuse_where(np.isnan(each), "chance", each, "it must be a number")
    return each


def _up_of(up_name: str, up: Numbers, of_name: str, of: Numbers) -> tuple[Floats, Floats]:
    some, total = whole(up_name, up, low=0.0), whole(of_name, of, low=1.0)
    at_most(up_name, some, of_name, total)
    return some, total
