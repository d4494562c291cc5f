"""At the door: what can be done, what is refused in one sentence, and that all of it can be taken back."""

from datetime import date, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from greenroom.agronomy.hardening import Ramp
from greenroom.season import deeds_harden as deeds
from greenroom.season.hardening import going_out
from greenroom.season.place import Place
from greenroom.season.proposal import Proposal, RefusedError, together
from tests.season._door import BARE, FIRST, RACK, TRAY


def at(door, clock, day=FIRST):
    return door.at(day, clock)


def out(door, clock, holder=RACK, light="sun", day=FIRST):
    return door.do(deeds.go_out(door.season, holder, at(door, clock, day), light))


def refusal(act, *arguments, **named):
    """The sentence an act is refused with."""
    with pytest.raises(RefusedError) as caught:
        act(*arguments, **named)
    return str(caught.value)


def test_out_into_shade_into_sun_and_in_are_kept_minute_by_minute(door):
    out(door, "8:10")
    door.do(deeds.switch_light(door.season, RACK, at(door, "9:00"), "shade"))
    door.do(deeds.switch_light(door.season, RACK, at(door, "9:20"), "sun"))
    door.do(deeds.come_in(door.season, RACK, at(door, "10:00")))
    minutes = door.stand(RACK, at(door, "12:00")).counted
    assert (minutes.clock, minutes.shade, minutes.outdoors) == (90, 20, 110)


def test_an_outing_left_open_goes_on_over_a_restart(door):
    out(door, "8:10")
    door.restart()
    stand = door.stand(RACK, at(door, "9:54"))
    assert (stand.outing.start, stand.counted.clock) == (at(door, "8:10"), 104)
    door.do(deeds.come_in(door.season, RACK, at(door, "10:00")))
    door.restart()
    assert door.stand(RACK, at(door, "18:00")).counted.clock == 110


@pytest.mark.parametrize("light", ["sun", "shade"])
def test_every_act_is_taken_back_and_done_again_whole(door, light):
    acts = [
        lambda: deeds.go_out(door.season, RACK, at(door, "8:10"), light),
        lambda: deeds.switch_light(door.season, RACK, at(door, "8:30"), "shade" if light == "sun" else "sun"),
        lambda: deeds.setback(door.season, RACK, "wilt", at(door, "8:40"), then="in", now=at(door, "8:45")),
    ]
    now = at(door, "9:00")
    states = [door.stand(RACK, now)]
    for act in acts:
        door.do(act())
        states.append(door.stand(RACK, now))
    for state in reversed(states[:-1]):
        door.undo()
        assert door.stand(RACK, now) == state
    for state in states[1:]:
        door.redo()
        door.restart()
        assert door.stand(RACK, now) == state


def test_what_is_out_cannot_go_out_and_what_is_in_cannot_come_in_or_change_light(door):
    assert refusal(deeds.come_in, door.season, RACK, at(door, "9:00")) == "Rack 1 is not out."
    assert refusal(deeds.switch_light, door.season, RACK, at(door, "9:00"), "shade") == "Rack 1 is not out."
    out(door, "8:10")
    again = refusal(deeds.go_out, door.season, RACK, at(door, "9:00"))
    assert again == "Rack 1 is out since 8:10 on 8 May; bring it in first."
    same = refusal(deeds.switch_light, door.season, RACK, at(door, "9:00"), "sun")
    assert same == "Rack 1 stands in the sun already."


def test_an_end_before_the_start_is_refused(door):
    out(door, "8:10")
    for clock in ("8:10", "7:00"):
        assert refusal(deeds.come_in, door.season, RACK, at(door, clock)) == (
            "Rack 1 is out since 8:10 on 8 May; an outing cannot end before it started."
        )
    door.do(deeds.switch_light(door.season, RACK, at(door, "9:00"), "shade"))
    assert refusal(deeds.come_in, door.season, RACK, at(door, "8:40")) == (
        "Rack 1 stands in the shade since 9:00 on 8 May; choose a later time."
    )


