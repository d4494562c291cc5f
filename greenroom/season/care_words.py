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
from greenroom.season.few_words import MIX_LEVELS, RIPE_WORDS, WATERED_FROM
from greenroom.season.hardening_words import moment_words, temperature_words, time_words
from greenroom.season.place import place_of
from greenroom.season.state import Season
from greenroom.speech import figure, many, tr

WEIGHED = {"wet": tr("soaked and drained"), "dry": tr("dry", sense="of a weight"), "now": ""}
PRUNED = {
    "lower leaves": tr("lower leaves taken off"),
    "tip": tr("tip taken out"),
    "side shoots": tr("side shoots out"),
}
SIGNS = {
    "aphids": tr("aphids"),
    "spider-mites": tr("spider mites"),
    "broad-mites": tr("broad mites"),
    "thrips": tr("thrips"),
    "whiteflies": tr("whiteflies"),
    "fungus-gnats": tr("fungus gnats"),
    "shore-flies": tr("shore flies"),
    "slugs": tr("slugs"),
    "flea-beetles": tr("flea beetles"),
    "leaf-miners": tr("leaf miners"),
    "cutworms": tr("cutworms"),
    "hornworms": tr("hornworms"),
    "fruit-borers": tr("fruit borers"),
    "no-emergence": tr("no emergence"),
    "damping-off": tr("damping off"),
    "leggy": tr("leggy"),
    "wilting": tr("wilting"),
    "lower-yellow": tr("lower yellow", sense="lower leaves turn yellow"),
    "between-veins": tr("between veins", sense="yellow between the veins"),
    "purple": tr("purple", sense="of stems or leaves"),
    "curling": tr("curling", sense="of leaves"),
    "tip-burn": tr("tip burn"),
    "spots": tr("spots", sense="on leaves"),
    "papery": tr("papery", sense="bleached patches on leaves"),
    "edema": tr("edema"),
    "holes": tr("holes", sense="in leaves"),
    "mottled": tr("mottled", sense="of leaves"),
    "blossom-drop": tr("blossom drop"),
    "blossom-end": tr("blossom end", sense="a patch on the fruit"),
}
"""The guide's pests and signs in a word or two, as what was found is told."""


def care_words(season: Season, fact: Fact) -> str | None:
    """Return what a fact of care tells, such as "watered from below"; None if it is none."""
    make = _WORDS.get(type(fact))
    return make(season, fact) if make else None


def sign_words(sign: str) -> str:
    """Return the key of a sign of pest or disease as it is read, in English."""
    return sign.replace("-", " ").replace("_", " ")


def sign_shown(sign: str) -> str:
    """Return a sign of pest or disease as it is shown."""
    return SIGNS.get(sign, sign_words(sign))


def analysis_words(n_percent: float, p2o5_percent: float, k2o_percent: float) -> str:
    """Return the analysis of a feed as on its label: 20-20-20."""
    return "-".join(figure(percent, "g") for percent in (n_percent, p2o5_percent, k2o_percent))


def _watered(season: Season, fact: Watered) -> str:
    from_where, time = WATERED_FROM[fact.how], _time(season, fact.at)
    if time is None:
        words = tr("watered {from_where}", from_where=from_where)
    else:
        words = tr("watered {from_where} at {time}", from_where=from_where, time=time)
    if fact.weight_g is None:
        return words
    return f"{words}, {tr('{grams:,.0f} g after', grams=fact.weight_g)}"


def _weighed(season: Season, fact: Weighed) -> str:
    grams, state, time = fact.grams, WEIGHED[fact.state], _time(season, fact.at)
    if time is None:
        words = tr("weighed {grams:,.0f} g", grams=grams)
        return f"{words}, {state}" if state else words
    if not state:
        return tr("weighed {grams:,.0f} g at {time}", grams=grams, time=time)
    return tr("weighed {grams:,.0f} g, {state} at {time}", grams=grams, state=state, time=time)


def _time(season: Season, moment: datetime | None) -> str | None:
    return None if moment is None else time_words(moment, place_of(season))


def _mix_felt(_season: Season, fact: MixFelt) -> str:
    level = MIX_LEVELS[fact.level]
    if fact.test == "lift":
        return tr("mix {level} when lifted", level=level)
    return tr("mix {level} to the finger", level=level)


def _fed(_season: Season, fact: Fed) -> str:
    return tr(
        "fed {litres:g} L of {feed} ({analysis}) at {ppm_n:g} ppm N",
        litres=fact.litres,
        feed=fact.feed,
        analysis=analysis_words(fact.n_percent, fact.p2o5_percent, fact.k2o_percent),
        ppm_n=fact.ppm_n,
    )


