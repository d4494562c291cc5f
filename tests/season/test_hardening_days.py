"""How a holder stands on its ramp follows from what was written, and from nothing else.

The steps themselves are the ramp's rules, tested in tests/agronomy/test_hardening.py; here the rules
are fed with facts. The minutes of the steps of the default ramp, from its formula (20 minutes to 600 in
11 outings, rounded to 5): 20, 30, 40, 55, 80, 110, 155, 215, 305, 425, 600.
"""

from datetime import date, timedelta

import pytest

from greenroom.agronomy.hardening import OutingDay, Ramp, replay, step_after
from greenroom.ledger.facts import OutingStarted, PlaceSet, WeatherDay, WeatherRecord
from greenroom.season import deeds_harden as deeds
from greenroom.season.hardening import going_out, todays_verdict
from greenroom.season.ramp_days import DayKind, first_plan, ramp_days
from tests.season._door import BARE, FIRST, LJUBLJANA, RACK, SYDNEY, TRAY, WINNIPEG, Door

STEPS = [20, 30, 40, 55, 80, 110, 155, 215, 305, 425, 600]


def day(number):
    """The days of the ramp, from 1."""
    return FIRST + timedelta(days=number - 1)


def out(door, number, minutes, *, clock="8:00", light="sun", holder=RACK):
    start = door.at(day(number), clock)
    end = start + timedelta(minutes=minutes)
    return door.do(deeds.enter_outing(door.season, holder, [(start, light)], end, end))


def steps_done(door, count):
    for number in range(1, count + 1):
        out(door, number, STEPS[number - 1])


def morning(door, number):
    return door.stand(RACK, door.at(day(number), "7:00"))


def weather(door, number, **known):
    told = {"tmin_c": 8.0, "tmax_c": 20.0, "rain_mm": 0.0, "gust_ms": 3.0} | known
    record = WeatherRecord(day=FIRST, source="a record", days=(WeatherDay(day(number), **told),))
    door.write(record)


def test_a_holder_that_has_not_begun_stands_on_no_ramp(door):
    assert door.stand(TRAY, door.at(FIRST, "9:00")) is None
    assert going_out(door.season) == [RACK]


def test_the_first_morning_asks_for_the_first_minutes_and_promises_the_eleventh_day(door):
    stand = morning(door, 1)
    assert (stand.sun.step, stand.target, stand.sun.limit) == (0, 20, 20)
    assert [planned.sun_minutes for planned in stand.ahead] == STEPS
    assert stand.ready_on == stand.first_ready_on == day(11)
    assert stand.sun.days == ()


def test_each_day_done_is_a_step_up_and_keeps_the_ready_date(door):
    for number, minutes in enumerate(STEPS, start=1):
        assert morning(door, number).target == minutes
        out(door, number, minutes)
        assert door.stand(RACK, door.at(day(number), "19:00")).ready_on == day(11)
    assert morning(door, 12).hardened


def test_the_day_the_last_outing_is_done_is_the_ready_date_and_stays_it(door):
    steps_done(door, 11)
    for number, clock in ((11, "21:00"), (12, "9:00"), (13, "9:00")):
        stand = door.stand(RACK, door.at(day(number), clock))
        assert stand.hardened
        assert stand.ready_on == day(11)
        assert stand.days_later == 0


def test_a_hardened_holder_left_in_for_days_is_to_be_hardened_again(door):
    steps_done(door, 11)
    assert morning(door, 14).ready_on == day(14)
    assert not morning(door, 14).hardened


def test_four_fifths_of_the_minutes_settle_the_day_and_less_does_not(door):
    steps_done(door, 5)
    start = door.at(day(6), "8:00")
    door.do(deeds.go_out(door.season, RACK, start))
    short, enough = (door.stand(RACK, start + timedelta(minutes=minutes)) for minutes in (87, 88))
    assert short.sun.settled is None
    assert short.ahead[0].date == day(6)
    assert enough.sun.settled.after == 6
    assert (enough.ahead[0].date, enough.ahead[0].sun_minutes) == (day(6), 0)  # shade may follow
    assert short.ready_on == enough.ready_on == day(11)


def test_a_short_day_repeats_the_step_and_moves_the_ready_date_once_the_sun_has_set(door):
    steps_done(door, 5)
    out(door, 6, 40)
    assert door.stand(RACK, door.at(day(6), "12:00")).ready_on == day(11)
    assert door.stand(RACK, door.at(day(6), "22:00")).ready_on == day(12)
    assert morning(door, 7).sun.step == 5
    assert morning(door, 7).days_later == 1


