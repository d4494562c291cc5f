"""The odds of ripening, by hand on small records and a second way, day by day, on real ones.

Heat needs here are invented round numbers; the rule (first warm run after ready, heat to the need, before the
first killing night) is this program's own, and the share of a place's years is the plain relative frequency.
"""

import datetime as dt

import numpy as np
import pytest

from greenroom.agronomy.climate import DailyWeather, first_cold_night, first_warm_run
from greenroom.agronomy.ripening import Ripener, odds_by_sowing, season_odds, years_by_sowing
from tests.agronomy._field_record import as_weather, field_record

MAY_1 = dt.date(2021, 5, 1)


@pytest.fixture(scope="module")
def champion():
    return field_record("champion")


@pytest.fixture(scope="module")
def champion_weather(champion):
    return as_weather(champion)


def made_year(year=2021, warm_from=(5, 15), frost=(9, 30), nights=15.0, days=25.0):
    """Nights of 5 °C until a day, then nights and days as given, and one freezing night."""
    dates = np.arange(np.datetime64(f"{year}-01-01"), np.datetime64(f"{year + 1}-01-01"))
    warm = dates >= np.datetime64(dt.date(year, *warm_from))
    tmin = np.where(warm, nights, 5.0)
    tmax = np.where(warm, days, 12.0)
    if frost:
        tmin[dates == np.datetime64(dt.date(year, *frost))] = 0.0
    return dates, tmin, tmax


def record(*years):
    return DailyWeather(*(np.concatenate(column) for column in zip(*years, strict=True)))


def blank(weather, first, last):
    """The record with the days from first to last not known."""
    tmin, tmax = weather.tmin.copy(), weather.tmax.copy()
    hidden = (weather.dates >= np.datetime64(first)) & (weather.dates <= np.datetime64(last))
    tmin[hidden] = tmax[hidden] = np.nan
    return DailyWeather(weather.dates, tmin, tmax)


# ---------------------------------------------------------------------------------------------- by hand


def test_a_season_worked_by_hand():
    # Warm from 15 May: 10 °C·d a day from then on. 200 °C·d take 20 days, the last is 3 June.
    odds = season_odds(record(made_year()), 200, ready=MAY_1)
    assert (odds.odds, odds.n, odds.years) == (1.0, 1, (2021,))
    assert odds.set_out == {2021: dt.date(2021, 5, 15)}
    assert odds.ripe == {2021: dt.date(2021, 6, 3)}
    assert odds.end == {2021: dt.date(2021, 9, 30)}
    assert odds.heat == {2021: pytest.approx(1380)}  # 15 May to 29 September: 138 days


def test_ripe_must_come_before_the_killing_night():
    # 138 days of 10 °C·d from 15 May to 29 September.
    weather = record(made_year())
    assert season_odds(weather, 1380, ready=MAY_1).ripe == {2021: dt.date(2021, 9, 29)}
    late = season_odds(weather, 1381, ready=MAY_1)
    assert (late.odds, late.ripe, late.end) == (0.0, {2021: None}, {2021: dt.date(2021, 9, 30)})


def test_seedlings_wait_for_warm_nights_and_nights_for_seedlings():
    weather = record(made_year())
    assert season_odds(weather, 200, ready=dt.date(1999, 1, 1)).set_out == {2021: dt.date(2021, 5, 15)}
    assert season_odds(weather, 200, ready=dt.date(2030, 6, 20)).set_out == {2021: dt.date(2021, 6, 20)}


def test_a_cold_spell_after_ready_holds_the_plants_back_until_it_is_over():
    dates, tmin, tmax = made_year()
    tmin[dates == np.datetime64("2021-06-05")] = 8.0
    weather = DailyWeather(dates, tmin, tmax)
    for ready, set_out in [
        ((5, 29), (5, 29)),  # nights of 29 May to 4 June: seven
        ((5, 30), (6, 6)),  # 30 May to 4 June are only six
    ]:
        odds = season_odds(weather, 200, ready=dt.date(2021, *ready))
        assert odds.set_out == {2021: dt.date(2021, *set_out)}


