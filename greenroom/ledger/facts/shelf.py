"""Facts about trays, racks, beds and what stands in their spots."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from greenroom.ledger.facts.base import Fact
from greenroom.speech import tr

FORMS = ("tray", "rack", "bed")
LARGEST_SIDE = 100
ROW, COLUMN = tr("row"), tr("column")


@dataclass(frozen=True, slots=True, kw_only=True)
class HolderMade(Fact):
    """A tray of cells, a rack of pots or a bed taken into use. ``size`` is the pot's trade name.

    A bed is ground, or a group of big pots, outdoors; its spots are the positions of plants.
    """

    kind: ClassVar[str] = "holder_made"
    words: ClassVar[str] = tr("tray, rack or bed", sense="kind of entry")
    holder: str
    name: str
    form: str
    rows: int
    columns: int
    cell_ml: float | None = None
    size: str = ""

    def _check(self) -> None:
        if not self.name.strip():
            self._refuse(tr("the name"), self.name, tr("it needs at least one letter"))
        if self.form not in FORMS:
            self._refuse(tr("the form"), self.form, tr("tray, rack or bed is allowed"))
        for what, value in ((tr("rows"), self.rows), (tr("columns"), self.columns)):
            if not (1 <= value <= LARGEST_SIDE):
                self._refuse(what, value, tr("1 to {largest_side} are allowed", largest_side=LARGEST_SIDE))
        volume = self.cell_ml
        if not (volume is None or 1 <= volume <= 100_000):
            self._refuse(tr("a volume (mL) of"), volume, tr("1 to 100,000 are allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class HolderPlaced(Fact):
    """Where a holder stands from this day on, and how warm its mix is there (°C)."""

    kind: ClassVar[str] = "holder_placed"
    words: ClassVar[str] = tr("place for a tray", sense="kind of entry")
    holder: str
    place: str = ""
    mix_c: float | None = None

    def _check(self) -> None:
        warm = self.mix_c
        if not (warm is None or -10 <= warm <= 60):
            self._refuse(tr("a mix at (°C)"), warm, tr("-10 to 60 is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class HolderRetired(Fact):
    """A holder emptied, washed and put away."""

    kind: ClassVar[str] = "holder_retired"
    words: ClassVar[str] = tr("tray put away", sense="kind of entry")
    holder: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SpotFact(Fact):
    """A fact about one spot: a cell of a tray, a pot of a rack or a position in a bed."""

    holder: str
    row: int
    column: int

    def _check(self) -> None:
        for what, value in ((ROW, self.row), (COLUMN, self.column)):
            if not (0 <= value < LARGEST_SIDE):
                self._refuse(
                    what, value, tr("0 to {largest_side} are allowed", largest_side=LARGEST_SIDE - 1)
                )


@dataclass(frozen=True, slots=True, kw_only=True)
class Sown(SpotFact):
    """Seeds of one packet put into one spot."""

    kind: ClassVar[str] = "sown"
    words: ClassVar[str] = tr("sowing", sense="kind of entry")
    packet: str
    seeds: int = 1

    def _check(self) -> None:
        SpotFact._check(self)
        if not (1 <= self.seeds <= 50):
            self._refuse(tr("a seed count of"), self.seeds, tr("1 to 50 a cell are allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Sprouted(SpotFact):
    """Seedlings seen newly up in one spot."""

    kind: ClassVar[str] = "sprouted"
    words: ClassVar[str] = tr("sprout", sense="kind of entry")
    count: int = 1

    def _check(self) -> None:
        SpotFact._check(self)
        if not (1 <= self.count <= 50):
            self._refuse(tr("a count of"), self.count, tr("1 to 50 a cell are allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class LeafStage(SpotFact):
    """How many true leaves the seedling in one spot shows; 0 is seed leaves only."""

    kind: ClassVar[str] = "leaf_stage"
    words: ClassVar[str] = tr("leaf stage", sense="kind of entry")
    leaves: int

    def _check(self) -> None:
        SpotFact._check(self)
        if not (0 <= self.leaves <= 40):
            self._refuse(tr("a leaf count of"), self.leaves, tr("0 to 40 are allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Lost(SpotFact):
    """Seeds or seedlings lost in one spot, and what took them; ``cause`` may be empty."""

    kind: ClassVar[str] = "lost"
    words: ClassVar[str] = tr("loss", sense="kind of entry")
    cause: str = ""
    count: int = 1

    def _check(self) -> None:
        SpotFact._check(self)
        if not (1 <= self.count <= 50):
            self._refuse(tr("a count of"), self.count, tr("1 to 50 a cell are allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved(SpotFact):
    """One seedling moved from its spot to another: potted up, pricked out, swapped over."""

    kind: ClassVar[str] = "moved"
    words: ClassVar[str] = tr("move", sense="kind of entry")
    to_holder: str
    to_row: int
    to_column: int

    def _check(self) -> None:
        SpotFact._check(self)
        here = (self.holder, self.row, self.column)
        there = (self.to_holder, self.to_row, self.to_column)
        if here == there:
            self._refuse(tr("both ends at"), there, tr("two different spots are needed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Note(Fact):
    """Words about a holder, or about one of its spots."""

    kind: ClassVar[str] = "note"
    words: ClassVar[str] = tr("note", sense="kind of entry")
    holder: str
    row: int | None = None
    column: int | None = None
    text: str

    def _check(self) -> None:
        if not self.text.strip():
            self._refuse(tr("the text"), self.text, tr("it needs at least one letter"))
