"""The hours proposed are warm, calm, dry and sunny, and the gentlest of those: gates worked by hand.

Sunrise, noon and sunset come from pvlib (NREL's solar position algorithm); the hours of a day without an
hourly forecast from the curve tested in tests/agronomy/test_day_curve.py.
"""

from datetime import date, timedelta

import pandas as pd
import pvlib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.agronomy.hardening import HoldLimits
from greenroom.ledger.facts import PlaceSet, SkySeen
from greenroom.season.air_ahead import air_between
from greenroom.season.counted import SUN
from greenroom.season.deeds_outdoors import set_yard_sun
from greenroom.season.outdoors_why import window_why, window_words
from greenroom.season.outing_windows import (
    GUSTS,
    LOW_SUN,
    NO_SUN,
    RAIN,
    TOO_COLD,
    Part,
    day_windows,
)
from greenroom.season.outings import midnight
from greenroom.season.place import place_of
from greenroom.season.proposal import RefusedError
from greenroom.season.yard_sun import yard_sun
from tests.season._yard import FIRST, RIDGE, SYDNEY, TRAY, WINNIPEG, Yard, day

USUAL = HoldLimits()
HOUR = timedelta(hours=1)


def windows(yard, minutes=20, when=FIRST, limits=USUAL, **more):
    return day_windows(yard.season, when, minutes, limits, **more)


def hourly(yard, when=FIRST, **columns):
    """A forecast of the 24 hours of a day; each column gives a value an hour, or one for all."""
    start = midnight(when, yard.zone)

    def value(name, hour, usual):
        told = columns.get(name, usual)
        return told[hour] if isinstance(told, list) else told

    rows = [
        (
            start + hour * HOUR,
            value("celsius", hour, 15.0),
            value("cloud", hour, 0.0),
            value("gust", hour, 3.0),
            value("rain", hour, 0.0),
        )
        for hour in range(26)
        if hour < 24 or "celsius" not in columns
    ]
    yard.forecast(start - HOUR, hours=rows)


def solar_noon_of(yard, when=FIRST):
    place = place_of(yard.season)
    stamp = pd.DatetimeIndex([pd.Timestamp(when, tz="UTC") + pd.Timedelta(hours=12 - place.longitude / 15)])
    sun = pvlib.solarposition.sun_rise_set_transit_spa(stamp.normalize(), place.latitude, place.longitude)
    return sun["transit"].iloc[0].floor("s").to_pydatetime()


# ------------------------------------------------------------------------------------------------- the gates


def test_a_mild_day_is_open_from_the_floor_to_the_evening():
    yard = Yard()
    yard.weather({FIRST: {"tmin_c": 6.0, "tmax_c": 20.0}})
    found = windows(yard)
    air = air_between(yard.season, found.open[0].start, found.open[0].start + timedelta(minutes=5))
    assert air.temperature_c[0] == pytest.approx(10, abs=0.2)
    assert yard.clock(found.open[0].start) > "06:00"
    assert TOO_COLD in found.closed[0].reasons
    assert not found.by_hour
    assert found.known


def test_the_forecasts_hours_go_before_the_curve():
    yard = Yard()
    yard.weather({FIRST: {"tmin_c": 6.0, "tmax_c": 20.0}})
    hourly(yard, celsius=[8.0] * 11 + [12.0] * 13)
    found = windows(yard)
    # straight from 8 at 10:00 to 12 at 11:00: 10 at half past ten
    assert yard.clock(found.open[0].start) == "10:30"


@pytest.mark.parametrize(("floor", "opens"), [(4.4, "05:40"), (10.0, "10:30"), (13.0, None)])
def test_each_crop_has_its_own_floor(floor, opens):
    yard = Yard()
    hourly(yard, celsius=[8.0] * 11 + [12.0] * 13)
    found = windows(yard, limits=HoldLimits(cold_c=floor))
    assert [yard.clock(span.start) for span in found.open] == ([] if opens is None else [opens])


