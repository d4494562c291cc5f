"""Germination tests made at home: what was set, what was counted, and whether a test is over."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass
from datetime import date, timedelta

from greenroom.ledger.facts import GerminationCount, GerminationTest, Packet, Variety
from greenroom.season.crops import crop_of
from greenroom.season.packets import packet_view
from greenroom.season.state import Season

USUAL_FINAL_DAYS = 14
"""Day of the last count where the guide names none: that of most vegetables in 7 CFR 201.58, Table 2."""


@dataclass(frozen=True, slots=True)
class HomeTest:
    """One test: so many seeds set on a day, and what was counted on later ones.

    ``final_days`` is the day, from the first, on which the last count is due.
    """

    key: str
    packet: str
    seeds: int
    begun: date
    warmth_c: float | None
    counts: tuple[tuple[date, int], ...]
    final_days: int

    @property
    def germinated(self) -> int:
        """Seeds germinated so far; never more than were set."""
        return min(self.seeds, sum(count for _, count in self.counts))

    @property
    def last_look(self) -> date | None:
        """Day of the latest count, or None."""
        return max((day for day, _ in self.counts), default=None)

    @property
    def due(self) -> date:
        """Day on which the last count is due."""
        return self.begun + timedelta(days=self.final_days)

    @property
    def over(self) -> bool:
        """Whether nothing more is to be counted: every seed is up, or it was looked at on the last day."""
        seen = self.last_look
        return self.germinated >= self.seeds or (seen is not None and seen >= self.due)


def home_tests(season: Season) -> tuple[HomeTest, ...]:
    """Return the tests made at home, in the order they were begun."""
    kinds = (GerminationTest, GerminationCount, Packet, Variety)
    return season.memo("home tests", kinds, lambda: _tests(season))


def home_tests_of(season: Season, packet: str) -> list[HomeTest]:
    """Return the tests of one packet, in the order they were begun."""
    return [test for test in home_tests(season) if test.packet == packet]


def home_test(season: Season, key: str) -> HomeTest | None:
    """Return one test by its key, or None."""
    return next((test for test in home_tests(season) if test.key == key), None)


def final_days(season: Season, packet: str) -> int:
    """Return the day on which the last count of a packet's test is due.

    The rule for testing seed names one for the crop; where the guide's span of days to come up for the
    kind ends later, the test goes on until then.
    """
    view = packet_view(season, packet)
    crop = crop_of(season.guide, view.crop if view else None)
    legal = crop.test_final_count_days if crop else None
    slow = crop.emergence_days if crop else None
    return round(max(legal.value if legal else USUAL_FINAL_DAYS, slow.value.high if slow else 0))


def _tests(season: Season) -> tuple[HomeTest, ...]:
    counts: dict[str, list[tuple[date, int]]] = defaultdict(list)
    for fact in season.facts(GerminationCount):
        counts[fact.test].append((fact.day, fact.count))
    return tuple(
        HomeTest(
            fact.test,
            fact.packet,
            fact.seeds,
            fact.day,
            fact.warmth_c,
            tuple(counts[fact.test]),
            final_days(season, fact.packet),
        )
        for fact in season.facts(GerminationTest)
    )
