"""What stands at the door now, in words: out since, back in at, in so many minutes, ready on."""

from datetime import date, timedelta

import pytest

from greenroom.ledger.facts import WeatherDay, WeatherRecord
from greenroom.season import deeds_harden as deeds
from greenroom.season.deeds_outdoors import count_by
from greenroom.season.door import (
    Where,
    at_door,
    by_urgency,
    in_words,
    later_words,
    light_until,
    next_words,
    ready_words,
    state_words,
)
from greenroom.season.place import place_of
from tests.season._door import RACK, TRAY, Door

FIRST = date(2027, 5, 8)


@pytest.fixture
def door(tmp_path):
    made = Door(tmp_path / "ledger.db")
    made.do(deeds.start_hardening(made.season, RACK, FIRST))
    made.do(deeds.start_hardening(made.season, TRAY, FIRST))
    yield made
    made.ledger.close()


def here(door, now, holder=RACK):
    return at_door(door.season, door.stand(holder, now), now)


def words(door, now, holder=RACK):
    found, place = here(door, now, holder), place_of(door.season)
    return state_words(found, place), next_words(found, place), in_words(found)


def test_a_holder_waits_goes_out_stands_in_shade_and_comes_back(door):
    eight = door.at(FIRST, "8:00")
    assert words(door, eight) == ("waiting", "", "")
    door.do(deeds.go_out(door.season, RACK, eight))
    later = door.at(FIRST, "8:05")
    assert words(door, later) == ("out since 8:00", "shade from 8:20", "in 15 min")
    door.do(deeds.switch_light(door.season, RACK, later, "shade"))
    half = door.at(FIRST, "8:30")
    assert words(door, half) == ("out since 8:00, in shade", "15 minutes of sun left today", "")
    assert here(door, half).due is None
    door.do(deeds.switch_light(door.season, RACK, half, "sun"))
    assert words(door, half) == ("out since 8:00", "shade from 8:45", "in 15 min")
    door.do(deeds.come_in(door.season, RACK, door.at(FIRST, "8:46")))
    assert words(door, door.at(FIRST, "9:00")) == ("back in, step done", "", "")


def test_a_minute_that_has_begun_counts_until_it_is_over(door):
    start = door.at(FIRST, "8:00")
    door.do(deeds.go_out(door.season, RACK, start))
    for seconds, said in ((0, "in 20 min"), (1, "in 20 min"), (60, "in 19 min"), (1199, "in 1 min")):
        assert in_words(here(door, start + timedelta(seconds=seconds))) == said
    over = start + timedelta(seconds=1200)
    assert words(door, over)[1:] == ("time is up: into shade or in", "")
    assert words(door, over + timedelta(seconds=61))[1] == "1 min over: into shade or in"
    assert words(door, over + timedelta(minutes=649))[1] == "10 h 49 min over: bring it in"


def test_due_does_not_wander_from_second_to_second(door):
    start = door.at(FIRST, "8:00") + timedelta(seconds=7, microseconds=123456)
    door.do(deeds.go_out(door.season, RACK, start))
    for seconds in range(0, 1200, 37):
        due = here(door, start + timedelta(seconds=seconds)).due
        assert abs(due - (start + timedelta(minutes=20))) <= timedelta(seconds=0.5)


def test_in_shade_with_the_sun_of_the_day_behind_it_only_shade_is_left(door):
    start = door.at(FIRST, "8:00")
    door.do(deeds.go_out(door.season, RACK, start))
    door.do(deeds.switch_light(door.season, RACK, start + timedelta(minutes=25), "shade"))
    assert words(door, start + timedelta(minutes=30))[1] == "90 minutes of shade left today"
    assert words(door, start + timedelta(minutes=120))[1] == "all done today: bring it in"


def test_what_came_back_early_is_not_yet_a_step_and_in_the_evening_the_same_again(door):
    start = door.at(FIRST, "8:00")
    door.do(deeds.go_out(door.season, RACK, start))
    door.do(deeds.come_in(door.season, RACK, start + timedelta(minutes=10)))
    assert words(door, door.at(FIRST, "9:00"))[0] == "back in, not yet a step"
    assert words(door, door.at(FIRST, "22:00"))[0] == "back in, same step again"


def test_set_back_resting_kept_in_and_out_since_yesterday_are_told(door):
    start = door.at(FIRST, "8:00")
    door.do(deeds.go_out(door.season, RACK, start))
    seen = start + timedelta(minutes=15)
    door.do(deeds.setback(door.season, RACK, "scorch", seen, then="in", now=seen))
    assert words(door, seen)[0] == "back in, leaf scorch"
    second = FIRST + timedelta(days=1)
    morning = door.at(second, "7:00")
    assert words(door, morning)[0] == "rest after leaf scorch"
    door.do(deeds.keep_in(door.season, RACK, second, "gusts"))
    assert words(door, morning)[0] == "kept in: gusts"
    door.do(deeds.go_out(door.season, TRAY, start))
    assert words(door, morning, TRAY)[0] == "out since 8:00 on 8 May"


