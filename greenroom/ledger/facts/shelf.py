"""Facts about trays, racks, beds and what stands in their spots."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from greenroom.ledger.facts.base import Fact

FORMS = ("tray", "rack", "bed")
LARGEST_SIDE = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class HolderMade(Fact):
    """A tray of cells, a rack of pots or a bed taken into use. ``size`` is the pot's trade name.

    A bed is ground, or a group of big pots, outdoors; its spots are the positions of plants.
    """

    kind: ClassVar[str] = "holder_made"
    words: ClassVar[str] = "tray, rack or bed"
    holder: str
    name: str
    form: str
    rows: int
    columns: int
    cell_ml: float | None = None
    size: str = ""

    def _check(self) -> None:
        self._require(bool(self.name.strip()), "the name", self.name, "it needs at least one letter")
        self._require(self.form in FORMS, "the form", self.form, "tray, rack or bed is allowed")
        for what, value in (("rows", self.rows), ("columns", self.columns)):
            self._require(1 <= value <= LARGEST_SIDE, what, value, f"1 to {LARGEST_SIDE} are allowed")
        volume = self.cell_ml
        self._require(
            volume is None or 1 <= volume <= 100_000, "a volume (mL) of", volume, "1 to 100,000 are allowed"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class HolderPlaced(Fact):
    """Where a holder stands from this day on, and how warm its mix is there (°C)."""

    kind: ClassVar[str] = "holder_placed"
    words: ClassVar[str] = "place for a tray"
    holder: str
    place: str = ""
    mix_c: float | None = None

    def _check(self) -> None:
        warm = self.mix_c
        self._require(warm is None or -10 <= warm <= 60, "a mix at (°C)", warm, "-10 to 60 is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class HolderRetired(Fact):
    """A holder emptied, washed and put away."""

    kind: ClassVar[str] = "holder_retired"
    words: ClassVar[str] = "tray put away"
    holder: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SpotFact(Fact):
    """A fact about one spot: a cell of a tray, a pot of a rack or a position in a bed."""

    holder: str
    row: int
    column: int

    def _check(self) -> None:
        for what, value in (("row", self.row), ("column", self.column)):
            self._require(0 <= value < LARGEST_SIDE, what, value, f"0 to {LARGEST_SIDE - 1} are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sown(SpotFact):
    """Seeds of one packet put into one spot."""

    kind: ClassVar[str] = "sown"
    words: ClassVar[str] = "sowing"
    packet: str
    seeds: int = 1

    def _check(self) -> None:
        SpotFact._check(self)
        self._require(1 <= self.seeds <= 50, "a seed count of", self.seeds, "1 to 50 a cell are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sprouted(SpotFact):
    """Seedlings seen newly up in one spot."""

    kind: ClassVar[str] = "sprouted"
    words: ClassVar[str] = "sprout"
    count: int = 1

    def _check(self) -> None:
        SpotFact._check(self)
        self._require(1 <= self.count <= 50, "a count of", self.count, "1 to 50 a cell are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class LeafStage(SpotFact):
    """How many true leaves the seedling in one spot shows; 0 is seed leaves only."""

    kind: ClassVar[str] = "leaf_stage"
    words: ClassVar[str] = "leaf stage"
    leaves: int

    def _check(self) -> None:
        SpotFact._check(self)
        self._require(0 <= self.leaves <= 40, "a leaf count of", self.leaves, "0 to 40 are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lost(SpotFact):
    """Seeds or seedlings lost in one spot, and what took them; ``cause`` may be empty."""

    kind: ClassVar[str] = "lost"
    words: ClassVar[str] = "loss"
    cause: str = ""
    count: int = 1

    def _check(self) -> None:
        SpotFact._check(self)
        self._require(1 <= self.count <= 50, "a count of", self.count, "1 to 50 a cell are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved(SpotFact):
    """One seedling moved from its spot to another: potted up, pricked out, swapped over."""

    kind: ClassVar[str] = "moved"
    words: ClassVar[str] = "move"
    to_holder: str
    to_row: int
    to_column: int

    def _check(self) -> None:
        SpotFact._check(self)
        here = (self.holder, self.row, self.column)
        there = (self.to_holder, self.to_row, self.to_column)
        self._require(here != there, "both ends at", there, "two different spots are needed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Note(Fact):
    """Words about a holder, or about one of its spots."""

    kind: ClassVar[str] = "note"
    words: ClassVar[str] = "note"
    holder: str
    row: int | None = None
    column: int | None = None
    text: str

    def _check(self) -> None:
        self._require(bool(self.text.strip()), "the text", self.text, "it needs at least one letter")
