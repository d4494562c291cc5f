"""One stroke of a packet over the cells: the empty ones it passes, as far as the seeds go."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from PySide6.QtCore import QPoint

from greenroom.desk.grow.grid import Grid, Place


@dataclass(slots=True)
class Stroke:
    """Collects cells in the order they are passed; ``left`` is None where nobody counted the seeds."""

    packet: str
    seeds: int
    left: int | None
    free: Callable[[Place], bool]
    places: dict[Place, None] = field(default_factory=dict)
    last: QPoint | None = None

    @property
    def full(self) -> bool:
        """Whether the packet has no seeds for another cell."""
        return self.left is not None and (len(self.places) + 1) * self.seeds > self.left

    @property
    def remaining(self) -> int | None:
        """The seeds that would be left, or None where nobody counted them."""
        return None if self.left is None else self.left - len(self.places) * self.seeds

    def go_to(self, grid: Grid, point: QPoint) -> list[Place]:
        """Go on to a point; return the cells passed since the last, without leaps, that are new."""
        new: list[Place] = []
        for between in _between(point if self.last is None else self.last, point, grid):
            place = grid.at(between)
            if place is None or place in self.places or self.full or not self.free(place):
                continue
            self.places[place] = None
            new.append(place)
        self.last = point
        return new


def _between(start: QPoint, end: QPoint, grid: Grid) -> list[QPoint]:
    """Return points on the way, so close that no cell is leapt over."""
    way = end - start
    steps = 4 * max(abs(way.x()) // grid.pitch_x, abs(way.y()) // grid.pitch_y) + 4
    return [
        QPoint(start.x() + way.x() * step // steps, start.y() + way.y() * step // steps)
        for step in range(1, steps + 1)
    ]
