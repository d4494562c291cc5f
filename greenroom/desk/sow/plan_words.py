"""The plan in short words, for cells of a table, for a tip, and for those who hear the window read."""

from __future__ import annotations

from datetime import date

from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.season.hardening_words import day_words, short_day_words
from greenroom.season.plan import PlanRow
from greenroom.season.wants import Span
from greenroom.speech import many

NOT_KNOWN = "not known"


def short_day(day: date) -> str:
    """Return a day as 4 Mar."""
    return short_day_words(day)


def span_words(span: Span | None) -> str:
    """Return a sowing window as 12 – 26 Mar, or 26 Feb – 11 Mar."""
    if span is None:
        return NOT_KNOWN
    if (span.first.year, span.first.month) == (span.last.year, span.last.month):
        return f"{span.first.day} – {short_day(span.last)}"
    return f"{short_day(span.first)} – {short_day(span.last)}"


def when_words(desk: PlanDesk, row: PlanRow) -> str:
    """Return on which day a variety is sown, and whose word that is."""
    day = desk.day_of(row)
    if day != row.on:
        return f"trying {short_day(day)}"
    if row.sown:
        return f"sown {short_day(day)}"
    return f"chosen {short_day(day)}" if row.chosen else f"plan: {short_day(day)}"


def seeds_words(row: PlanRow) -> tuple[str, str]:
    """Return the seeds to sow, and the cells they go into."""
    need = row.seeds
    if need is None:
        return "no seed", "in the box"
    second = f"in {many(need.cells, 'cell')}"
    return many(need.seeds, "seed"), second if need.enough else f"only {need.left} left"


def odds_words(desk: PlanDesk, row: PlanRow) -> str:
    """Return how often it ripens: in 21 of 30 years."""
    sowing, frosts = desk.sowing_of(row), desk.frosts_of(row)
    if sowing is not None:
        return f"in {sowing.odds.words}"
    return frosts.verdict if frosts is not None else NOT_KNOWN


def odds_tip(desk: PlanDesk, row: PlanRow) -> str:
    """Return the odds with how sure they are."""
    sowing, frosts = desk.sowing_of(row), desk.frosts_of(row)
    if sowing is not None:
        odds = sowing.odds
        return (
            f"Sown on {day_words(desk.day_of(row))}, {row.name} ripens in {odds.words}; the chance lies "
            f"between {odds.low * 100:.0f} and {odds.high * 100:.0f} %."
        )
    if frosts is not None:
        spare = frosts.spare_days
        side = "before" if spare >= 0 else "after"
        return f"Ripe {many(abs(spare), 'day')} {side} the usual first frost, by the calendar alone."
    return "It cannot be told how often it ripens."


def row_words(desk: PlanDesk, row: PlanRow) -> str:
    """Return all of a variety's plan in a sentence or two."""
    seeds, cells = seeds_words(row)
    told = [
        f"{row.name}: {many(row.plants, 'plant')}, {seeds} {cells}",
        f"sow between {span_words(row.window)}, {when_words(desk, row)}",
        f"ripe {odds_words(desk, row)}",
    ]
    if desk.is_short(row):
        told.append("short of the odds you want")
    return "; ".join(told) + "."


def strip_words(desk: PlanDesk, row: PlanRow) -> str:
    """Return the season of one variety, stage by stage."""
    sowing, frosts = desk.sowing_of(row), desk.frosts_of(row)
    told = [f"{row.name}: sown {day_words(desk.day_of(row))}"]
    if sowing is not None:
        told += [f"half up {day_words(sowing.up)}", f"set out {day_words(sowing.set_out_on)}"]
        told.append(f"first ripe {day_words(sowing.ripe.usual)}" if sowing.ripe else "ripe in no year")
    elif frosts is not None:
        told += [f"half up {day_words(frosts.up)}", f"set out {day_words(frosts.set_out)}"]
        told.append(f"ripe {day_words(frosts.ripe)}")
    else:
        told.append("the rest is not known")
    return ", ".join(told) + "."


def chart_words(desk: PlanDesk) -> str:
    """Return what the chart of odds shows, for those who do not see it."""
    row, plan = desk.row, desk.plan
    if row is None or plan.chart is None or row.variety not in plan.chart:
        return "No odds can be shown."
    best_day, best = plan.chart.best(row.variety)
    latest = "no day gives the odds you want"
    if row.latest is not None:
        latest = f"the latest day for the odds you want is {day_words(row.latest)}"
    return (
        f"{odds_tip(desk, row)} At best in {best.words}, sown by {day_words(best_day)}; {latest}. "
        f"{many(len(plan.chart.varieties), 'variety').replace('varietys', 'varieties')} in the chart."
    )
