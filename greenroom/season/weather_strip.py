"""The weather day by day under a chart of hardening: as measured and as forecast, and what kept trays in."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from statistics import mean

from greenroom.ledger.facts import HourAhead, SkySeen
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.hardening import sun_of
from greenroom.season.hardening_words import (
    day_words,
    gust_words,
    rain_words,
    temperature_words,
)
from greenroom.season.place import WEATHER_KINDS, Place, place_of, record_days, weather_days
from greenroom.season.reasons import kept_words, reason_words
from greenroom.season.side_by_side import Span
from greenroom.season.sky import sky_of
from greenroom.season.state import Season
from greenroom.speech import tr

TOLD_WORDS = {"measured": tr("measured"), "forecast": tr("forecast", sense="weather told ahead")}


@dataclass(frozen=True, slots=True)
class StripDay:
    """One day: °C, mm, m/s and the share of sky covered by day; None where nothing tells.

    ``told`` is "measured", "forecast" or, where nothing is known, empty. ``kept`` says what kept trays
    in, or is to: the grower's own reason, or the weather's.
    """

    date: date
    low_c: float | None = None
    high_c: float | None = None
    rain_mm: float | None = None
    gust_ms: float | None = None
    cloud: float | None = None
    told: str = ""
    kept: str = ""


def strip_days(season: Season, span: Span, stands: Iterable[TwoClocks]) -> list[StripDay]:
    """Return the days of a span with their weather, and what kept some holders in."""
    name = f"strip from {span.first} to {span.last}"
    bare = season.memo(name, (*WEATHER_KINDS, SkySeen), lambda: _bare(season, span))
    kept = kept_by(stands)
    return [_with(day, kept.get(day.date, "")) for day in bare]


def kept_by(stands: Iterable[TwoClocks]) -> Mapping[date, str]:
    """Return by day what kept holders in, or is to keep them in: each reason once."""
    found: dict[date, dict[str, None]] = defaultdict(dict)
    for stand in stands:
        for day, why in stand.held.items():
            found[day][kept_words(why) if why else tr("kept in")] = None
        for plan in stand.ahead:
            if plan.verdict == "hold":
                found[plan.date].update(dict.fromkeys(map(reason_words, plan.reasons)))
    return {day: ", ".join(reasons) for day, reasons in found.items()}


def strip_words(day: StripDay, place: Place) -> str:
    """Return a day in words."""
    if not day.told and day.cloud is None and not day.kept:
        return tr("{name}: {what}", name=day_words(day.date), what=tr("not known"))
    parts = []
    if day.low_c is not None or day.high_c is not None:
        low, high = (temperature_words(value, place) for value in (day.low_c, day.high_c))
        parts.append(tr("{low} to {high}", low=low, high=high))
    if day.rain_mm is not None:
        parts.append(tr("rain {rain}", rain=rain_words(day.rain_mm, place)))
    if day.gust_ms is not None:
        parts.append(tr("gusts {gust}", gust=gust_words(day.gust_ms, place)))
    if day.cloud is not None:
        parts.append(tr("cloud {percent:.0f}%", percent=day.cloud * 100))
    if day.kept:
        parts.append(tr("in: {reason}", reason=day.kept))
    name = f"{day_words(day.date)}, {TOLD_WORDS[day.told]}" if day.told else day_words(day.date)
    return tr("{name}: {what}", name=name, what=", ".join(parts))


def _with(day: StripDay, kept: str) -> StripDay:
    return StripDay(day.date, day.low_c, day.high_c, day.rain_mm, day.gust_ms, day.cloud, day.told, kept)


def _bare(season: Season, span: Span) -> list[StripDay]:
    known, measured, cloud = weather_days(season), record_days(season), _clouds(season)
    found = []
    for day in span.days():
        told = known.get(day)
        if told is None:
            found.append(StripDay(day, cloud=cloud.get(day)))
            continue
        how = "measured" if measured.get(day) == told else "forecast"
        found.append(StripDay(day, told.tmin_c, told.tmax_c, told.rain_mm, told.gust_ms, cloud.get(day), how))
    return found


def _clouds(season: Season) -> Mapping[date, float]:
    """Return the mean cover by day between sunrise and sunset: as seen, else as the forecast's hours tell."""
    place, sky = place_of(season), sky_of(season)
    by_day: dict[date, list[HourAhead]] = defaultdict(list)
    for hour in sky.hours:
        if hour.cloud is not None:
            by_day[place.local(hour.at).date()].append(hour)
    found = {
        day: cloud for day, hours in by_day.items() if (cloud := _daytime(season, day, hours)) is not None
    }
    seen: dict[date, list[float]] = defaultdict(list)
    for look in sky.looks:
        seen[place.local(look.at).date()].append(look.cloud)
    return found | {day: mean(looks) for day, looks in seen.items()}


def _daytime(season: Season, day: date, hours: Sequence[HourAhead]) -> float | None:
    sun = sun_of(season, day)
    lit = [
        hour.cloud for hour in hours if hour.cloud is not None and (sun is None or sun[0] <= hour.at < sun[1])
    ]
    return mean(lit) if lit else None
