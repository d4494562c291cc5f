"""Sun minutes are the light of a span over that of the clear noon: against pvlib's sun and clear sky."""

import datetime as dt

import numpy as np
import pandas as pd
import pvlib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.agronomy.sun_minutes import (
    clear_day_minutes,
    noon_light,
    share_of_clear,
    share_passed,
    sun_minutes,
    sun_weight,
)
from greenroom.agronomy.sunlight import solar_noon, sun_dose

MICROMOL_PER_JOULE = 2.018  # Faust and Logan 2018, HortScience 53:1250: 7.265 mol per kWh
PLACES = [(5.6, -0.2), (46.4, 16.0), (-43.5, 172.6)]
DAY = dt.date(2027, 5, 14)


def clear_light(latitude, longitude, day=DAY):
    """The clear light of each minute of the solar day [W m-2], by pvlib's Haurwitz and its sun."""
    noon = pd.Timestamp(day, tz="UTC") + pd.Timedelta(hours=12 - longitude / 15)
    minutes = pd.date_range(noon - pd.Timedelta("12h"), periods=1440, freq="1min") + pd.Timedelta("30s")
    zenith = pvlib.solarposition.get_solarposition(minutes, latitude, longitude)["zenith"]
    return pvlib.clearsky.haurwitz(zenith)["ghi"]


@pytest.mark.parametrize("place", PLACES)
def test_a_clear_days_light_and_minutes_are_pvlibs_integral(place):
    light = clear_light(*place)
    start, end = light.index[0] - pd.Timedelta("30s"), light.index[-1] + pd.Timedelta("30s")
    dose = light.sum() * 60e-6 * MICROMOL_PER_JOULE
    assert sun_dose(start.to_pydatetime(), end.to_pydatetime(), *place) == pytest.approx(dose, rel=2e-3)
    assert clear_day_minutes(DAY, *place) == pytest.approx(light.sum() / light.max(), rel=2e-3)
    assert noon_light(DAY, *place) == pytest.approx(light.max() * MICROMOL_PER_JOULE, rel=1e-3)


@pytest.mark.parametrize("place", PLACES)
@pytest.mark.parametrize("part", [(-6, -3), (-3, -1), (-0.5, 0.5), (2, 5)])
def test_any_hours_of_a_clear_day_are_pvlibs_share_of_its_noon(place, part):
    light = clear_light(*place)
    noon = light.idxmax().floor("min")
    start, end = (noon + pd.Timedelta(hours=hours) for hours in part)
    counted = sun_minutes(start.to_pydatetime(), end.to_pydatetime(), *place)
    expected = light[start:end].sum() / light.max()
    assert counted == pytest.approx(expected, rel=5e-3, abs=0.3)  # a third of a minute at sunrise


def test_a_clear_noon_minute_is_one_sun_minute():
    noon = solar_noon(DAY, 16.0)
    half = dt.timedelta(seconds=30)
    assert sun_minutes(noon - half, noon + half, 46.4, 16.0) == pytest.approx(1, abs=1e-4)
    assert sun_weight(noon, 46.4, 16.0) == pytest.approx(1, abs=1e-9)


def test_under_an_overcast_four_minutes_count_as_one():
    """Kasten and Czeplak 1980: an overcast sky lets 25 % through."""
    noon = solar_noon(DAY, 16.0)
    span = (noon - dt.timedelta(minutes=55), noon + dt.timedelta(minutes=55), 46.4, 16.0)
    assert sun_minutes(*span, share_passed(1.0)) == pytest.approx(sun_minutes(*span) / 4)
    assert 26 < sun_minutes(*span, share_passed(1.0)) < 27.5


@pytest.mark.parametrize(
    ("cloud", "share"), [(0, 1), (0.25, 0.9933), (0.5, 0.9289), (0.75, 0.718), (1, 0.25)]
)
def test_cloud_and_cloth_both_take_their_part(cloud, share):
    """1 - 0.75 (N/8)^3.4: Kasten and Czeplak 1980. A cloth of 40 % leaves 60 %, as its name says."""
    assert share_passed(cloud) == pytest.approx(share, abs=1e-4)
    assert share_passed(cloud, 0.4) == pytest.approx(0.6 * share, abs=1e-4)


@pytest.mark.parametrize("share", [0.2, 0.55, 1.0, 1.3])
def test_a_forecast_of_light_is_a_share_of_pvlibs_clear_hour(share):
    light = clear_light(46.4, 16.0)
    start = light.idxmax().floor("h") - pd.Timedelta(hours=3)
    hour = light[start : start + pd.Timedelta(hours=1)].mean()
    said = share_of_clear(
        start.to_pydatetime(), (start + pd.Timedelta(hours=1)).to_pydatetime(), 46.4, 16.0, share * hour
    )
    assert said == pytest.approx(min(1.0, share), abs=2e-3)


def test_by_night_a_share_of_the_clear_light_is_not_known():
    assert np.isnan(share_of_clear(np.datetime64("2027-05-14T22"), np.datetime64("2027-05-14T23"), 46, 16, 0))


def test_without_a_noon_sun_nothing_counts():
    dark = dt.date(2027, 12, 21)
    assert noon_light(dark, 75.0, 20.0) == 0
    assert clear_day_minutes(dark, 75.0, 20.0) == 0
    assert sun_weight(np.datetime64("2027-12-21T11"), 75.0, 20.0) == 0


@pytest.mark.parametrize(("cloud", "cloth", "said"), [(1.2, 0, "cloud is 1.2"), (0, -0.1, "cloth is -0.1")])
def test_a_share_beyond_the_whole_is_refused(cloud, cloth, said):
    with pytest.raises(ValueError, match=said):
        share_passed(cloud, cloth)


spans = st.tuples(st.floats(-70, 70), st.floats(-180, 180), st.integers(-700, 690), st.integers(0, 600))


def span_of(latitude, longitude, begins, lasts):
    """A span inside the solar day of DAY."""
    noon = solar_noon(DAY, longitude)
    start = noon + dt.timedelta(minutes=begins)
    return start, min(start + dt.timedelta(minutes=lasts), noon + dt.timedelta(minutes=700))


@given(spans, st.floats(0, 1), st.floats(0, 1))
def test_more_cloud_or_cloth_never_gives_more_light(given_span, one, other):
    start, end = span_of(*given_span)
    thin, thick = sorted((one, other))
    for less, more in (
        (share_passed(thick), share_passed(thin)),
        (share_passed(0.3, thick), share_passed(0.3, thin)),
    ):
        place = given_span[:2]
        assert sun_minutes(start, end, *place, less) <= sun_minutes(start, end, *place, more) + 1e-9


@given(spans)
def test_sun_minutes_never_pass_the_minutes_of_the_clock(given_span):
    start, end = span_of(*given_span)
    counted = sun_minutes(start, end, *given_span[:2])
    assert 0 <= counted <= (end - start).total_seconds() / 60 + 1e-9


@given(spans, st.floats(0, 1))
def test_two_parts_count_as_much_as_the_whole(given_span, at):
    start, end = span_of(*given_span)
    middle = start + (end - start) * at
    place = given_span[:2]
    whole = sun_minutes(start, end, *place)
    parts = sun_minutes(start, middle, *place) + sun_minutes(middle, end, *place)
    assert parts == pytest.approx(whole, abs=0.05)
