"""The story of many plants at once: of a packet with all its cells, of a holder with all its spots."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any

from greenroom.ledger import Entry
from greenroom.ledger.facts import (
    Fact,
    Finding,
    Flowered,
    GerminationCount,
    GerminationTest,
    LeafStage,
    Lost,
    Moved,
    Note,
    Packet,
    Picked,
    PictureKept,
    Pruned,
    SeedSaved,
    SowingPlanned,
    Sown,
    Sprouted,
    Variety,
    Wanted,
)
from greenroom.season.losses import cause_words
from greenroom.season.packets import variety_name
from greenroom.season.spots import SpotKey, arrives, fillings, keys_of, order_of
from greenroom.season.state import Season
from greenroom.season.story import Line, spot_line
from greenroom.season.story_life import FIRST, LAST, Order, Stay, holder_lines
from greenroom.season.story_words import fact_words, leaves_words
from greenroom.speech import many, tr, trn

ALONE = (Note, PictureKept, Finding)
"""What is told of each plant by itself, since no two are the same."""

Told = tuple[Order, Line]
Marks = dict[str, tuple[SpotKey, Entry]]


def packet_story(season: Season, packet: str) -> tuple[Line, ...]:
    """Return the story of a packet: the seed, its tests, and all that was sown of it, in order.

    What happened to several plants of one holder on one day is one line.
    """
    fact = season.thing(Packet, packet)
    if fact is None:
        return ()
    told = [*_seed_lines(season, packet, fact.variety), *_summed(season, _marks_of_packet(season, packet))]
    return tuple(line for _, line in sorted(told, key=lambda one: one[0]))


def holder_story(season: Season, holder: str) -> tuple[Line, ...]:
    """Return the story of a tray, rack or bed: what was done to all of it, and to its spots, in order."""
    marks: Marks = {entry.fact.id: (key, entry) for key, entry in season.facts_in(holder)}
    whole = holder_lines(season, Stay(holder, FIRST, LAST), None)
    told = [*whole, *_summed(season, marks)]
    return tuple(line for _, line in sorted(told, key=lambda one: one[0]))


def _seed_lines(season: Season, packet: str, variety: str) -> Iterator[Told]:
    """Yield what was told of the seed itself."""
    tests = {fact.test for fact in season.facts(GerminationTest) if fact.packet == packet}
    mine: tuple[tuple[type[Fact], Callable[[Any], bool]], ...] = (
        (Variety, lambda fact: fact.variety == variety),
        (Packet, lambda fact: fact.packet == packet),
        (Wanted, lambda fact: fact.variety == variety),
        (SowingPlanned, lambda fact: fact.variety == variety),
        (GerminationTest, lambda fact: fact.packet == packet),
        (GerminationCount, lambda fact: fact.test in tests),
        (Picked, lambda fact: fact.variety == variety and fact.row is None),
        (SeedSaved, lambda fact: fact.variety == variety and fact.row is None),
        (PictureKept, lambda fact: fact.packet == packet),
    )
    for cls, wanted in mine:
        for number, fact in season.numbered(cls):
            if wanted(fact):
                picture = fact if isinstance(fact, PictureKept) else None
                line = Line(fact.day, fact_words(season, fact), None, fact.id, 0, fixed=True, picture=picture)
                yield (fact.day, number), replace(line, fixed=picture is None)


def _marks_of_packet(season: Season, packet: str) -> Marks:
    """Return what was told of every plant of a packet, wherever it was moved, by the fact's id."""
    marks: Marks = {}
    waiting = [(key, part) for key in season.spots_sown(packet) for part in _parts(season, key, packet)]
    seen: set[tuple[SpotKey, str]] = set()
    while waiting:
        key, part = waiting.pop()
        if (key, part[0].fact.id) in seen:
            continue
        seen.add((key, part[0].fact.id))
        for entry in part:
            marks.setdefault(entry.fact.id, (key, entry))
            if isinstance(entry.fact, Moved) and not arrives(entry.fact, key):
                target = keys_of(entry.fact)[1]
                waiting += [(target, one) for one in _arrived(season, target, entry)]
    return marks


def _parts(season: Season, key: SpotKey, packet: str) -> Iterator[list[Entry]]:
    """Yield what happened to each filling of a spot that was sown from a packet."""
    for part in fillings(key, season.spot_facts(key)):
        if any(isinstance(entry.fact, Sown) and entry.fact.packet == packet for entry in part):
            yield part


def _arrived(season: Season, key: SpotKey, move: Entry) -> list[list[Entry]]:
    parts = fillings(key, season.spot_facts(key))
    return [part for part in parts if part[0].fact.id == move.fact.id]


