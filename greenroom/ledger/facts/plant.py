"""Facts about plants that are set out: supports, flowers, fruit, seed, and what keeps the cold off."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from greenroom.ledger.facts.base import Fact
from greenroom.ledger.facts.shelf import SpotFact
from greenroom.ledger.facts.where import AnywhereFact, WithinFact

PRUNINGS = ("lower leaves", "tip", "side shoots")
RIPENESS = ("green", "turning", "ripe")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pruned(SpotFact):
    """What was taken off one plant."""

    kind: ClassVar[str] = "pruned"
    words: ClassVar[str] = "pruning"
    what: str

    def _check(self) -> None:
        SpotFact._check(self)
        self._require(self.what in PRUNINGS, "the part", self.what, f"{', '.join(PRUNINGS)} are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Staked(WithinFact):
    """The plants of a holder, or the one in a spot, given a support."""

    kind: ClassVar[str] = "staked"
    words: ClassVar[str] = "staking"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mulched(Fact):
    """The soil of a holder covered against drying out, and with what."""

    kind: ClassVar[str] = "mulched"
    words: ClassVar[str] = "mulching"
    holder: str
    material: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Flowered(SpotFact):
    """The first open flower seen on one plant."""

    kind: ClassVar[str] = "flowered"
    words: ClassVar[str] = "first flower"


@dataclass(frozen=True, slots=True, kw_only=True)
class Picked(AnywhereFact):
    """Fruit of a variety picked, from one plant, from a holder, or from somewhere not told."""

    kind: ClassVar[str] = "picked"
    words: ClassVar[str] = "picking"
    variety: str
    count: int
    grams: float | None = None
    ripeness: str = "ripe"

    def _check(self) -> None:
        AnywhereFact._check(self)
        self._require(bool(self.variety), "the variety", self.variety, "a variety's key is needed")
        self._require(1 <= self.count <= 10_000, "a count of", self.count, "1 to 10,000 is allowed")
        grams = self.grams
        self._require(
            grams is None or 0.1 <= grams <= 100_000, "a weight (g) of", grams, "0.1 to 100,000 is allowed"
        )
        self._require(
            self.ripeness in RIPENESS, "ripeness", self.ripeness, "green, turning or ripe is allowed"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class SeedSaved(AnywhereFact):
    """Seed of a variety taken from one's own fruit; ``count`` if somebody counted it."""

    kind: ClassVar[str] = "seed_saved"
    words: ClassVar[str] = "saving of seed"
    variety: str
    count: int | None = None

    def _check(self) -> None:
        AnywhereFact._check(self)
        self._require(bool(self.variety), "the variety", self.variety, "a variety's key is needed")
        count = self.count
        self._require(
            count is None or 1 <= count <= 1_000_000, "a seed count of", count, "1 to 1,000,000 is allowed"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Covered(Fact):
    """A holder covered for a night, or until a moment if one is named."""

    kind: ClassVar[str] = "covered"
    words: ClassVar[str] = "covering"
    holder: str
    until: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilFelt(Fact):
    """The temperature of the soil [°C] at a moment, of one bed or of the garden."""

    kind: ClassVar[str] = "soil_felt"
    words: ClassVar[str] = "soil temperature"
    holder: str | None = None
    celsius: float
    at: datetime

    def _check(self) -> None:
        self._require(-30 <= self.celsius <= 60, "soil at (°C)", self.celsius, "-30 to 60 is allowed")
