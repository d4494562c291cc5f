"""Laws the sun and its light must obey wherever and whenever they are asked."""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from greenroom.agronomy.sunlight import clear_sky_ppfd, solar_noon, sun_dose, sun_position, sunrise_sunset

LATITUDES = st.floats(-90, 90)
LONGITUDES = st.floats(-180, 180)
MOMENTS = st.integers(-5_364_662_400, 7_289_654_399).map(lambda s: np.datetime64(s, "s"))  # 1800 to 2200
DATES = st.dates(date(1900, 1, 1), date(2099, 12, 31))
MINUTE = np.timedelta64(1, "m")


def as_vector(elevation: float, azimuth: float) -> np.ndarray:
    height, heading = np.radians(elevation), np.radians(azimuth)
    return np.array([np.sin(heading) * np.cos(height), np.cos(heading) * np.cos(height), np.sin(height)])


@given(MOMENTS, LATITUDES, LONGITUDES)
def test_the_sun_is_always_somewhere_in_the_sky(when, latitude, longitude):
    elevation, azimuth = sun_position(when, latitude, longitude)
    assert -90 <= elevation <= 90
    assert 0 <= azimuth < 360


@given(MOMENTS, LATITUDES)
def test_the_date_line_is_one_meridian(when, latitude):
    east, west = sun_position(when, latitude, 180.0), sun_position(when, latitude, -180.0)
    assert as_vector(*east) == pytest.approx(as_vector(*west), abs=1e-9)


@given(MOMENTS, st.floats(-89, 89), LONGITUDES)
def test_a_minute_never_moves_the_sun_by_more_than_a_quarter_degree(when, latitude, longitude):
    assume(when + MINUTE < np.datetime64("2201-01-01"))
    first, second = (as_vector(*sun_position(when + step * MINUTE, latitude, longitude)) for step in (0, 1))
    moved = np.degrees(np.arccos(np.clip(first @ second, -1, 1)))
    assert moved < 0.2517  # 360 degrees in 1436 minutes (the sky) is 0.2507; the sun, 0.25


@given(MOMENTS, LATITUDES, LONGITUDES)
def test_the_far_side_of_the_earth_sees_the_sun_from_below(when, latitude, longitude):
    other = longitude - 180 if longitude > 0 else longitude + 180
    here, there = sun_position(when, latitude, longitude)[0], sun_position(when, -latitude, other)[0]
    # Parallax lowers the sun by up to 8.8 arc seconds for both.
    assert here + there == pytest.approx(0, abs=2 * 8.8 / 3600)


@given(DATES, st.floats(-65, 65), LONGITUDES)
def test_the_sun_is_highest_at_noon(day, latitude, longitude):
    noon = np.datetime64(solar_noon(day, longitude).replace(tzinfo=None), "us")
    around, _ = sun_position(noon + np.arange(-720, 721, 10) * MINUTE, latitude, longitude)
    height, _ = sun_position(noon, latitude, longitude)
    assert height >= around.max() - 0.001  # its own drift north or south shifts the top by seconds


@given(DATES, st.floats(-65, 65), LONGITUDES)
def test_at_noon_the_sun_stands_due_south_or_due_north(day, latitude, longitude):
    noon = solar_noon(day, longitude)
    vector = as_vector(*sun_position(noon, latitude, longitude))
    assert vector[0] == pytest.approx(0, abs=1e-6)


@given(DATES, LATITUDES, LONGITUDES)
def test_between_rising_and_setting_the_sun_is_up_and_outside_it_is_down(day, latitude, longitude):
    noon = np.datetime64(solar_noon(day, longitude).replace(tzinfo=None), "us")
    day_of_sun = sunrise_sunset(day, latitude, longitude)
    assume(day_of_sun is not None)
    rise, fall = (np.datetime64(moment.replace(tzinfo=None), "us") for moment in day_of_sun)
    moments = noon + np.arange(-719, 720) * MINUTE
    clear_of_edge = (np.abs(moments - rise) > 2 * MINUTE) & (np.abs(moments - fall) > 2 * MINUTE)
    elevation, _ = sun_position(moments, latitude, longitude)
    # Within a hair of the pole the sun drifts rather than turns; a thousandth of a degree is let pass.
    up = elevation[clear_of_edge] + 50 / 60
    inside = ((moments > rise) & (moments < fall))[clear_of_edge]
    assert np.all(np.where(inside, up, -up) > -0.02)


@given(DATES, st.floats(-60, 60), LONGITUDES)
def test_half_a_year_on_the_other_hemisphere_has_nearly_the_same_day(day, latitude, longitude):
    def hours(on: date, at: float) -> float:
        rise, fall = sunrise_sunset(on, at, longitude)
        return (fall - rise) / timedelta(hours=1)

    # The orbit is not quite round, so the seasons differ by a few days: up to 25 minutes of light at 60.
    assume(day.year < 2099)
    assert hours(day, latitude) == pytest.approx(hours(day + timedelta(days=182), -latitude), abs=0.7)


@given(DATES, LONGITUDES, st.floats(-60, 60))
def test_asking_for_many_days_gives_what_asking_for_each_gives(day, longitude, latitude):
    days = np.datetime64(day) + np.arange(3)
    assert solar_noon(days, longitude).shape == (3,)
    rise, fall = sunrise_sunset(days, latitude, longitude)
    one = sunrise_sunset(days[1], latitude, longitude)
    assert abs(rise[1] - np.datetime64(one[0].replace(tzinfo=None))) < np.timedelta64(1, "ms")
    assert abs(fall[1] - np.datetime64(one[1].replace(tzinfo=None))) < np.timedelta64(1, "ms")


@given(st.floats(-90, 90), st.floats(-90, 90))
def test_a_higher_sun_never_gives_less_light(one, other):
    low, high = sorted((one, other))
    assert 0 <= clear_sky_ppfd(low) <= clear_sky_ppfd(high)


@settings(max_examples=60)
@given(MOMENTS, st.floats(0, 3000), st.floats(0, 3000), LATITUDES, LONGITUDES, st.floats(0, 1))
def test_a_dose_is_the_sum_of_its_parts(start, first_minutes, rest_minutes, latitude, longitude, cloud):
    middle = start + np.timedelta64(round(first_minutes * 60), "s")
    end = middle + np.timedelta64(round(rest_minutes * 60), "s")
    assume(end < np.datetime64("2201-01-01"))
    whole = sun_dose(start, end, latitude, longitude, cloud)
    parts = sun_dose(start, middle, latitude, longitude, cloud) + sun_dose(
        middle, end, latitude, longitude, cloud
    )
    assert whole == pytest.approx(parts, rel=1e-7, abs=2e-5)


@settings(max_examples=60)
@given(DATES, LATITUDES, LONGITUDES, st.floats(0, 1), st.floats(0, 1))
def test_more_cloud_never_gives_more_light_nor_less_than_a_quarter(day, latitude, longitude, one, other):
    start = np.datetime64(day)
    clear, bright, dull = (
        sun_dose(start, start + 1, latitude, longitude, cloud) for cloud in (0, *sorted((one, other)))
    )
    assert clear >= bright >= dull >= 0.25 * clear * (1 - 1e-12)
