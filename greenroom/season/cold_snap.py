"""Cold nights ahead for plants that stand out: how bad, what to do, and until when."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import IntEnum
from itertools import groupby

import numpy as np

from greenroom.ledger.facts import RampSet
from greenroom.season.air_ahead import air_between
from greenroom.season.hardening_words import day_words, temperature_words, time_words
from greenroom.season.outings import fold_outings, open_outing
from greenroom.season.place import WEATHER_KINDS, Place, place_of, weather_days
from greenroom.season.ramp_rules import RampRules, careful, crops_in, rules_of
from greenroom.season.state import Season
from greenroom.season.tonight import FROST_FORMS, LOPEZ, MARGIN_C, falls_through, night_of
from greenroom.season.why import Why
from greenroom.speech import many, tr

ONE_DAY = timedelta(days=1)
AHEAD_DAYS = 10
"""Nights looked at: beyond ten days a forecast of one night says little (common practice, no source)."""
ACT_C = 7.2
"""45 °F: the air at which hardening trays come in, University of Maryland Extension 2023; a tender plant
that cannot come in is covered at it."""
LONG_CHILL_C = 5.0
AFTERNOON = timedelta(hours=6)
MORNING = timedelta(hours=10)

SOURCES = (
    LOPEZ,
    tr(
        "University of Maryland Extension 2023: in below 45 °F; cucurbits out only at nights "
        "of 50 °F or more."
    ),
    FROST_FORMS,
    tr(
        "Javanmardi and others 2013: peppers bear three days at 5 °C and tomatoes four; "
        "longer delays flower and set."
    ),
    tr("Covers and mulch: common practice, no source; a light cover holds 1 to 3 °C (growers' pages)."),
)


class Level(IntEnum):
    """How bad a night is for the plants, the worst last."""

    NONE = 0
    COOL = 1
    CHILL = 2
    FROST = 3


HOW_COLD: Mapping[Level, str] = {
    Level.COOL: tr("Cool", sense="nights ahead"),
    Level.CHILL: tr("Cold", sense="nights ahead"),
    Level.FROST: tr("Frost", sense="nights ahead"),
}
TO_DO: Mapping[Level, tuple[str, ...]] = {
    Level.NONE: (),
    Level.COOL: (
        tr("Carry pots and racks in for the night."),
        tr("A light cover is enough for what must stay."),
    ),
    Level.CHILL: (
        tr("Carry in whatever can be carried."),
        tr("Cover the rest to the ground before the sun sets, clear of the leaves."),
        tr("Uncover in the morning once it is warm again."),
    ),
    Level.FROST: (
        tr("Carry in whatever can be carried."),
        tr("Draw mulch up about the stems; moist soil under it holds warmth."),
        tr("Cover the rest to the ground before the sun sets, two layers, clear of the leaves."),
        tr("Uncover in the morning once it is warm again."),
    ),
}
"""What to do, in order: common practice, no source."""


@dataclass(frozen=True, slots=True)
class ColdNight:
    """The night after ``day``: the coldest forecast, and how bad that is."""

    day: date
    low_c: float
    level: Level


@dataclass(frozen=True, slots=True)
class ColdSnap:
    """Cold nights running: what to do from ``begins``, and until when.

    ``begins`` is when the air of the first of them falls through the floor, or its dusk; ``until`` when
    the air is back at the floor after the last. ``open_end`` tells that the forecast ends in the cold.
    ``too_long`` tells that more nights near 5 °C run than the plants bear.
    """

    nights: tuple[ColdNight, ...]
    level: Level
    begins: datetime
    until: datetime
    open_end: bool
    too_long: bool
    to_do: tuple[str, ...]
    rules: RampRules

    @property
    def low_c(self) -> float:
        """The coldest of them."""
        return min(night.low_c for night in self.nights)


def cold_snaps(season: Season, crops: Iterable[str | None], today: date) -> list[ColdSnap]:
    """Return the cold snaps in the forecast for plants of some crops that stand out, the next first."""
    wanted = tuple(dict.fromkeys(crops))
    if not wanted:
        return []
    name = f"cold snaps of {wanted} from {today}"
    return season.memo(name, (*WEATHER_KINDS, RampSet), lambda: _snaps(season, wanted, today))


def cold_night(season: Season, crops: Iterable[str | None], day: date) -> ColdNight | None:
    """Return the night after a day as plants of some crops take it; None where it is not known."""
    rules = [rules_of(season, crop) for crop in dict.fromkeys(crops)]
    return _night(season, day, careful(rules)) if rules else None


def snap_words(snap: ColdSnap, place: Place) -> str:
    """Return a snap in a sentence."""
    cold = HOW_COLD.get(snap.level, HOW_COLD[Level.COOL])
    low = temperature_words(snap.low_c, place)
    when = tr("on the night of {day}", day=day_words(snap.nights[0].day))
    if len(snap.nights) > 1:
        when = tr(
            "for {nights} from {day}",
            nights=many(len(snap.nights), "night"),
            day=day_words(snap.nights[0].day),
        )
    until = place.local(snap.until)
    if snap.open_end:
        return tr("{cold} {when}, down to {low}.", cold=cold, when=when, low=low)
    return tr(
        "{cold} {when}, down to {low}, until {time} on {day}.",
        cold=cold,
        when=when,
        low=low,
        time=time_words(snap.until, place),
        day=day_words(until.date()),
    )


def snap_why(snap: ColdSnap, place: Place) -> Why:
    """Return why a snap is a warning, and where its limits come from."""
    inputs = [
        (tr("night of {day}", day=day_words(night.day)), temperature_words(night.low_c, place))
        for night in snap.nights
    ]
    inputs.append((tr("floor of the tenderest"), temperature_words(snap.rules.night_floor_c, place)))
    frost, act = snap.rules.frost_c + MARGIN_C, ACT_C
    rule = tr(
        "Cool: below the floor of their nights. Cold: below {cold_limit} for plants that "
        "chill above it. Frost: {frost_limit} or less, two degrees above where frost kills "
        "them, for leaves grow colder than the air. Covers go on before the sun sets and "
        "come off in the morning.",
        cold_limit=temperature_words(act, place),
        frost_limit=temperature_words(frost, place),
    )
    return Why(snap_words(snap, place), rule, tuple(inputs), SOURCES)


def _snaps(season: Season, crops: Iterable[str | None], today: date) -> list[ColdSnap]:
    tender = careful(rules_of(season, crop) for crop in crops)
    nights = [_night(season, today + ahead * ONE_DAY, tender) for ahead in range(AHEAD_DAYS)]
    known = [night for night in nights if night is not None]
    last = max((night.day for night in known), default=today)
    runs = groupby(nights, key=lambda night: night is not None and night.level > Level.NONE)
    return [
        _snap(season, [night for night in run if night is not None], tender, last)
        for cold, run in runs
        if cold
    ]


def _night(season: Season, day: date, rules: RampRules) -> ColdNight | None:
    """Return the night after a day as forecast, or None where it is not known."""
    low = season.memo(f"low of the night after {day}", WEATHER_KINDS, lambda: _low(season, day))
    return None if low is None else ColdNight(day, low, _level(low, rules))


def _low(season: Season, day: date) -> float | None:
    """Return the coldest of the night after a day: of its hours forecast, and of the next day's own."""
    coming = weather_days(season).get(day + ONE_DAY)
    lows = [] if coming is None or coming.tmin_c is None else [coming.tmin_c]
    air = air_between(season, *night_of(season, day))
    by_hour = air.temperature_c[air.by_hour]
    lows += [float(np.min(by_hour))] if by_hour.size else []
    return min(lows, default=None)


