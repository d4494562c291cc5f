"""What a lot of seed has shown by itself: when half of it was up, and how much of it came up at all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date
from math import exp

import numpy as np

from greenroom.agronomy.sprouting import kaplan_meier
from greenroom.ledger import Entry
from greenroom.ledger.facts import Lost, Moved, Sown, Sprouted
from greenroom.season.spots import SpotKey, arrives, since_filled
from greenroom.season.state import Season

LABEL_SEEDS = 20
"""The label counts as much as so many seeds of one's own: a working rule of this program."""

NINETEEN_IN_TWENTY = 1.645
"""Standard normal deviate below which 95 % lie."""


LEAST_DAYS = 0.5
"""A seed marked up on the day it was sown came up within it."""

ROUNDING = 1e-12
"""Products of exact shares miss by a rounding error; a curve this close has reached its mark."""


@dataclass(frozen=True, slots=True)
class Seed:
    """One seed, sown ``age`` days ago: it came up on ``day`` [d after sowing], or was bare still."""

    age: int
    day: int
    up: bool


@dataclass(frozen=True, slots=True)
class Share:
    """What share of a lot is expected ever to come up: the label's, and what of its seeds came up."""

    label: float
    came: int
    tried: int

    @property
    def expected(self) -> float:
        """The share expected, 0 to 1: the label's, moved towards what the lot's own seeds showed.

        The mean of a beta distribution that starts at the label with the weight of `LABEL_SEEDS`.
        """
        return (LABEL_SEEDS * self.label + self.came) / (LABEL_SEEDS + self.tried)

    def with_more(self, other: Share) -> Share:
        """Return this share with the seeds of another count added."""
        return Share(self.label, self.came + other.came, self.tried + other.tried)


def due_days(median: float, spread: float) -> float:
    """Return the day by which 19 of 20 seeds that ever come up are up [d]."""
    return median * exp(NINETEEN_IN_TWENTY * spread)


def half_day(seeds: Iterable[Seed], share: float) -> float | None:
    """Return the day on which half of the seeds that were expected up were up [d], or None if not yet.

    Read off the curve of Kaplan and Meier, in which a seed that is still bare, or was lost, counts as
    bare up to the day it was last seen so. Up on the very day they were sown, they took half a day.
    """
    told = list(seeds)
    if not told:
        return None
    curve = kaplan_meier(np.array([one.day for one in told]), np.array([one.up for one in told]))
    reached = np.flatnonzero(curve.bare <= 1.0 - share / 2.0 + ROUNDING)
    return max(float(curve.days[reached[0]]), LEAST_DAYS) if reached.size else None


def tally(seeds: Iterable[Seed], label: float, due: float) -> Share:
    """Count the seeds that had time to show: those sown at least ``due`` days ago.

    A seed that was lost before that is left out, for nobody knows what would have become of it.
    """
    shown = [one.up for one in seeds if one.age >= due and (one.up or one.day >= due)]
    return Share(label, sum(shown), len(shown))


def seeds_of(season: Season, packet: str, spots: Iterable[SpotKey], today: date) -> list[Seed]:
    """Return the seeds of a packet in these spots, of cells sown once since they were last free."""
    return [seed for key in spots for seed in _seeds_in(season, packet, key, today)]


def lot_in(season: Season, holder: str, packet: str, today: date) -> tuple[Seed, ...]:
    """Return the seeds of a packet in a holder, kept until something is written of the holder."""
    return season.holder_memo(
        holder,
        ("seeds", packet, today),
        lambda: tuple(seeds_of(season, packet, season.spots_sown(packet, holder), today)),
    )


def _present(season: Season, key: SpotKey) -> list[Entry]:
    """Return the facts of a spot since it was last filled; filled but once they need no folding."""
    entries = season.spot_facts(key)
    fills = [
        place for place, one in enumerate(entries) if isinstance(one.fact, Sown) or arrives(one.fact, key)
    ]
    return entries[fills[0] :] if len(fills) == 1 else since_filled(key, entries)


def _seeds_in(season: Season, packet: str, key: SpotKey, today: date) -> Iterator[Seed]:
    facts = [entry.fact for entry in _present(season, key) if entry.fact.day <= today]
    sowings = [fact for fact in facts if isinstance(fact, Sown)]
    if len(sowings) != 1 or sowings[0].packet != packet:
        return
    sown_on, left, up = sowings[0].day, sowings[0].seeds, 0
    age = (today - sown_on).days
    for fact in facts[facts.index(sowings[0]) + 1 :]:
        if isinstance(fact, Sprouted):
            yield from [Seed(age, (fact.day - sown_on).days, up=True)] * min(left, fact.count)
            up, left = up + fact.count, max(0, left - fact.count)
        elif isinstance(fact, Lost) and up > 0:
            up = max(0, up - fact.count)
        elif isinstance(fact, Lost):
            yield from [Seed(age, (fact.day - sown_on).days, up=False)] * min(left, fact.count)
            left = max(0, left - fact.count)
        elif isinstance(fact, Moved):
            up = max(0, up - 1)
    yield from [Seed(age, age, up=False)] * left
