"""Facts about the plot: where beds lie and what throws shade, in metres, x to the east, y to the north."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from greenroom.ledger.facts.base import Fact

FARTHEST_M = 1000
LONGEST_M = 500


def _check_place(fact: Fact, x_m: float, y_m: float) -> None:
    for what, value in (("x", x_m), ("y", y_m)):
        fact._require(
            -FARTHEST_M <= value <= FARTHEST_M,
            f"{what} (m) of",
            value,
            f"-{FARTHEST_M:,} to {FARTHEST_M:,} is allowed",
        )


def _check_sides(fact: Fact, sides: tuple[tuple[str, float], ...]) -> None:
    for what, value in sides:
        fact._require(0.05 <= value <= LONGEST_M, f"{what} (m) of", value, f"0.05 to {LONGEST_M} is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class BedLaid(Fact):
    """Where a bed lies from now on: its south-west corner, its sides, and how far it is turned.

    ``turned_deg`` is clockwise about that corner. ``pot_litres`` is the size of its pots, if its spots
    are big pots; the last word counts.
    """

    kind: ClassVar[str] = "bed_laid"
    words: ClassVar[str] = "place of a bed"
    holder: str
    x_m: float
    y_m: float
    width_m: float
    depth_m: float
    turned_deg: float = 0
    pot_litres: float | None = None

    def _check(self) -> None:
        _check_place(self, self.x_m, self.y_m)
        _check_sides(self, (("width", self.width_m), ("depth", self.depth_m)))
        self._require(-360 <= self.turned_deg <= 360, "a turn of", self.turned_deg, "-360 to 360 is allowed")
        pot = self.pot_litres
        self._require(pot is None or 0.1 <= pot <= 2000, "pots (L) of", pot, "0.1 to 2,000 are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacle(Fact):
    """A thing that throws shade: a wall, a hedge, a house; the last word of one counts."""

    kind: ClassVar[str] = "obstacle"
    words: ClassVar[str] = "thing that throws shade"
    obstacle: str
    name: str
    x_m: float
    y_m: float
    width_m: float
    depth_m: float
    height_m: float

    def _check(self) -> None:
        self._require(bool(self.name.strip()), "the name", self.name, "it needs at least one letter")
        _check_place(self, self.x_m, self.y_m)
        _check_sides(self, (("width", self.width_m), ("depth", self.depth_m), ("height", self.height_m)))


@dataclass(frozen=True, slots=True, kw_only=True)
class ObstacleGone(Fact):
    """A thing that threw shade, taken away or felled."""

    kind: ClassVar[str] = "obstacle_gone"
    words: ClassVar[str] = "end of a shade"
    obstacle: str
