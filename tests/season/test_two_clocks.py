"""Sun and outdoor minutes are counted, walked up and set back each for itself.

The rules of each clock are tested in tests/agronomy; here they are fed with facts, and the sun clock is
held against the ramp replayed on the same days.
"""

from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.agronomy.hardening import HoldLimits, OutingDay, Ramp, replay
from greenroom.ledger.facts import HardeningStarted, Held, OutingStarted, SetbackSeen
from greenroom.season.deeds_harden import enter_outing
from greenroom.season.deeds_outdoors import set_ramp, setback_from
from greenroom.season.outings import fold_outings
from greenroom.season.setback_preview import preview
from tests.season._yard import FIRST, STEPS, TRAY, Yard, day

OUTDOORS = [120, 180, 240, 300, 360, 420, 480, 540, 600]


def foreseen(yard, what, cause, now):
    """What a setback seen at two o'clock on the sixth day would do."""
    proposal = setback_from(yard.season, TRAY, what, cause, yard.at(day(5), "14:00"), now=now)
    return preview(yard.season, TRAY, proposal, day(5), now, cause=cause)


def as_planned(yard, count, shade=True):
    """So many days of the plan, sun first and the rest of the outdoor minutes in shade."""
    for number in range(1, count + 1):
        sun = STEPS[number - 1]
        rest = max(0, OUTDOORS[min(number, 9) - 1] - sun) if shade else 0
        yard.out(day(number), "8:00", sun, rest)


def test_a_holder_that_has_not_begun_stands_on_no_clock():
    assert Yard(begun=None).stand(FIRST) is None


def test_the_first_morning_asks_for_a_little_sun_and_two_hours_outdoors():
    stand = Yard().stand(FIRST)
    assert (stand.sun.limit, stand.air.limit) == (20, 120)
    assert stand.shade_left == 100
    assert stand.sheltered_first
    assert stand.ready_on == stand.first_ready_on == day(11)
    assert [one.sun_minutes for one in stand.ahead] == STEPS
    assert [one.air_minutes for one in stand.ahead][:9] == OUTDOORS


def test_days_as_planned_walk_up_both_clocks():
    yard = Yard()
    as_planned(yard, 5)
    stand = yard.stand(day(6))
    assert (stand.sun.step, stand.air.step) == (5, 5)
    assert not stand.sheltered_first
    assert stand.days_later == 0


def test_a_tray_that_only_ever_stood_in_the_sun_is_ready_as_soon_as_one_with_shade():
    with_shade, without = Yard(), Yard()
    as_planned(with_shade, 10)
    as_planned(without, 10, shade=False)
    assert with_shade.stand(day(11)).ready_on == without.stand(day(11)).ready_on == day(11)


def test_sun_and_shade_minutes_of_today_are_told_apart():
    yard = Yard()
    yard.out(FIRST, "8:00", 20, 45)
    stand = yard.stand(FIRST, "12:00")
    assert (stand.counted.clock, stand.counted.shade, stand.counted.outdoors) == (20, 45, 65)
    assert stand.sun.settled.after == 1
    assert stand.air.settled is None
    assert stand.air.left == 55
    assert stand.shade_left == 55
    assert (stand.ahead[0].date, stand.ahead[0].sun_minutes) == (FIRST, 0)


@pytest.mark.parametrize(
    ("cause", "steps", "rule"),
    [
        ("sun", (3, 5), "drooping in the sun: one step down on the sun clock"),
        ("wind", (5, 3), "drooping in the wind: one step down outdoors"),
        ("thirst", (5, 5), "thirst: water mends it, no clock goes back"),
    ],
)
def test_a_setback_goes_back_on_the_clock_that_caused_it(cause, steps, rule):
    yard = Yard()
    as_planned(yard, 5)
    yard.setback(day(5), "14:00", "droop", cause)
    stand = yard.stand(day(6))
    assert (stand.sun.step, stand.air.step) == steps, rule