def test_odds_are_the_share_of_the_years():
    # Frost on 30 September, 31 August, 10 August, 30 September: 138, 108, 87 and 138 days of 10 °C·d.
    weather = record(
        made_year(2017), made_year(2018, frost=(8, 31)), made_year(2019, frost=(8, 10)), made_year(2021 - 1)
    )
    assert [season_odds(weather, need, ready=MAY_1).odds for need in (870, 1000, 1100, 1390)] == [
        1,
        0.75,
        0.5,
        0,
    ]


def test_the_growers_own_floor_run_killing_base_and_cap_count():
    weather = record(made_year(nights=12.0, days=36.0))
    # clamped at 30: (12 + 30)/2 - 10 = 11 a day; without a cap 14; base 14: (14 + 30)/2 - 14 = 8
    day = dt.date(2021, 5, 15)
    for limits, days in [({}, 20), ({"cap": None}, 16), ({"base": 14.0}, 28)]:
        ripe = season_odds(weather, 220, ready=MAY_1, **limits).ripe[2021]
        assert (ripe - day).days + 1 == days
    assert season_odds(weather, 220, ready=MAY_1, floor=12.5).set_out == {2021: None}
    assert season_odds(weather, 220, ready=MAY_1, run=139).set_out == {2021: None}  # frost breaks it
    assert season_odds(weather, 220, ready=MAY_1, run=138).set_out == {2021: day}
    assert season_odds(weather, 220, ready=MAY_1, killing=12.0).end == {2021: dt.date(2021, 7, 1)}


def test_without_a_killing_night_the_season_closes_with_the_year():
    # 231 days from 15 May to 31 December.
    weather = record(made_year(frost=None))
    closed = season_odds(weather, 2310, ready=MAY_1)
    assert (closed.odds, closed.end, closed.ripe) == (1.0, {2021: None}, {2021: dt.date(2021, 12, 31)})
    assert season_odds(weather, 2311, ready=MAY_1).odds == 0.0


def test_plants_never_set_out_never_ripen():
    odds = season_odds(record(made_year(nights=8.0)), 1, ready=MAY_1)
    assert (odds.odds, odds.set_out, odds.ripe, odds.heat) == (0.0, {2021: None}, {2021: None}, {2021: None})


def test_a_leap_day_ready_date_falls_back_in_common_years():
    weather = record(made_year(2023, warm_from=(1, 1)), made_year(2024, warm_from=(1, 1)))
    set_out = season_odds(weather, 200, ready=dt.date(2024, 2, 29)).set_out
    assert set_out == {2023: dt.date(2023, 2, 28), 2024: dt.date(2024, 2, 29)}


def test_ready_keeps_its_month_and_day_after_a_leap_day():
    weather = record(made_year(2023, warm_from=(1, 1)), made_year(2024, warm_from=(1, 1)))
    set_out = season_odds(weather, 200, ready=dt.date(2021, 6, 1)).set_out
    assert set_out == {2023: dt.date(2023, 6, 1), 2024: dt.date(2024, 6, 1)}


def test_heat_summed_in_tenths_is_enough_when_it_is_exactly_enough():
    # 7.2, 7.7 and 8.4 °C·d a day for 30 days are 216, 231 and 252, though binary sums may fall a hair short
    for nights, days, need in [(14.4, 20.0, 216), (15.4, 20.0, 231), (12.8, 24.0, 252)]:
        odds = season_odds(record(made_year(nights=nights, days=days)), need, ready=MAY_1)
        assert odds.ripe == {2021: dt.date(2021, 6, 13)}
    # and to the eve of the killing night: 138 days of 7.05, 7.3 and 9.1 make 972.9, 1007.4 and 1255.8
    for nights, days, need in [(14.1, 20.0, 972.9), (14.6, 20.0, 1007.4), (14.2, 24.0, 1255.8)]:
        odds = season_odds(record(made_year(nights=nights, days=days)), need, ready=MAY_1)
        assert odds.ripe == {2021: dt.date(2021, 9, 29)}


# ------------------------------------------------------------------------------------------ missing days


def test_a_year_with_more_than_a_tenth_missing_is_not_counted():
    # From 1 May to 31 December are 245 days; 24 missing are 9.8 %, 25 are 10.2 %.
    weather = record(made_year(2020), made_year(2021))
    some = season_odds(blank(weather, dt.date(2021, 6, 1), dt.date(2021, 6, 24)), 200, ready=MAY_1)
    assert some.years == (2020, 2021)
    more = season_odds(blank(weather, dt.date(2021, 6, 1), dt.date(2021, 6, 25)), 200, ready=MAY_1)
    assert (more.years, more.n, more.odds) == ((2020,), 1, 1.0)


