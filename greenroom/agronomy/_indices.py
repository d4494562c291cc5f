"""Measures of a germination count: how fast, how even, how spread out the seedlings came up."""

import numpy as np

from greenroom.agronomy._checks import Floats, Numbers, one_of, refuse, refuse_where, rising, series, whole

_HALF_RULES = ("coolbear", "farooq")


def mean_days(days: Numbers, counts: Numbers) -> float | None:
    """Mean time to emerge of the seedlings that came up, the sum of N·T over the sum of N.

    Parameters
    ----------
    days : 1-D array
        Day after sowing of each count [d], 0 or later, strictly rising.
    counts : 1-D array, same length
        Seedlings newly up that day; whole, 0 or more.

    Returns
    -------
    float or None
        Days [d]; None while nothing is up. Seeds that never came up do not enter.

    Raises
    ------
    ValueError
        For days that do not rise, counts that are not whole, or rows of different length.

    References
    ----------
    Ellis, R. H. and Roberts, E. H. (1980) in Seed Production (ed. Hebblethwaite), 605-635 (from memory).
    Ranal, M. A. and Garcia de Santana, D. (2006) Brazilian Journal of Botany 29:1-11 (from memory).
    """
    day, count = _counted(days, counts)
    total = count.sum()
    return float(day @ count / total) if total else None


def speed_index(days: Numbers, counts: Numbers) -> float:
    """Maguire's speed of germination, the sum of N/T: seedlings a day, early ones weighing more.

    Parameters
    ----------
    days, counts : 1-D arrays
        As in `mean_days`; a seedling up on day 0 is refused, for its speed would be infinite.

    Returns
    -------
    float
        Seedlings per day [1/d]; 0 while nothing is up.

    Raises
    ------
    ValueError
        As in `mean_days`, and for a seedling on day 0.

    References
    ----------
    Maguire, J. D. (1962) Speed of germination. Crop Science 2:176-177.
    """
    day, count = _counted(days, counts)
    refuse_where((day == 0.0) & (count > 0.0), "days", day, "a seedling cannot be up on the day of sowing")
    up = count > 0.0
    return float((count[up] / day[up]).sum())


def synchrony(counts: Numbers) -> float | None:
    """Synchrony Z: the share of pairs of seedlings that came up on the same day.

    Parameters
    ----------
    counts : 1-D array
        Seedlings newly up at each look; whole, 0 or more.

    Returns
    -------
    float or None
        From 0 (no two together) to 1 (all on one day); None with fewer than two seedlings.

    Raises
    ------
    ValueError
        For counts that are not whole or are below 0.

    References
    ----------
    Primack, R. B. (1985) Ecology 66:1131 (from memory); for seeds, Ranal and Garcia de Santana (2006).
    """
    count = _counts(counts)
    pairs = _pairs(count.sum())
    return float(_pairs(count).sum() / pairs) if pairs else None


def uncertainty_bits(counts: Numbers) -> float | None:
    """Uncertainty U of the emergence: Shannon's entropy of the share up at each look, in bits.

    Parameters
    ----------
    counts : 1-D array
        Seedlings newly up at each look; whole, 0 or more.

    Returns
    -------
    float or None
        Bits; 0 when all came up at one look; None while nothing is up.

    Raises
    ------
    ValueError
        For counts that are not whole or are below 0.

    References
    ----------
    Labouriau, L. G. and Valadares, M. E. B. (1976) Anais da Academia Brasileira de Ciencias 48:263-284
    (from memory).
    """
    count = _counts(counts)
    total = count.sum()
    if not total:
        return None
    share = count[count > 0.0] / total
    return float(max(0.0, -(share @ np.log2(share))))


def median_days(days: Numbers, counts: Numbers, rule: str = "coolbear") -> float | None:
    """Days until half of those that finally came up were up (T50), straight between the two looks around it.

    Parameters
    ----------
    days, counts : 1-D arrays
        As in `mean_days`.
    rule : {"coolbear", "farooq"}
        Which seedling is the half: the (N + 1)/2-th, or the N/2-th; N is the final number up.

    Returns
    -------
    float or None
        Days [d]; None while nothing is up. Where the first look already found the half, the line is
        drawn from the day of sowing, when none was up.

    Raises
    ------
    ValueError
        As in `mean_days`, and for an unknown rule.

    References
    ----------
    Coolbear, P., Francis, A. and Grierson, D. (1984) Journal of Experimental Botany 35:1609-1617.
    Farooq, M. et al. (2005) Journal of Integrative Plant Biology 47:187-193.
    """
    day, count = _counted(days, counts)
    total = count.sum()
    half = (total + 1.0) / 2.0 if one_of("rule", rule, _HALF_RULES) == "coolbear" else total / 2.0
    if not total:
        return None
    up = np.concatenate(([0.0], np.cumsum(count)))
    when = np.concatenate(([0.0], day))
    after = int(np.searchsorted(up, half))
    share = (half - up[after - 1]) / (up[after] - up[after - 1])
    return float(when[after - 1] + share * (when[after] - when[after - 1]))


def _counted(days: Numbers, counts: Numbers) -> tuple[Floats, Floats]:
    day = series("days", days, low=0.0)
    rising("days", day)
    count = _counts(counts)
    if day.size != count.size:
        refuse("counts", f"{count.size} long", f"it must be as long as days, {day.size}")
    return day, count


def _counts(values: Numbers) -> Floats:
    return whole("counts", series("counts", values, low=0.0))


def _pairs(count: Floats) -> Floats:
    """Number of pairs in `count` things."""
    return count * (count - 1.0) / 2.0
