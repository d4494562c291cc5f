"""Laws of cold nights, warm runs, quantiles and heat that hold for any record."""

import datetime as dt

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from greenroom.agronomy.climate import (
    DailyWeather,
    date_quantile,
    degree_days,
    first_cold_night,
    first_warm_run,
    last_cold_night,
)
from tests.agronomy._invented_records import gapped, northern, seasons, southern

celsius = st.floats(-40, 50)
NORTH_HALF_DAYS = 181
"""1 January to 30 June; the southern first half, 1 July to 31 December, has 184."""


@st.composite
def records(draw):
    tmin, tmax = draw(seasons(most=3))
    missing = draw(gapped(tmin.shape))
    return northern(np.where(missing, np.nan, tmin), tmax)


def night(weather, date):
    return weather.tmin[np.searchsorted(weather.dates, np.datetime64(date))]


@given(records(), st.floats(-10, 15))
def test_the_cold_nights_found_are_cold_and_nothing_colder_lies_nearer_summer(weather, threshold):
    months = weather.dates.astype("datetime64[M]").astype(int) % 12
    for function, in_half, beyond in [
        (last_cold_night, months < 6, np.greater),
        (first_cold_night, months >= 6, np.less),
    ]:
        for year, date in function(weather, threshold).items():
            if date is None:
                continue
            assert date.year == year
            assert night(weather, date) <= threshold
            same_year = weather.dates.astype("datetime64[Y]").astype(int) + 1970 == year
            nearer_summer = same_year & in_half & beyond(weather.dates, np.datetime64(date))
            assert not (weather.tmin[nearer_summer] <= threshold).any()


@given(records(), st.floats(-10, 15), st.floats(0, 10))
def test_a_milder_threshold_never_lengthens_the_season(weather, threshold, milder):
    for function, later in [(last_cold_night, True), (first_cold_night, False)]:
        strict, mild = function(weather, threshold), function(weather, threshold + milder)
        for year, date in strict.items():
            if date is not None:
                assert mild[year] is not None
                assert (mild[year] >= date) if later else (mild[year] <= date)


@given(records(), st.floats(0, 15), st.integers(1, 14))
def test_a_warm_run_is_warm_unbroken_and_the_first(weather, threshold, run):
    for date in first_warm_run(weather, threshold, run).values():
        if date is None:
            continue
        start = np.searchsorted(weather.dates, np.datetime64(date))
        assert (weather.tmin[start : start + run] >= threshold).all()
        from_new_year = weather.tmin[weather.dates >= np.datetime64(f"{date.year}-01-01")]
        before = (date - dt.date(date.year, 1, 1)).days
        assert not any((from_new_year[day : day + run] >= threshold).all() for day in range(before))


@given(seasons(), st.floats(0, 15), st.integers(1, 14), st.floats(0, 5), st.integers(0, 7))
def test_asking_for_more_warmth_never_brings_the_run_forward(record, threshold, run, warmer, longer):
    weather = northern(*record)
    asked = first_warm_run(weather, threshold, run)
    for more in (
        first_warm_run(weather, threshold + warmer, run),
        first_warm_run(weather, threshold, run + longer),
    ):
        for year, date in more.items():
            assert date is None or asked[year] <= date


@given(seasons(), st.floats(0, 15), st.integers(1, 14))
def test_mirrored_hemispheres_have_the_same_warm_runs(record, threshold, run):
    north = first_warm_run(northern(*record), threshold, run)
    south = first_warm_run(southern(*record), threshold, run, southern=True)
    for year, date in north.items():
        day = None if date is None else (date - dt.date(year, 1, 1)).days
        assert (south[year] and (south[year] - dt.date(year, 7, 1)).days) == day


@given(seasons(), st.floats(-10, 5))
def test_mirrored_hemispheres_have_the_same_cold_nights_away_from_midsummer(record, threshold):
    tmin, tmax = record
    tmin, tmax = tmin.copy(), tmax.copy()
    tmin[:, NORTH_HALF_DAYS - 1 : 185] = 20.0  # the halves are parted some days apart: no cold between
    tmax[:, NORTH_HALF_DAYS - 1 : 185] = 30.0
    for function in (last_cold_night, first_cold_night):
        north = function(northern(tmin, tmax), threshold)
        south = function(southern(tmin, tmax), threshold, southern=True)
        for year, date in north.items():
            day = None if date is None else (date - dt.date(year, 1, 1)).days
            assert (south[year] and (south[year] - dt.date(year, 7, 1)).days) == day


@given(records(), st.floats(-5, 10))
def test_what_is_left_out_and_what_is_not_known_are_the_same(weather, threshold):
    known = ~np.isnan(weather.tmin)
    thinned = DailyWeather(weather.dates[known], weather.tmin[known], weather.tmax[known])
    for function in (last_cold_night, first_cold_night, first_warm_run):
        whole = function(weather, threshold)
        for year, date in function(thinned, threshold).items():
            assert whole[year] == date


@given(
    st.lists(st.dates(dt.date(1950, 1, 1), dt.date(2050, 12, 31)), min_size=1),
    st.floats(0, 1),
    st.floats(0, 1),
)
def test_quantiles_stay_among_the_days_and_rise_with_the_share(dates, one, other):
    less, more = sorted([one, other])
    days = [date.timetuple().tm_yday for date in dates]
    low, high = date_quantile(dates, [less, more])
    assert min(days) <= low <= high <= max(days)


@given(celsius, celsius, st.floats(0, 18), st.floats(1, 25))
def test_heat_is_never_negative_and_never_above_the_capped_range(one, other, base, width):
    tmin, tmax = sorted([one, other])
    heat = degree_days(tmin, tmax, base, base + width, "clamp")
    assert 0 <= heat <= width + 1e-9
    assert degree_days(tmin, tmax, base) >= 0


@given(celsius, celsius, st.floats(0, 18), st.floats(0, 10))
def test_a_warmer_day_never_gathers_less(one, other, base, warmer):
    tmin, tmax = sorted([one, other])
    for limits in [(base,), (base, base + 20, "clamp"), (base, None, "clamp")]:
        assert degree_days(tmin + warmer, tmax + warmer, *limits) >= degree_days(tmin, tmax, *limits) - 1e-9


@given(celsius, celsius, st.floats(0, 18))
def test_clamping_from_below_alone_never_gathers_less_than_the_mean(one, other, base):
    # McMaster & Wilhelm 1997: their second method exceeds the first on days that straddle the base.
    tmin, tmax = sorted([one, other])
    assert degree_days(tmin, tmax, base, None, "clamp") >= degree_days(tmin, tmax, base) - 1e-9


@given(st.floats(10, 20), st.floats(0, 10))
def test_between_base_and_cap_both_methods_agree(tmin, width):
    assert degree_days(tmin, tmin + width, 10, 30, "clamp") == degree_days(tmin, tmin + width, 10)