def test_gusty_hours_are_closed_and_a_gusty_day_without_hours_is_closed_whole():
    yard, told_by_day = Yard(), Yard()
    hourly(yard, gust=[3.0] * 12 + [13.0] * 14)
    told_by_day.weather({FIRST: {"tmin_c": 12.0, "gust_ms": 13.0}})
    found = windows(yard, minutes=120)
    assert yard.clock(found.open[-1].end) == "12:00"
    assert found.best.end <= yard.at(FIRST, "12:00")
    assert any(GUSTS in span.reasons for span in found.closed)
    assert windows(told_by_day).open == ()
    assert windows(told_by_day).best is None
    assert windows(told_by_day).outing is None


def test_rain_of_more_than_two_and_a_half_millimetres_an_hour_closes_its_hour():
    yard = Yard()
    hourly(yard, rain=[0.0] * 9 + [2.5, 2.6] + [0.0] * 15)
    found = windows(yard)
    rainy = [span for span in found.closed if RAIN in span.reasons]
    assert [(yard.clock(span.start), yard.clock(span.end)) for span in rainy] == [("10:00", "11:00")]


def test_what_is_not_known_closes_no_hour():
    found = windows(Yard())
    assert not found.known
    assert found.best.whole
    assert all(set(span.reasons) <= {NO_SUN, LOW_SUN} for span in found.closed)


def test_without_a_place_the_weather_still_opens_and_closes():
    yard = Yard()
    hourly(yard, celsius=[8.0] * 11 + [12.0] * 13)
    (placed,) = yard.season.facts(PlaceSet)
    yard.write(strike=(placed.id,))
    found = day_windows(yard.season, FIRST, 30, USUAL)
    assert found.yard is None
    assert found.best is None


# ------------------------------------------------------------------------------------------- the best window


def test_few_minutes_go_out_in_the_morning_and_many_over_noon():
    yard = Yard()
    yard.weather({FIRST: {"tmin_c": 12.0}})
    parts = {minutes: windows(yard, minutes).best.part for minutes in (20, 55, 155, 305, 600)}
    assert parts == {
        20: Part.MORNING,
        55: Part.MORNING,
        155: Part.MORNING,
        305: Part.MIDDAY,
        600: Part.MIDDAY,
    }


def test_when_the_morning_is_too_short_the_late_afternoon_is_next():
    yard = Yard()
    hourly(yard, celsius=[8.0] * 10 + [12.0] * 14)
    assert windows(yard, 20).best.part is Part.MORNING
    best = windows(yard, 155).best
    assert best.part is Part.AFTERNOON
    assert best.start >= solar_noon_of(yard) + 2 * HOUR - timedelta(minutes=1)
    assert windows(yard, 300).best.part is Part.MIDDAY


@pytest.mark.parametrize("place", [RIDGE, SYDNEY, WINNIPEG])
@pytest.mark.parametrize("minutes", [20, 80, 110])
def test_the_window_proposed_has_the_gentlest_light_of_its_part(place, minutes):
    """Checked against every other window of the same length, by pvlib's clear sky."""
    yard = Yard(place)
    best = windows(yard, minutes).best
    stamps = pd.date_range(midnight(FIRST, yard.zone), periods=1440, freq="1min") + pd.Timedelta("30s")
    zenith = pvlib.solarposition.get_solarposition(stamps, place[1], place[2])["zenith"]
    light = pvlib.clearsky.haurwitz(zenith)["ghi"]
    share = (light / light.max()).to_numpy()
    noon = solar_noon_of(yard)
    start = midnight(FIRST, yard.zone)

    def mean(at):
        first = round((at - start) / timedelta(minutes=1))
        return share[first : first + minutes].mean()

    others = []
    for number in range(0, 1440 - minutes, 5):
        first = start + timedelta(minutes=number)
        lit = share[number : number + minutes]
        if first + timedelta(minutes=minutes) <= noon - 2 * HOUR and lit.min() >= 0.255:
            others.append(mean(first))
    assert best.part is Part.MORNING
    assert mean(best.start) <= min(others) + 0.005
    assert best.minutes == minutes
    assert best.sun_minutes == pytest.approx(mean(best.start) * minutes, rel=0.01)


