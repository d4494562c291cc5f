"""The sun's place in the sky, on plain arrays: days since noon UTC of 1 January 2000, and degrees.

References
----------
Bretagnon, P. and Francou, G. 1988. Planetary theories in rectangular and spherical variables: VSOP87
    solutions. Astronomy and Astrophysics 202:309-315.
Reda, I. and Andreas, A. 2004. Solar position algorithm for solar radiation applications. Solar Energy
    76:577-589, doi:10.1016/j.solener.2003.12.003; NREL/TP-560-34302, revised 2008.
Meeus, J. 1998. Astronomical Algorithms, 2nd ed., chapters 12, 13, 15, 22 and 25.
"""

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy._checks import Floats

# Heliocentric longitude of the earth, series L0, L1 and L2 of VSOP87: amplitude (1e-8 rad), phase (rad),
# rate (rad per thousand Julian years). Reda and Andreas 2004, Table A4.2; terms under 7.5e-6 rad (1.5")
# are left out.
EARTH_LONGITUDE = (
    (
        (175347046.0, 0.0, 0.0),
        (3341656.0, 4.6692568, 6283.07585),
        (34894.0, 4.6261, 12566.1517),
        (3497.0, 2.7441, 5753.3849),
        (3418.0, 2.8289, 3.5231),
        (3136.0, 3.6277, 77713.7715),
        (2676.0, 4.4181, 7860.4194),
        (2343.0, 6.1352, 3930.2097),
        (1324.0, 0.7425, 11506.7698),
        (1273.0, 2.0371, 529.691),
        (1199.0, 1.1096, 1577.3435),
        (990.0, 5.233, 5884.927),
        (902.0, 2.045, 26.298),
        (857.0, 3.508, 398.149),
        (780.0, 1.179, 5223.694),
        (753.0, 2.533, 5507.553),
    ),
    ((628331966747.0, 0.0, 0.0), (206059.0, 2.678235, 6283.07585), (4303.0, 2.6351, 12566.1517)),
    ((52919.0, 0.0, 0.0), (8720.0, 1.0721, 6283.0758)),
)
CLOCK_LEAD_DAYS = 69.0 / 86400  # dynamical less universal time, as in 2020; 24 s in 1940: 0.0005 deg
ABERRATION = 20.4898 / 3600  # Reda and Andreas 2004, eq. 21, at the mean distance
PARALLAX = 8.794 / 3600  # Reda and Andreas 2004, eq. 36

# Upper limb on the horizon: mean refraction 34', half the disc 16' (US Naval Observatory; Meeus ch. 15).
RISING_ELEVATION = -0.8333
BISECTIONS = 30  # half a day to 40 microseconds
NOON_STEPS = 3  # each step shrinks the error some three-hundredfold, from 17 minutes at most


def direction(days: Floats, latitude: Floats, longitude: Floats) -> tuple[Floats, Floats]:
    """Elevation without refraction and azimuth [degrees]: Meeus 1998, ch. 13, as a vector."""
    hour_angle, declination = _hour_angle(days, longitude)
    pole = np.radians(latitude)
    axial, equatorial = np.sin(declination), np.cos(declination) * np.cos(hour_angle)
    east = -np.cos(declination) * np.sin(hour_angle)
    north = axial * np.cos(pole) - equatorial * np.sin(pole)
    upward = axial * np.sin(pole) + equatorial * np.cos(pole)
    level = np.hypot(east, north)
    elevation = np.degrees(np.arctan2(upward, level)) - PARALLAX * level
    azimuth = np.degrees(np.arctan2(east, north)) % 360
    return elevation, np.where(azimuth == 360, 0.0, azimuth)  # a hair west of north rounds up to 360


def noon(mean_noon: Floats, longitude: Floats) -> Floats:
    """Days at which the sun's hour angle is nought, nearest to noon of the mean sun."""
    days = mean_noon
    for _ in range(NOON_STEPS):
        hour_angle, _ = _hour_angle(days, longitude)
        turns = np.remainder(hour_angle / (2 * np.pi) + 0.5, 1.0) - 0.5
        days = days - turns
    return days


def crossings(noon_days: Floats, latitude: Floats, longitude: Floats) -> Floats:
    """Sunrise and sunset [days], stacked; NaN in both where the solar day lacks either."""
    light = np.stack([noon_days, noon_days])
    dark = np.stack([noon_days - 0.5, noon_days + 0.5])
    both = _is_up(noon_days, latitude, longitude) & ~_is_up(dark, latitude, longitude).any(axis=0)
    for _ in range(BISECTIONS):
        middle = (light + dark) / 2
        up = _is_up(middle, latitude, longitude)
        light, dark = np.where(up, middle, light), np.where(up, dark, middle)
    return np.where(both, light, np.nan)


def _hour_angle(days: Floats, longitude: Floats) -> tuple[Floats, Floats]:
    """The sun's hour angle, west positive and not wrapped, and its declination [rad]."""
    centuries = days / 36525
    ecliptic, tilt, nutation = _ecliptic_place(days, centuries)
    ascension = np.arctan2(np.cos(tilt) * np.sin(ecliptic), np.cos(ecliptic))
    declination = np.arcsin(np.sin(tilt) * np.sin(ecliptic))
    # Sidereal time at Greenwich [degrees]: Meeus 1998, eq. 12.4.
    sidereal = 280.46061837 + 360.98564736629 * days + 0.000387933 * centuries**2
    sidereal = np.radians(sidereal + longitude) + nutation * np.cos(tilt)
    return sidereal - ascension, declination


def _ecliptic_place(days: Floats, centuries: Floats) -> tuple[Floats, Floats, Floats]:
    """Apparent longitude of the sun, obliquity of the ecliptic and nutation in longitude [rad]."""
    millennia = (days + CLOCK_LEAD_DAYS) / 365250
    series = [_summed(terms, millennia) for terms in EARTH_LONGITUDE]
    heliocentric = 1e-8 * (series[0] + millennia * (series[1] + millennia * series[2]))
    node = np.radians(125.04452 - 1934.136261 * centuries)  # of the moon; Meeus 1998, ch. 22
    nutation = np.radians(-0.00478) * np.sin(node)
    tilt = np.radians(23.4392911 - 0.0130042 * centuries + 0.00256 * np.cos(node))  # eq. 22.2
    return heliocentric + np.pi - np.radians(ABERRATION) + nutation, tilt, nutation


def _summed(terms: tuple[tuple[float, float, float], ...], millennia: Floats) -> Floats:
    amplitude, phase, rate = np.array(terms).T
    return np.asarray(np.cos(phase + millennia[..., None] * rate) @ amplitude)


def _is_up(days: Floats, latitude: Floats, longitude: Floats) -> NDArray[np.bool_]:
    return np.asarray(direction(days, latitude, longitude)[0] > RISING_ELEVATION)
