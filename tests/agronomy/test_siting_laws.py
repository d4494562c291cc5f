"""Laws that shade must obey on any plot."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from greenroom.agronomy.siting import Box, in_shade, shadow_length, shadow_polygon, sun_hours

METRES = st.floats(-20, 20)
SIZES = st.floats(0.05, 15)
BOXES = st.builds(Box, METRES, METRES, SIZES, SIZES, SIZES)
YARDS = st.lists(BOXES, max_size=4)
POINTS = st.lists(st.tuples(METRES, METRES), min_size=1, max_size=4)
ELEVATIONS = st.floats(0.1, 89.9)
AZIMUTHS = st.floats(0, 359.99)
SUNS = st.lists(st.tuples(ELEVATIONS, AZIMUTHS), min_size=1, max_size=5).map(lambda suns: np.array(suns).T)
DATES = st.dates(date(2000, 1, 1), date(2050, 12, 31))
LATITUDES = st.floats(-70, 70)


def near_an_edge(points: np.ndarray, boxes: list, elevation: np.ndarray, azimuth: np.ndarray) -> np.ndarray:
    """Rays whose answer turns when every box grows or shrinks by a millionth of a metre."""
    slack = 1e-6
    grown, shrunk = (
        [
            Box(b.x - s, b.y - s, b.width + 2 * s, b.depth + 2 * s, b.height + s)
            for b in boxes
            for s in (sign * slack,)
        ]
        for sign in (1, -1)
    )
    return in_shade(points, grown, elevation, azimuth) != in_shade(points, shrunk, elevation, azimuth)


def assert_same_but_at_edges(one: np.ndarray, other: np.ndarray, edge: np.ndarray) -> None:
    assert np.all((one == other) | edge)


@given(POINTS, YARDS, BOXES, SUNS)
def test_one_more_thing_never_gives_more_sun(points, boxes, another, sun):
    assert np.all(in_shade(points, [*boxes, another], *sun) >= in_shade(points, boxes, *sun))


@given(POINTS, BOXES, st.floats(0, 5), SUNS)
def test_a_taller_thing_never_gives_more_sun(points, box, more, sun):
    taller = replace(box, height=box.height + more)
    assert np.all(in_shade(points, [taller], *sun) >= in_shade(points, [box], *sun))


@given(POINTS, BOXES, ELEVATIONS, ELEVATIONS, AZIMUTHS)
def test_a_higher_sun_never_shades_what_a_lower_one_lit(points, box, one, other, azimuth):
    low, high = sorted((one, other))
    shaded = in_shade(points, [box], [low, high], [azimuth, azimuth])
    assert np.all(shaded[:, 0] >= shaded[:, 1])


@given(POINTS, YARDS, METRES, METRES, SUNS)
def test_moving_everything_together_changes_nothing(points, boxes, east, north, sun):
    points = np.array(points)
    moved = [replace(box, x=box.x + east, y=box.y + north) for box in boxes]
    edge = near_an_edge(points, boxes, *sun)
    assert_same_but_at_edges(
        in_shade(points + np.array([east, north]), moved, *sun), in_shade(points, boxes, *sun), edge
    )


@given(POINTS, YARDS, st.floats(0.1, 10), SUNS)
def test_a_model_of_the_yard_has_the_shade_of_the_yard(points, boxes, scale, sun):
    points = np.array(points)
    model = [Box(*(scale * np.array([b.x, b.y, b.width, b.depth, b.height]))) for b in boxes]
    edge = near_an_edge(points, boxes, *sun)
    assert_same_but_at_edges(in_shade(points * scale, model, *sun), in_shade(points, boxes, *sun), edge)


@given(POINTS, YARDS, SUNS)
def test_the_mirror_image_of_a_morning_is_an_afternoon(points, boxes, sun):
    points, (elevation, azimuth) = np.array(points), sun
    mirrored = [replace(box, x=-box.x - box.width) for box in boxes]
    edge = near_an_edge(points, boxes, *sun)
    image = in_shade(points * (-1, 1), mirrored, elevation, 360 - azimuth)
    assert_same_but_at_edges(image, in_shade(points, boxes, *sun), edge)


@given(POINTS, YARDS, SUNS)
def test_a_plot_turned_by_a_right_angle_with_the_sun_has_the_same_shade(points, boxes, sun):
    points, (elevation, azimuth) = np.array(points), sun
    # Clockwise: east becomes south, north becomes east.
    turned = [Box(b.y, -b.x - b.width, b.depth, b.width, b.height) for b in boxes]
    edge = near_an_edge(points, boxes, *sun)
    image = in_shade(points[:, ::-1] * (1, -1), turned, elevation, azimuth + 90)
    assert_same_but_at_edges(image, in_shade(points, boxes, *sun), edge)


@given(POINTS, BOXES, st.floats(0.1, 0.9), SUNS)
def test_two_halves_of_a_wall_shade_as_the_whole(points, box, share, sun):
    left = replace(box, width=box.width * share)
    right = replace(box, x=box.x + left.width, width=box.width - left.width)
    edge = near_an_edge(np.array(points), [left, right], *sun)
    assert_same_but_at_edges(in_shade(points, [left, right], *sun), in_shade(points, [box], *sun), edge)


@given(POINTS, BOXES, ELEVATIONS, AZIMUTHS)
def test_the_drawn_shadow_covers_just_the_points_without_sun(points, box, elevation, azimuth):
    outline = shadow_polygon(box, elevation, azimuth)
    sides = np.roll(outline, -1, axis=0) - outline
    for point in np.array(points):
        gaps = point - outline
        to_the_left = sides[:, 0] * gaps[:, 1] - sides[:, 1] * gaps[:, 0]
        drawn = to_the_left.min() >= 0  # inside a counter-clockwise convex outline
        edge = near_an_edge(point[None], [box], np.array([elevation]), np.array([azimuth]))
        assert edge.item() or drawn == in_shade(point, [box], [elevation], [azimuth]).item()


@given(BOXES, ELEVATIONS, AZIMUTHS)
def test_a_drawn_shadow_runs_counter_clockwise_and_has_the_swept_area(box, elevation, azimuth):
    x, y = (shadow_polygon(box, elevation, azimuth) - (box.x, box.y)).T
    area = 0.5 * (x @ np.roll(y, -1) - y @ np.roll(x, -1))  # the surveyor's formula
    reach = shadow_length(box.height, elevation)
    east, north = abs(np.sin(np.radians(azimuth))), abs(np.cos(np.radians(azimuth)))
    swept = box.width * box.depth + reach * (box.width * north + box.depth * east)
    assert area == pytest.approx(swept, rel=1e-9)


@settings(max_examples=50)
@given(POINTS, YARDS, DATES, LATITUDES)
def test_no_yard_has_more_sun_than_open_ground_nor_a_half_day_over_twelve_hours(points, boxes, day, latitude):
    hours = sun_hours(points, boxes, day, latitude, 10.0)
    open_ground = sun_hours((0, 0), [], day, latitude, 10.0)
    assert np.all(hours >= 0)
    assert np.all(hours <= open_ground + 1e-12)
    assert np.all(open_ground <= 12 + 1e-9)


@settings(max_examples=50)
@given(BOXES, DATES, LATITUDES)
def test_a_mirrored_yard_has_its_mornings_and_afternoons_swapped(box, day, latitude):
    assume(min(abs(box.x), abs(box.x + box.width), abs(box.y), abs(box.y + box.depth)) > 0.01)
    mirrored = replace(box, x=-box.x - box.width)
    morning, afternoon = sun_hours((0, 0), [box], day, latitude, 0.0, 5)
    swapped = sun_hours((0, 0), [mirrored], day, latitude, 0.0, 5)
    # Between morning and evening the sun drifts north or south by up to 0.4 degrees a day, which moves
    # rising, setting and each edge of a shadow by some minutes; on a low path along a top, by more.
    assert swapped == pytest.approx([afternoon, morning], abs=0.75)


@settings(max_examples=50)
@given(POINTS, YARDS, DATES, st.floats(-60, 60))
def test_a_finer_look_changes_the_hours_by_no_more_than_its_edges(points, boxes, day, latitude):
    coarse = sun_hours(points, boxes, day, latitude, 0.0, 10)
    fine = sun_hours(points, boxes, day, latitude, 0.0, 2)
    edges_of_a_half_day = 2 * len(boxes) + 1
    assert np.all(np.abs(coarse - fine) <= (edges_of_a_half_day * 10 + 2) / 120 + 1e-9)