def test_an_hour_of_cloud_in_the_morning_is_gentler_than_an_earlier_one_of_sun():
    yard = Yard()
    hourly(yard, cloud=[0.0] * 9 + [1.0] + [0.0] * 16)
    best = windows(yard, 40).best
    assert yard.at(FIRST, "9:00") <= best.start < best.end <= yard.at(FIRST, "10:00")
    assert best.part is Part.MORNING
    assert best.sun_minutes < windows(Yard(), 40).best.sun_minutes


def test_late_in_the_afternoon_the_latest_hours_are_the_gentlest():
    yard = Yard()
    hourly(yard, celsius=[8.0] * 10 + [12.0] * 14)
    found = windows(yard, 155)
    assert found.best.part is Part.AFTERNOON
    assert found.best.end > found.sunny[-1].end - timedelta(minutes=5)


def test_in_sun_minutes_a_window_is_as_long_as_the_light_makes_it():
    yard = Yard()
    yard.weather({FIRST: {"tmin_c": 12.0}})
    best = windows(yard, 55, by=SUN).best
    assert best.minutes > 100
    assert best.sun_minutes == pytest.approx(55)
    yard.write(SkySeen(day=FIRST, at=yard.at(FIRST, "0:10"), cloud=1.0))
    clouded = windows(yard, 55, by=SUN).best
    assert clouded.minutes > best.minutes
    assert clouded.light_mol_m2 == pytest.approx(best.light_mol_m2)


def test_more_than_the_day_holds_is_offered_as_far_as_it_goes_and_said():
    yard = Yard()
    yard.do(set_yard_sun(yard.season, 9 * 60, 13 * 60, FIRST))
    best = windows(yard, 600).best
    assert not best.whole
    assert (yard.clock(best.start), yard.clock(best.end)) == ("09:00", "13:00")
    assert window_words(best, place_of(yard.season)).endswith("the longest there is")


def test_nothing_is_proposed_for_hours_that_are_past():
    yard = Yard()
    yard.weather({FIRST: {"tmin_c": 12.0}})
    early = windows(yard, 55)
    now = yard.at(FIRST, "9:30")
    late = windows(yard, 55, now=now)
    assert early.best.start < now <= late.best.start
    assert windows(yard, 55, now=yard.at(FIRST, "22:00")).best is None


def test_minutes_that_are_no_whole_steps_end_to_the_minute():
    best = windows(Yard(), 22).best
    assert best.end - best.start == timedelta(minutes=22)


# -------------------------------------------------------------------------------------------------- the shade


def test_shade_follows_a_mornings_sun_and_comes_before_any_other():
    yard = Yard()
    yard.weather({FIRST: {"tmin_c": 12.0}})
    morning = windows(yard, 20, outdoors=120).outing
    assert (morning.shade_before, morning.shade_after) == (0, 100)
    hourly(yard, celsius=[8.0] * 10 + [12.0] * 14)
    afternoon = windows(yard, 155, outdoors=400).outing
    assert afternoon.sun.part is Part.AFTERNOON
    assert (afternoon.shade_before, afternoon.shade_after) == (245, 0)
    noon = windows(yard, 425, outdoors=600).outing
    assert noon.sun.part is Part.MIDDAY
    assert noon.shade_before + noon.shade_after <= 175


