"""Each day ahead has its minutes and its hours; a held day with fit hours says so.

The rules of the gates are tested in test_outing_windows.py, those of the plan in test_two_clocks.py.
"""

from datetime import timedelta

from greenroom.agronomy.hardening import DayWeather, HoldLimits, Ramp, verdict
from greenroom.ledger.facts import Held
from greenroom.season.counted import SUN
from greenroom.season.days_out import days_out
from greenroom.season.deeds_outdoors import count_by, set_ramp
from greenroom.season.hardening import forecast_from
from greenroom.season.outdoors_why import GUST_M_S, RAIN_MM, hold_why, shade_plan_words
from greenroom.season.outings import midnight
from greenroom.season.place import place_of
from tests.season._yard import FIRST, STEPS, TRAY, Yard, day

HOUR = timedelta(hours=1)


def ahead(yard, when=FIRST, clock="6:00"):
    found = days_out(yard.season, yard.stand(when, clock), yard.at(when, clock))
    return [one for one in found if one.date == when or one.date in forecast_from(yard.season, when)]


def known(yard, count=5, **changes):
    yard.weather({day(number): {"tmin_c": 12.0} | changes for number in range(1, count + 1)})


def test_today_and_each_forecast_day_get_their_minutes_and_hours():
    yard = Yard()
    known(yard)
    found = ahead(yard)
    assert [one.date for one in found] == [day(number) for number in range(1, 6)]
    assert [one.windows.asked for one in found] == STEPS[:5]
    assert all(one.windows.best.whole for one in found)
    assert [one.windows.outing.shade_after for one in found] == [100, 150, 200, 245, 280]


def test_today_is_planned_even_without_weather():
    found = ahead(Yard())
    assert [one.date for one in found] == [FIRST]
    assert found[0].windows.best.whole
    assert not found[0].windows.known


def test_tender_trays_stand_sheltered_for_their_first_three_steps_and_hardy_ones_need_not():
    pepper, cabbage = Yard(), Yard(crop="cabbage")
    for yard in (pepper, cabbage):
        known(yard)
    assert [one.sheltered for one in ahead(pepper)] == [True, True, True, False, False]
    assert [one.sheltered for one in ahead(cabbage)] == [False] * 5


def test_a_breezy_day_is_sheltered_for_any_tray():
    yard = Yard(crop="cabbage")
    known(yard, gust_ms=8.0)
    assert all(one.sheltered for one in ahead(yard))


def test_only_what_is_left_of_today_is_asked_for():
    yard = Yard()
    yard.out(FIRST, "7:00", 8, 40)
    today = ahead(yard, clock="9:00")[0]
    assert today.windows.asked == 12
    assert today.windows.best.start >= yard.at(FIRST, "9:00")
    outing = today.windows.outing
    assert outing.shade_before + outing.shade_after == 120 - 48 - 12


def test_a_day_with_its_sun_done_asks_for_its_shade_alone():
    yard = Yard()
    yard.out(FIRST, "7:00", 20)
    today = ahead(yard, clock="9:00")[0]
    assert today.windows.best is None
    assert today.windows.outing.sun is None
    assert today.windows.outing.shade_before == 100


def test_a_held_day_tells_of_the_calm_hours_before_the_wind():
    yard = Yard()
    yard.weather({FIRST: {"tmin_c": 12.0, "gust_ms": 15.0}})
    by_day = ahead(yard)[0]
    assert by_day.held
    assert not by_day.gap
    assert by_day.windows.best is None
    start = midnight(FIRST, yard.zone)
    yard.forecast(
        start - HOUR,
        {FIRST: {"tmin_c": 12.0, "gust_ms": 15.0}},
        [(start + n * HOUR, 15.0, 0.0, 3.0 if n < 11 else 15.0, 0.0) for n in range(26)],
    )
    by_hour = ahead(yard)[0]
    assert by_hour.held
    assert by_hour.gap
    assert by_hour.windows.best.end <= yard.at(FIRST, "11:00")
    assert not by_hour.sheltered


def test_a_day_of_rest_or_kept_in_asks_for_nothing():
    yard = Yard()
    yard.out(FIRST, "7:00", 20)
    yard.setback(FIRST, "7:15", "scorch")
    resting = ahead(yard, day(2))[0]
    assert resting.windows.best is None
    assert resting.windows.outing is None
    kept = Yard()
    kept.write(Held(day=FIRST, holder=TRAY, why="away"))
    assert [one.date for one in ahead(kept)] == []


def test_the_days_ahead_are_counted_as_the_tray_is():
    yard = Yard()
    known(yard)
    by_clock = ahead(yard)
    yard.do(count_by(yard.season, TRAY, SUN, FIRST))
    by_sun = ahead(yard)
    assert by_sun[2].windows.by == SUN
    assert by_sun[2].windows.best.minutes > by_clock[2].windows.best.minutes


def test_tomorrows_hours_are_worked_out_once_until_the_weather_changes():
    yard = Yard()
    known(yard)
    first, again = ahead(yard), ahead(yard, clock="6:30")
    assert first[1].windows is again[1].windows
    yard.forecast(yard.at(FIRST, "6:00"), {day(2): {"tmin_c": 1.0, "tmax_c": 8.0}})
    assert ahead(yard)[1].windows.best is None


def test_the_reason_for_a_held_day_names_the_limits_of_its_crop():
    yard = Yard(crop="cabbage")
    known(yard, tmin_c=0.0, tmax_c=4.0)
    place, stand = place_of(yard.season), yard.stand(FIRST)
    weather = DayWeather(0.0, 4.0, 3.0, 0.0)
    why = hold_why((stand.ahead[0].verdict, stand.ahead[0].reasons), weather, stand.rules, place)
    assert why.figure == "Keep them in: too cold"
    assert "does not reach 4 °C" in why.rule
    assert ("limits", "of the crop, by the guide") in why.inputs
    yard.do(set_ramp(yard.season, "cabbage", Ramp(), HoldLimits(cold_c=2), FIRST))
    stand = yard.stand(FIRST)
    why = hold_why((stand.ahead[0].verdict, stand.ahead[0].reasons), weather, stand.rules, place)
    assert why.figure == "A day to go out"
    assert ("limits", "the grower's own") in why.inputs


def test_what_asks_for_shelter_is_told_as_the_verdict_has_it():
    for weather in ((None, 20, GUST_M_S, 0), (None, 20, 0, RAIN_MM)):
        assert verdict(*weather)[0] == "sheltered"
    for weather in ((None, 20, GUST_M_S - 0.01, 0), (None, 20, 0, RAIN_MM - 0.01)):
        assert verdict(*weather)[0] == "out"


def test_a_ramp_that_begins_tomorrow_asks_for_nothing_today():
    yard = Yard(begun=day(2))
    stand = yard.stand(FIRST)
    assert stand.ahead[0].date == day(2)
    assert (stand.sun.settled, stand.air.settled) == (None, None)
    assert stand.ready_on == day(12)
    known(yard)
    assert ahead(yard)[0].date == day(2)


def test_the_shade_of_an_outing_is_told_before_or_after_its_sun():
    yard = Yard()
    known(yard)
    place, found = place_of(yard.season), ahead(yard)[0].windows.outing
    assert shade_plan_words(found, place) == f"then shade to {yard.clock(found.back).lstrip('0')}"
    yard.out(FIRST, "7:00", 20)
    alone = ahead(yard, clock="9:00")[0].windows.outing
    assert shade_plan_words(alone, place).startswith("shade 9:00 to ")
    assert shade_plan_words(None, place) == ""
