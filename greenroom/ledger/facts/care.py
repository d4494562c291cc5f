"""Facts about care: water, feed, lamps, and what is seen on the plants."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import ClassVar

from greenroom.ledger.facts.base import ADDED_LATER, Fact
from greenroom.ledger.facts.where import WithinFact

WEIGHT_STATES = ("wet", "now", "dry")
FELT_BY = ("finger", "lift")
MIX_LEVELS = ("wet", "moist", "dry")
HEAVIEST_G = 200_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed(Fact):
    """A holder weighed [g]: just watered and drained ("wet"), dry as it may get ("dry"), or as it is.

    ``at`` is the moment, where the hour is known.
    """

    kind: ClassVar[str] = "weighed"
    words: ClassVar[str] = "weighing"
    holder: str
    state: str = "now"
    grams: float
    at: datetime | None = field(default=None, metadata=ADDED_LATER)

    def _check(self) -> None:
        self._require(self.state in WEIGHT_STATES, "the state", self.state, "wet, now or dry is allowed")
        self._require(
            1 <= self.grams <= HEAVIEST_G, "a weight (g) of", self.grams, f"1 to {HEAVIEST_G:,} is allowed"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class BasinEmptied(Fact):
    """The water left in the basin or saucer under a holder, poured away."""

    kind: ClassVar[str] = "basin_emptied"
    words: ClassVar[str] = "emptying of a basin"
    holder: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MixFelt(Fact):
    """How wet the mix of a holder is, felt with a finger or by lifting it."""

    kind: ClassVar[str] = "mix_felt"
    words: ClassVar[str] = "feel of the mix"
    holder: str
    test: str = "finger"
    level: str

    def _check(self) -> None:
        self._require(self.test in FELT_BY, "the test", self.test, "finger or lift is allowed")
        self._require(self.level in MIX_LEVELS, "the level", self.level, "wet, moist or dry is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fed(Fact):
    """A holder fed: the feed's name and analysis [%], how strong it was [ppm N], and how much of it."""

    kind: ClassVar[str] = "fed"
    words: ClassVar[str] = "feed"
    holder: str
    feed: str
    n_percent: float
    p2o5_percent: float
    k2o_percent: float
    ppm_n: float
    litres: float

    def _check(self) -> None:
        self._require(bool(self.feed.strip()), "the name", self.feed, "it needs at least one letter")
        for what, value in (
            ("N (%) of", self.n_percent),
            ("P2O5 (%) of", self.p2o5_percent),
            ("K2O (%) of", self.k2o_percent),
        ):
            self._require(0 <= value <= 100, what, value, "0 to 100 is allowed")
        self._require(0 <= self.ppm_n <= 2000, "a strength (ppm N) of", self.ppm_n, "0 to 2,000 is allowed")
        self._require(0.001 <= self.litres <= 10_000, "litres of", self.litres, "0.001 to 10,000 are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class LampsSet(Fact):
    """How long the lamps over a place burn each day from now on, and their gap to the leaves [cm]."""

    kind: ClassVar[str] = "lamps_set"
    words: ClassVar[str] = "setting of lamps"
    place: str
    hours: float
    gap_cm: float | None = None

    def _check(self) -> None:
        self._require(bool(self.place.strip()), "the place", self.place, "it needs at least one letter")
        self._require(0 <= self.hours <= 24, "hours a day", self.hours, "0 to 24 are allowed")
        gap = self.gap_cm
        self._require(gap is None or 0 <= gap <= 500, "a gap (cm) of", gap, "0 to 500 is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class LookedOver(WithinFact):
    """The plants of a holder, or the one in a spot, looked over for pests and disease."""

    kind: ClassVar[str] = "looked_over"
    words: ClassVar[str] = "look over the plants"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding(WithinFact):
    """A sign of pest, disease or want that was found; ``where`` on the plant, ``count`` if counted."""

    kind: ClassVar[str] = "finding"
    words: ClassVar[str] = "finding"
    sign: str
    count: int | None = None
    where: str = ""

    def _check(self) -> None:
        WithinFact._check(self)
        self._require(bool(self.sign.strip()), "the sign", self.sign, "it needs at least one letter")
        count = self.count
        self._require(count is None or 1 <= count <= 100_000, "a count of", count, "1 to 100,000 is allowed")
