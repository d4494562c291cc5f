"""Each figure of the Harden page answers why with what went in, the rule, and where the rule comes from."""

from datetime import date, time, timedelta
from zoneinfo import ZoneInfo

from greenroom.agronomy.hardening import DayWeather, Ramp, verdict
from greenroom.season import deeds_harden as deeds
from greenroom.season.deeds_outdoors import setback_from
from greenroom.season.hardening_why import minutes_why, ramp_why, ready_why
from greenroom.season.hardening_words import (
    gust_words,
    moment_words,
    rain_words,
    temperature_words,
    whole_minutes,
)
from greenroom.season.outdoors_why import hold_why
from greenroom.season.place import Place
from greenroom.season.ramp_rules import rules_of
from greenroom.season.state import Season
from tests.season._door import FIRST, RACK

FIRST_CLOCK = time(8, 5)
METRIC = Place("Ridge Lane", 46.05, 14.51, ZoneInfo("Europe/Ljubljana"))
IMPERIAL = Place("Lakeside", 49.9, -97.14, ZoneInfo("America/Winnipeg"), temperature="f")


def spend(door, number, minutes, what=None):
    start = door.at(FIRST + timedelta(days=number), "8:00")
    end = start + timedelta(minutes=minutes)
    door.do(deeds.enter_outing(door.season, RACK, [(start, "sun")], end, end))
    if what:
        door.do(deeds.setback(door.season, RACK, what, end))


def test_todays_minutes_answer_with_the_ramp_the_step_and_the_days_behind_them(door):
    spend(door, 0, 20)
    spend(door, 1, 30, "droop")
    why = minutes_why(door.stand(RACK, door.at(FIRST + timedelta(days=2), "7:00")))
    assert why.figure == "20 minutes of sun today"
    assert ("step today", "step 1 of 11") in why.inputs
    assert ("8 May", "20 minutes of sun: 1 step up") in why.inputs
    assert ("9 May", "30 minutes of sun, drooping after 30: 1 step back") in why.inputs
    assert "rounded to 5" in why.rule
    assert any("Maryland" in source for source in why.sources)


def test_a_day_of_rest_answers_with_the_rest(door):
    spend(door, 0, 20, "scorch")
    why = minutes_why(door.stand(RACK, door.at(FIRST + timedelta(days=1), "7:00")))
    assert (why.figure, "rest" in why.rule) == ("0 minutes of sun today", True)


def test_the_ready_date_answers_with_what_moved_it(door):
    spend(door, 0, 20)
    spend(door, 1, 30, "wilt")
    stand = door.stand(RACK, door.at(FIRST + timedelta(days=1), "12:00"))
    why = ready_why(stand)
    assert why.figure == f"Ready to set out {stand.ready_on.day} May"
    assert ("first planned for", "18 May") in why.inputs
    assert ("9 May", "30 minutes of sun, wilted after 30: 1 step back") in why.inputs


def test_the_ready_date_names_the_wind_that_moved_the_outdoor_clock(door):
    spend(door, 0, 20)
    seen = door.at(FIRST, "8:15")
    door.do(setback_from(door.season, RACK, "wilt", "wind", seen))
    why = ready_why(door.stand(RACK, door.at(FIRST, "12:00")))
    assert ("outdoors, sun and shade", "step 1 of 9, 120 minutes") in why.inputs
    assert ("8 May", "20 minutes outdoors, wilted after 15 from the wind: same step outdoors") in why.inputs


def test_the_verdict_answers_in_the_growers_units():
    """10 °C is 50 °F; 11 m/s is 39.6 km/h or 24.6 mph; 15 mm is 0.59 inch (NIST SP 811, appendix B)."""
    weather, rules = DayWeather(4.0, 20.0, 12.0, 0.0), rules_of(Season(), None)
    said = verdict(weather.tmin, weather.tmax, weather.gust, weather.rain)
    metric, imperial = (hold_why(said, weather, rules, place) for place in (METRIC, IMPERIAL))
    assert metric.figure == "Keep them in: strong gusts"
    assert ("strongest gust", "43 km/h") in metric.inputs
    assert "10 °C" in metric.rule
    assert "40 km/h" in metric.rule
    assert ("strongest gust", "27 mph") in imperial.inputs
    assert "50 °F" in imperial.rule
    assert "0.59 in" in imperial.rule


def test_what_the_weather_does_not_tell_is_not_known_rather_than_nought():
    weather = DayWeather(None, 20.0, None, None)
    said = verdict(None, 20.0, None, None)
    inputs = dict(hold_why(said, weather, rules_of(Season(), None), METRIC).inputs)
    assert (inputs["strongest gust"], inputs["rain of the day"]) == ("not known", "not known")
    assert temperature_words(None, METRIC) == "not known"


def test_words_for_weather_and_time():
    """Conversions: NIST SP 811, appendix B."""
    assert [temperature_words(value, METRIC) for value in (-0.4, 8.0)] == ["0 °C", "8 °C"]
    assert temperature_words(-17.8, IMPERIAL) == "0 °F"
    assert gust_words(10.0, METRIC) == "36 km/h"
    assert rain_words(25.4, IMPERIAL) == "1.00 in"
    moment = deeds.local_moment(FIRST, FIRST_CLOCK, METRIC)
    assert moment_words(moment, METRIC) == "8:05 on 8 May"
    assert moment_words(moment, METRIC, FIRST) == "8:05"


def test_a_counter_shows_full_minutes_only():
    assert [whole_minutes(value) for value in (0.0, 0.99, 1.0, 109.9999999, 109.99)] == [0, 0, 1, 110, 109]


def test_a_ramp_that_is_to_begin_answers_with_its_numbers():
    why = ramp_why(Ramp(30, 480, 9), FIRST, date(2027, 5, 16))
    assert why.figure == "9 outings, ready 16 May"
    assert ("first and last outing", "30 and 480 minutes of sun") in why.inputs
    assert why.sources
