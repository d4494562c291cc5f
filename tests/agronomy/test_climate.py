"""A place's cold nights, warm runs and heat, against a real record worked a second way with pandas.

The record: Champion, Nebraska, daily 1982 to 2018, shipped with the open crop model AquaCrop-OSPy
(package aquacrop, data/champion_climate.txt).
"""

import datetime as dt

import numpy as np
import pandas as pd
import pytest

from greenroom.agronomy.climate import (
    DailyWeather,
    date_quantile,
    degree_days,
    first_cold_night,
    first_warm_run,
    last_cold_night,
)
from tests.agronomy._field_record import as_weather, field_record


@pytest.fixture(scope="module")
def champion():
    return field_record("champion")


@pytest.fixture(scope="module")
def champion_weather(champion):
    return as_weather(champion)


def year_of(tmin, year=2021, first="01-01"):
    """A record from `first` on, with tmax always 10 degrees above tmin."""
    tmin = np.asarray(tmin, dtype=float)
    dates = np.datetime64(f"{year}-{first}") + np.arange(tmin.size)
    return DailyWeather(dates, tmin, tmin + 10)


def as_dict(dates):
    return {int(year): None if pd.isna(date) else date.date() for year, date in dates.items()}


# --------------------------------------------------------------------- a real record, worked a second way


def test_last_and_first_freeze_of_a_real_record_agree_with_a_second_working(champion, champion_weather):
    freezing = champion[champion["tmin"] <= 0]
    spring = freezing[freezing["date"].dt.month < 7]["date"]
    autumn = freezing[freezing["date"].dt.month >= 7]["date"]
    assert last_cold_night(champion_weather) == as_dict(spring.groupby(spring.dt.year).max())
    assert first_cold_night(champion_weather) == as_dict(autumn.groupby(autumn.dt.year).min())


@pytest.mark.parametrize(("threshold", "run"), [(10.0, 7), (12.0, 3), (5.0, 14), (20.0, 30)])
def test_warm_runs_of_a_real_record_agree_with_a_second_working(champion, champion_weather, threshold, run):
    def first(year):
        nights = (year["tmin"] >= threshold).astype(int)
        full = nights.rolling(run).sum() == run
        return year["date"][full].min() - pd.Timedelta(days=run - 1)

    expected = {year: first(rows) for year, rows in champion.groupby(champion["date"].dt.year)}
    assert first_warm_run(champion_weather, threshold, run) == as_dict(pd.Series(expected))


def test_a_real_record_gives_the_printed_figures(champion_weather):
    # Worked independently beforehand from the same file, before these functions were written:
    # 10, 50 and 90 % day of the year, and the dates of 1982.
    for function, printed, in_1982 in [
        (last_cold_night, (116.6, 130.0, 145.8), dt.date(1982, 4, 30)),
        (first_cold_night, (260.4, 271.0, 282.4), dt.date(1982, 9, 21)),
        (first_warm_run, (141.2, 157.0, 171.4), dt.date(1982, 6, 21)),
    ]:
        found = function(champion_weather)
        assert len(found) == 37
        assert None not in found.values()
        assert found[1982] == in_1982
        np.testing.assert_array_equal(date_quantile(found, [0.1, 0.5, 0.9]), np.round(printed))


def test_the_heat_of_a_real_record_gives_the_printed_figures(champion):
    # Same independent working: °C·d above 10 from 1 May to 30 September, mean of 37 years, and 1982.
    season = champion[champion["date"].dt.month.between(5, 9)]
    for method, cap, mean, in_1982 in [("mean", None, 1502.34, 1294.91), ("clamp", 30, 1472.16, 1313.6)]:
        heat = pd.Series(degree_days(season["tmin"], season["tmax"], 10, cap, method), season.index)
        by_year = heat.groupby(season["date"].dt.year).sum()
        assert by_year.mean() == pytest.approx(mean, abs=0.005)
        assert by_year[1982] == pytest.approx(in_1982, abs=0.005)


def test_quantiles_agree_with_pandas_over_many_shares(champion_weather):
    found = last_cold_night(champion_weather, -2.0)
    days = pd.Series([date.timetuple().tm_yday for date in found.values()])
    shares = np.linspace(0, 1, 21)
    np.testing.assert_array_equal(date_quantile(found, shares), days.quantile(shares).round().astype(int))


# ------------------------------------------------------------------------------------------ cold nights


def test_a_night_at_the_threshold_counts():
    tmin = np.full(365, 5.0)
    tmin[[99, 249]] = 0.0  # 10 April and 7 September
    weather = year_of(tmin)
    assert last_cold_night(weather) == {2021: dt.date(2021, 4, 10)}
    assert first_cold_night(weather) == {2021: dt.date(2021, 9, 7)}
    assert last_cold_night(weather, -0.1) == {2021: None}


