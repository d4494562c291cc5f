"""Hours of direct sun on the plot: square by square, position by position, and what takes them away."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy.siting import RISING_ELEVATION, Box, in_shade, shadow_polygon, sun_hours
from greenroom.agronomy.sunlight import solar_noon, sun_position
from greenroom.season.plot import Extent, Plot, Point
from greenroom.season.plot_plants import Plant
from greenroom.season.spots import SpotKey
from greenroom.speech import tr

Floats = NDArray[np.float64]

SIDES_M = (0.25, 0.5, 1.0, 2.0, 5.0, 10.0)
MOST_ACROSS, MOST_DOWN = 26, 18
STEP_MINUTES = 10.0
HALF_DAY_MINUTES = 720.0
FULL_SUN_H, PART_SUN_H = 6.0, 4.0
SUN_WORDS_FROM = tr(
    "Penn State Extension: full sun is six hours of direct sun a day or more, part sun "
    "four to six (read in a copy)."
)
SAME_HOURS = 0.05


@dataclass(frozen=True, slots=True)
class Where:
    """Where on the globe the plot lies [degrees]."""

    latitude: float
    longitude: float


@dataclass(frozen=True, slots=True)
class Hours:
    """Hours of direct sun under a sky without cloud, before and after solar noon."""

    morning: float
    afternoon: float

    @property
    def day(self) -> float:
        """Both together."""
        return self.morning + self.afternoon

    def of(self, half: str) -> float:
        """Return those of the whole "day", the "morning" or the "afternoon"."""
        return float(getattr(self, half))


@dataclass(frozen=True)
class SunMap:
    """Hours of direct sun on the ground, square by square; the first row is the northernmost.

    ``morning`` and ``afternoon`` are arrays (rows, columns) [h], each square judged by its middle;
    ``most`` is what open ground gets that day.
    """

    day: date
    extent: Extent
    side_m: float
    morning: Floats
    afternoon: Floats
    most: Hours

    @property
    def rows(self) -> int:
        """Squares from north to south."""
        return int(self.morning.shape[0])

    @property
    def columns(self) -> int:
        """Squares from west to east."""
        return int(self.morning.shape[1])

    def of(self, half: str) -> Floats:
        """Return the hours of the whole "day", the "morning" or the "afternoon", rows x columns."""
        if half == "day":
            return np.asarray(self.morning + self.afternoon)
        return self.morning if half == "morning" else self.afternoon

    def middle(self, row: int, column: int) -> Point:
        """Return the middle of a square."""
        return (
            self.extent.west + (column + 0.5) * self.side_m,
            self.extent.north - (row + 0.5) * self.side_m,
        )


@dataclass(frozen=True)
class _Sky:
    """The sun through a day: where it stands (n,) [degrees], and hours (n, 2) before and after noon."""

    elevation: Floats
    azimuth: Floats
    hours: Floats


@dataclass(frozen=True, slots=True)
class PlaceSun:
    """A position and its hours of sun."""

    spot: SpotKey
    hours: Hours


@dataclass(frozen=True, slots=True)
class Taken:
    """Hours that one thing alone keeps from a plant: ``by`` is a plant's position or a thing's key."""

    by: SpotKey | str
    name: str
    hours: float


@dataclass(frozen=True, slots=True)
class PlantSun:
    """A plant's sun once all are grown, at its own top, and what takes sun from it."""

    plant: Plant
    hours: Hours
    taken: tuple[Taken, ...]


def side_for(extent: Extent) -> float:
    """Return the side of the squares, so that a plan shows each with its number [m]."""
    fits = (
        side for side in SIDES_M if extent.width / side <= MOST_ACROSS and extent.depth / side <= MOST_DOWN
    )
    return next(fits, max(extent.width / MOST_ACROSS, extent.depth / MOST_DOWN))


def boxes_of(plot: Plot, plants: Iterable[Plant] = ()) -> tuple[Box, ...]:
    """Return what throws shade: the plot's own, and plants at the height they grow to."""
    grown = (plant.box for plant in plants)
    return (*(one.box for one in plot.shades), *(box for box in grown if box is not None))


def sun_map(extent: Extent, boxes: Sequence[Box], day: date, where: Where) -> SunMap:
    """Return the hours of direct sun on each square of the ground.

    Parameters
    ----------
    extent : Extent
    boxes : sequence of Box
        What throws shade; a square whose middle lies in one has no sun.
    day : date
    where : Where

    Returns
    -------
    SunMap

    Notes
    -----
    By `greenroom.agronomy.siting.sun_hours`, in steps of ten minutes, for a sky without cloud.
    """
    side = side_for(extent)
    columns, rows = (max(1, round(length / side + 0.499)) for length in (extent.width, extent.depth))
    across = extent.west + (np.arange(columns) + 0.5) * side
    down = extent.north - (np.arange(rows) + 0.5) * side
    points = np.stack(np.meshgrid(across, down), axis=-1).reshape(-1, 2)
    hours = _hours(points, boxes, day, where).reshape(rows, columns, 2)
    return SunMap(day, extent, side, hours[..., 0], hours[..., 1], open_ground(day, where))


