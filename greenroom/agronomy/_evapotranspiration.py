"""Reference evapotranspiration after FAO-56, and the sums it is built from.

Equation numbers are those of Allen, R. G., Pereira, L. S., Raes, D. and Smith, M. (1998) Crop
evapotranspiration, FAO Irrigation and Drainage Paper 56.
"""

from typing import overload

import numpy as np

from greenroom.agronomy._checks import Floats, Numbers, Row, at_most, known, number, plain, whole

SOLAR_CONSTANT_MJ_M2_MIN = 0.0820  # FAO-56 eq. 21
STEFAN_BOLTZMANN_MJ_K4_M2_D = 4.903e-9  # FAO-56 eq. 39
MM_PER_MJ_M2 = 0.408  # FAO-56 eq. 20: 1 / 2.45 MJ/kg
ALBEDO_GRASS = 0.23  # FAO-56 eq. 38
# Below 0.3 the cloud factor of eq. 39 loses its meaning; ASCE-EWRI (2005) Standardized Reference
# Evapotranspiration Equation, eq. 18, keeps the ratio between 0.3 and 1 (from memory).
_LEAST_CLEARNESS = 0.3


@overload
def saturation_vapour_pressure(celsius: float) -> float: ...
@overload
def saturation_vapour_pressure(celsius: Row) -> Floats: ...
def saturation_vapour_pressure(celsius: Numbers) -> float | Floats:
    """Vapour pressure of saturated air over water.

    Parameters
    ----------
    celsius : float or array
        Air temperature [°C], -80 to 80; NaN in an array is a gap and stays one.

    Returns
    -------
    float or array of the shape of `celsius`
        Pressure [kPa].

    Raises
    ------
    ValueError
        For a temperature outside the range.

    References
    ----------
    FAO-56 eq. 11 (Tetens' form).
    """
    return plain(_saturation(number("celsius", celsius, low=-80.0, high=80.0)))


@overload
def extraterrestrial_radiation(  # type: ignore[overload-overlap]  # single numbers take this form
    latitude: float, day_of_year: float
) -> float: ...
@overload
def extraterrestrial_radiation(latitude: Numbers, day_of_year: Numbers) -> Floats: ...
def extraterrestrial_radiation(latitude: Numbers, day_of_year: Numbers) -> float | Floats:
    """Sunlight on a level surface above the air in one day.

    Parameters
    ----------
    latitude : float or array
        Degrees, north above 0; -90 to 90.
    day_of_year : int or array
        1 to 366.

    Returns
    -------
    float or array of the common shape
        Radiation [MJ m⁻² d⁻¹]; 0 in the polar night.

    Raises
    ------
    ValueError
        For a value outside its range.

    References
    ----------
    FAO-56 eqs. 21 to 25. Near the poles the sunset angle is held between 0 and half a turn.
    """
    return plain(_above_the_air(*_place_and_day(latitude, day_of_year)))


@overload
def reference_et_penman(  # type: ignore[overload-overlap]  # single numbers take this form
    tmin: float,
    tmax: float,
    rh_min: float,
    rh_max: float,
    wind_2m: float,
    radiation: float,
    altitude: float,
    latitude: float,
    day_of_year: float,
) -> float | None: ...
@overload
def reference_et_penman(
    tmin: Numbers,
    tmax: Numbers,
    rh_min: Numbers,
    rh_max: Numbers,
    wind_2m: Numbers,
    radiation: Numbers,
    altitude: Numbers,
    latitude: Numbers,
    day_of_year: Numbers,
) -> Floats: ...
def reference_et_penman(
    tmin: Numbers,
    tmax: Numbers,
    rh_min: Numbers,
    rh_max: Numbers,
    wind_2m: Numbers,
    radiation: Numbers,
    altitude: Numbers,
    latitude: Numbers,
    day_of_year: Numbers,
) -> float | Floats | None:
    """Water a short, well watered grass would use in a day: the Penman-Monteith equation of FAO-56.

    Parameters
    ----------
    tmin, tmax : float or array
        Lowest and highest air temperature of the day [°C].
    rh_min, rh_max : float or array
        Lowest and highest relative humidity [%], 0 to 100.
    wind_2m : float or array
        Mean wind at 2 m [m/s], 0 or more.
    radiation : float or array
        Sunlight on level ground, Rs [MJ m⁻² d⁻¹], 0 or more.
    altitude : float or array
        Above the sea [m], -500 to 6000.
    latitude, day_of_year : float or array
        As in `extraterrestrial_radiation`.

    Returns
    -------
    float, None, or array of the common shape
        Reference evapotranspiration ET0 [mm/d], 0 where dew outweighs use. None (in an array NaN) in
        the polar night, when nothing shows how cloudy the sky is, and for gaps.

    Raises
    ------
    ValueError
        For a value outside its range, or a lowest above its highest.

    References
    ----------
    FAO-56 eqs. 6 to 8, 11 to 13, 17 and 37 to 40; soil heat is 0 over a day (eq. 42).
    """
    coldest, warmest = _ordered("tmin", tmin, "tmax", tmax, -80.0, 80.0)
    driest, dampest = _ordered("rh_min", rh_min, "rh_max", rh_max, 0.0, 100.0)
    wind, sun = number("wind_2m", wind_2m, low=0.0), number("radiation", radiation, low=0.0)
    height = number("altitude", altitude, low=-500.0, high=6000.0)
    above = _above_the_air(*_place_and_day(latitude, day_of_year))
    # Eq. 17: each humidity belongs to the opposite end of the day's warmth.
    vapour = (_saturation(coldest) * dampest + _saturation(warmest) * driest) / 200.0
    saturated = (_saturation(coldest) + _saturation(warmest)) / 2.0  # eq. 12
    net = net_radiation(coldest, warmest, vapour, sun, above, height)
    return known(
        penman_monteith(net, (coldest + warmest) / 2.0, wind, saturated - vapour, _psychrometric(height))
    )


