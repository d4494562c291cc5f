"""Trays, pots and mix against published sheets, the nursery standard and geometry."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import quad

from greenroom.agronomy import containers

LITRES_IN_CUBIC_INCH = 0.016387064  # exact, from 2.54 cm

trays = st.builds(
    containers.Tray, st.integers(1, 20), st.integers(1, 30), st.floats(1, 5000, allow_subnormal=False)
)


@pytest.mark.parametrize(
    ("cells", "rows", "columns", "cubic_inches"),
    # Plug sheets of 11.00 x 21.22 in, a horticultural supplier's specification, volumes there in in³ too.
    [(50, 5, 10, 6.77), (72, 6, 12, 3.60), (98, 7, 14, 2.26), (128, 8, 16, 1.53)],
)
def test_a_plug_sheet_has_the_published_layout_and_volume(cells, rows, columns, cubic_inches):
    found = containers.tray(str(cells))
    assert (found.rows, found.columns, found.cells) == (rows, columns, cells)
    assert found.cell_ml == pytest.approx(cubic_inches * LITRES_IN_CUBIC_INCH * 1000, abs=0.2)


@pytest.mark.parametrize(
    ("cells", "millilitres"),
    # Ontario Ministry of Agriculture, Food and Rural Affairs, Growing Vegetable Transplants in Plug Trays,
    # table 1.
    [(24, 171), (50, 66), (72, 43), (128, 23), (200, 11), (288, 7)],
)
def test_the_published_spread_of_a_count_holds_the_ontario_figure(cells, millilitres):
    found = containers.tray(cells)
    assert millilitres in found.published_ml
    assert min(found.published_ml) <= found.cell_ml <= max(found.published_ml)


def test_every_tray_has_as_many_cells_as_its_name_says_whatever_the_spelling():
    for cells in (24, 32, 50, 72, 98, 128, 200, 288):
        spellings = (cells, str(cells), f"{cells}-cell", f" {cells} Cells ")
        assert {containers.tray(name) for name in spellings} == {containers.tray(cells)}
        assert containers.tray(cells).rows * containers.tray(cells).columns == cells
        assert containers.tray(cells).rows <= containers.tray(cells).columns


@pytest.mark.parametrize(
    ("name", "low", "high"),
    # ANSI Z60.1 American Standard for Nursery Stock, container classes in in³ (from memory).
    [("#1", 152, 251), ("#2", 320, 474), ("#3", 628, 742), ("#5", 785, 1242), ("#7", 1337, 1790),
     ("#10", 2080, 2646), ("class 15", 2768, 3696)],
)  # fmt: skip
def test_a_class_lies_in_the_range_of_the_nursery_standard(name, low, high):
    assert containers.pot_range_litres(name) == pytest.approx(
        (low * LITRES_IN_CUBIC_INCH, high * LITRES_IN_CUBIC_INCH), rel=1e-9
    )
    assert containers.pot_litres(name) == pytest.approx((low + high) / 2 * LITRES_IN_CUBIC_INCH)


def test_a_three_gallon_pot_is_a_class_and_no_measure():
    # Extension texts: a "#1 gallon" need not hold a gallon of 231 in³.
    assert containers.pot_litres("3 gallon") == containers.pot_litres("#3") < 3 * 3.785
    assert containers.pot_litres("1-gal") < 3.785


def test_a_trade_gallon_is_three_us_quarts():
    # Encyclopedia articles on the trade gallon: 0.75 US gallon, 2.8 L.
    assert containers.pot_litres("trade gallon") == pytest.approx(2.8, abs=0.05)


@pytest.mark.parametrize(
    ("name", "litres"),
    # Catalogue volumes of round nursery pots: common practice, no source.
    [("9 cm", 0.36), ("10 cm", 0.5), ("13 cm", 1.0), ("15 cm", 1.5), ("4 in", 0.5), ("9 cm square", 0.5)],
)
def test_a_pot_named_by_its_width_holds_about_what_such_pots_hold(name, litres):
    low, high = containers.pot_range_litres(name)
    assert low < litres < high
    assert containers.pot_litres(name) == pytest.approx((low + high) / 2)


def test_the_volume_by_width_is_the_integral_of_the_cut_cone():
    # Solid of revolution, numerically: radius from 0.35 to 0.5 of the width over a height of 0.85 of it.
    width, height = 9.0, 0.85 * 9.0
    volume, _ = quad(lambda z: math.pi * (width * (0.35 + 0.15 * z / height)) ** 2, 0, height)
    assert containers.pot_litres("9 cm") == pytest.approx(volume / 1000)
    assert containers.pot_litres("9 cm square") == pytest.approx(volume / 1000 * 4 / math.pi)


def test_widths_in_inches_and_centimetres_agree():
    for inches in ("3.5 in", '3.5"', "3.5-inch", "3.5 in round", "88.9 mm"):
        assert containers.pot_litres(inches) == pytest.approx(containers.pot_litres("8.89 cm"))


def test_a_volume_is_taken_at_its_word():
    for name in ("2 L", "2 litre", "2000 ml", "2-Liter"):
        assert containers.pot_litres(name) == 2.0


@pytest.mark.parametrize(
    ("holders", "litres"),
    # Volume times cells for the published sheets: 50 x 110.9 mL, 72 x 58.85 mL, 128 x 25.14 mL.
    [
        (["50"], 5.545),
        ([("72-cell", 1)], 4.237),
        ([128], 3.218),
        ([containers.Tray(6, 12, 45.0)], 3.24),
        ([containers.Tray(6, 12, 43.0)], 3.096),
        ([("50", 2), ("2 L", 3), (containers.Tray(1, 4, 250.0), 1)], 18.09),
        ([], 0.0),
        ([("32", 0)], None),
    ],
)
def test_mix_is_volume_times_cells(holders, litres):
    assert containers.mix_litres(holders) == (None if litres is None else pytest.approx(litres, abs=5e-4))


def test_mix_for_a_tray_of_unknown_volume_is_not_known():
    assert containers.tray("32").cell_ml is None
    assert containers.tray("32").litres is None
    assert containers.mix_litres(["50", "32"]) is None


@given(st.lists(st.tuples(trays, st.integers(0, 9)), max_size=6), st.floats(0, 1))
def test_mix_adds_up_in_any_order_and_settling_only_adds(holders, settling):
    plain = containers.mix_litres(holders)
    assert containers.mix_litres(holders[::-1]) == pytest.approx(plain)
    assert plain == pytest.approx(sum(containers.mix_litres([each]) for each in holders))
    assert containers.mix_litres(holders, settling) == pytest.approx(plain * (1 + settling))


@given(st.floats(4, 60), st.floats(0.1, 20))
def test_a_wider_pot_holds_more(width, wider):
    small, large = f"{width:.3f} cm", f"{width + wider:.3f} cm"
    assert containers.pot_litres(small) < containers.pot_litres(large)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (
            lambda: containers.tray("73"),
            "tray name is '73'; it must be one of: 24, 32, 50, 72, 98, 128, 200, 288",
        ),
        (lambda: containers.tray("9 cm"), "tray name is '9 cm'"),
        (lambda: containers.tray(None), "tray name is None"),
        (lambda: containers.pot_litres("bucket"), "pot name is 'bucket'; it must be a class"),
        (lambda: containers.pot_litres("#4"), "pot name is '#4'"),
        (lambda: containers.pot_litres("0 cm"), "pot name is '0 cm'"),
        (lambda: containers.pot_litres("900 cm"), "pot name is '900 cm'"),
        (lambda: containers.pot_litres("0 L"), "pot name is '0 L'"),
        (lambda: containers.mix_litres("72"), "holders is '72'; it must be a list"),
        (lambda: containers.mix_litres([("72", 1.5)]), "number of holders is 1.5; it must be a whole number"),
        (lambda: containers.mix_litres(["51"]), "tray name is '51'"),
        (lambda: containers.mix_litres(["72"], settling=20), "settling is 20"),
        (lambda: containers.Tray(0, 5), "rows is 0; it must be a number, at least 1"),
        (lambda: containers.Tray(5, 2.5), "columns is 2.5"),
        (lambda: containers.Tray(5, 5, -1.0), "cell_ml is -1; it must be a number, above 0"),
    ],
)
def test_a_bad_value_is_named_with_what_is_allowed(call, words):
    with pytest.raises(ValueError, match=words):
        call()
