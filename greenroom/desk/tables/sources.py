"""Which table stands behind which list or chart; what makes it is loaded when it is asked for."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import TYPE_CHECKING

from greenroom.desk.bench import Bench

if TYPE_CHECKING:
    from greenroom.exchange.tables.table import Table
    from greenroom.season.plan import Plan
    from greenroom.season.plot_sun import SunMap
    from greenroom.season.ramp_rules import RampRules
    from greenroom.season.ready_history import SpreadOn


def packets(bench: Bench) -> Table:
    """Return the packets."""
    from greenroom.exchange.tables.seed import packet_table

    return packet_table(bench.keeper.season, bench.keeper.today)


def varieties(bench: Bench) -> Table:
    """Return the varieties."""
    from greenroom.exchange.tables.seed import variety_table

    return variety_table(bench.keeper.season)


def home_tests(bench: Bench) -> Table:
    """Return the germination tests."""
    from greenroom.exchange.tables.seed import home_test_table

    return home_test_table(bench.keeper.season)


def plan(bench: Bench, shown: Plan) -> Table:
    """Return a plan."""
    from greenroom.exchange.tables.plan import plan_table

    return plan_table(bench.keeper.season, shown)


def odds(_bench: Bench, shown: Plan) -> Table | None:
    """Return the odds by sowing date; None without a weather record."""
    from greenroom.exchange.tables.plan import odds_table

    return odds_table(shown) if shown.chart is not None else None


def holders(bench: Bench) -> Table:
    """Return the trays, racks and beds."""
    from greenroom.exchange.tables.shelf import holder_table

    return holder_table(bench.keeper.season)


def cells(bench: Bench, holder: str | None) -> Table | None:
    """Return the cells of the open holder; None where none is open."""
    from greenroom.exchange.tables.shelf import cell_table

    return cell_table(bench.keeper.season, holder) if holder is not None else None


def all_cells(bench: Bench) -> Table:
    """Return the cells of every holder in use."""
    from greenroom.exchange.tables.shelf import cell_table

    return cell_table(bench.keeper.season)


def sprouting(bench: Bench, holder: str | None) -> Table | None:
    """Return how the open tray comes up; None where none is open."""
    from greenroom.exchange.tables.shelf import sprouting_table

    return sprouting_table(bench.keeper.season, holder, bench.keeper.today) if holder is not None else None


def canopy(bench: Bench, holder: str | None) -> Table | None:
    """Return the leaf cover of the open tray; None where none is open."""
    from greenroom.exchange.tables.canopy import canopy_table

    return canopy_table(bench.keeper.season, holder) if holder is not None else None


def hardening(bench: Bench, *named: str | None) -> Table:
    """Return the days of the ramp of one holder, or of all that go out."""
    from greenroom.exchange.tables.hardening import hardening_table

    keeper = bench.keeper
    keys = (key for key in named if key is not None)
    return hardening_table(keeper.season, keeper.today, keeper.now, *keys)


def ramp(_bench: Bench, shown: RampRules | None) -> Table | None:
    """Return the ramp that is drawn beside published schedules; None where none is."""
    from greenroom.exchange.tables.ramp import ramp_table

    return ramp_table(shown) if shown is not None else None


def spread(_bench: Bench, history: Sequence[SpreadOn]) -> Table | None:
    """Return how a ready date narrowed from morning to morning; None where nothing is known of it."""
    from greenroom.exchange.tables.ramp import spread_table

    return spread_table(history) if history else None


def minutes(bench: Bench) -> Table:
    """Return minutes and light outdoors, day by day."""
    from greenroom.exchange.tables.hardening import minutes_table

    return minutes_table(bench.keeper.season, bench.keeper.now)


def record(bench: Bench) -> Table:
    """Return the weather record."""
    from greenroom.exchange.tables.weather import record_table

    return record_table(bench.keeper.season)


def forecast(bench: Bench) -> Table:
    """Return the newest forecast."""
    from greenroom.exchange.tables.weather import forecast_table

    return forecast_table(bench.keeper.season)


def years(bench: Bench) -> Table | None:
    """Return frosts and warm nights year by year; None without a record."""
    from greenroom.exchange.tables.weather import years_table
    from greenroom.season.record_page import record_page
    from greenroom.season.ribbon import season_year

    page = record_page(bench.keeper.season, season_year(bench.keeper.season, bench.keeper.today))
    return years_table(page) if page is not None else None


def heat(bench: Bench) -> Table | None:
    """Return the heat gathered; None without a record."""
    from greenroom.exchange.tables.weather import heat_table
    from greenroom.season.record_page import record_page
    from greenroom.season.ribbon import season_year

    page = record_page(bench.keeper.season, season_year(bench.keeper.season, bench.keeper.today))
    return heat_table(page.heat) if page is not None else None


def plants(bench: Bench, day: date | None = None) -> Table:
    """Return the plants on the plot, with their sun on a day where the place is known."""
    from greenroom.exchange.tables.plot import plant_table
    from greenroom.season.plot import plot_of
    from greenroom.season.plot_sun import Where

    keeper, place = bench.keeper, bench.keeper.place
    known = place.latitude is not None and place.longitude is not None
    where = Where(place.latitude or 0.0, place.longitude or 0.0) if known else None
    return plant_table(keeper.season, plot_of(keeper.season), day or keeper.today, where)


def sun(_bench: Bench, found: SunMap | None) -> Table | None:
    """Return the sun on the plot square by square; None while it is not worked out."""
    from greenroom.exchange.tables.plot import sun_table

    return sun_table(found) if found is not None else None


def the_round(bench: Bench) -> Table:
    """Return the round of today."""
    from greenroom.exchange.tables.round import round_table
    from greenroom.season import round as rounds

    keeper = bench.keeper
    return round_table(rounds.the_round(keeper.season, keeper.today, keeper.now))


def week(bench: Bench) -> Table:
    """Return the week ahead."""
    from greenroom.exchange.tables.round import week_table
    from greenroom.season import round as rounds

    keeper = bench.keeper
    return week_table(rounds.week(keeper.season, keeper.today, keeper.now))


def feeds(bench: Bench) -> Table:
    """Return the feeds."""
    from greenroom.exchange.tables.care import feed_table

    return feed_table(bench.keeper.season)


def waterings(bench: Bench) -> Table:
    """Return the waterings."""
    from greenroom.exchange.tables.care import watering_table

    return watering_table(bench.keeper.season)


def weighings(bench: Bench) -> Table:
    """Return the weighings."""
    from greenroom.exchange.tables.care import weighing_table

    return weighing_table(bench.keeper.season)


def findings(bench: Bench) -> Table:
    """Return the findings."""
    from greenroom.exchange.tables.care import finding_table

    return finding_table(bench.keeper.season)


def picks(bench: Bench) -> Table:
    """Return the picks."""
    from greenroom.exchange.tables.care import pick_table

    return pick_table(bench.keeper.season)


def lamps(bench: Bench) -> Table:
    """Return the light on the shelves."""
    from greenroom.exchange.tables.lamps import lamp_table

    return lamp_table(bench.keeper.season)


def losses(bench: Bench, holder: str | None = None, first: date = date.min) -> Table:
    """Return what was lost from one holder, or from all, since a day."""
    from greenroom.exchange.tables.losses import loss_table

    keeper = bench.keeper
    return loss_table(keeper.season, None if holder is None else [holder], first, keeper.today)
