"""The tables of the season: each says what the list or chart beside it shows, and what can comes in again."""

from datetime import date

import numpy as np
import pandas
import pytest

from greenroom.exchange.seed_list import look_at_seed_list, read_seed_list
from greenroom.exchange.tables import care, hardening, plan, plot, seed, shelf, weather
from greenroom.exchange.tables import round as rounds
from greenroom.exchange.tables.csv_text import csv_text
from greenroom.exchange.tables.lamps import lamp_table
from greenroom.exchange.tables.losses import loss_table
from greenroom.exchange.tables_file import write_text
from greenroom.exchange.weather_files import read_weather_file
from greenroom.ledger.facts import Fed, Finding, HolderMade, Packet, Picked, Variety, Watered, Weighed
from greenroom.season.few_words import LOST_BY
from greenroom.season.losses import every_holder, losses_of
from greenroom.season.packets import packets
from greenroom.season.place import record_days
from greenroom.season.plan import plan_of
from greenroom.season.plot import plot_of
from greenroom.season.plot_sun import Where, boxes_of, sun_map
from greenroom.season.proposal import Proposal
from greenroom.season.record_page import record_page
from greenroom.season.round import the_round, week
from greenroom.season.sprouting import sprout_curve
from tests.season.demo_season import NOW, TODAY, demo_season
from tests.season.told import Told

SEASON = demo_season()
WHERE = Where(46.4, 16.0)


@pytest.fixture(scope="module")
def planned():
    return plan_of(SEASON, 2027, TODAY)


def saved(folder, table):
    """A table as the grower saves it."""
    return write_text(folder / "table.csv", csv_text(table, bom=True))


def test_a_saved_seed_box_can_be_brought_in_again_packet_by_packet(tmp_path):
    path = saved(tmp_path, seed.packet_table(SEASON, TODAY))
    look = look_at_seed_list(path)
    back = read_seed_list(path, look.match)
    told = [(one.name, one.packet.lot, one.packet.packed, one.packet.seeds) for one in packets(SEASON)]
    assert [(one.name, one.lot, one.packed, one.seeds) for one in back] == told
    assert [one.germination for one in back] == [one.packet.germination for one in packets(SEASON)]
    assert [one.days_to_ripe for one in back] == [one.days_to_ripe for one in packets(SEASON)]


def test_a_name_that_looks_like_a_formula_comes_in_again_as_it_was(tmp_path):
    told = Told()
    told.packet("=Ember", seeds=5)
    path = saved(tmp_path, seed.packet_table(told.season, TODAY))
    assert "'=Ember" in path.read_text(encoding="utf-8-sig")
    assert [one.name for one in read_seed_list(path, look_at_seed_list(path).match)] == ["=Ember"]


def test_a_saved_weather_record_can_be_brought_in_again_day_by_day(tmp_path):
    path = saved(tmp_path, weather.record_table(SEASON))
    back = read_weather_file(path)
    days = record_days(SEASON)
    assert {day.day for day in back.days} == set(days)
    for key in ("tmin_c", "tmax_c", "rain_mm"):
        ours = [getattr(days[day.day], key) for day in back.days]
        assert [getattr(day, key) for day in back.days] == pytest.approx(ours, abs=0.005)


def test_the_odds_table_says_what_the_chart_draws(planned):
    table = plan.odds_table(planned)
    drawn = [row for row in planned.rows if row.variety in planned.chart]
    assert table.column("sow_on") == planned.chart.days
    for place, row in enumerate(drawn, start=1):
        shares = np.array(table.column(f"odds_{place}")) / 100
        np.testing.assert_allclose(shares, planned.chart.odds(row.variety), atol=0.0006)


def test_the_plan_runs_from_sowing_to_ripe_in_order(planned):
    frame = pandas.DataFrame(plan.plan_table(SEASON, planned).rows, columns=[one.key for one in plan.PLAN])
    assert len(frame) == len(planned.rows) > 0
    stages = frame[["sow_on", "up", "hardens", "set_out", "ripe"]].dropna()
    assert len(stages) > 0
    assert (stages.diff(axis=1).iloc[:, 1:].apply(lambda one: one >= pandas.Timedelta(0))).all().all()


def test_the_cells_of_a_tray_add_up_to_what_its_row_says():
    trays, cells = shelf.holder_table(SEASON), shelf.cell_table(SEASON)
    living = dict.fromkeys(trays.column("name"), 0)
    for name, up in zip(cells.column("holder"), cells.column("up"), strict=True):
        living[name] += up
    assert tuple(living.values()) == trays.column("seedlings")
    assert len(cells.rows) == sum(
        a * b for a, b in zip(trays.column("rows"), trays.column("columns"), strict=True)
    )


def test_the_sprouting_table_says_what_the_curve_draws():
    tray = SEASON.holders("tray")[0].key
    curve = sprout_curve(SEASON, tray, TODAY)
    table = shelf.sprouting_table(SEASON, tray, TODAY)
    up = dict(zip(table.column("day"), table.column("up"), strict=True))
    assert [up[day] for day in curve.days if day in up] == list(curve.up)
    low, high = table.column("expected_low"), table.column("expected_high")
    assert all(a <= b for a, b in zip(low, high, strict=True))
    late = round(float(np.interp(20, curve.axis, curve.late)) * 100, 1)
    assert low[20] == late


