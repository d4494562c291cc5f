"""What the Pick page says of predictions, picks and harvests, in words."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from greenroom.ledger.facts import Picked, Variety
from greenroom.season.few_words import RIPE_WORDS, spot_words
from greenroom.season.hardening_words import day_words, short_day_words
from greenroom.season.packets import UNNAMED, varieties
from greenroom.season.picking import Harvest
from greenroom.season.picking_ahead import RipeAhead
from greenroom.season.picking_why import ripe_words, span_words, weight_words, yield_words
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.season.within import in_row
from greenroom.speech import figure, many, tr

NOT_KNOWN = "·"


@dataclass(frozen=True, slots=True)
class Target:
    """What can be picked from: the plants of a variety in a bed, or a variety wherever it stands."""

    variety: str
    name: str
    holder: str | None = None
    bed: str = ""
    spots: tuple[SpotKey, ...] = ()

    @property
    def words(self) -> str:
        """Variety and bed."""
        return f"{self.name}, {self.bed}" if self.bed else self.name


def targets(season: Season, ahead: tuple[RipeAhead, ...]) -> list[Target]:
    """Return what can be picked from: what stands in beds, the soonest ripe first, then all others."""
    lots: dict[tuple[str, str], Target] = {}
    for lot in (one.lot for one in ahead if one.lot is not None):
        before = lots.get((lot.variety, lot.holder))
        spots = (before.spots if before else ()) + lot.spots
        lots[lot.variety, lot.holder] = Target(lot.variety, lot.name, lot.holder, lot.bed, spots)
    out = {variety for variety, _ in lots}
    others = [Target(key, fact.name) for key, fact in varieties(season).items() if key not in out]
    return [*lots.values(), *sorted(others, key=lambda one: one.name.casefold())]


def short_day(day: date) -> str:
    """Return a day as 14 May, the month in three letters."""
    return short_day_words(day)


def where_words(one: RipeAhead) -> str:
    """Return where a lot stands, or that it is not set out."""
    if one.lot is None:
        sown = one.row is not None and one.row.sown
        return tr("sown, not set out yet") if sown else tr("planned, not sown yet")
    return f"{one.lot.bed}, {many(len(one.lot.spots), 'plant')}"


def ahead_words(one: RipeAhead) -> str:
    """Return a prediction in one line, with its spread, odds, and when to look next."""
    parts = [f"{one.name}, {where_words(one)}", ripe_words(one)]
    days = one.days
    if days is not None and one.first_ripe is None and days.killed_on is None:
        if span_words(days):
            parts.append(span_words(days))
        if days.odds is not None:
            parts.append(tr("before the killing night in {odds}", odds=days.odds.words))
    if one.picks:
        fruit = sum(fact.count for fact in one.picks)
        parts.append(tr("{fruit:,} picked in {picks}", fruit=fruit, picks=many(len(one.picks), "pick")))
    if one.due is not None and one.lot is not None:
        day = day_words(one.due)
        parts.append(tr("look over on {day}", day=day) if one.picks else tr("look over from {day}", day=day))
    return in_row(parts)


def pick_words(season: Season, fact: Picked, today: date) -> str:
    """Return one pick in a line: "14 August: 5 Brass Bell, 710 g, green, Bed 1"."""
    day = day_words(fact.day)
    if fact.day.year != today.year:
        day = tr("{day} {year}", sense="day and month, year", day=day, year=fact.day.year)
    variety = season.thing(Variety, fact.variety)
    parts = [
        tr(
            "{day}: {count:,} {variety}",
            day=day,
            count=fact.count,
            variety=variety.name if variety else UNNAMED,
        )
    ]
    if fact.grams is not None:
        parts.append(weight_words(fact.grams))
    parts.append(RIPE_WORDS[fact.ripeness])
    if fact.holder is not None:
        if fact.row is None or fact.column is None:
            parts.append(season.holder(fact.holder).name)
        else:
            parts.append(spot_words(season, SpotKey(fact.holder, fact.row, fact.column)))
    return ", ".join(parts)


def grams_or_dot(grams: float | None) -> str:
    """Return a weight, or a dot where it is not known."""
    return NOT_KNOWN if grams is None else weight_words(grams)


def days_words(one: Harvest) -> str:
    """Return the days from setting out to ripe of a harvest, or a dot."""
    return NOT_KNOWN if one.days_to_ripe is None else figure(one.days_to_ripe, ".0f")


def harvest_words(one: Harvest) -> str:
    """Return a harvest in words: fruit and weight, when it was picked, its colours, and its plants."""
    colours = [
        f"{figure(number, ',')} {colour}"
        for number, colour in zip(one.picked.colours, RIPE_WORDS.values(), strict=True)
        if number
    ]
    plants = tr("plants not known") if one.plants is None else many(one.plants, "plant")
    ground = tr("bed not measured") if one.m2 is None else tr("{area:.2f} m²", area=one.m2)
    dates = tr("{first} to {last}", first=short_day(one.picked.first), last=short_day(one.picked.last))
    about = (f"{many(one.picked.picks, 'pick')}, {dates}", ", ".join(colours), f"{plants}, {ground}")
    return in_row((yield_words(one.picked), *about))