def test_a_tenth_missing_to_the_day_still_counts():
    # From 26 April to 31 December are 250 days; 25 are exactly 10 %.
    ready = dt.date(2021, 4, 26)
    tenth = blank(record(made_year()), dt.date(2021, 6, 1), dt.date(2021, 6, 25))
    assert season_odds(tenth, 200, ready=ready).years == (2021,)
    more = blank(record(made_year()), dt.date(2021, 6, 1), dt.date(2021, 6, 26))
    assert season_odds(more, 200, ready=ready).years == ()


def test_days_before_ready_may_be_missing():
    weather = blank(record(made_year()), dt.date(2021, 1, 1), dt.date(2021, 4, 30))
    assert season_odds(weather, 200, ready=MAY_1).years == (2021,)


def test_a_year_whose_autumn_is_unknown_is_not_counted():
    # 19 nights of the 184 from July on: its killing night may be among them
    weather = blank(record(made_year()), dt.date(2021, 9, 20), dt.date(2021, 10, 8))
    assert season_odds(weather, 200, ready=MAY_1).odds is None


def test_an_unfinished_year_is_not_counted():
    dates, tmin, tmax = made_year(2022)
    weather = record(made_year(2021), (dates[:250], tmin[:250], tmax[:250]))
    assert season_odds(weather, 200, ready=MAY_1).years == (2021,)


def test_a_missing_days_heat_is_taken_from_the_days_around_it():
    weather = blank(record(made_year()), dt.date(2021, 6, 1), dt.date(2021, 6, 10))
    odds = season_odds(weather, 1380, ready=MAY_1)
    assert odds.heat == {2021: pytest.approx(1380)}
    assert odds.ripe == {2021: dt.date(2021, 9, 29)}


def test_a_missing_night_breaks_the_run_at_set_out():
    weather = blank(record(made_year()), dt.date(2021, 5, 18), dt.date(2021, 5, 18))
    assert season_odds(weather, 200, ready=MAY_1).set_out == {2021: dt.date(2021, 5, 19)}


def test_no_record_means_odds_are_not_known():
    empty = DailyWeather([], [], [])
    odds = season_odds(empty, 200, ready=MAY_1)
    assert (odds.odds, odds.n, odds.years) == (None, 0, ())
    table = odds_by_sowing(empty, [Ripener(200, 60)], [MAY_1])
    assert table.shape == (1, 1)
    assert np.isnan(table).all()


# ---------------------------------------------------------------------------- a second way, real records


def slow_season(rows, need, ready, floor=10.0, run=7, killing=0.0, base=10.0, cap=30.0):
    """One northern year, day by day: set-out, ripe, end."""
    nights = dict(zip(rows["date"].dt.date, rows["tmin"], strict=True))
    highs = dict(zip(rows["date"].dt.date, rows["tmax"], strict=True))
    one = dt.timedelta(days=1)
    days = sorted(nights)
    end = next((day for day in days if day.month >= 7 and nights[day] <= killing), None)
    set_out = next(
        (d for d in days if d >= ready and all(nights.get(d + n * one, -99) >= floor for n in range(run))),
        None,
    )
    gathered = 0.0
    for day in days:
        if set_out is None or day < set_out:
            continue
        if day == end:
            break
        low, high = (min(max(celsius, base), cap) for celsius in (nights[day], highs[day]))
        gathered += (low + high) / 2 - base
        if gathered >= need - 1e-7:
            return set_out, day, end
    return set_out, None, end


@pytest.mark.parametrize(
    ("need", "month_day", "limits"),
    [
        (900, (5, 1), {}),
        (1200, (5, 25), {}),
        (1150, (6, 10), {"floor": 12.0, "run": 5}),
        (800, (6, 1), {"base": 13.3, "cap": 28.0, "killing": 2.0}),
    ],
)
def test_a_real_record_agrees_with_a_day_by_day_working(champion, champion_weather, need, month_day, limits):
    odds = season_odds(champion_weather, need, ready=dt.date(2000, *month_day), **limits)
    for year, rows in champion.groupby(champion["date"].dt.year):
        expected = slow_season(rows, need, dt.date(year, *month_day), **limits)
        assert (odds.set_out[year], odds.ripe[year], odds.end[year]) == expected
    ripened = [day for day in odds.ripe.values() if day]
    assert odds.odds == len(ripened) / 37
    assert 0 < odds.odds < 1, "a case in which all years agree would show little"


