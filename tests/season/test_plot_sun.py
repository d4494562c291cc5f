"""Sun on the plot: laws any sky keeps, and shadows as the tables of noon shadows have them."""

from datetime import UTC, date, datetime
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from greenroom.agronomy.sunlight import solar_noon
from greenroom.season.plot import Bed, Extent, Plot, Shade
from greenroom.season.plot_plants import Plant
from greenroom.season.plot_sun import (
    Where,
    best_places,
    boxes_of,
    open_ground,
    place_sun,
    plant_sun,
    shadows,
    side_for,
    sun_map,
    sun_word,
)
from greenroom.season.spots import SpotKey
from tests.season.told import the_guide

HERE = Where(46.4, 16.0)
JUNE = date(2027, 6, 21)
BED_GROUND = Extent(-1, -1, 5, 4)
BED = Bed("b", "Bed 1", 3, 4, 0, 0, 4, 3)
DAYS = st.dates(date(2027, 3, 1), date(2027, 10, 31))
LATITUDES = st.floats(-60, 60)


def wall(height, x=-2.0, y=-1.5):
    return Shade("w", "Wall", x, y, 8, 0.3, height)


def plant(column, crop, row=0):
    spot = SpotKey("b", row, column)
    return Plant(spot, BED.position(row, column), crop, the_guide().entries[crop])


@settings(max_examples=40, deadline=None)
@given(DAYS, LATITUDES, st.floats(0.2, 5), st.floats(0.1, 5))
def test_a_taller_obstacle_never_gives_more_sun(day, latitude, height, more):
    where = Where(latitude, 16.0)
    low = sun_map(BED_GROUND, boxes_of(Plot((BED,), (wall(height),))), day, where)
    high = sun_map(BED_GROUND, boxes_of(Plot((BED,), (wall(height + more),))), day, where)
    assert np.all(high.morning <= low.morning)
    assert np.all(high.afternoon <= low.afternoon)


@settings(max_examples=30, deadline=None)
@given(DAYS, LATITUDES)
def test_no_place_has_more_sun_than_open_ground(day, latitude):
    where = Where(latitude, 16.0)
    found = sun_map(BED_GROUND, boxes_of(Plot((BED,), (wall(2.0),))), day, where)
    assert found.of("day").max() <= found.most.day + 1e-9
    assert open_ground(day, where) == found.most


@settings(max_examples=20, deadline=None)
@given(DAYS, st.floats(0.5, 4))
def test_the_parts_of_the_day_add_up_and_a_place_has_what_its_ground_has(day, height):
    plot = Plot((BED,), (wall(height),))
    places = place_sun(plot, day, HERE)
    assert set(places) == {key for key, _ in BED.places()}
    for hours in places.values():
        assert hours.day == pytest.approx(hours.morning + hours.afternoon)
        assert hours.of("morning") == hours.morning


def test_south_of_the_equator_a_wall_shades_the_other_side():
    """The sun stands in the north there: the wall that takes most here is not the one that does there."""
    south_wall, north_wall = wall(2.0, y=-0.8), wall(2.0, y=3.5)
    autumn, there = date(2027, 10, 20), Where(-46.4, 16.0)
    april = date(2027, 4, 20)

    def mean(shade, on, where):
        return np.mean([one.day for one in place_sun(Plot((BED,), (shade,)), on, where).values()])

    assert mean(south_wall, autumn, HERE) < mean(north_wall, autumn, HERE)
    assert mean(north_wall, april, there) < mean(south_wall, april, there)


@pytest.mark.parametrize(
    ("latitude", "day", "length"),
    [
        (40, date(2027, 5, 1), 0.47),
        (40, JUNE, 0.30),
        (45, JUNE, 0.40),
        (50, date(2027, 9, 1), 0.91),
        (50, date(2027, 12, 21), 3.36),
    ],
)
def test_at_noon_a_shadow_reaches_as_far_north_as_geometry_has_it(latitude, day, length):
    """Height / tan(90 - latitude + declination): standard geometry; lengths for 1 m worked out by hand."""
    box = Shade("s", "Post", 0, 0, 0.1, 0.1, 1.0).box
    (outline,) = shadows([box], solar_noon(day, 16.0), Where(latitude, 16.0))
    assert max(y for _, y in outline) - 0.1 == pytest.approx(length, abs=0.02)
    assert min(y for _, y in outline) == pytest.approx(0.0, abs=0.01)


def test_at_night_nothing_throws_a_shadow():
    assert shadows([wall(2).box], datetime(2027, 6, 21, 23, tzinfo=UTC), HERE) == []


@settings(max_examples=15, deadline=None)
@given(st.dates(date(2027, 4, 1), date(2027, 9, 10)))
def test_a_taller_plant_loses_nothing_to_a_lower_one(day):
    """The guide lets an aji grow to 90-160 cm and an ornamental pepper to 20-45 cm (from memory, both)."""
    suns = plant_sun(Plot((BED,)), [plant(1, "aji"), plant(2, "ornamental-pepper")], day, HERE)
    tall, low = suns
    assert tall.hours.day == pytest.approx(open_ground(day, HERE).day)
    assert tall.taken == ()
    assert [taken.by for taken in low.taken] == [tall.plant.spot]
    assert low.hours.day == pytest.approx(open_ground(day, HERE).day - low.taken[0].hours)


def test_equals_take_no_sun_from_each_other_and_nobody_from_himself():
    suns = plant_sun(Plot((BED,)), [plant(column, "habanero") for column in range(4)], JUNE, HERE)
    assert all(sun.hours.day == pytest.approx(open_ground(JUNE, HERE).day) for sun in suns)


def test_best_places_are_free_ranked_by_the_half_asked_for():
    plot = Plot((BED,), (Shade("h", "House", -3, -3, 2.5, 9, 6.0),))
    hours = place_sun(plot, JUNE, HERE)
    free = [key for key in hours if key.column != 3]
    whole = best_places(hours, free)
    assert len(whole) == 8
    assert all(one.spot in free for one in whole)
    falling = [one.hours.day for one in whole]
    assert all(one >= other - 0.051 for one, other in pairwise(falling))
    west_house = best_places(hours, free, "afternoon")
    assert west_house[0].spot.column == 2


def test_squares_are_as_fine_as_fits_and_cover_the_ground():
    assert side_for(Extent(0, 0, 6, 4)) == 0.25
    assert side_for(Extent(0, 0, 14, 10)) == 1.0
    found = sun_map(Extent(0, 0, 14, 10), (), JUNE, HERE)
    assert (found.rows, found.columns) == (10, 14)
    assert found.middle(0, 0) == (0.5, 9.5)


def test_hours_are_named_as_extension_services_name_them():
    """Full sun is six hours or more of direct sun, part sun four to six: Penn State Extension."""
    assert [sun_word(hours) for hours in (6.0, 5.9, 4.0, 3.9)] == [
        "full sun",
        "part sun",
        "part sun",
        "shade",
    ]
