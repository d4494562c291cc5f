"""The plan where there is no weather record: days counted between the usual frosts.

Two dates and a place say when frost is usual, and nothing of how warm it is between, or how far the years
differ. No odds can be told from that and none are made up: a plan is told by the days it has to spare.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta

from greenroom.ledger.facts import FrostDatesGiven
from greenroom.season.plan_needs import TENDER_FLOOR_C, Needs
from greenroom.season.ripening_heat import HARDY_BELOW_C
from greenroom.season.wants import Span
from greenroom.speech import tr

AFTER_LAST_FROST_DAYS = 14
"""Days from the usual last frost to nights that stay at 10 °C: common practice, no source."""

BEFORE_LAST_FROST_DAYS = 21
"""Days that a crop which bears cold nights goes out before it: common practice, no source."""

ONE_YEAR_IN_TEN_DAYS = 14
"""A frost comes so much later in spring, or earlier in autumn, than usual in one year of ten: tables of
freeze dates, from memory."""


@dataclass(frozen=True, slots=True)
class FrostPlan:
    """What comes of sowing one variety on one day, by the calendar alone.

    ``spare_days`` lie between ripe fruit and the usual first frost, negative where it comes too late;
    ``latest`` is the last sowing day that leaves as many as a bad year takes, None where none does.
    """

    on: date
    up: date
    ready: date
    set_out: date
    ripe: date
    end: date
    spare_days: int
    latest: date | None

    @property
    def verdict(self) -> str:
        """Whether it ripens: "in most years", "in a good year" or "not in a usual year"."""
        if self.spare_days >= ONE_YEAR_IN_TEN_DAYS:
            return tr("in most years")
        return tr("in a good year") if self.spare_days >= 0 else tr("not in a usual year")


def frosts_of(given: FrostDatesGiven, year: int) -> Span:
    """Return the usual last and first frost as days of a season, named by its spring."""
    last, first = _in_year(given.last, year), _in_year(given.first, year)
    return Span(last, first if first > last else _in_year(given.first, year + 1))


def set_out_day(needs: Needs, frosts: Span) -> date:
    """Return the usual first day on which nights are warm enough to set a variety out."""
    if needs.floor_c < HARDY_BELOW_C:
        return frosts.first - timedelta(days=BEFORE_LAST_FROST_DAYS)
    tender = needs.floor_c >= TENDER_FLOOR_C
    return frosts.first + timedelta(days=AFTER_LAST_FROST_DAYS if tender else 0)


def frost_plan(needs: Needs, on: date, frosts: Span) -> FrostPlan | None:
    """Return what comes of sowing on a day; None where the days to ripe are not known."""
    if needs.days_to_ripe is None:
        return None
    ripens = timedelta(days=round(needs.days_to_ripe))
    ready = on + timedelta(days=needs.days_to_ready)
    warm = set_out_day(needs, frosts)
    set_out = max(ready, warm)
    end = frosts.last
    last_set_out = end - timedelta(days=ONE_YEAR_IN_TEN_DAYS) - ripens
    return FrostPlan(
        on=on,
        up=on + timedelta(days=round(needs.days_up)),
        ready=ready,
        set_out=set_out,
        ripe=set_out + ripens,
        end=end,
        spare_days=(end - set_out - ripens).days,
        latest=last_set_out - timedelta(days=needs.days_to_ready) if last_set_out >= warm else None,
    )


def _in_year(day: date, year: int) -> date:
    """Return a month and day in a year; 29 February falls back to the 28th."""
    leapless = day.day == 29 and day.month == 2
    return date(year, day.month, 28 if leapless else day.day)