def _level(low_c: float, rules: RampRules) -> Level:
    if low_c <= rules.frost_c + MARGIN_C:
        return Level.FROST
    if rules.chill_c is not None and low_c < min(rules.chill_c, ACT_C):
        return Level.CHILL
    return Level.COOL if low_c < rules.night_floor_c else Level.NONE


def _snap(season: Season, nights: Sequence[ColdNight], rules: RampRules, last_known: date) -> ColdSnap:
    dusk, dawn = night_of(season, nights[0].day)
    falls = falls_through(air_between(season, dusk - AFTERNOON, dawn), rules.night_floor_c)
    level = max(night.level for night in nights)
    bearable = rules.bearable_5_c_days
    too_long = bearable is not None and _longest(nights) > bearable
    return ColdSnap(
        nights=tuple(nights),
        level=level,
        begins=min(dusk, falls or dusk),
        until=warm_again(season, nights[-1].day, rules.night_floor_c),
        open_end=nights[-1].day >= last_known,
        too_long=too_long,
        to_do=TO_DO[level] + ((_too_long_words(season),) if too_long else ()),
        rules=rules,
    )


def warm_again(season: Season, day: date, floor_c: float) -> datetime:
    """Return when the air is back at the floor after a night; its sunrise where that cannot be told."""
    dusk, dawn = night_of(season, day)
    air = air_between(season, dusk, dawn + MORNING)
    if np.isnan(air.temperature_c).all():
        return dawn
    coldest = int(np.nanargmin(air.temperature_c))
    warm = np.flatnonzero(air.temperature_c[coldest:] >= floor_c)
    return air.moments[coldest + int(warm[0])] if warm.size else air.end


def _too_long_words(season: Season) -> str:
    return tr(
        "More nights of {cold} or colder run on than these plants bear; flowers and fruit will come later.",
        cold=temperature_words(LONG_CHILL_C, place_of(season)),
    )


def _longest(nights: Sequence[ColdNight]) -> int:
    """Return the longest run of nights at 5 °C or colder."""
    runs = groupby(nights, key=lambda night: night.low_c <= LONG_CHILL_C)
    return max((len(list(run)) for cold, run in runs if cold), default=0)


def crops_standing_out(season: Season) -> tuple[str | None, ...]:
    """Return the crops that stand outdoors now: in beds, and in trays and racks that are out."""
    keys = [
        one.key
        for one in season.holders()
        if one.form == "bed" or open_outing(fold_outings(season.holder_facts(one.key))) is not None
    ]
    return tuple(dict.fromkeys(crop for key in keys for crop in crops_in(season, key)))
