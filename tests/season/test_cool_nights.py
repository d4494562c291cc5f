"""Cool nights are planned for peppers from the third leaf until hardening, evenly, and counted when given.

Expected: 'California Wonder', nights of 12 °C against 18 °C for 25 days from the third leaf (abstract;
authors Deli and Tiessen 1969 from memory); nights of 15 to 18 °C (FAO, crop information on pepper). Once
or twice a week is this program's own rule.
"""

from datetime import date, timedelta
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.season.cool_nights import cool_plan, cool_why, cool_words
from greenroom.season.deeds_care import cool_night
from greenroom.season.place import place_of
from tests.season._yard import TRAY, Yard

TODAY = date(2027, 4, 26)
THIRD_LEAF = date(2027, 4, 20)


def tray(leaves=4, crop="pepper", begun=None):
    yard = Yard(crop=crop, begun=begun)
    yard.plant(crop, 1, leaves, THIRD_LEAF)
    yard.plant(crop, 2, leaves, THIRD_LEAF)
    return yard


def gaps(days):
    return [(later - earlier).days for earlier, later in pairwise(days)]


def test_none_before_the_third_true_leaf():
    yard = tray(leaves=2)
    plan = cool_plan(yard.season, TRAY, TODAY)
    assert (plan.first, plan.coming) == (None, ())
    assert "third true leaf" in cool_words(plan, place_of(yard.season))


@pytest.mark.parametrize(("a_week", "spaces"), [(1, {7}), (2, {3, 4}), (3, {2, 3})])
def test_so_many_a_week_evenly_spaced(a_week, spaces):
    plan = cool_plan(tray().season, TRAY, TODAY, a_week=a_week)
    assert plan.first == THIRD_LEAF
    assert plan.coming[0] == TODAY
    assert set(gaps(plan.coming)) == spaces
    assert plan.coming[-1] <= TODAY + timedelta(days=21)
    assert len(plan.coming) in (3 * a_week, 3 * a_week + 1)


@pytest.mark.parametrize(("asked", "held"), [(0, 1), (9, 3)])
def test_never_less_than_once_nor_more_than_thrice_a_week(asked, held):
    assert cool_plan(tray().season, TRAY, TODAY, a_week=asked).a_week == held


def test_a_night_given_puts_the_next_a_fair_gap_later():
    yard = tray()
    yard.do(cool_night(yard.season, TRAY, TODAY, 16.5))  # the evening before
    assert cool_plan(yard.season, TRAY, TODAY).due == TODAY + timedelta(days=2)
    assert cool_plan(yard.season, TRAY, TODAY).counted == 1


@pytest.mark.parametrize(
    ("low", "counted"), [(12.0, 1), (17.0, 1), (18.0, 1), (11.9, 0), (5.0, 0), (19.0, 0)]
)
def test_only_nights_that_were_cool_and_not_too_cold_are_counted(low, counted):
    yard = tray()
    yard.do(cool_night(yard.season, TRAY, TODAY, low))
    assert cool_plan(yard.season, TRAY, TODAY).counted == counted


def test_they_end_when_hardening_begins_or_is_to_begin():
    began = TODAY + timedelta(days=5)
    going = tray(begun=began)
    plan = cool_plan(going.season, TRAY, TODAY)
    assert plan.until == began - timedelta(days=1)
    assert all(evening < began for evening in plan.coming)
    assert cool_plan(going.season, TRAY, began).due is None


@pytest.mark.parametrize("crop", ["cabbage", "tomato", "lettuce"])
def test_they_are_for_peppers_alone(crop):
    assert cool_plan(tray(crop=crop).season, TRAY, TODAY).coming == ()


def test_half_the_seedlings_must_have_their_third_leaf():
    yard = Yard(begun=None)
    for column, leaves in ((1, 4), (2, 2)):
        yard.plant("pepper", column, leaves, THIRD_LEAF)
    assert cool_plan(yard.season, TRAY, TODAY).first is None


def test_the_reason_is_honest_about_the_trial():
    yard = tray()
    yard.do(cool_night(yard.season, TRAY, TODAY, 16.5))
    why = cool_why(cool_plan(yard.season, TRAY, TODAY), place_of(yard.season))
    assert ("aimed at", "16 to 18 °C") in why.inputs
    assert "12 °C for 25 nights running" in why.rule
    assert "nobody has shown" in why.rule
    assert any("from memory" in source for source in why.sources)
    assert why.figure.startswith("1 cool night so far; the next on 28 April")


@given(st.lists(st.integers(0, 12), max_size=5, unique=True), st.integers(1, 3))
def test_the_next_evening_never_comes_before_today_nor_on_one_given(before, a_week):
    yard = tray()
    for number in before:
        yard.do(cool_night(yard.season, TRAY, TODAY - timedelta(days=number), 16.0))
    plan = cool_plan(yard.season, TRAY, TODAY, a_week=a_week)
    evenings = {night.day - timedelta(days=1) for night in plan.given}
    assert all(evening >= TODAY for evening in plan.coming)
    assert not evenings & set(plan.coming)
    assert list(plan.coming) == sorted(set(plan.coming))
