"""What bringing an archive into a ledger would do: what is new, what is here, whose word is the later."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from greenroom.ledger import Book, Entry
from greenroom.ledger.facts import (
    BedLaid,
    Fact,
    Forecast,
    FrostDatesGiven,
    JobPutOff,
    Obstacle,
    OnlineChoice,
    Packet,
    PlaceSet,
    PlanRules,
    RampSet,
    SowingPlanned,
    UnitsSet,
    Variety,
    Wanted,
    YardSun,
)

ONE = ()
LAST_WORD: dict[type[Fact], Callable[[Any], Hashable]] = {
    PlaceSet: lambda _fact: ONE,
    UnitsSet: lambda _fact: ONE,
    FrostDatesGiven: lambda _fact: ONE,
    OnlineChoice: lambda _fact: ONE,
    PlanRules: lambda _fact: ONE,
    YardSun: lambda _fact: ONE,
    Forecast: lambda _fact: ONE,
    RampSet: lambda fact: fact.crop,
    Variety: lambda fact: fact.variety,
    Packet: lambda fact: fact.packet,
    Wanted: lambda fact: (fact.variety, fact.year),
    SowingPlanned: lambda fact: (fact.variety, fact.year),
    BedLaid: lambda fact: fact.holder,
    Obstacle: lambda fact: fact.obstacle,
    JobPutOff: lambda fact: fact.job,
}
"""The kinds of which the last word counts, and what each is the last word on."""


@dataclass(frozen=True, slots=True)
class Merge:
    """What is new of an archive, and what it changes of what is here.

    ``aside`` are new facts that do not come into force, because a later word of the same thing is here;
    ``strike`` and ``restore`` are facts here of which the archive has the later word.
    """

    new: int
    here: int
    empty: bool
    aside: tuple[str, ...] = ()
    strike: tuple[str, ...] = ()
    restore: tuple[str, ...] = ()

    @property
    def nothing(self) -> bool:
        """Whether all of it is here already."""
        return not (self.new or self.strike or self.restore)


def merge_of(mine: Book, theirs: Book) -> Merge:
    """Return what bringing ``theirs`` into ``mine`` would do."""
    known = {entry.fact.id for entry in mine.entries}
    new = [entry for entry in theirs.entries if entry.fact.id not in known]
    here = len(theirs.entries) - len(new)
    if not mine.acts:
        return Merge(len(new), here, empty=True)
    strike, restore = _turned(mine, theirs)
    return Merge(len(new), here, False, _outdone(mine, theirs, new), strike, restore)


def _outdone(mine: Book, theirs: Book, new: list[Entry]) -> tuple[str, ...]:
    """Return the new facts that would take the place of a later word here.

    Leave to use the network is never brought in: it is given on this machine or not at all.
    """
    written_here = {act.number: act.written for act in mine.acts}
    written_there = {act.number: act.written for act in theirs.acts}
    latest: dict[Hashable, datetime] = {}
    for entry in mine.standing:
        about = _about(entry.fact)
        if about is not None:
            latest[about] = max(written_here[entry.act], latest.get(about, written_here[entry.act]))
    found = []
    for entry in new:
        about = _about(entry.fact)
        outdone = about is not None and about in latest and written_there[entry.act] < latest[about]
        if outdone or isinstance(entry.fact, OnlineChoice):
            found.append(entry.fact.id)
    return tuple(found)


def _about(fact: Fact) -> Hashable | None:
    make = LAST_WORD.get(type(fact))
    return None if make is None else (fact.kind, make(fact))


def _turned(mine: Book, theirs: Book) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return the facts of both that the archive strikes out, or restores, with a later word than here."""
    said_here, said_there = mine.last_words(), theirs.last_words()
    out_there = {entry.fact.id for entry in theirs.entries if entry.number in theirs.struck}
    out_here = {entry.fact.id for entry in mine.entries if entry.number in mine.struck}
    both = [entry.fact.id for entry in mine.entries if entry.fact.id in said_there]
    later = [one for one in both if said_there[one] > said_here[one]]
    strike = tuple(one for one in later if one in out_there and one not in out_here)
    restore = tuple(one for one in later if one in out_here and one not in out_there)
    return strike, restore
