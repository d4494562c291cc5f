"""When a holder will be ready, as the place's own years would have it: a spread of dates, not one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy.climate import DailyWeather
from greenroom.agronomy.hardening import DayWeather, HoldLimits, verdict
from greenroom.agronomy.sprouting import interval
from greenroom.agronomy.two_clocks import BothStates, Clocks, days_to_ready, morning_after
from greenroom.ledger.facts import WeatherRecord
from greenroom.season.hardening import AHEAD_DAYS
from greenroom.season.place import daily_weather
from greenroom.season.state import Season

ONE_DAY = timedelta(days=1)
FORECAST_DAYS = 16
"""Days of forecast believed: services tell up to 16; beyond them the years speak."""
MISSING_ALLOWED = 0.10
"""Share of a year's days that may be missing, as everywhere in this program's counts of years."""

Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class ReadySpread:
    """The day ready, year by year of the record; ``days`` in order, None last for years that never got there.

    ``forecast_until`` is the last day of forecast used, None without one.
    """

    forecast_until: date | None
    days: tuple[date | None, ...]
    years: tuple[int, ...]

    @property
    def count(self) -> int:
        """Number of years played."""
        return len(self.days)

    def by(self, share: float) -> date | None:
        """Return the first day by which so many of the years were ready, 0 to 1; None if they never were."""
        at = max(0, int(np.ceil(share * self.count - 1e-9)) - 1)
        return self.days[at]

    @property
    def early(self) -> date | None:
        """By then one year in ten was ready."""
        return self.by(0.1)

    @property
    def usual(self) -> date | None:
        """By then half the years were ready."""
        return self.by(0.5)

    @property
    def late(self) -> date | None:
        """By then nine years in ten were ready."""
        return self.by(0.9)

    def odds(self, day: date) -> float:
        """Return the share of years that were ready on or before a day."""
        return self.ready_by(day) / self.count

    def ready_by(self, day: date) -> int:
        """Return the number of years that were ready on or before a day."""
        return sum(ready is not None and ready <= day for ready in self.days)

    def band(self, day: date) -> tuple[float, float]:
        """Return the interval of the chance to be ready by a day, 95 %, taking the years as a sample."""
        return interval(self.ready_by(day), self.count)

    def curve(self) -> list[tuple[date, float]]:
        """Return the days on which a year or more got ready, each with the odds by it."""
        found = sorted({day for day in self.days if day is not None})
        return [(day, self.odds(day)) for day in found]


@dataclass(frozen=True, slots=True)
class StartBy:
    """When to begin so as to be ready by a day; ``starts`` are days in order with their odds.

    ``latest`` is the last start with the odds wanted, None if none from today on has them.
    """

    ready_by: date
    wanted: float
    latest: date | None
    starts: tuple[tuple[date, float], ...]
    years: int

    def odds(self, start: date) -> float | None:
        """Return the odds of one start, None for a day that was not played."""
        return dict(self.starts).get(start)


def ready_spread(
    season: Season,
    clocks: Clocks,
    states: BothStates,
    first: date,
    forecast: Mapping[date, DayWeather],
    limits: HoldLimits,
) -> ReadySpread | None:
    """Return when a holder will be ready, replayed on every year of the record; None without one.

    Parameters
    ----------
    season : Season
        Its weather record gives the years; only years that lie before ``first`` count.
    clocks, states : Clocks, BothStates
        The ramps, and where the holder stands on the morning of ``first`` (a clock may have settled it).
    first : date
        The first day still to be done.
    forecast : mapping of date to DayWeather
        Used as long as it runs on from ``first`` without a gap, up to 16 days; after it each year's own
        weather of the same days of its year.
    limits : HoldLimits
        The weather that holds.
    """
    told = _run(forecast, first)
    if states.sun_settled or states.air_settled:
        states = morning_after(clocks, states, first, told.pop(first, None), limits=limits)
        first += ONE_DAY
    held = [
        verdict(day.tmin, day.tmax, day.gust, day.rain, limits=limits)[0] == "hold" for day in told.values()
    ]
    name = f"spread of {clocks} from {states} on {first}, {held}, {limits}"
    return season.memo(
        name, (WeatherRecord,), lambda: _spread(season, clocks, states, first, tuple(held), limits)
    )


def start_by(
    season: Season,
    clocks: Clocks,
    ready_by: date,
    today: date,
    forecast: Mapping[date, DayWeather],
    limits: HoldLimits,
    wanted: float = 0.8,
) -> StartBy | None:
    """Return by when to begin hardening so as to be ready on a day; None without a record, or too late.

    Each start from today to the day itself is played on every year of the record, the forecast first.
    """
    span = (ready_by - today).days + 1
    if not 0 < span <= 366:
        return None
    told = _run(forecast, today)
    held = [
        verdict(day.tmin, day.tmax, day.gust, day.rain, limits=limits)[0] == "hold" for day in told.values()
    ]
    name = f"start of {clocks} for {ready_by} from {today}, {held}, {limits}, {wanted}"
    return season.memo(
        name,
        (WeatherRecord,),
        lambda: _start_by(season, clocks, ready_by, today, tuple(held), limits, wanted),
    )


def held_years(season: Season, first: date, days: int, limits: HoldLimits) -> tuple[Flags, tuple[int, ...]]:
    """Return for each year of the record which of its days hold, and the years.

    The days are those of the year from the month and day of ``first`` on; 29 February falls back to the
    28th. A day that is missing holds nothing, and a year that lacks more than a tenth of the days, or
    whose days do not all lie before ``first``, is left out. Shape (years, days).
    """
    weather = daily_weather(season)
    if weather is None or len(weather) == 0:
        return np.zeros((0, days), dtype=bool), ()
    table = season.memo("held table", (WeatherRecord,), lambda: _Table.of(weather))
    return table.years(first, days, limits)


def _spread(
    season: Season,
    clocks: Clocks,
    states: BothStates,
    first: date,
    forecast: Sequence[bool],
    limits: HoldLimits,
) -> ReadySpread | None:
    held, years = held_years(season, first, AHEAD_DAYS, limits)
    if not years:
        return None
    held[:, : len(forecast)] = np.array(forecast, dtype=bool)[:AHEAD_DAYS]
    needed = days_to_ready(clocks, states, held)
    days = [None if need < 0 else first + timedelta(days=int(need) - 1) for need in needed]
    ordered = sorted(days, key=lambda day: day or date.max)
    until = first + timedelta(days=len(forecast) - 1) if forecast else None
    return ReadySpread(until, tuple(ordered), years)


def _start_by(
    season: Season,
    clocks: Clocks,
    ready_by: date,
    today: date,
    forecast: Sequence[bool],
    limits: HoldLimits,
    wanted: float,
) -> StartBy | None:
    span = (ready_by - today).days + 1
    held, years = held_years(season, today, span, limits)
    if not years:
        return None
    told = np.array(forecast, dtype=bool)[:span]
    held[:, : told.size] = told
    starts = np.arange(span)
    # A start on day s sees the days from s on; days past the end are held, so that they ready nobody.
    padded = np.concatenate([held, np.ones((len(years), span), dtype=bool)], axis=1)
    windows = padded[:, starts[:, np.newaxis] + np.arange(span)]
    ready = days_to_ready(clocks, BothStates(), windows) >= 0
    odds = ready.mean(axis=0)
    enough = np.flatnonzero(odds >= wanted - 1e-9)
    latest = today + timedelta(days=int(enough[-1])) if enough.size else None
    told_starts = tuple((today + timedelta(days=int(at)), float(odds[at])) for at in starts)
    return StartBy(ready_by, wanted, latest, told_starts, len(years))


def _run(forecast: Mapping[date, DayWeather], first: date) -> dict[date, DayWeather]:
    """Return the forecast from a day on for as long as it has no gap."""
    found: dict[date, DayWeather] = {}
    for ahead in range(FORECAST_DAYS):
        day = first + timedelta(days=ahead)
        if day not in forecast:
            break
        found[day] = forecast[day]
    return found


@dataclass(frozen=True, slots=True, eq=False)
class _Table:
    """The record without gaps, a day a place: NaN where nothing is known."""

    first: date
    tmax: NDArray[np.float64]
    gust: NDArray[np.float64]
    rain: NDArray[np.float64]

    @classmethod
    def of(cls, weather: DailyWeather) -> _Table:
        """Lay the days of a record out one after the other."""
        start = weather.dates[0]
        places = (weather.dates - start).astype(np.int64)

        def laid(values: NDArray[np.float64] | None) -> NDArray[np.float64]:
            row = np.full(int(places[-1]) + 1, np.nan)
            if values is not None:
                row[places] = values
            return row

        first: date = start.item()
        return cls(first, laid(weather.tmax), laid(weather.gust), laid(weather.rain))

    def years(self, first: date, days: int, limits: HoldLimits) -> tuple[Flags, tuple[int, ...]]:
        """Return which days of each year hold."""
        found = range(self.first.year, first.year)
        starts = [(year, (_same_day(first, year) - self.first).days) for year in found]
        whole = [
            (year, at)
            for year, at in starts
            if at >= 0 and at + days <= self.tmax.size and self.first + timedelta(days=at + days) <= first
        ]
        if not whole:
            return np.zeros((0, days), dtype=bool), ()
        places = np.array([at for _, at in whole])[:, np.newaxis] + np.arange(days)
        tmax, gust, rain = (column[places] for column in (self.tmax, self.gust, self.rain))
        known = np.isnan(tmax).mean(axis=1) <= MISSING_ALLOWED
        held = (tmax < limits.cold_c) | (gust >= limits.gust_m_s) | (rain >= limits.rain_mm)
        years = tuple(year for (year, _), keep in zip(whole, known, strict=True) if keep)
        return held[known], years


def _same_day(day: date, year: int) -> date:
    last = 28 if day.month == 2 else day.day
    return date(year, day.month, min(day.day, last))
