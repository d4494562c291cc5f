"""What a grower settles at the place: whether to ask a service, frost dates told; and what a service told."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime, timedelta

from greenroom.ledger.facts import (
    Forecast,
    FrostDatesGiven,
    HourAhead,
    OnlineChoice,
    WeatherDay,
    WeatherRecord,
)
from greenroom.season.hardening_words import day_words
from greenroom.season.place import place_of
from greenroom.season.proposal import Proposal, RefusedError, not_before
from greenroom.season.state import Season
from greenroom.speech import many, tr, trn

KEPT_DAYS = 45
"""How long a forecast stays in force: minutes weighed by light ask for the cloud of every day of a ramp."""
HOURS_KEPT = timedelta(hours=96)
"""How far ahead hours are kept: beyond that no forecast is good to the hour (common practice, no source)."""
SHORTEST_SEASON_DAYS = 30
MIDSUMMER_MONTHS = (5, 10)
"""Half way between the two frosts lies in these months in the north, half a year on in the south."""


def allow_online(season: Season, day: date, *, allowed: bool) -> Proposal:
    """Write down whether a weather service may be asked; nothing where that stands already."""
    before = season.latest(OnlineChoice)
    fact = OnlineChoice(day=not_before(before, day), allowed=allowed)
    name = tr("allowed asking the weather service") if allowed else tr("stopped asking the weather service")
    if before is None:
        return Proposal(name, (fact,) if allowed else ())
    return Proposal(name, () if before.allowed is allowed else (fact,))


def give_frost_dates(season: Season, last: date, first: date, day: date) -> Proposal:
    """Write down the usual last frost of spring and first of autumn; only month and day count."""
    free = _days_between(last, first)
    if free < SHORTEST_SEASON_DAYS:
        raise RefusedError(
            trn(
                "A last frost on {last} and a first one on {first} leave {n} day without frost; "
                "at least {least} are needed.",
                "A last frost on {last} and a first one on {first} leave {n} days without frost; "
                "at least {least} are needed.",
                free,
                last=day_words(last),
                first=day_words(first),
                least=SHORTEST_SEASON_DAYS,
            )
        )
    _refuse_swapped(season, last, first, free)
    before = season.latest(FrostDatesGiven)
    fact = FrostDatesGiven(day=not_before(before, day), last=last, first=first)
    told = before is not None and _same_days((before.last, last), (before.first, first))
    return Proposal(tr("gave frost dates"), () if told else (fact,))


def strike_frost_dates(season: Season) -> Proposal:
    """Strike the frost dates that were given out."""
    return Proposal(
        tr("struck the frost dates out"), strike=tuple(one.id for one in season.facts(FrostDatesGiven))
    )


def fetch_weather(
    season: Season, source: str, station: str, days: tuple[WeatherDay, ...], day: date
) -> Proposal:
    """Write down days that a service gave; they replace those it gave before of the same days or fewer."""
    known = season.facts(WeatherRecord)
    same = [one for one in known if (one.source, one.station) == (source, station)]
    if any(one.days == days for one in same):
        raise RefusedError(tr("{service} gave the very same days as before.", service=source))
    first, last = days[0].day, days[-1].day
    gone = tuple(one.id for one in same if first <= one.days[0].day and one.days[-1].day <= last)
    fact = WeatherRecord(
        day=not_before(known[-1] if known else None, day), source=source, station=station, days=days
    )
    return Proposal(tr("fetched {days} of weather", days=many(len(days), "day")), (fact,), strike=gone)


def hear_forecast(
    season: Season, source: str, taken: datetime, days: Sequence[WeatherDay], hours: Sequence[HourAhead]
) -> Proposal:
    """Write down what a service told at one moment.

    It replaces the other forecasts of that day and those older than ``KEPT_DAYS``; of its hours those
    that are over, and those too far ahead to be of use, are left away.
    """
    zone = place_of(season).zone
    day = taken.astimezone(zone).date()
    begun = taken - timedelta(hours=1)
    kept = tuple(hour for hour in hours if begun < hour.at <= taken + HOURS_KEPT)
    fact = Forecast(
        day=not_before(season.latest(Forecast), day),
        source=source,
        taken=taken,
        days=tuple(days),
        hours=kept,
    )
    ages = ((one.id, (day - one.taken.astimezone(zone).date()).days) for one in season.facts(Forecast))
    gone = tuple(key for key, age in ages if age == 0 or age > KEPT_DAYS)
    return Proposal(tr("heard the forecast of {service}", service=source), (fact,), strike=gone)


def _days_between(last: date, first: date) -> int:
    """Return the days from a last frost to the next first frost, whatever their years."""
    return (_in_one_year(first) - _in_one_year(last)).days % 365


def _same_days(*pairs: tuple[date, date]) -> bool:
    return all(_in_one_year(one) == _in_one_year(other) for one, other in pairs)


def _in_one_year(day: date) -> date:
    """Return a day in a common year, so that only its month and day count."""
    return day.replace(year=2001, day=28 if (day.month, day.day) == (2, 29) else day.day)


def _refuse_swapped(season: Season, last: date, first: date, free: int) -> None:
    """Refuse frosts between which it is winter where the grower is."""
    place = place_of(season)
    if not place.known:
        return
    middle = _in_one_year(last) + timedelta(days=free // 2)
    low, high = MIDSUMMER_MONTHS
    summer = low <= middle.month <= high
    if summer is place.southern:
        raise RefusedError(
            tr(
                "Between {last} and {first} it is winter at {place}; the last frost comes in spring, "
                "the first in autumn.",
                last=day_words(last),
                first=day_words(first),
                place=place.name,
            )
        )