@pytest.mark.parametrize(("what", "sun"), [("droop", 3), ("wilt", 2), ("scorch", 1)])
def test_a_worse_setback_goes_further_back(what, sun):
    yard = Yard()
    as_planned(yard, 5)
    yard.setback(day(5), "14:00", what)
    stand = yard.stand(day(6))
    assert stand.sun.step == sun
    assert stand.resting is (what == "scorch")
    assert stand.ahead[0].verdict == ("hold" if what == "scorch" else "out")


def test_the_minutes_borne_until_the_wind_took_them_count_for_the_outdoor_clock():
    yard = Yard()
    as_planned(yard, 8)  # outdoors 540 on day 8, out at 8:00
    yard.setback(day(8), "11:10", "droop", "wind")
    # 190 minutes outdoors when it showed: 180, step 1, is the highest borne
    assert yard.stand(day(9)).air.step == 1
    assert yard.stand(day(9)).sun.step == 8


def test_of_two_causes_each_counts_on_its_own_clock():
    yard = Yard()
    as_planned(yard, 5)
    yard.setback(day(5), "14:00", "wilt", "wind")
    yard.setback(day(5), "14:05", "droop", "sun")
    stand = yard.stand(day(6))
    assert (stand.sun.step, stand.air.step) == (3, 2)


def test_wind_harm_puts_ready_off_only_if_the_outdoor_clock_is_the_later():
    early, late = Yard(), Yard()
    as_planned(early, 4)
    early.setback(day(4), "12:00", "wilt", "wind")
    assert early.stand(day(5)).ready_on == day(11)
    as_planned(late, 11)
    assert late.stand(day(11), "19:00").ready_on == day(11)
    late.setback(day(11), "18:00", "scorch", "wind")
    stand = late.stand(day(12))
    assert stand.sun.done
    assert not stand.hardened
    assert stand.ready_on > day(11)


def test_a_day_kept_in_is_a_day_in_on_both_clocks():
    yard = Yard()
    as_planned(yard, 4)
    for number in (5, 6):
        yard.write(Held(day=day(number), holder=TRAY, why="storm"))
    stand = yard.stand(day(7))
    assert (stand.sun.step, stand.air.step) == (3, 3)
    assert yard.stand(day(5)).over


def test_the_crops_own_limits_hold_its_plan():
    cold = {day(number): {"tmin_c": 1.0, "tmax_c": 7.0} for number in (1, 2)}
    pepper, cabbage = Yard(), Yard(crop="cabbage")
    for yard in (pepper, cabbage):
        yard.weather(cold)
    assert [one.verdict for one in pepper.stand(FIRST).ahead[:3]] == ["hold", "hold", "out"]
    assert [one.verdict for one in cabbage.stand(FIRST).ahead[:3]] == ["out", "out", "out"]
    cabbage.do(set_ramp(cabbage.season, "cabbage", Ramp(), HoldLimits(cold_c=8), FIRST))
    assert cabbage.stand(FIRST).ahead[0].verdict == "hold"


def test_a_holder_that_went_out_is_not_held_back_by_the_rest_of_the_day():
    yard = Yard()
    yard.weather({FIRST: {"gust_ms": 20.0}})
    assert yard.stand(FIRST).ahead[0].verdict == "hold"
    yard.out(FIRST, "8:00", 10)
    assert yard.stand(FIRST).ahead[0].verdict == "out"


def test_mornings_tell_where_both_clocks_stood():
    yard = Yard()
    as_planned(yard, 3)
    yard.setback(day(3), "11:00", "droop", "wind")
    found = yard.stand(day(5)).mornings
    assert sorted(found) == [day(number) for number in range(1, 6)]
    assert [(one.sun.step, one.air.step) for one in found.values()] == [
        (0, 0),
        (1, 1),
        (2, 2),
        (3, 1),
        (3, 1),
    ]


# --------------------------------------------------------------------------------------------- the preview


