"""Laws of the ripening odds that hold for any record, variety and sowing day."""

import datetime as dt
from dataclasses import replace

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from greenroom.agronomy.climate import degree_days
from greenroom.agronomy.ripening import Ripener, odds_by_sowing, season_odds, years_by_sowing
from tests.agronomy._invented_records import SEASON_DAYS, gapped, northern, seasons, southern

NEW_YEAR = dt.date(2023, 1, 1)
MIDWINTER_SOUTH = dt.date(2021, 7, 1)
MOST_YEARS = 12
COMMON_YEARS = 3
"""2021 to 2023: a day of the season has the same month and day in each."""

ripeners = st.builds(
    Ripener,
    heat_to_ripe=st.floats(300, 1500),
    days_to_ready=st.integers(0, 120),
    floor=st.floats(4, 14),
    run=st.integers(1, 10),
    killing=st.floats(-5, 4),
    base=st.floats(6, 14),
    cap=st.one_of(st.none(), st.floats(20, 32)),
)


@st.composite
def gappy_records(draw):
    tmin, tmax = draw(seasons(MOST_YEARS))
    missing = draw(gapped(tmin.shape))
    return northern(np.where(missing, np.nan, tmin), np.where(missing, np.nan, tmax))


def alone(weather, variety, ready, *, in_the_south=False):
    return season_odds(
        weather,
        variety.heat_to_ripe,
        ready=ready,
        floor=variety.floor,
        run=variety.run,
        killing=variety.killing,
        base=variety.base,
        cap=variety.cap,
        southern=in_the_south,
    )


def days_from(first, numbers):
    return [first + dt.timedelta(days=number) for number in numbers]


@given(gappy_records(), st.lists(ripeners, max_size=4), st.lists(st.integers(0, 330), max_size=8))
def test_odds_are_a_share_of_the_counted_years(weather, varieties, numbers):
    sowings = days_from(NEW_YEAR, numbers)
    chart = odds_by_sowing(weather, varieties, sowings)
    counted = years_by_sowing(weather, varieties, sowings)
    assert chart.shape == (len(varieties), len(numbers))
    if counted:
        ripened = chart * len(counted)
        assert ((chart >= 0) & (chart <= 1)).all()
        np.testing.assert_allclose(ripened, np.round(ripened), atol=1e-9)
    else:
        assert np.isnan(chart).all()


@given(gappy_records(), ripeners, st.lists(st.integers(-90, 364), min_size=2, max_size=20))
def test_a_late_sowing_never_has_better_odds(weather, variety, numbers):
    chart = odds_by_sowing(weather, [variety], days_from(NEW_YEAR, sorted(numbers)))[0]
    if years_by_sowing(weather, [variety], days_from(NEW_YEAR, numbers)):
        assert (np.diff(chart) <= 0).all()


@given(gappy_records(), ripeners, st.integers(0, 364))
def test_a_season_hangs_together(weather, variety, number):
    ready = NEW_YEAR + dt.timedelta(days=number)
    odds = alone(weather, variety, ready)
    assert odds.set_out.keys() == odds.ripe.keys() == odds.end.keys() == odds.heat.keys()
    for year in odds.years:
        set_out, ripe, end = odds.set_out[year], odds.ripe[year], odds.end[year]
        assert set_out is None or set_out >= ready.replace(year=year)
        assert end is None or end >= dt.date(year, 7, 1)
        if ripe is not None:
            assert set_out <= ripe
            assert end is None or ripe < end
    if odds.n:
        assert odds.odds == sum(ripe is not None for ripe in odds.ripe.values()) / odds.n
    else:
        assert odds.odds is None


@given(seasons(MOST_YEARS), ripeners, st.integers(0, 364))
def test_the_heat_from_set_out_to_ripe_is_the_need(record, variety, number):
    weather = northern(*record)
    heat = degree_days(weather.tmin, weather.tmax, variety.base, variety.cap, "clamp")
    odds = alone(weather, variety, NEW_YEAR + dt.timedelta(days=number))
    for year in odds.years:
        if odds.ripe[year] is None:
            continue
        span = (weather.dates >= np.datetime64(odds.set_out[year])) & (
            weather.dates <= np.datetime64(odds.ripe[year])
        )
        gathered = heat[span]
        assert gathered.sum() >= variety.heat_to_ripe - 1e-5
        assert gathered[:-1].sum() < variety.heat_to_ripe


@given(seasons(MOST_YEARS), ripeners, st.lists(st.integers(0, 364), min_size=1, max_size=5))
def test_a_chart_cell_is_the_odds_of_its_ready_day(record, variety, numbers):
    weather = northern(*record)
    at_once = replace(variety, days_to_ready=0)
    days = days_from(NEW_YEAR, numbers)
    chart = odds_by_sowing(weather, [at_once], days, season=NEW_YEAR.year)
    assert chart[0].tolist() == [alone(weather, at_once, day).odds for day in days]


@given(seasons(MOST_YEARS), ripeners, st.integers(0, 200), st.floats(0, 300), st.integers(0, 40))
def test_a_slower_or_hungrier_variety_never_has_better_odds(record, variety, number, hungrier, slower):
    weather, sowing = northern(*record), [NEW_YEAR + dt.timedelta(days=number)]
    others = [
        replace(variety, heat_to_ripe=variety.heat_to_ripe + hungrier),
        replace(variety, days_to_ready=variety.days_to_ready + slower),
        replace(variety, floor=variety.floor + hungrier / 100),
        replace(variety, run=variety.run + slower),
        replace(variety, killing=variety.killing + hungrier / 100),
    ]
    chart = odds_by_sowing(weather, [variety, *others], sowing, season=NEW_YEAR.year)[:, 0]
    assert (chart[1:] <= chart[0]).all()


@given(seasons(COMMON_YEARS), ripeners, st.integers(0, SEASON_DAYS - 150))
def test_mirrored_hemispheres_agree(record, variety, number):
    tmin, tmax = record
    tmin, tmax = tmin.copy(), tmax.copy()
    # The halves are parted on day 181 in the north and 184 in the south: no killing night between.
    tmin[:, 180:185] = np.maximum(tmin[:, 180:185], 5.0)
    tmax[:, 180:185] = np.maximum(tmax[:, 180:185], tmin[:, 180:185])
    # Up to day 215 a day of the season has one month and day in every year (29 February is day 243 there).
    north = alone(northern(tmin, tmax), variety, NEW_YEAR + dt.timedelta(days=number))
    south = alone(
        southern(tmin, tmax), variety, MIDWINTER_SOUTH + dt.timedelta(days=number), in_the_south=True
    )
    assert south.odds == north.odds
    assert south.years == north.years
    for year in north.years:
        for one, other in [(north.set_out, south.set_out), (north.ripe, south.ripe), (north.end, south.end)]:
            day = one[year] and (one[year] - dt.date(year, 1, 1)).days
            assert (other[year] and (other[year] - dt.date(year, 7, 1)).days) == day
