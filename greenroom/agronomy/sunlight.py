"""The sun's place in the sky, its rising and setting, and the light that falls on plants.

Moments are UTC, given as an aware datetime or as numpy datetime64, in the years 1800 to 2200. Angles are
degrees: latitude north and longitude east positive, azimuth from north clockwise.
"""

from datetime import datetime
from typing import overload

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy import _sun_place
from greenroom.agronomy._checks import Floats, Numbers, Row, number, on_the_globe, plain, refuse_where
from greenroom.agronomy._lamps import LUX_PER_PPFD, daily_light_integral, ppfd_from_lux
from greenroom.agronomy._moments import (
    Day,
    Days,
    Moment,
    Moments,
    as_moments,
    days_since_2000,
    noons_since_2000,
)

__all__ = [
    "LUX_PER_PPFD",
    "clear_sky_ppfd",
    "daily_light_integral",
    "ppfd_from_lux",
    "solar_noon",
    "sun_dose",
    "sun_position",
    "sunrise_sunset",
]

HAURWITZ_W_M2, HAURWITZ_EXTINCTION = 1098.0, 0.059  # Haurwitz 1945, 1946 in metric units
LEAST_HEIGHT = 1e-6  # sine of the elevation; the light is below any float well before that
MICROMOL_PER_JOULE = 7.265 / 3.6  # 7.265 mol per kWh of global radiation: Faust and Logan 2018
CLOUD_SHARE, CLOUD_POWER = 0.75, 3.4  # Kasten and Czeplak 1980
PANEL_DAYS = 4 / 1440  # Simpson panels of four minutes, so a moment every two: good to 0.00001 mol
LONGEST_DAYS = 366


@overload
def sun_position(  # type: ignore[overload-overlap]  # single values take this form
    when_utc: Moment, latitude: float, longitude: float
) -> tuple[float, float]: ...
@overload
def sun_position(when_utc: Moments, latitude: Numbers, longitude: Numbers) -> tuple[Floats, Floats]: ...
def sun_position(
    when_utc: Moments, latitude: Numbers, longitude: Numbers
) -> tuple[float | Floats, float | Floats]:
    """Where the sun's centre stands, without refraction.

    Parameters
    ----------
    when_utc : aware datetime or datetime64, scalar or array
        Moments; a datetime64 is UTC. NaT in an array gives NaN.
    latitude, longitude : float or array [degrees]
        Broadcast against `when_utc`; -90 to 90 and -180 to 180.

    Returns
    -------
    elevation, azimuth : float or array [degrees]
        Elevation above the true horizon as seen from the ground (parallax taken off); azimuth from
        north clockwise, 0 up to but not including 360.

    Raises
    ------
    ValueError
        For a datetime without a zone, a moment outside 1800 to 2200, or a place off the globe.

    Notes
    -----
    The sixteen greatest terms of VSOP87 with the main term of nutation. Against the full algorithm of
    Reda and Andreas (itself good to 0.0003 degrees) the direction is within 0.003 degrees from 1900 to
    2100 and 0.006 from 1800 to 2200; near the zenith an error in azimuth grows by 1/cos(elevation).

    References
    ----------
    Bretagnon, P. and Francou, G. 1988. Planetary theories in rectangular and spherical variables: VSOP87
        solutions. Astronomy and Astrophysics 202:309-315.
    Reda, I. and Andreas, A. 2004. Solar position algorithm for solar radiation applications. Solar
        Energy 76:577-589, doi:10.1016/j.solener.2003.12.003.
    Meeus, J. 1998. Astronomical Algorithms, 2nd ed., chapters 12, 13, 22 and 25.
    """
    elevation, azimuth = _sun_place.direction(days_since_2000(when_utc), *on_the_globe(latitude, longitude))
    return plain(elevation), plain(azimuth)