def test_a_preview_tells_what_would_change_and_writes_nothing():
    yard = Yard()
    as_planned(yard, 5)
    now = yard.at(day(5), "15:00")
    facts = list(yard.season.holder_facts(TRAY))
    found = foreseen(yard, "wilt", "sun", now)
    assert found.lines == (
        "Sun tomorrow: step 6 of 11 (110 minutes) becomes step 3 of 11 (40 minutes).",
        "Outdoors tomorrow: step 6 of 9 (420 minutes), as before.",
        "Ready 18 May becomes 21 May, 3 days later.",
    )
    assert found.days_later == 3
    assert list(yard.season.holder_facts(TRAY)) == facts
    yard.do(found.proposal)
    assert yard.stand(day(5), "15:00").ready_on == found.after.ready_on


def test_a_preview_says_that_thirst_costs_nothing_and_scorch_a_day_of_rest():
    yard = Yard()
    as_planned(yard, 5)
    now = yard.at(day(5), "15:00")
    thirst = foreseen(yard, "droop", "thirst", now)
    assert "Thirst sets no clock back." in thirst.lines
    assert thirst.days_later == 0
    scorch = foreseen(yard, "scorch", "sun", now)
    assert "The day after is a day of rest, in." in scorch.lines
    assert scorch.days_later == 5  # four steps and the rest


def test_any_act_can_be_foreseen():
    yard = Yard()
    as_planned(yard, 2)
    start = yard.at(day(3), "8:00")
    act = enter_outing(
        yard.season, TRAY, [(start, "sun")], start + timedelta(minutes=40), yard.at(day(3), "9:00")
    )
    found = preview(yard.season, TRAY, act, day(3), yard.at(day(3), "9:00"))
    assert found.after.sun.settled.after == 3
    assert found.before.sun.settled is None


def test_what_a_late_entry_would_do_is_told_for_today():
    yard = Yard()
    start, now = yard.at(FIRST, "8:00"), yard.at(day(2), "7:00")
    entry = enter_outing(yard.season, TRAY, [(start, "sun")], start + timedelta(minutes=20), now)
    assert preview(yard.season, TRAY, entry, day(2), now).lines == (
        "Sun today: step 1 of 11 (20 minutes) becomes step 2 of 11 (30 minutes).",
        "Outdoors today: step 1 of 9 (120 minutes), as before.",
        "Ready 19 May becomes 18 May, 1 day earlier.",
    )


# -------------------------------------------------------------------------------------------------- laws

minutes = st.sampled_from([0, 0, 10, 30, 60, 120, 240, 420])
days_told = st.lists(st.tuples(minutes, minutes), min_size=1, max_size=10)
kinds = st.sampled_from(["droop", "wilt", "scorch"])


def told(rows):
    yard = Yard()
    for number, (sun, shade) in enumerate(rows, start=1):
        if sun or shade:
            yard.out(day(number), "7:00", sun, shade) if sun else yard.out(
                day(number), "7:00", 0, shade, first="shade"
            )
    return yard


@given(days_told, st.one_of(st.none(), kinds))
def test_the_sun_clock_by_the_clock_is_the_ramp_replayed_on_the_days_as_they_were(rows, what):
    """Out at 7:00, the sun first; what is seen at 10:00 was seen after the sun minutes until then."""
    yard = told(rows)
    last = day(len(rows))
    seen = what if sum(rows[-1]) > 0 else None
    if seen is not None:
        yard.setback(last, "10:00", seen)
    days = [OutingDay(day(number), sun, shade_minutes=shade) for number, (sun, shade) in enumerate(rows, 1)]
    sun, shade = rows[-1]
    days[-1] = OutingDay(last, sun, seen, min(sun, 180) if seen else None, shade)
    walked = replay(Ramp(), days)
    evening = yard.stand(last, "21:30")  # all outings are over
    assert (list(evening.sun.days), evening.sun.settled) == (walked[:-1], walked[-1])
    assert (evening.counted.clock, evening.counted.shade) == (pytest.approx(sun), pytest.approx(shade))
    assert yard.stand(last + timedelta(days=1), "7:00").sun.step == walked[-1].after