def test_a_tray_in_which_nothing_was_sown_has_a_table_without_rows():
    told = Told()
    empty = told.holder("Tray Z")
    assert shelf.sprouting_table(told.season, empty, TODAY).rows == ()
    assert shelf.cell_table(told.season, empty).column("stage") == ("bare",) * 72


def test_hardening_days_are_in_order_and_the_minutes_are_those_of_the_outings():
    days = hardening.hardening_table(SEASON, TODAY, NOW)
    minutes = hardening.minutes_table(SEASON, NOW)
    for holder in set(days.column("holder")):
        dates = [row[1] for row in days.rows if row[0] == holder]
        assert dates == sorted(set(dates))
    assert all(
        outdoors == pytest.approx(clock + shade, abs=0.02)
        for clock, shade, outdoors in zip(
            minutes.column("clock"), minutes.column("shade"), minutes.column("outdoors"), strict=True
        )
    )
    assert sum(minutes.column("clock")) > 0


def test_the_record_page_tables_hold_every_year_and_the_spread_lies_in_order():
    page = record_page(SEASON, 2027)
    years = weather.years_table(page)
    assert years.column("year") == page.years
    for _, last, _, first, _, free in years.rows:  # neither frost is counted
        assert free is None or free == (first - last).days - 1
    heat = weather.heat_table(page.heat)
    low, usual, high = (heat.column(key)[300] for key in ("low", "usual", "high"))
    assert low <= usual <= high
    assert len(heat.columns) == 5 + len(page.heat.years)


def test_sun_hours_of_each_square_are_those_of_the_map():
    drawn = plot_of(SEASON)
    found = sun_map(drawn.extent, boxes_of(drawn), TODAY, WHERE)
    table = plot.sun_table(found)
    hours = np.array(table.column("day")).reshape(found.rows, found.columns)
    np.testing.assert_allclose(hours, found.of("day"), atol=0.006)
    assert (table.column("x")[0], table.column("y")[0]) == found.middle(0, 0)


def test_the_round_and_the_week_hold_every_line_that_is_shown():
    shown, ahead = the_round(SEASON, TODAY, NOW), week(SEASON, TODAY, NOW)
    table = rounds.round_table(shown)
    states = list(table.column("state"))
    assert states.count("to do") == len(shown.jobs) > 0
    assert states.count("done") == len(shown.done)
    assert len(rounds.week_table(ahead).rows) == sum(len(day.lines) for day in ahead)


def test_care_and_picks_are_as_they_were_written_down():
    told = Told()
    tray = told.holder("Tray A")
    day = date(2027, 8, 3)
    told.do(
        Proposal(
            "care",
            (
                Variety(day=day, variety="v", name="Brass Bell"),
                Packet(day=day, packet="p", variety="v"),
                HolderMade(day=day, holder="bed", name="Bed 1", form="bed", rows=2, columns=3),
                Watered(day=day, holder=tray, how="above", weight_g=2400.0),
                Fed(
                    day=day,
                    holder=tray,
                    feed="tomato feed",
                    n_percent=4,
                    p2o5_percent=3,
                    k2o_percent=8,
                    ppm_n=100,
                    litres=2.5,
                ),
                Weighed(day=day, holder=tray, state="now", grams=1890.5),
                Finding(day=day, holder="bed", row=1, column=2, sign="aphids", count=12, where="tips"),
                Picked(day=day, variety="v", holder="bed", row=1, column=2, count=4, grams=310.5),
            ),
        )
    )
    assert care.watering_table(told.season).rows == ((day, "Tray A", "above", 2400.0, None),)
    assert care.weighing_table(told.season).rows == ((day, "Tray A", "now", 1890.5, None),)
    assert care.feed_table(told.season).rows == ((day, "Tray A", "tomato feed", 4, 3, 8, 100, 2.5),)
    assert care.finding_table(told.season).rows[0][:3] == (day, "Bed 1", "B3")
    assert care.pick_table(told.season).rows == ((day, "Brass Bell", "Bed 1", "B3", 4, 310.5, "ripe"),)


def test_losses_are_a_row_each_with_cause_and_stage():
    found = losses_of(SEASON, every_holder(SEASON), date.min, TODAY)
    table = loss_table(SEASON)
    assert sum(table.column("count")) == found.total + found.thinned > 0
    assert set(table.column("cause")) >= {part.name for part in found.by_cause if part.name != LOST_BY[""]}
    days = list(table.column("date"))
    assert days == sorted(days)


def test_the_light_of_a_shelf_is_what_falls_in_its_hours():
    """mol/m² a day are µmol/m²/s times the seconds lit, by a million: what a daily light integral is."""
    table = lamp_table(SEASON)
    assert table.rows
    for where, ppfd, lit, dli, _asked, _needed in table.rows:
        assert dli == pytest.approx(ppfd * lit * 3600 / 1e6), where


def test_plants_on_the_plot_are_told_with_their_sun():
    later = demo_season(NOW.replace(month=8))
    drawn = plot_of(later)
    table = plot.plant_table(later, drawn, date(2027, 8, 14), WHERE)
    assert len(table.rows) > 0
    assert all(0 <= hours <= 24 for hours in table.column("day"))
    assert set(plot.plant_table(later, drawn, date(2027, 8, 14)).column("day")) == {None}
