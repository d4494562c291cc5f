"""Facts about the seed box: varieties, packets, tests of them, and what is wanted of them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from greenroom.ledger.facts.base import Fact
from greenroom.speech import tr


@dataclass(frozen=True, slots=True, kw_only=True)
class Variety(Fact):
    """A variety the grower keeps: its name and the entry of the guide it belongs to."""

    kind: ClassVar[str] = "variety"
    words: ClassVar[str] = tr("variety", sense="kind of entry")
    variety: str
    name: str
    crop: str | None = None
    days_to_ripe: int | None = None

    def _check(self) -> None:
        if not self.name.strip():
            self._refuse(tr("the name"), self.name, tr("it needs at least one letter"))
        ripe = self.days_to_ripe
        if not (ripe is None or 20 <= ripe <= 400):
            self._refuse(tr("days to ripe"), ripe, tr("20 to 400 are allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Packet(Fact):
    """A packet of seed: one lot of one variety. ``seeds`` is how many came in it."""

    kind: ClassVar[str] = "packet"
    words: ClassVar[str] = tr("packet", sense="kind of entry")
    packet: str
    variety: str
    lot: str = ""
    packed: int | None = None
    seeds: int | None = None
    germination: float | None = None

    def _check(self) -> None:
        if not (self.packed is None or 1900 <= self.packed <= 2200):
            self._refuse(tr("the year"), self.packed, tr("1900 to 2200"))
        if not (self.seeds is None or 0 <= self.seeds <= 1_000_000):
            self._refuse(tr("a seed count of"), self.seeds, tr("0 to 1,000,000 are allowed"))
        share = self.germination
        if not (share is None or 0 <= share <= 1):
            self._refuse(tr("a germination of"), share, tr("0 to 1 (0 to 100 %) is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class GerminationTest(Fact):
    """A germination test begun at home: so many seeds of a packet set moist and warm (°C if known)."""

    kind: ClassVar[str] = "germination_test"
    words: ClassVar[str] = tr("germination test", sense="kind of entry")
    test: str
    packet: str
    seeds: int
    warmth_c: float | None = None

    def _check(self) -> None:
        if not (1 <= self.seeds <= 1000):
            self._refuse(tr("a seed count of"), self.seeds, tr("1 to 1,000 are allowed"))
        warm = self.warmth_c
        if not (warm is None or -10 <= warm <= 60):
            self._refuse(tr("warmth (°C) of"), warm, tr("-10 to 60 is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class GerminationCount(Fact):
    """Seeds newly germinated on one day of a test; 0 says that it was looked at."""

    kind: ClassVar[str] = "germination_count"
    words: ClassVar[str] = tr("germination count", sense="kind of entry")
    test: str
    count: int

    def _check(self) -> None:
        if not (0 <= self.count <= 1000):
            self._refuse(tr("a count of"), self.count, tr("0 to 1,000 are allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted(Fact):
    """How many plants of a variety are wanted in a year's season; 0 is none, the last word counts."""

    kind: ClassVar[str] = "wanted"
    words: ClassVar[str] = tr("wish", sense="kind of entry")
    variety: str
    year: int
    plants: int

    def _check(self) -> None:
        if not (1900 <= self.year <= 2200):
            self._refuse(tr("the year"), self.year, tr("1900 to 2200 is allowed"))
        if not (0 <= self.plants <= 500):
            self._refuse(tr("plants"), self.plants, tr("0 to 500 are allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class SowingPlanned(Fact):
    """The day chosen to sow a variety for a year's season; the last word counts."""

    kind: ClassVar[str] = "sowing_planned"
    words: ClassVar[str] = tr("chosen sowing date", sense="kind of entry")
    variety: str
    year: int
    on: date

    def _check(self) -> None:
        if not (1900 <= self.year <= 2200):
            self._refuse(tr("the year"), self.year, tr("1900 to 2200 is allowed"))
        near = abs(self.on.year - self.year) <= 1
        if not near:
            self._refuse(
                tr("the day"), f"{self.on}", tr("a day within a year of {year} is allowed", year=self.year)
            )
