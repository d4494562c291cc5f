"""When a holder wants water, and how it can be told: by feel, by weight, by the air, by its own rhythm."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from itertools import pairwise
from statistics import median

from greenroom.ledger import Entry
from greenroom.ledger.facts import BasinEmptied, Fact, MixFelt, Watered, Weighed
from greenroom.season.care_words import care_words
from greenroom.season.deeds_plot import BED
from greenroom.season.deeds_round import take_back
from greenroom.season.hardening_words import day_words
from greenroom.season.holders import Holder
from greenroom.season.place import Place, place_of
from greenroom.season.proposal import Proposal
from greenroom.season.state import Season
from greenroom.season.watering_outside import OutsideWater, outside_water, short_by
from greenroom.season.watering_weights import DryDown, dry_down, waterings_of
from greenroom.season.watering_why import by_air, by_feel, by_rhythm, by_weight, when_dry
from greenroom.season.why import Why
from greenroom.speech import many, tr

INTERVALS = 3
"""So many waterings one after the other make a rhythm: a working rule of this program."""
RHYTHM_OF = 8
BASIN_DAYS = 1
WATER_FACTS = (Watered, Weighed, BasinEmptied, MixFelt)

FELT = {
    ("finger", "wet"): tr("sticks to the finger: leave it, and see that no water stands below"),
    ("finger", "moist"): tr("cool and dark, nothing sticks: look again tomorrow"),
    ("finger", "dry"): tr("pale and dry to the first knuckle: water now"),
    ("lift", "wet"): tr("heavy as after watering: leave it"),
    ("lift", "moist"): tr("lighter than after watering: look again tomorrow"),
    ("lift", "dry"): tr("light as when it was last dry: water now"),
}
"""What a feel of the mix means, by test and level: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Thirst:
    """When a holder wants water, why, and what told it; ``at`` is the moment where the hour is known."""

    on: date
    reason: str
    why: Why
    at: datetime | None = None


@dataclass(frozen=True, slots=True)
class Line:
    """One thing told of a holder: ``fact`` is the id of what it was written as."""

    day: date
    words: str
    fact: str


def thirst(season: Season, made: Holder, today: date) -> Thirst | None:
    """Return when a holder wants water, or None where nothing tells it.

    Kept until something is told of the holder; of a bed it is worked out each time, for its weather moves.

    As felt today or since it was watered, else as weighed, else outdoors by what the air took, else by
    how often it was watered before. The round and the care of a holder both go by this.
    """
    if made.form == BED:
        return _thirst(season, made, today)
    name = ("thirst", today, place_of(season))
    return season.holder_memo(made.key, name, lambda: _thirst(season, made, today))


def last_watered(entries: Sequence[Entry], today: date) -> Watered | None:
    """Return the latest watering told up to a day."""
    told = waterings_of(entries, today)
    return told[-1][1] if told else None


def basin_to_empty(made: Holder, entries: Sequence[Entry], today: date) -> Watered | None:
    """Return the watering from below whose basin was not emptied, on its day and the day after."""
    told = [
        entry.fact
        for entry in entries
        if isinstance(entry.fact, Watered | BasinEmptied) and entry.fact.day <= today
    ]
    last = told[-1] if told else None
    if not isinstance(last, Watered) or last.how != "below" or made.form == "bed":
        return None
    return last if 0 <= (today - last.day).days <= BASIN_DAYS else None


def last_felt(entries: Sequence[Entry], today: date) -> MixFelt | None:
    """Return how the mix felt last, if that was since the last watering."""
    waterings = waterings_of(entries, today)
    after = waterings[-1][0] if waterings else 0
    found = [
        entry.fact
        for entry in entries
        if isinstance(entry.fact, MixFelt) and entry.number > after and entry.fact.day <= today
    ]
    return found[-1] if found else None


def history(season: Season, holder: str, kinds: tuple[type[Fact], ...]) -> tuple[Line, ...]:
    """Return what was told of a holder of some kinds, the latest first."""
    told = [entry.fact for entry in season.holder_facts(holder) if isinstance(entry.fact, kinds)]
    return tuple(Line(fact.day, care_words(season, fact) or fact.words, fact.id) for fact in reversed(told))


def strike_line(made: Holder, line: Line) -> Proposal:
    """Strike out one thing told of a holder."""
    return take_back(f"{line.words}, {day_words(line.day)}, {made.name}", [line.fact])


def ago_words(day: date, today: date) -> str:
    """Return a day as it is spoken of today: "today", "yesterday", "on 3 May"."""
    days = (today - day).days
    if days == 0:
        return tr("today")
    return tr("yesterday") if days == 1 else tr("on {day}", day=day_words(day))


def _thirst(season: Season, made: Holder, today: date) -> Thirst | None:
    entries = season.holder_facts(made.key)
    felt = last_felt(entries, today)
    if felt is not None and felt.level == "dry":
        return Thirst(felt.day, tr("felt dry {when}", when=ago_words(felt.day, today)), by_feel(made, felt))
    if felt is not None and felt.level == "wet" and felt.day == today:
        return None
    place = place_of(season)
    drying = dry_down(entries, today, place.zone)
    if drying is not None:
        return Thirst(drying.on, _weight_reason(drying, place), by_weight(made, drying, place), drying.at)
    outside = outside_water(season, made, today)
    if outside is not None and outside.since is not None:
        return _by_air(made, outside, today)
    return _by_rhythm(made, entries, today)


def _weight_reason(drying: DryDown, place: Place) -> str:
    half = tr("half its water is gone by {when}", when=when_dry(drying, place))
    if drying.before or not drying.weighings:
        return tr("{half}, at the pace of its last drying", half=half)
    lighter = drying.wet_g - drying.weighings[-1].grams
    return tr("{lighter:,.0f} g lighter than soaked; {half}", lighter=lighter, half=half)


def _by_air(made: Holder, outside: OutsideWater, today: date) -> Thirst | None:
    if outside.on is None:
        return None
    on = max(today, outside.on)
    then = short_by(outside, on) or outside.days[-1]
    short, held, day = then.short_l, then.held_l, day_words(on)
    if outside.pot_litres is not None:
        reason = tr(
            "{short:.2g} of the {held:.2g} L held for each pot are gone by {day}",
            short=short,
            held=held,
            day=day,
        )
    else:
        reason = tr(
            "{short:.2g} of the {held:.2g} L held for each plant are gone by {day}",
            short=short,
            held=held,
            day=day,
        )
    return Thirst(outside.on, reason, by_air(made, outside, today))


def _by_rhythm(made: Holder, entries: Sequence[Entry], today: date) -> Thirst | None:
    days = sorted({fact.day for _, fact in waterings_of(entries, today)})
    if len(days) <= INTERVALS:
        return None
    lately = days[-RHYTHM_OF:]
    usual = max(1, round(median((later - earlier).days for earlier, later in pairwise(lately))))
    reason = tr(
        "{days} since the last; its own rhythm is {rhythm}",
        days=many((today - days[-1]).days, "day"),
        rhythm=many(usual, "day"),
    )
    return Thirst(days[-1] + timedelta(days=usual), reason, by_rhythm(made, days, usual))
