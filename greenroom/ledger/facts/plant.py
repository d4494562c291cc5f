"""Facts about plants that are set out: supports, flowers, fruit, seed, and what keeps the cold off."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from greenroom.ledger.facts.base import Fact
from greenroom.ledger.facts.shelf import SpotFact
from greenroom.ledger.facts.where import AnywhereFact, WithinFact
from greenroom.speech import tr

PRUNINGS = ("lower leaves", "tip", "side shoots")
RIPENESS = ("green", "turning", "ripe")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pruned(SpotFact):
    """What was taken off one plant."""

    kind: ClassVar[str] = "pruned"
    words: ClassVar[str] = tr("pruning", sense="kind of entry")
    what: str

    def _check(self) -> None:
        SpotFact._check(self)
        if self.what not in PRUNINGS:
            self._refuse(
                tr("the part"), self.what, tr("{prunings} are allowed", prunings=", ".join(PRUNINGS))
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Staked(WithinFact):
    """The plants of a holder, or the one in a spot, given a support."""

    kind: ClassVar[str] = "staked"
    words: ClassVar[str] = tr("staking", sense="kind of entry")


@dataclass(frozen=True, slots=True, kw_only=True)
class Mulched(Fact):
    """The soil of a holder covered against drying out, and with what."""

    kind: ClassVar[str] = "mulched"
    words: ClassVar[str] = tr("mulching", sense="kind of entry")
    holder: str
    material: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Flowered(SpotFact):
    """The first open flower seen on one plant."""

    kind: ClassVar[str] = "flowered"
    words: ClassVar[str] = tr("first flower", sense="kind of entry")


@dataclass(frozen=True, slots=True, kw_only=True)
class Picked(AnywhereFact):
    """Fruit of a variety picked, from one plant, from a holder, or from somewhere not told."""

    kind: ClassVar[str] = "picked"
    words: ClassVar[str] = tr("picking", sense="kind of entry")
    variety: str
    count: int
    grams: float | None = None
    ripeness: str = "ripe"

    def _check(self) -> None:
        AnywhereFact._check(self)
        if not self.variety:
            self._refuse(tr("the variety"), self.variety, tr("a variety's key is needed"))
        if not (1 <= self.count <= 10_000):
            self._refuse(tr("a count of"), self.count, tr("1 to 10,000 is allowed"))
        grams = self.grams
        if not (grams is None or 0.1 <= grams <= 100_000):
            self._refuse(tr("a weight (g) of"), grams, tr("0.1 to 100,000 is allowed"))
        if self.ripeness not in RIPENESS:
            self._refuse(tr("ripeness"), self.ripeness, tr("green, turning or ripe is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class SeedSaved(AnywhereFact):
    """Seed of a variety taken from one's own fruit; ``count`` if somebody counted it."""

    kind: ClassVar[str] = "seed_saved"
    words: ClassVar[str] = tr("saving of seed", sense="kind of entry")
    variety: str
    count: int | None = None

    def _check(self) -> None:
        AnywhereFact._check(self)
        if not self.variety:
            self._refuse(tr("the variety"), self.variety, tr("a variety's key is needed"))
        count = self.count
        if not (count is None or 1 <= count <= 1_000_000):
            self._refuse(tr("a seed count of"), count, tr("1 to 1,000,000 is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Covered(Fact):
    """A holder covered for a night, or until a moment if one is named."""

    kind: ClassVar[str] = "covered"
    words: ClassVar[str] = tr("covering", sense="kind of entry")
    holder: str
    until: datetime | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilFelt(Fact):
    """The temperature of the soil [°C] at a moment, of one bed or of the garden."""

    kind: ClassVar[str] = "soil_felt"
    words: ClassVar[str] = tr("soil temperature", sense="kind of entry")
    holder: str | None = None
    celsius: float
    at: datetime

    def _check(self) -> None:
        if not (-30 <= self.celsius <= 60):
            self._refuse(tr("soil at (°C)"), self.celsius, tr("-30 to 60 is allowed"))
