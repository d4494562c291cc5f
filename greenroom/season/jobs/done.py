"""What was done today, by whatever page it was done, so that it can be looked over and taken back."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from greenroom.ledger import Entry
from greenroom.ledger.facts import (
    BasinEmptied,
    CoolNight,
    Covered,
    Fact,
    Fed,
    Finding,
    Flowered,
    GerminationCount,
    GerminationTest,
    HardeningStarted,
    Held,
    LampsSet,
    LookedOver,
    Lost,
    MixFelt,
    Moved,
    Mulched,
    OutingEnded,
    OutingStarted,
    Picked,
    Pruned,
    SeedSaved,
    SoilFelt,
    Sown,
    SpotFact,
    Sprouted,
    Staked,
    Watered,
    Weighed,
)
from greenroom.season.care_words import care_words
from greenroom.season.coherence import coherent
from greenroom.season.deeds_round import take_back
from greenroom.season.few_words import THINNED
from greenroom.season.hardening_words import time_words
from greenroom.season.home_tests import home_test
from greenroom.season.jobs.job import DESK, DOOR, PLOT, SHELF, Walk
from greenroom.season.packets import variety_name
from greenroom.season.proposal import Proposal
from greenroom.season.spots import keys_of
from greenroom.speech import many, tr, trn

SET_PLACES = {
    **dict.fromkeys((HardeningStarted, Held, OutingStarted, OutingEnded), DOOR),
    **dict.fromkeys((GerminationCount, GerminationTest), DESK),
    **dict.fromkeys((SoilFelt, Picked, SeedSaved), PLOT),
}
"""Where some things are done, wherever what they are done to stands."""

WHERE_IT_STANDS = (
    BasinEmptied,
    CoolNight,
    Covered,
    Fed,
    Finding,
    Flowered,
    LampsSet,
    LookedOver,
    Lost,
    MixFelt,
    Moved,
    Mulched,
    Pruned,
    Sown,
    Sprouted,
    Staked,
    Watered,
    Weighed,
)
TOLD = (*SET_PLACES, *WHERE_IT_STANDS)
"""What counts as done; the rest is written at the desk and has pages of its own."""


@dataclass(frozen=True, slots=True)
class Done:
    """One thing done today: where, to what, in words; ``entries`` are what it wrote."""

    where: str
    what: str
    words: str
    entries: tuple[Entry, ...]

    @property
    def act(self) -> int:
        """The number of the act that wrote it."""
        return self.entries[-1].act


def done_today(walk: Walk) -> list[Done]:
    """Return what was done today: marks of one kind in one holder together, the rest act by act."""
    groups: dict[tuple[int | None, str, str], list[Entry]] = {}
    for entry in [*walk.season.on_day(walk.today), *_tonight(walk)]:
        if isinstance(entry.fact, TOLD):
            act = None if isinstance(entry.fact, SpotFact) else entry.act
            key = (act, entry.fact.kind, _subject(entry.fact))
            groups.setdefault(key, []).append(entry)
    return [_done(walk, entries) for entries in groups.values()]


def take_done_back(walk: Walk, done: Done) -> Proposal:
    """Strike out what one thing done today wrote.

    Raises
    ------
    RefusedError
        If something later rests on it.
    """
    proposal = take_back(f"{done.what}, {done.words}", [entry.fact.id for entry in done.entries])
    keys = [key for entry in done.entries if isinstance(entry.fact, SpotFact) for key in keys_of(entry.fact)]
    return coherent(walk.season, proposal, keys)


def _tonight(walk: Walk) -> list[Entry]:
    """Return the cool nights that were set today: they are filed under tomorrow."""
    tomorrow = date.fromordinal(walk.today.toordinal() + 1)
    return [entry for entry in walk.season.on_day(tomorrow) if isinstance(entry.fact, CoolNight)]


def _subject(fact: Fact) -> str:
    """Return what a fact is about: where seedlings went, else its holder, else its variety."""
    if isinstance(fact, Moved):
        return fact.to_holder
    holder = getattr(fact, "holder", None)
    return str(holder if holder is not None else getattr(fact, "variety", ""))


def _done(walk: Walk, entries: Sequence[Entry]) -> Done:
    fact = entries[0].fact
    return Done(_where(walk, fact), _what(walk, fact), _words(walk, entries), tuple(entries))


def _where(walk: Walk, fact: Fact) -> str:
    set_place = SET_PLACES.get(type(fact))
    if set_place is not None:
        return set_place
    return PLOT if _form(walk, _subject(fact)) == "bed" else SHELF


def _what(walk: Walk, fact: Fact) -> str:
    if isinstance(fact, GerminationTest):
        return variety_name(walk.season, fact.packet)
    if isinstance(fact, GerminationCount):
        test = home_test(walk.season, fact.test)
        return variety_name(walk.season, test.packet) if test is not None else tr("a test")
    if isinstance(fact, LampsSet):
        return fact.place
    return _name(walk, _subject(fact))


def _words(walk: Walk, entries: Sequence[Entry]) -> str:
    """Return what was done, with how often where one act did it to several spots."""
    facts = [entry.fact for entry in entries]
    first, number = facts[0], len(facts)
    match first:
        case Sown():
            seeds = sum(fact.seeds for fact in facts if isinstance(fact, Sown))
            return tr("sown, {seeds} in {cells}", seeds=many(seeds, "seed"), cells=many(number, "cell"))
        case Sprouted():
            up = sum(fact.count for fact in facts if isinstance(fact, Sprouted))
            return trn("{n} up", "{n} up", up, sense="of the day")
        case Lost():
            lost = sum(fact.count for fact in facts if isinstance(fact, Lost))
            if first.cause == THINNED:
                return trn("{n} thinned", "{n} thinned", lost)
            return trn("{n} lost", "{n} lost", lost)
        case Moved():
            return trn("{n} moved in", "{n} moved in", number)
        case OutingStarted():
            time = time_words(first.at, walk.place)
            if first.light == "sun":
                return tr("went out into the sun at {time}", time=time)
            return tr("went out into the shade at {time}", time=time)
        case OutingEnded():
            return tr("came in at {time}", time=time_words(first.at, walk.place))
        case GerminationTest():
            return tr("test begun, {seeds}", seeds=many(first.seeds, "seed"))
        case GerminationCount():
            return tr("test counted, {number} more", number=first.count)
        case HardeningStarted():
            return tr("hardening begun")
        case Held():
            return tr("kept in")
    words = care_words(walk.season, first) or first.words
    return words if number == 1 else f"{words}, {many(number, 'plant')}"


def _name(walk: Walk, key: str) -> str:
    try:
        return walk.season.holder(key).name
    except KeyError:
        return tr("The garden")


def _form(walk: Walk, key: str) -> str:
    try:
        return walk.season.holder(key).form
    except KeyError:
        return "bed"