def _lamps_set(_season: Season, fact: LampsSet) -> str:
    if fact.gap_cm is None:
        return tr("lamps {hours:g} hours a day", hours=fact.hours)
    return tr(
        "lamps {hours:g} hours a day, {gap_cm:g} cm above the leaves", hours=fact.hours, gap_cm=fact.gap_cm
    )


def _cool_night(season: Season, fact: CoolNight) -> str:
    return tr("cool night, down to {low}", low=temperature_words(fact.low_c, place_of(season)))


def _finding(_season: Season, fact: Finding) -> str:
    sign = sign_shown(fact.sign)
    if fact.count is None:
        words = tr("found {sign}", sign=sign)
    else:
        words = tr("found {count:,} {sign}", count=fact.count, sign=sign)
    return f"{words}, {fact.where}" if fact.where else words


def _pruned(_season: Season, fact: Pruned) -> str:
    return PRUNED[fact.what]


def _mulched(_season: Season, fact: Mulched) -> str:
    return tr("mulched with {material}", material=fact.material) if fact.material else tr("mulched")


def _picked(season: Season, fact: Picked) -> str:
    words = _picked_words(fact.count, fact.ripeness, _name(season, fact.variety))
    return words if fact.grams is None else f"{words}, {tr('{grams:g} g', grams=fact.grams)}"


def _picked_words(count: int, ripeness: str, variety: str | None) -> str:
    if ripeness == "ripe":
        if variety is None:
            return tr("picked {count:,}", count=count)
        return tr("picked {count:,} of {variety}", count=count, variety=variety)
    shown = RIPE_WORDS[ripeness]
    if variety is None:
        return tr("picked {count:,} {ripeness}", count=count, ripeness=shown)
    return tr("picked {count:,} {ripeness} of {variety}", count=count, ripeness=shown, variety=variety)


def _seed_saved(season: Season, fact: SeedSaved) -> str:
    variety = _name(season, fact.variety)
    if fact.count is None:
        return tr("seed saved of {variety}", variety=variety) if variety else tr("seed saved")
    seeds = many(fact.count, "seed")
    if variety is None:
        return tr("{seeds} saved", seeds=seeds)
    return tr("{seeds} saved of {variety}", seeds=seeds, variety=variety)


def _covered(season: Season, fact: Covered) -> str:
    if fact.until is None:
        return tr("covered for the night")
    return tr("covered until {moment}", moment=moment_words(fact.until, place_of(season), fact.day))


def _soil_felt(season: Season, fact: SoilFelt) -> str:
    place = place_of(season)
    return tr(
        "soil at {temperature} at {moment}",
        temperature=temperature_words(fact.celsius, place),
        moment=moment_words(fact.at, place, fact.day),
    )


def _canopy_seen(_season: Season, fact: CanopySeen) -> str:
    middle, leafy = middle_cover(fact.cells)
    return tr(
        "leaf cover {cover} in a photo, median of {cells} with leaf",
        cover=cover_words(middle),
        cells=many(leafy, "cell"),
    )


def _bed_laid(_season: Season, fact: BedLaid) -> str:
    words = tr("laid out, {width_m:g} × {depth_m:g} m", width_m=fact.width_m, depth_m=fact.depth_m)
    if fact.pot_litres is None:
        return words
    return f"{words}, {tr('pots of {litres:g} L', litres=fact.pot_litres)}"


def _name(season: Season, variety: str) -> str | None:
    known = season.thing(Variety, variety)
    return known.name if known else None


_WORDS: dict[type[Fact], Callable[[Season, Any], str]] = {
    Watered: _watered,
    Weighed: _weighed,
    BasinEmptied: lambda _season, _fact: tr("basin emptied"),
    MixFelt: _mix_felt,
    Fed: _fed,
    LampsSet: _lamps_set,
    CoolNight: _cool_night,
    LookedOver: lambda _season, _fact: tr("looked over"),
    Finding: _finding,
    Pruned: _pruned,
    Staked: lambda _season, _fact: tr("staked"),
    Mulched: _mulched,
    Flowered: lambda _season, _fact: tr("first flower open"),
    Picked: _picked,
    SeedSaved: _seed_saved,
    Covered: _covered,
    SoilFelt: _soil_felt,
    BedLaid: _bed_laid,
    PictureKept: lambda _season, _fact: tr("picture kept"),
    CanopySeen: _canopy_seen,
}
