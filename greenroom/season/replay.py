"""The place's own years, kept ready to be played again: each question is worked out once."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy.climate import DailyWeather, date_quantile, first_cold_night, first_warm_run
from greenroom.agronomy.ripening import Ripener, SeasonOdds, odds_by_sowing, season_odds, years_by_sowing
from greenroom.agronomy.sprouting import interval
from greenroom.ledger.facts import PlaceSet, WeatherRecord
from greenroom.season.place import daily_weather, place_of
from greenroom.season.state import Season
from greenroom.speech import tr

KEPT = 4096
"""Answers kept: a plan of 80 varieties asks for some hundreds."""

TENTHS = (0.1, 0.5, 0.9)
LAST_OF_JUNE = 181  # day of a common year


@dataclass(frozen=True, slots=True)
class Odds:
    """In how many of a place's years a variety would have ripened, and what that says of the chance.

    ``low`` and ``high`` bound the chance with 95 % confidence, taking the years as a sample.
    """

    ripe: int
    years: int
    low: float
    high: float

    @property
    def share(self) -> float:
        """Share of the years, 0 to 1."""
        return self.ripe / self.years

    @property
    def words(self) -> str:
        """The odds as a grower reads them: 21 of 30 years."""
        return tr("{ripe} of {years} years", ripe=self.ripe, years=self.years)


@dataclass(frozen=True, slots=True)
class Spread:
    """Days by which one year in ten, half, and nine in ten had come to a stage, and in how many it came."""

    early: date
    usual: date
    late: date
    years: int


def replay_of(season: Season) -> Replay | None:
    """Return the place's years, or None where there is no weather record."""

    def make() -> Replay | None:
        weather = daily_weather(season)
        return None if weather is None else Replay(weather, southern=place_of(season).southern)

    return season.memo("replay", (WeatherRecord, PlaceSet), make)


def odds_of(ripe: int, years: int) -> Odds:
    """Return the odds with their 95 % score interval (Wilson 1927); at least one year is needed."""
    low, high = interval(ripe, years)
    return Odds(ripe, years, low, high)


def spread_of(
    dates: Mapping[int, date | None] | Iterable[date | None], year: int, *, southern: bool
) -> Spread | None:
    """Return when a stage comes, as days of one season; None where it never came."""
    given = list(dates.values() if isinstance(dates, Mapping) else dates)
    days = date_quantile(given, TENTHS, southern=southern)
    if days is None:
        return None
    early, usual, late = (in_season(int(day), year, southern=southern) for day in days)
    return Spread(early, usual, late, sum(day is not None for day in given))


def in_season(day_of_year: int, year: int, *, southern: bool) -> date:
    """Return a day of the year as a date of the season named by that year."""
    calendar = year + 1 if southern and day_of_year <= LAST_OF_JUNE else year
    return date(calendar, 1, 1) + timedelta(days=day_of_year - 1)


def season_start(year: int, *, southern: bool) -> date:
    """Return the first day of a season: 1 January, or 1 July in the south."""
    return date(year, 7 if southern else 1, 1)


class Replay:
    """A weather record that answers for each variety and day how its years would have gone."""

    def __init__(self, weather: DailyWeather, *, southern: bool) -> None:
        self.weather = weather
        self.southern = southern
        self._played = lru_cache(maxsize=KEPT)(self._play)
        self._laid = lru_cache(maxsize=KEPT)(self._lay)
        self._warm = lru_cache(maxsize=KEPT)(self._find_warm)
        self._frost = lru_cache(maxsize=KEPT)(self._find_frost)

    def seasons(self, ripener: Ripener, sown: date, year: int) -> SeasonOdds | None:
        """Return how each year went for a variety sown on a day; None if it is ready after the season."""
        ready = sown + timedelta(days=ripener.days_to_ready)
        if ready >= season_start(year + 1, southern=self.southern):
            return None
        return self._played(ripener, max(ready, season_start(year, southern=self.southern)))

    def odds(
        self, ripeners: Sequence[Ripener], days: Sequence[date], year: int
    ) -> tuple[NDArray[np.float64], tuple[int, ...]]:
        """Return the odds, a row a variety and a column a sowing day, and the years they are counted over."""
        return self._laid(tuple(ripeners), tuple(days), year)

    def warm_days(self, floor_c: float, run: int) -> Mapping[int, date | None]:
        """Return for each year the first day of nights that stay warm enough to set out."""
        return self._warm(floor_c, run)

    def killing_nights(self, killing_c: float) -> Mapping[int, date | None]:
        """Return for each year the first killing night of its second half."""
        return self._frost(killing_c)

    def _play(self, ripener: Ripener, ready: date) -> SeasonOdds:
        return season_odds(
            self.weather,
            ripener.heat_to_ripe,
            ready,
            ripener.floor,
            ripener.run,
            ripener.killing,
            ripener.base,
            ripener.cap,
            southern=self.southern,
        )

    def _lay(
        self, ripeners: tuple[Ripener, ...], days: tuple[date, ...], year: int
    ) -> tuple[NDArray[np.float64], tuple[int, ...]]:
        odds = odds_by_sowing(self.weather, ripeners, days, southern=self.southern, season=year)
        years = years_by_sowing(self.weather, ripeners, days, southern=self.southern, season=year)
        odds.flags.writeable = False
        return odds, years

    def _find_warm(self, floor_c: float, run: int) -> Mapping[int, date | None]:
        return first_warm_run(self.weather, floor_c, run, southern=self.southern)

    def _find_frost(self, killing_c: float) -> Mapping[int, date | None]:
        return first_cold_night(self.weather, killing_c, southern=self.southern)
