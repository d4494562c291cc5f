"""Beds, obstacles and places on the plot: what was laid is where it is shown, turned or not."""

from datetime import date
from math import cos, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.season.deeds_bed import reshape_bed
from greenroom.season.deeds_plot import (
    Rectangle,
    add_obstacle,
    lay_bed,
    move_bed,
    remove_bed,
    remove_obstacle,
    set_out,
)
from greenroom.season.deeds_spots import mark_up, sow
from greenroom.season.plot import Bed, Plot, Shade, plot_of
from greenroom.season.plot_plants import free_spots, plants_of
from greenroom.season.proposal import RefusedError
from greenroom.season.spots import SpotKey
from tests.season.told import SOWN_ON, Told

TODAY = date(2027, 5, 28)
SIDES = st.floats(0.2, 20)
PLACES = st.floats(-50, 50)
BEDS = st.builds(
    Bed, st.just("b"), st.just("Bed 1"), st.integers(1, 12), st.integers(1, 12), PLACES, PLACES, SIDES, SIDES,
    st.floats(-360, 360),
)  # fmt: skip


@given(BEDS)
def test_every_place_of_a_bed_is_found_where_it_lies(bed):
    assert all(bed.spot_at(*point) == key for key, point in bed.places())


@given(BEDS)
def test_a_bed_keeps_its_sides_however_it_is_turned(bed):
    south_west, south_east, north_east, _ = bed.corners
    assert south_west == pytest.approx((bed.x_m, bed.y_m))
    along = ((south_east[0] - south_west[0]) ** 2 + (south_east[1] - south_west[1]) ** 2) ** 0.5
    up = ((north_east[0] - south_east[0]) ** 2 + (north_east[1] - south_east[1]) ** 2) ** 0.5
    assert (along, up) == pytest.approx((bed.width_m, bed.depth_m))


def test_a_bed_turned_clockwise_by_30_degrees_points_its_long_side_south_of_east():
    bed = Bed("b", "Bed 1", 1, 2, 1.0, 2.0, 4.0, 1.0, 30.0)
    assert bed.corners[1] == pytest.approx((1 + 4 * cos(radians(30)), 2 - 4 * sin(radians(30))))


def test_the_first_row_of_a_bed_is_the_northernmost():
    bed = Bed("b", "Bed 1", 3, 2, 0, 0, 2, 3)
    expected = [(x, y) for y in (2.5, 1.5, 0.5) for x in (0.5, 1.5)]
    assert [point for _, point in bed.places()] == expected


@given(st.lists(BEDS, min_size=1, max_size=4))
def test_the_plan_shows_all_that_was_laid(beds):
    extent = Plot(tuple(beds)).extent
    for bed in beds:
        assert all(extent.west < x < extent.east and extent.south < y < extent.north for x, y in bed.corners)


@pytest.fixture
def told():
    told = Told()
    told.packet("Brass Bell")
    told.holder("Rack 1", "rack", 1, 4)
    pots = [SpotKey("Rack 1", 0, column) for column in range(3)]
    told.do(sow(told.season, "p-Brass Bell", pots, SOWN_ON))
    told.do(mark_up(told.season, pots, date(2027, 3, 21)))
    told.do(lay_bed(told.season, "", 2, 2, Rectangle(1, 1, 1, 1), TODAY))
    told.do(add_obstacle("Shed", Rectangle(4, 0, 2, 2), 2.4, TODAY))
    return told


def test_what_is_laid_moved_and_taken_away_follows_the_last_word(told):
    plot = plot_of(told.season)
    (bed,), (shed,) = plot.beds, plot.shades
    assert (bed.name, bed.x_m, bed.pot_litres) == ("Bed 1", 1, None)
    assert shed == Shade(shed.key, "Shed", 4, 0, 2, 2, 2.4)
    told.do(move_bed(told.season, bed.key, Rectangle(3, 2, 1.5, 1, 45), TODAY, 20.0))
    told.do(remove_obstacle(told.season, shed.key, TODAY))
    plot = plot_of(told.season)
    assert plot.beds == (Bed(bed.key, "Bed 1", 2, 2, 3, 2, 1.5, 1, 45, 20.0),)
    assert plot.shades == ()
    told.do(remove_bed(told.season, bed.key, TODAY))
    assert plot_of(told.season).empty


def test_plants_set_out_stand_in_order_and_keep_their_variety(told):
    bed = plot_of(told.season).beds[0]
    sources = [SpotKey("Rack 1", 0, column) for column in range(3)]
    told.do(set_out(told.season, sources, SpotKey(bed.key, 0, 1), TODAY))
    plants = plants_of(told.season, plot_of(told.season))
    assert [(plant.spot.label, plant.name) for plant in plants] == [
        ("A2", "Brass Bell"), ("B1", "Brass Bell"), ("B2", "Brass Bell"),
    ]  # fmt: skip
    assert [key.label for key in free_spots(told.season, plot_of(told.season))] == ["A1"]
    assert plants[0].point == bed.position(0, 1)


def test_a_bed_gets_more_places_and_another_name_but_never_loses_a_plant(told):
    bed = plot_of(told.season).beds[0]
    told.do(set_out(told.season, [SpotKey("Rack 1", 0, 0)], SpotKey(bed.key, 1, 1), TODAY))
    told.do(reshape_bed(told.season, bed.key, "South bed", 4, 3, TODAY))
    changed = plot_of(told.season).beds[0]
    assert (changed.name, changed.rows, changed.columns) == ("South bed", 4, 3)
    assert told.season.spot(SpotKey(bed.key, 1, 1)).up == 1
    with pytest.raises(RefusedError, match="B2 of South bed is planted; move that plant first"):
        reshape_bed(told.season, bed.key, "South bed", 1, 3, TODAY)
    with pytest.raises(RefusedError, match="rack 1 is in use already"):
        reshape_bed(told.season, bed.key, "rack 1", 4, 3, TODAY)
    assert reshape_bed(told.season, bed.key, "South bed", 4, 3, TODAY).empty