@given(days_told, kinds, st.sampled_from(["sun", "wind", "thirst"]), st.data())
def test_a_setback_never_brings_ready_nearer_and_never_moves_the_other_clock(rows, what, cause, data):
    out = [number for number, row in enumerate(rows, start=1) if sum(row) > 0]
    if not out:
        return
    at = data.draw(st.sampled_from(out))
    yard = told(rows)
    today = day(len(rows) + 1)
    before = yard.stand(today)
    yard.setback(day(at), "7:30", what, cause)
    after = yard.stand(today)
    assert after.ready_on >= before.ready_on
    assert after.sun.step <= before.sun.step
    assert after.air.step <= before.air.step
    if cause != "sun":
        assert after.sun.state == before.sun.state
    if cause != "wind":
        assert after.air.state == before.air.state


@given(days_told)
def test_a_clock_goes_up_by_what_it_was_given_whatever_the_facts_order(rows):
    yard, backwards = told(rows), Yard()
    for number, (sun, shade) in reversed(list(enumerate(rows, start=1))):
        if sun:
            backwards.out(day(number), "7:00", sun, shade)
        elif shade:
            backwards.out(day(number), "7:00", 0, shade, first="shade")
    today = day(len(rows) + 1)
    one, other = yard.stand(today), backwards.stand(today)
    assert (one.sun.state, one.air.state, one.ready_on) == (other.sun.state, other.air.state, other.ready_on)


def test_a_new_start_forgets_what_was_before_it():
    yard = Yard()
    as_planned(yard, 3)
    yard.write(HardeningStarted(day=day(5), holder=TRAY, outings=7))
    stand = yard.stand(day(5))
    assert (stand.started_on, stand.sun.step, stand.air.step) == (day(5), 0, 0)
    assert stand.ready_on == day(11)


def test_an_undone_setback_is_as_if_it_had_never_been():
    yard = Yard()
    as_planned(yard, 5)
    before = yard.stand(day(6))
    noted = yard.do(
        setback_from(
            yard.season, TRAY, "wilt", "wind", yard.at(day(5), "12:00"), now=yard.at(day(5), "13:00")
        )
    )
    assert yard.stand(day(6)) != before
    (fact,) = (one for one in noted.record if isinstance(one, SetbackSeen))
    yard.write(strike=(fact.id,))
    assert yard.stand(day(6)) == before
    assert len(fold_outings(yard.season.holder_facts(TRAY))) == 5


# ------------------------------------------------------------------------------------------ worked out once


def test_a_holder_that_is_in_is_worked_out_once_until_something_it_rests_on_changes():
    yard = Yard()
    as_planned(yard, 2)
    first = yard.stand(day(3), "9:00")
    assert yard.stand(day(3), "9:20") is first
    assert yard.stand(day(3), "22:00") is not first  # the sun has set: nothing more can come of the day
    assert yard.stand(day(3), "22:00").sun.settled is not None
    yard.weather({day(4): {"gust_ms": 20.0}})
    assert yard.stand(day(3), "9:00").ahead[1].verdict == "hold"
    yard.do(set_ramp(yard.season, "pepper", Ramp(), HoldLimits(gust_m_s=25.0), day(3)))
    assert yard.stand(day(3), "9:00").ahead[1].verdict != "hold"
    yard.out(day(3), "8:00", 40)
    assert yard.stand(day(3), "9:00").sun.settled.after == 3


def test_while_it_is_out_each_look_counts_what_was_over_before_and_what_goes_on():
    looked, fresh = Yard(), Yard()
    for yard in (looked, fresh):
        as_planned(yard, 3)
        yard.out(day(4), "7:00", 10)
        start = OutingStarted(day=day(4), outing="now", holder=TRAY, at=yard.at(day(4), "8:00"))
        yard.write(start)
    looked.stand(day(4), "8:10")
    one, other = looked.stand(day(4), "8:40"), fresh.stand(day(4), "8:40")
    assert (one.by_day, one.sun, one.air) == (other.by_day, other.sun, other.air)
    assert one.counted.clock == 50
