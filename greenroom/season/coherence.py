"""Whether the facts about a spot can all be true together.

Marks may be written for an earlier day and any mark may be taken back, so what is proposed is held
against what the spot's other facts rest on: no seedling can leave a cell in which none stood.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from greenroom.ledger import Entry
from greenroom.ledger.facts import Fact, Lost, Moved, Sown, SpotFact, Sprouted
from greenroom.season.few_words import spot_words
from greenroom.season.hardening_words import day_words
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import SpotKey, arrives, keys_of, left_after, order_of
from greenroom.season.state import Season
from greenroom.speech import tr

NOT_YET_NUMBERED = 1 << 60


def coherent(season: Season, proposal: Proposal, keys: Iterable[SpotKey] = ()) -> Proposal:
    """Return a proposal after which every spot still makes sense.

    Parameters
    ----------
    season : Season
    proposal : Proposal
    keys : iterable of SpotKey
        The spots whose facts the proposal strikes out.

    Raises
    ------
    RefusedError
        With one sentence, if a fact would stand there that cannot be true with the others. A spot
        that made no sense before is not held against the proposal.
    """
    added = [Entry(NOT_YET_NUMBERED + place, 0, fact) for place, fact in enumerate(proposal.record)]
    struck = frozenset(proposal.strike)
    new = frozenset(fact.id for fact in proposal.record)
    for key in _touched(season, added, struck, keys):
        before = season.spot_facts(key)
        after = [entry for entry in before if entry.fact.id not in struck]
        after += [entry for entry in added if key in _keys(entry)]
        after.sort(key=order_of)
        wrong_before = {entry.fact.id for entry in misfits(key, before)}
        for entry in misfits(key, after):
            if entry.fact.id not in wrong_before:
                raise RefusedError(_sentence(season, key, entry, new=new))
    return proposal


def misfits(key: SpotKey, entries: Iterable[Entry]) -> Iterator[Entry]:
    """Yield the facts about a spot (in order) that cannot be true after the ones before them.

    Leaf counts are not held against it: one that outlives its seedling's sprout mark counts again with the
    next.
    """
    waiting = up = 0
    for entry in entries:
        if not _fits(key, entry.fact, waiting, up):
            yield entry
        waiting, up = left_after(waiting, up, entry.fact, came=arrives(entry.fact, key))


def _fits(key: SpotKey, fact: Fact, waiting: int, up: int) -> bool:
    """Whether a fact can be true of a spot in which so many seeds wait and so many seedlings stand."""
    match fact:
        case Sown():
            return up == 0
        case Sprouted(count=count):
            return waiting >= count
        case Lost(count=count):
            return (up or waiting) >= count
        case Moved() if arrives(fact, key):
            return up == 0 and waiting == 0
        case Moved():
            return up > 0
    return True


def _touched(
    season: Season, added: list[Entry], struck: frozenset[str], keys: Iterable[SpotKey]
) -> list[SpotKey]:
    leaving = [entry for key in keys for entry in season.spot_facts(key) if entry.fact.id in struck]
    return list(dict.fromkeys(key for entry in [*added, *leaving] for key in _keys(entry)))


def _keys(entry: Entry) -> tuple[SpotKey, ...]:
    return keys_of(entry.fact) if isinstance(entry.fact, SpotFact) else ()


def _sentence(season: Season, key: SpotKey, entry: Entry, *, new: frozenset[str]) -> str:
    """Return why a fact no longer fits; ``new`` are the ids of the facts that are proposed."""
    fact = entry.fact
    spot = spot_words(season, key)
    day = day_words(fact.day)
    if fact.id not in new and not new:
        return tr(
            "The {entry} of {day} in {spot} rests on this; take that back first.",
            entry=fact.words,
            day=day,
            spot=spot,
        )
    if fact.id not in new:
        return tr(
            "The {entry} of {day} in {spot} came later and would not fit; choose a later day.",
            entry=fact.words,
            day=day,
            spot=spot,
        )
    if arrives(fact, key):
        return tr("{spot} was not empty on {day}; choose a later day or another spot.", spot=spot, day=day)
    return tr(
        "The {entry} of {day} does not fit what stood in {spot} on that day; choose a later day.",
        entry=fact.words,
        day=day,
        spot=spot,
    )
