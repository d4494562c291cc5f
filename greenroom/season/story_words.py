"""What each fact tells in a story, in a few words."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from greenroom.ledger.facts import (
    CountingSet,
    Fact,
    GerminationCount,
    GerminationTest,
    HardeningStarted,
    Held,
    HolderMade,
    HolderPlaced,
    HolderRetired,
    LampMeasured,
    LeafStage,
    Lost,
    Moved,
    Note,
    Packet,
    SetbackSeen,
    SkySeen,
    SowingPlanned,
    Sown,
    Sprouted,
    Variety,
    Wanted,
)
from greenroom.season.care_words import care_words
from greenroom.season.few_words import spot_words
from greenroom.season.hardening_words import SETBACK_WORDS, temperature_words, time_words
from greenroom.season.losses import cause_words
from greenroom.season.outings import Outing
from greenroom.season.packets import variety_name
from greenroom.season.place import place_of
from greenroom.season.reasons import kept_words
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.season.weekdays import dated_words
from greenroom.speech import many, tr, trn

LIGHT_WORDS = {"sun": tr("in the sun"), "shade": tr("in shade")}


def spot_fact_words(season: Season, key: SpotKey, fact: Fact) -> str:
    """Return what a fact tells in the story of one spot."""
    make = _SPOT_WORDS.get(type(fact))
    return make(season, key, fact) if make else fact_words(season, fact)


def fact_words(season: Season, fact: Fact) -> str:
    """Return what a fact tells that speaks of no single spot."""
    make = _WORDS.get(type(fact))
    return make(season, fact) if make else care_words(season, fact) or fact.words


def outing_words(season: Season, outing: Outing) -> str:
    """Return one outing: when it was out, and its minutes of sun and shade."""
    place = place_of(season)
    start = time_words(outing.start, place)
    if outing.end is None:
        return tr("out since {time}, {light}", time=start, light=LIGHT_WORDS[outing.light])
    sums = {"sun": 0.0, "shade": 0.0}
    for stretch in outing.stretches:
        if stretch.end is not None:
            sums[stretch.light] += (stretch.end - stretch.start).total_seconds() / 60
    spent = [
        tr("{minutes:.0f} min {light}", minutes=minutes, light=LIGHT_WORDS[light])
        for light, minutes in sums.items()
        if minutes >= 0.5
    ]
    return tr(
        "out {start} to {end}: {spent}",
        start=start,
        end=time_words(outing.end, place),
        spent=", ".join(spent) or tr("less than a minute"),
    )


def leaves_words(number: int) -> str:
    """Return a number of true leaves."""
    return trn("{n} true leaf", "{n} true leaves", number)


def _sown_words(season: Season, key: SpotKey, fact: Sown) -> str:
    name = variety_name(season, fact.packet)
    return tr(
        "sown, {seeds} of {variety}, in {place}",
        seeds=many(fact.seeds, "seed"),
        variety=name,
        place=spot_words(season, key),
    )


def _sprouted_words(_season: Season, _key: SpotKey, fact: Sprouted) -> str:
    return trn("up", "{n} up", fact.count, sense="seedlings of one spot")


def _leaf_words(_season: Season, _key: SpotKey, fact: LeafStage) -> str:
    return tr("seed leaves only") if fact.leaves == 0 else leaves_words(fact.leaves)


def _lost_words(_season: Season, _key: SpotKey, fact: Lost) -> str:
    if not fact.cause:
        return trn("lost, cause not known", "{n} lost, cause not known", fact.count)
    return trn("lost: {cause}", "{n} lost: {cause}", fact.count, cause=cause_words(fact.cause))


def _moved_words(season: Season, key: SpotKey, fact: Moved) -> str:
    source, target = (
        SpotKey(fact.holder, fact.row, fact.column),
        SpotKey(fact.to_holder, fact.to_row, fact.to_column),
    )
    if source == key:
        return tr("one moved on to {place}", place=spot_words(season, target))
    return tr(
        "moved to {place}, from {before}",
        place=spot_words(season, target),
        before=spot_words(season, source),
    )


def _note_words(_season: Season, fact: Note) -> str:
    return tr("note: {text}", text=fact.text)


def _variety_words(season: Season, fact: Variety) -> str:
    entry = season.guide.entries.get(fact.crop) if fact.crop else None
    words = [fact.name]
    if entry is not None:
        words.append(entry.name)
    if fact.days_to_ripe is not None:
        words.append(trn("{n} day to ripe", "{n} days to ripe", fact.days_to_ripe))
    return tr("variety: {what}", what=", ".join(words))


def _packet_words(season: Season, fact: Packet) -> str:
    words = [tr("packet of {variety}", variety=variety_name(season, fact.packet))]
    if fact.lot:
        words.append(tr("lot {lot}", lot=fact.lot))
    if fact.packed is not None:
        words.append(tr("packed {year}", year=fact.packed))
    if fact.seeds is not None:
        words.append(many(fact.seeds, "seed"))
    if fact.germination is not None:
        words.append(tr("{percent:.0f} % germination", percent=fact.germination * 100))
    return ", ".join(words)


def _wanted_words(_season: Season, fact: Wanted) -> str:
    return trn("{n:,} plant wanted for {year}", "{n:,} plants wanted for {year}", fact.plants, year=fact.year)


def _planned_words(_season: Season, fact: SowingPlanned) -> str:
    return tr("sowing planned for {day}", day=dated_words(fact.on))


def _test_words(season: Season, fact: GerminationTest) -> str:
    seeds = many(fact.seeds, "seed")
    if fact.warmth_c is None:
        return tr("germination test begun, {seeds}", seeds=seeds)
    warm = temperature_words(fact.warmth_c, place_of(season))
    return tr("germination test begun, {seeds} at {warmth}", seeds=seeds, warmth=warm)


def _germinated_words(_season: Season, fact: GerminationCount) -> str:
    if not fact.count:
        return tr("test looked at, none newly germinated")
    return trn("{n} germinated in the test", "{n} germinated in the test", fact.count)


def _made_words(_season: Season, fact: HolderMade) -> str:
    spots = _spots_words(fact)
    if fact.size:
        return tr("{tray} taken into use, {spots} of {size}", tray=fact.name, spots=spots, size=fact.size)
    return tr("{tray} taken into use, {spots}", tray=fact.name, spots=spots)


def _spots_words(fact: HolderMade) -> str:
    if fact.form == "tray":
        return tr("{rows} × {columns} cells", rows=fact.rows, columns=fact.columns)
    if fact.form == "rack":
        return tr("{rows} × {columns} pots", rows=fact.rows, columns=fact.columns)
    return tr("{rows} × {columns} places", rows=fact.rows, columns=fact.columns)


def _placed_words(season: Season, fact: HolderPlaced) -> str:
    where = tr("place: {place}", place=fact.place) if fact.place else tr("place not told")
    if fact.mix_c is None:
        return where
    warm = temperature_words(fact.mix_c, place_of(season))
    return tr("{place}, mix at {warmth}", place=where, warmth=warm)


def _hardening_words(_season: Season, fact: HardeningStarted) -> str:
    return tr(
        "hardening begun, {first:g} to {last:g} minutes in {outings} outings",
        first=fact.start_minutes,
        last=fact.full_minutes,
        outings=fact.outings,
    )


def _setback_words(_season: Season, fact: SetbackSeen) -> str:
    causes = {"sun": tr("from sun"), "wind": tr("from wind"), "thirst": tr("from thirst")}
    return tr("setback: {sign}, {cause}", sign=SETBACK_WORDS[fact.what], cause=causes[fact.cause])


def _held_words(_season: Season, fact: Held) -> str:
    return tr("kept in: {reason}", reason=kept_words(fact.why)) if fact.why else tr("kept in for the day")


def _counting_words(_season: Season, fact: CountingSet) -> str:
    if fact.by == "clock":
        return tr("minutes counted by the clock")
    return tr("minutes counted by the sun's strength")


def _sky_words(_season: Season, fact: SkySeen) -> str:
    sky = tr("sky {percent:.0f} % covered", percent=fact.cloud * 100)
    if not fact.cloth:
        return sky
    return tr(
        "{sky}, under cloth that holds off {percent:.0f} % of the light", sky=sky, percent=fact.cloth * 100
    )


def _lamp_words(_season: Season, fact: LampMeasured) -> str:
    if fact.ppfd is not None:
        read = tr("{ppfd:g} µmol/m²/s", ppfd=fact.ppfd)
    else:
        read = tr("{lux:g} lux", lux=fact.lux)
    return tr("light measured, {read} for {hours:g} hours a day", read=read, hours=fact.hours)


_SPOT_WORDS: dict[type, Callable[[Season, SpotKey, Any], str]] = {
    Sown: _sown_words,
    Sprouted: _sprouted_words,
    LeafStage: _leaf_words,
    Lost: _lost_words,
    Moved: _moved_words,
}

_WORDS: dict[type, Callable[[Season, Any], str]] = {
    Note: _note_words,
    Variety: _variety_words,
    Packet: _packet_words,
    Wanted: _wanted_words,
    SowingPlanned: _planned_words,
    GerminationTest: _test_words,
    GerminationCount: _germinated_words,
    HolderMade: _made_words,
    HolderPlaced: _placed_words,
    HolderRetired: lambda _season, _fact: tr("put away"),
    HardeningStarted: _hardening_words,
    SetbackSeen: _setback_words,
    Held: _held_words,
    CountingSet: _counting_words,
    SkySeen: _sky_words,
    LampMeasured: _lamp_words,
}