def test_with_early_seedlings_a_real_record_is_set_out_on_its_first_warm_run(champion_weather):
    odds = season_odds(champion_weather, 1000, ready=dt.date(2000, 1, 1))
    assert odds.set_out == first_warm_run(champion_weather)
    assert odds.end == first_cold_night(champion_weather)


def test_each_cell_of_the_chart_is_the_odds_of_its_ready_day(champion_weather):
    varieties = [
        Ripener(900, 60),
        Ripener(1200, 75, floor=12.0),
        Ripener(800, 90, base=13.3, cap=None, run=3, killing=-2.0),
    ]
    sowings = [dt.date(2026, 1, 15) + dt.timedelta(days=11 * number) for number in range(16)]
    chart = odds_by_sowing(champion_weather, varieties, sowings)
    assert chart.shape == (3, 16)
    for row, variety in enumerate(varieties):
        for column, sowing in enumerate(sowings):
            alone = season_odds(
                champion_weather,
                variety.heat_to_ripe,
                ready=sowing + dt.timedelta(days=variety.days_to_ready),
                floor=variety.floor,
                run=variety.run,
                killing=variety.killing,
                base=variety.base,
                cap=variety.cap,
            )
            assert chart[row, column] == alone.odds
    assert np.unique(chart).size > 10


# -------------------------------------------------------------------------------------- the sowing chart


def test_sowing_days_may_come_as_dates_or_numbers_of_numpy_in_any_order(champion_weather):
    days = [dt.date(2026, 4, 20), dt.date(2026, 2, 1), dt.date(2026, 3, 1)]
    as_dates = odds_by_sowing(champion_weather, [Ripener(1100, 60)], days)
    as_array = odds_by_sowing(champion_weather, [Ripener(1100, 60)], np.array(days, dtype="datetime64[D]"))
    np.testing.assert_array_equal(as_dates, as_array)
    assert as_dates[0, 0] < as_dates[0, 2] <= as_dates[0, 1]


def test_seed_sown_in_the_old_year_is_for_the_season_of_the_new(champion_weather):
    days = [dt.date(2025, 11, 1), dt.date(2026, 1, 15), dt.date(2026, 4, 1)]
    chart = odds_by_sowing(champion_weather, [Ripener(1000, 45)], days)  # ready 16 December, 1 March, 16 May
    assert chart[0, 0] == chart[0, 1] >= chart[0, 2] > 0


def test_seedlings_ready_after_the_season_are_too_late_for_it(champion_weather):
    days = [dt.date(2026, 2, 1), dt.date(2026, 3, 1), dt.date(2026, 12, 1)]
    chart = odds_by_sowing(champion_weather, [Ripener(1000, 60)], days)  # the last: ready 30 January 2027
    assert chart[0, 2] == 0.0
    for_the_next = odds_by_sowing(champion_weather, [Ripener(1000, 60)], days, season=2027)
    assert for_the_next[0, 2] == chart[0, 0]


def test_every_cell_counts_the_same_years(champion_weather):
    weather = blank(champion_weather, dt.date(1990, 4, 1), dt.date(1990, 5, 10))
    early_and_late = [dt.date(2026, 2, 1), dt.date(2026, 5, 1)]
    counted = years_by_sowing(weather, [Ripener(1000, 60)], early_and_late)
    assert counted == tuple(year for year in range(1982, 2019) if year != 1990)
    assert 1990 in years_by_sowing(weather, [Ripener(1000, 60)], early_and_late[1:])


def test_a_chart_without_varieties_or_days_is_empty(champion_weather):
    assert odds_by_sowing(champion_weather, [], [MAY_1]).shape == (0, 1)
    assert odds_by_sowing(champion_weather, [Ripener(1000, 60)], []).shape == (1, 0)


