"""Facts about leaf cover: how much of each cell of a holder was green, seen from above."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from greenroom.ledger.facts.base import Fact
from greenroom.ledger.facts.shelf import LARGEST_SIDE


class CellCover(NamedTuple):
    """The share of one cell that was green, 0 to 1."""

    row: int
    column: int
    cover: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CanopySeen(Fact):
    """The leaf cover of a holder's cells, read from one photograph.

    ``picture`` is the key of the picture if it was kept; ``threshold`` the excess green above which a
    point of the picture counted as leaf, None if none was told apart from the mix.
    """

    kind: ClassVar[str] = "canopy_seen"
    words: ClassVar[str] = "leaf cover"
    holder: str
    picture: str | None = None
    threshold: float | None = None
    cells: tuple[CellCover, ...]

    def _check(self) -> None:
        self._require(bool(self.cells), "cells", 0, "at least one cell is needed")
        self._require_rising("cells", ((cell.row, cell.column) for cell in self.cells))
        for cell in self.cells:
            for what, value in (("row", cell.row), ("column", cell.column)):
                self._require(0 <= value < LARGEST_SIDE, what, value, f"0 to {LARGEST_SIDE - 1} are allowed")
            self._require(0 <= cell.cover <= 1, "a cover of", cell.cover, "0 to 1 is allowed")
        level = self.threshold
        self._require(level is None or -1 <= level <= 2, "a threshold of", level, "-1 to 2 is allowed")