def test_shade_never_reaches_into_the_night_or_a_closed_hour():
    yard = Yard()
    hourly(yard, celsius=[12.0] * 24, rain=[0.0] * 9 + [6.0] + [0.0] * 15)
    found = windows(yard, 55, outdoors=600).outing
    assert found.back <= yard.at(FIRST, "9:00")
    long = windows(Yard(), 20, outdoors=1300).outing
    sun = pvlib.solarposition.sun_rise_set_transit_spa(pd.DatetimeIndex([f"{FIRST}T00:00Z"]), *RIDGE[1:])
    assert long.out >= sun["sunrise"].iloc[0] - pd.Timedelta("6min")
    assert long.back <= sun["sunset"].iloc[0] + pd.Timedelta("6min")


def test_a_day_of_shade_alone_gets_its_hours():
    yard = Yard()
    yard.weather({FIRST: {"tmin_c": 6.0}})
    found = windows(yard, 0, outdoors=180)
    assert found.best is None
    assert found.outing.sun is None
    assert found.outing.shade_before == 180
    assert found.outing.out == next(span.start for span in found.open if span.minutes > 180)
    assert windows(yard, 0).outing is None


# ------------------------------------------------------------------------------------------ sun on the step


def test_sun_on_the_step_bounds_what_is_proposed():
    yard = Yard()
    yard.weather({FIRST: {"tmin_c": 12.0}})
    yard.do(set_yard_sun(yard.season, 8 * 60 + 40, 15 * 60 + 10, FIRST))
    found = windows(yard, 55)
    assert yard.clock(found.best.start) == "08:40"
    assert [yard.clock(span.start) for span in found.sunny] == ["08:40"]
    assert [yard.clock(end) for end in found.yard] == ["08:40", "15:10"]
    assert any(span.reasons == (NO_SUN,) for span in found.closed)


@pytest.mark.parametrize(
    ("place", "told", "later", "hours"),
    [
        # The clocks go forward between the two days (IANA tz: Slovenia 28 March, Winnipeg 14 March 2027),
        # so the same sun is an hour later by the clock; and back (New South Wales 4 April 2027).
        (RIDGE, date(2027, 3, 27), date(2027, 3, 28), 1),
        (WINNIPEG, date(2027, 3, 13), date(2027, 3, 14), 1),
        (SYDNEY, date(2027, 4, 3), date(2027, 4, 4), -1),
        (RIDGE, date(2027, 10, 30), date(2027, 10, 31), -1),
    ],
)
def test_sun_on_the_step_keeps_to_the_sun_when_the_clocks_change(place, told, later, hours):
    yard = Yard(place, begun=None)
    yard.do(set_yard_sun(yard.season, 10 * 60, 14 * 60, told))
    here = place_of(yard.season)
    before, after = yard_sun(yard.season, told), yard_sun(yard.season, later)
    assert [yard.clock(moment) for moment in before] == ["10:00", "14:00"]
    for was, now in zip(before, after, strict=True):
        passed = (now - was).total_seconds() / 60 - 1440
        assert abs(passed) < 1  # the equation of time moves by half a minute a day at most
        wall = here.local(now).replace(tzinfo=None) - here.local(was).replace(tzinfo=None)
        assert wall.total_seconds() / 60 - 1440 == pytest.approx(60 * hours, abs=1)


def test_sun_on_the_step_never_outlasts_the_sun():
    yard = Yard()
    yard.do(set_yard_sun(yard.season, 4 * 60, 22 * 60, FIRST))
    winter = yard_sun(yard.season, date(2027, 12, 21))
    sun = pvlib.solarposition.sun_rise_set_transit_spa(pd.DatetimeIndex(["2027-12-21T00:00Z"]), *RIDGE[1:])
    assert abs((winter[0] - sun["sunrise"].iloc[0]).total_seconds()) < 90
    assert abs((winter[1] - sun["sunset"].iloc[0]).total_seconds()) < 90