# ---------------------------------------------------------------------------------------------- the south


def southern_half_year(table):
    """The northern record moved to the other half of the year: day k of January becomes day k of July.

    The 366th day of a leap year is dropped; a southern season that holds 29 February lacks its last day.
    """
    year = table["date"].dt.year
    day = (table["date"].dt.dayofyear - 1).to_numpy()
    keep = day < 365
    starts = np.array([f"{number}-07-01" for number in year], dtype="datetime64[D]")
    return DailyWeather((starts + day)[keep], table["tmin"][keep], table["tmax"][keep])


def test_a_southern_season_worked_by_hand():
    # Warm from 12 November 2020 on, freezing on 30 March 2021: 138 days of 10 °C·d, as in the north.
    dates = np.arange(np.datetime64("2020-07-01"), np.datetime64("2021-07-01"))
    warm = dates >= np.datetime64("2020-11-12")
    tmin, tmax = np.where(warm, 15.0, 5.0), np.where(warm, 25.0, 12.0)
    tmin[dates == np.datetime64("2021-03-30")] = 0.0
    weather = DailyWeather(dates, tmin, tmax)
    odds = season_odds(weather, 1380, ready=dt.date(2020, 10, 1), southern=True)
    assert odds.set_out == {2020: dt.date(2020, 11, 12)}
    assert odds.ripe == {2020: dt.date(2021, 3, 29)}
    assert odds.end == {2020: dt.date(2021, 3, 30)}
    assert season_odds(weather, 1, ready=dt.date(2020, 1, 10), southern=True).set_out == {
        2020: dt.date(2021, 1, 10)
    }


def test_mirrored_hemispheres_agree_on_a_real_record(champion, champion_weather):
    mirrored = southern_half_year(champion)
    for need in (800, 1000, 1200, 1400, 1600):
        north = season_odds(champion_weather, need, ready=dt.date(2000, 1, 1))
        south = season_odds(mirrored, need, ready=dt.date(2000, 7, 1), southern=True)
        assert south.odds == north.odds
        assert south.years == north.years
    varieties = [Ripener(900, 0), Ripener(1200, 0)]
    np.testing.assert_array_equal(
        odds_by_sowing(mirrored, varieties, [dt.date(2025, 7, 1)], southern=True),
        odds_by_sowing(champion_weather, varieties, [dt.date(2025, 1, 1)]),
    )


def test_a_real_southern_record_ripens_across_new_year():
    # Cordoba (southern hemisphere), same package, 1991 to 2021: set out in spring, ripe the next year
    weather = as_weather(field_record("cordoba"))
    odds = season_odds(weather, 1300, ready=dt.date(2000, 10, 15), killing=3.0, southern=True)
    assert odds.years == tuple(range(1991, 2021))
    for year in odds.years:
        assert odds.set_out[year].year == year
        assert odds.ripe[year] is None or dt.date(year + 1, 1, 1) <= odds.ripe[year] < odds.end[year]
    assert odds.odds > 0.9


# -------------------------------------------------------------------------------------------- bad input


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ({"heat_to_ripe": 0}, "heat_to_ripe is 0; it must be a number, above 0"),
        ({"heat_to_ripe": None}, "heat_to_ripe is None"),
        ({"ready": "2021-05-01"}, "ready is '2021-05-01'; it must be a date"),
        ({"run": 0}, "run is 0"),
        ({"run": 1.5}, "run is 1.5; it must be a whole number"),
        ({"floor": float("nan")}, "floor is nan"),
        ({"killing": None}, "killing is None"),
        ({"cap": 10.0}, "cap is 10; it must be above base, here 10, or None"),
    ],
)
def test_odds_refuse_limits_that_say_nothing(arguments, said):
    given = {"heat_to_ripe": 1000, "ready": MAY_1} | arguments
    with pytest.raises(ValueError, match=said):
        season_odds(record(made_year()), **given)


def test_a_variety_refuses_to_be_ready_before_it_is_sown():
    with pytest.raises(ValueError, match="days_to_ready is -1"):
        Ripener(1000, -1)


def test_sowing_days_must_be_dates():
    with pytest.raises(ValueError, match="sowing_days is an array"):
        odds_by_sowing(record(made_year()), [Ripener(1000, 60)], [120, 130])