def test_times_to_come_are_refused(door):
    now = at(door, "9:00")
    still = "10:00 on 8 May is still to come for Rack 1; enter a time that is past."
    later = at(door, "10:00")
    assert refusal(deeds.go_out, door.season, RACK, later, now=now) == still
    assert refusal(deeds.enter_outing, door.season, RACK, [(at(door, "8:00"), "sun")], later, now) == still
    out(door, "8:10")
    assert refusal(deeds.come_in, door.season, RACK, later, now=now) == still
    assert refusal(deeds.switch_light, door.season, RACK, later, "shade", now=now) == still
    assert refusal(deeds.setback, door.season, RACK, "droop", later, now=now) == still


def test_an_outing_entered_afterwards_counts_like_one_that_was_watched(door):
    start, shade, end = (at(door, clock) for clock in ("8:00", "8:20", "9:00"))
    door.do(deeds.enter_outing(door.season, RACK, [(start, "sun"), (shade, "shade")], end, end))
    stand = door.stand(RACK, at(door, "20:00"))
    assert (stand.counted.clock, stand.counted.shade, stand.sun.next_step) == (20, 40, 1)
    door.undo()
    assert door.stand(RACK, at(door, "20:00")).counted.outdoors == 0


@pytest.mark.parametrize(
    ("start", "end", "clashes"),
    [
        ("7:00", "8:11", True),
        ("9:59", "11:00", True),
        ("8:30", "9:00", True),
        ("7:00", "11:00", True),
        ("7:00", "8:10", False),
        ("10:00", "11:00", False),
    ],
)
def test_two_outings_cannot_overlap_but_may_touch(door, start, end, clashes):
    now = at(door, "20:00")
    door.do(deeds.enter_outing(door.season, RACK, [(at(door, "8:10"), "sun")], at(door, "10:00"), now))
    arguments = (door.season, RACK, [(at(door, start), "sun")], at(door, end), now)
    if clashes:
        assert refusal(deeds.enter_outing, *arguments) == (
            "Rack 1 was out from 8:10 on 8 May to 10:00 on 8 May already; two outings cannot overlap."
        )
    else:
        door.do(deeds.enter_outing(*arguments))


def test_an_outing_that_goes_on_clashes_with_all_that_comes_after_its_start(door):
    out(door, "8:10")
    now = at(door, "12:00")
    early = [(at(door, "7:00"), "sun")]
    door.do(deeds.enter_outing(door.season, RACK, early, at(door, "7:30"), now))
    late = [(at(door, "9:00"), "sun")]
    said = refusal(deeds.enter_outing, door.season, RACK, late, at(door, "9:30"), now)
    assert said == "Rack 1 was out from 8:10 on 8 May to now already; two outings cannot overlap."
    nine = at(door, "9:00")
    door.do(deeds.come_in(door.season, RACK, nine))
    again = refusal(deeds.go_out, door.season, RACK, at(door, "8:30"))
    assert again == "Rack 1 was out from 8:10 on 8 May to 9:00 on 8 May already; two outings cannot overlap."


def test_entered_times_that_run_backwards_are_refused(door):
    eight, nine, now = at(door, "8:00"), at(door, "9:00"), at(door, "20:00")
    assert refusal(deeds.enter_outing, door.season, RACK, [(nine, "sun")], eight, now) == (
        "The outing of Rack 1 starts at 9:00 on 8 May and ends at 8:00 on 8 May; "
        "it must end after it started."
    )
    outside = [(eight, "sun"), (at(door, "9:30"), "shade")]
    assert refusal(deeds.enter_outing, door.season, RACK, outside, nine, now) == (
        "Rack 1 changed between sun and shade outside its outing; times must rise."
    )


def test_an_outing_may_last_three_days_and_no_longer(door):
    start = at(door, "8:00")
    end = start + timedelta(hours=72, minutes=1)
    assert refusal(deeds.enter_outing, door.season, RACK, [(start, "shade")], end, end) == (
        "An outing of Rack 1 over 72 hours is refused; write one a day."
    )
    out(door, "8:00")
    assert refusal(deeds.come_in, door.season, RACK, end) == (
        "Rack 1 is out since 8:00 on 8 May, more than 72 hours before; enter the time it came in."
    )
    door.do(deeds.come_in(door.season, RACK, end - timedelta(minutes=1)))