def test_midsummer_parts_the_halves_between_30_june_and_1_july():
    tmin = np.full(365, 5.0)
    tmin[[180, 181]] = -1.0  # 30 June and 1 July
    assert last_cold_night(year_of(tmin)) == {2021: dt.date(2021, 6, 30)}
    assert first_cold_night(year_of(tmin)) == {2021: dt.date(2021, 7, 1)}


def test_a_leap_day_is_a_night_like_any_other():
    tmin = np.full(366, 5.0)
    tmin[59] = -1.0
    assert last_cold_night(year_of(tmin, 2024)) == {2024: dt.date(2024, 2, 29)}


def test_southern_years_are_named_by_the_spring():
    # 1 July 2020 to 30 June 2021: last frost in October 2020, first in May 2021.
    tmin = np.full(365, 5.0)
    tmin[[0, 100, 310]] = -1.0
    weather = year_of(tmin, 2020, "07-01")
    assert last_cold_night(weather, southern=True) == {2020: dt.date(2020, 10, 9)}
    assert first_cold_night(weather, southern=True) == {2020: dt.date(2021, 5, 7)}


def test_new_year_parts_the_southern_halves():
    tmin = np.full(365, 5.0)
    tmin[[183, 184]] = -1.0  # 31 December and 1 January
    weather = year_of(tmin, 2020, "07-01")
    assert last_cold_night(weather, southern=True) == {2020: dt.date(2020, 12, 31)}
    assert first_cold_night(weather, southern=True) == {2020: dt.date(2021, 1, 1)}


def test_a_real_southern_record_has_its_frosts_in_the_southern_winter():
    # Cordoba, same package: the coldest nights fall in June to August.
    weather = as_weather(field_record("cordoba"))
    last = [night for night in last_cold_night(weather, 3.0, southern=True).values() if night]
    first = [night for night in first_cold_night(weather, 3.0, southern=True).values() if night]
    assert {night.month for night in last} <= {7, 8, 9, 10, 11}
    assert {night.month for night in first} <= {4, 5, 6}
    assert len(last) > 20
    assert len(first) > 20


# ----------------------------------------------------------------------------------------- missing days


def gaps(tmin, places):
    tmin = np.array(tmin, dtype=float)
    tmin[places] = np.nan
    return tmin


def frosty_year():
    tmin = np.full(365, 12.0)
    tmin[[99, 249]] = -1.0
    return tmin


def test_a_tenth_of_the_half_may_be_missing_and_no_more():
    # January to June has 181 days: 18 missing are 9.9 %, 19 are 10.5 %. July to December has 184:
    # 18 are 9.8 %, 19 are 10.3 %.
    frost = {2021: dt.date(2021, 4, 10)}
    assert last_cold_night(year_of(gaps(frosty_year(), slice(0, 18)))) == frost
    assert last_cold_night(year_of(gaps(frosty_year(), slice(0, 19)))) == {2021: None}
    autumn = {2021: dt.date(2021, 9, 7)}
    assert first_cold_night(year_of(gaps(frosty_year(), slice(300, 318)))) == autumn
    assert first_cold_night(year_of(gaps(frosty_year(), slice(300, 319)))) == {2021: None}


def test_a_gap_in_the_other_half_does_not_matter():
    tmin = gaps(frosty_year(), slice(181, 365))
    assert last_cold_night(year_of(tmin)) == {2021: dt.date(2021, 4, 10)}


def test_days_left_out_count_as_missing():
    whole = year_of(frosty_year())
    keep = np.r_[0, 20:365]
    thinned = DailyWeather(whole.dates[keep], whole.tmin[keep], whole.tmax[keep])
    assert last_cold_night(thinned) == {2021: None}  # 19 of 181 days left out
    assert first_cold_night(thinned) == {2021: dt.date(2021, 9, 7)}


def test_years_between_records_are_told_as_unknown():
    before, after = year_of(frosty_year(), 2018), year_of(frosty_year(), 2021)
    both = DailyWeather(
        np.concatenate([before.dates, after.dates]),
        np.concatenate([before.tmin, after.tmin]),
        np.concatenate([before.tmax, after.tmax]),
    )
    april = {year: dt.date(year, 4, 10) if year in (2018, 2021) else None for year in range(2018, 2022)}
    assert last_cold_night(both) == april


def test_a_missing_night_breaks_a_warm_run():
    tmin = np.full(365, 5.0)
    tmin[120:127] = 10.0  # 1 to 7 May
    tmin[150:160] = 10.0  # from 31 May
    assert first_warm_run(year_of(tmin)) == {2021: dt.date(2021, 5, 1)}
    assert first_warm_run(year_of(gaps(tmin, [123]))) == {2021: dt.date(2021, 5, 31)}


