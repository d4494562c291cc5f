"""The season plan as tables: a row a variety, and the odds by sowing date."""

from __future__ import annotations

from collections.abc import Iterator

from greenroom.exchange.tables.parts import percent
from greenroom.exchange.tables.seed import crop_name
from greenroom.exchange.tables.table import Cell, Column, Kind, Table
from greenroom.season.plan import Plan, PlanRow
from greenroom.season.plan_stages import stages
from greenroom.season.state import Season
from greenroom.speech import tr

DAYS = (
    ("window_first", "Sow from"),
    ("window_last", "Sow until"),
    ("latest", "Last good day to sow"),
    ("sow_on", "Sow on"),
    ("up", "Half up"),
    ("pot_up", "Pot up"),
    ("hardens", "Harden from"),
    ("set_out", "Set out"),
    ("ripe", "First ripe"),
    ("ripe_early", "First ripe, early year"),
    ("ripe_late", "First ripe, late year"),
)
PLAN = (
    Column("variety", "Variety"),
    Column("crop", "Crop"),
    Column("plants", "Plants wanted", Kind.WHOLE),
    Column("seeds", "Seeds to sow", Kind.WHOLE),
    Column("cells", "Cells", Kind.WHOLE),
    Column("sown", "Sown", Kind.YES_NO),
    Column("chosen", "Day chosen by hand", Kind.YES_NO),
    *(Column(key, title, Kind.DATE) for key, title in DAYS),
    Column("odds", "Odds of ripe fruit", Kind.NUMBER, "%"),
    Column("odds_low", "Odds, low", Kind.NUMBER, "%"),
    Column("odds_high", "Odds, high", Kind.NUMBER, "%"),
    Column("years", "Years counted", Kind.WHOLE),
    Column("spare", "To spare before frost", Kind.WHOLE, "days"),
    Column("short", "Short of the odds wanted", Kind.YES_NO),
)


def plan_table(season: Season, plan: Plan) -> Table:
    """Return the plan of a season, a row a variety."""
    return Table.of(tr("Plan {year}", year=plan.year), PLAN, (_variety(season, row) for row in plan.rows))


def odds_table(plan: Plan) -> Table:
    """Return the odds of ripe fruit on every day of sowing, a column a variety; none without a record."""
    chart = plan.chart
    named = [] if chart is None else [row for row in plan.rows if row.variety in chart]
    columns = (
        Column("sow_on", "Sow on", Kind.DATE),
        *(
            Column(
                f"odds_{place}",
                f"Odds of {row.name}",
                Kind.NUMBER,
                "%",
                shown=tr("Odds of {variety}", variety=row.name),
            )
            for place, row in enumerate(named, start=1)
        ),
    )
    return Table.of(tr("Odds by sowing date {year}", year=plan.year), columns, _odds(plan, named))


def _odds(plan: Plan, named: list[PlanRow]) -> Iterator[tuple[Cell, ...]]:
    if plan.chart is None:
        return
    odds = [plan.chart.odds(row.variety).tolist() for row in named]
    for place, day in enumerate(plan.chart.days):
        yield (day, *(percent(one[place]) for one in odds))


def _variety(season: Season, row: PlanRow) -> tuple[Cell, ...]:
    known, sowing = stages(season.guide, row), row.sowing
    odds, spread = (sowing.odds, sowing.ripe) if sowing is not None else (None, None)
    return (
        row.name,
        crop_name(season, row.needs.crop),
        row.plants,
        row.seeds.seeds if row.seeds else None,
        row.seeds.cells if row.seeds else None,
        row.sown,
        row.chosen,
        row.window.first if row.window else None,
        row.window.last if row.window else None,
        row.latest,
        row.on,
        known.up,
        known.pot_up,
        known.hardens,
        known.set_out,
        known.ripe,
        spread.early if spread else None,
        spread.late if spread else None,
        percent(odds.share if odds else None),
        percent(odds.low if odds else None),
        percent(odds.high if odds else None),
        odds.years if odds else None,
        row.frosts.spare_days if row.frosts else None,
        row.short,
    )
