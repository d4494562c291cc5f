"""When the sun reaches the step outside the door: as told once, kept in step with the sun all year."""

from __future__ import annotations

from datetime import UTC, date, datetime, time, timedelta

from greenroom.agronomy.sunlight import solar_noon
from greenroom.ledger.facts import PlaceSet, YardSun
from greenroom.season.hardening import sun_of
from greenroom.season.place import Place, place_of
from greenroom.season.state import Season


def yard_sun(season: Season, day: date) -> tuple[datetime, datetime] | None:
    """Return when the sun reaches the step and leaves it on a day; None where it is not up, or not known.

    What was told holds for the day it was told. On another day the sun stands over the same roof and
    tree as long before and after its noon, so the hours move with solar noon, and with the clocks. They
    never reach beyond sunrise and sunset. Without a note the sun is on the step while it is up.
    """
    kinds = (YardSun, PlaceSet)
    return season.memo(f"yard sun of {day}", kinds, lambda: _yard_sun(season, day))


def _yard_sun(season: Season, day: date) -> tuple[datetime, datetime] | None:
    up = sun_of(season, day)
    told = season.latest(YardSun)
    place = place_of(season)
    if told is None or place.longitude is None:
        return up
    moved = _noon(day, place) - _noon(told.day, place)
    first, last = (wall_moment(told.day, minutes, place) + moved for minutes in (told.first, told.last))
    if up is not None:
        first, last = max(first, up[0]), min(last, up[1])
    return (first, last) if first < last else None


def wall_moment(day: date, minutes: int, place: Place) -> datetime:
    """Return the moment the place's own clock shows so many minutes past midnight.

    A time that the clocks skip is taken as much later as they skip; one that comes twice as the first.
    """
    shown = datetime.combine(day, time()) + timedelta(minutes=minutes)
    return shown.replace(tzinfo=place.zone).astimezone(UTC)


def _noon(day: date, place: Place) -> datetime:
    return solar_noon(day, place.longitude or 0.0)