def test_a_warm_run_needs_the_days_up_to_its_end_and_no_others():
    # A run over 1 to 7 May ends on day 127: 12 missing before are 9.4 %, 13 are 10.2 %.
    tmin = np.full(365, 5.0)
    tmin[120:127] = 10.0
    found = {2021: dt.date(2021, 5, 1)}
    assert first_warm_run(year_of(gaps(tmin, slice(0, 12)))) == found
    assert first_warm_run(year_of(gaps(tmin, slice(0, 13)))) == {2021: None}
    assert first_warm_run(year_of(gaps(tmin, slice(127, 365)))) == found


def test_a_warm_run_must_fit_into_its_year():
    tmin = np.full(365, 5.0)
    tmin[-6:] = 15.0
    assert first_warm_run(year_of(tmin)) == {2021: None}
    assert first_warm_run(year_of(tmin), run=6) == {2021: dt.date(2021, 12, 26)}
    assert first_warm_run(year_of(np.full(365, 15.0)), run=400) == {2021: None}


def test_a_southern_warm_run_is_looked_for_from_july():
    tmin = np.full(365, 15.0)
    tmin[:150] = 5.0  # warm from 28 November 2020 on
    weather = year_of(tmin, 2020, "07-01")
    assert first_warm_run(weather, southern=True) == {2020: dt.date(2020, 11, 28)}


def test_an_empty_record_has_no_years():
    empty = DailyWeather([], [], [])
    assert len(empty) == 0
    for function in (last_cold_night, first_cold_night, first_warm_run):
        assert function(empty) == {}
        assert function(empty, southern=True) == {}


# -------------------------------------------------------------------------------------------- quantiles


def test_a_quantile_lies_between_days_and_is_rounded():
    # Worked by hand: days 100, 110, 130; 25 % lies half-way from the first to the second: 105;
    # 30 % at place 0.6: 106; 90 % at place 1.8: 110 + 0.8·20 = 126.
    dates = [dt.date(2021, 4, 10), dt.date(2022, 5, 10), dt.date(2023, 4, 20)]
    assert [date_quantile(dates, q) for q in (0, 0.25, 0.3, 0.9, 1)] == [100, 105, 106, 126, 130]
    assert type(date_quantile(dates, 0.5)) is int


def test_years_without_a_date_are_left_out_of_a_quantile():
    dates = {2020: None, 2021: dt.date(2021, 4, 10), 2022: None}
    assert date_quantile(dates, 0.5) == 100
    assert date_quantile({2020: None}, 0.5) is None
    assert date_quantile([], [0.1, 0.9]) is None


def test_leap_years_count_their_own_days():
    assert date_quantile([dt.date(2024, 4, 9)], 0.5) == 100  # 31 + 29 + 31 + 9


def test_southern_dates_around_new_year_stay_neighbours():
    # 22 December (day 356) and 9 January are eighteen days apart; half-way lies 31 December, day 365.
    # Taken as 356 and 9, the middle would fall at the beginning of July.
    dates = [dt.date(2020, 12, 22), dt.date(2022, 1, 9)]
    assert date_quantile(dates, 0.5, southern=True) == 365
    assert [date_quantile(dates, q, southern=True) for q in (0, 1)] == [356, 9]


@pytest.mark.parametrize(
    ("dates", "q", "said"),
    [
        ([dt.date(2021, 1, 1)], 1.5, "q is 1.5"),
        ([20210101], 0.5, "dates is an array .* int64; .* row of dates"),
    ],
)
def test_a_quantile_refuses_what_it_cannot_order(dates, q, said):
    with pytest.raises(ValueError, match=said):
        date_quantile(dates, q)


# ------------------------------------------------------------------------------------------ degree days


@pytest.mark.parametrize(
    ("tmax", "tmin", "clamped", "simple"),
    [(75, 55, 15.0, 15.0), (90, 60, 23.0, 25.0), (60, 45, 5.0, 2.5)],
)
def test_degree_days_follow_the_86_50_method(tmax, tmin, clamped, simple):
    # °F·d, limits 50 and 86 applied to maximum and minimum: Oregon State University Extension EM 9305
    # (method), sums by hand: (75 + 55)/2 - 50; (86 + 60)/2 - 50; (60 + 50)/2 - 50.
    assert degree_days(tmin, tmax, 50, 86, "clamp") == pytest.approx(clamped, abs=1e-9)
    assert degree_days(tmin, tmax, 50) == pytest.approx(simple, abs=1e-9)


def test_degree_days_take_numbers_and_arrays():
    assert type(degree_days(8, 20)) is float
    heat = degree_days(np.array([8.0, np.nan, 2.0]), np.array([20.0, 30.0, 12.0]))
    np.testing.assert_array_equal(heat, [4.0, np.nan, 0.0])
    assert degree_days([[1, 2]], [[30], [32]]).shape == (2, 2)
    assert degree_days([], []).shape == (0,)


