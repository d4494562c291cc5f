"""How the spread of a holder's ready date narrowed from day to day, by what was known on each of them."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from greenroom.agronomy.hardening import DayWeather
from greenroom.agronomy.two_clocks import Clocks
from greenroom.ledger.facts import Forecast, WeatherDay, WeatherRecord
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.hardening import forecast_from
from greenroom.season.hardening_words import day_words, ready_day_words
from greenroom.season.ramp_rules import RampRules
from greenroom.season.ready_spread import FORECAST_DAYS, ReadySpread, StartBy, ready_spread, start_by
from greenroom.season.state import Season
from greenroom.season.why import Why
from greenroom.speech import tr

SOURCES = (
    tr(
        "Hyndman, R. J. and Fan, Y. 1996. Sample quantiles in statistical packages. The "
        "American Statistician 50(4): 361-365 (type 1: the first day that many years had "
        "reached)."
    ),
    tr(
        "Wilson, E. B. 1927. Journal of the American Statistical Association 22: 209-212 "
        "(the band of the odds)."
    ),
    tr("The steps and the weather that holds are this program's own; see the ramp."),
)


@dataclass(frozen=True, slots=True)
class SpreadOn:
    """The spread as it was on the morning of a day; None in a date where too few years got there."""

    day: date
    early: date | None
    usual: date | None
    late: date | None
    years: int


def spread_of(season: Season, stand: TwoClocks) -> ReadySpread | None:
    """Return when a holder will be ready; None once it is hardened, and where there is no record."""
    if stand.hardened:
        return None
    first, states = max(stand.today, stand.started_on), stand.states
    forecast = forecast_from(season, stand.today)
    if stand.counted.outdoors > 0:
        forecast[first] = DayWeather()  # it is out, or was: today's weather holds nothing back
    return ready_spread(season, stand.clocks, states, first, forecast, stand.rules.limits)


def spread_history(season: Season, stand: TwoClocks) -> list[SpreadOn]:
    """Return the spread on the morning of each day since hardening began, today's last.

    Each is worked out from what had been done by then, the forecasts and records that had been written
    by then, and the years before. Once hardened there is nothing more to tell.
    """
    return list(_history(season, stand))


def start_for(
    season: Season, rules: RampRules, ready_by: date, today: date, wanted: float = 0.8
) -> StartBy | None:
    """Return by when the ramp of a crop or holder is to begin, so as to be ready on a day."""
    clocks = Clocks(rules.ramp, rules.air)
    return start_by(season, clocks, ready_by, today, forecast_from(season, today), rules.limits, wanted)


def known_on(season: Season, day: date) -> dict[date, DayWeather]:
    """Return the weather of a day and those after it as it was known on its morning."""
    name = f"weather known on {day}"
    return season.memo(name, (WeatherRecord, Forecast), lambda: dict(_known_on(season, day)))


def spread_words(spread: ReadySpread) -> str:
    """Return a spread in a sentence."""
    if spread.usual is None:
        ready = spread.ready_by(date.max)
        return tr("Ready within 60 days in {ready} of {years} years.", ready=ready, years=spread.count)
    if spread.early == spread.late:
        return tr("Ready {day} in nine of ten years.", day=day_words(spread.usual))
    usual, early = day_words(spread.usual), day_words(spread.early or spread.usual)
    if spread.late is None:
        return tr(
            "Ready {usual}, from {early} not within 60 days in the slowest tenth.", usual=usual, early=early
        )
    return tr("Ready {usual}, from {early} to {late}.", usual=usual, early=early, late=day_words(spread.late))


def spread_why(spread: ReadySpread) -> Why:
    """Return why a holder is ready when it is said to be."""
    until = (
        tr("none", sense="no forecast")
        if spread.forecast_until is None
        else tr("to {day}", day=day_words(spread.forecast_until))
    )
    inputs = [
        (
            tr("years of the record"),
            tr(
                "{count}, {first} to {last}",
                count=spread.count,
                first=min(spread.years),
                last=max(spread.years),
            ),
        ),
        (tr("forecast used"), until),
        (tr("one year in ten"), ready_day_words(spread.early)),
        (tr("half the years"), ready_day_words(spread.usual)),
        (tr("nine years in ten"), ready_day_words(spread.late)),
    ]
    rule = tr(
        "The rest of both clocks is played on each year of the place's record: a day its "
        "weather would have held is a day in, any other an outing of the step's minutes, "
        "without setbacks. As far as the forecast reaches it stands in for all the years. "
        "Their dates are the spread; harm done by sun or wind puts it off further."
    )
    return Why(spread_words(spread), rule, tuple(inputs), SOURCES)


def start_why(found: StartBy) -> Why:
    """Return why hardening is to begin by a day."""
    shown = [(start, odds) for start, odds in found.starts if odds > 0][-5:]
    inputs = [
        (tr("to be ready by"), day_words(found.ready_by)),
        (tr("years of the record"), str(found.years)),
    ]
    inputs += [
        (
            tr("start {day}", day=day_words(start)),
            tr("{ready:.0f} of {years} years", ready=odds * found.years, years=found.years),
        )
        for start, odds in shown
    ]
    figure = tr(
        "No start is in time for {day} in {wanted:.0f}% of the years",
        day=day_words(found.ready_by),
        wanted=found.wanted * 100,
    )
    if found.latest is not None:
        figure = tr(
            "To be ready on {ready}, begin by {start}",
            ready=day_words(found.ready_by),
            start=day_words(found.latest),
        )
    rule = tr(
        "The last day from which the ramp was done in time in at least {wanted:.0f}% of the "
        "years, each played with its own weather after the forecast, and without setbacks.",
        wanted=found.wanted * 100,
    )
    return Why(figure, rule, tuple(inputs), SOURCES)


def _history(season: Season, stand: TwoClocks) -> Iterator[SpreadOn]:
    for day, states in stand.mornings.items():
        if states.done(stand.clocks) or day < stand.started_on:
            continue
        if day < stand.today:
            spread = ready_spread(
                season, stand.clocks, states, day, known_on(season, day), stand.rules.limits
            )
        else:
            spread = spread_of(season, stand)
        if spread is not None:
            yield SpreadOn(day, spread.early, spread.usual, spread.late, spread.count)


def _known_on(season: Season, day: date) -> Iterator[tuple[date, DayWeather]]:
    told = [(number, fact.days) for number, fact in season.numbered(WeatherRecord) if fact.day <= day]
    told += [(number, fact.days) for number, fact in season.numbered(Forecast) if fact.day <= day]
    for _, days in sorted(told, key=lambda pair: pair[0]):
        for known in _from(days, day):
            yield known.day, DayWeather(known.tmin_c, known.tmax_c, known.gust_ms, known.rain_mm)


def _from(days: Sequence[WeatherDay], first: date) -> Sequence[WeatherDay]:
    """Return the days of a fact that a forecast of ``first`` could have told."""
    at = bisect_left(days, first, key=lambda day: day.day)
    until = bisect_left(days, first + timedelta(days=FORECAST_DAYS), key=lambda day: day.day)
    return days[at:until]
