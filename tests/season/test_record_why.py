"""What stands behind the figures of the record's page, against pandas on 37 years of one place."""

from datetime import date, timedelta

import numpy as np
import pandas as pd
import pytest

from greenroom.ledger.facts import WeatherDay
from greenroom.season.record_page import record_page
from greenroom.season.record_why import (
    days_ahead_of_usual,
    frost_free,
    frosts_why,
    heat_why,
    last_known,
    length_why,
    warm_why,
)
from greenroom.season.wants import rules_of
from tests.season.plan_ground import SOUTH, champion, champion_days, ground, turned


@pytest.fixture(scope="module")
def told():
    return ground(days=champion_days())


@pytest.fixture(scope="module")
def page(told):
    return record_page(told.season, 2018)


def fahrenheit(celsius):
    return f"{celsius * 1.8 + 32:.0f} °F"


def frosts():
    """Last frost before July and first from July on, year by year, by pandas."""
    table = champion()
    cold = table[table["tmin"] <= 0]
    halves = {True: "last", False: "first"}
    spring = (cold["date"].dt.month <= 6).map(halves)
    by_year = cold.groupby([cold["date"].dt.year, spring])["date"]
    return pd.DataFrame({"last": by_year.max().unstack()["last"], "first": by_year.min().unstack()["first"]})


def test_days_without_frost_are_those_between_the_two_frosts(page):
    """Neither frost is counted: from 3 to 7 May lie three days."""
    between = (frosts()["first"] - frosts()["last"]).dt.days - 1
    free = frost_free(page)
    assert free.by_year == between.to_dict()
    assert (free.least, free.usual, free.most) == tuple(
        round(np.quantile(between, share)) for share in (0.1, 0.5, 0.9)
    )


def test_a_year_with_only_one_frost_has_no_length():
    days = [
        WeatherDay(date(2020, 1, 1) + timedelta(days=n), -1.0 if n < 40 else 8.0, 20.0) for n in range(366)
    ]
    page = record_page(ground(days=tuple(days)).season, 2020)
    assert page.last_frost.by_year[2020] == date(2020, 2, 9)
    assert frost_free(page) is None
    assert length_why(page) is None


def test_a_southern_season_without_frost_runs_over_new_year():
    page = record_page(ground(days=turned(champion_days()), place=SOUTH).season, 2018)
    north = frost_free(record_page(ground(days=champion_days()).season, 2018))
    south = frost_free(page)
    assert abs(south.usual - north.usual) <= 1
    assert page.last_frost.by_year[2000].year == 2000
    assert page.first_frost.by_year[2000].year == 2001


def test_the_frosts_give_their_threshold_in_the_readers_own_unit(page):
    why = frosts_why(page, fahrenheit)
    assert "32 °F" in why.rule
    inputs = dict(why.inputs)
    assert inputs["last frost of spring, years"] == "37"
    assert inputs["last frost of spring, 10, 50, 90 %"] == "27 April, 10 May, 26 May"
    ends = frosts()["last"]
    ordered = sorted(ends, key=lambda stamp: stamp.dayofyear)
    assert inputs["last frost of spring, earliest and latest"].startswith(str(ordered[0].day))
    assert inputs["last frost of spring, earliest and latest"].endswith(str(ordered[-1].year))
    assert why.figure == "Frost until about 10 May, again from 28 September"


def test_a_record_without_frost_still_has_an_answer():
    days = [WeatherDay(date(2020, 1, 1) + timedelta(days=n), 12.0, 20.0) for n in range(366)]
    page = record_page(ground(days=tuple(days)).season, 2020)
    assert frosts_why(page).figure == "Frosts of the record"
    assert dict(frosts_why(page).inputs)["last frost of spring, years"] == "0"


def test_the_length_tells_its_shortest_and_longest_year(page):
    between = (frosts()["first"] - frosts()["last"]).dt.days - 1
    inputs = dict(length_why(page).inputs)
    assert inputs["shortest"] == f"{between.min()} days, {between.idxmin()}"
    assert inputs["longest"] == f"{between.max()} days, {between.idxmax()}"


def test_warm_nights_tell_the_rules_they_go_by(told, page):
    why = warm_why(page, rules_of(told.season), fahrenheit)
    assert dict(why.inputs)["nights at or above"] == "50 °F"
    assert "first 7 running" in why.rule


def test_heat_tells_its_bounds_and_how_many_years_it_is_set_against(page):
    inputs = dict(heat_why(page).inputs)
    assert (inputs["counted above"], inputs["and up to"]) == ("10 °C", "30 °C")
    assert inputs["years compared"] == "36 years"


@pytest.mark.parametrize("shift", [-6, 0, 9])
def test_a_year_like_the_usual_but_shifted_is_so_many_days_ahead(shift):
    """Every past year alike, and this one's weather ``shift`` days early: by that much it is ahead."""
    summer = np.clip(18 * np.sin((np.arange(366) - 80) / 366 * 2 * np.pi), 0, None)

    def year_of(first, early, count):
        return [
            WeatherDay(first + timedelta(days=n), 2 + float(summer[n + early]), 10 + float(summer[n + early]))
            for n in range(count)
        ]

    days = [day for year in (2017, 2018, 2019) for day in year_of(date(year, 1, 1), 0, 365)]
    days += year_of(date(2020, 1, 1), shift, 170) if shift >= 0 else year_of(date(2020, 1, 1), 0, 170)
    if shift < 0:
        late = [days[-170]._replace(day=date(2020, 1, 1) + timedelta(days=n)) for n in range(-shift)]
        rest = year_of(date(2020, 1, 1) - timedelta(days=shift), 0, 170 + shift)
        days = days[:-170] + late + rest
    heat = record_page(ground(days=tuple(days)).season, 2020).heat
    assert last_known(heat) == 169
    assert abs(days_ahead_of_usual(heat) - shift) <= 1


def test_without_a_past_year_nothing_is_ahead_or_behind():
    days = [WeatherDay(date(2020, 1, 1) + timedelta(days=n), 8.0, 22.0) for n in range(100)]
    heat = record_page(ground(days=tuple(days)).season, 2020).heat
    assert days_ahead_of_usual(heat) is None
    later = record_page(ground(days=tuple(days)).season, 2021).heat
    assert last_known(later) is None