def test_days_wholly_above_or_below_the_limits_are_clamped_at_both_ends():
    # limits applied to maximum and minimum, as above: (30 + 30)/2 - 10 and (10 + 10)/2 - 10
    assert degree_days(32, 40, 10, 30, "clamp") == 20.0
    assert degree_days(2, 8, 10, 30, "clamp") == 0.0


def test_without_a_cap_hot_days_count_in_full():
    assert degree_days(20, 40, 10, None, "clamp") == 20.0


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((20, 10), "tmax is 10; it must be at least tmin"),
        (([1, 20], [2, 10]), r"tmax\[1\] is 10"),
        ((10, 20, 10, 10), "cap is 10; it must be above base, here 10"),
        ((10, 20, 10, 30, "sine"), "method is 'sine'; it must be one of: mean, clamp"),
        ((float("nan"), 20), "tmin is nan"),
        ((10, "warm"), "tmax is 'warm'"),
        ((10, 20, None), "base is None"),
    ],
)
def test_degree_days_refuse_what_cannot_be(arguments, said):
    with pytest.raises(ValueError, match=said):
        degree_days(*arguments)


# ----------------------------------------------------------------------------------------- the record


DAY = dt.date(2021, 1, 1)
NEXT = dt.date(2021, 1, 2)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (([NEXT, DAY], [1, 1], [2, 2]), r"dates\[1\] is 2021-01-01 after 2021-01-02"),
        (([DAY, DAY], [1, 1], [2, 2]), r"dates\[1\] is 2021-01-01 after 2021-01-01"),
        (([1, 2], [1, 1], [2, 2]), "dates is an array .* it must be a row of dates"),
        ((["x"], [1], [2]), "dates is an array"),
        (([DAY, None], [1, 1], [2, 2]), r"dates\[1\] is None"),
        (([DAY, "x"], [1, 1], [2, 2]), "dates holds something that is no date"),
        (([dt.datetime(2021, 1, 1, 6)], [1], [2]), r"dates\[0\] is 2021-01-01 06:00:00"),  # noqa: DTZ001
        (([dt.datetime(2021, 1, 1, tzinfo=dt.UTC)], [1], [2]), "dates is given with zones"),
        (([DAY, NEXT], [1], [2, 2]), r"tmin is of shape \(1,\); it must hold one number a date, here 2"),
        (([DAY], [1], [2, 2]), "tmax is of shape"),
        (([DAY], [1], [2], [1, 2]), "rain is of shape"),
        (([DAY, NEXT], [1, 5], [2, 4]), r"tmax\[1\] is 4; it must be at least tmin of the same day"),
        (([DAY], [55], [86]), r"tmax\[0\] is 86"),
        (([DAY], [-9999], [2]), r"tmin\[0\] is -9999"),
        (([DAY], [1], [float("inf")]), r"tmax\[0\] is inf"),
        (([DAY], [1], [2], [-1]), r"rain\[0\] is -1"),
        (([DAY], [1], [2], [0], [-1]), r"gust\[0\] is -1"),
    ],
)
def test_a_record_refuses_what_no_weather_is(arguments, said):
    with pytest.raises(ValueError, match=said):
        DailyWeather(*arguments)


def test_a_record_keeps_gaps_and_cannot_be_changed():
    given = np.array([1.0, np.nan])
    weather = DailyWeather([DAY, NEXT], given, [2, None], rain=[0, 3])
    given[0] = 99
    assert weather.tmin[0] == 1.0
    assert np.isnan(weather.tmax[1])
    assert weather.gust is None
    with pytest.raises(ValueError, match="read-only"):
        weather.tmin[0] = 5
    with pytest.raises(AttributeError):
        weather.rain = None


def test_a_record_takes_dates_in_any_of_the_usual_forms():
    stamps = pd.date_range("2021-01-01", periods=2)
    for dates in ([DAY, NEXT], stamps, stamps.to_numpy(), list(stamps)):
        assert DailyWeather(dates, [1, 1], [2, 2]).dates.tolist() == [DAY, NEXT]


@pytest.mark.parametrize(
    ("call", "said"),
    [
        (lambda weather: last_cold_night(weather, None), "threshold is None"),
        (lambda weather: first_cold_night(weather, float("nan")), "threshold is nan"),
        (lambda weather: first_warm_run(weather, 10, 0), "run is 0; it must be a number, at least 1"),
        (lambda weather: first_warm_run(weather, 10, 2.5), "run is 2.5; it must be a whole number"),
    ],
)
def test_searches_refuse_limits_that_say_nothing(call, said):
    with pytest.raises(ValueError, match=said):
        call(year_of(frosty_year()))
