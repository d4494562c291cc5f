"""A stroke of a packet over cells: every empty cell on the way, once, and never past the seeds."""

from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPoint

from greenroom.desk.grow.grid import Grid
from greenroom.desk.sow.stroke import Stroke

GRID = Grid(6, 12, 20, 30, 40, 40)
POINTS = st.lists(st.builds(QPoint, st.integers(0, 560), st.integers(0, 330)), min_size=1, max_size=12)


def stroke(left=None, seeds=1, taken=()):
    return Stroke("p", seeds, left, lambda place: place not in taken)


def middle(row, column):
    return GRID.slot((row, column)).center()


def along(made, *points):
    for point in points:
        made.go_to(GRID, point)
    return list(made.places)


def test_a_straight_way_passes_every_cell_in_order():
    assert along(stroke(), middle(2, 0), middle(2, 11)) == [(2, column) for column in range(12)]


def test_a_cell_passed_twice_is_sown_once():
    assert along(stroke(), middle(0, 0), middle(0, 2), middle(0, 0)) == [(0, 0), (0, 1), (0, 2)]


def test_taken_cells_are_passed_over():
    assert along(stroke(taken={(0, 1)}), middle(0, 0), middle(0, 2)) == [(0, 0), (0, 2)]


def test_the_way_outside_the_cells_sows_nothing():
    assert along(stroke(), QPoint(5, 5), QPoint(500, 10)) == []


def test_coming_back_in_elsewhere_sows_only_what_is_passed_inside():
    assert along(stroke(), middle(0, 0), QPoint(40, 5), QPoint(120, 5), middle(0, 2)) == [(0, 0), (0, 2)]


@given(POINTS, st.integers(0, 40), st.integers(1, 6))
def test_a_stroke_never_takes_more_seeds_than_are_left(points, left, seeds):
    made = stroke(left=left, seeds=seeds)
    along(made, *points)
    assert len(made.places) * seeds <= left
    assert made.remaining == left - len(made.places) * seeds


@given(POINTS)
def test_every_point_that_was_stopped_at_is_sown_while_seeds_last(points):
    made = stroke()
    along(made, *points)
    stops = {GRID.at(point) for point in points} - {None}
    assert stops <= set(made.places)


@given(POINTS)
def test_neighbouring_cells_of_a_stroke_inside_the_tray_touch(points):
    inside = [point for point in points if GRID.at(point) is not None]
    made = stroke()
    places = along(made, *inside)
    for index, (row, column) in enumerate(places[1:], start=1):
        assert any(abs(row - r) <= 1 and abs(column - c) <= 1 for r, c in places[:index])
