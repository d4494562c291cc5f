"""The place and its weather: where the grower is, in which units, and what the record says."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, tzinfo
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy.climate import DailyWeather
from greenroom.ledger.facts import PlaceSet, UnitsSet, WeatherDay, WeatherRecord
from greenroom.season.state import Season


@dataclass(frozen=True, slots=True)
class Place:
    """Where the grower is; ``known`` is False until a place was set."""

    name: str = ""
    latitude: float | None = None
    longitude: float | None = None
    zone: tzinfo = UTC
    temperature: str = "c"
    volume: str = "ml"

    @property
    def known(self) -> bool:
        """Whether the grower has set a place."""
        return self.latitude is not None

    def local(self, moment: datetime) -> datetime:
        """Return a moment on the place's own clock."""
        return moment.astimezone(self.zone)

    @property
    def southern(self) -> bool:
        """Whether the seasons are those of the southern hemisphere."""
        return self.latitude is not None and self.latitude < 0


def place_of(season: Season) -> Place:
    """Return the place as last set."""
    units = season.latest(UnitsSet)
    temperature, volume = (units.temperature, units.volume) if units else ("c", "ml")
    fact = season.latest(PlaceSet)
    if fact is None:
        return Place(temperature=temperature, volume=volume)
    return Place(fact.name, fact.latitude, fact.longitude, ZoneInfo(fact.zone), temperature, volume)


def weather_days(season: Season) -> dict[date, WeatherDay]:
    """Return the record day by day; where records overlap the later one wins."""
    return season.memo("weather days", (WeatherRecord,), lambda: _merged(season.facts(WeatherRecord)))


def daily_weather(season: Season) -> DailyWeather | None:
    """Return the record as arrays, or None where there is none."""
    return season.memo("daily weather", (WeatherRecord,), lambda: _arrays(weather_days(season)))


def _merged(records: Iterable[WeatherRecord]) -> dict[date, WeatherDay]:
    return {day.day: day for record in records for day in record.days}


def _arrays(days: Mapping[date, WeatherDay]) -> DailyWeather | None:
    if not days:
        return None
    ordered = [days[day] for day in sorted(days)]

    def column(name: str) -> NDArray[np.float64]:
        values = [getattr(day, name) for day in ordered]
        return np.array([np.nan if value is None else value for value in values], dtype=float)

    dates = np.array([day.day for day in ordered], dtype="datetime64[D]")
    return DailyWeather(dates, column("tmin_c"), column("tmax_c"), column("rain_mm"), column("gust_ms"))
