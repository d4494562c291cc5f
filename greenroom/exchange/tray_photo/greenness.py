"""How green a point of a picture is, and from which greenness on it counts as leaf."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

BINS = 256
BLACK = 24 / 255  # the sum of the three channels below which a colour is more noise than colour
SEPARABLE = 0.70  # Otsu's measure for one heap with the shape of a bell is 2/pi = 0.637
APART = 0.15  # least excess green between the means of leaf and mix; a working rule of this program
LEAST_SHARE = 0.03  # of a tray, below which Otsu's rule is known to drift into the larger heap
OUTLYING = 5.0  # robust standard deviations above the middle of the tray
MAD_TO_SD = 1.4826  # of a normal distribution: Rousseeuw and Croux 1993
ALL_GREEN = 0.20  # middle of a tray under whose leaves no mix is seen; a working rule
LEAF_OF_ALL = 0.10  # what counts as leaf there; a working rule
FEWEST = 12  # points that can be told from stray ones


def excess_green(picture: ArrayLike) -> Floats:
    """Return the excess green index of each point of a picture.

    Parameters
    ----------
    picture : array (..., 3)
        Red, green and blue, all on one scale: 0 to 1 or 0 to 255.

    Returns
    -------
    array (...)
        2g - r - b, -1 to 2, of the chromatic coordinates r, g, b; 0 for grey. Points nearly black, whose
        colour is noise, are taken for grey.

    Raises
    ------
    ValueError
        If the last side is not 3 long.

    References
    ----------
    Woebbecke, D. M., Meyer, G. E., Von Bargen, K. and Mortensen, D. A. (1995). Color indices for weed
    identification under various soil, residue, and lighting conditions. Transactions of the ASAE 38(1):
    259-269. doi:10.13031/2013.27838
    """
    given = np.asarray(picture)
    if given.shape[-1:] != (3,):
        raise ValueError(
            f"picture has the shape {given.shape}; red, green and blue on its last side are needed"
        )
    scale = 255.0 if given.dtype == np.uint8 else 1.0
    colours = given.astype(np.float64) / scale
    whole = colours.sum(axis=-1)
    green = colours[..., 1] / np.maximum(whole, BLACK)
    return np.where(whole < BLACK, 0.0, 3.0 * green - 1.0)  # 2g - r - b, since r + g + b = 1


def otsu(values: ArrayLike) -> Split:
    """Return the level that splits values into two groups most unlike each other.

    Parameters
    ----------
    values : array
        Any finite numbers.

    Returns
    -------
    Split
        The middle of the last bin of the lower group, and what was found on its two sides.

    Raises
    ------
    ValueError
        If there is no value.

    References
    ----------
    Otsu, N. (1979). A threshold selection method from gray-level histograms. IEEE Transactions on
    Systems, Man, and Cybernetics 9(1): 62-66. doi:10.1109/TSMC.1979.4310076
    """
    given = np.asarray(values, dtype=np.float64).ravel()
    if given.size == 0:
        raise ValueError("values is empty; at least one number is needed")
    counts, edges = np.histogram(given, BINS)
    middles = (edges[:-1] + edges[1:]) / 2
    below = np.cumsum(counts)[:-1]
    above = given.size - below
    sums = np.cumsum(counts * middles)
    whole = sums[-1]
    with np.errstate(invalid="ignore", divide="ignore"):
        lower, upper = sums[:-1] / below, (whole - sums[:-1]) / above
        between = below * above * (lower - upper) ** 2 / given.size**2  # eq. 18
    between = np.nan_to_num(between)
    best = int(np.argmax(between))
    spread = float(given.var())
    return Split(
        float(middles[best]),
        float(np.nan_to_num(lower[best])),
        float(np.nan_to_num(upper[best])),
        float(above[best] / given.size),
        float(between[best] / spread) if spread > 0 else 0.0,
    )


def leaf_level(index: ArrayLike) -> Level:
    """Return the excess green from which on a point of a tray is leaf; none where no leaf can be told.

    Otsu's rule is used on the whole tray where its two groups are clearly two. A tray with little green
    is split again on its outlying green points and as many others, since the rule drifts into the larger
    group where one is small. Where that finds no two groups either, nothing is green; or all is, if the
    middle of the tray is.
    """
    given = np.asarray(index, dtype=np.float64).ravel()
    whole = otsu(given)
    if whole.clear and LEAST_SHARE <= whole.share <= 1 - LEAST_SHARE:
        return Level(whole.level, "whole", whole)
    middle = float(np.median(given))
    if middle >= ALL_GREEN:
        return Level(LEAF_OF_ALL, "all", whole)
    spread = MAD_TO_SD * float(np.median(np.abs(given - middle)))
    outlying = given[given > middle + max(OUTLYING * spread, APART / 2)]
    if outlying.size >= FEWEST:
        rest = np.sort(given[given <= middle + OUTLYING * spread])
        evenly = rest[np.linspace(0, rest.size - 1, min(rest.size, outlying.size)).astype(int)]
        again = otsu(np.concatenate([outlying, evenly]))
        if again.clear:
            return Level(again.level, "outlying", again)
    return Level(None, "none", whole)


@dataclass(frozen=True, slots=True)
class Split:
    """Two groups of values: the level between them, their means, the share above.

    ``separability`` is the variance between the groups as a share of the whole: 0 to 1.
    """

    level: float
    lower: float
    upper: float
    share: float
    separability: float

    @property
    def clear(self) -> bool:
        """Whether these are two groups and not one cut in half."""
        return self.separability >= SEPARABLE and self.upper - self.lower >= APART


@dataclass(frozen=True, slots=True)
class Level:
    """The excess green of leaf, None if none was told; ``rule`` is "whole", "outlying", "all" or "none"."""

    value: float | None
    rule: str
    split: Split
