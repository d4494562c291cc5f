"""What the plan shows just now: the plot, its plants, the sun on it, and what is looked at."""

from __future__ import annotations

from dataclasses import dataclass, field

from greenroom.season.plot import Bed, Extent, Plot, Point, Shade
from greenroom.season.plot_plants import Plant
from greenroom.season.plot_sun import Hours, SunMap
from greenroom.season.spots import SpotKey

PLANT, DRAW = "plant", "draw"


@dataclass
class PlanState:
    """The page sets it, the plan paints it.

    ``seen`` is the key of the bed that fills the plan, or None for the whole plot; ``chosen`` the bed
    or obstacle that is drawn; ``marked`` the positions a list points at, each with its number.
    """

    plot: Plot = field(default_factory=Plot)
    plants: tuple[Plant, ...] = ()
    sun: SunMap | None = None
    half: str = "day"
    shadows: list[list[Point]] = field(default_factory=list)
    mode: str = PLANT
    seen: str | None = None
    chosen: str | None = None
    current: SpotKey | None = None
    marked: dict[SpotKey, int] = field(default_factory=dict)
    minded: frozenset[SpotKey] = frozenset()
    hours: dict[SpotKey, Hours] = field(default_factory=dict)

    @property
    def extent(self) -> Extent:
        """The ground that is looked at."""
        bed = self.plot.bed(self.seen) if self.seen is not None else None
        return Plot((bed,)).extent if bed is not None else self.plot.extent

    @property
    def thing(self) -> Bed | Shade | None:
        """The bed or obstacle that is drawn."""
        if self.chosen is None:
            return None
        return self.plot.bed(self.chosen) or self.plot.shade(self.chosen)

    @property
    def things(self) -> tuple[Bed | Shade, ...]:
        """All that can be drawn, beds first."""
        return self.plot.things