def test_what_is_not_being_hardened_is_neither_sent_out_nor_kept_in_nor_set_back(door):
    sentence = "Tray C is not being hardened; start hardening it first."
    eight, nine = at(door, "8:00"), at(door, "9:00")
    assert refusal(deeds.go_out, door.season, TRAY, eight) == sentence
    assert refusal(deeds.keep_in, door.season, TRAY, FIRST) == sentence
    assert refusal(deeds.setback, door.season, TRAY, "droop", eight) == sentence
    assert refusal(deeds.enter_outing, door.season, TRAY, [(eight, "sun")], nine, nine) == sentence
    assert refusal(deeds.stop_hardening, door.season, TRAY) == "Tray C is not being hardened."


def test_an_outing_from_before_the_ramp_is_refused(door):
    early, end = at(door, "8:00", date(2027, 5, 7)), at(door, "9:00", date(2027, 5, 7))
    assert refusal(deeds.enter_outing, door.season, RACK, [(early, "sun")], end, at(door, "9:00")) == (
        "Rack 1 is being hardened since 8 May; choose a time on that day or later."
    )


def test_a_setback_on_a_tray_that_was_not_out_that_day_is_refused(door):
    assert refusal(deeds.setback, door.season, RACK, "droop", at(door, "9:00")) == (
        "Rack 1 has not been out on 8 May; a setback belongs to an outing of the same day."
    )
    out(door, "9:00")
    before = refusal(deeds.setback, door.season, RACK, "droop", at(door, "8:00"))
    assert before.startswith("Rack 1 has not been out on 8 May")
    door.do(deeds.come_in(door.season, RACK, at(door, "9:20")))
    next_morning = at(door, "7:00", date(2027, 5, 9))
    assert refusal(deeds.setback, door.season, RACK, "scorch", next_morning) == (
        "Rack 1 has not been out on 9 May; a setback belongs to an outing of the same day, "
        "and its last ended at 9:20 on 8 May."
    )


def test_a_setback_on_a_tray_left_out_overnight_belongs_to_the_day_it_was_seen(door):
    out(door, "20:00")
    proposal = deeds.setback(door.season, RACK, "wilt", at(door, "6:00", date(2027, 5, 9)))
    assert [fact.day for fact in proposal.record] == [date(2027, 5, 9)]


@pytest.mark.parametrize(
    ("then", "name", "light"),
    [
        ("in", "Rack 1: wilted, came in", None),
        ("shade", "Rack 1: wilted, into the shade", "shade"),
        ("", "Rack 1: wilted", "sun"),
    ],
)
def test_a_setback_and_what_is_done_about_it_are_one_act(door, then, name, light):
    out(door, "8:10")
    now = at(door, "8:40")
    proposal = deeds.setback(door.season, RACK, "wilt", at(door, "8:30"), then=then, now=now)
    assert proposal.name == name
    door.do(proposal)
    outing = deeds.outing_of(door.season, RACK)
    assert (outing.light if outing else None) == light
    door.undo()
    assert deeds.outing_of(door.season, RACK).light == "sun"
    assert door.stand(RACK, now).setbacks == ()


@pytest.mark.parametrize("what", ["droop", "wilt", "scorch"])
@pytest.mark.parametrize("minutes", [10, 25, 60])
def test_what_a_setback_would_do_is_what_it_does(door, what, minutes):
    for number in range(5):
        start = at(door, "8:00", FIRST + timedelta(days=number))
        end = start + timedelta(minutes=[20, 30, 40, 55, 80][number])
        door.do(deeds.enter_outing(door.season, RACK, [(start, "sun")], end, end))
    start = at(door, "8:00", FIRST + timedelta(days=5))
    door.do(deeds.go_out(door.season, RACK, start))
    seen, now = start + timedelta(minutes=minutes), start + timedelta(minutes=70)
    proposal = deeds.setback(door.season, RACK, what, seen, then="in", now=now)
    before = door.stand(RACK, now)
    foreseen = door.stand_if(RACK, proposal, now)
    assert door.stand(RACK, now) == before
    door.do(proposal)
    assert door.stand(RACK, now) == foreseen
    assert foreseen.ready_on > before.ready_on