def _summed(season: Season, marks: Marks) -> list[Told]:
    """Return the lines of many marks, those of one day, holder and kind as one."""
    told: list[Told] = []
    groups: dict[tuple[object, ...], list[tuple[SpotKey, Entry]]] = defaultdict(list)
    for key, entry in marks.values():
        if isinstance(entry.fact, ALONE):
            line = spot_line(season, key, entry)
            told.append((order_of(entry), replace(line, words=_of_spot(key, line.words))))
            continue
        groups[(entry.fact.day, key.holder, type(entry.fact), _like(entry.fact))].append((key, entry))
    told += [_as_one(season, group) for group in groups.values()]
    return told


def _of_spot(key: SpotKey, words: str) -> str:
    return tr("{name}: {what}", name=key.label, what=words)


def _like(fact: Fact) -> tuple[object, ...]:
    """Return what two marks must share to be told as one."""
    match fact:
        case Sown(packet=packet):
            return (packet,)
        case LeafStage(leaves=leaves):
            return (leaves,)
        case Lost(cause=cause):
            return (cause,)
        case Moved(holder=source, to_holder=target):
            return (source, target)
        case Pruned(what=what):
            return (what,)
        case Picked(variety=variety, ripeness=ripeness):
            return (variety, ripeness)
        case SeedSaved(variety=variety):
            return (variety,)
    return ()


def _as_one(season: Season, group: list[tuple[SpotKey, Entry]]) -> Told:
    group.sort(key=lambda one: order_of(one[1]))
    key, first = group[0]
    if len(group) == 1:
        line = spot_line(season, key, first)
        words = line.words if isinstance(first.fact, Sown | Moved) else _of_spot(key, line.words)
        return order_of(first), replace(line, words=words)
    facts = [entry.fact for _, entry in group]
    words = _sum_words(season, key.holder, facts)
    others = tuple(fact.id for fact in facts[1:])
    return order_of(first), Line(
        first.fact.day, words, None, first.fact.id, first.act, of=key.holder, others=others, fixed=True
    )


def _sum_words(season: Season, holder: str, facts: list[Fact]) -> str:
    name = season.holder(holder).name
    words = _SUMS.get(type(facts[0]))
    if words is not None:
        return words(season, name, facts)
    alike = Counter(fact_words(season, fact) for fact in facts)
    return trn(
        "{what}: {n:,} plant of {tray}",
        "{what}: {n:,} plants of {tray}",
        len(facts),
        what=", ".join(alike),
        tray=name,
    )


def _sown_sum(season: Season, name: str, facts: list[Any]) -> str:
    seeds = sum(fact.seeds for fact in facts)
    variety = variety_name(season, facts[0].packet)
    return tr(
        "sown, {seeds} of {variety}, in {spots} spots of {tray}",
        seeds=many(seeds, "seed"),
        variety=variety,
        spots=len(facts),
        tray=name,
    )


def _up_sum(_season: Season, name: str, facts: list[Any]) -> str:
    return trn("{n} up in {tray}", "{n} up in {tray}", sum(fact.count for fact in facts), tray=name)


def _leaf_sum(_season: Season, name: str, facts: list[Any]) -> str:
    leaves = facts[0].leaves
    return tr(
        "{leaves}: {number} in {tray}",
        leaves=leaves_words(leaves) if leaves else tr("seed leaves only"),
        number=len(facts),
        tray=name,
    )


def _lost_sum(_season: Season, name: str, facts: list[Any]) -> str:
    cause = cause_words(facts[0].cause) if facts[0].cause else tr("cause not known")
    number = sum(fact.count for fact in facts)
    return trn("{n} lost in {tray}: {cause}", "{n} lost in {tray}: {cause}", number, tray=name, cause=cause)


def _moved_sum(season: Season, _name: str, facts: list[Any]) -> str:
    source, target = season.holder(facts[0].holder).name, season.holder(facts[0].to_holder).name
    if source == target:
        return trn("{n} moved within {tray}", "{n} moved within {tray}", len(facts), tray=source)
    return trn(
        "{n} moved from {tray} to {target}",
        "{n} moved from {tray} to {target}",
        len(facts),
        tray=source,
        target=target,
    )


def _picked_sum(season: Season, name: str, facts: list[Any]) -> str:
    grams = [fact.grams for fact in facts if fact.grams is not None]
    whole = replace(facts[0], count=sum(fact.count for fact in facts), grams=None)
    picked = fact_words(season, whole)
    if len(grams) == len(facts):
        picked = tr("{picked}, {weight:g} g", picked=picked, weight=sum(grams))
    return tr("{picked}, from {plants} plants of {bed}", picked=picked, plants=len(facts), bed=name)


_SUMS: dict[type[Fact], Callable[[Season, str, list[Any]], str]] = {
    Sown: _sown_sum,
    Sprouted: _up_sum,
    LeafStage: _leaf_sum,
    Lost: _lost_sum,
    Moved: _moved_sum,
    Flowered: lambda _season, name, facts: tr(
        "first flower open on {plants} plants of {bed}", plants=len(facts), bed=name
    ),
    Picked: _picked_sum,
}
