"""Facts about the plot: where beds lie and what throws shade, in metres, x to the east, y to the north."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from greenroom.ledger.facts.base import Fact
from greenroom.speech import tr

FARTHEST_M = 1000
LONGEST_M = 500


def _check_place(fact: Fact, x_m: float, y_m: float) -> None:
    for what, value in (("x", x_m), ("y", y_m)):
        if not (-FARTHEST_M <= value <= FARTHEST_M):
            fact._refuse(
                f"{what} (m) of",
                value,
                tr("-{farthest_m:,} to {farthest_m:,} is allowed", farthest_m=FARTHEST_M),
            )


def _check_sides(fact: Fact, sides: tuple[tuple[str, float], ...]) -> None:
    for what, value in sides:
        if not (0.05 <= value <= LONGEST_M):
            fact._refuse(
                what,
                value,
                tr("0.05 to {longest_m} is allowed", longest_m=LONGEST_M),
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class BedLaid(Fact):
    """Where a bed lies from now on: its south-west corner, its sides, and how far it is turned.

    ``turned_deg`` is clockwise about that corner. ``pot_litres`` is the size of its pots, if its spots
    are big pots; the last word counts.
    """

    kind: ClassVar[str] = "bed_laid"
    words: ClassVar[str] = tr("place of a bed", sense="kind of entry")
    holder: str
    x_m: float
    y_m: float
    width_m: float
    depth_m: float
    turned_deg: float = 0
    pot_litres: float | None = None

    def _check(self) -> None:
        _check_place(self, self.x_m, self.y_m)
        _check_sides(self, ((tr("width (m) of"), self.width_m), (tr("depth (m) of"), self.depth_m)))
        if not (-360 <= self.turned_deg <= 360):
            self._refuse(tr("a turn of"), self.turned_deg, tr("-360 to 360 is allowed"))
        pot = self.pot_litres
        if not (pot is None or 0.1 <= pot <= 2000):
            self._refuse(tr("pots (L) of"), pot, tr("0.1 to 2,000 are allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Obstacle(Fact):
    """A thing that throws shade: a wall, a hedge, a house; the last word of one counts."""

    kind: ClassVar[str] = "obstacle"
    words: ClassVar[str] = tr("thing that throws shade", sense="kind of entry")
    obstacle: str
    name: str
    x_m: float
    y_m: float
    width_m: float
    depth_m: float
    height_m: float

    def _check(self) -> None:
        if not self.name.strip():
            self._refuse(tr("the name"), self.name, tr("it needs at least one letter"))
        _check_place(self, self.x_m, self.y_m)
        _check_sides(
            self,
            (
                (tr("width (m) of"), self.width_m),
                (tr("depth (m) of"), self.depth_m),
                (tr("height (m) of"), self.height_m),
            ),
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class ObstacleGone(Fact):
    """A thing that threw shade, taken away or felled."""

    kind: ClassVar[str] = "obstacle_gone"
    words: ClassVar[str] = tr("end of a shade", sense="kind of entry")
    obstacle: str
