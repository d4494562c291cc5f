"""The parts of the Grow on page: which names go over which columns, where cells lie, what is chosen."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, QRect, QSize

from greenroom.desk.grow.bands import SEVERAL, bands
from greenroom.desk.grow.choice import Choice
from greenroom.desk.grow.grid import LARGEST_PITCH, SMALLEST_PITCH, Margins, block, fit

SIDES = st.integers(1, 30)


def words(found):
    return [(band.words, band.first, band.last) for band in found]


def test_columns_of_one_variety_share_a_band():
    names = [["Bell", "Bell", "Drop"], ["Bell", None, "Drop"]]
    assert words(bands(names).columns) == [("Bell", 0, 1), ("Drop", 2, 2)]
    assert bands(names).rows == ()


def test_bare_columns_have_no_band_and_part_the_others():
    names = [["Bell", None, "Bell"]]
    assert words(bands(names).columns) == [("Bell", 0, 0), ("Bell", 2, 2)]


def test_a_tray_sown_in_rows_has_its_names_beside_the_rows():
    names = [["Bell", "Bell"], ["Bell", "Bell"], ["Drop", "Drop"]]
    assert words(bands(names).rows) == [("Bell", 0, 1), ("Drop", 2, 2)]
    assert bands(names).columns == ()


def test_a_column_of_several_says_so_and_names_them_in_full():
    names = [["Bell", "Bell"], ["Drop", "Bell"], ["Bell", "Drop"]]
    (band,) = bands(names).columns
    assert band.words == SEVERAL
    assert band.full_words == "Bell, Drop"


@given(SIDES, SIDES, st.integers(0, 2000), st.integers(0, 2000))
def test_cells_stay_within_their_limits_at_any_size(rows, columns, width, height):
    grid = fit(rows, columns, QSize(width, height), Margins(22, 39, 3, 3))
    assert SMALLEST_PITCH <= grid.pitch_x <= LARGEST_PITCH
    assert SMALLEST_PITCH <= grid.pitch_y <= LARGEST_PITCH


@given(SIDES, SIDES, st.integers(100, 2000), st.integers(100, 2000), st.data())
def test_a_point_in_a_cell_finds_that_cell(rows, columns, width, height, data):
    grid = fit(rows, columns, QSize(width, height), Margins(22, 39, 3, 3))
    place = data.draw(st.tuples(st.integers(0, rows - 1), st.integers(0, columns - 1)))
    for rect in (grid.cell(place), grid.slot(place)):
        for point in (rect.topLeft(), rect.bottomRight(), rect.center()):
            assert grid.at(point) == place


@given(SIDES, SIDES, st.integers(0, 2000), st.integers(0, 2000))
def test_a_name_below_a_pot_never_makes_the_pot_too_small(rows, columns, width, height):
    grid = fit(rows, columns, QSize(width, height), Margins(22, 17, 3, 3), strip=15)
    assert grid.strip in (0, 15)
    assert grid.slot((0, 0)).height() - grid.strip >= SMALLEST_PITCH
    if grid.strip:
        assert min(grid.pitch_x, grid.pitch_y - grid.strip) >= 24


def test_a_point_outside_finds_none():
    grid = fit(2, 2, QSize(200, 200), Margins(22, 39))
    assert grid.at(QPoint(5, 60)) is None
    assert grid.at(QPoint(60, 5)) is None


def test_a_rectangle_meets_the_cells_it_touches():
    grid = fit(6, 12, QSize(800, 400), Margins(22, 39))
    rect = QRect(grid.cell((1, 2)).center(), grid.cell((3, 4)).center())
    assert grid.within(rect) == block((1, 2), (3, 4))
    assert grid.within(QRect(0, 0, 5, 5)) == []


PLACES = st.tuples(st.integers(0, 5), st.integers(0, 11))


@given(st.lists(st.tuples(st.sampled_from(["go", "extend", "toggle"]), PLACES), max_size=12))
def test_what_is_chosen_lies_in_the_tray(steps):
    choice = Choice(6, 12)
    for name, place in steps:
        getattr(choice, name)(place)
    assert all(0 <= row < 6 and 0 <= column < 12 for row, column in choice.targets)
    assert choice.targets == sorted(choice.targets)


def test_extending_draws_the_block_anew_from_its_first_corner():
    choice = Choice(6, 12)
    choice.go((2, 2))
    choice.extend((4, 4))
    choice.extend((1, 1))
    assert choice.chosen == {(1, 1), (1, 2), (2, 1), (2, 2)}


@pytest.mark.parametrize(("span", "pixels"), [(14, 400), (26, 740), (60, 450), (7, 200)])
def test_days_under_the_chart_never_run_into_each_other(span, pixels):
    """A label "day 24" is about 40 px wide at 12 px."""
    from greenroom.desk.grow.sprout_chart import day_step

    assert pixels / span * day_step(span, pixels) >= 45


def test_the_curve_rises_on_the_days_of_its_marks_and_stays_level_between():
    """Worked by hand: 2 up on day 5 and 1 on day 7, of 4 seeds, told on day 9."""
    from datetime import date

    from greenroom.desk.grow.sprout_chart import steps, up_at
    from greenroom.season.sprouting import SproutCurve

    curve = SproutCurve(date(2027, 3, 12), (5, 7), (2, 3), 4, 9, np.arange(0, 14.25, 0.25), None, None)
    days, shares = steps(curve)
    assert days.tolist() == [0, 5, 5, 7, 7, 9]
    assert shares.tolist() == [0, 0, 0.5, 0.5, 0.75, 0.75]
    assert [up_at(curve, day) for day in (4, 5, 6, 7, 9)] == [0, 2, 2, 3, 3]
