"""An invented daily weather record: the year's wave, a noise that lasts some days, rain and gusts."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import UTC, date, datetime, time, timedelta, tzinfo
from typing import Any

import numpy as np
from numpy.typing import NDArray

from greenroom.ledger.facts import Fact, Forecast, WeatherDay, WeatherRecord
from greenroom.season.demo_hours import told_hours
from greenroom.speech import tr

Floats = NDArray[np.float64]

WARMEST_DAY = 200  # of the year
WET_SHARE = 0.3
WET_DAYS_SWING = 0.6  # of a dry day's: cloud keeps the night warm and the day cool
KEPT_OVERNIGHT = 0.72
"""Share of a day's departure from the usual that is left on the next: common practice, no source."""

REACH_DAYS, EARLIER_REACH_DAYS = 7, 5
"""How far ahead the invented service was asked this morning, and on those before it."""
LOOKS_BACK_DAYS = 15
"""On how many mornings before today the service was asked: a whole ramp's."""
ASKED_AT = time(6, 30)
WRONG_C_A_DAY, WRONG_GUST_A_DAY = 0.5, 0.06
"""How far an invented forecast strays for each day it looks ahead: common practice, no source."""


def weather_facts(
    told: Mapping[str, Any],
    random: np.random.Generator,
    settled: date,
    today: date,
    zone: tzinfo,
    key: Callable[[], str],
) -> Iterator[Fact]:
    """Yield the record up to yesterday, and what an invented service told on the mornings up to today's.

    The latest weeks are a record of their own, so that on none of those mornings more was known than the
    years before and that morning's forecast.
    """
    days = weather_days(told, random, today + timedelta(days=REACH_DAYS))
    wrong = random.spawn(1)[0]
    split = today - timedelta(days=LOOKS_BACK_DAYS)
    parts = (
        (settled, [day for day in days if day.day < split]),
        (today, [day for day in days if split <= day.day < today]),
    )
    for on, part in parts:
        name = key()
        if part:
            station = told["station"]
            yield WeatherRecord(
                id=name, day=on, source=tr("an invented record"), station=station, days=tuple(part)
            )
    ahead = days[-LOOKS_BACK_DAYS - REACH_DAYS - 1 :]
    for back in range(LOOKS_BACK_DAYS, -1, -1):
        morning, name = today - timedelta(days=back), key()
        found = _told_on(morning, ahead, wrong, sound=back == 0)
        if found:
            taken = datetime.combine(morning, ASKED_AT, tzinfo=zone).astimezone(UTC)
            place = told["latitude"], told["longitude"]
            hours = told_hours(found, taken, zone, *place) if back == 0 else ()
            yield Forecast(
                id=name, day=morning, source=tr("an invented service"), taken=taken, days=found, hours=hours
            )


def weather_days(told: Mapping[str, Any], random: np.random.Generator, last: date) -> tuple[WeatherDay, ...]:
    """Return the record up to and with ``last``; the days told one by one are as told.

    A day is the same whatever ``last`` is: all days up to the end of the record are drawn each time.
    """
    first = told["first"].toordinal()
    ordinals = np.arange(first, told["last"].toordinal() + 1)
    columns = _columns(told, random, ordinals)
    for day in told["days"]:
        columns[day["day"].toordinal() - first] = (day["tmin"], day["tmax"], day["rain"], day["gust"])
    kept = max(0, min(ordinals.size, last.toordinal() - first + 1))
    rows = columns[:kept].tolist()
    return tuple(
        WeatherDay(date.fromordinal(ordinal), *row)
        for ordinal, row in zip(range(first, first + kept), rows, strict=True)
    )


def _columns(told: Mapping[str, Any], random: np.random.Generator, ordinals: NDArray[np.int64]) -> Floats:
    """Return tmin and tmax [°C], rain [mm] and gust [m/s], a row a day."""
    days = ordinals.size
    noise = _lasting(random.standard_normal(days)) * told["noise_c"]
    wet = random.random(days) < WET_SHARE
    rain = np.where(wet, random.gamma(0.9, 6.0, days), 0.0)
    gust = 3.0 + random.gamma(2.2, 2.3, days)
    wave = np.cos(2 * np.pi * (_day_of_year(ordinals) - WARMEST_DAY) / 365.25)
    mean = told["mean_c"] + told["swing_c"] * wave + noise
    half = told["daily_c"] * np.where(wet, WET_DAYS_SWING, 1.0)
    return np.round(np.column_stack((mean - half, mean + half, rain, gust)), 1)


def _day_of_year(ordinals: NDArray[np.int64]) -> NDArray[np.int64]:
    epoch = date(1970, 1, 1).toordinal()
    days = (ordinals - epoch).astype("datetime64[D]")
    return (days - days.astype("datetime64[Y]")).astype(np.int64) + 1


def _lasting(steps: Floats) -> Floats:
    """Return noise of unit variance of which each day keeps a share of the day before."""
    fresh = (1 - KEPT_OVERNIGHT**2) ** 0.5
    held, kept = 0.0, []
    for step in steps.tolist():
        held = KEPT_OVERNIGHT * held + fresh * step
        kept.append(held)
    return np.array(kept)


def _told_on(
    morning: date, days: Sequence[WeatherDay], random: np.random.Generator, *, sound: bool
) -> tuple[WeatherDay, ...]:
    """Return what was told of a morning's day and those after it; the latest, if ``sound``, as they are."""
    stray = random.standard_normal((REACH_DAYS + 1, 2)).tolist()
    if sound:
        stray = [(0.0, 0.0)] * (REACH_DAYS + 1)
    last = morning + timedelta(days=REACH_DAYS if sound else EARLIER_REACH_DAYS)
    return tuple(
        _strayed(day, (day.day - morning).days, *stray[(day.day - morning).days])
        for day in days
        if morning <= day.day <= last
    )


def _strayed(day: WeatherDay, ahead: int, warm: float, wind: float) -> WeatherDay:
    if day.tmin_c is None or day.tmax_c is None or day.gust_ms is None:
        return day
    celsius, share = warm * WRONG_C_A_DAY * ahead, max(0.3, 1 + wind * WRONG_GUST_A_DAY * ahead)
    return day._replace(
        tmin_c=round(day.tmin_c + celsius, 1),
        tmax_c=round(day.tmax_c + celsius, 1),
        gust_ms=round(day.gust_ms * share, 1),
    )
