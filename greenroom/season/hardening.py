"""When a holder began to harden, the weather that a plan of it goes by, and the sun of a day."""

from __future__ import annotations

from datetime import date, datetime, timedelta

from greenroom.agronomy.hardening import DayWeather, HoldLimits, Setback, Verdict, verdict
from greenroom.agronomy.sunlight import sunrise_sunset
from greenroom.ledger.facts import HardeningStarted, PlaceSet
from greenroom.season.place import Place, place_of, weather_days
from greenroom.season.state import Season

AHEAD_DAYS = 60
WORST_FIRST: tuple[Setback, ...] = ("scorch", "wilt", "droop")


def going_out(season: Season) -> list[str]:
    """Return the holders in use that have begun to harden."""
    return [one.key for one in season.holders() if hardening_since(season, one.key) is not None]


def hardening_since(season: Season, holder: str) -> date | None:
    """Return the day a holder began to harden, or None."""
    return season.holder_memo(holder, "hardening since", lambda: _since(season, holder))


def _since(season: Season, holder: str) -> date | None:
    facts = (entry.fact for entry in season.holder_facts(holder))
    starts = [fact for fact in facts if isinstance(fact, HardeningStarted)]
    return starts[-1].day if starts else None


def todays_verdict(
    season: Season, today: date, limits: HoldLimits | None = None
) -> tuple[Verdict, tuple[str, ...]] | None:
    """Return whether today is a day to go out by some limits, with reasons; None without its weather."""
    weather = forecast_from(season, today).get(today)
    if weather is None or (weather.tmax, weather.gust, weather.rain) == (None, None, None):
        return None
    return verdict(weather.tmin, weather.tmax, weather.gust, weather.rain, limits=limits)


def forecast_from(season: Season, today: date) -> dict[date, DayWeather]:
    """Return the weather known for today and the days that a plan may reach."""
    record = weather_days(season)
    days = (today + timedelta(days=ahead) for ahead in range(AHEAD_DAYS + 1))
    return {
        day: DayWeather(known.tmin_c, known.tmax_c, known.gust_ms, known.rain_mm)
        for day in days
        if (known := record.get(day)) is not None
    }


def sun_of(season: Season, day: date) -> tuple[datetime, datetime] | None:
    """Return sunrise and sunset at the place; None where there are none, or no place is known."""
    return season.memo(f"sun of {day}", (PlaceSet,), lambda: _sun(place_of(season), day))


def _sun(place: Place, day: date) -> tuple[datetime, datetime] | None:
    if place.latitude is None or place.longitude is None:
        return None
    return sunrise_sunset(day, place.latitude, place.longitude)
