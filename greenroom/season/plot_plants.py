"""The plants on the plot: where each stands, and how tall and wide the guide lets it grow."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from greenroom.agronomy.siting import Box
from greenroom.guide import Crop
from greenroom.season.crops import crop_of
from greenroom.season.packets import packet_view, variety_name
from greenroom.season.plot import Plot, Point
from greenroom.season.spots import Spot, SpotKey
from greenroom.season.state import Season

CM = 0.01
USUAL_CROWN_M = 0.4
"""Crown of a plant of which the guide gives no spacing: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Plant:
    """A plant on the plot, and what it grows to by the guide (None where that is not known)."""

    spot: SpotKey
    point: Point
    name: str
    crop: Crop | None = None

    @property
    def height_m(self) -> float | None:
        """Height when grown: the middle of the guide's range."""
        height = self.crop.height_cm if self.crop else None
        return None if height is None else height.value.middle * CM

    @property
    def crown_m(self) -> float:
        """Width when grown: the least distance the guide asks for, at which crowns meet."""
        spacing = self.crop.spacing_cm if self.crop else None
        return USUAL_CROWN_M if spacing is None else spacing.value.low * CM

    @property
    def level_m(self) -> float:
        """Height at which its sun is judged: its own top, or the ground where no height is known."""
        return self.height_m or 0.0

    @property
    def box(self) -> Box | None:
        """The plant full grown, as something that throws shade."""
        if not self.height_m:
            return None
        half = self.crown_m / 2
        x, y = self.point
        return Box(x - half, y - half, self.crown_m, self.crown_m, self.height_m)


def plants_of(season: Season, plot: Plot) -> tuple[Plant, ...]:
    """Return the living plants of the plot's beds, bed by bed and row by row."""
    return tuple(plant_at(season, spot, point) for spot, point in _spots(season, plot) if spot.up > 0)


def free_spots(season: Season, plot: Plot) -> list[SpotKey]:
    """Return the positions where nothing stands or waits."""
    return [spot.key for spot, _ in _spots(season, plot) if spot.free]


def plant_at(season: Season, spot: Spot, point: Point) -> Plant:
    """Return what stands in a spot as the plant it would be at a point of the plot."""
    return Plant(spot.key, point, variety_name(season, spot.packet), crop_at(season, spot))


def crop_at(season: Season, spot: Spot) -> Crop | None:
    """Return the guide's entry for what stands in a spot, or None."""
    view = packet_view(season, spot.packet) if spot.packet else None
    return crop_of(season.guide, view.crop) if view else None


def _spots(season: Season, plot: Plot) -> Iterator[tuple[Spot, Point]]:
    for bed in plot.beds:
        yield from ((season.spot(key), point) for key, point in bed.places())