@overload
def reference_et_hargreaves(  # type: ignore[overload-overlap]  # single numbers take this form
    tmin: float, tmax: float, latitude: float, day_of_year: float
) -> float: ...
@overload
def reference_et_hargreaves(
    tmin: Numbers, tmax: Numbers, latitude: Numbers, day_of_year: Numbers
) -> Floats: ...
def reference_et_hargreaves(
    tmin: Numbers, tmax: Numbers, latitude: Numbers, day_of_year: Numbers
) -> float | Floats:
    """Reference evapotranspiration from temperatures alone, for days without other readings.

    Parameters
    ----------
    tmin, tmax : float or array
        Lowest and highest air temperature of the day [°C].
    latitude, day_of_year : float or array
        As in `extraterrestrial_radiation`.

    Returns
    -------
    float or array of the common shape
        ET0 [mm/d]; 0 below -17.8 °C. Best as a mean of a week or more; too high in damp weather, too
        low in wind.

    Raises
    ------
    ValueError
        For a value outside its range, or tmin above tmax.

    References
    ----------
    FAO-56 eq. 52; Hargreaves, G. H. and Samani, Z. A. (1985) Applied Engineering in Agriculture 1:96-99.
    """
    coldest, warmest = _ordered("tmin", tmin, "tmax", tmax, -80.0, 80.0)
    above = _above_the_air(*_place_and_day(latitude, day_of_year))
    mean = (coldest + warmest) / 2.0
    return plain(np.maximum(0.0023 * (mean + 17.8) * np.sqrt(warmest - coldest) * MM_PER_MJ_M2 * above, 0.0))


def penman_monteith(
    net: Floats, celsius: Floats, wind_2m: Floats, deficit: Floats, psychrometric: Floats, soil: float = 0.0
) -> Floats:
    """FAO-56 eq. 6 from its parts: net and soil radiation [MJ m⁻² d⁻¹], °C, m/s, kPa and kPa/°C → mm/d."""
    slope = 4098.0 * _saturation(celsius) / (celsius + 237.3) ** 2  # eq. 13
    warmth = MM_PER_MJ_M2 * slope * (net - soil)
    air = psychrometric * 900.0 / (celsius + 273.0) * wind_2m * deficit
    return np.maximum((warmth + air) / (slope + psychrometric * (1.0 + 0.34 * wind_2m)), 0.0)


def net_radiation(
    tmin: Floats, tmax: Floats, vapour: Floats, sun: Floats, above: Floats, altitude: Floats
) -> Floats:
    """What the grass keeps of the sun less what it sends back to the sky [MJ m⁻² d⁻¹]; NaN without sun."""
    clear_sky = (0.75 + 2e-5 * altitude) * above  # eq. 37
    with np.errstate(divide="ignore", invalid="ignore"):
        clearness = np.where(clear_sky > 0.0, np.clip(sun / clear_sky, _LEAST_CLEARNESS, 1.0), np.nan)
    glow = STEFAN_BOLTZMANN_MJ_K4_M2_D * ((tmax + 273.16) ** 4 + (tmin + 273.16) ** 4) / 2.0
    longwave = glow * (0.34 - 0.14 * np.sqrt(vapour)) * (1.35 * clearness - 0.35)  # eq. 39
    return (1.0 - ALBEDO_GRASS) * sun - longwave  # eqs. 38 and 40


def _saturation(celsius: Floats) -> Floats:
    return 0.6108 * np.exp(17.27 * celsius / (celsius + 237.3))  # eq. 11


def _psychrometric(altitude: Floats) -> Floats:
    pressure = 101.3 * ((293.0 - 0.0065 * altitude) / 293.0) ** 5.26  # eq. 7
    return 0.665e-3 * pressure  # eq. 8


def _above_the_air(latitude: Floats, day: Floats) -> Floats:
    phi, turn = np.radians(latitude), 2.0 * np.pi * day / 365.0
    nearness = 1.0 + 0.033 * np.cos(turn)  # eq. 23
    declination = 0.409 * np.sin(turn - 1.39)  # eq. 24
    sunset = np.arccos(np.clip(-np.tan(phi) * np.tan(declination), -1.0, 1.0))  # eq. 25
    height = sunset * np.sin(phi) * np.sin(declination) + np.cos(phi) * np.cos(declination) * np.sin(sunset)
    return np.maximum(24.0 * 60.0 / np.pi * SOLAR_CONSTANT_MJ_M2_MIN * nearness * height, 0.0)  # eq. 21


def _place_and_day(latitude: Numbers, day_of_year: Numbers) -> tuple[Floats, Floats]:
    return number("latitude", latitude, low=-90.0, high=90.0), whole(
        "day_of_year", day_of_year, low=1.0, high=366.0
    )


def _ordered(
    low_name: str, low: Numbers, high_name: str, high: Numbers, least: float, most: float
) -> tuple[Floats, Floats]:
    lower, upper = number(low_name, low, low=least, high=most), number(high_name, high, low=least, high=most)
    at_most(low_name, lower, high_name, upper)
    return lower, upper
