"""Outings: when a holder was out, in sun and in shade."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import UTC, date, datetime, time, timedelta, tzinfo

from greenroom.ledger import Entry
from greenroom.ledger.facts import OutingEnded, OutingStarted, OutingSwitched

OutingFact = OutingStarted | OutingSwitched | OutingEnded


@dataclass(frozen=True, slots=True)
class Stretch:
    """A stretch of one light, from ``start`` to ``end``; an ``end`` of None is still going on."""

    light: str
    start: datetime
    end: datetime | None = None


@dataclass(frozen=True, slots=True)
class Outing:
    """One outing of a holder, in stretches of sun and shade."""

    key: str
    holder: str
    stretches: tuple[Stretch, ...]
    facts: tuple[str, ...] = field(default=())

    @property
    def start(self) -> datetime:
        """When it went out."""
        return self.stretches[0].start

    @property
    def end(self) -> datetime | None:
        """When it came in; None while it is out."""
        return self.stretches[-1].end

    @property
    def light(self) -> str:
        """The light of its latest stretch."""
        return self.stretches[-1].light

    def touches(self, day: date, zone: tzinfo) -> bool:
        """Whether it was out at any time of a local day; one still out goes on."""
        begun = self.start.astimezone(zone).date() <= day
        return begun and (self.end is None or self.end.astimezone(zone).date() >= day)


def fold_outings(entries: Iterable[Entry]) -> list[Outing]:
    """Return the outings of one holder, by start.

    The facts of an outing are ordered by their moments, not by the day each is filed under: that day
    is the local one of the place as it was set then, and a place may be set between two facts.
    """
    told: dict[str, list[OutingFact]] = defaultdict(list)
    for entry in entries:
        if isinstance(entry.fact, OutingStarted | OutingSwitched | OutingEnded):
            told[entry.fact.outing].append(entry.fact)
    found = (_outing(facts) for facts in told.values())
    return sorted((one for one in found if one is not None), key=lambda one: (one.start, one.key))


def open_outing(outings: Iterable[Outing]) -> Outing | None:
    """Return the outing that goes on, or None."""
    return next((outing for outing in outings if outing.end is None), None)


def stretches_on(outings: Iterable[Outing], day: date, zone: tzinfo, now: datetime) -> list[Stretch]:
    """Return the stretches of a local day up to ``now``, cut at its midnights, each with an end."""
    first, last = midnight(day, zone), midnight(day + timedelta(days=1), zone)
    found = []
    for outing in outings:
        for stretch in outing.stretches:
            start, end = max(stretch.start, first), min(stretch.end or now, last)
            if start < end:
                found.append(Stretch(stretch.light, start, end))
    return sorted(found, key=lambda stretch: stretch.start)


def midnight(day: date, zone: tzinfo) -> datetime:
    """Return the moment a local day begins, in UTC.

    Where the clocks skip midnight the day begins at the skip; where midnight comes twice, at the first.
    """
    return datetime.combine(day, time(), tzinfo=zone).astimezone(UTC)


def _outing(facts: Sequence[OutingFact]) -> Outing | None:
    """Return the outing its facts tell of, or None if they do not tell when it began."""
    started = next((fact for fact in facts if isinstance(fact, OutingStarted)), None)
    if started is None:
        return None
    stretches = [Stretch(started.light, started.at)]
    for fact in sorted(facts, key=lambda one: one.at):
        if stretches[-1].end is not None or isinstance(fact, OutingStarted):
            continue
        at = max(fact.at, stretches[-1].start)
        stretches[-1] = replace(stretches[-1], end=at)
        if isinstance(fact, OutingSwitched):
            stretches.append(Stretch(fact.light, at))
    return Outing(started.outing, started.holder, tuple(stretches), tuple(fact.id for fact in facts))
