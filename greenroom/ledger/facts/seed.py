"""Facts about the seed box: varieties, packets, tests of them, and what is wanted of them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from greenroom.ledger.facts.base import Fact


@dataclass(frozen=True, slots=True, kw_only=True)
class Variety(Fact):
    """A variety the grower keeps: its name and the entry of the guide it belongs to."""

    kind: ClassVar[str] = "variety"
    words: ClassVar[str] = "variety"
    variety: str
    name: str
    crop: str | None = None
    days_to_ripe: int | None = None

    def _check(self) -> None:
        self._require(bool(self.name.strip()), "the name", self.name, "it needs at least one letter")
        ripe = self.days_to_ripe
        self._require(ripe is None or 20 <= ripe <= 400, "days to ripe", ripe, "20 to 400 are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Packet(Fact):
    """A packet of seed: one lot of one variety. ``seeds`` is how many came in it."""

    kind: ClassVar[str] = "packet"
    words: ClassVar[str] = "packet"
    packet: str
    variety: str
    lot: str = ""
    packed: int | None = None
    seeds: int | None = None
    germination: float | None = None

    def _check(self) -> None:
        self._require(
            self.packed is None or 1900 <= self.packed <= 2200, "the year", self.packed, "1900 to 2200"
        )
        self._require(
            self.seeds is None or 0 <= self.seeds <= 1_000_000,
            "a seed count of",
            self.seeds,
            "0 to 1,000,000 are allowed",
        )
        share = self.germination
        self._require(
            share is None or 0 <= share <= 1, "a germination of", share, "0 to 1 (0 to 100 %) is allowed"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class GerminationTest(Fact):
    """A germination test begun at home: so many seeds of a packet set moist and warm (°C if known)."""

    kind: ClassVar[str] = "germination_test"
    words: ClassVar[str] = "germination test"
    test: str
    packet: str
    seeds: int
    warmth_c: float | None = None

    def _check(self) -> None:
        self._require(1 <= self.seeds <= 1000, "a seed count of", self.seeds, "1 to 1,000 are allowed")
        warm = self.warmth_c
        self._require(warm is None or -10 <= warm <= 60, "warmth (°C) of", warm, "-10 to 60 is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class GerminationCount(Fact):
    """Seeds newly germinated on one day of a test; 0 says that it was looked at."""

    kind: ClassVar[str] = "germination_count"
    words: ClassVar[str] = "germination count"
    test: str
    count: int

    def _check(self) -> None:
        self._require(0 <= self.count <= 1000, "a count of", self.count, "0 to 1,000 are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted(Fact):
    """How many plants of a variety are wanted in a year's season; 0 is none, the last word counts."""

    kind: ClassVar[str] = "wanted"
    words: ClassVar[str] = "wish"
    variety: str
    year: int
    plants: int

    def _check(self) -> None:
        self._require(1900 <= self.year <= 2200, "the year", self.year, "1900 to 2200 is allowed")
        self._require(0 <= self.plants <= 500, "plants", self.plants, "0 to 500 are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class SowingPlanned(Fact):
    """The day chosen to sow a variety for a year's season; the last word counts."""

    kind: ClassVar[str] = "sowing_planned"
    words: ClassVar[str] = "chosen sowing date"
    variety: str
    year: int
    on: date

    def _check(self) -> None:
        self._require(1900 <= self.year <= 2200, "the year", self.year, "1900 to 2200 is allowed")
        near = abs(self.on.year - self.year) <= 1
        self._require(near, "the day", f"{self.on}", f"a day within a year of {self.year} is allowed")
