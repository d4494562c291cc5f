"""An invented daily weather record: the year's wave, a noise that lasts some days, rain and gusts."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

import numpy as np
from numpy.typing import NDArray

from greenroom.ledger.facts import WeatherDay

Floats = NDArray[np.float64]

WARMEST_DAY = 200  # of the year
WET_SHARE = 0.3
WET_DAYS_SWING = 0.6  # of a dry day's: cloud keeps the night warm and the day cool
KEPT_OVERNIGHT = 0.72
"""Share of a day's departure from the usual that is left on the next: common practice, no source."""


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
    gust = 3.0 + random.gamma(2.2, 1.5, days)
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
