"""The plan in short words, for cells of a table, for a tip, and for those who hear the window read."""

from __future__ import annotations

from datetime import date

from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.season.hardening_words import day_words, short_day_words
from greenroom.season.plan import PlanRow
from greenroom.season.wants import Span
from greenroom.season.within import in_row
from greenroom.speech import many, tr, trn

NOT_KNOWN = tr("not known")
NO_YEAR = tr("ripe in no year")


def short_day(day: date) -> str:
    """Return a day as 4 Mar."""
    return short_day_words(day)


def span_words(span: Span | None) -> str:
    """Return a sowing window as 12 – 26 Mar, or 26 Feb – 11 Mar."""
    if span is None:
        return NOT_KNOWN
    if (span.first.year, span.first.month) == (span.last.year, span.last.month):
        return tr(
            "{first} – {last}", sense="days of one month", first=span.first.day, last=short_day(span.last)
        )
    return f"{short_day(span.first)} – {short_day(span.last)}"


def when_words(desk: PlanDesk, row: PlanRow) -> str:
    """Return on which day a variety is sown, and whose word that is."""
    day = desk.day_of(row)
    if day != row.on:
        return tr("trying {day}", day=short_day(day))
    if row.sown:
        return tr("sown {day}", day=short_day(day))
    return tr("chosen {day}", day=short_day(day)) if row.chosen else tr("plan: {day}", day=short_day(day))


def seeds_words(row: PlanRow) -> tuple[str, str]:
    """Return the seeds to sow, and the cells they go into."""
    need = row.seeds
    if need is None:
        return tr("no seed"), tr("in the box")
    if need.enough:
        return many(need.seeds, "seed"), tr("in {cells}", cells=many(need.cells, "cell"))
    return many(need.seeds, "seed"), tr("only {seeds} left", seeds=need.left)


def odds_words(desk: PlanDesk, row: PlanRow) -> str:
    """Return how often it ripens: in 21 of 30 years."""
    sowing = desk.sowing_of(row)
    return tr("in {years}", years=sowing.odds.words) if sowing is not None else bare_odds_words(desk, row)


def bare_odds_words(desk: PlanDesk, row: PlanRow) -> str:
    """Return how often it ripens, as a column says it: 21 of 30 years."""
    sowing, frosts = desk.sowing_of(row), desk.frosts_of(row)
    if sowing is not None:
        odds = sowing.odds
        return tr("{ripe} of {years} years", sense="in a column", ripe=odds.ripe, years=odds.years)
    return frosts.verdict if frosts is not None else NOT_KNOWN


def odds_tip(desk: PlanDesk, row: PlanRow) -> str:
    """Return the odds with how sure they are."""
    sowing, frosts = desk.sowing_of(row), desk.frosts_of(row)
    if sowing is not None:
        odds = sowing.odds
        return tr(
            "Sown on {day}, {variety} ripens in {years}; the chance lies between {low:.0f} and {high:.0f} %.",
            day=day_words(desk.day_of(row)),
            variety=row.name,
            years=odds.words,
            low=odds.low * 100,
            high=odds.high * 100,
        )
    if frosts is not None:
        spare = many(abs(frosts.spare_days), "day")
        if frosts.spare_days >= 0:
            return tr("Ripe {days} before the usual first frost, by the calendar alone.", days=spare)
        return tr("Ripe {days} after the usual first frost, by the calendar alone.", days=spare)
    return tr("It cannot be told how often it ripens.")


def row_words(desk: PlanDesk, row: PlanRow) -> str:
    """Return all of a variety's plan in a sentence or two."""
    seeds, cells = seeds_words(row)
    told = [
        tr("{name}: {what}", name=row.name, what=f"{many(row.plants, 'plant')}, {seeds} {cells}"),
        tr("sow between {span}, {plan}", span=span_words(row.window), plan=when_words(desk, row)),
        tr("ripe {odds}", odds=odds_words(desk, row)),
    ]
    if desk.is_short(row):
        told.append(tr("short of the odds you want"))
    return f"{in_row(told)}."


def strip_words(desk: PlanDesk, row: PlanRow) -> str:
    """Return the season of one variety, stage by stage."""
    sowing, frosts = desk.sowing_of(row), desk.frosts_of(row)
    told = [tr("{variety}: sown {day}", variety=row.name, day=day_words(desk.day_of(row)))]
    if sowing is not None:
        told += [_half_up(sowing.up), _set_out(sowing.set_out_on)]
        ripe = sowing.ripe
        told.append(tr("first ripe {day}", day=day_words(ripe.usual)) if ripe else NO_YEAR)
    elif frosts is not None:
        told += [_half_up(frosts.up), _set_out(frosts.set_out)]
        told.append(tr("ripe {day}", sense="a date", day=day_words(frosts.ripe)))
    else:
        told.append(tr("the rest is not known"))
    return ", ".join(told) + "."


def _half_up(day: date) -> str:
    return tr("half up {day}", day=day_words(day))


def _set_out(day: date) -> str:
    return tr("set out {day}", day=day_words(day))


def chart_words(desk: PlanDesk) -> str:
    """Return what the chart of odds shows, for those who do not see it."""
    row, plan = desk.row, desk.plan
    if row is None or plan.chart is None or row.variety not in plan.chart:
        return tr("No odds can be shown.")
    best_day, best = plan.chart.best(row.variety)
    latest = tr("no day gives the odds you want")
    if row.latest is not None:
        latest = tr("the latest day for the odds you want is {day}", day=day_words(row.latest))
    at_best = tr(
        "At best in {years}, sown by {day}; {latest}.",
        years=best.words,
        day=day_words(best_day),
        latest=latest,
    )
    charted = trn("{n:,} variety in the chart.", "{n:,} varieties in the chart.", len(plan.chart.varieties))
    return f"{odds_tip(desk, row)} {at_best} {charted}"
