"""What a test at home says: its interval, how it compares with the law, and its counts day by day."""

from datetime import timedelta

import pytest
from statsmodels.stats.proportion import proportion_confint

from greenroom.ledger.facts import GerminationCount, GerminationTest
from greenroom.season import deeds_tests
from greenroom.season.crops import crop_of
from greenroom.season.home_test_why import (
    Beside,
    beside,
    home_test_why,
    law_words,
    range_of_test,
    state_words,
)
from greenroom.season.home_tests import HomeTest, home_test
from greenroom.season.proposal import RefusedError
from tests.season.plan_ground import TODAY, Kind, ground
from tests.season.told import the_guide

BELL = "p-Brass Bell"


def over(came, seeds):
    counts = ((TODAY + timedelta(days=14), came),)
    return HomeTest("t", BELL, seeds, TODAY, 27.0, counts, 14)


@pytest.mark.parametrize(("came", "seeds"), [(8, 10), (18, 20), (40, 50), (0, 10), (100, 100)])
def test_the_interval_is_that_of_clopper_and_pearson(came, seeds):
    """Against statsmodels, which works it out from the beta distribution by itself."""
    expected = proportion_confint(came, seeds, alpha=0.05, method="beta")
    assert range_of_test(over(came, seeds)) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("came", "seeds", "stands"),
    [(18, 20, Beside.ABOVE), (14, 20, Beside.ABOUT), (2, 20, Beside.BELOW), (8, 10, Beside.ABOUT)],
)
def test_a_test_stands_above_the_law_only_with_its_whole_interval(came, seeds, stands):
    """Pepper for sale: 55 % (7 CFR 201.31). 18 of 20 is 68 % at the least, 14 of 20 may be 46 %."""
    assert beside(over(came, seeds), 0.55) == stands


def test_the_law_is_named_in_the_words_and_is_silent_where_it_names_no_least():
    bell = crop_of(the_guide(), "bell")
    assert law_words(over(18, 20), bell) == "Surely above the 55 % that the seed law asks of seed for sale."
    assert "either side" in law_words(over(14, 20), bell)
    assert law_words(over(2, 20), bell).startswith("Surely below the 55 %")
    assert law_words(over(2, 20), None) == ""


def test_how_a_test_stands_is_said_while_it_runs_when_it_waits_and_when_it_is_over():
    running = HomeTest("t", BELL, 20, TODAY, None, ((TODAY + timedelta(days=6), 3),), 14)
    on = TODAY + timedelta(days=6)
    assert state_words(running, on) == "Day 6 of 14, 3 of 20 so far. Last count on 19 January."
    late = state_words(running, TODAY + timedelta(days=20))
    assert late == "3 of 20 so far. The last count was due on 19 January; enter it, even if it is 0."
    assert state_words(over(18, 20), on) == "18 of 20 germinated: 90 % (68 % to 99 %)."


def test_the_reasons_of_a_test_cite_the_interval_and_the_law():
    why = home_test_why(over(18, 20), crop_of(the_guide(), "bell"))
    assert why.figure == "18 of 20: 68 % to 99 %"
    assert dict(why.inputs)["least that may be sold without a warning"] == "55 %"
    assert any("Clopper" in source for source in why.sources)
    assert any("7 CFR part 201" in source for source in why.sources)


# counting a day anew


@pytest.fixture
def told():
    return ground(Kind("Brass Bell", "bell", seeds=30))


@pytest.fixture
def test(told):
    told.do(deeds_tests.begin_test(told.season, BELL, 20, TODAY, 27.0))
    return told.season.facts(GerminationTest)[0].test


def day(number):
    return TODAY + timedelta(days=number)


def test_a_day_counted_anew_takes_the_place_of_what_was_counted_on_it(told, test):
    told.do(deeds_tests.count_day(told.season, test, day(6), 3))
    told.do(deeds_tests.count_test(told.season, test, day(6), 1))
    told.do(deeds_tests.count_day(told.season, test, day(7), 5))
    told.do(deeds_tests.count_day(told.season, test, day(6), 2))
    assert home_test(told.season, test).counts == ((day(6), 2), (day(7), 5))


def test_a_day_looked_at_without_any_is_a_count_of_none_and_not_nothing(told, test):
    told.do(deeds_tests.count_day(told.season, test, day(14), 0))
    assert home_test(told.season, test).over
    told.do(deeds_tests.clear_day(told.season, test, day(14)))
    assert not home_test(told.season, test).over
    assert told.season.facts(GerminationCount) == []
    assert deeds_tests.clear_day(told.season, test, day(14)).empty


def test_the_same_count_again_writes_nothing(told, test):
    told.do(deeds_tests.count_day(told.season, test, day(6), 3))
    assert deeds_tests.count_day(told.season, test, day(6), 3).empty


@pytest.mark.parametrize("count", [-1, 18])
def test_more_than_are_left_cannot_be_counted_on_a_day(told, test, count):
    """Of 20 seeds 3 came on another day, so 17 may have come on this one."""
    told.do(deeds_tests.count_day(told.season, test, day(6), 3))
    told.do(deeds_tests.count_day(told.season, test, day(7), 5))
    with pytest.raises(RefusedError, match="17 are left for that day, so 0 to 17 is allowed"):
        deeds_tests.count_day(told.season, test, day(7), count)
    told.do(deeds_tests.count_day(told.season, test, day(7), 17))
    assert home_test(told.season, test).germinated == 20
