"""The record's page against pandas on 37 years of one place, and by hand on a few made days."""

from datetime import date, timedelta

import numpy as np
import pandas as pd
import pytest

from greenroom.ledger.facts import WeatherDay
from greenroom.season.record_page import record_page
from tests.season.plan_ground import (
    SOUTH,
    TODAY,
    champion,
    champion_days,
    day_of_year,
    ground,
    played,
    turned,
)


@pytest.fixture(scope="module")
def page():
    return record_page(ground(days=champion_days()).season, 2018)


def doys(spread):
    return tuple(day.timetuple().tm_yday for day in (spread.early, spread.usual, spread.late))


def quantiles(column):
    return tuple(day_of_year(column, share) for share in (0.1, 0.5, 0.9))


def test_the_years_covered_are_told_and_that_none_is_missing(page):
    assert page.years == (*page.heat.years, page.year) == tuple(range(1982, 2019))
    assert page.gaps == ()


def test_last_and_first_frost_of_each_year_agree_with_pandas(page):
    table = champion()
    cold = table[table["tmin"] <= 0]
    spring = cold[cold["date"].dt.month <= 6]
    last = spring.groupby(spring["date"].dt.year)["date"].max()
    assert page.last_frost.by_year == {year: day.date() for year, day in last.items()}
    assert doys(page.last_frost.spread) == quantiles(last)
    first = played(table, 1, (1, 1))["end"]
    assert page.first_frost.by_year == {year: day.date() for year, day in first.items()}
    assert doys(page.first_frost.spread) == quantiles(first)
    assert page.last_frost.years == 37


def test_warm_nights_come_as_pandas_finds_them(page):
    out = played(champion(), 1, (1, 1))["out"]
    assert page.warm_nights.by_year == {year: day.date() for year, day in out.items()}
    assert doys(page.warm_nights.spread) == quantiles(out)


def test_the_plans_rules_set_the_warm_and_the_killing_nights():
    told = ground(days=champion_days(), rules={"floor_c": 12.0, "run_nights": 5, "killing_c": -2.0})
    page = record_page(told.season, 2018)
    years = played(champion(), 1, (1, 1), floor=12.0, run=5, killing=-2.0)
    assert doys(page.warm_nights.spread) == quantiles(years["out"])
    assert doys(page.killing.spread) == quantiles(years["end"])
    assert doys(page.first_frost.spread) == quantiles(played(champion(), 1, (1, 1))["end"])


def test_heat_of_this_year_stands_against_that_of_the_past(page):
    """Degree days clamped to 10 and 30 °C (McMaster and Wilhelm 1997, method 2), summed by pandas."""
    table = champion().set_index("date")
    heat = (table["tmin"].clip(10, 30) + table["tmax"].clip(10, 30)) / 2 - 10
    by_year = heat.groupby(heat.index.year).cumsum()
    curves = page.heat
    assert curves.years == tuple(range(1982, 2018))
    assert curves.past.shape == (36, 366)
    assert curves.days[0] == date(2018, 1, 1)
    for year in (1982, 2012):
        mine = by_year[by_year.index.year == year].to_numpy()
        assert curves.past[curves.years.index(year), : mine.size] == pytest.approx(mine)
    assert curves.this_year[:365] == pytest.approx(by_year[by_year.index.year == 2018].to_numpy())
    july = pd.Series({year: by_year[pd.Timestamp(year, 1, 1) + timedelta(days=200)] for year in curves.years})
    assert curves.usual[200] == pytest.approx(july.median())
    assert (curves.low[200], curves.high[200]) == (
        pytest.approx(july.quantile(0.1)),
        pytest.approx(july.quantile(0.9)),
    )


def test_a_year_that_is_not_over_is_drawn_up_to_its_last_day():
    days = tuple(day for day in champion_days() if day.day < date(2018, 6, 1))
    page = record_page(ground(days=days).season, 2018)
    assert not np.isnan(page.heat.this_year[:151]).any()
    assert np.isnan(page.heat.this_year[151:]).all()
    assert 2018 not in page.first_frost.by_year
    assert page.first_frost.years == 36
    assert 2018 in page.last_frost.by_year or page.last_frost.years == 36
    later = record_page(ground(days=days).season, 2019)
    assert later.heat.this_year is None


def test_gaps_are_told_run_by_run():
    days = [WeatherDay(date(2020, 1, 1) + timedelta(days=n), 2.0, 9.0) for n in range(20)]
    del days[5:8]
    days[12] = days[12]._replace(tmax_c=None)
    page = record_page(ground(days=tuple(days)).season, 2020)
    assert [tuple(gap) for gap in page.gaps] == [
        (date(2020, 1, 6), date(2020, 1, 8)),
        (date(2020, 1, 16), date(2020, 1, 16)),
    ]
    assert page.heat.years == ()
    assert np.isnan(page.heat.usual).all()
    assert page.heat.past.shape == (0, 366)
    assert page.heat.this_year[19] == pytest.approx(0.0)


def test_a_place_in_the_south_starts_its_year_in_july():
    told = ground(days=turned(champion_days()), place=SOUTH)
    page = record_page(told.season, 2018)
    north = record_page(ground(days=champion_days()).season, 2018)
    assert page.heat.days[0] == date(2018, 7, 1)
    shift = (page.last_frost.spread.usual - north.last_frost.spread.usual).days
    assert abs(shift - 184) <= 3
    assert page.first_frost.spread.usual.year == 2019


def test_without_a_record_there_is_no_page():
    assert record_page(ground().season, TODAY.year) is None
