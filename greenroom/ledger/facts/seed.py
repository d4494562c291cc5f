"""Facts about the seed box: varieties and packets."""

from __future__ import annotations

from dataclasses import dataclass
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
