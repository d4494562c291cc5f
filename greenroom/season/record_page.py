"""What the place's weather record shows on its own page: years, gaps, frosts, warm nights, heat."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy.climate import DailyWeather, degree_days, last_cold_night
from greenroom.ledger.facts import PlaceSet, PlanRules, WeatherRecord
from greenroom.season.place import daily_weather, place_of
from greenroom.season.replay import Replay, Spread, replay_of, season_start, spread_of
from greenroom.season.ripening_heat import WARM
from greenroom.season.state import Season
from greenroom.season.wants import Span, rules_of

LONGEST_SEASON_DAYS = 366
MISSING_ALLOWED = 0.1
"""A year that lacks more of its days is not drawn among the others, as in the odds."""


@dataclass(frozen=True, slots=True)
class Dates:
    """A stage of the year by year, and its spread as dates of the season shown; None where it never came."""

    by_year: Mapping[int, date | None]
    spread: Spread | None

    @property
    def years(self) -> int:
        """In how many years it came."""
        return sum(day is not None for day in self.by_year.values())


@dataclass(frozen=True, slots=True)
class HeatCurves:
    """Heat gathered since the season's start, day by day [°C·d].

    ``days`` are those of the season shown; ``past`` has a row for each of ``years``, NaN where nothing
    is known; ``low``, ``usual`` and ``high`` bound eight years in ten and halve them. ``this_year`` is
    the season shown as far as it is known, NaN beyond; None if nothing of it is.
    """

    days: tuple[date, ...]
    years: tuple[int, ...]
    past: NDArray[np.float64]
    low: NDArray[np.float64]
    usual: NDArray[np.float64]
    high: NDArray[np.float64]
    this_year: NDArray[np.float64] | None


@dataclass(frozen=True, slots=True)
class RecordPage:
    """All that the record's page shows, for one season.

    ``years`` are the seasons the record touches, ``gaps`` the runs of days without both temperatures.
    ``last_frost`` and ``first_frost`` go by 0 °C, ``killing`` and ``warm_nights`` by the plan's rules.
    """

    year: int
    years: tuple[int, ...]
    gaps: tuple[Span, ...]
    last_frost: Dates
    first_frost: Dates
    killing: Dates
    warm_nights: Dates
    heat: HeatCurves


def record_page(season: Season, year: int, frost_c: float = 0.0) -> RecordPage | None:
    """Return what the record's page shows for a season, or None where there is no record."""
    kinds = (WeatherRecord, PlaceSet, PlanRules)
    return season.memo(f"record page {year} {frost_c:g}", kinds, lambda: _page(season, year, frost_c))


def _page(season: Season, year: int, frost_c: float) -> RecordPage | None:
    weather, replay = daily_weather(season), replay_of(season)
    if weather is None or replay is None:
        return None
    southern, rules = place_of(season).southern, rules_of(season)

    def dated(days: Mapping[int, date | None]) -> Dates:
        known = {key: day for key, day in days.items() if key != year or day is not None}
        return Dates(known, spread_of(known, year, southern=southern))

    frosts = last_cold_night(weather, frost_c, southern=southern)
    return RecordPage(
        year,
        tuple(frosts),
        gaps_of(weather),
        dated(frosts),
        dated(replay.killing_nights(frost_c)),
        dated(replay.killing_nights(rules.killing_c)),
        dated(replay.warm_days(rules.floor_c, rules.run_nights)),
        _heat(replay, year),
    )


def gaps_of(weather: DailyWeather) -> tuple[Span, ...]:
    """Return the runs of days without both temperatures, between the first and the last day that has them."""
    known = weather.dates[~(np.isnan(weather.tmin) | np.isnan(weather.tmax))].tolist()
    one = timedelta(days=1)
    return tuple(Span(before + one, after - one) for before, after in pairwise(known) if after - before > one)


def _heat(replay: Replay, year: int) -> HeatCurves:
    """Return the curves of the years that are whole enough, with the season shown apart from them."""
    laid = _laid(replay)
    past = tuple(key for key, row in laid.items() if key != year and _whole(row))
    rows = (
        np.array([_gathered(laid[key]) for key in past])
        if past
        else np.full((0, LONGEST_SEASON_DAYS), np.nan)
    )
    first = season_start(year, southern=replay.southern)
    days = tuple(first + timedelta(days=number) for number in range(LONGEST_SEASON_DAYS))
    if past:
        low, usual, high = np.quantile(rows, (0.1, 0.5, 0.9), axis=0)
    else:
        low = usual = high = np.full(LONGEST_SEASON_DAYS, np.nan)
    own = laid.get(year)
    return HeatCurves(days, past, rows, low, usual, high, None if own is None else _so_far(own))


def _laid(replay: Replay) -> dict[int, NDArray[np.float64]]:
    """Return the heat of each day, a row of 366 a season from its first day on; NaN where not known."""
    weather = replay.weather
    heat = np.asarray(
        degree_days(weather.tmin, weather.tmax, base=WARM.base_c, cap=WARM.cap_c, method="clamp")
    )
    laid: dict[int, NDArray[np.float64]] = {}
    years = _season_of(weather.dates, southern=replay.southern)
    for key in dict.fromkeys(years.tolist()):
        first = np.datetime64(season_start(key, southern=replay.southern))
        mine = years == key
        row = np.full(LONGEST_SEASON_DAYS, np.nan)
        row[(weather.dates[mine] - first).astype(int)] = heat[mine]
        laid[key] = row
    return laid


def _season_of(dates: NDArray[np.datetime64], *, southern: bool) -> NDArray[np.int64]:
    months = dates.astype("datetime64[M]").astype(np.int64)
    return (months - (6 if southern else 0)) // 12 + 1970


def _whole(row: NDArray[np.float64]) -> bool:
    return bool(np.isnan(row[: LONGEST_SEASON_DAYS - 1]).mean() <= MISSING_ALLOWED)


def _gathered(row: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the heat gathered by the end of each day; a gap is filled in line from the days around it."""
    known = np.flatnonzero(~np.isnan(row))
    return np.cumsum(np.interp(np.arange(row.size), known, row[known]))


def _so_far(row: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the heat gathered up to the last day known, NaN beyond; gaps before it are filled in line."""
    known = np.flatnonzero(~np.isnan(row))
    gathered = np.full(row.size, np.nan)
    if known.size:
        last = int(known[-1])
        gathered[: last + 1] = np.cumsum(np.interp(np.arange(last + 1), known, row[known]))
    return gathered
