"""The drying of a weighed holder: how its held water falls, and the day or hour it is half gone."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, tzinfo
from math import floor, log2
from typing import NamedTuple

from greenroom.agronomy.watering import days_to_dry
from greenroom.ledger import Entry
from greenroom.ledger.facts import Watered, Weighed
from greenroom.speech import tr

Watering = tuple[int, Watered]
"""A watering with its number, which orders facts of the same day."""

TRIGGER = 0.5
"""Water when half of what a soaked holder gives its plants is gone."""
LEAST_SPAN_DAYS = 0.25
"""Weights less than six hours apart tell no pace: a working rule of this program."""
DAY = timedelta(days=1)


class Weight(NamedTuple):
    """What the scale showed [g] on a day, and at which moment if the hour is known."""

    day: date
    grams: float
    at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Weighing:
    """A weight since the last watering; ``share`` is the part of the soaked holder's water still held."""

    day: date
    grams: float
    share: float
    at: datetime | None = None


@dataclass(frozen=True, slots=True)
class DryDown:
    """How a holder dries: the held water is halved every ``halving_days``.

    ``start`` is the day the curve begins and ``share`` what is held then. ``on`` is the day it falls to
    the trigger; where every weight carries its hour ``began`` and ``at`` are the moments of both, else
    None. ``before`` tells that its pace was taken from an earlier drying, since the one that runs
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
    began: datetime | None = None
    at: datetime | None = None

    def share_on(self, days: float) -> float:
        """Return the share still held so many days after the curve began."""
        return float(self.share * 0.5 ** (days / self.halving_days))


@dataclass(frozen=True, slots=True)
class Weights:
    """What the scale told of a holder: soaked, dry, and as it was since the last watering [g]."""

    wet_g: float | None
    dry_g: float | None
    weighings: tuple[Weight, ...]

    @property
    def missing(self) -> str:
        """What is still to be weighed before a day can be told; empty if nothing is."""
        if self.wet_g is None:
            return tr("its weight soaked and drained")
        if self.dry_g is None:
            return tr("its weight when the plants begin to look dull")
        return (
            ""
            if len(self.weighings) > 1
            else tr("its weight on two days, or six hours apart, since it was watered")
        )


def waterings_of(entries: Sequence[Entry], today: date) -> list[Watering]:
    """Return the waterings told up to a day, in order, each with its number."""
    told = ((entry.number, entry.fact) for entry in entries if entry.fact.day <= today)
    return [(number, fact) for number, fact in told if isinstance(fact, Watered)]


def weights_of(entries: Sequence[Entry], today: date) -> Weights:
    """Return what the scale told up to a day."""
    return _weights(entries, today, waterings_of(entries, today))


def dry_down(entries: Sequence[Entry], today: date, zone: tzinfo = UTC) -> DryDown | None:
    """Return how a holder dries, or None where its weights do not tell.

    Parameters
    ----------
    entries : sequence of Entry
        The facts about the holder, in order.
    today : date
    zone : tzinfo
        The place's time zone, in which the hour of a weight belongs to a day.

    Notes
    -----
    The curve is that of `greenroom.agronomy.watering.days_to_dry`. With fewer than two weights since the
    last watering, the pace of the latest earlier drying that has them is taken. Hours count where every
    weight of a drying carries one; else the last weight of each day does.
    """
    waterings = waterings_of(entries, today)
    known = _weights(entries, today, waterings)
    if known.wet_g is None or known.dry_g is None or known.dry_g >= known.wet_g:
        return None
    held = known.wet_g - known.dry_g
    shares = tuple(
        Weighing(one.day, one.grams, (one.grams - known.dry_g) / held, one.at) for one in known.weighings
    )
    fit = _fit(known.weighings, known.wet_g, known.dry_g)
    if fit is None:
        return _as_before(entries, waterings, known, shares, zone)
    on, at = _later(fit.first, fit.half, zone)
    return DryDown(
        wet_g=known.wet_g,
        dry_g=known.dry_g,
        weighings=shares,
        halving_days=fit.pace,
        start=fit.first.day,
        share=0.5 ** (-fit.full / fit.pace),
        on=on,
        began=fit.first.at,
        at=at,
    )


class _Fit(NamedTuple):
    """The first weight, and the days from it to all and to half of the water."""

    first: Weight
    full: float
    half: float

    @property
    def pace(self) -> float:
        """Days in which the water is halved."""
        return self.half - self.full


def _as_before(
    entries: Sequence[Entry],
    waterings: Sequence[Watering],
    known: Weights,
    shares: tuple[Weighing, ...],
    zone: tzinfo,
) -> DryDown | None:
    """Return the drying by the pace of an earlier one; None if there is none, or nothing to begin from."""
    if not waterings or known.wet_g is None or known.dry_g is None:
        return None
    pace = _earlier_pace(entries, waterings, known.wet_g, known.dry_g)
    watered = waterings[-1][1]
    last = shares[-1] if shares else Weighing(watered.day, known.wet_g, 1.0, watered.at)
    if pace is None or last.share <= 0:
        return None
    first = Weight(last.day, last.grams, last.at)
    on, at = _later(first, pace * log2(last.share / TRIGGER), zone)
    return DryDown(
        known.wet_g,
        known.dry_g,
        shares,
        pace,
        last.day,
        last.share,
        on,
        before=True,
        began=last.at,
        at=at,
    )


def _later(first: Weight, days: float, zone: tzinfo) -> tuple[date, datetime | None]:
    """Return the day so many days after a weight, and the moment where its hour is known."""
    if first.at is None:
        return first.day + timedelta(days=floor(days)), None
    at = first.at + days * DAY
    return at.astimezone(zone).date(), at


def _earlier_pace(
    entries: Sequence[Entry], waterings: Sequence[Watering], wet_g: float, dry_g: float
) -> float | None:
    """Return the days in which the water was halved in the latest earlier drying that tells."""
    for place in range(len(waterings) - 1, -1, -1):
        end_number, end = waterings[place]
        before = [entry for entry in entries if (entry.fact.day, entry.number) < (end.day, end_number)]
        fit = _fit(_weights(before, end.day, waterings[:place]).weighings, wet_g, dry_g)
        if fit is not None:
            return fit.pace
    return None


def _weights(entries: Sequence[Entry], today: date, waterings: Sequence[Watering]) -> Weights:
    """Return the latest weights soaked and dry, and those since the last watering, in order of time."""
    told = [
        (entry.number, entry.fact)
        for entry in entries
        if isinstance(entry.fact, Weighed) and entry.fact.day <= today
    ]
    wet = [fact.grams for _, fact in told if fact.state == "wet"]
    dry = [fact.grams for _, fact in told if fact.state == "dry"]
    last = waterings[-1] if waterings else None
    since: dict[tuple[date, datetime | None], float] = {}
    if last is not None and last[1].weight_g is not None:
        since[last[1].day, last[1].at] = last[1].weight_g
    for number, fact in told:
        if fact.state != "dry" and _after(number, fact, last):
            since[fact.day, fact.at] = fact.grams
    found = [Weight(day, grams, at) for (day, at), grams in since.items()]
    found.sort(key=lambda one: (one.day, one.at.timestamp() if one.at else 0.0))
    return Weights(wet[-1] if wet else None, dry[-1] if dry else None, tuple(found))


def _after(number: int, weight: Weighed, watering: Watering | None) -> bool:
    """Whether a weight belongs to the drying after a watering; soaked on its day it does in any order."""
    if watering is None or weight.day > watering[1].day:
        return True
    if weight.day < watering[1].day or weight.state == "wet":
        return weight.day == watering[1].day
    if weight.at is not None and watering[1].at is not None:
        return weight.at >= watering[1].at
    return number > watering[0]


def _fit(weights: Sequence[Weight], wet_g: float, dry_g: float) -> _Fit | None:
    """Return the curve through some weights; None where they are too few, too close or do not fall."""
    hourly = all(one.at is not None for one in weights)
    used = (
        list(weights) if hourly else list({one.day: Weight(one.day, one.grams) for one in weights}.values())
    )
    if len(used) < 2 or dry_g >= wet_g:
        return None
    days = [_days_between(used[0], one) for one in used]
    if days[-1] < LEAST_SPAN_DAYS:
        return None
    grams = [one.grams for one in used]
    full = days_to_dry(grams, days, wet_g, dry_g, 1.0)
    half = days_to_dry(grams, days, wet_g, dry_g, TRIGGER)
    return None if full is None or half is None else _Fit(used[0], full, half)


def _days_between(first: Weight, later: Weight) -> float:
    if first.at is None or later.at is None:
        return float((later.day - first.day).days)
    return (later.at - first.at) / DAY