def test_what_an_outing_struck_out_would_do_is_what_it_does(door):
    start = at(door, "8:00")
    end = start + timedelta(minutes=20)
    door.do(deeds.enter_outing(door.season, RACK, [(start, "sun")], end, end))
    (one,) = door.stand(RACK, end).outings
    proposal = deeds.strike_outing(door.season, RACK, one.key)
    foreseen = door.stand_if(RACK, proposal, end)
    door.do(proposal)
    assert door.stand(RACK, end) == foreseen
    assert foreseen.counted.clock == 0
    assert refusal(deeds.strike_outing, door.season, RACK, one.key) == "Rack 1 has no such outing."


def test_a_setback_or_a_day_kept_in_can_be_struck_out_later(door):
    out(door, "8:00")
    door.do(deeds.setback(door.season, RACK, "droop", at(door, "8:10"), then="in", now=at(door, "8:15")))
    (seen,) = door.stand(RACK, at(door, "9:00")).setbacks
    door.do(deeds.strike_sign(door.season, RACK, seen.id))
    assert door.stand(RACK, at(door, "9:00")).setbacks == ()
    assert refusal(deeds.strike_sign, door.season, RACK, seen.id) == (
        "Rack 1 has no such setback or day kept in."
    )
    second = FIRST + timedelta(days=1)
    held = door.do(deeds.keep_in(door.season, RACK, second)).record[0]
    door.do(deeds.strike_sign(door.season, RACK, held.id))
    assert door.stand(RACK, at(door, "9:00", second)).held == {}


def test_a_day_is_kept_in_once_and_only_if_it_was_spent_in(door):
    door.do(deeds.keep_in(door.season, RACK, FIRST, " gusts "))
    assert door.stand(RACK, at(door, "9:00")).held == {FIRST: "gusts"}
    assert refusal(deeds.keep_in, door.season, RACK, FIRST) == (
        "Rack 1 is noted as kept in on 8 May already."
    )
    out(door, "20:00", day=FIRST + timedelta(days=1))
    for day in (FIRST + timedelta(days=1), FIRST + timedelta(days=2)):
        assert "a day kept in has no outing" in refusal(deeds.keep_in, door.season, RACK, day)


def test_going_out_after_all_takes_the_note_of_keeping_in_with_it(door):
    door.do(deeds.keep_in(door.season, RACK, FIRST, "gusts"))
    out(door, "14:00")
    assert door.stand(RACK, at(door, "14:10")).held == {}
    door.undo()
    assert door.stand(RACK, at(door, "14:10")).held == {FIRST: "gusts"}


def test_an_outing_entered_for_a_day_noted_as_kept_in_takes_the_note_with_it(door):
    second = FIRST + timedelta(days=1)
    for day in (FIRST, second):
        door.do(deeds.keep_in(door.season, RACK, day))
    start, end = at(door, "23:00"), at(door, "1:00", second)
    door.do(deeds.enter_outing(door.season, RACK, [(start, "shade")], end, end))
    assert door.stand(RACK, end).held == {}


def test_several_holders_go_out_and_come_in_as_one_act(door):
    door.do(deeds.start_hardening(door.season, TRAY, FIRST))
    eight, nine = at(door, "8:00"), at(door, "9:00")
    assert door.do(deeds.all_out(door.season, [RACK, TRAY], eight)).name == "2 holders went out into the sun"
    assert all(deeds.outing_of(door.season, key) for key in (RACK, TRAY))
    assert door.do(deeds.all_in(door.season, [RACK, TRAY], nine)).name == "2 holders came in"
    door.undo()
    assert all(deeds.outing_of(door.season, key) for key in (RACK, TRAY))
    door.undo()
    assert not any(deeds.outing_of(door.season, key) for key in (RACK, TRAY))


