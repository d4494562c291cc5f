"""Facts about leaf cover: how much of each cell of a holder was green, seen from above."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar, NamedTuple

from greenroom.ledger.facts.base import Fact
from greenroom.ledger.facts.shelf import COLUMN, LARGEST_SIDE, ROW
from greenroom.speech import tr


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
    words: ClassVar[str] = tr("leaf cover", sense="kind of entry")
    holder: str
    picture: str | None = None
    threshold: float | None = None
    cells: tuple[CellCover, ...]

    def _check(self) -> None:
        if not self.cells:
            self._refuse(tr("cells"), 0, tr("at least one cell is needed"))
        self._require_rising(
            tr("cells"), tr("each cell once, in order"), ((cell.row, cell.column) for cell in self.cells)
        )
        for cell in self.cells:
            for what, value in ((ROW, cell.row), (COLUMN, cell.column)):
                if not (0 <= value < LARGEST_SIDE):
                    self._refuse(
                        what, value, tr("0 to {largest_side} are allowed", largest_side=LARGEST_SIDE - 1)
                    )
            if not (0 <= cell.cover <= 1):
                self._refuse(tr("a cover of"), cell.cover, tr("0 to 1 is allowed"))
        level = self.threshold
        if not (level is None or -1 <= level <= 2):
            self._refuse(tr("a threshold of"), level, tr("-1 to 2 is allowed"))
