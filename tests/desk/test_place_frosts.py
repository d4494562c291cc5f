"""Without a record: the usual frosts, told by the grower, and how much less is known with them."""

from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from greenroom.desk.place.frost_card import BESIDE, LESS
from greenroom.ledger.facts import FrostDatesGiven, PlaceSet, WeatherDay
from greenroom.season.deeds_shelf import add_weather, set_place, set_units
from tests.desk.conftest import TODAY
from tests.desk.place_hands import NO_SCREEN, click, open_page

pytestmark = pytest.mark.qt_log_ignore(NO_SCREEN)


@pytest.fixture
def card(qtbot, bench):
    return open_page(qtbot, bench).where.frosts


def write(field, day, month):
    """Type a day into its field: the number, Tab, and the first letters of the month."""
    field.day.setFocus()
    field.day.selectAll()
    QTest.keyClicks(field.day, str(day))
    QTest.keyClick(field.day, Qt.Key.Key_Tab)
    QTest.keyClicks(field.month, month)


def given(keeper):
    fact = keeper.season.latest(FrostDatesGiven)
    return fact and ((fact.last.day, fact.last.month), (fact.first.day, fact.first.month))


def test_nothing_is_given_until_the_grower_says_so(card, keeper):
    assert card.state.text().startswith("Not given yet")
    assert given(keeper) is None
    assert not card.strike.isVisible()


def test_two_days_typed_are_kept_and_undone(card, keeper):
    write(card.last, 3, "June")
    write(card.first, 12, "September")
    click(card.keep)
    assert given(keeper) == ((3, 6), (12, 9))
    assert card.state.text() == "Given: last frost 3 June, first frost 12 September."
    keeper.undo()
    assert given(keeper) is None
    assert card.state.text().startswith("Not given yet")


def test_it_says_how_much_less_is_known_with_two_dates_alone(card, keeper):
    assert card.less.text() == LESS
    for lacking in ("no odds", "no nights warm enough", "no heat"):
        assert lacking in card.less.text()
    days = tuple(WeatherDay(date(2001, 1, 1) + timedelta(days=n), 1.0, 9.0) for n in range(30))
    keeper.do(lambda: add_weather("file.csv", "", days, TODAY))
    assert card.less.text() == BESIDE


def test_dates_that_leave_no_season_are_refused(card, keeper, bench):
    write(card.last, 20, "August")
    write(card.first, 1, "September")
    click(card.keep)
    assert given(keeper) is None
    assert bench.said == [
        "A last frost on 20 August and a first one on 1 September leave 12 days without frost; at least 30 "
        "are needed."
    ]


def test_given_dates_are_struck_out(card, keeper):
    click(card.keep)
    click(card.strike)
    assert given(keeper) is None
    assert card.keep.hasFocus()


def test_in_the_south_the_fields_start_from_southern_seasons(card, keeper):
    before = keeper.season.latest(PlaceSet)
    keeper.do(lambda: set_place("South", -40.4, 175.6, "Pacific/Auckland", TODAY, before=before))
    assert (card.last.month.currentText(), card.first.month.currentText()) == ("October", "April")
    click(card.keep)
    assert given(keeper) == ((15, 10), (15, 4))


def test_what_is_being_typed_stays_while_something_else_is_written(card, keeper):
    write(card.last, 3, "June")
    keeper.do(lambda: set_units("f", "ml", TODAY))
    assert card.last.in_year(2027) == date(2027, 6, 3)


def test_a_day_that_a_month_does_not_have_is_refused(card, keeper, bench):
    write(card.last, 31, "June")
    click(card.keep)
    assert given(keeper) is None
    assert bench.said == ["There is no 31 June; 1 to 30 is allowed."]


def test_the_29th_of_february_is_taken_for_the_28th_where_there_is_none(card, keeper):
    write(card.last, 29, "Feb")
    click(card.keep)
    assert given(keeper)[0] == (28, 2)


def test_both_fields_of_a_day_are_named(card):
    assert card.last.day.accessibleName() == "Usual last frost of spring: day"
    assert card.first.month.accessibleName() == "Usual first frost of autumn: month"
