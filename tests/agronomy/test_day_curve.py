"""The temperature of the hours, drawn from a day's coldest and warmest, against measured years and pvlib."""

import datetime as dt
from pathlib import Path

import numpy as np
import pandas as pd
import pvlib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.agronomy.day_curve import temperature_at

FIRST = dt.date(2027, 5, 8)
RIDGE = (46.4, 16.0)


def days(count, first=FIRST):
    return [first + dt.timedelta(days=number) for number in range(count)]


def every_minutes(first, count, step=5):
    start = np.datetime64(first, "m")
    return start + np.arange(0, count * 1440, step) * np.timedelta64(1, "m")


@pytest.mark.parametrize("name", ["703165TY.csv", "723170TYA.CSV"])
def test_measured_years_are_met_as_well_as_the_method_promises(name):
    """Typical years of Sand Point, Alaska, and Greensboro, North Carolina (TMY3, NREL, in pvlib).

    Parton and Logan 1981 report mean absolute errors of 1.20 to 2.64 °C for their stations (abstract,
    from memory).
    """
    folder = Path(pvlib.__file__).parent / "data"
    year, place = pvlib.iotools.read_tmy3(folder / name, coerce_year=1990, map_variables=True)
    stamps = year.index.tz_localize(None)
    day = (stamps - pd.Timedelta("30min")).normalize()  # a stamp is the end of its hour
    by_day = year["temp_air"].groupby(day).agg(["min", "max"])
    utc = year.index.tz_convert("UTC").tz_localize(None).to_numpy("datetime64[us]")
    drawn = temperature_at(
        utc,
        by_day.index.to_numpy("datetime64[D]"),
        by_day["min"],
        by_day["max"],
        place["latitude"],
        place["longitude"],
    )
    error = drawn - year["temp_air"].to_numpy()
    assert np.mean(np.abs(error)) < 1.4
    assert abs(np.mean(error)) < 0.2


@pytest.mark.parametrize(("latitude", "longitude"), [(0.0, 0.0), (46.4, 16.0), (-33.9, 18.4)])
def test_day_and_night_follow_the_published_equations(latitude, longitude):
    """Parton and Logan 1981, with sunrise, transit and sunset from pvlib's solar position algorithm."""
    low, high, next_low = 6.0, 21.0, 9.0
    noon_utc = pd.Timestamp(FIRST, tz="UTC") + pd.Timedelta(hours=12 - longitude / 15)
    stamps = pd.DatetimeIndex([noon_utc, noon_utc + pd.Timedelta(days=1)]).normalize()
    sun = pvlib.solarposition.sun_rise_set_transit_spa(stamps, latitude, longitude)
    rise, noon, fall = sun["sunrise"].iloc[0], sun["transit"].iloc[0], sun["sunset"].iloc[0]
    next_rise = sun["sunrise"].iloc[1]
    hour = pd.Timedelta(hours=1)
    length, lag, peak = (fall - rise) / hour, -0.17, 1.86

    def at(moment):
        return temperature_at(
            np.datetime64(moment.tz_localize(None)),
            days(2),
            [low, next_low],
            [high, 25.0],
            latitude,
            longitude,
        )

    for after in (1.0, 3.0, 6.0, length - 0.5):
        wave = np.sin(np.pi * (after - lag) / (length + 2 * (peak - lag)))
        assert at(rise + after * hour) == pytest.approx(low + (high - low) * wave, abs=0.05)
    at_sunset = low + (high - low) * np.sin(np.pi * (length - lag) / (length + 2 * (peak - lag)))
    night = (next_rise - fall) / hour + lag
    for after in (0.1, 2.0, 5.0, 9.0):
        kept = (np.exp(-2.2 * after / night) - np.exp(-2.2)) / (1 - np.exp(-2.2))
        assert at(fall + after * hour) == pytest.approx(next_low + (at_sunset - next_low) * kept, abs=0.05)
    assert at(noon + peak * hour) == pytest.approx(high, abs=0.01)
    assert at(next_rise + lag * hour) == pytest.approx(next_low, abs=0.05)


