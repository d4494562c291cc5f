"""The place's years, asked at the edges of a season."""

from datetime import date

import pytest

from greenroom.agronomy.ripening import Ripener, season_odds
from greenroom.season.plan import plan_of
from greenroom.season.replay import in_season, odds_of, replay_of, season_start, spread_of
from tests.season.plan_ground import BELL, TODAY, YEAR, champion_days, ground


@pytest.fixture(scope="module")
def replay():
    return replay_of(ground(days=champion_days()).season)


def test_seedlings_ready_before_the_season_wait_for_its_first_day(replay):
    quick = Ripener(900.0, 20)
    found = replay.seasons(quick, date(2026, 12, 1), YEAR)
    assert found == season_odds(replay.weather, 900.0, date(2027, 1, 1))


def test_seedlings_ready_after_the_season_never_go_out(replay):
    slow = Ripener(900.0, 250)
    assert replay.seasons(slow, date(2027, 5, 1), YEAR) is None
    odds, years = replay.odds([slow], [date(2027, 5, 1)], YEAR)
    assert (float(odds[0, 0]), len(years)) == (0.0, 37)


def test_a_question_asked_twice_is_answered_once(replay):
    need = Ripener(900.0, 60)
    assert replay.seasons(need, date(2027, 3, 1), YEAR) is replay.seasons(need, date(2027, 3, 1), YEAR)
    assert replay.warm_days(10.0, 7) is replay.warm_days(10.0, 7)


def test_days_of_the_year_fall_into_the_season_they_belong_to():
    assert in_season(1, 2027, southern=False) == date(2027, 1, 1)
    assert in_season(181, 2027, southern=True) == date(2028, 6, 29)  # 2028 is a leap year
    assert in_season(182, 2027, southern=True) == date(2027, 7, 1)
    assert (season_start(2027, southern=False), season_start(2027, southern=True)) == (
        date(2027, 1, 1),
        date(2027, 7, 1),
    )


def test_a_stage_that_never_came_has_no_spread():
    assert spread_of({2001: None, 2002: None}, YEAR, southern=False) is None
    one = spread_of([date(2001, 5, 4)], YEAR, southern=False)
    assert (one.early, one.usual, one.late, one.years) == (*([date(2027, 5, 4)] * 3), 1)


def test_odds_are_told_in_years():
    assert odds_of(21, 30).words == "21 of 30 years"
    assert odds_of(21, 30).share == 0.7


def test_there_is_nothing_to_replay_without_a_record():
    assert replay_of(ground(BELL).season) is None


def test_every_variety_that_has_odds_is_on_the_chart():
    plan = plan_of(ground(BELL, days=champion_days()).season, YEAR, TODAY)
    assert plan.chart.varieties == ("Brass Bell",)
    assert "Old Ember" not in plan.chart
    assert plan.row("Old Ember") is None
