"""The season report: what was sown, came up, stands and was picked, with charts."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date, timedelta
from itertools import accumulate, chain

from greenroom.exchange.errors import Cancel
from greenroom.exchange.paper.charts import BAR_MM, Part, Steps, draw_part, draw_steps
from greenroom.exchange.paper.flow import BODY_PT, SMALL_PT, Flow, leading_mm, long_day
from greenroom.exchange.paper.pen import LINE, QUIET, Pen, Printed, never
from greenroom.exchange.paper.sizes import Box, Paper
from greenroom.exchange.paper.words import STRONG
from greenroom.ledger.facts import Packet, Picked, Sown, Sprouted, Variety
from greenroom.season.hardening_words import day_words
from greenroom.season.packets import UNNAMED
from greenroom.season.picking import picks_of, seasons_picked
from greenroom.season.place import place_of
from greenroom.season.ribbon import season_year
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.season.wants import sowing_span
from greenroom.speech import figure, many, tr, trn

CHART_MM = 75.0
ONE_DAY = timedelta(days=1)
MOST_LINES = 12
HEADS = (
    tr("Variety"),
    tr("First sown"),
    tr("Seeds"),
    tr("Up", sense="how many came up"),
    tr("Share up"),
    tr("Standing", sense="living plants"),
    tr("Picked"),
    tr("Weight"),
)
ENDS = (0.0, 0.36, 0.55, 0.63, 0.73, 0.83, 0.91, 1.0)
ROW_MM = leading_mm(BODY_PT) + 0.4
UP_WORDS = tr(
    "Share up is seedlings up of seeds sown, those that may yet come up among them. "
    "Standing are living seedlings and plants in all trays, racks and beds in use."
)


@dataclass(slots=True)
class Tally:
    """What became of one variety."""

    name: str
    first: date | None = None
    seeds: int = 0
    up: int = 0
    standing: int = 0
    picked: int = 0
    grams: float = 0.0


@dataclass(frozen=True, slots=True)
class Report:
    """What is told of a season, ``today``; ``over`` tells that a later one has begun."""

    year: int
    under: str
    today: date
    over: bool
    rows: tuple[Tally, ...]
    trays: tuple[Steps, ...]
    picks: tuple[Steps, ...]


@dataclass(slots=True)
class _Counting:
    """What is counted on the way through the season's facts from a first to a last day."""

    season: Season
    first: date
    last: date
    rows: dict[str, Tally] = field(default_factory=dict)
    up: dict[str, dict[date, int]] = field(default_factory=lambda: defaultdict(lambda: defaultdict(int)))
    picks: dict[str, dict[date, int]] = field(default_factory=lambda: defaultdict(lambda: defaultdict(int)))

    def row(self, variety: str) -> Tally:
        """Return the row of a variety, made if need be."""
        if variety not in self.rows:
            fact = self.season.thing(Variety, variety)
            self.rows[variety] = Tally(fact.name if fact else UNNAMED)
        return self.rows[variety]


def report_years(season: Season, today: date) -> list[int]:
    """Return the seasons there is something to tell of, each named by its spring, the latest first."""
    made = (*season.holders(), *season.holders(put_away=True))
    sown = (season.counts(one.key).first_sown for one in made)
    years = {_year_of(season, day) for day in sown if day is not None and day <= today}
    return sorted({*years, *seasons_picked(season, today), season_year(season, today)}, reverse=True)


def season_report(season: Season, today: date, year: int | None = None) -> Report:
    """Return the report of a season, by default of the one that a day is in."""
    year = season_year(season, today) if year is None else year
    following = sowing_span(season, year + 1).first
    counted = _Counting(season, sowing_span(season, year).first, min(today, following - ONE_DAY))
    for made in (*season.holders(), *season.holders(put_away=True)):
        for spot in season.spots(made.key):
            _count_spot(spot.key, made.name, counted)
    over = today >= following
    if not over:
        _count_standing(counted)
    for fact in picks_of(season, year, today):
        _count_pick(fact, counted)
    trays = [_steps(name, days) for name, days in counted.up.items()]
    picks = [_steps(name, days) for name, days in counted.picks.items()]
    return Report(
        year,
        tr("{place} · as it stands on {day}", place=place_of(season).name, day=long_day(today)),
        today,
        over,
        tuple(sorted(counted.rows.values(), key=lambda one: (one.first or date.max, one.name.casefold()))),
        tuple(sorted(trays, key=lambda one: -one.last)),
        tuple(sorted(picks, key=lambda one: -one.last)),
    )


