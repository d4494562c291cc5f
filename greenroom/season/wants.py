"""What the grower wants of a year: plants, chosen sowing days, the rules of the plan, the frosts as told."""

from __future__ import annotations

from datetime import date, timedelta
from typing import NamedTuple

from greenroom.ledger.facts import FrostDatesGiven, PlanRules, SowingPlanned, Variety, Wanted
from greenroom.season.place import place_of
from greenroom.season.state import Season

FIRST_SOWING, LAST_SOWING = (12, 1), (6, 30)
"""Month and day between which a northern season is sown, the first in the year before; half a year on in
the south."""


class Span(NamedTuple):
    """A first and a last day, both of them in it."""

    first: date
    last: date

    def __contains__(self, day: object) -> bool:
        return isinstance(day, date) and self.first <= day <= self.last


def rules_of(season: Season) -> PlanRules:
    """Return the rules of the plan: the grower's own, or those the program starts with."""
    return season.latest(PlanRules) or PlanRules(id="", day=date.min)


def wanted(season: Season, year: int) -> dict[str, int]:
    """Return how many plants of each variety are wanted, in the order they were first asked for."""
    told: dict[str, int] = {}
    for fact in season.facts(Wanted):
        if fact.year == year:
            told[fact.variety] = fact.plants
    return {
        key: plants for key, plants in told.items() if plants > 0 and season.thing(Variety, key) is not None
    }


def chosen_days(season: Season, year: int) -> dict[str, date]:
    """Return the sowing day chosen for each variety that has one."""
    return {fact.variety: fact.on for fact in season.facts(SowingPlanned) if fact.year == year}


def frost_dates(season: Season) -> FrostDatesGiven | None:
    """Return the usual frosts as the grower told them, or None."""
    return season.latest(FrostDatesGiven)


def sowing_span(season: Season, year: int) -> Span:
    """Return the first and last day on which a year's season is sown."""
    return span_of_sowing(year, southern=place_of(season).southern)


def span_of_sowing(year: int, *, southern: bool) -> Span:
    """Return the first and last day on which a season, named by its spring, is sown."""
    if southern:
        return Span(date(year, FIRST_SOWING[0] - 6, FIRST_SOWING[1]), date(year, LAST_SOWING[0] + 6, 31))
    return Span(date(year - 1, *FIRST_SOWING), date(year, *LAST_SOWING))


def days_of(span: Span) -> tuple[date, ...]:
    """Return every day of a span."""
    return tuple(span.first + timedelta(days=number) for number in range((span.last - span.first).days + 1))
