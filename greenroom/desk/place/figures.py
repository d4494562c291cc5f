"""What the charts of the weather record show: points, lines, words and the rows of the table behind each."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np
from numpy.typing import NDArray

from greenroom.ledger.facts import PlanRules
from greenroom.season.hardening_words import day_words, short_day_words, temperature_words
from greenroom.season.place import Place
from greenroom.season.record_page import Dates, HeatCurves, RecordPage
from greenroom.season.record_why import FrostFree, days_ahead_of_usual, frost_free, last_known
from greenroom.season.replay import season_start
from greenroom.season.ripening_heat import WARM
from greenroom.season.temperatures import F_IN_C
from greenroom.season.within import in_row
from greenroom.speech import figure, many, tr

PERCENTS = ("10 %", "50 %", "90 %")
NEVER = tr("none", sense="no such day")
ROW_DAYS = (1, 11, 21)
"""Days of each month that stand in the table of gathered heat."""


@dataclass(frozen=True, slots=True)
class Rule:
    """A line across a chart, with what stands at its end."""

    value: float
    words: str
    main: bool


@dataclass(frozen=True, slots=True)
class YearFigure:
    """One value a year. ``start`` makes days of the season of the values; None where they are numbers."""

    title: str
    summary: str
    points: Mapping[int, float]
    rules: tuple[Rule, ...]
    told: Mapping[int, str]
    this_year: int
    start: date | None
    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


@dataclass(frozen=True, slots=True)
class HeatFigure:
    """Heat gathered day by day in the grower's unit: eight years in ten, the usual, and this year."""

    title: str
    summary: str
    days: tuple[date, ...]
    low: NDArray[np.float64]
    usual: NDArray[np.float64]
    high: NDArray[np.float64]
    this_year: NDArray[np.float64]
    unit: str
    year: int
    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]

    def words_at(self, place: int) -> str:
        """Return what is known of one day."""
        unit, low, usual, high = self.unit, self.low[place], self.usual[place], self.high[place]
        words = []
        if not np.isnan(self.this_year[place]):
            words.append(tr("{heat:.0f} {unit} this year", heat=float(self.this_year[place]), unit=unit))
        if not np.isnan(usual):
            spread = tr(
                "usually {usual:.0f}, {low:.0f} to {high:.0f}",
                usual=float(usual),
                low=float(low),
                high=float(high),
            )
            words.append(spread)
        return _told(day_words(self.days[place]), " · ".join(words)).rstrip()


Figure = YearFigure | HeatFigure


def figures(page: RecordPage, place: Place, rules: PlanRules) -> dict[str, Figure]:
    """Return every figure of a record by its key; those of which nothing is known are left out."""
    floor, run = temperature_words(rules.floor_c, place), many(rules.run_nights, "night")
    made: dict[str, Figure | None] = {
        "last": _dates_figure(
            page,
            page.last_frost,
            place,
            tr("Last frost of spring"),
            lambda spread: tr("The last frost is over by {spread}.", spread=spread),
        ),
        "first": _dates_figure(
            page,
            page.first_frost,
            place,
            tr("First frost of autumn"),
            lambda spread: tr("The first frost has come by {spread}.", spread=spread),
        ),
        "length": _length_figure(page),
        "warm": _dates_figure(
            page,
            page.warm_nights,
            place,
            tr("Warm nights from"),
            lambda spread: tr(
                "The first {nights} running at {floor} or above begin by {spread}.",
                nights=run,
                floor=floor,
                spread=spread,
            ),
        ),
        "heat": heat_figure(page.heat, page.year, place),
    }
    return {key: figure for key, figure in made.items() if figure is not None}


def short_day(day: date) -> str:
    """Return a day as 26 May, its month cut to three letters."""
    return short_day_words(day)


def heat_figure(heat: HeatCurves, year: int, place: Place) -> HeatFigure | None:
    """Return the figure of gathered heat; None where there is no year to compare, nor one to show."""
    if not heat.years and heat.this_year is None:
        return None
    factor, unit = (F_IN_C, "°F·d") if place.temperature == "f" else (1.0, "°C·d")
    low, usual, high = (factor * one for one in (heat.low, heat.usual, heat.high))
    own = np.full(len(heat.days), np.nan) if heat.this_year is None else factor * heat.this_year
    base = temperature_words(WARM.base_c, place)
    chosen = [number for number, day in enumerate(heat.days) if day.day in ROW_DAYS]
    return HeatFigure(
        tr("Heat gathered above {base}", base=base),
        _heat_summary(heat, factor, unit),
        heat.days,
        low,
        usual,
        high,
        own,
        unit,
        year,
        (tr("Day"), f"{year} [{unit}]", *PERCENTS),
        tuple(
            (day_words(heat.days[number]), *(_number(one[number]) for one in (own, low, usual, high)))
            for number in chosen
        ),
    )


