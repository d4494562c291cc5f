"""The units a daily weather file may be in: how to tell them apart and how to convert them.

References
----------
The three forms are those of the daily summaries of the Global Historical Climatology Network, in its
public documentation (NOAA National Centers for Environmental Information, GHCN-Daily readme and
"Daily Summaries" documentation): archive files hold whole tenths of °C, of mm and of m/s, exports
hold °C, mm and m/s or °F, inches and miles per hour, as was asked for; 9999 and -9999 are missing.
"""

from __future__ import annotations

import re
import statistics
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from greenroom.speech import tr

UNITS = ("tenths", "metric", "us")
UNIT_WORDS = {
    "tenths": tr("tenths of °C, of mm and of m/s"),
    "metric": tr("°C, mm and m/s"),
    "us": tr("°F, inches and miles per hour"),
}
NUMBER = re.compile(r"[+-]?(?:[0-9]{1,9}(?:[.,][0-9]{0,9})?|[.,][0-9]{1,9})")
MISSING = (9999.0, -9999.0)
DECIMALS_KEPT = 3

# Exact by definition: NIST Special Publication 811 (2008), appendix B.
FAHRENHEIT_OF_FREEZING = 32.0
CELSIUS_PER_FAHRENHEIT = 5 / 9
MM_PER_INCH = 25.4
MS_PER_MPH = 0.44704
KMH_PER_MS = 3.6
MS_PER_KNOT = 1852 / 3600

# The hottest and coldest air measured are 56.7 and -89.2 °C, 134 and -128.6 °F (World Meteorological
# Organization, World Weather and Climate Extremes Archive); beyond these only tenths are possible.
HOTTEST_F = 140.0
COLDEST_F = -130.0
HOTTEST_C = 60.0
# Working rules of this program, no source: half of all days differ by less than this between night
# and day, whatever the place, unless they are in tenths; and no place has half its days this hot in °C.
WIDEST_USUAL_RANGE = 45.0
HOTTEST_USUAL_C = 40.0
DAYS_FOR_SURENESS = 300


def parse_number(text: str) -> float | None:
    """Return the number in ``text``, or None if it is none; a decimal comma is understood."""
    stripped = text.strip()
    if not NUMBER.fullmatch(stripped):
        return None
    return float(stripped.replace(",", "."))


def temperature_c(value: float, units: str) -> float:
    """Return a temperature [°C] from a number in ``units``."""
    if units == "tenths":
        return kept(value / 10)
    if units == "us":
        return kept((value - FAHRENHEIT_OF_FREEZING) * CELSIUS_PER_FAHRENHEIT)
    return kept(value)


def rain_mm(value: float, units: str) -> float:
    """Return a depth of rain [mm] from a number in ``units``."""
    if units == "tenths":
        return kept(value / 10)
    return kept(value * MM_PER_INCH if units == "us" else value)


def wind_ms(value: float, units: str) -> float:
    """Return a wind speed [m/s] from a number in ``units``."""
    if units == "tenths":
        return kept(value / 10)
    return kept(value * MS_PER_MPH if units == "us" else value)


def guess_units(days: Sequence[tuple[str, str]]) -> UnitGuess:
    """Tell the units of a file from its temperatures.

    Parameters
    ----------
    days : sequence of (str, str)
        The lowest and the highest temperature of each day as they stand in the file.

    Returns
    -------
    UnitGuess
        Sure only if the values allow nothing else, or if most of a year was seen.

    Notes
    -----
    One day in a hundred is left out at either end, so that a misprint does not decide. Judged in this
    order: beyond any air temperature in °F, tenths; nights and days usually further apart than air
    ever is, tenths; hotter than any air in °C, °F; with fractions, °C; whole and usually hot, °F;
    whole and mild, °C.
    """
    pairs = [(low, high) for low, high in map(_pair, days) if low is not None and high is not None]
    if not pairs:
        return UnitGuess(
            "metric", tr("No day looked at has both temperatures, so °C is only assumed."), sure=False
        )
    lows = sorted(low for low, _ in pairs)
    highs = sorted(high for _, high in pairs)
    margin = len(pairs) // 100
    return _judge(lows[margin], highs[-1 - margin], pairs)


def kept(value: float) -> float:
    """Return a value with as many decimals as are kept of weather."""
    return round(value, DECIMALS_KEPT) + 0.0  # the sum turns -0.0 into 0.0


def _pair(day: tuple[str, str]) -> tuple[float | None, float | None]:
    low, high = (parse_number(text) for text in day)
    return (None if low in MISSING else low, None if high in MISSING else high)


def _judge(coldest: float, hottest: float, pairs: list[tuple[float, float]]) -> UnitGuess:
    usual_range = statistics.median(high - low for low, high in pairs)
    usual_high = statistics.median(high for _, high in pairs)
    whole = all(value.is_integer() for pair in pairs for value in pair)
    seen = len(pairs) >= DAYS_FOR_SURENESS
    if hottest > HOTTEST_F or coldest < COLDEST_F:
        extreme = hottest if hottest > HOTTEST_F else coldest
        return UnitGuess(
            "tenths",
            tr(
                "{extreme:g} cannot be °C or °F, so these are tenths: {tenth:g} °C.",
                extreme=extreme,
                tenth=extreme / 10,
            ),
            sure=whole,
        )
    if whole and usual_range >= WIDEST_USUAL_RANGE:
        return UnitGuess(
            "tenths",
            tr(
                "Nights and days lie {range:g} apart, which only tenths of °C do.",
                range=usual_range,
            ),
            sure=seen,
        )
    if hottest > HOTTEST_C:
        return UnitGuess(
            "us", tr("Days reach {hottest:g}, too hot for °C, so these are °F.", hottest=hottest), sure=seen
        )
    if not whole:
        return UnitGuess(
            "metric",
            tr(
                "Days reach {hottest:g} and there are fractions of degrees, so these are °C.", hottest=hottest
            ),
            sure=seen,
        )
    if usual_high > HOTTEST_USUAL_C:
        return UnitGuess(
            "us",
            tr("Half the days reach {high:g}, which is usual only in °F.", high=usual_high),
            sure=False,
        )
    return UnitGuess(
        "metric",
        tr("Days reach {hottest:g} in whole degrees, which suits °C; check the units.", hottest=hottest),
        sure=False,
    )


@dataclass(frozen=True, slots=True)
class UnitGuess:
    """What units a file seems to be in, why in one sentence, and whether that can be relied on."""

    units: str
    reason: str
    sure: bool


@dataclass(frozen=True, slots=True)
class Quantity:
    """What a column measures: how to convert it, what is possible, and its unit in words."""

    convert: Callable[[float, str], float]
    lowest: float
    highest: float
    unit: str
    trace: bool = False


# Beyond the extremes in the World Weather and Climate Extremes Archive (World Meteorological
# Organization): -89.2 and 56.7 °C, 1,825 mm of rain in a day, a gust of 113.2 m/s.
TEMPERATURE = Quantity(temperature_c, -90.0, 60.0, "°C")
RAIN = Quantity(rain_mm, 0.0, 2_000.0, "mm", trace=True)  # T: too little to measure, 0 by the readme
GUST = Quantity(wind_ms, 0.0, 120.0, "m/s")
