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
from greenroom.season.hardening_words import SETBACK_WORDS, day_words, temperature_words, time_words
from greenroom.season.outings import Outing
from greenroom.season.packets import variety_name
from greenroom.season.place import place_of
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.speech import many

SPOT_NAMES = {"tray": "cells", "rack": "pots", "bed": "places"}
LIGHT_WORDS = {"sun": "in the sun", "shade": "in shade"}


def place_words(season: Season, key: SpotKey) -> str:
    """Return a spot with its holder: "B3 of Tray A"."""
    return f"{key.label} of {season.holder(key.holder).name}"


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
        return f"out since {start}, {LIGHT_WORDS[outing.light]}"
    sums = {"sun": 0.0, "shade": 0.0}
    for stretch in outing.stretches:
        if stretch.end is not None:
            sums[stretch.light] += (stretch.end - stretch.start).total_seconds() / 60
    spent = [f"{minutes:.0f} min {LIGHT_WORDS[light]}" for light, minutes in sums.items() if minutes >= 0.5]
    return f"out {start} to {time_words(outing.end, place)}: {', '.join(spent) or 'less than a minute'}"


def leaves_words(number: int) -> str:
    """Return a number of true leaves."""
    return "1 true leaf" if number == 1 else f"{number} true leaves"


def count_words(number: int, what: str) -> str:
    """Return a number with its noun."""
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def _sown_words(season: Season, key: SpotKey, fact: Sown) -> str:
    name = variety_name(season, fact.packet)
    return f"sown, {count_words(fact.seeds, 'seed')} of {name}, in {place_words(season, key)}"


def _sprouted_words(_season: Season, _key: SpotKey, fact: Sprouted) -> str:
    return "up" if fact.count == 1 else f"{fact.count} up"


def _leaf_words(_season: Season, _key: SpotKey, fact: LeafStage) -> str:
    return "seed leaves only" if fact.leaves == 0 else leaves_words(fact.leaves)


def _lost_words(_season: Season, _key: SpotKey, fact: Lost) -> str:
    number = "lost" if fact.count == 1 else f"{fact.count} lost"
    return f"{number}: {fact.cause}" if fact.cause else f"{number}, cause not known"


def _moved_words(season: Season, key: SpotKey, fact: Moved) -> str:
    source, target = (
        SpotKey(fact.holder, fact.row, fact.column),
        SpotKey(fact.to_holder, fact.to_row, fact.to_column),
    )
    if source == key:
        return f"one moved on to {place_words(season, target)}"
    return f"moved to {place_words(season, target)}, from {place_words(season, source)}"


def _note_words(_season: Season, fact: Note) -> str:
    return f"note: {fact.text}"


def _variety_words(season: Season, fact: Variety) -> str:
    entry = season.guide.entries.get(fact.crop) if fact.crop else None
    words = [fact.name]
    if entry is not None:
        words.append(entry.name)
    if fact.days_to_ripe is not None:
        words.append(f"{fact.days_to_ripe} days to ripe")
    return f"variety: {', '.join(words)}"


def _packet_words(season: Season, fact: Packet) -> str:
    words = [f"packet of {variety_name(season, fact.packet)}"]
    if fact.lot:
        words.append(f"lot {fact.lot}")
    if fact.packed is not None:
        words.append(f"packed {fact.packed}")
    if fact.seeds is not None:
        words.append(many(fact.seeds, "seed"))
    if fact.germination is not None:
        words.append(f"{fact.germination * 100:.0f} % germination")
    return ", ".join(words)


def _wanted_words(_season: Season, fact: Wanted) -> str:
    return f"{many(fact.plants, 'plant')} wanted for {fact.year}"


def _planned_words(_season: Season, fact: SowingPlanned) -> str:
    return f"sowing planned for {day_words(fact.on)} {fact.on.year}"


def _test_words(season: Season, fact: GerminationTest) -> str:
    warm = "" if fact.warmth_c is None else f" at {temperature_words(fact.warmth_c, place_of(season))}"
    return f"germination test begun, {many(fact.seeds, 'seed')}{warm}"


def _germinated_words(_season: Season, fact: GerminationCount) -> str:
    return f"{fact.count} germinated in the test" if fact.count else "test looked at, none newly germinated"


def _made_words(_season: Season, fact: HolderMade) -> str:
    size = f" of {fact.size}" if fact.size else ""
    return f"{fact.name} taken into use, {fact.rows} × {fact.columns} {SPOT_NAMES[fact.form]}{size}"


def _placed_words(season: Season, fact: HolderPlaced) -> str:
    where = f"place: {fact.place}" if fact.place else "place not told"
    warm = "" if fact.mix_c is None else f", mix at {temperature_words(fact.mix_c, place_of(season))}"
    return f"{where}{warm}"


def _hardening_words(_season: Season, fact: HardeningStarted) -> str:
    ramp = f"{fact.start_minutes:g} to {fact.full_minutes:g} minutes in {fact.outings} outings"
    return f"hardening begun, {ramp}"


def _setback_words(_season: Season, fact: SetbackSeen) -> str:
    return f"setback: {SETBACK_WORDS[fact.what]}, from {fact.cause}"


def _held_words(_season: Season, fact: Held) -> str:
    return f"kept in: {fact.why}" if fact.why else "kept in for the day"


def _counting_words(_season: Season, fact: CountingSet) -> str:
    return "minutes counted by the " + ("clock" if fact.by == "clock" else "sun's strength")


def _sky_words(_season: Season, fact: SkySeen) -> str:
    cloth = f", under cloth that holds off {fact.cloth * 100:.0f} % of the light" if fact.cloth else ""
    return f"sky {fact.cloud * 100:.0f} % covered{cloth}"


def _lamp_words(_season: Season, fact: LampMeasured) -> str:
    read = f"{fact.ppfd:g} µmol/m²/s" if fact.ppfd is not None else f"{fact.lux:g} lux"
    return f"light measured, {read} for {fact.hours:g} hours a day"


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
    HolderRetired: lambda _season, _fact: "put away",
    HardeningStarted: _hardening_words,
    SetbackSeen: _setback_words,
    Held: _held_words,
    CountingSet: _counting_words,
    SkySeen: _sky_words,
    LampMeasured: _lamp_words,
}