def print_report(report: Report, paper: Paper, stop: Cancel = never) -> Printed:
    """Put the report on paper.

    Raises
    ------
    Cancelled
        If the work was called off.
    """
    title = tr("Season {year}", year=report.year)
    pen = Pen(paper, title, stop)
    flow = Flow(pen, title, report.under)
    flow.gap(2)
    flow.says(_sum_words(report), 11, face=STRONG)
    if not report.rows:
        return pen.end()
    _chart(flow, tr("Up, by tray"), tr("seedlings up since the first sowing"), report.trays, report)
    _chart(flow, tr("Picked"), tr("fruits picked, by variety"), report.picks, report)
    _bars(flow, [row for row in report.rows if row.seeds])
    _table(flow, report.rows, over=report.over)
    flow.gap(2)
    flow.says(UP_WORDS, SMALL_PT, colour=QUIET)
    return pen.end()


def _count_spot(key: SpotKey, holder: str, counted: _Counting) -> None:
    """Count the seeds sown in a spot and what came up of them, each under what was last sown there."""
    row: Tally | None = None
    for entry in counted.season.spot_facts(key):
        fact = entry.fact
        if not counted.first <= fact.day <= counted.last:
            continue
        if isinstance(fact, Sown):
            row = counted.row(_variety(counted.season, fact.packet))
            row.first = fact.day if row.first is None else min(row.first, fact.day)
            row.seeds += fact.seeds
        elif isinstance(fact, Sprouted) and row is not None:
            row.up += fact.count
            counted.up[holder][fact.day] += fact.count


def _count_standing(counted: _Counting) -> None:
    season = counted.season
    spots = chain.from_iterable(season.spots(made.key) for made in season.holders())
    for spot in spots:
        if spot.packet is not None and spot.up > 0:
            counted.row(_variety(season, spot.packet)).standing += spot.up


def _count_pick(fact: Picked, counted: _Counting) -> None:
    row = counted.row(fact.variety)
    row.picked += fact.count
    row.grams += fact.grams or 0.0
    counted.picks[row.name][fact.day] += fact.count


def _year_of(season: Season, day: date) -> int:
    """Return the season that a sowing on a day belongs to."""
    return next(year for year in (day.year, day.year - 1, day.year + 1) if _sown_in(season, day, year))


def _sown_in(season: Season, day: date, year: int) -> bool:
    return sowing_span(season, year).first <= day < sowing_span(season, year + 1).first


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
    if not report.rows:
        return tr("Nothing was sown or picked.")
    told = [trn("{n} variety", "{n} varieties", len(report.rows))]
    if seeds:
        told += [
            tr("{seeds} sown", seeds=many(seeds, "seed")),
            tr("{up:,} up ({share:.0%})", up=up, share=up / seeds),
        ]
    if not report.over:
        told.append(tr("{standing:,} standing", standing=standing))
    if picked:
        told.append(tr("{picked} picked", picked=many(picked, "fruit")))
    return " · ".join(told)


def _chart(flow: Flow, head: str, quiet: str, series: Sequence[Steps], report: Report) -> None:
    if not series:
        return
    flow.gap(3)
    left_out = len(series) - MOST_LINES
    words = (
        quiet
        if left_out <= 0
        else tr(
            "{what}; the {most} largest, {more} more are in the table",
            what=quiet,
            most=MOST_LINES,
            more=left_out,
        )
    )
    flow.heading(head, words, keep_mm=CHART_MM)
    box = Box(flow.left, flow.y + 1, flow.width, CHART_MM)
    last = max(one.points[-1][0] for one in series)
    draw_steps(flow.pen, box, series[:MOST_LINES], last if report.over else report.today)
    flow.gap(CHART_MM)


def _bars(flow: Flow, rows: Sequence[Tally]) -> None:
    if not rows:
        return
    flow.gap(3)
    flow.heading(tr("Up of what was sown"), tr("by variety"), keep_mm=4 * BAR_MM)
    most = max(row.seeds for row in rows)
    for row in rows:
        flow.pen.look_up()
        flow.need(BAR_MM)
        words = (
            tr("{up} of {seeds}, {share:.0%}", up=row.up, seeds=row.seeds, share=row.up / row.seeds)
            if row.seeds
            else ""
        )
        draw_part(
            flow.pen,
            Box(flow.left, flow.y, flow.width, BAR_MM),
            Part(row.name, row.up, row.seeds, words),
            most,
        )
        flow.gap(BAR_MM)


def _table(flow: Flow, rows: Sequence[Tally], *, over: bool) -> None:
    flow.gap(3)
    flow.heading(tr("Variety by variety"), keep_mm=4 * ROW_MM)
    _cells(flow, HEADS, head=True)
    for row in rows:
        flow.pen.look_up()
        if flow.need(ROW_MM):
            _cells(flow, HEADS, head=True)
        share = figure(row.up / row.seeds, ".0%") if row.seeds else ""
        weight = tr("{grams:,.0f} g", grams=row.grams) if row.grams else ""
        picked = figure(row.picked, ",") if row.picked else ""
        sown = day_words(row.first) if row.first else ""
        standing = "" if over else str(row.standing)
        told = (row.name, sown, str(row.seeds), str(row.up), share, standing)
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
