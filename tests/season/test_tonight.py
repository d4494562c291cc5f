"""Out overnight only when hardened and warm enough; cold snaps are told with what to do and until when.

Floors: nights of 50 °F for peppers (University of Minnesota Extension), harm to pepper leaves below 50 °F
(Michigan State University Extension 2022), in below 45 °F (University of Maryland Extension 2023), frost at
33 to 36 °F (National Weather Service). The margin of 2 °C is this program's own.
"""

from datetime import date, timedelta

import pandas as pd
import pvlib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.ledger.facts import Held, HolderMade, Sown, Sprouted
from greenroom.season.air_ahead import air_between
from greenroom.season.cold_snap import (
    Level,
    cold_snaps,
    crops_standing_out,
    snap_why,
    snap_words,
)
from greenroom.season.deeds_harden import go_out
from greenroom.season.place import place_of
from greenroom.season.tonight import Cause, Verdict, night_of, tonight, tonight_why, tonight_words
from tests.season._yard import FIRST, MADE, RIDGE, STEPS, TRAY, WINNIPEG, Yard, day

HOUR = timedelta(hours=1)
LAST = day(11)


def hardened(place=RIDGE, crop="pepper"):
    yard = Yard(place, crop)
    for number, minutes in enumerate(STEPS, start=1):
        yard.out(day(number), "6:00", minutes)
    return yard


def night(yard, when=LAST, clock="18:00"):
    return tonight(yard.season, yard.stand(when, clock))


def lows(yard, **by_day):
    """Forecast coldest temperatures of the mornings of May."""
    yard.weather({date(2027, 5, int(name[1:])): {"tmin_c": low} for name, low in by_day.items()})


def sunset(when, place=RIDGE):
    stamp = pd.DatetimeIndex([pd.Timestamp(when, tz="UTC")])
    return pvlib.solarposition.sun_rise_set_transit_spa(stamp, *place[1:])["sunset"].iloc[0]


@pytest.mark.parametrize(
    ("low", "verdict", "cause"),
    [
        (12.5, Verdict.STAY_OUT, Cause.NONE),
        (12.0, Verdict.STAY_OUT, Cause.NONE),
        (11.9, Verdict.IN_BEFORE, Cause.NEAR_COLD),
        (10.0, Verdict.IN_BEFORE, Cause.NEAR_COLD),
        (9.9, Verdict.IN_BEFORE, Cause.COLD),
    ],
)
def test_hardened_peppers_stay_out_only_well_above_ten_degrees(low, verdict, cause):
    yard = hardened()
    lows(yard, d18=12.0, d19=low)
    found = night(yard)
    assert (found.verdict, found.cause, found.floor_c, found.low_c) == (verdict, cause, 10.0, low)


def test_a_tray_that_is_not_hardened_comes_in_however_warm_the_night():
    yard = Yard()
    lows(yard, d8=18.0, d9=19.0)
    found = night(yard, FIRST)
    assert (found.verdict, found.cause) == (Verdict.IN_BEFORE, Cause.NOT_HARDENED)
    assert abs((found.before - sunset(FIRST)).total_seconds()) < 90


def test_a_night_that_is_not_forecast_is_taken_as_cold():
    found = night(hardened())
    assert (found.verdict, found.cause, found.low_c) == (Verdict.IN_BEFORE, Cause.NOT_KNOWN, None)
    assert abs((found.before - sunset(LAST)).total_seconds()) < 90


def test_cabbage_may_stay_where_peppers_may_not():
    pepper, cabbage = hardened(), hardened(crop="cabbage")
    for yard in (pepper, cabbage):
        lows(yard, d18=5.0, d19=4.0)
    assert not night(pepper).stay_out
    assert night(cabbage).stay_out


def test_gusts_in_the_night_bring_even_hardened_trays_in():
    yard = hardened()
    yard.weather({LAST: {"tmin_c": 13.0}, day(12): {"tmin_c": 13.0, "gust_ms": 14.0}})
    found = night(yard)
    assert (found.cause, found.gust_ms) == (Cause.WIND, 14.0)


