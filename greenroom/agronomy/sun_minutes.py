"""Sun minutes: minutes outdoors weighed by the light that fell in them against the clear noon of the day."""

from typing import overload

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy import _sun_place
from greenroom.agronomy._checks import Floats, Numbers, number, on_the_globe, plain
from greenroom.agronomy._moments import Day, Days, Moment, Moments, days_since_2000, noons_since_2000
from greenroom.agronomy.sunlight import (
    CLOUD_POWER,
    CLOUD_SHARE,
    MICROMOL_PER_JOULE,
    clear_sky_ppfd,
    sun_dose,
    sun_position,
)

__all__ = [
    "clear_day_minutes",
    "noon_light",
    "share_of_clear",
    "share_passed",
    "sun_minutes",
    "sun_weight",
]

MOL_PER_MINUTE = 60e-6  # of 1 µmol/m²/s held for a minute
MINUTES_PER_DAY = 1440.0
LEAST_CLEAR_W_M2 = 20.0
"""Below this much clear light a share of it means nothing: the models part company near the horizon."""


@overload
def share_passed(cloud: float, cloth: float = ...) -> float: ...
@overload
def share_passed(cloud: Numbers, cloth: Numbers = ...) -> float | Floats: ...
def share_passed(cloud: Numbers, cloth: Numbers = 0.0) -> float | Floats:
    """Share of the clear sky's light that cloud and shade cloth let through.

    Parameters
    ----------
    cloud : float or array
        Share of the sky covered, 0 to 1.
    cloth : float or array
        Share of the light that a cloth over the plants holds off, 0 to 1, as its maker states it.

    Returns
    -------
    float or array, 0 to 1

    Raises
    ------
    ValueError
        For a share outside 0 to 1.

    References
    ----------
    Kasten, F. and Czeplak, G. 1980. Solar and terrestrial radiation dependent on the amount and type of
        cloud. Solar Energy 24:177-189, doi:10.1016/0038-092X(80)90391-6.
    """
    cover = number("cloud", cloud, low=0, high=1)
    held = number("cloth", cloth, low=0, high=1)
    return plain((1 - CLOUD_SHARE * cover**CLOUD_POWER) * (1 - held))


def share_of_clear(
    start_utc: Moments, end_utc: Moments, latitude: Numbers, longitude: Numbers, light_w_m2: Numbers
) -> float | Floats:
    """Share of the clear sky's light that a forecast of global radiation lets through.

    Parameters
    ----------
    start_utc, end_utc : aware datetime or datetime64, scalar or array
        The hour the forecast is for.
    latitude, longitude : float or array [degrees]
    light_w_m2 : float or array
        Mean global radiation of the hour on level ground [W m-2], not negative.

    Returns
    -------
    float or array, 0 to 1
        Never more than 1: a forecast above the clear sky of `clear_sky_ppfd` counts as clear. NaN with
        the sun so low that a clear sky itself gives less than 20 W m-2.

    Raises
    ------
    ValueError
        For a negative light, or as `sun_dose`.
    """
    told = number("light_w_m2", light_w_m2, low=0)
    start, end = (days_since_2000(moment, name) for moment, name in ((start_utc, "start"), (end_utc, "end")))
    seconds = (end - start) * 86400
    clear_mol = np.asarray(sun_dose(start_utc, end_utc, latitude, longitude))
    with np.errstate(divide="ignore", invalid="ignore"):
        clear_w_m2 = clear_mol * 1e6 / MICROMOL_PER_JOULE / seconds
        share = np.where(clear_w_m2 >= LEAST_CLEAR_W_M2, np.minimum(1.0, told / clear_w_m2), np.nan)
    return plain(share)


@overload
def noon_light(day: Day, latitude: float, longitude: float) -> float: ...
@overload
def noon_light(day: Days, latitude: Numbers, longitude: Numbers) -> float | Floats: ...
def noon_light(day: Days, latitude: Numbers, longitude: Numbers) -> float | Floats:
    """Light of the clear sky at solar noon of a date at a place.

    Parameters
    ----------
    day : date or datetime64 of whole days, scalar or array
    latitude, longitude : float or array [degrees]

    Returns
    -------
    float or array [µmol m-2 s-1]
        0 where the sun does not rise above the horizon.

    Raises
    ------
    ValueError
        As `solar_noon`.
    """
    north, east = on_the_globe(latitude, longitude)
    return plain(_noon_ppfd(np.asarray(noons_since_2000(day) - east / 360), north, east))