def _dates_figure(
    page: RecordPage, dates: Dates, place: Place, title: str, words: Callable[[str], str]
) -> YearFigure | None:
    spread = dates.spread
    if spread is None:
        return None
    start = season_start(page.year, southern=place.southern)
    days = (spread.early, spread.usual, spread.late)
    return YearFigure(
        title=title,
        summary=f"{words(_spread(days, dates.years))}{_this_year(page, dates)}",
        points={
            year: float((day - season_start(year, southern=place.southern)).days)
            for year, day in dates.by_year.items()
            if day is not None
        },
        rules=_rules([float((day - start).days) for day in days], [short_day(day) for day in days]),
        told={year: _told(year, _day_or_none(day)) for year, day in dates.by_year.items()},
        this_year=page.year,
        start=start,
        header=(tr("Year"), title),
        rows=tuple((str(year), _day_or_none(day)) for year, day in sorted(dates.by_year.items())),
    )


def _length_figure(page: RecordPage) -> YearFigure | None:
    free = frost_free(page)
    if free is None:
        return None
    return YearFigure(
        title=tr("Days without frost"),
        summary=_length_summary(free),
        points={year: float(days) for year, days in free.by_year.items()},
        rules=_rules(
            [float(days) for days in (free.least, free.usual, free.most)],
            [tr("{days} d", days=days) for days in (free.least, free.usual, free.most)],
        ),
        told={year: _told(year, many(days, "day")) for year, days in free.by_year.items()},
        this_year=page.year,
        start=None,
        header=(tr("Year"), tr("Last frost"), tr("First frost"), tr("Days between")),
        rows=tuple(_length_row(page, free, year) for year in sorted(page.years)),
    )


def _length_row(page: RecordPage, free: FrostFree, year: int) -> tuple[str, ...]:
    last, first = page.last_frost.by_year.get(year), page.first_frost.by_year.get(year)
    between = free.by_year.get(year)
    return (str(year), _day_or_none(last), _day_or_none(first), "" if between is None else str(between))


def _length_summary(free: FrostFree) -> str:
    return tr(
        "Half the years have {usual} days or more between frosts, nine in ten {least} or more, one in ten "
        "{most} or more (of {years}).",
        usual=free.usual,
        least=free.least,
        most=free.most,
        years=many(len(free.by_year), "year"),
    )


def _heat_summary(heat: HeatCurves, factor: float, unit: str) -> str:
    known, ahead = last_known(heat), days_ahead_of_usual(heat)
    if known is None or heat.this_year is None:
        return tr(
            "Nothing of this year is in the record; the band is of {years}.",
            years=many(len(heat.years), "past year"),
        )
    own = tr(
        "By {day}: {heat:.0f} {unit}",
        day=day_words(heat.days[known]),
        heat=float(heat.this_year[known] * factor),
        unit=unit,
    )
    if not heat.years:
        return f"{own}. {tr('There is no past year to compare.')}"
    usual = tr(
        "usual {usual:.0f}, in eight years of ten {low:.0f} to {high:.0f}",
        usual=float(heat.usual[known] * factor),
        low=float(heat.low[known] * factor),
        high=float(heat.high[known] * factor),
    )
    words = f"{in_row((own, usual))}."
    return words if ahead is None else f"{words} {_ahead_words(ahead, len(heat.years))}"


def _ahead_words(ahead: int, years: int) -> str:
    """Return how far this year is from the usual."""
    past = many(years, "year")
    if not ahead:
        return tr("That is as usual (of {years}).", years=past)
    days = many(abs(ahead), "day")
    if ahead > 0:
        return tr("That is {days} ahead of the usual (of {years}).", days=days, years=past)
    return tr("That is {days} behind the usual (of {years}).", days=days, years=past)


def _spread(days: Sequence[date], years: int) -> str:
    early, usual, late = (day_words(day) for day in days)
    return tr(
        "{early} in one year of ten, {usual} in half, {late} in nine of ten (of {years})",
        early=early,
        usual=usual,
        late=late,
        years=many(years, "year"),
    )


def _this_year(page: RecordPage, dates: Dates) -> str:
    own = dates.by_year.get(page.year)
    return "" if own is None else " " + tr("In {year}: {day}.", year=page.year, day=day_words(own))


def _rules(values: Sequence[float], words: Sequence[str]) -> tuple[Rule, ...]:
    return tuple(
        Rule(value, f"{percent} · {told}", main=place == 1)
        for place, (percent, value, told) in enumerate(zip(PERCENTS, values, words, strict=True))
    )


def _told(when: object, what: str) -> str:
    return tr("{name}: {what}", name=when, what=what)


def _day_or_none(day: date | None) -> str:
    return NEVER if day is None else day_words(day)


def _number(value: float) -> str:
    return "" if np.isnan(value) else figure(float(value), ".0f")
