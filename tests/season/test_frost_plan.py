"""Without a weather record: days counted between two usual frosts, and no odds made up."""

from datetime import date, timedelta

import pytest

from greenroom.season.frost_plan import ONE_YEAR_IN_TEN_DAYS, frosts_of
from greenroom.season.plan import Basis, plan_of
from greenroom.season.plan_help import short_words, shortfall
from greenroom.season.plan_why import frosts_why, odds_why
from greenroom.season.wants import frost_dates
from tests.season.plan_ground import BELL, EMBER, SOUTH, TODAY, YEAR, Kind, champion, ground

FROSTS = (date(2020, 5, 10), date(2020, 9, 28))


@pytest.fixture
def told():
    return ground(BELL, EMBER, frosts=FROSTS)


def test_dates_are_counted_from_the_usual_frosts_by_hand(told):
    """Bell pepper, sown 1 April, 60 days to setting out: 31 May, after 10 May + 14 days. 88 days to ripe on
    27 August, 32 before 28 September. Two weeks after the last frost is common practice, no source."""
    plan = plan_of(told.season, YEAR, TODAY)
    row = plan.row("Brass Bell")
    assert (plan.basis, plan.chart, plan.years, row.sowing) == (Basis.FROSTS, None, 0, None)
    assert row.window.first == date(2027, 5, 24) - timedelta(days=67)
    assert row.window.last == date(2027, 5, 24) - timedelta(days=53)
    assert row.on == date(2027, 3, 25)
    found = row.frosts
    assert (found.ready, found.set_out) == (date(2027, 5, 24), date(2027, 5, 24))
    assert found.ripe == date(2027, 5, 24) + timedelta(days=88)
    assert found.spare_days == (date(2027, 9, 28) - found.ripe).days == 39
    assert (found.verdict, row.short) == ("in most years", False)
    assert row.latest == date(2027, 9, 28) - timedelta(days=14 + 88 + 60)


def test_what_cannot_ripen_by_the_calendar_is_said_plainly(told):
    """Superhot, 130 days from 24 May: 1 October, 3 days after the usual frost."""
    plan = plan_of(told.season, YEAR, TODAY)
    row = plan.row("Old Ember")
    assert (row.frosts.spare_days, row.frosts.verdict, row.short) == (-3, "not in a usual year", True)
    assert row.latest is None
    assert short_words(plan, row) == (
        "Old Ember would ripen 3 days after the usual first frost, counted by the calendar."
    )
    assert shortfall(told.season, plan, row, TODAY) is None
    assert short_words(plan, plan.row("Brass Bell")) == ""


def test_a_fruit_that_comes_close_to_the_frost_comes_in_a_good_year():
    told = ground(Kind("Close Call", "bell", 120), frosts=FROSTS)
    (row,) = plan_of(told.season, YEAR, TODAY).rows
    assert (row.frosts.spare_days, row.frosts.verdict) == (7, "in a good year")


def test_it_is_said_how_much_less_is_known(told):
    (said,) = plan_of(told.season, YEAR, TODAY).missing
    assert "two usual frosts alone" in said
    assert "no odds" in said
    row = plan_of(told.season, YEAR, TODAY).row("Brass Bell")
    why = frosts_why(told.season, row)
    assert why.figure == "Ripe 20 August, in most years"
    assert dict(why.inputs)["days to spare"] == "39"
    assert "a weather record would tell" in why.rule
    assert odds_why(told.season, plan_of(told.season, YEAR, TODAY), row) is None


def test_without_either_it_is_said_what_is_missing():
    plan = plan_of(ground(BELL).season, YEAR, TODAY)
    (row,) = plan.rows
    assert plan.basis is Basis.NOTHING
    assert (row.window, row.sowing, row.frosts, row.latest) == (None, None, None, None)
    assert "bring a record in, or give your usual last and first frost" in plan.missing[0]
    assert frosts_why(ground(BELL).season, row) is None


def test_hardy_crops_go_out_before_the_last_frost():
    told = ground(Kind("Leek", "leek", 100), Kind("Celery", "celery", 90), BELL, frosts=FROSTS)
    rows = plan_of(told.season, YEAR, TODAY).rows
    days = [(row.frosts.set_out - date(2027, 5, 10)).days for row in rows]
    assert days == [-21, 0, 14]


def test_the_south_has_its_frosts_on_both_sides_of_new_year():
    told = ground(BELL, frosts=(date(2019, 10, 20), date(2020, 4, 15)), place=SOUTH)
    plan = plan_of(told.season, YEAR, date(2027, 6, 20))
    (row,) = plan.rows
    assert row.frosts.set_out == date(2027, 11, 3)
    assert row.frosts.end == date(2028, 4, 15)
    assert row.window.first.month == 8


def test_the_29th_of_february_is_the_28th_in_other_years():
    given = ground(frosts=(date(2024, 2, 29), date(2024, 11, 5))).season
    assert frosts_of(frost_dates(given), 2027).first == date(2027, 2, 28)


def test_two_weeks_are_about_what_a_bad_year_takes():
    """One real place, 1982 to 2018, by pandas: the frost of one year in ten against the median."""
    autumn = champion()[(champion()["tmin"] <= 0) & (champion()["date"].dt.month >= 7)]
    first = autumn.groupby(autumn["date"].dt.year)["date"].min().dt.dayofyear
    assert first.median() - first.quantile(0.1) == pytest.approx(ONE_YEAR_IN_TEN_DAYS, abs=4)
    spring = champion()[(champion()["tmin"] <= 0) & (champion()["date"].dt.month <= 6)]
    last = spring.groupby(spring["date"].dt.year)["date"].max().dt.dayofyear
    assert last.quantile(0.9) - last.median() == pytest.approx(ONE_YEAR_IN_TEN_DAYS, abs=4)