def open_ground(day: date, where: Where) -> Hours:
    """Return the hours of sun where nothing throws shade."""
    return _pair(_hours(np.array([[0.0, 0.0]]), (), day, where)[0])


def place_sun(plot: Plot, day: date, where: Where) -> dict[SpotKey, Hours]:
    """Return the hours of sun on the ground at every position, behind what stands on the plot."""
    places = [place for bed in plot.beds for place in bed.places()]
    if not places:
        return {}
    hours = _hours(np.array([point for _, point in places]), boxes_of(plot), day, where)
    return {key: _pair(pair) for (key, _), pair in zip(places, hours, strict=True)}


def best_places(
    hours: dict[SpotKey, Hours], free: Iterable[SpotKey], half: str = "day", most: int = 8
) -> list[PlaceSun]:
    """Return the free positions with most sun in the half asked for; of equals the first in the bed."""
    found = [PlaceSun(key, hours[key]) for key in free if key in hours]
    return sorted(found, key=lambda one: -round(one.hours.of(half) / SAME_HOURS))[:most]


def plant_sun(plot: Plot, plants: Sequence[Plant], day: date, where: Where) -> list[PlantSun]:
    """Return the sun of each plant once all are grown, and what keeps it from them.

    The sun is judged at a plant's own top, so that a neighbour no taller than it takes none of it; a
    plant of which no height is known is judged on the ground. A plant takes no sun from itself.
    """
    sky = _sky(day, where)
    levels: dict[float, list[int]] = defaultdict(list)
    for place, plant in enumerate(plants):
        levels[plant.level_m].append(place)
    found: dict[int, PlantSun] = {}
    for level, places in levels.items():
        found |= _at_level(plot, plants, places, level, sky)
    return [found[place] for place in range(len(plants))]


def shadows(boxes: Iterable[Box], moment: datetime, where: Where) -> list[list[Point]]:
    """Return the outlines of the ground in shadow at a moment; none with the sun down."""
    elevation, azimuth = sun_position(moment, where.latitude, where.longitude)
    outlines = (shadow_polygon(box, elevation, azimuth) for box in boxes)
    return [[(float(x), float(y)) for x, y in one] for one in outlines if one is not None]


def sun_word(hours: float) -> str:
    """Return what hours of direct sun a day are called."""
    if hours >= FULL_SUN_H:
        return tr("full sun")
    return tr("part sun") if hours >= PART_SUN_H else tr("shade")


def _at_level(
    plot: Plot, plants: Sequence[Plant], places: list[int], level: float, sky: _Sky
) -> dict[int, PlantSun]:
    """Return the sun of the plants that are judged at one height above the ground."""
    points = np.array([plants[place].point for place in places])
    covered = np.zeros((len(places), sky.elevation.size), dtype=np.int64)
    taken: list[list[Taken]] = [[] for _ in places]
    for by, name, box in _casters(plot, plants):
        above = _above(box, level)
        if above is None:
            continue
        shaded = in_shade(points, (above,), sky.elevation, sky.azimuth)
        shaded[[place for place, index in enumerate(places) if plants[index].spot == by]] = False
        covered += shaded
        for place, hours in enumerate((shaded @ sky.hours.sum(axis=1)).tolist()):
            if hours > SAME_HOURS:
                taken[place].append(Taken(by, name, hours))
    lit = (covered == 0) @ sky.hours
    return {
        index: PlantSun(
            plants[index], _pair(lit[place]), tuple(sorted(taken[place], key=lambda one: -one.hours))
        )
        for place, index in enumerate(places)
    }


def _casters(plot: Plot, plants: Sequence[Plant]) -> Iterator[tuple[SpotKey | str, str, Box | None]]:
    yield from ((one.key, one.name, one.box) for one in plot.shades)
    yield from ((plant.spot, plant.name, plant.box) for plant in plants)


def _above(box: Box | None, level: float) -> Box | None:
    """Return the part of a box above a height, as seen from that height."""
    if box is None or box.height <= level:
        return None
    return Box(box.x, box.y, box.width, box.depth, box.height - level)


def _sky(day: date, where: Where) -> _Sky:
    """Return the places of the sun through a day, each with the hours it stands for."""
    noon = np.datetime64(solar_noon(day, where.longitude).replace(tzinfo=None), "us")
    minutes = np.arange(-HALF_DAY_MINUTES, HALF_DAY_MINUTES, STEP_MINUTES) + STEP_MINUTES / 2
    moments = noon + (minutes * 60e6).astype("timedelta64[us]")
    elevation, azimuth = sun_position(moments, where.latitude, where.longitude)
    up = elevation > RISING_ELEVATION
    halves = np.stack([minutes[up] < 0, minutes[up] > 0], axis=1)
    return _Sky(elevation[up], azimuth[up], np.asarray(halves * (STEP_MINUTES / 60), dtype=np.float64))


def _hours(points: Floats, boxes: Sequence[Box], day: date, where: Where) -> Floats:
    return sun_hours(points, boxes, day, where.latitude, where.longitude, STEP_MINUTES)


def _pair(hours: Floats) -> Hours:
    return Hours(float(hours[0]), float(hours[1]))
