"""The season report: what was sown, came up, stands and was picked, with charts."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from datetime import date
from itertools import accumulate, chain

from greenroom.exchange.paper.charts import BAR_MM, Part, Steps, draw_part, draw_steps
from greenroom.exchange.paper.flow import BODY_PT, SMALL_PT, Flow, leading_mm, long_day
from greenroom.exchange.paper.pen import LINE, QUIET, Pen, Printed, Stop, never
from greenroom.exchange.paper.sizes import Box, Paper
from greenroom.exchange.paper.words import STRONG
from greenroom.ledger.facts import Packet, Picked, Sown, Sprouted
from greenroom.season.hardening_words import day_words, many
from greenroom.season.packets import variety_name
from greenroom.season.place import place_of
from greenroom.season.ribbon import season_year
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.season.wants import sowing_span

CHART_MM = 75.0
MOST_LINES = 12
HEADS = ("Variety", "First sown", "Seeds", "Up", "Share up", "Standing", "Picked", "Weight")
ENDS = (0.0, 0.36, 0.55, 0.63, 0.73, 0.83, 0.91, 1.0)
ROW_MM = leading_mm(BODY_PT) + 0.4
UP_WORDS = (
    "Share up is seedlings up of seeds sown, those that may yet come up among them. Standing are living "
    "seedlings and plants in all trays, racks and beds in use."
)


@dataclass(slots=True)
class Tally:
    """What became of one variety."""

    name: str
    first: date
    seeds: int = 0
    up: int = 0
    standing: int = 0
    picked: int = 0
    grams: float = 0.0


@dataclass(frozen=True, slots=True)
class Report:
    """What is told of a season."""

    year: int
    under: str
    today: date
    rows: tuple[Tally, ...]
    trays: tuple[Steps, ...]
    picks: tuple[Steps, ...]


@dataclass(slots=True)
class _Counting:
    """What is counted on the way through the spots."""

    rows: dict[str, Tally] = field(default_factory=dict)
    up: dict[str, dict[date, int]] = field(default_factory=lambda: defaultdict(lambda: defaultdict(int)))


def season_report(season: Season, today: date) -> Report:
    """Return the report of the season that a day is in."""
    year = season_year(season, today)
    span = sowing_span(season, year)
    first = span.first
    counted = _Counting()
    for made in (*season.holders(), *season.holders(put_away=True)):
        for spot in season.spots(made.key):
            _count_spot(season, spot.key, made.name, first, today, counted)
    _count_standing(season, counted)
    picks = _count_picks(season, first, today, counted)
    rows = sorted(counted.rows.values(), key=lambda one: (one.first, one.name.casefold()))
    trays = [_steps(name, days) for name, days in counted.up.items() if days]
    return Report(
        year,
        f"{place_of(season).name} · as it stands on {long_day(today)}",
        today,
        tuple(rows),
        tuple(sorted(trays, key=lambda one: -one.last)),
        tuple(sorted(picks, key=lambda one: -one.last)),
    )


def print_report(report: Report, paper: Paper, stop: Stop = never) -> Printed:
    """Put the report on paper.

    Raises
    ------
    Cancelled
        If the work was called off.
    """
    pen = Pen(paper, f"Season {report.year}", stop)
    flow = Flow(pen, f"Season {report.year}", report.under)
    flow.gap(2)
    flow.says(_sum_words(report), 11, face=STRONG)
    if not report.rows:
        return pen.end()
    _chart(flow, "Up, by tray", "seedlings up since the first sowing", report.trays, report.today)
    _chart(flow, "Picked", "fruits picked, by variety", report.picks, report.today)
    _bars(flow, report.rows)
    _table(flow, report.rows)
    flow.gap(2)
    flow.says(UP_WORDS, SMALL_PT, colour=QUIET)
    return pen.end()


def _count_spot(
    season: Season, key: SpotKey, holder: str, first: date, today: date, counted: _Counting
) -> None:
    """Count the seeds sown in a spot and what came up of them, each under what was last sown there."""
    row: Tally | None = None
    for entry in season.spot_facts(key):
        fact = entry.fact
        if not first <= fact.day <= today:
            continue
        if isinstance(fact, Sown):
            variety = _variety(season, fact.packet)
            row = counted.rows.setdefault(variety, Tally(variety_name(season, fact.packet), fact.day))
            row.first = min(row.first, fact.day)
            row.seeds += fact.seeds
        elif isinstance(fact, Sprouted) and row is not None:
            row.up += fact.count
            counted.up[holder][fact.day] += fact.count


def _count_standing(season: Season, counted: _Counting) -> None:
    spots = chain.from_iterable(season.spots(made.key) for made in season.holders())
    for spot in spots:
        row = counted.rows.get(_variety(season, spot.packet)) if spot.packet else None
        if row is not None:
            row.standing += spot.up


def _count_picks(season: Season, first: date, today: date, counted: _Counting) -> Iterator[Steps]:
    days: dict[str, dict[date, int]] = defaultdict(lambda: defaultdict(int))
    for fact in season.facts(Picked):
        row = counted.rows.get(fact.variety)
        if row is None or not first <= fact.day <= today:
            continue
        row.picked += fact.count
        row.grams += fact.grams or 0.0
        days[row.name][fact.day] += fact.count
    return (_steps(name, one) for name, one in days.items())


def _steps(name: str, days: dict[date, int]) -> Steps:
    order = sorted(days)
    return Steps(name, tuple(zip(order, accumulate(float(days[day]) for day in order), strict=True)))


def _variety(season: Season, packet: str) -> str:
    fact = season.thing(Packet, packet)
    return fact.variety if fact else ""


def _sum_words(report: Report) -> str:
    seeds, up, standing, picked = (
        sum(getattr(row, name) for row in report.rows) for name in ("seeds", "up", "standing", "picked")
    )
    if not seeds:
        return "Nothing was sown yet."
    told = [
        f"{len(report.rows)} {'variety' if len(report.rows) == 1 else 'varieties'}",
        f"{many(seeds, 'seed')} sown",
        f"{up:,} up ({up / seeds:.0%})",
        f"{standing:,} standing",
    ]
    return " · ".join([*told, f"{many(picked, 'fruit')} picked"] if picked else told)


def _chart(flow: Flow, head: str, quiet: str, series: Sequence[Steps], today: date) -> None:
    if not series:
        return
    flow.gap(3)
    left_out = len(series) - MOST_LINES
    words = quiet if left_out <= 0 else f"{quiet}; the {MOST_LINES} largest, {left_out} more are in the table"
    flow.heading(head, words, keep_mm=CHART_MM)
    box = Box(flow.left, flow.y + 1, flow.width, CHART_MM)
    draw_steps(flow.pen, box, series[:MOST_LINES], today)
    flow.gap(CHART_MM)


def _bars(flow: Flow, rows: Sequence[Tally]) -> None:
    flow.gap(3)
    flow.heading("Up of what was sown", "by variety", keep_mm=4 * BAR_MM)
    most = max(row.seeds for row in rows)
    for row in rows:
        flow.pen.look_up()
        flow.need(BAR_MM)
        words = f"{row.up} of {row.seeds}, {row.up / row.seeds:.0%}" if row.seeds else ""
        draw_part(
            flow.pen,
            Box(flow.left, flow.y, flow.width, BAR_MM),
            Part(row.name, row.up, row.seeds, words),
            most,
        )
        flow.gap(BAR_MM)


def _table(flow: Flow, rows: Sequence[Tally]) -> None:
    flow.gap(3)
    flow.heading("Variety by variety", keep_mm=4 * ROW_MM)
    _cells(flow, HEADS, head=True)
    for row in rows:
        flow.pen.look_up()
        if flow.need(ROW_MM):
            _cells(flow, HEADS, head=True)
        share = f"{row.up / row.seeds:.0%}" if row.seeds else ""
        weight = f"{row.grams:,.0f} g" if row.grams else ""
        picked = f"{row.picked:,}" if row.picked else ""
        told = (row.name, day_words(row.first), str(row.seeds), str(row.up), share, str(row.standing))
        _cells(flow, (*told, picked, weight))


def _cells(flow: Flow, cells: Sequence[str], *, head: bool = False) -> None:
    flow.y += ROW_MM
    for number, (words, end) in enumerate(zip(cells, ENDS, strict=True)):
        x, align = flow.left + end * flow.width, "left" if number < 2 else "right"
        room = flow.width * (0.34 if number == 0 else 0.16)
        if head:
            flow.pen.text(x, flow.y, words, SMALL_PT, face=STRONG, align=align)
        else:
            flow.pen.text(x, flow.y, words, 9, room=room, align=align)
    if head:
        flow.y += 1
        flow.pen.line(((flow.left, flow.y), (flow.left + flow.width, flow.y)), LINE)