@overload
def solar_noon(  # type: ignore[overload-overlap]  # single values take this form
    day: Day, longitude: float
) -> datetime: ...
@overload
def solar_noon(day: Days, longitude: Numbers) -> NDArray[np.datetime64]: ...
def solar_noon(day: Days, longitude: Numbers) -> datetime | NDArray[np.datetime64]:
    """When the sun crosses the meridian on the date that the longitude's own mean sun keeps.

    Parameters
    ----------
    day : date or datetime64 of whole days, scalar or array
    longitude : float or array [degrees]

    Returns
    -------
    aware datetime in UTC, or an array of datetime64[us]

    Raises
    ------
    ValueError
        For a `day` with a time of day, or outside 1800 to 2200, or a longitude off the globe.

    Notes
    -----
    The crossing nearest to 12:00 local mean time, which is UTC plus longitude / 15 hours. A place that
    keeps a clock a whole day away from its own sun (Samoa, Kiribati) sees the noon of its neighbour date.
    """
    return as_moments(_noon(day, number("longitude", longitude, low=-180, high=180)))


@overload
def sunrise_sunset(  # type: ignore[overload-overlap]  # single values take this form
    day: Day, latitude: float, longitude: float
) -> tuple[datetime, datetime] | None: ...
@overload
def sunrise_sunset(
    day: Days, latitude: Numbers, longitude: Numbers
) -> tuple[NDArray[np.datetime64], NDArray[np.datetime64]]: ...
def sunrise_sunset(
    day: Days, latitude: Numbers, longitude: Numbers
) -> tuple[datetime | NDArray[np.datetime64], datetime | NDArray[np.datetime64]] | None:
    """When the sun's upper limb shows and goes in the solar day of `day`.

    The solar day runs from twelve hours before to twelve hours after `solar_noon(day, longitude)`; the
    sunrise is the one in its first half, the sunset the one in its second.

    Parameters
    ----------
    day : date or datetime64 of whole days, scalar or array
    latitude, longitude : float or array [degrees]

    Returns
    -------
    (sunrise, sunset) of aware datetimes in UTC, or None where the sun does not both rise and set in
    that solar day. With arrays: two arrays of datetime64[us], NaT in both where None would stand.

    Raises
    ------
    ValueError
        As `solar_noon`, and for a latitude beyond 90.

    Notes
    -----
    Sea-level horizon, centre of the disc at -0.8333 degrees: 34 arc minutes of mean refraction and 16 of
    radius. Real refraction moves the moment by a minute at middle latitudes, by more near the poles.

    References
    ----------
    Meeus, J. 1998. Astronomical Algorithms, 2nd ed., chapter 15.
    US Naval Observatory, Astronomical Applications: rise, set and twilight definitions.
    """
    latitude, longitude = on_the_globe(latitude, longitude)
    noon, latitude = np.broadcast_arrays(_noon(day, longitude), latitude)
    rise, fall = _sun_place.crossings(noon, latitude, longitude)
    if noon.ndim == 0 and np.isnan(rise):
        return None
    return as_moments(rise), as_moments(fall)


@overload
def clear_sky_ppfd(elevation: float) -> float: ...
@overload
def clear_sky_ppfd(elevation: Row) -> Floats: ...
def clear_sky_ppfd(elevation: Numbers) -> float | Floats:
    """Photosynthetic light on level ground under a clear sky; 0 with the sun at or below the horizon.

    Parameters
    ----------
    elevation : float or array [degrees]
        Of the sun, -90 to 90. NaN in an array stays NaN.

    Returns
    -------
    float or array [µmol m-2 s-1, 400 to 700 nm]

    Raises
    ------
    ValueError
        For an elevation beyond 90 either way.

    Notes
    -----
    Global radiation 1098 cos(z) exp(-0.059 / cos(z)) W m-2 for an average clear sky at low altitude,
    times 2.018 µmol per joule. (0.057 is quoted as often as 0.059; it gives 0.2 to 1 % more.) With the sun
    30 degrees up or higher it is within 6 % of the Ineichen model at Linke turbidities 2 to 3 and within
    13 % at 4; lower down the haze decides and the two part company.

    References
    ----------
    Haurwitz, B. 1945, 1946. Insolation in relation to cloudiness and cloud density; ... to cloud type.
        Journal of Meteorology 2:154-166 and 3:123-124.
    Faust, J. E. and Logan, J. 2018. Daily light integral: a research review and high-resolution maps of
        the United States. HortScience 53:1250-1257, doi:10.21273/HORTSCI13144-18.
    """
    return plain(_clear_ppfd(number("elevation", elevation, low=-90, high=90)))


