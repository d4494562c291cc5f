"""Taking trays and racks into use on the Sow page."""

from datetime import date

import pytest
from PySide6.QtCore import QDate, QPoint, Qt
from PySide6.QtTest import QTest

from greenroom.desk.sow.tray_words import POTS, pot_words, sold_words
from greenroom.season.deeds_shelf import set_units
from tests.desk.grow_hands import LEFT, NO_SCREEN
from tests.desk.sow_hands import open_page

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN)

K = Qt.Key


@pytest.fixture
def page(qtbot, bench):
    """The page before any tray is in use: the form for a new one is open."""
    return open_page(qtbot, bench)


@pytest.fixture
def form(page):
    return page.new


def press(button):
    QTest.mouseClick(button, LEFT)


def choose_form(form, named):
    one = next(one for one in form.forms.buttons() if one.objectName() == named)
    QTest.mouseClick(one, LEFT, pos=QPoint(8, one.height() // 2))


def made(keeper):
    return keeper.season.holders()[-1]


@pytest.mark.parametrize(
    ("count", "rows", "columns"),
    [(32, 4, 8), (50, 5, 10), (72, 6, 12), (128, 8, 16), (200, 10, 20), (288, 12, 24)],
)
def test_a_tray_of_each_usual_count_is_made_with_two_clicks(page, form, keeper, count, rows, columns):
    """Layouts of 50, 72, 128 and 200: a supplier's plug sheets; of 32 and 288: common practice, no source."""
    press(form.sizes.buttons[count])
    press(form.make)
    tray = made(keeper)
    assert (tray.form, tray.rows, tray.columns) == ("tray", rows, columns)
    assert tray.name == "Tray A"


@pytest.mark.parametrize(
    ("count", "cell_ml"), [(50, 110.9), (72, 58.9), (128, 25.1), (200, 11.0), (288, 7.0), (32, None)]
)
def test_the_volume_of_a_cell_is_proposed_and_can_be_changed(page, form, keeper, count, cell_ml):
    """Plug sheets of a horticultural supplier; 200 and 288: Ontario's guide, table 1; a 32: none."""
    press(form.sizes.buttons[count])
    press(form.make)
    assert made(keeper).cell_ml == cell_ml
    page._open_new()
    press(form.sizes.buttons[count])
    form.cell.setValue(43)
    press(form.make)
    assert made(keeper).cell_ml == 43.0


def test_trays_of_one_count_are_said_to_differ(form):
    """A 72 of 43 mL and of 58.85 mL: Ontario's guide, table 1, and a supplier's specification."""
    press(form.sizes.buttons[72])
    assert "43 mL to 59 mL" in form.note.text()
    press(form.sizes.buttons[32])
    assert "not known here" in form.note.text()


def test_any_rows_and_columns_make_a_tray(page, form, keeper):
    form.rows.setValue(7)
    form.columns.setValue(9)
    form.cell.setValue(form.cell.minimum())
    assert not any(one.isChecked() for one in form.sizes.buttons.values())
    press(form.make)
    assert (made(keeper).rows, made(keeper).columns, made(keeper).cell_ml) == (7, 9, None)


def test_rows_and_columns_of_a_usual_tray_press_its_button(form):
    form.rows.setValue(8)
    form.columns.setValue(16)
    assert form.sizes.buttons[128].isChecked()


def test_name_place_and_warmth_of_the_mix_are_kept(page, form, keeper):
    QTest.keyClicks(form.name, "Mat tray")
    QTest.keyClicks(form.place, "heat mat")
    form.mix.setValue(27.5)
    press(form.make)
    tray = made(keeper)
    assert (tray.name, tray.place, tray.mix_c) == ("Mat tray", "heat mat", 27.5)
    assert page.view.holder.name == "Mat tray"
    assert page.card.isVisible()
    assert page.view.hasFocus()


def test_a_warmth_that_was_not_given_is_not_known(form, keeper):
    press(form.make)
    assert made(keeper).mix_c is None


def test_in_fahrenheit_and_ounces_the_same_tray_is_kept_in_celsius_and_millilitres(page, keeper):
    """80 °F is 26.67 °C; 2 US fl oz are 59.15 mL: NIST SP 811 and Handbook 44."""
    keeper.do(lambda: set_units("f", "floz", keeper.today))
    page._open_new()
    assert "fl oz" in page.new.note.text()
    page.new.mix.setValue(80)
    page.new.cell.setValue(2)
    press(page.new.make)
    assert made(keeper).mix_c == pytest.approx(26.67, abs=0.005)
    assert made(keeper).cell_ml == pytest.approx(59.15, abs=0.005)


def test_a_rack_of_pots_takes_its_volume_from_the_pots_name(form, keeper):
    """2 L is 2,000 mL."""
    choose_form(form, "rack")
    QTest.keyClicks(form.pot, "2 L")
    press(form.make)
    rack = made(keeper)
    assert (rack.form, rack.name, rack.rows, rack.columns) == ("rack", "Rack 1", 3, 6)
    assert (rack.size, rack.cell_ml) == ("2 L", 2000.0)


def test_a_pot_of_no_known_name_gets_one_sentence_and_makes_nothing(form, keeper, bench):
    choose_form(form, "rack")
    QTest.keyClicks(form.pot, "bucket")
    assert "9 cm" in form.note.text()
    press(form.make)
    assert "bucket" in bench.said[0]
    assert bench.said[0].endswith(".")
    assert keeper.season.holders() == []


def test_a_name_in_use_is_refused_and_the_form_stays_open(page, form, keeper, bench):
    press(form.make)
    page._open_new()
    QTest.keyClicks(form.name, "tray a")
    press(form.make)
    assert bench.said == ["Tray a is in use already; choose another name."]
    assert form.isVisible()
    assert len(keeper.season.holders()) == 1


def test_the_next_free_name_is_proposed(page, form):
    assert form.name.placeholderText() == "Tray A"
    press(form.make)
    page._open_new()
    assert form.name.placeholderText() == "Tray B"
    choose_form(form, "rack")
    assert form.name.placeholderText() == "Rack 1"


def test_the_mix_it_takes_is_told_with_its_reason(form, bench):
    """72 cells of 43 mL: 72 x 43 = 3,096 mL."""
    form.cell.setValue(43)
    assert form.needs.text() == "Takes 3.1 L of mix."
    press(form.why)
    assert bench.explained[-1].figure == "Takes 3.1 L of mix."
    assert ("cells", "6 × 12 = 72") in bench.explained[-1].inputs


def test_a_tray_may_be_taken_into_use_on_an_earlier_day_of_sowing(page, form, keeper):
    page.card.day_edit.setDate(QDate(2027, 3, 1))
    press(form.make)
    assert made(keeper).made_on == date(2027, 3, 1)


def test_a_tray_is_undone_like_anything_else(page, form, keeper):
    press(form.make)
    keeper.undo()
    assert keeper.season.holders() == []
    assert page.new.isVisible()


def test_enter_makes_it_and_escape_closes_the_form(page, form, keeper):
    form.name.setFocus()
    QTest.keyClick(form.name, K.Key_Return)
    assert len(keeper.season.holders()) == 1
    press(page.open.new)
    QTest.keyClick(form.name, K.Key_Escape)
    assert not form.isVisible()
    assert len(keeper.season.holders()) == 1


def test_every_field_has_a_name_for_a_screen_reader(form):
    fields = (form.rows, form.columns, form.cell, form.pot, form.name, form.place, form.mix)
    assert all(field.accessibleName() for field in fields)
    assert all(one.accessibleName() for one in form.sizes.buttons.values())


@pytest.mark.parametrize("size", POTS)
def test_each_pot_that_is_offered_is_one_whose_volume_is_known(size):
    assert "hold" in pot_words(size, "ml")


@pytest.mark.parametrize(
    ("count", "words"), [(50, "66 mL to 111 mL"), (128, "23 mL to 25 mL"), (200, "cells of 11 mL and others")]
)
def test_published_volumes_are_given_whole(count, words):
    """Ontario's guide, table 1, and a supplier's specification, as in the containers' own table."""
    assert words in sold_words(count, "ml")