def test_days_left_out_altogether_are_days_in_and_cost_steps(door):
    steps_done(door, 5)
    assert morning(door, 7).sun.step == 5
    assert morning(door, 9).sun.step == 3
    assert [walked.day.date for walked in morning(door, 9).sun.days] == [
        day(number) for number in range(1, 9)
    ]


def test_a_ramp_begun_and_left_lies_still_and_promises_a_later_date(door):
    stand = morning(door, 5)
    assert (stand.sun.step, stand.days_later) == (0, 4)
    assert [walked.day.spent_in for walked in stand.sun.days] == [True] * 4


def test_a_day_of_shade_keeps_the_step_and_ends_the_run_of_days_in(door):
    steps_done(door, 5)
    out(door, 7, 120, light="shade")
    assert morning(door, 9).sun.step == 5
    assert morning(door, 10).sun.step == 4


def test_kept_in_settles_the_day_at_once_and_says_why(door):
    steps_done(door, 5)
    now = door.at(day(6), "8:00")
    door.do(deeds.keep_in(door.season, RACK, day(6), "gusts"))
    stand = door.stand(RACK, now)
    assert stand.held == {day(6): "gusts"}
    assert (stand.sun.settled.after, stand.ready_on) == (5, day(12))
    out(door, 6, 110)
    stand = door.stand(RACK, door.at(day(6), "12:00"))
    assert (stand.held, stand.ready_on) == ({}, day(11))


@pytest.mark.parametrize(
    ("what", "after", "step"),
    [("droop", 40, 2), ("wilt", 40, 1), ("scorch", 40, 0), ("droop", 110, 4), ("wilt", 110, 3)],
)
def test_a_setback_counts_the_sun_borne_when_it_was_seen(door, what, after, step):
    """By the rules of the ramp: the lower of one step down and the highest step borne; 1 and 2 lower."""
    steps_done(door, 5)
    out(door, 6, 110)
    seen = door.at(day(6), "8:00") + timedelta(minutes=after)
    door.do(deeds.setback(door.season, RACK, what, seen))
    stand = door.stand(RACK, door.at(day(6), "11:00"))
    assert stand.sun.settled.day.setback_after == after
    assert stand.sun.next_step == step
    assert morning(door, 7).sun.step == step


def test_a_setback_seen_in_the_evening_counts_all_the_sun_of_the_day(door):
    steps_done(door, 5)
    out(door, 6, 110)
    door.do(deeds.setback(door.season, RACK, "scorch", door.at(day(6), "20:00")))
    assert morning(door, 7).sun.days[-1].day.setback_after == 110
    assert morning(door, 7).sun.step == 2


def test_the_day_after_leaf_scorch_is_a_rest_that_costs_no_step(door):
    steps_done(door, 5)
    out(door, 6, 110)
    door.do(deeds.setback(door.season, RACK, "scorch", door.at(day(6), "9:50")))
    stand = morning(door, 7)
    assert (stand.resting, stand.target, stand.sun.limit) == (True, 0, 40)
    assert stand.ahead[0].verdict == "hold"
    assert (morning(door, 8).resting, morning(door, 8).sun.step) == (False, 2)


def test_one_more_setback_never_leaves_a_holder_higher_up(door):
    """A droop after 30 minutes already leaves step 1; that it then wilts cannot make it better."""
    steps_done(door, 5)
    out(door, 6, 110)
    door.do(deeds.setback(door.season, RACK, "droop", door.at(day(6), "8:30")))
    drooped = morning(door, 7).sun.step
    door.do(deeds.setback(door.season, RACK, "wilt", door.at(day(6), "9:45")))
    assert (drooped, morning(door, 7).sun.step) == (1, 0)


def test_a_setback_moves_the_ready_date_and_undo_moves_it_back(door):
    steps_done(door, 5)
    out(door, 6, 110)
    now = door.at(day(6), "11:00")
    door.do(deeds.setback(door.season, RACK, "droop", door.at(day(6), "8:40")))
    assert (door.stand(RACK, now).ready_on, door.stand(RACK, now).days_later) == (day(15), 4)
    door.undo()
    assert (door.stand(RACK, now).ready_on, door.stand(RACK, now).today_setbacks) == (day(11), ())
    door.redo()
    door.restart()
    assert door.stand(RACK, now).ready_on == day(15)