@overload
def sun_dose(  # type: ignore[overload-overlap]  # single values take this form
    start_utc: Moment, end_utc: Moment, latitude: float, longitude: float, cloud: float = ...
) -> float: ...
@overload
def sun_dose(
    start_utc: Moments, end_utc: Moments, latitude: Numbers, longitude: Numbers, cloud: Numbers = ...
) -> Floats: ...
def sun_dose(
    start_utc: Moments, end_utc: Moments, latitude: Numbers, longitude: Numbers, cloud: Numbers = 0.0
) -> float | Floats:
    """Photosynthetic light gathered on open level ground between two moments.

    Parameters
    ----------
    start_utc, end_utc : aware datetime or datetime64, scalar or array
        The end not before the start and at most 366 days after it.
    latitude, longitude : float or array [degrees]
    cloud : float or array [share of the sky covered, 0 to 1]
        Held for the whole span. For a cover that changes, give the pieces as arrays (one start, end and
        cloud an hour, say) and add up.

    Returns
    -------
    float or array [mol m-2]

    Raises
    ------
    ValueError
        For an end before its start, a longer span, a cloud outside 0 to 1, or as `sun_position`.

    Notes
    -----
    `clear_sky_ppfd` integrated by Simpson's rule at moments at most two minutes apart, times
    1 - 0.75 cloud^3.4: a sky three quarters covered still lets through 72 %, an overcast one 25 %.

    References
    ----------
    Kasten, F. and Czeplak, G. 1980. Solar and terrestrial radiation dependent on the amount and type of
        cloud. Solar Energy 24:177-189, doi:10.1016/0038-092X(80)90391-6.
    """
    cover = number("cloud", cloud, low=0, high=1)
    start, span = _span(start_utc, end_utc)
    latitude, longitude = on_the_globe(latitude, longitude)
    fractions, weights = _simpson(span)
    days = start[..., None] + span[..., None] * fractions
    elevation, _ = _sun_place.direction(days, latitude[..., None], longitude[..., None])
    mean_ppfd = _clear_ppfd(elevation) @ weights
    return plain(mean_ppfd * span * 86400e-6 * (1 - CLOUD_SHARE * cover**CLOUD_POWER))


def _noon(day: Days, longitude: Floats) -> Floats:
    return _sun_place.noon(np.asarray(noons_since_2000(day) - longitude / 360), longitude)


def _clear_ppfd(elevation: Floats) -> Floats:
    """Haurwitz 1945 in quanta."""
    height = np.sin(np.radians(elevation))
    lit = height > LEAST_HEIGHT
    above = np.where(lit, height, 1.0)
    global_w_m2 = HAURWITZ_W_M2 * above * np.exp(-HAURWITZ_EXTINCTION / above)
    ppfd = np.where(lit, global_w_m2 * MICROMOL_PER_JOULE, 0.0)
    return np.where(np.isnan(height), np.nan, ppfd)


def _span(start_utc: Moments, end_utc: Moments) -> tuple[Floats, Floats]:
    """Start [days since 2000] and length [days] of each span, checked."""
    start, end = days_since_2000(start_utc, "start_utc"), days_since_2000(end_utc, "end_utc")
    start, end = np.broadcast_arrays(start, end)
    span = np.asarray(end - start)
    refuse_where(span < 0, "end_utc - start_utc (days)", span, "the end must not come before the start")
    refuse_where(span > LONGEST_DAYS, "end_utc - start_utc (days)", span, f"at most {LONGEST_DAYS} days")
    return start, span


def _simpson(span: Floats) -> tuple[Floats, Floats]:
    """Places in the unit interval and their weights, fine enough for the longest span."""
    longest = float(np.max(span, initial=0.0, where=~np.isnan(span)))
    panels = max(1, int(np.ceil(longest / PANEL_DAYS)))
    weights = np.ones(2 * panels + 1)
    weights[1:-1:2], weights[2:-1:2] = 4, 2
    return np.linspace(0, 1, 2 * panels + 1), weights / (6 * panels)
