"""Why the record's page shows what it shows: how each of its figures came about."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

import numpy as np

from greenroom.ledger.facts import PlanRules
from greenroom.season.citations import DEGREE_DAYS, QUANTILES
from greenroom.season.hardening_words import day_words
from greenroom.season.record_page import Dates, HeatCurves, RecordPage
from greenroom.season.replay import TENTHS, Spread
from greenroom.season.ripening_heat import WARM
from greenroom.season.temperatures import SayC, in_celsius
from greenroom.season.weekdays import dated_words
from greenroom.season.why import Why
from greenroom.speech import many, tr, trn

FREEZE_SOURCE = tr("NOAA National Centers for Environmental Information: freeze and frost probabilities.")
WARM_SOURCE = tr(
    "Nights of 10 °C or more before peppers go out: what most extension services ask "
    "for; the run of nights is common practice, no source."
)


@dataclass(frozen=True, slots=True)
class FrostFree:
    """Days from the last frost of spring to the first of autumn, neither of them counted, year by year.

    ``least``, ``usual`` and ``most``: one year in ten had no more than ``least``, half no more than
    ``usual``, nine in ten no more than ``most``.
    """

    by_year: Mapping[int, int]
    least: int
    usual: int
    most: int


def frost_free(page: RecordPage) -> FrostFree | None:
    """Return how long each year was free of frost; None where no year has both frosts."""
    ends = page.first_frost.by_year
    days = {
        year: (end - start).days - 1
        for year, start in page.last_frost.by_year.items()
        if start is not None and (end := ends.get(year)) is not None
    }
    if not days:
        return None
    least, usual, most = np.rint(np.quantile(list(days.values()), TENTHS)).astype(int).tolist()
    return FrostFree(days, least, usual, most)


def frosts_why(page: RecordPage, say_c: SayC = in_celsius) -> Why:
    """Return how the frosts of spring and autumn came about; ``say_c`` puts a temperature into words."""
    cold = say_c(0.0)
    told = [
        *_dates_words(tr("last frost of spring"), page.last_frost),
        *_dates_words(tr("first frost of autumn"), page.first_frost),
    ]
    rule = tr(
        "A frost is a night at {cold} or colder in a thermometer screen; on clear nights the "
        "ground is colder. Of each year the last such night before midsummer and the first "
        "after it are taken; a half year that lacks more than a tenth of its nights is left "
        "out. The lines are the days by which one year in ten, half, and nine in ten had "
        "come to it.",
        cold=cold,
    )
    return Why(_frosts_figure(page), rule, tuple(told), (FREEZE_SOURCE, QUANTILES))


def length_why(page: RecordPage, say_c: SayC = in_celsius) -> Why | None:
    """Return how the days without frost came about; None where there are none to tell of."""
    free = frost_free(page)
    if free is None:
        return None
    shortest, longest = (choose(free.by_year, key=free.by_year.__getitem__) for choose in (min, max))
    told = (
        (tr("years with both frosts"), str(len(free.by_year))),
        (tr("shortest"), f"{many(free.by_year[shortest], 'day')}, {shortest}"),
        (tr("longest"), f"{many(free.by_year[longest], 'day')}, {longest}"),
    )
    rule = tr(
        "The days between the last night at {cold} or colder before midsummer and the first "
        "one after it, of each year that has both. Half the years had no more than the usual "
        "number.",
        cold=say_c(0.0),
    )
    figure = trn("Usually {n:,} day without frost", "Usually {n:,} days without frost", free.usual)
    return Why(figure, rule, told, (FREEZE_SOURCE, QUANTILES))


def warm_why(page: RecordPage, rules: PlanRules, say_c: SayC = in_celsius) -> Why:
    """Return how the first warm nights came about."""
    floor, run = say_c(rules.floor_c), rules.run_nights
    told = (
        (tr("nights at or above"), floor),
        (tr("running", sense="nights one after the other"), str(run)),
        *_dates_words(tr("warm nights from"), page.warm_nights),
    )
    rule = tr(
        "Of each year the first night of the first {run} running that all stay at {floor} or "
        "above; a night that is missing breaks the run. Both numbers are the rules of your "
        "plan.",
        run=run,
        floor=floor,
    )
    spread = page.warm_nights.spread
    figure = (
        tr("Never warm enough")
        if spread is None
        else tr("Warm nights from about {day}", day=day_words(spread.usual))
    )
    return Why(figure, rule, told, (WARM_SOURCE, QUANTILES))


def heat_why(page: RecordPage, say_c: SayC = in_celsius) -> Why:
    """Return how the curves of gathered heat came about."""
    heat = page.heat
    told = [
        (tr("counted above"), say_c(WARM.base_c)),
        (tr("and up to"), say_c(WARM.cap_c)),
        (tr("years compared"), many(len(heat.years), "year")),
    ]
    known = last_known(heat)
    if known is not None:
        told.append((tr("this year known up to"), day_words(heat.days[known])))
    rule = tr(
        "Degree days: of each day the coldest and the warmest are brought into the bounds, "
        "and their mean above the lower one is added up from the season's first day. A day "
        "that is missing takes the heat of the days around it; a year that lacks more than a "
        "tenth of its days is left out. The band holds eight years in ten."
    )
    return Why(tr("Heat gathered"), rule, tuple(told), (DEGREE_DAYS, QUANTILES))


def last_known(heat: HeatCurves) -> int | None:
    """Return the place of the last day of which this year's heat is known, or None."""
    if heat.this_year is None:
        return None
    known = np.flatnonzero(~np.isnan(heat.this_year))
    return int(known[-1]) if known.size else None


def days_ahead_of_usual(heat: HeatCurves) -> int | None:
    """Return by how many days this year's heat is ahead of the usual year's, negative where behind.

    None where there is nothing to compare, or no heat is gathered yet.
    """
    known = last_known(heat)
    if known is None or heat.this_year is None or not heat.years or heat.this_year[known] <= 0:
        return None
    reached = int(np.searchsorted(heat.usual, heat.this_year[known]))
    return min(reached, len(heat.usual) - 1) - known


def _dates_words(name: str, dates: Dates) -> list[tuple[str, str]]:
    """Return the years, quantiles and ends of a stage as inputs of a why."""
    told = [(tr("{stage}, years", stage=name), str(dates.years))]
    if dates.spread is not None:
        told.append((tr("{stage}, 10, 50, 90 %", stage=name), spread_words(dates.spread)))
    known = {year: day for year, day in dates.by_year.items() if day is not None}
    if known:
        ordered = sorted(known, key=lambda year: known[year] - date(year, 1, 1))
        ends = (known[ordered[0]], known[ordered[-1]])
        earliest, latest = (dated_words(day) for day in ends)
        told.append(
            (
                tr("{stage}, earliest and latest", stage=name),
                tr("{first} and {last}", first=earliest, last=latest),
            )
        )
    return told


def spread_words(spread: Spread) -> str:
    """Return three days in words: 27 April, 10 May, 26 May."""
    return ", ".join(day_words(day) for day in (spread.early, spread.usual, spread.late))


def _frosts_figure(page: RecordPage) -> str:
    last, first = page.last_frost.spread, page.first_frost.spread
    if last is None or first is None:
        return tr("Frosts of the record")
    return tr(
        "Frost until about {spring}, again from {autumn}",
        spring=day_words(last.usual),
        autumn=day_words(first.usual),
    )