@pytest.mark.parametrize(("first", "last"), [(600, 600), (700, 600), (-5, 600), (600, 1500)])
def test_hours_of_sun_that_cannot_be_are_refused(first, last):
    yard = Yard()
    with pytest.raises(RefusedError, match="it must leave after it came"):
        set_yard_sun(yard.season, first, last, FIRST)


# ------------------------------------------------------------------------------------------------- why, laws


def test_the_reasons_name_what_closed_the_day_and_where_the_temperature_came_from():
    yard = Yard()
    yard.weather({FIRST: {"tmin_c": 6.0}})
    place = place_of(yard.season)
    told = dict(window_why(windows(yard), place).inputs)
    assert told["temperature from"] == "a curve between the day's coldest and warmest"
    assert any(name.startswith("closed ") and "too cold" in value for name, value in told.items())
    hourly(yard)
    assert dict(window_why(windows(yard), place).inputs)["temperature from"] == "the forecast's hours"
    figure = window_why(windows(Yard()), place).figure
    assert figure.startswith("Out 8 May: ")
    assert figure.endswith(", in the morning")


@given(
    st.lists(st.floats(-5, 30), min_size=24, max_size=24),
    st.lists(st.floats(0, 20), min_size=24, max_size=24),
    st.lists(st.sampled_from([0.0, 0.0, 1.0, 4.0]), min_size=24, max_size=24),
    st.sampled_from([20, 55, 155, 425]),
)
def test_no_window_breaks_a_gate_and_less_is_always_found_where_more_is(celsius, gusts, rain, minutes):
    yard = Yard()
    hourly(yard, celsius=celsius, gust=gusts, rain=rain)
    found = windows(yard, minutes, outdoors=minutes + 100)
    if found.best is None:
        assert found.sunny == ()
        return
    air = air_between(yard.season, found.best.start, found.best.end)
    known = air.temperature_c == air.temperature_c
    assert (air.temperature_c[known] >= USUAL.cold_c - 1e-9).all()
    assert (air.gust_ms[air.gust_ms == air.gust_ms] < USUAL.gust_m_s).all()
    assert (air.rain_mm_h[air.rain_mm_h == air.rain_mm_h] <= 2.5).all()
    assert found.outing.out <= found.best.start < found.best.end <= found.outing.back
    if found.best.whole:
        assert windows(yard, minutes / 2).best.whole
        order = list(Part)
        assert order.index(windows(yard, minutes / 2).best.part) <= order.index(found.best.part)


@given(st.sampled_from([RIDGE, SYDNEY, WINNIPEG]), st.integers(0, 364), st.sampled_from([20, 155, 600]))
def test_every_day_of_the_year_has_spans_in_order_inside_its_own_midnights(place, number, minutes):
    yard = Yard(place)
    when = date(2027, 1, 1) + timedelta(days=number)
    found = windows(yard, minutes, when)
    first, last = midnight(when, yard.zone), midnight(when + timedelta(days=1), yard.zone)
    for spans in (found.open, found.sunny, found.closed):
        edges = [moment for span in spans for moment in (span.start, span.end)]
        assert edges == sorted(edges)
        assert all(first <= moment <= last for moment in edges)
    assert found.best is None or any(
        span.start <= found.best.start and found.best.end <= span.end for span in found.sunny
    )


def test_a_holders_cloth_makes_its_windows_longer_by_the_sun():
    yard = Yard()
    yard.write(SkySeen(day=FIRST, at=yard.at(FIRST, "0:10"), cloud=0.0, cloth=0.5, holder=TRAY))
    bare, covered = (windows(yard, 40, by=SUN, holder=holder).best for holder in ("another", TRAY))
    assert covered.minutes > bare.minutes


def test_tomorrow_is_proposed_by_tomorrows_weather():
    yard = Yard()
    yard.weather({FIRST: {"tmin_c": 12.0}, day(2): {"tmin_c": 2.0, "tmax_c": 9.0}})
    assert windows(yard, 20).best is not None
    assert windows(yard, 20, when=day(2)).best is None