def test_an_unknown_day_has_no_hours_and_a_night_is_drawn_from_the_side_that_is_known():
    tmin, tmax = [6.0, np.nan, 8.0], [20.0, np.nan, 22.0]
    noons = [np.datetime64(f"2027-05-{day:02d}T11:00") for day in (8, 9, 10)]
    nights = [np.datetime64(f"2027-05-{day:02d}T23:00") for day in (7, 8, 9, 10)]
    by_day = temperature_at(noons, days(3), tmin, tmax, *RIDGE)
    by_night = temperature_at(nights, days(3), tmin, tmax, *RIDGE)
    assert np.isnan(by_day).tolist() == [False, True, False]
    assert np.isnan(by_night).tolist() == [False] * 4
    assert 6 < by_night[1] < 20
    assert np.isnan(temperature_at(np.datetime64("2027-05-12T11:00"), days(3), tmin, tmax, *RIDGE))


def test_a_day_left_out_is_a_day_unknown():
    left_out = temperature_at(
        every_minutes("2027-05-08", 3), [FIRST, dt.date(2027, 5, 10)], [6, 8], [20, 22], *RIDGE
    )
    written = temperature_at(
        every_minutes("2027-05-08", 3), days(3), [6, np.nan, 8], [20, np.nan, 22], *RIDGE
    )
    np.testing.assert_array_equal(left_out, written)


def test_nothing_known_gives_nothing():
    assert np.isnan(temperature_at(np.datetime64("2027-05-08T11:00"), [], [], [], *RIDGE))


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (([FIRST], [6, 7], [20]), "tmin is of shape"),
        (([FIRST], [6], [5]), r"tmax\[0\] is 5; it must be at least tmin"),
        (([FIRST, FIRST], [6, 6], [9, 9]), "each must be a later day"),
    ],
)
def test_what_cannot_be_drawn_is_refused(arguments, said):
    with pytest.raises(ValueError, match=said):
        temperature_at(np.datetime64("2027-05-08T11:00"), *arguments, *RIDGE)


@given(
    st.lists(st.tuples(st.floats(-20, 25), st.floats(0, 25)), min_size=2, max_size=5),
    st.floats(-70, 70),
    st.floats(-180, 180),
    st.sampled_from([1, 100, 172, 266, 355]),
)
def test_no_hour_leaves_the_range_of_the_days_about_it_and_none_jumps(told, latitude, longitude, day_of_year):
    first = dt.date(2027, 1, 1) + dt.timedelta(days=day_of_year)
    tmin = np.array([low for low, _ in told])
    tmax = tmin + [swing for _, swing in told]
    by_the_sun = np.timedelta64(round(-longitude * 4), "m")  # the place's own days, not Greenwich's
    moments = every_minutes(first, len(told)) + by_the_sun
    drawn = temperature_at(moments, days(len(told), first), tmin, tmax, latitude, longitude)
    assert not np.isnan(drawn).any()
    assert drawn.min() >= tmin.min() - 1e-9
    assert drawn.max() <= tmax.max() + 1e-9
    # In five minutes a night of four hours loses at most 2.2/(1 - e^-2.2) x 5/240 of its fall.
    assert np.abs(np.diff(drawn)).max() <= 0.06 * (tmax.max() - tmin.min()) + 1e-9


@given(st.floats(0, 10), st.floats(0, 10), st.floats(0, 10))
def test_warmer_days_never_have_a_colder_hour(low, high, more):
    moments = every_minutes(FIRST, 3, 30)
    tmin, tmax = np.array([low, low + 1, low]), np.array([low + high + 1] * 3)
    cool = temperature_at(moments, days(3), tmin, tmax, *RIDGE)
    warm = temperature_at(moments, days(3), tmin + more, tmax + more, *RIDGE)
    assert (warm >= cool - 1e-9).all()
