"""Facts about care: water, feed, lamps, and what is seen on the plants."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import ClassVar

from greenroom.ledger.facts.base import ADDED_LATER, Fact
from greenroom.ledger.facts.where import WithinFact
from greenroom.speech import tr

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
    words: ClassVar[str] = tr("weighing", sense="kind of entry")
    holder: str
    state: str = "now"
    grams: float
    at: datetime | None = field(default=None, metadata=ADDED_LATER)

    def _check(self) -> None:
        if self.state not in WEIGHT_STATES:
            self._refuse(tr("the state"), self.state, tr("wet, now or dry is allowed"))
        if not (1 <= self.grams <= HEAVIEST_G):
            self._refuse(
                tr("a weight (g) of"), self.grams, tr("1 to {heaviest_g:,} is allowed", heaviest_g=HEAVIEST_G)
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class BasinEmptied(Fact):
    """The water left in the basin or saucer under a holder, poured away."""

    kind: ClassVar[str] = "basin_emptied"
    words: ClassVar[str] = tr("emptying of a basin", sense="kind of entry")
    holder: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MixFelt(Fact):
    """How wet the mix of a holder is, felt with a finger or by lifting it."""

    kind: ClassVar[str] = "mix_felt"
    words: ClassVar[str] = tr("feel of the mix", sense="kind of entry")
    holder: str
    test: str = "finger"
    level: str

    def _check(self) -> None:
        if self.test not in FELT_BY:
            self._refuse(tr("the test"), self.test, tr("finger or lift is allowed"))
        if self.level not in MIX_LEVELS:
            self._refuse(tr("the level"), self.level, tr("wet, moist or dry is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Fed(Fact):
    """A holder fed: the feed's name and analysis [%], how strong it was [ppm N], and how much of it."""

    kind: ClassVar[str] = "fed"
    words: ClassVar[str] = tr("feed", sense="kind of entry")
    holder: str
    feed: str
    n_percent: float
    p2o5_percent: float
    k2o_percent: float
    ppm_n: float
    litres: float

    def _check(self) -> None:
        if not self.feed.strip():
            self._refuse(tr("the name"), self.feed, tr("it needs at least one letter"))
        for what, value in (
            (tr("N (%) of"), self.n_percent),
            (tr("P2O5 (%) of"), self.p2o5_percent),
            (tr("K2O (%) of"), self.k2o_percent),
        ):
            if not (0 <= value <= 100):
                self._refuse(what, value, tr("0 to 100 is allowed"))
        if not (0 <= self.ppm_n <= 2000):
            self._refuse(tr("a strength (ppm N) of"), self.ppm_n, tr("0 to 2,000 is allowed"))
        if not (0.001 <= self.litres <= 10_000):
            self._refuse(tr("litres of"), self.litres, tr("0.001 to 10,000 are allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class LampsSet(Fact):
    """How long the lamps over a place burn each day from now on, and their gap to the leaves [cm]."""

    kind: ClassVar[str] = "lamps_set"
    words: ClassVar[str] = tr("setting of lamps", sense="kind of entry")
    place: str
    hours: float
    gap_cm: float | None = None

    def _check(self) -> None:
        if not self.place.strip():
            self._refuse(tr("the place"), self.place, tr("it needs at least one letter"))
        if not (0 <= self.hours <= 24):
            self._refuse(tr("hours a day"), self.hours, tr("0 to 24 are allowed"))
        gap = self.gap_cm
        if not (gap is None or 0 <= gap <= 500):
            self._refuse(tr("a gap (cm) of"), gap, tr("0 to 500 is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class LookedOver(WithinFact):
    """The plants of a holder, or the one in a spot, looked over for pests and disease."""

    kind: ClassVar[str] = "looked_over"
    words: ClassVar[str] = tr("look over the plants", sense="kind of entry")


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding(WithinFact):
    """A sign of pest, disease or want that was found; ``where`` on the plant, ``count`` if counted."""

    kind: ClassVar[str] = "finding"
    words: ClassVar[str] = tr("finding", sense="kind of entry")
    sign: str
    count: int | None = None
    where: str = ""

    def _check(self) -> None:
        WithinFact._check(self)
        if not self.sign.strip():
            self._refuse(tr("the sign"), self.sign, tr("it needs at least one letter"))
        count = self.count
        if not (count is None or 1 <= count <= 100_000):
            self._refuse(tr("a count of"), count, tr("1 to 100,000 is allowed"))
