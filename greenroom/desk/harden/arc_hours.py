"""What the arc tells of the hours: the best of them, where the step lies in shade, and how warm it gets."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

import numpy as np

from greenroom.ledger.facts import Forecast, PlaceSet, UnitsSet, WeatherRecord
from greenroom.season.air_ahead import air_between
from greenroom.season.hardening_words import temperature_words
from greenroom.season.outing_windows import Window
from greenroom.season.outings import midnight
from greenroom.season.place import Place, place_of
from greenroom.season.state import Season

EVERY_H = 3
FIRST_H, LAST_H = 6, 21
WARMTH_RESTS_ON = (Forecast, WeatherRecord, PlaceSet, UnitsSet)


@dataclass(frozen=True, slots=True)
class ArcHours:
    """``best`` is the stretch proposed, ``yard`` when the sun is on the step if somebody told it, ``warmth``
    the temperature in words at some hours."""

    best: Window | None = None
    yard: tuple[datetime, datetime] | None = None
    warmth: tuple[tuple[datetime, str], ...] = ()


NO_HOURS = ArcHours()


def warmth_along(season: Season, day: date) -> tuple[tuple[datetime, str], ...]:
    """Return the temperature at every third hour of a day, in words; hours not known are left out."""
    return season.memo(f"warmth along {day}", WARMTH_RESTS_ON, lambda: _warmth(season, day))


def _warmth(season: Season, day: date) -> tuple[tuple[datetime, str], ...]:
    place = place_of(season)
    start = midnight(day, place.zone)
    air = air_between(season, start, midnight(day + timedelta(days=1), place.zone))
    found = []
    for moment, celsius in zip(air.moments, air.temperature_c, strict=True):
        if not np.isnan(celsius) and _told_at(moment, place):
            found.append((moment, temperature_words(float(celsius), place)))
    return tuple(found)


def _told_at(moment: datetime, place: Place) -> bool:
    local = place.local(moment)
    return local.minute == 0 and local.hour % EVERY_H == 0 and FIRST_H <= local.hour <= LAST_H
