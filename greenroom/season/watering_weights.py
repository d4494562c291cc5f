"""The drying of a weighed holder: how its held water falls, and the day it is half gone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import floor, log2

from greenroom.agronomy.watering import days_to_dry
from greenroom.ledger import Entry
from greenroom.ledger.facts import Watered, Weighed

Watering = tuple[int, Watered]
"""A watering with its number, which orders facts of the same day."""

TRIGGER = 0.5
"""Water when half of what a soaked holder gives its plants is gone."""


@dataclass(frozen=True, slots=True)
class Weighing:
    """A weight since the last watering; ``share`` is the part of the soaked holder's water still held."""

    day: date
    grams: float
    share: float


@dataclass(frozen=True, slots=True)
class DryDown:
    """How a holder dries: the held water is halved every ``halving_days``.

    ``start`` is the day the curve begins and ``share`` what is held on it. ``on`` is the day it falls to
    the trigger. ``before`` tells that its pace was taken from an earlier drying, since the one that runs
    has too few weights; then ``start`` is the last weighing, or the last watering, taken for soaked.
    """

    wet_g: float
    dry_g: float
    weighings: tuple[Weighing, ...]
    halving_days: float
    start: date
    share: float
    on: date
    before: bool = False

    def share_on(self, days: float) -> float:
        """Return the share still held so many days after ``start``."""
        return float(self.share * 0.5 ** (days / self.halving_days))


@dataclass(frozen=True, slots=True)
class Weights:
    """What the scale told of a holder: soaked, dry, and as it was since the last watering [g]."""

    wet_g: float | None
    dry_g: float | None
    weighings: tuple[tuple[date, float], ...]

    @property
    def missing(self) -> str:
        """What is still to be weighed before a day can be told; empty if nothing is."""
        if self.wet_g is None:
            return "its weight soaked and drained"
        if self.dry_g is None:
            return "its weight when the plants begin to look dull"
        return "" if len(self.weighings) > 1 else "its weight on two days since it was watered"


def waterings_of(entries: Sequence[Entry], today: date) -> list[Watering]:
    """Return the waterings told up to a day, in order, each with its number."""
    told = ((entry.number, entry.fact) for entry in entries if entry.fact.day <= today)
    return [(number, fact) for number, fact in told if isinstance(fact, Watered)]


def weights_of(entries: Sequence[Entry], today: date) -> Weights:
    """Return what the scale told up to a day."""
    return _weights(entries, today, waterings_of(entries, today))


def dry_down(entries: Sequence[Entry], today: date) -> DryDown | None:
    """Return how a holder dries, or None where its weights do not tell.

    Parameters
    ----------
    entries : sequence of Entry
        The facts about the holder, in order.
    today : date

    Notes
    -----
    The curve is that of `greenroom.agronomy.watering.days_to_dry`. With fewer than two weights since the
    last watering, the pace of the latest earlier drying that has them is taken.
    """
    waterings = waterings_of(entries, today)
    known = _weights(entries, today, waterings)
    if known.wet_g is None or known.dry_g is None or known.dry_g >= known.wet_g:
        return None
    fit = _fit(known.weighings, known.wet_g, known.dry_g)
    shares = tuple(
        Weighing(day, grams, (grams - known.dry_g) / (known.wet_g - known.dry_g))
        for day, grams in known.weighings
    )
    if fit is not None:
        start, full, half = fit
        share = 0.5 ** (-full / (half - full))
        on = start + timedelta(days=floor(half))
        return DryDown(known.wet_g, known.dry_g, shares, half - full, start, share, on)
    return _as_before(entries, waterings, known, shares)


def _as_before(
    entries: Sequence[Entry], waterings: Sequence[Watering], known: Weights, shares: tuple[Weighing, ...]
) -> DryDown | None:
    """Return the drying by the pace of an earlier one; None if there is none, or nothing to begin from."""
    if not waterings or known.wet_g is None or known.dry_g is None:
        return None
    pace = _earlier_pace(entries, waterings, known.wet_g, known.dry_g)
    last = shares[-1] if shares else Weighing(waterings[-1][1].day, known.wet_g, 1.0)
    if pace is None or last.share <= 0:
        return None
    on = last.day + timedelta(days=floor(pace * log2(last.share / TRIGGER)))
    return DryDown(known.wet_g, known.dry_g, shares, pace, last.day, last.share, on, before=True)


def _earlier_pace(
    entries: Sequence[Entry], waterings: Sequence[Watering], wet_g: float, dry_g: float
) -> float | None:
    """Return the days in which the water was halved in the latest earlier drying that tells."""
    for place in range(len(waterings) - 1, -1, -1):
        end_number, end = waterings[place]
        before = [entry for entry in entries if (entry.fact.day, entry.number) < (end.day, end_number)]
        fit = _fit(_weights(before, end.day, waterings[:place]).weighings, wet_g, dry_g)
        if fit is not None:
            return fit[2] - fit[1]
    return None


def _weights(entries: Sequence[Entry], today: date, waterings: Sequence[Watering]) -> Weights:
    """Return the latest weights soaked and dry, and the last of each day since the last watering."""
    told = [
        (entry.number, entry.fact)
        for entry in entries
        if isinstance(entry.fact, Weighed) and entry.fact.day <= today
    ]
    wet = [fact.grams for _, fact in told if fact.state == "wet"]
    dry = [fact.grams for _, fact in told if fact.state == "dry"]
    last = waterings[-1] if waterings else None
    since: dict[date, float] = {}
    if last is not None and last[1].weight_g is not None:
        since[last[1].day] = last[1].weight_g
    for number, fact in told:
        if fact.state != "dry" and _after(number, fact, last):
            since[fact.day] = fact.grams
    return Weights(wet[-1] if wet else None, dry[-1] if dry else None, tuple(sorted(since.items())))


def _after(number: int, weight: Weighed, watering: Watering | None) -> bool:
    """Whether a weight belongs to the drying after a watering; soaked on its day it does in any order."""
    if watering is None or weight.day > watering[1].day:
        return True
    return weight.day == watering[1].day and (number > watering[0] or weight.state == "wet")


def _fit(
    weighings: Sequence[tuple[date, float]], wet_g: float, dry_g: float
) -> tuple[date, float, float] | None:
    """Return the first day, and the days from it to all and to half of the water; None if not falling."""
    if len(weighings) < 2 or dry_g >= wet_g:
        return None
    first = weighings[0][0]
    days = [float((day - first).days) for day, _ in weighings]
    grams = [weight for _, weight in weighings]
    full = days_to_dry(grams, days, wet_g, dry_g, 1.0)
    half = days_to_dry(grams, days, wet_g, dry_g, TRIGGER)
    return None if full is None or half is None else (first, full, half)
