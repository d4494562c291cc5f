"""Harvests and what is ripe by when, as tables."""

from __future__ import annotations

from datetime import date

from greenroom.exchange.tables.parts import percent, rounded
from greenroom.exchange.tables.table import Cell, Column, Kind, Table
from greenroom.season.picking import Harvest, harvests
from greenroom.season.picking_ahead import RipeAhead, ripe_ahead
from greenroom.season.state import Season
from greenroom.speech import tr

HARVESTS = (
    Column("variety", "Variety"),
    Column("season", "Season", Kind.WHOLE),
    Column("fruit", "Fruit", Kind.WHOLE),
    Column("green", "Picked green", Kind.WHOLE),
    Column("turning", "Picked turning", Kind.WHOLE),
    Column("ripe", "Picked ripe", Kind.WHOLE),
    Column("weighed", "Fruit weighed", Kind.WHOLE),
    Column("weighed_g", "Weight of these", Kind.NUMBER, "g"),
    Column("weight_g", "Weight in all", Kind.NUMBER, "g"),
    Column("plants", "Plants", Kind.WHOLE),
    Column("ground_m2", "Ground", Kind.NUMBER, "m²"),
    Column("plant_g", "Weight a plant", Kind.NUMBER, "g"),
    Column("square_g", "Weight a square metre", Kind.NUMBER, "g/m²"),
    Column("first", "First picked", Kind.DATE),
    Column("last", "Last picked", Kind.DATE),
    Column("ripe_days", "Set out to ripe", Kind.NUMBER, "days"),
    Column("sown_days", "Sown to ripe", Kind.WHOLE, "days"),
    Column("ripe_heat", "Heat, set out to ripe", Kind.NUMBER, "°C·d"),
)
AHEAD = (
    Column("variety", "Variety"),
    Column("bed", "Bed"),
    Column("plants", "Plants", Kind.WHOLE),
    Column("set_out", "Set out", Kind.DATE),
    Column("early", "Ripe, one case in ten", Kind.DATE),
    Column("usual", "Ripe, half", Kind.DATE),
    Column("late", "Ripe, nine in ten", Kind.DATE),
    Column("odds", "Before the killing night", Kind.NUMBER, "%"),
    Column("years", "Years counted", Kind.WHOLE),
    Column("gathered", "Heat gathered", Kind.NUMBER, "°C·d"),
    Column("need", "Heat it needs", Kind.NUMBER, "°C·d"),
    Column("first_ripe", "First picked ripe", Kind.DATE),
    Column("picked", "Fruit picked", Kind.WHOLE),
    Column("due", "Look over", Kind.DATE),
)


def harvest_table(season: Season, today: date) -> Table:
    """Return every variety in every season it was picked in."""
    return Table.of(tr("Harvests"), HARVESTS, (_harvest(one) for one in harvests(season, today)))


def ahead_table(season: Season, today: date) -> Table:
    """Return what is ripe by when, the soonest first."""
    return Table.of(tr("Ripe by when"), AHEAD, (_ahead(one) for one in ripe_ahead(season, today)))


def _harvest(one: Harvest) -> tuple[Cell, ...]:
    picked = one.picked
    return (
        one.name,
        one.year,
        picked.count,
        *picked.colours,
        picked.weighed,
        rounded(picked.grams) if picked.weighed else None,
        rounded(picked.whole_grams),
        one.plants,
        rounded(one.m2),
        rounded(one.grams_a_plant),
        rounded(one.grams_a_m2),
        picked.first,
        picked.last,
        rounded(one.days_to_ripe),
        one.days_from_sowing,
        rounded(one.heat_to_ripe),
    )


def _ahead(one: RipeAhead) -> tuple[Cell, ...]:
    days, lot = one.days, one.lot
    odds = days.odds if days else None
    return (
        one.name,
        lot.bed if lot else "",
        len(lot.spots) if lot else None,
        lot.out if lot else None,
        days.early if days else None,
        days.usual if days else None,
        days.late if days else None,
        percent(odds.share if odds else None),
        odds.years if odds else None,
        rounded(days.gathered if days else None),
        rounded(one.ripening.learned.figure if one.ripening else None),
        one.first_ripe,
        sum(fact.count for fact in one.picks),
        one.due,
    )
