"""What was done and seen in the care of plants, in a few words each."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime
from typing import Any

from greenroom.ledger.facts import (
    BasinEmptied,
    BedLaid,
    CanopySeen,
    CoolNight,
    Covered,
    Fact,
    Fed,
    Finding,
    Flowered,
    LampsSet,
    LookedOver,
    MixFelt,
    Mulched,
    Picked,
    PictureKept,
    Pruned,
    SeedSaved,
    SoilFelt,
    Staked,
    Variety,
    Watered,
    Weighed,
)
from greenroom.season.canopy import cover_words, middle_cover
from greenroom.season.hardening_words import moment_words, temperature_words, time_words
from greenroom.season.place import place_of
from greenroom.season.state import Season
from greenroom.speech import many

WEIGHED = {"wet": ", soaked and drained", "dry": ", dry", "now": ""}
FELT = {"finger": "to the finger", "lift": "when lifted"}
PRUNED = {"lower leaves": "lower leaves taken off", "tip": "tip taken out", "side shoots": "side shoots out"}


def care_words(season: Season, fact: Fact) -> str | None:
    """Return what a fact of care tells, such as "watered from below"; None if it is none."""
    make = _WORDS.get(type(fact))
    return make(season, fact) if make else None


def sign_words(sign: str) -> str:
    """Return a sign of pest or disease as it is read."""
    return sign.replace("-", " ").replace("_", " ")


def _watered(season: Season, fact: Watered) -> str:
    weight = "" if fact.weight_g is None else f", {fact.weight_g:,.0f} g after"
    return f"watered from {fact.how}{_at(season, fact.at)}{weight}"


def _weighed(season: Season, fact: Weighed) -> str:
    return f"weighed {fact.grams:,.0f} g{WEIGHED[fact.state]}{_at(season, fact.at)}"


def _at(season: Season, moment: datetime | None) -> str:
    return "" if moment is None else f" at {time_words(moment, place_of(season))}"


def _mix_felt(_season: Season, fact: MixFelt) -> str:
    return f"mix {fact.level} {FELT[fact.test]}"


def _fed(_season: Season, fact: Fed) -> str:
    analysis = f"{fact.n_percent:g}-{fact.p2o5_percent:g}-{fact.k2o_percent:g}"
    return f"fed {fact.litres:g} L of {fact.feed} ({analysis}) at {fact.ppm_n:g} ppm N"


def _lamps_set(_season: Season, fact: LampsSet) -> str:
    gap = "" if fact.gap_cm is None else f", {fact.gap_cm:g} cm above the leaves"
    return f"lamps {fact.hours:g} hours a day{gap}"


def _cool_night(season: Season, fact: CoolNight) -> str:
    return f"cool night, down to {temperature_words(fact.low_c, place_of(season))}"


def _finding(_season: Season, fact: Finding) -> str:
    number = "" if fact.count is None else f"{fact.count:,} "
    where = f", {fact.where}" if fact.where else ""
    return f"found {number}{sign_words(fact.sign)}{where}"


def _pruned(_season: Season, fact: Pruned) -> str:
    return PRUNED[fact.what]


def _mulched(_season: Season, fact: Mulched) -> str:
    return f"mulched with {fact.material}" if fact.material else "mulched"


def _picked(season: Season, fact: Picked) -> str:
    ripe = "" if fact.ripeness == "ripe" else f" {fact.ripeness}"
    weight = "" if fact.grams is None else f", {fact.grams:g} g"
    return f"picked {fact.count:,}{ripe}{_of(season, fact.variety)}{weight}"


def _seed_saved(season: Season, fact: SeedSaved) -> str:
    number = "seed" if fact.count is None else many(fact.count, "seed")
    return f"{number} saved{_of(season, fact.variety)}"


def _covered(season: Season, fact: Covered) -> str:
    if fact.until is None:
        return "covered for the night"
    return f"covered until {moment_words(fact.until, place_of(season), fact.day)}"


def _soil_felt(season: Season, fact: SoilFelt) -> str:
    place = place_of(season)
    return f"soil at {temperature_words(fact.celsius, place)} at {moment_words(fact.at, place, fact.day)}"


def _canopy_seen(_season: Season, fact: CanopySeen) -> str:
    middle, leafy = middle_cover(fact.cells)
    return f"leaf cover {cover_words(middle)} in a photo, median of {many(leafy, 'cell')} with leaf"


def _bed_laid(_season: Season, fact: BedLaid) -> str:
    pots = "" if fact.pot_litres is None else f", pots of {fact.pot_litres:g} L"
    return f"laid out, {fact.width_m:g} × {fact.depth_m:g} m{pots}"


def _of(season: Season, variety: str) -> str:
    known = season.thing(Variety, variety)
    return f" of {known.name}" if known else ""


_WORDS: dict[type[Fact], Callable[[Season, Any], str]] = {
    Watered: _watered,
    Weighed: _weighed,
    BasinEmptied: lambda _season, _fact: "basin emptied",
    MixFelt: _mix_felt,
    Fed: _fed,
    LampsSet: _lamps_set,
    CoolNight: _cool_night,
    LookedOver: lambda _season, _fact: "looked over",
    Finding: _finding,
    Pruned: _pruned,
    Staked: lambda _season, _fact: "staked",
    Mulched: _mulched,
    Flowered: lambda _season, _fact: "first flower open",
    Picked: _picked,
    SeedSaved: _seed_saved,
    Covered: _covered,
    SoilFelt: _soil_felt,
    BedLaid: _bed_laid,
    PictureKept: lambda _season, _fact: "picture kept",
    CanopySeen: _canopy_seen,
}
