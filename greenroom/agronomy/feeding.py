"""Feeding: how much fertiliser makes a solution of so many ppm nitrogen, and oxides as elements.

A label gives nitrogen as the element but phosphorus and potassium as the oxides P2O5 and K2O. One ppm
here is one milligram in a litre of water.
"""

from typing import overload

from greenroom.agronomy._checks import Floats, Numbers, number, plain

# Exact by definition: US liquid gallon of 231 cubic inches; avoirdupois ounce (NIST Handbook 44, appendix C).
LITRES_IN_100_GALLONS = 378.5411784
GRAMS_IN_OUNCE = 28.349523125

# Standard atomic weights, IUPAC 2021 (abridged): J. Pure Appl. Chem. 94:573.
_OXYGEN, _PHOSPHORUS, _POTASSIUM = 15.999, 30.973761998, 39.0983
P_IN_P2O5 = 2 * _PHOSPHORUS / (2 * _PHOSPHORUS + 5 * _OXYGEN)
K_IN_K2O = 2 * _POTASSIUM / (2 * _POTASSIUM + _OXYGEN)


@overload
def grams_per_litre(  # type: ignore[overload-overlap]  # single numbers take this form
    ppm_n: float, percent_n: float
) -> float: ...
@overload
def grams_per_litre(ppm_n: Numbers, percent_n: Numbers) -> Floats: ...
def grams_per_litre(ppm_n: Numbers, percent_n: Numbers) -> float | Floats:
    """Fertiliser for one litre of feed.

    Parameters
    ----------
    ppm_n : float or array
        Nitrogen wanted [mg/L], 0 or more.
    percent_n : float or array
        Nitrogen in the fertiliser [% of its mass], the first figure of the label; above 0, at most 100.

    Returns
    -------
    float or array of the common shape
        Grams of fertiliser per litre of finished feed [g/L], ppm / (10 x percent). For a stock that an
        injector thins 1:100, take 100 times as much: sellers differ on whether that means one part
        in 100 or one to 100, which changes the feed by one part in a hundred.

    Raises
    ------
    ValueError
        For a value outside its range.

    References
    ----------
    Mass balance: mg/L wanted = g/L x 1000 x percent / 100.
    """
    wanted, share = _checked(ppm_n, percent_n)
    return plain(wanted / (10.0 * share))


@overload
def ounces_per_100_gallons(  # type: ignore[overload-overlap]  # single numbers take this form
    ppm_n: float, percent_n: float
) -> float: ...
@overload
def ounces_per_100_gallons(ppm_n: Numbers, percent_n: Numbers) -> Floats: ...
def ounces_per_100_gallons(ppm_n: Numbers, percent_n: Numbers) -> float | Floats:
    """Fertiliser for a hundred US gallons of feed, by exact mass.

    Parameters
    ----------
    ppm_n, percent_n : float or array
        As in `grams_per_litre`.

    Returns
    -------
    float or array of the common shape
        Ounces by weight per 100 US gallons [oz]. The common rule, one ounce of pure nitrogen giving
        75 ppm, is a seventh of a percent lower.

    Raises
    ------
    ValueError
        For a value outside its range.

    References
    ----------
    Mass balance, with the units of NIST Handbook 44, appendix C.
    """
    wanted, share = _checked(ppm_n, percent_n)
    return plain(wanted / (10.0 * share) * LITRES_IN_100_GALLONS / GRAMS_IN_OUNCE)


@overload
def p_from_p2o5(x: float) -> float: ...
@overload
def p_from_p2o5(x: Numbers) -> float | Floats: ...
def p_from_p2o5(x: Numbers) -> float | Floats:
    """Phosphorus in an amount given as P2O5.

    Parameters
    ----------
    x : float or array
        Amount as P2O5, in any unit of mass or as percent; 0 or more.

    Returns
    -------
    float or array of the shape of `x`
        The same amount as the element P, in the same unit.

    Raises
    ------
    ValueError
        For an amount below 0.

    References
    ----------
    Molar masses from the IUPAC standard atomic weights of 2021.
    """
    return plain(number("x", x, low=0.0) * P_IN_P2O5)


@overload
def k_from_k2o(x: float) -> float: ...
@overload
def k_from_k2o(x: Numbers) -> float | Floats: ...
def k_from_k2o(x: Numbers) -> float | Floats:
    """Potassium in an amount given as K2O.

    Parameters
    ----------
    x : float or array
        Amount as K2O, in any unit of mass or as percent; 0 or more.

    Returns
    -------
    float or array of the shape of `x`
        The same amount as the element K, in the same unit.

    Raises
    ------
    ValueError
        For an amount below 0.

    References
    ----------
    Molar masses from the IUPAC standard atomic weights of 2021.
    """
    return plain(number("x", x, low=0.0) * K_IN_K2O)


def _checked(ppm_n: Numbers, percent_n: Numbers) -> tuple[Floats, Floats]:
    return number("ppm_n", ppm_n, low=0.0), number("percent_n", percent_n, above=0.0, high=100.0)
