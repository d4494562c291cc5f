"""Where the sun reaches a plot: hours of direct sun behind walls, fences, trees and taller plants.

The ground is level, x runs east and y north, in metres. Whatever throws shade is a box on the ground.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, fields
from typing import overload

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy._checks import Floats, Numbers, Row, known, number, refuse, refuse_where
from greenroom.agronomy._moments import Day
from greenroom.agronomy._sun_place import RISING_ELEVATION
from greenroom.agronomy.sunlight import solar_noon, sun_position

HALF_DAY_MINUTES = 720.0
LEAST_STEP_MINUTES, GREATEST_STEP_MINUTES = 0.1, 60.0
MICROSECONDS_PER_MINUTE = 60e6
NEARLY_PARALLEL = 1e-12  # a ray along a wall is turned by this much, so that it can be divided by


def sun_hours(
    points: Row | Sequence[Sequence[float]],
    obstacles: Iterable["Box | Sequence[float]"],
    day: Day,
    latitude: float,
    longitude: float,
    step_minutes: float = 10,
) -> Floats:
    """Hours of direct sun that each point on the ground gets before and after solar noon.

    Parameters
    ----------
    points : array (n, 2) or (2,) [m]
        Places as (x, y), x to the east and y to the north.
    obstacles : boxes, or rows of (x, y, width, depth, height) [m]
    day : date or datetime64 of a whole day
        The solar day centred on `solar_noon(day, longitude)`.
    latitude, longitude : float [degrees]
    step_minutes : float [min]
        The day is looked at in steps of this length, each judged by its middle; 0.1 to 60.

    Returns
    -------
    array (n, 2), or (2,) for a single point [h]
        Direct sun in the morning and in the afternoon, for a sky without cloud. Each time the sun goes
        behind something or comes out, the hours can be off by up to half a step.

    Raises
    ------
    ValueError
        For points of another shape, a box without size, a step out of range, or as `sun_position`.

    Notes
    -----
    The sun is a point and counts as up from sunrise to sunset (centre above -0.8333 degrees), so that
    open ground gets the length of the day. Light that passes through leaves counts as shade, light from
    the sky and from walls is left out, and a point inside a box has no sun.

    References
    ----------
    Kay, T. L. and Kajiya, J. T. 1986. Ray tracing complex scenes. SIGGRAPH 20(4):269-278 (the slab test).
    """
    places = _places(points)
    minutes, hours = _steps(step_minutes)
    noon = np.datetime64(solar_noon(day, longitude).replace(tzinfo=None), "us")
    moments = noon + (minutes * MICROSECONDS_PER_MINUTE).astype("timedelta64[us]")
    elevation, azimuth = sun_position(moments, latitude, longitude)
    up = elevation > RISING_ELEVATION
    lit = ~in_shade(np.atleast_2d(places), obstacles, elevation[up], azimuth[up])
    halves = np.stack([minutes[up] < 0, minutes[up] > 0], axis=1)
    gained = lit @ (halves * hours[up, None])
    return gained if places.ndim == 2 else gained[0]


def in_shade(
    points: Row | Sequence[Sequence[float]],
    obstacles: Iterable["Box | Sequence[float]"],
    elevation: Row,
    azimuth: Row,
) -> NDArray[np.bool_]:
    """Which points some box keeps from the sun, for each place of the sun.

    Parameters
    ----------
    points : array (n, 2) [m]
    obstacles : boxes, or rows of (x, y, width, depth, height) [m]
    elevation, azimuth : array (m,) [degrees]
        Of the sun, as from `sun_position`. A sun below the horizon shines level.

    Returns
    -------
    bool array (n, m)

    Raises
    ------
    ValueError
        For points of another shape, a box without size, or an elevation beyond 90 either way.
    """
    places = np.atleast_2d(_places(points))
    height = np.atleast_1d(number("elevation", elevation, low=-90, high=90))
    slope = np.tan(np.radians(np.maximum(height, 0.0)))
    heading = np.radians(np.atleast_1d(number("azimuth", azimuth)))
    east, north = _off_parallel(np.sin(heading)), _off_parallel(np.cos(heading))
    shaded = np.zeros((len(places), slope.size), dtype=bool)
    for box in map(_box, obstacles):
        near_x, far_x = _slab(box.x, box.width, places[:, :1], east)
        near_y, far_y = _slab(box.y, box.depth, places[:, 1:], north)
        enters = np.maximum(np.maximum(near_x, near_y), 0.0)
        shaded |= (np.minimum(far_x, far_y) > enters) & (enters * slope < box.height)
    return shaded


@overload
def shadow_length(  # type: ignore[overload-overlap]  # single values take this form
    height_m: float, elevation: float
) -> float | None: ...
@overload
def shadow_length(height_m: Numbers, elevation: Numbers) -> Floats: ...
def shadow_length(height_m: Numbers, elevation: Numbers) -> float | Floats | None:
    """How far along level ground the shadow of something upright reaches: height / tan(elevation).

    Parameters
    ----------
    height_m : float or array [m], 0 or more
    elevation : float or array [degrees]
        Of the sun, -90 to 90.

    Returns
    -------
    float or array [m]
        None (in an array NaN) with the sun at or below the horizon, when nothing throws a shadow.

    Raises
    ------
    ValueError
        For a negative height or an elevation beyond 90 either way.
    """
    height = number("height_m", height_m, low=0)
    degrees = number("elevation", elevation, low=-90, high=90)
    slope = np.tan(np.radians(np.where(degrees > 0, degrees, np.nan)))
    return known(np.asarray(height / slope))


def shadow_polygon(box: "Box", elevation: float, azimuth: float) -> Floats | None:
    """Outline of the ground a box covers or shades, for one place of the sun.

    Parameters
    ----------
    box : Box
    elevation, azimuth : float [degrees]
        Of the sun, as from `sun_position` for the moment wanted.

    Returns
    -------
    array (6, 2) [m], or None with the sun at or below the horizon
        Corners (x, y) of a convex outline, counter-clockwise from the corner nearest to the sun. With the
        sun square to a wall two of them lie on a side, and with the sun overhead some fall together.

    Raises
    ------
    ValueError
        For an elevation beyond 90 either way or an angle that is not known.
    """
    reach = shadow_length(box.height, elevation)
    if reach is None:
        return None
    heading = np.radians(number("azimuth", azimuth))
    away = -reach * np.array([np.sin(heading), np.cos(heading)])
    corners = np.array([(0, 0), (1, 0), (1, 1), (0, 1)]) * (box.width, box.depth) + (box.x, box.y)
    first, second, far, last = np.roll(corners, -_nearest_corner(away), axis=0)
    return np.array([first, second, second + away, far + away, last + away, last])


def _nearest_corner(away: Floats) -> int:
    """Corner (south-west, south-east, north-east, north-west) that a shadow cast along `away` leaves bare."""
    east, north = away >= 0
    return (0 if north else 3) if east else (1 if north else 2)


def _places(points: Row | Sequence[Sequence[float]]) -> Floats:
    places = number("points", points)
    if places.size == 0:
        return places.reshape(0, 2)
    if places.ndim not in (1, 2) or places.shape[-1] != 2:
        refuse("points", f"of shape {places.shape}", "it must be one (x, y) or rows of (x, y)")
    refuse_where(np.isnan(places), "points", places, "it must be a number")
    return places


def _box(obstacle: "Box | Sequence[float]") -> "Box":
    if isinstance(obstacle, Box):
        return obstacle
    if len(obstacle) != len(fields(Box)):
        refuse("obstacle", repr(obstacle), "it must be a Box or (x, y, width, depth, height)")
    return Box(*obstacle)


def _steps(step_minutes: float) -> tuple[Floats, Floats]:
    """Middles of the steps from solar noon [min], mornings below 0, and the length of each [h]."""
    step = float(number("step_minutes", step_minutes, low=LEAST_STEP_MINUTES, high=GREATEST_STEP_MINUTES))
    edges = np.append(np.arange(0.0, HALF_DAY_MINUTES, step), HALF_DAY_MINUTES)
    middles, hours = (edges[1:] + edges[:-1]) / 2, np.diff(edges) / 60
    return np.concatenate([-middles[::-1], middles]), np.concatenate([hours[::-1], hours])


def _off_parallel(direction: Floats) -> Floats:
    return np.where(np.abs(direction) < NEARLY_PARALLEL, NEARLY_PARALLEL, direction)


def _slab(start: float, width: float, places: Floats, direction: Floats) -> tuple[Floats, Floats]:
    """Distances along the ground at which a ray passes into and out of a strip."""
    one, other = (start - places) / direction, (start + width - places) / direction
    return np.minimum(one, other), np.maximum(one, other)


def _single(name: str, value: float, above: float | None) -> None:
    if number(name, value, above=above).ndim:
        refuse(name, repr(value), "it must be one number")


@dataclass(frozen=True)
class Box:
    """Something that throws shade: (x, y) its south-west corner, width east, depth north, height [m]."""

    x: float
    y: float
    width: float
    depth: float
    height: float

    def __post_init__(self) -> None:
        for name in ("x", "y"):
            _single(name, getattr(self, name), None)
        for name in ("width", "depth", "height"):
            _single(name, getattr(self, name), 0.0)