def test_the_forecast_holds_days_and_moves_the_ready_date(door):
    weather(door, 2, gust_ms=12.0)
    stand = morning(door, 1)
    assert stand.ahead[1].verdict == "hold"
    assert (stand.ready_on, stand.days_later) == (day(12), 1)


def test_going_out_in_spite_of_the_weather_counts_for_what_it_was(door):
    steps_done(door, 5)
    weather(door, 6, gust_ms=12.0)
    assert morning(door, 6).ready_on == day(12)
    start = door.at(day(6), "8:00")
    door.do(deeds.go_out(door.season, RACK, start))
    assert door.stand(RACK, start + timedelta(minutes=10)).ready_on == day(11)
    door.do(deeds.come_in(door.season, RACK, start + timedelta(minutes=110)))
    assert door.stand(RACK, start + timedelta(minutes=200)).ready_on == day(11)


def test_weather_that_never_lets_out_gives_no_ready_date(door):
    days = tuple(WeatherDay(FIRST + timedelta(days=more), -5.0, 5.0) for more in range(90))
    door.write(WeatherRecord(day=FIRST, source="a record", days=days))
    assert morning(door, 1).ready_on is None
    assert morning(door, 1).days_later == 0


@pytest.mark.parametrize(
    ("known", "said"),
    [
        ({}, ("out", ())),
        ({"tmax_c": 9.9}, ("hold", ("too cold",))),
        ({"gust_ms": 11.0}, ("hold", ("strong gusts",))),
        ({"rain_mm": 15.0}, ("hold", ("heavy rain",))),
        ({"gust_ms": 7.0, "rain_mm": 5.0}, ("sheltered", ("gusts", "rain"))),
        ({"tmax_c": None, "gust_ms": None, "rain_mm": None}, None),
    ],
)
def test_todays_verdict_is_that_of_the_imported_weather(door, known, said):
    weather(door, 3, **known)
    assert todays_verdict(door.season, day(3)) == said
    assert todays_verdict(door.season, day(4)) is None


def test_records_of_other_years_are_not_taken_for_a_forecast(door):
    old = tuple(WeatherDay(date(2020, 1, 1) + timedelta(days=more), -5.0, 2.0) for more in range(2000))
    door.write(WeatherRecord(day=FIRST, source="a record", days=old))
    assert morning(door, 1).ready_on == day(11)


def test_a_tray_out_all_of_the_day_the_clocks_go_back_is_walked_like_any_other(tmp_path):
    """31 October 2027 has 1500 minutes in Ljubljana; a day on the ramp can hold 1440."""
    door = Door(tmp_path / "ledger.db", LJUBLJANA)
    door.do(deeds.start_hardening(door.season, RACK, date(2027, 10, 30)))
    door.do(deeds.go_out(door.season, RACK, door.at(date(2027, 10, 30), "20:00")))
    stand = door.stand(RACK, door.at(date(2027, 11, 1), "9:00"))
    assert [walked.day.minutes for walked in stand.sun.days] == [240, 1440]
    door.ledger.close()


@pytest.mark.parametrize(
    ("place", "day_of_change", "minutes"),
    [
        (SYDNEY, date(2027, 10, 3), 120),
        (SYDNEY, date(2027, 4, 4), 240),
        (WINNIPEG, date(2027, 3, 14), 120),
        (WINNIPEG, date(2027, 11, 7), 240),
    ],
)
def test_the_minutes_of_today_are_those_that_passed_when_the_clocks_change(
    tmp_path, place, day_of_change, minutes
):
    """From 0:30 to 3:30; the changes are those of the IANA time zone data (Winnipeg's are at 2:00)."""
    door = Door(tmp_path / "ledger.db", place)
    door.do(deeds.start_hardening(door.season, RACK, day_of_change))
    start, end = door.at(day_of_change, "0:30"), door.at(day_of_change, "3:30")
    door.do(deeds.go_out(door.season, RACK, start))
    assert door.stand(RACK, end).counted.clock == minutes
    door.restart()
    door.do(deeds.come_in(door.season, RACK, end))
    assert door.stand(RACK, end + timedelta(hours=5)).counted.clock == minutes
    door.ledger.close()


def test_a_clock_that_was_a_day_ahead_does_not_break_the_plan(door):
    steps_done(door, 5)
    out(door, 7, 110)
    stand = morning(door, 6)
    assert (stand.sun.step, stand.ready_on) == (5, day(11))