def test_a_hardened_holder_says_so_and_since_when(door):
    for number, minutes in enumerate([20, 30, 40, 55, 80, 110, 155, 215, 305, 425, 600]):
        start = door.at(FIRST + timedelta(days=number), "7:00")
        end = start + timedelta(minutes=minutes)
        door.do(deeds.enter_outing(door.season, RACK, [(start, "sun")], end, end))
    now = door.at(FIRST + timedelta(days=11), "7:00")
    assert here(door, now).where is Where.HARDENED
    assert words(door, now)[0] == "hardened off"
    assert ready_words(door.stand(RACK, now)) == "hardened off on 18 May, as first planned"


def test_the_next_to_come_in_stands_first(door):
    """The tray stands in the sun; the rack, longer out, is safe in shade."""
    door.do(deeds.go_out(door.season, RACK, door.at(FIRST, "8:00"), "shade"))
    now = door.at(FIRST, "8:30")
    assert [one.key for one in by_urgency([here(door, now, TRAY), here(door, now)])] == [RACK, TRAY]
    door.do(deeds.go_out(door.season, TRAY, now))
    assert [one.key for one in by_urgency([here(door, now), here(door, now, TRAY)])] == [TRAY, RACK]


def test_ready_words_tell_the_days_against_the_first_plan(door):
    assert (
        ready_words(door.stand(RACK, door.at(FIRST, "7:00"))) == "ready to set out 18 May, as first planned"
    )
    now = door.at(FIRST + timedelta(days=2), "7:00")
    assert ready_words(door.stand(RACK, now)) == "ready to set out 20 May, 2 days later than first planned"
    assert later_words(-1) == "1 day earlier than first planned"
    cold = tuple(WeatherDay(FIRST + timedelta(days=more), -5.0, 5.0) for more in range(90))
    door.write(WeatherRecord(day=FIRST, source="a record", days=cold))
    assert ready_words(door.stand(RACK, now)) == "no ready date within 60 days: the weather holds it back"


def test_a_rack_counts_pots_and_a_tray_cells(door):
    now = door.at(FIRST, "7:00")
    assert (here(door, now).pots, here(door, now, TRAY).pots) == ("1 pot", "1 cell")


def test_a_holder_that_the_sun_has_set_on_is_to_come_in(door):
    """Ljubljana, 8 May 2027: sunset 20:19 and sunrise on the 9th at 5:38, by pvlib 0.16.1 (SPA)."""
    second = FIRST + timedelta(days=1)
    door.do(deeds.go_out(door.season, RACK, door.at(FIRST, "20:15")))
    for day, clock, dark in ((FIRST, "20:18", False), (FIRST, "20:22", True), (second, "5:00", True)):
        found = here(door, door.at(day, clock))
        assert (found.dark, found.over) == (dark, dark)
    assert words(door, door.at(FIRST, "20:22"))[1:] == ("the sun has set: bring it in", "")
    door.do(deeds.switch_light(door.season, RACK, door.at(FIRST, "20:23"), "shade"))
    assert not here(door, door.at(FIRST, "20:30")).over


def test_a_holder_put_out_before_sunrise_is_not_taken_for_forgotten(door):
    door.do(deeds.go_out(door.season, RACK, door.at(FIRST, "5:15")))
    assert not here(door, door.at(FIRST, "5:20")).over


def test_by_the_sun_s_strength_it_is_due_when_that_is_full_and_never_after_sunset(door):
    """Weighed by the light of a clear noon a morning minute counts less than one."""
    door.do(count_by(door.season, RACK, "sun", FIRST))
    door.do(deeds.go_out(door.season, RACK, door.at(FIRST, "8:00")))
    found = here(door, door.at(FIRST, "8:05"))
    assert found.due > door.at(FIRST, "8:20")
    full = here(door, found.due + timedelta(seconds=30))
    assert full.left == pytest.approx(0, abs=0.5)
    assert light_until(door.season, found, door.at(FIRST, "8:05")) > 0
    door.do(deeds.come_in(door.season, RACK, door.at(FIRST, "8:10")))
    door.do(deeds.go_out(door.season, RACK, door.at(FIRST, "20:00")))
    evening = here(door, door.at(FIRST, "20:01"))
    assert evening.due <= door.at(FIRST, "20:20")  # sunset in Ljubljana 20:19, by pvlib 0.16.1 (SPA)