def test_in_before_the_air_falls_through_the_floor_if_that_is_before_dusk():
    yard = hardened()
    yard.weather({LAST: {"tmin_c": 2.0, "tmax_c": 13.0}, day(12): {"tmin_c": 1.0, "tmax_c": 13.0}})
    found = night(yard)
    assert found.before == found.falls < found.dusk
    air = air_between(yard.season, found.falls - 2 * HOUR, found.falls + HOUR)
    celsius = air.temperature_c
    crossing = round(2 * HOUR / (air.moments[1] - air.moments[0]))
    assert (celsius[:crossing] >= 10).all()
    assert celsius[crossing] < 10


def test_the_hours_of_the_forecast_tell_when_it_falls():
    yard = hardened()
    start = yard.at(LAST, "12:00")
    told = [18.0, 18.0, 17.0, 16.0, 15.0, 12.0, 8.0, 7.0, 7.0, 6.0] + [5.0] * 14
    yard.forecast(
        start - HOUR, hours=[(start + number * HOUR, celsius) for number, celsius in enumerate(told)]
    )
    found = night(yard)
    # straight from 12 at 17:00 to 8 at 18:00: 10 at half past five, below within five minutes
    assert timedelta(0) < found.falls - yard.at(LAST, "17:30") <= timedelta(minutes=5)
    assert found.before == found.falls
    assert found.low_c == 5.0
    assert tonight_words(found, place_of(yard.season)) == f"in before {yard.clock(found.falls)}, low 5 °C"


def test_beyond_the_polar_circle_the_night_is_that_of_the_clock():
    yard = Yard(("Arctic/Longyearbyen", 78.2, 15.6))
    dusk, dawn = night_of(yard.season, date(2027, 6, 21))
    assert (yard.clock(dusk), yard.clock(dawn)) == ("20:00", "07:00")


def test_the_reason_names_margin_floor_and_hours_in_the_growers_unit():
    yard = hardened()
    lows(yard, d18=12.0, d19=6.0)
    place = place_of(yard.season)
    why = tonight_why(night(yard), yard.stand(LAST, "18:00"), place)
    inputs = dict(why.inputs)
    assert inputs["hardened"] == "yes"
    assert inputs["coldest of the night"] == "6 °C"
    assert inputs["floor of its nights"] == "10 °C"
    assert "2 °C" in why.rule
    assert why.figure.startswith("Tonight: in before ")


@given(st.floats(-5, 25), st.floats(0, 10), st.booleans())
def test_a_warmer_night_is_never_answered_with_an_earlier_hour(low, more, ready):
    yards = [hardened() if ready else Yard() for _ in range(2)]
    when = LAST if ready else FIRST
    found = []
    for yard, extra in zip(yards, (0, more), strict=True):
        yard.weather(
            {when + timedelta(days=n): {"tmin_c": low + extra, "tmax_c": low + extra + 9} for n in (0, 1)}
        )
        found.append(night(yard, when))
    cold, warm = found
    assert not (cold.stay_out and not warm.stay_out)
    if cold.before is not None and warm.before is not None:
        assert warm.before >= cold.before


# ------------------------------------------------------------------------------------------------ cold snaps


def snaps(yard, crops=("pepper",), today=FIRST):
    return cold_snaps(yard.season, crops, today)


def test_nights_above_the_floor_are_no_snap():
    yard = Yard()
    lows(yard, d9=11.0, d10=10.0)
    assert snaps(yard) == []
    assert snaps(Yard()) == []
    assert cold_snaps(yard.season, (), FIRST) == []


@pytest.mark.parametrize(
    ("low", "level"),
    [(9.9, Level.COOL), (7.2, Level.COOL), (7.1, Level.CHILL), (2.1, Level.CHILL), (2.0, Level.FROST)],
)
def test_a_cold_night_is_as_bad_as_the_limits_say(low, level):
    yard = Yard()
    lows(yard, d8=12.0, d9=low, d10=13.0)
    (found,) = snaps(yard)
    assert (found.level, found.low_c) == (level, low)
    assert [one.day for one in found.nights] == [FIRST]