@overload
def sun_minutes(
    start_utc: Moment, end_utc: Moment, latitude: float, longitude: float, share: float = ...
) -> float: ...
@overload
def sun_minutes(
    start_utc: Moments, end_utc: Moments, latitude: Numbers, longitude: Numbers, share: Numbers = ...
) -> float | Floats: ...
def sun_minutes(
    start_utc: Moments, end_utc: Moments, latitude: Numbers, longitude: Numbers, share: Numbers = 1.0
) -> float | Floats:
    """Minutes between two moments, each weighed by its light against the clear noon of its day.

    Parameters
    ----------
    start_utc, end_utc : aware datetime or datetime64, scalar or array
        A span within one solar day; the day is that of its middle.
    latitude, longitude : float or array [degrees]
    share : float or array
        Share of the clear sky's light that comes through, 0 to 1; see `share_passed`.

    Returns
    -------
    float or array [min]
        Never more than the minutes of the clock between the two, nor than under a clear sky.

    Raises
    ------
    ValueError
        For a share outside 0 to 1, or as `sun_dose`.

    Notes
    -----
    A minute weighs I(t) / I(noon): the photosynthetic light then falling on level ground over that at
    solar noon of the same date and place under a clear sky. So the sum is the dose [mol m-2] over the
    dose of one clear noon minute, and 110 minutes under an overcast count for far fewer than 110 at
    noon. It is the reference yield of solar engineering (energy received over a reference irradiance, a
    time) with the place's own clear noon as the reference. The weight itself, and that it is what a leaf
    learns to bear, are this program's own rule: no published schedule counts so.

    References
    ----------
    IEC 61724-1:2021, reference yield (from memory).
    Haurwitz 1945, 1946 and Kasten and Czeplak 1980, as in `clear_sky_ppfd` and `sun_dose`.
    """
    passed = number("share", share, low=0, high=1)
    north, east = on_the_globe(latitude, longitude)
    start, end = days_since_2000(start_utc, "start_utc"), days_since_2000(end_utc, "end_utc")
    noon = _noon_ppfd(_mean_noon(np.asarray((start + end) / 2), east), north, east)
    dose = np.asarray(sun_dose(start_utc, end_utc, latitude, longitude)) * passed
    with np.errstate(divide="ignore", invalid="ignore"):
        weighed = np.where(noon > 0, dose / (noon * MOL_PER_MINUTE), 0.0)
    return plain(np.minimum(weighed, (end - start) * MINUTES_PER_DAY * passed))


def sun_weight(when_utc: Moments, latitude: float, longitude: float) -> float | Floats:
    """Weight of one minute under a clear sky: its light over that of its day's clear noon, 0 to 1.

    Parameters and errors as in `sun_minutes`.
    """
    moments = np.asarray(days_since_2000(when_utc))
    north, east = on_the_globe(latitude, longitude)
    elevation, _ = sun_position(when_utc, latitude, longitude)
    noon = _noon_ppfd(_mean_noon(moments, east), north, east)
    with np.errstate(divide="ignore", invalid="ignore"):
        weight = np.where(noon > 0, clear_sky_ppfd(np.asarray(elevation)) / noon, 0.0)
    return plain(np.minimum(weight, 1.0))


def clear_day_minutes(day: Day, latitude: float, longitude: float) -> float:
    """Sun minutes of a whole clear day: the most any outing of that date can count [min].

    Parameters and errors as in `noon_light`. About 500 at middle latitudes in spring, so that a ramp up
    to 600 minutes of the clock ends, in sun minutes, at a whole clear day.
    """
    _, east = on_the_globe(latitude, longitude)
    noon = noons_since_2000(day) - east / 360
    start = np.datetime64("2000-01-01T12:00:00", "us") + np.timedelta64(
        round((float(noon) - 0.5) * 86400e6), "us"
    )
    return float(sun_minutes(start, start + np.timedelta64(1, "D"), latitude, longitude))


def _mean_noon(moments: Floats, longitude: Floats) -> Floats:
    """Noon of the mean sun nearest to each moment [days since 2000]."""
    return np.rint(moments + longitude / 360) - longitude / 360


def _noon_ppfd(mean_noon: Floats, latitude: Floats, longitude: Floats) -> NDArray[np.float64]:
    noon = _sun_place.noon(mean_noon, longitude)
    elevation, _ = _sun_place.direction(noon, latitude, longitude)
    return np.asarray(clear_sky_ppfd(np.asarray(elevation)))
