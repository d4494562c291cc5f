"""Whether a day's weather lets trays of seedlings out."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import isnan
from typing import Literal, Protocol

import numpy as np

from greenroom.agronomy._checks import single

Verdict = Literal["out", "sheltered", "hold"]

COLD_DAY_C = 10.0
"""Warmest hour below which peppers stay in. "10 °C steady", Toronto Master Gardeners; nights of
50 °F, Beltrami County Master Gardeners, Minnesota; 3 days at 11/5 °C injured leaves, Duan et al. 2010."""
STRONG_GUST_M_S = 11.0
"""Beaufort 6, strong breeze, begins at 10.8 m/s (WMO-No. 8, from memory)."""
GUST_M_S = 7.0
"""Inside Beaufort 4, moderate breeze, 5.5 to 7.9 m/s (WMO-No. 8, from memory): this program's own rule."""
HEAVY_RAIN_MM = 15.0
"""A day's rain that keeps trays in: common practice, no source."""
RAIN_MM = 5.0
"""A day's rain that asks for cover: common practice, no source."""

TOO_COLD = "too cold"
STRONG_GUSTS = "strong gusts"
HEAVY_RAIN = "heavy rain"
GUSTS = "gusts"
RAIN = "rain"


def verdict(
    tmin: float | None,
    tmax: float | None,
    gust: float | None,
    rain: float | None,
    *,
    limits: "HoldLimits | None" = None,
) -> tuple[Verdict, tuple[str, ...]]:
    """Whether a day's weather lets trays out.

    Parameters
    ----------
    tmin, tmax : float or None
        Coldest and warmest of the day [°C]. `tmin` does not change the verdict: trays on the ramp
        come in at night.
    gust : float or None
        Strongest gust [m/s].
    rain : float or None
        Rain of the day [mm].
        None (or NaN) in any of them is not known, and what is not known never holds a tray back.
    limits : HoldLimits or None
        What holds a tray back; None: the limits of the trade's common crops, as `HoldLimits()`.

    Returns
    -------
    tuple
        "out", "sheltered" or "hold", and the reasons for it in words without numbers, so that the
        window can set the forecast beside them in the grower's units; no reasons for "out".

    Raises
    ------
    ValueError
        If a number is infinite, or gust or rain negative.

    References
    ----------
    University of Maryland Extension 2023: hardening at 45 °F or warmer and not in wind. The limits
    used here stand with their sources at the top of the module.
    """
    weather = DayWeather(tmin, tmax, gust, rain)
    if hold := tuple(_reasons_to_hold(weather, limits or HoldLimits())):
        return "hold", hold
    if shelter := tuple(_reasons_to_shelter(weather)):
        return "sheltered", shelter
    return "out", ()


def _reasons_to_hold(weather: "DayWeather", limits: "HoldLimits") -> Iterator[str]:
    if weather.tmax is not None and weather.tmax < limits.cold_c:
        yield TOO_COLD
    if weather.gust is not None and weather.gust >= limits.gust_m_s:
        yield STRONG_GUSTS
    if weather.rain is not None and weather.rain >= limits.rain_mm:
        yield HEAVY_RAIN


def _reasons_to_shelter(weather: "DayWeather") -> Iterator[str]:
    if weather.gust is not None and weather.gust >= GUST_M_S:
        yield GUSTS
    if weather.rain is not None and weather.rain >= RAIN_MM:
        yield RAIN


def _known(name: str, value: float | None, low: float | None = None) -> float | None:
    if value is None or (isinstance(value, float | np.floating) and isnan(value)):
        return None
    return single(name, value, low=low)


@dataclass(frozen=True)
class HoldLimits:
    """The weather that keeps a tray in.

    Parameters
    ----------
    cold_c : float
        A day whose warmest hour stays below this holds [°C].
    gust_m_s : float
        Gusts of this or more hold [m/s]; above 0.
    rain_mm : float
        This much rain in the day or more holds [mm]; above 0.

    Raises
    ------
    ValueError
        Naming the argument out of range.
    """

    cold_c: float = COLD_DAY_C
    gust_m_s: float = STRONG_GUST_M_S
    rain_mm: float = HEAVY_RAIN_MM

    def __post_init__(self) -> None:
        single("cold_c", self.cold_c, low=-50, high=50)
        single("gust_m_s", self.gust_m_s, above=0)
        single("rain_mm", self.rain_mm, above=0)

    def strictest(self, other: "HoldLimits") -> "HoldLimits":
        """The limits that hold whenever either of two would."""
        return HoldLimits(
            max(self.cold_c, other.cold_c),
            min(self.gust_m_s, other.gust_m_s),
            min(self.rain_mm, other.rain_mm),
        )


class WeatherOfDay(Protocol):
    """Anything that tells a day's weather; None is not known."""

    @property
    def tmin(self) -> float | None:
        """Coldest of the day [°C]."""

    @property
    def tmax(self) -> float | None:
        """Warmest of the day [°C]."""

    @property
    def gust(self) -> float | None:
        """Strongest gust [m/s]."""

    @property
    def rain(self) -> float | None:
        """Rain of the day [mm]."""


@dataclass(frozen=True)
class DayWeather:
    """A day's weather: tmin, tmax [°C], gust [m/s], rain [mm]; None is not known, and NaN becomes None."""

    tmin: float | None = None
    tmax: float | None = None
    gust: float | None = None
    rain: float | None = None

    def __post_init__(self) -> None:
        for name, low in (("tmin", None), ("tmax", None), ("gust", 0.0), ("rain", 0.0)):
            object.__setattr__(self, name, _known(name, getattr(self, name), low))