def test_each_crop_is_warned_for_by_its_own_limits():
    yard = Yard()
    lows(yard, d9=6.0, d10=4.0, d11=1.0, d12=14.0)
    pepper, tomato, cabbage = (snaps(yard, (crop,)) for crop in ("pepper", "tomato", "cabbage"))
    assert [night.level for night in pepper[0].nights] == [Level.CHILL, Level.CHILL, Level.FROST]
    assert [night.level for night in tomato[0].nights] == [Level.COOL, Level.CHILL, Level.FROST]
    assert cabbage == []
    assert [night.level for night in snaps(yard, ("cabbage", "pepper"))[0].nights] == [
        night.level for night in pepper[0].nights
    ]


def test_a_snap_begins_at_dusk_and_ends_when_the_air_is_back_at_the_floor():
    yard = Yard()
    yard.weather(
        {
            date(2027, 5, number): {"tmin_c": low, "tmax_c": 18.0}
            for number, low in ((8, 12.0), (9, 5.0), (10, 6.0), (11, 12.0))
        }
    )
    (found,) = snaps(yard)
    assert len(found.nights) == 2
    assert abs((found.begins - sunset(FIRST)).total_seconds()) < 90
    local = found.until.astimezone(yard.zone)
    assert local.date() == date(2027, 5, 10)
    assert 7 <= local.hour <= 10
    back = air_between(yard.season, found.until - HOUR, found.until + HOUR).temperature_c
    assert back[0] < 10 <= back[12]
    assert not found.open_end
    words = snap_words(found, place_of(yard.season))
    assert words.startswith("Cold for 2 nights from 8 May, down to 5 °C, until ")


def test_two_snaps_are_told_apart_and_the_next_comes_first():
    yard = Yard()
    lows(yard, d9=5.0, d10=13.0, d11=13.0, d12=1.0, d13=13.0)
    first, second = snaps(yard)
    assert (first.nights[0].day, second.nights[0].day) == (FIRST, date(2027, 5, 11))
    assert (first.level, second.level) == (Level.CHILL, Level.FROST)


def test_a_snap_at_the_end_of_the_forecast_has_no_end():
    yard = Yard()
    lows(yard, d9=12.0, d10=4.0)
    (found,) = snaps(yard)
    assert found.open_end
    assert "until" not in snap_words(found, place_of(yard.season))


@pytest.mark.parametrize(("nights", "too_long"), [(3, False), (4, True)])
def test_more_than_three_nights_at_five_degrees_are_too_many_for_peppers(nights, too_long):
    """Javanmardi and others 2013: peppers bear three days at 5 °C."""
    yard = Yard()
    yard.weather(
        {day(2 + number): {"tmin_c": 5.0} for number in range(nights)} | {day(2 + nights): {"tmin_c": 13}}
    )
    (found,) = snaps(yard)
    assert found.too_long is too_long
    assert ("5 °C or colder run on" in found.to_do[-1]) is too_long


def test_what_to_do_says_cover_mulch_and_carry_in():
    yard = Yard()
    lows(yard, d9=1.0, d10=14.0)
    (found,) = snaps(yard)
    told = " ".join(found.to_do).lower()
    assert all(word in told for word in ("cover", "mulch", "carry in", "uncover"))
    why = snap_why(found, place_of(yard.season))
    assert ("night of 8 May", "1 °C") in why.inputs
    assert "7 °C" in why.rule


def test_what_stands_out_is_in_beds_or_is_out_now():
    yard = Yard()
    bed = "bed-1"
    yard.write(HolderMade(day=MADE, holder=bed, name="South bed", form="bed", rows=1, columns=2))
    assert crops_standing_out(yard.season) == ()
    spot = {"holder": bed, "row": 0, "column": 0}
    yard.write(Sown(day=MADE, packet="p-pepper-0", **spot), Sprouted(day=date(2027, 4, 2), **spot))
    assert crops_standing_out(yard.season) == ("pepper",)


def test_a_tray_that_is_out_now_is_warned_for():
    yard = Yard(WINNIPEG, crop="tomato")
    assert crops_standing_out(yard.season) == ()
    yard.do(go_out(yard.season, TRAY, yard.at(FIRST, "8:00")))
    assert crops_standing_out(yard.season) == ("tomato",)


def test_a_day_kept_in_leaves_the_night_as_it_is():
    yard = hardened()
    lows(yard, d18=13.0, d19=14.0, d20=14.0)
    yard.write(Held(day=day(12), holder=TRAY, why="away"))
    assert night(yard, day(12)).stay_out