def test_a_ramp_that_is_to_begin_later_is_planned_from_its_first_day(door):
    stand = door.stand(RACK, door.at(FIRST - timedelta(days=3), "9:00"))
    assert stand.ready_on == day(11)
    assert [one.date for one in ramp_days(stand)] == [day(number) for number in range(1, 12)]


def test_what_was_written_before_a_ramp_began_anew_no_longer_counts(door):
    steps_done(door, 3)
    door.do(deeds.stop_hardening(door.season, RACK))
    door.do(deeds.start_hardening(door.season, RACK, day(5)))
    stand = morning(door, 5)
    assert (stand.sun.step, stand.setbacks, stand.started_on) == (0, (), day(5))


def test_a_place_set_while_a_tray_is_out_keeps_its_minutes(tmp_path):
    door = Door(tmp_path / "ledger.db")
    door.do(deeds.start_hardening(door.season, RACK, FIRST))
    start = door.at(FIRST, "1:30")
    door.write(OutingStarted(day=FIRST, outing="o", holder=RACK, at=start))
    door.write(PlaceSet(day=FIRST, name="Lakeside", latitude=49.9, longitude=-97.1, zone="America/Winnipeg"))
    end = start + timedelta(minutes=50)
    door.do(deeds.come_in(door.season, RACK, end))
    assert deeds.outing_of(door.season, RACK) is None
    door.ledger.close()


def test_the_bars_of_the_chart_are_the_ramp_replayed(door):
    steps_done(door, 5)
    out(door, 6, 110)
    door.do(deeds.setback(door.season, RACK, "wilt", door.at(day(6), "9:20")))
    out(door, 7, 20)
    out(door, 8, 55)
    stand = door.stand(RACK, door.at(day(9), "7:00"))
    record = [OutingDay(day(number), STEPS[number - 1]) for number in range(1, 6)]
    record += [OutingDay(day(6), 110, "wilt", 80), OutingDay(day(7), 20), OutingDay(day(8), 55)]
    walked = replay(Ramp(), record)
    bars = ramp_days(stand)
    assert [(bar.date, bar.step, bar.done) for bar in bars[:8]] == [
        (one.day.date, one.before, one.day.minutes) for one in walked
    ]
    assert [bar.planned for bar in bars[:8]] == [Ramp().minutes(one.before) for one in walked]
    assert bars[8].kind is DayKind.TODAY
    assert bars[8].step == step_after(Ramp(), record)
    assert [(bar.date, bar.planned) for bar in bars[8:]] == [
        (planned.date, planned.sun_minutes) for planned in stand.ahead
    ]
    assert bars[-1].date == stand.ready_on


def test_the_bars_tell_done_short_shade_in_set_back_and_to_come_apart(door):
    out(door, 1, 20)
    out(door, 2, 10)
    out(door, 3, 60, light="shade")
    door.do(deeds.keep_in(door.season, RACK, day(4), "too cold"))
    out(door, 5, 30)
    door.do(deeds.setback(door.season, RACK, "droop", door.at(day(5), "8:30")))
    weather(door, 7, tmax_c=8.0)
    bars = ramp_days(morning(door, 6))
    assert [bar.kind for bar in bars[:8]] == [
        DayKind.DONE,
        DayKind.SHORT,
        DayKind.SHADE,
        DayKind.IN,
        DayKind.SET_BACK,
        DayKind.TODAY,
        DayKind.HOLD,
        DayKind.COMING,
    ]
    assert [bars[3].note, bars[4].note, bars[6].note] == ["too cold", "droop", "too cold"]


def test_the_first_plan_stays_as_it_was_on_the_first_day(door):
    steps_done(door, 5)
    weather(door, 7, gust_ms=15.0)
    assert first_plan(morning(door, 9)) == [
        (day(number + 1), minutes) for number, minutes in enumerate(STEPS)
    ]


def test_a_day_of_rest_asks_for_no_sun_in_the_chart_either(door):
    out(door, 1, 20)
    door.do(deeds.setback(door.season, RACK, "scorch", door.at(day(1), "8:20")))
    bars = ramp_days(morning(door, 4))
    assert [bar.planned for bar in bars[:4]] == [20, 0, 20, 20]


def test_a_tray_with_no_seedling_has_no_ramp_to_walk(door):
    with pytest.raises(deeds.RefusedError, match="holds no seedling"):
        deeds.start_hardening(door.season, BARE, FIRST)
