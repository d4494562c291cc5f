"""Light from lamps: what a steady lamp adds up to in a day, and what a lux meter says of it."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import overload

from greenroom.agronomy._checks import Floats, Numbers, Row, number, one_of, plain

# Thimijan and Heins 1983, lux for each µmol m-2 s-1 of 400 to 700 nm. "white led" is from memory (65 to
# 75 by colour); it lies inside 66.8 to 71.5, computed from the CIE 15:2018 illuminants LED-B1 to LED-B5.
LUX_PER_PPFD: Mapping[str, float] = MappingProxyType(
    {
        "sun": 54.0,
        "white led": 70.0,
        "cool white fluorescent": 74.0,
        "metal halide": 71.0,
        "high pressure sodium": 82.0,
        "incandescent": 50.0,
    }
)


@overload
def daily_light_integral(  # type: ignore[overload-overlap]  # single values take this form
    ppfd: float, hours: float
) -> float: ...
@overload
def daily_light_integral(ppfd: Numbers, hours: Numbers) -> Floats: ...
def daily_light_integral(ppfd: Numbers, hours: Numbers) -> float | Floats:
    """Light gathered in a day under a steady lamp: PPFD x 3600 x hours / 1 000 000.

    Parameters
    ----------
    ppfd : float or array [µmol m-2 s-1], 0 or more
    hours : float or array [h a day], 0 to 24

    Returns
    -------
    float or array [mol m-2 d-1]

    Raises
    ------
    ValueError
        For a negative ppfd or hours outside 0 to 24.
    """
    return plain(number("ppfd", ppfd, low=0) * number("hours", hours, low=0, high=24) * 3600 / 1e6)


@overload
def ppfd_from_lux(lux: float, lamp: str) -> float: ...
@overload
def ppfd_from_lux(lux: Row, lamp: str) -> Floats: ...
def ppfd_from_lux(lux: Numbers, lamp: str) -> float | Floats:
    """Photosynthetic light from a reading in lux, for light of a known kind.

    Parameters
    ----------
    lux : float or array [lx], 0 or more
    lamp : "sun", "white led", "cool white fluorescent", "metal halide", "high pressure sodium" or
        "incandescent"

    Returns
    -------
    float or array [µmol m-2 s-1]

    Raises
    ------
    ValueError
        For a negative reading or another lamp.

    Notes
    -----
    The figure for "white led" (70 lux per µmol m-2 s-1) is from memory, not from the source below;
    white LEDs lie between 65 and 75 by colour, so the lamp's own data sheet is better.

    References
    ----------
    Thimijan, R. W. and Heins, R. D. 1983. Photometric, radiometric, and quantum light units of measure:
        a review of procedures for interconversion. HortScience 18:818-822.
    """
    return plain(number("lux", lux, low=0) / LUX_PER_PPFD[one_of("lamp", lamp, tuple(LUX_PER_PPFD))])
