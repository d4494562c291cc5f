"""The plot: beds, groups of pots and what throws shade, laid on level ground in metres.

x runs east and y north from a corner of the grower's choosing. A bed is a holder like a rack: its
positions are rows and columns, the first row the northernmost while the bed is not turned.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import cos, floor, radians, sin

from greenroom.agronomy.siting import Box
from greenroom.ledger.facts import BedLaid, HolderMade, HolderRetired, Obstacle, ObstacleGone
from greenroom.season.deeds_plot import BED, bed_laid, obstacles
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season

PLOT_FACTS = (HolderMade, HolderRetired, BedLaid, Obstacle, ObstacleGone)
ROOM_ROUND_M = 1.0
LEAST_EXTENT_M = 4.0
Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Bed:
    """A bed, or a group of pots if ``pot_litres`` says how large each is.

    (``x_m``, ``y_m``) is its south-west corner as it would lie unturned; ``turned_deg`` turns it
    clockwise about that corner.
    """

    key: str
    name: str
    rows: int
    columns: int
    x_m: float
    y_m: float
    width_m: float
    depth_m: float
    turned_deg: float = 0.0
    pot_litres: float | None = None

    @property
    def middle(self) -> Point:
        """Its middle."""
        return self._laid(self.width_m / 2, self.depth_m / 2)

    @property
    def corners(self) -> tuple[Point, ...]:
        """Its corners: south-west, south-east, north-east, north-west, as turned."""
        sides = ((0, 0), (1, 0), (1, 1), (0, 1))
        return tuple(self._laid(across * self.width_m, up * self.depth_m) for across, up in sides)

    @property
    def pitch_m(self) -> tuple[float, float]:
        """How far apart its positions are, along a row and from row to row."""
        return self.width_m / self.columns, self.depth_m / self.rows

    def position(self, row: int, column: int) -> Point:
        """Return where a position lies."""
        across = (column + 0.5) / self.columns * self.width_m
        return self._laid(across, self.depth_m - (row + 0.5) / self.rows * self.depth_m)

    def spot_at(self, x_m: float, y_m: float) -> SpotKey | None:
        """Return the position whose share of the bed holds a point, or None beside the bed."""
        across, up = self._unlaid(x_m, y_m)
        column = floor(across / self.width_m * self.columns)
        row = floor((1 - up / self.depth_m) * self.rows)
        inside = 0 <= row < self.rows and 0 <= column < self.columns
        return SpotKey(self.key, row, column) if inside else None

    def places(self) -> list[tuple[SpotKey, Point]]:
        """Return every position with where it lies, row by row."""
        return [
            (SpotKey(self.key, row, column), self.position(row, column))
            for row in range(self.rows)
            for column in range(self.columns)
        ]

    def _laid(self, across: float, up: float) -> Point:
        angle = radians(self.turned_deg)
        east, north = across * cos(angle) + up * sin(angle), up * cos(angle) - across * sin(angle)
        return self.x_m + east, self.y_m + north

    def _unlaid(self, x_m: float, y_m: float) -> Point:
        angle = radians(self.turned_deg)
        east, north = x_m - self.x_m, y_m - self.y_m
        return east * cos(angle) - north * sin(angle), east * sin(angle) + north * cos(angle)


@dataclass(frozen=True, slots=True)
class Shade:
    """Something that throws shade: a tree, fence or building; (``x_m``, ``y_m``) its south-west corner."""

    key: str
    name: str
    x_m: float
    y_m: float
    width_m: float
    depth_m: float
    height_m: float

    @property
    def box(self) -> Box:
        """It as a box on the ground."""
        return Box(self.x_m, self.y_m, self.width_m, self.depth_m, self.height_m)

    @property
    def corners(self) -> tuple[Point, ...]:
        """Its corners: south-west, south-east, north-east, north-west."""
        east, north = self.x_m + self.width_m, self.y_m + self.depth_m
        return (self.x_m, self.y_m), (east, self.y_m), (east, north), (self.x_m, north)


Thing = Bed | Shade
"""What can be laid on the plot."""


@dataclass(frozen=True, slots=True)
class Extent:
    """The rectangle of ground that is looked at [m]."""

    west: float
    south: float
    east: float
    north: float

    @property
    def width(self) -> float:
        """From west to east."""
        return self.east - self.west

    @property
    def depth(self) -> float:
        """From south to north."""
        return self.north - self.south


@dataclass(frozen=True, slots=True)
class Plot:
    """All that lies on the plot."""

    beds: tuple[Bed, ...] = ()
    shades: tuple[Shade, ...] = ()

    @property
    def empty(self) -> bool:
        """Whether nothing was drawn yet."""
        return not self.beds and not self.shades

    @property
    def things(self) -> tuple[Thing, ...]:
        """All that lies there, beds first."""
        return (*self.beds, *self.shades)

    @property
    def extent(self) -> Extent:
        """The ground it takes with room round it, in whole metres."""
        points = [point for thing in self.things for point in thing.corners]
        return _extent(points or [(0.0, 0.0), (LEAST_EXTENT_M, LEAST_EXTENT_M)])

    def bed(self, key: str) -> Bed | None:
        """Return a bed by its key, or None."""
        return next((bed for bed in self.beds if bed.key == key), None)

    def shade(self, key: str) -> Shade | None:
        """Return what throws shade by its key, or None."""
        return next((one for one in self.shades if one.key == key), None)

    def spot_at(self, x_m: float, y_m: float) -> SpotKey | None:
        """Return the position under a point; where beds overlap, that of the one laid last."""
        found = (bed.spot_at(x_m, y_m) for bed in reversed(self.beds))
        return next((key for key in found if key is not None), None)


def plot_of(season: Season) -> Plot:
    """Return the plot as it was laid last; beds put away and obstacles that are gone are left out."""
    return season.memo("plot", PLOT_FACTS, lambda: _plot(season))


def _plot(season: Season) -> Plot:
    beds = []
    for made in season.holders(BED):
        laid = bed_laid(season, made.key)
        if laid is not None:
            sides = (laid.x_m, laid.y_m, laid.width_m, laid.depth_m)
            grid = (made.rows, made.columns)
            beds.append(Bed(made.key, made.name, *grid, *sides, laid.turned_deg, laid.pot_litres))
    shades = (
        Shade(one.obstacle, one.name, one.x_m, one.y_m, one.width_m, one.depth_m, one.height_m)
        for one in obstacles(season)
    )
    return Plot(tuple(beds), tuple(shades))


def _extent(points: Iterable[Point]) -> Extent:
    xs, ys = zip(*points, strict=True)
    west, south = floor(min(xs) - ROOM_ROUND_M), floor(min(ys) - ROOM_ROUND_M)
    east, north = -floor(-(max(xs) + ROOM_ROUND_M)), -floor(-(max(ys) + ROOM_ROUND_M))
    return Extent(west, south, max(east, west + LEAST_EXTENT_M), max(north, south + LEAST_EXTENT_M))
