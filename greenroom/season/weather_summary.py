"""What the place's weather record holds and says: years, gaps, and when the last cold night comes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from greenroom.agronomy.climate import date_quantile, last_cold_night
from greenroom.ledger.facts import WeatherDay, WeatherRecord
from greenroom.season.hardening_words import day_words
from greenroom.season.place import daily_weather, place_of, record_days
from greenroom.season.sprouting import SayC, in_celsius
from greenroom.season.state import Season
from greenroom.season.why import Why

FROST_C = 0.0
COMMON_YEAR = 2001
FREEZE_SOURCE = "NOAA National Centers for Environmental Information: freeze and frost probabilities."
QUANTILE_SOURCE = (
    "Hyndman, R. J. and Fan, Y. 1996. Sample quantiles in statistical packages. The American Statistician "
    "50(4): 361-365 (type 7)."
)


@dataclass(frozen=True, slots=True)
class RecordSummary:
    """How much weather there is between ``first`` and ``last``.

    ``missing`` counts the days between them without both temperatures, ``longest_gap`` the longest
    run of such days and ``gap_start`` its first day.
    """

    first: date
    last: date
    days: int
    missing: int
    longest_gap: int
    gap_start: date | None
    coldest_c: float
    warmest_c: float

    @property
    def years(self) -> int:
        """How many calendar years the record touches."""
        return self.last.year - self.first.year + 1


@dataclass(frozen=True, slots=True)
class LastFrost:
    """The last cold night of spring over the years: in half of them by ``usual``, in nine of ten by ``late``.

    Both are days of a common year; None where no year has one. ``years`` counts the years with such a night.
    """

    usual: date | None
    late: date | None
    years: int
    why: Why


def record_summary(season: Season) -> RecordSummary | None:
    """Return how much weather there is, or None where no day has both temperatures."""
    return season.memo("record summary", (WeatherRecord,), lambda: summarise(record_days(season).values()))


def summarise(days: Iterable[WeatherDay]) -> RecordSummary | None:
    """Return what some days of weather hold, or None if no day has both temperatures."""
    whole = sorted((day.day.toordinal(), day.tmin_c, day.tmax_c) for day in days if None not in day[1:3])
    if not whole:
        return None
    table = np.array(whole, dtype=float)
    ordinals = table[:, 0].astype(int)
    gaps = np.diff(ordinals, append=ordinals[-1] + 1) - 1
    widest = int(gaps.argmax())
    return RecordSummary(
        first=date.fromordinal(ordinals[0]),
        last=date.fromordinal(ordinals[-1]),
        days=len(whole),
        missing=int(gaps.sum()),
        longest_gap=int(gaps[widest]),
        gap_start=date.fromordinal(ordinals[widest] + 1) if gaps[widest] else None,
        coldest_c=float(table[:, 1].min()),
        warmest_c=float(table[:, 2].max()),
    )


def last_frost(season: Season, say_c: SayC = in_celsius) -> LastFrost | None:
    """Return when the last frost of spring comes, or None where there is no weather record."""
    weather = daily_weather(season)
    if weather is None:
        return None
    southern = place_of(season).southern
    nights = last_cold_night(weather, FROST_C, southern=southern)
    usual, late = (date_quantile(nights, share, southern=southern) for share in (0.5, 0.9))
    known = {year: night for year, night in nights.items() if night is not None}
    why = _why(known, len(nights), usual, southern, say_c)
    return LastFrost(_common_day(usual), _common_day(late), len(known), why)


def _common_day(day_of_year: int | None) -> date | None:
    return None if day_of_year is None else date(COMMON_YEAR, 1, 1) + timedelta(days=day_of_year - 1)


def _with_year(day: date) -> str:
    return f"{day_words(day)} {day.year}"


def _why(known: dict[int, date], touched: int, usual: int | None, southern: bool, say_c: SayC) -> Why:
    cold, midsummer = say_c(FROST_C), "31 December" if southern else "30 June"
    inputs = [("years in the record", str(touched)), ("years with such a night", str(len(known)))]
    if known:
        ordered = sorted(known.values(), key=lambda night: (night.month, night.day))
        inputs += [("earliest", _with_year(ordered[0])), ("latest", _with_year(ordered[-1]))]
    usual_day = _common_day(usual)
    figure = "No frost in the record" if usual_day is None else f"Last frost about {day_words(usual_day)}"
    rule = (
        f"For each year the last night at {cold} or colder up to {midsummer} is taken; a year that lacks "
        "more than a tenth of those nights is left out. Half the years had theirs by the usual day, nine "
        "of ten by the late one. Air in a thermometer screen; on clear nights the ground is colder."
    )
    return Why(figure, rule, tuple(inputs), (FREEZE_SOURCE, QUANTILE_SOURCE))