def test_one_holder_of_several_is_named_and_none_is_refused(door):
    assert deeds.all_out(door.season, [RACK], at(door, "8:00"), "shade").name == (
        "Rack 1 went out into the shade"
    )
    assert refusal(deeds.all_out, door.season, [], at(door, "8:00")) == (
        "No tray or rack is waiting to go out."
    )
    assert refusal(deeds.all_in, door.season, [], at(door, "8:00")) == "No tray or rack is out."


def test_a_ramp_begins_once_on_a_holder_with_seedlings_that_was_in_use(door):
    assert refusal(deeds.start_hardening, door.season, RACK, FIRST) == (
        "Rack 1 is being hardened already; its ramp goes on below."
    )
    assert refusal(deeds.start_hardening, door.season, BARE, FIRST) == (
        "Tray D holds no seedling; only what is up can be hardened."
    )
    assert refusal(deeds.start_hardening, door.season, TRAY, date(2027, 2, 28)) == (
        "Tray C is in use since 1 March; choose that day or a later one."
    )


def test_several_ramps_begin_as_one_act(door):
    door.do(deeds.stop_hardening(door.season, RACK))
    ramp = deeds.ramp_of(30, 480, 9)
    proposal = door.do(deeds.start_all(door.season, [TRAY, RACK], FIRST, ramp))
    assert proposal.name == "began hardening 2 holders"
    assert [door.stand(key, at(door, "7:00")).sun.ramp.doses for key in (TRAY, RACK)] == [
        Ramp(30, 480, 9).doses
    ] * 2
    door.undo()
    assert going_out(door.season) == []
    assert refusal(deeds.start_all, door.season, [], FIRST, ramp) == (
        "No tray or rack is chosen; choose at least one to harden."
    )


def test_a_ramp_that_falls_is_refused_in_one_sentence():
    assert refusal(deeds.ramp_of, 60, 60, 11) == (
        "The first outing is 60 minutes and the last 60; the last must be longer."
    )


def test_hardening_stops_only_when_the_holder_is_in(door):
    out(door, "8:00")
    assert refusal(deeds.stop_hardening, door.season, RACK) == "Rack 1 is out; bring it in first."
    door.do(deeds.come_in(door.season, RACK, at(door, "8:20")))
    door.do(deeds.stop_hardening(door.season, RACK))
    assert door.stand(RACK, at(door, "9:00")) is None
    door.undo()
    assert door.stand(RACK, at(door, "9:00")).counted.clock == 20


@pytest.mark.parametrize(
    ("zone", "day", "clock", "skipped"),
    [
        ("Europe/Ljubljana", date(2027, 3, 28), time(2, 30), True),
        ("Europe/Ljubljana", date(2027, 10, 31), time(2, 30), False),
        ("Australia/Sydney", date(2027, 10, 3), time(2, 30), True),
        ("Australia/Sydney", date(2027, 4, 4), time(2, 30), False),
    ],
)
def test_a_time_that_the_clocks_skip_cannot_be_entered(zone, day, clock, skipped):
    """Changes of the clocks from the IANA time zone data, as in test_outings."""
    place = Place("Ridge Lane", 46.0, 14.5, ZoneInfo(zone))
    if skipped:
        assert "the clocks go forward over it" in refusal(deeds.local_moment, day, clock, place)
    else:
        moment = deeds.local_moment(day, clock, place)
        assert place.local(moment).replace(tzinfo=None).time() == clock
        assert place.local(moment).fold == 0


def test_acts_put_together_are_one_and_strike_nothing_twice():
    one, two = Proposal("a", strike=("x", "y")), Proposal("b", strike=("y", "z"))
    assert together("both", [one, two]) == Proposal("both", (), ("x", "y", "z"))
    assert together("none", []).empty
