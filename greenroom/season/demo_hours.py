"""The hours of an invented forecast, drawn from its days: warmth, cloud, gusts and rain through the day."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import UTC, datetime, timedelta, tzinfo
from math import cos, pi

import numpy as np

from greenroom.agronomy.day_curve import temperature_at
from greenroom.ledger.facts import HourAhead, WeatherDay

HOURS = 96
SHOWERS = {13: 1, 14: 2, 15: 3, 16: 4, 17: 4, 18: 3, 19: 2, 20: 1}
"""Shares of a day's rain by the hour: it comes in the afternoon. As all here, invented."""
CALM_SHARE, WINDIEST_HOUR, WINDY_HOURS = 0.5, 15, 9.0
FAIR_CLOUD, WET_CLOUD, SHOWER_CLOUD = 0.2, 0.55, 0.9
WET_MM = 0.5


def told_hours(
    days: Sequence[WeatherDay], taken: datetime, zone: tzinfo, latitude: float, longitude: float
) -> tuple[HourAhead, ...]:
    """Return the hours from the one in which a forecast was taken on, as far as its days reach."""
    first = taken.astimezone(UTC).replace(minute=0, second=0, microsecond=0)
    moments = [first + timedelta(hours=number) for number in range(HOURS)]
    dates = [day.day for day in days]
    low = np.array([day.tmin_c for day in days], dtype=float)
    high = np.array([day.tmax_c for day in days], dtype=float)
    warmth = np.atleast_1d(temperature_at(moments, dates, low, high, latitude, longitude)).tolist()
    return tuple(_hours(days, moments, warmth, zone))


def _hours(
    days: Sequence[WeatherDay], moments: Sequence[datetime], warmth: Sequence[float], zone: tzinfo
) -> Iterator[HourAhead]:
    by_date = {day.day: day for day in days}
    for moment, celsius in zip(moments, warmth, strict=True):
        local = moment.astimezone(zone)
        day = by_date.get(local.date())
        if day is None or celsius != celsius:
            continue
        rain, gust, hour = day.rain_mm or 0.0, day.gust_ms or 0.0, local.hour
        yield HourAhead(
            at=moment,
            temperature_c=round(celsius, 1),
            cloud=_cloud(rain, hour),
            gust_ms=round(gust * _wind_share(hour), 1),
            rain_mm=round(rain * SHOWERS.get(hour, 0) / sum(SHOWERS.values()), 2),
        )


def _cloud(rain: float, hour: int) -> float:
    if rain < WET_MM:
        return FAIR_CLOUD
    return SHOWER_CLOUD if hour in SHOWERS else WET_CLOUD


def _wind_share(hour: int) -> float:
    """Return the share of the day's strongest gust that blows in an hour: all of it at the windiest."""
    away = min(abs(hour - WINDIEST_HOUR) / WINDY_HOURS, 1.0)
    return CALM_SHARE + (1 - CALM_SHARE) * cos(away * pi / 2)
