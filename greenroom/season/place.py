"""The place and its weather: where the grower is, in which units, and what the record says."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, tzinfo
from itertools import takewhile
from zoneinfo import ZoneInfo

import numpy as np

from greenroom.agronomy.climate import DailyWeather
from greenroom.ledger.facts import (
    Forecast,
    HourAhead,
    OnlineChoice,
    PlaceSet,
    UnitsSet,
    WeatherDay,
    WeatherRecord,
)
from greenroom.season.state import Season

EPOCH = date(1970, 1, 1).toordinal()
WEATHER_KINDS = (WeatherRecord, Forecast, PlaceSet)
"""The kinds of fact that weather is told by, for those who keep what they make of it."""


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


def record_days(season: Season) -> dict[date, WeatherDay]:
    """Return the record day by day; where records overlap the later one wins."""
    return season.memo("record days", (WeatherRecord,), lambda: _merged(season.facts(WeatherRecord)))


def daily_weather(season: Season) -> DailyWeather | None:
    """Return the record as arrays, or None where there is none; a forecast is no record."""
    return season.memo("daily weather", (WeatherRecord,), lambda: _arrays(record_days(season)))


def weather_days(season: Season) -> dict[date, WeatherDay]:
    """Return the weather day by day, of the record and of the forecasts.

    Of the days before a forecast was taken, what is in the record counts, whenever it was written; of
    that day and those ahead of it, what was written last. Between forecasts the newest counts. Those
    asked for before the place was moved elsewhere do not count.
    """
    return season.memo("weather days", WEATHER_KINDS, lambda: _with_forecasts(season, _forecasts(season)))


def latest_forecast(season: Season) -> Forecast | None:
    """Return the newest forecast for where the place lies now, or None."""
    return next((fact for _, fact in reversed(_forecasts(season))), None)


def hours_ahead(season: Season) -> tuple[HourAhead, ...]:
    """Return the hours of the newest forecast that tells any, in order; past ones are among them."""
    return next((fact.hours for _, fact in reversed(_forecasts(season)) if fact.hours), ())


def online_allowed(season: Season) -> bool:
    """Whether the grower lets the program ask a weather service; until a choice is made it does not."""
    choice = season.latest(OnlineChoice)
    return choice is not None and choice.allowed


def _merged(records: Iterable[WeatherRecord]) -> dict[date, WeatherDay]:
    return {day.day: day for record in records for day in record.days}


def _forecasts(season: Season) -> list[tuple[int, Forecast]]:
    """Return the forecasts asked for where the place lies now, each with its number, the newest last."""
    moved = _moved_at(season)
    return [(number, fact) for number, fact in season.numbered(Forecast) if number > moved]


def _moved_at(season: Season) -> int:
    """Return the number of the fact since which the place lies where it does, to a tenth of a degree."""
    since, there = 0, None
    for number, fact in season.numbered(PlaceSet):
        here = (round(fact.latitude, 1), round(fact.longitude, 1))
        since, there = (since if here == there else number), here
    return since


def _with_forecasts(season: Season, forecasts: Sequence[tuple[int, Forecast]]) -> dict[date, WeatherDay]:
    record = record_days(season)
    if not forecasts:
        return record
    zone = place_of(season).zone
    taken_on = [fact.taken.astimezone(zone).date() for _, fact in forecasts]
    written = _numbers(season, min(taken_on))
    known = dict(record)
    for (number, fact), taken in zip(forecasts, taken_on, strict=True):
        for day in fact.days:
            newer = day.day >= taken and number > written.get(day.day, 0)
            told = any(value is not None for value in day[1:])
            if told and (newer or day.day not in record):
                known[day.day] = day
    return known


def _numbers(season: Season, first: date) -> dict[date, int]:
    """Return by which number the record of each day from ``first`` on was written last."""
    return {
        day.day: number
        for number, fact in season.numbered(WeatherRecord)
        for day in takewhile(lambda one: one.day >= first, reversed(fact.days))
    }


def _arrays(days: Mapping[date, WeatherDay]) -> DailyWeather | None:
    if not days:
        return None
    dates, *columns = zip(*sorted(days.values()), strict=True)
    values = (np.array(column, dtype=float) for column in columns)  # None becomes NaN
    ordinals = np.array([day.toordinal() - EPOCH for day in dates])  # far quicker than from dates
    return DailyWeather(ordinals.astype("datetime64[D]"), *values)
