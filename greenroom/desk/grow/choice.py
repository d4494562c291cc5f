"""Which cells are chosen, and which one the keys act on."""

from __future__ import annotations

from dataclasses import dataclass, field

from greenroom.desk.grow.grid import Place, block


@dataclass(slots=True)
class Choice:
    """The current cell, the chosen ones, and the corner a block is drawn out from."""

    rows: int = 0
    columns: int = 0
    current: Place | None = None
    chosen: set[Place] = field(default_factory=set)
    anchor: Place | None = None

    @property
    def targets(self) -> list[Place]:
        """The cells an act is for: the chosen ones, else the current one; row by row."""
        if self.chosen:
            return sorted(self.chosen)
        return [self.current] if self.current is not None else []

    @property
    def shown(self) -> frozenset[tuple[Place, bool]]:
        """What is painted differently: each chosen cell, and the current one marked True."""
        chosen = frozenset((place, False) for place in self.chosen)
        return chosen if self.current is None else chosen | {(self.current, True)}

    def go(self, place: Place) -> None:
        """Make one cell the current one and choose none."""
        self.current = self.anchor = self._inside(place)
        self.chosen = set()

    def extend(self, place: Place) -> None:
        """Choose the block from the anchor to a cell."""
        place = self._inside(place)
        self.anchor = self.anchor or self.current or place
        self.current = place
        self.chosen = set(block(self.anchor, place))

    def toggle(self, place: Place) -> None:
        """Choose a cell besides the others, or no longer."""
        self.chosen ^= {place}
        self.current = self.anchor = place

    def choose(self, places: list[Place], *, besides: bool = False) -> None:
        """Choose cells, besides those chosen if asked."""
        self.chosen = {*(self.chosen if besides else ()), *places}
        if places:
            self.current = self.anchor = places[-1]

    def choose_all(self) -> None:
        """Choose every cell."""
        if self.rows and self.columns:
            self.chosen = set(block((0, 0), (self.rows - 1, self.columns - 1)))
            self.current = self.current or (0, 0)

    def clear(self) -> None:
        """Choose none; the current cell stays."""
        self.chosen = set()
        self.anchor = self.current

    def step(self, down: int, right: int, *, extend: bool = False) -> None:
        """Go from the current cell to another; the first step lands on the first cell."""
        if self.current is None:
            self.go((0, 0))
            return
        place = (self.current[0] + down, self.current[1] + right)
        if extend:
            self.extend(place)
        else:
            self.go(place)

    def _inside(self, place: Place) -> Place:
        row, column = place
        return max(0, min(row, self.rows - 1)), max(0, min(column, self.columns - 1))
