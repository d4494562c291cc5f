"""Sun and outdoor minutes planned together: worked by hand, and against the sun ramp's own rules.

No published schedule counts two clocks; the steps expected are worked on paper from the rule beside
them. The outdoor ramp of 120 minutes and 60 more a day is 120, 180, 240, 300, 360, 420, 480, 540, 600.
"""

import datetime as dt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.agronomy.hardening import (
    ChangingRamp,
    DayWeather,
    HoldLimits,
    OutdoorRamp,
    OutingDay,
    Ramp,
    RampState,
    follow,
    project,
    replay,
    state_on,
    step_after,
    verdict,
)
from greenroom.agronomy.two_clocks import (
    BothStates,
    Clocks,
    days_to_ready,
    morning_after,
    project_both,
)

FIRST = dt.date(2027, 5, 8)
DEFAULT = Clocks(Ramp(), OutdoorRamp())
COLD, MILD = DayWeather(tmin=2, tmax=8), DayWeather(tmin=9, tmax=18)


def day(number):
    return FIRST + dt.timedelta(days=number)


def far():
    return day(120)


# ------------------------------------------------------------------------------------------ the outdoor ramp


def test_the_outdoor_ramp_adds_as_much_each_day_and_ends_where_it_was_told():
    assert OutdoorRamp().doses == (120, 180, 240, 300, 360, 420, 480, 540, 600)
    assert OutdoorRamp(90, 60, 200).doses == (90, 150, 200)
    assert OutdoorRamp(180, 90, 180).doses == (180,)


def test_the_published_steps_are_the_ramps_own():
    """University of Florida: 60 to 120 minutes and about 60 more a day."""
    assert OutdoorRamp(60, 60, 600).doses[:4] == (60, 120, 180, 240)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((0, 60, 600), "start_minutes is 0"),
        ((120, 0, 600), "step_minutes is 0"),
        ((120, 60, 100), "full_minutes is 100; .*at least 120"),
        ((120, 60, 1500), "full_minutes is 1500"),
    ],
)
def test_an_outdoor_ramp_refuses_what_it_cannot_climb(arguments, said):
    with pytest.raises(ValueError, match=said):
        OutdoorRamp(*arguments)


def test_minutes_outdoors_count_for_every_step_they_hold():
    ramp = OutdoorRamp()
    rows = [
        (96, 1, "96 of 120 is four fifths: one up"),
        (100, 1, "less than four fifths of 180: same"),
        (430, 6, "420 and less are borne: six steps"),
        (480, 7, "the step itself: one up"),
        (0, 7, "first day in: same"),
        (0, 6, "second running: one down"),
        (600, 9, "all is borne"),
    ]
    days = []
    for number, (minutes, expected, rule) in enumerate(rows):
        days.append(OutingDay(day(number), minutes))
        assert step_after(ramp, days) == expected, rule


def test_a_setback_of_the_wind_goes_down_the_outdoor_ramp():
    ramp = OutdoorRamp()
    well = [OutingDay(day(number), ramp.doses[number]) for number in range(5)]
    for setback, expected in (("droop", 4), ("wilt", 3), ("scorch", 2)):
        assert step_after(ramp, [*well, OutingDay(day(5), 420, setback)]) == expected
    # 200 minutes outdoors when it showed: 180 is the highest borne, step 1
    assert step_after(ramp, [*well, OutingDay(day(5), 420, "droop", setback_after=200)]) == 1


# --------------------------------------------------------------------------------- counting in another way


def test_each_day_is_judged_by_the_minutes_of_its_own_counting():
    # From the third day on the ramp ends at 300: 20·15^(k/10) gives 20, 25, 35, 45, 60, 75, ...
    changed = ChangingRamp(Ramp(), ((day(2), Ramp(20, 300)),))
    days = [OutingDay(day(0), 20), OutingDay(day(1), 30), OutingDay(day(2), 28), OutingDay(day(3), 36)]
    assert [row.after for row in replay(changed, days)] == [1, 2, 3, 4]
    assert [row.after for row in replay(Ramp(), days)] == [1, 2, 2, 3]
    assert changed.doses == Ramp(20, 300).doses


def test_a_change_of_counting_keeps_the_number_of_steps():
    with pytest.raises(ValueError, match="changes holds 9 outings from 2027-05-10; it must be 11"):
        ChangingRamp(Ramp(), ((day(2), Ramp(20, 300, 9)),))
    with pytest.raises(ValueError, match="each must be later"):
        ChangingRamp(Ramp(), ((day(2), Ramp()), (day(2), Ramp())))


# ---------------------------------------------------------------------------------------------- the limits


@pytest.mark.parametrize(
    ("weather", "limits", "expected"),
    [
        ((8, 13, 3, 0), None, "out"),
        ((8, 13, 3, 0), HoldLimits(cold_c=15), "hold"),
        ((2, 6, 3, 0), None, "hold"),
        ((2, 6, 3, 0), HoldLimits(cold_c=4.4), "out"),
        ((8, 20, 9, 0), HoldLimits(gust_m_s=9), "hold"),
        ((8, 20, 12, 0), HoldLimits(gust_m_s=14), "sheltered"),
        ((8, 20, 3, 6), HoldLimits(rain_mm=6), "hold"),
        ((8, 20, 3, 20), HoldLimits(rain_mm=25), "sheltered"),
    ],
)
def test_a_crops_own_limits_decide(weather, limits, expected):
    assert verdict(*weather, limits=limits)[0] == expected


def test_the_strictest_of_two_crops_holds_for_both():
    both = HoldLimits(4.4, 9, 15).strictest(HoldLimits(10, 11, 8))
    assert both == HoldLimits(10, 9, 8)


@pytest.mark.parametrize(
    "arguments", [{"cold_c": 80}, {"gust_m_s": 0}, {"rain_mm": 0}, {"cold_c": float("nan")}]
)
def test_limits_that_hold_always_or_mean_nothing_are_refused(arguments):
    with pytest.raises(ValueError, match=f"{next(iter(arguments))} is"):
        HoldLimits(**arguments)


# -------------------------------------------------------------------------------------------- both together


def test_the_first_days_are_mostly_shade_and_the_last_are_all_sun():
    plan = project_both(DEFAULT, BothStates(), FIRST, {}, far())
    assert [one.sun_minutes for one in plan] == [20, 30, 40, 55, 80, 110, 155, 215, 305, 425, 600]
    assert [one.air_minutes for one in plan] == [120, 180, 240, 300, 360, 420, 480, 540, 600, 600, 600]
    assert [one.shade_minutes for one in plan] == [100, 150, 200, 245, 280, 310, 325, 325, 295, 175, 0]


def test_without_harm_from_the_wind_the_ready_date_is_the_sun_ramps():
    plan = project(Ramp(), [], FIRST, {day(3): COLD, day(4): COLD}, far())
    both = project_both(DEFAULT, BothStates(), FIRST, {day(3): COLD, day(4): COLD}, far())
    assert both[-1].date == plan[-1].date
    assert [one.sun_minutes for one in both] == [one.minutes for one in plan]


def test_wind_harm_near_the_end_puts_the_ready_date_off_though_the_sun_clock_stands():
    # sun done but for its last step; the outdoor clock back on step 4 of 9
    states = BothStates(RampState(10), RampState(4))
    plan = project_both(DEFAULT, states, FIRST, {}, far())
    # day 1: 600 minutes of sun are outdoors and hold all nine steps
    assert len(plan) == 1
    states = BothStates(RampState(7), RampState(0))
    # 215, 305, 425, 600 of sun: outdoors 215 holds 2 steps, 305 holds 4, 425 holds 6, 600 all
    plan = project_both(DEFAULT, states, FIRST, {}, far())
    assert [one.air_step for one in plan] == [0, 2, 4, 6]


def test_a_day_of_rest_after_scorch_keeps_the_whole_tray_in():
    states = BothStates(RampState(3, resting=True), RampState(5))
    plan = project_both(DEFAULT, states, FIRST, {}, far())
    assert (plan[0].verdict, plan[0].sun_minutes, plan[0].air_minutes) == ("hold", 0, 0)
    assert (plan[1].sun_step, plan[1].air_step) == (3, 5)


def test_a_clock_that_has_had_its_day_asks_for_nothing_more_of_it():
    states = BothStates(RampState(4), RampState(3), sun_settled=True)
    first, second = project_both(DEFAULT, states, FIRST, {}, far())[:2]
    assert (first.sun_minutes, first.air_minutes) == (0, 300)
    assert (second.sun_step, second.air_step) == (4, 4)
    assert morning_after(DEFAULT, states, FIRST, MILD) == BothStates(RampState(4), RampState(4))


def test_a_done_tray_has_nothing_ahead():
    assert project_both(DEFAULT, BothStates(RampState(11), RampState(9)), FIRST, {}, far()) == []


def test_ready_counts_the_days_of_each_weather():
    held = np.zeros((4, 20), dtype=bool)
    held[1, 3] = True  # one day in: a day later
    held[2, 3:5] = True  # two running: three days later, one for the step it costs
    held[3] = True
    assert days_to_ready(DEFAULT, BothStates(), held).tolist() == [11, 12, 14, -1]


def test_ready_before_the_first_day_takes_no_day():
    done = BothStates(RampState(11), RampState(9))
    assert days_to_ready(DEFAULT, done, np.ones((2, 5), dtype=bool)).tolist() == [0, 0]


def test_ready_refuses_a_day_half_settled():
    with pytest.raises(ValueError, match="states is settled"):
        days_to_ready(DEFAULT, BothStates(sun_settled=True), np.zeros((1, 5), dtype=bool))
    with pytest.raises(ValueError, match="held is a single value"):
        days_to_ready(DEFAULT, BothStates(), np.array(True))


# --------------------------------------------------------------------------------------------------- laws

ramps = st.builds(
    lambda start, more, outings: Ramp(start, start + more, outings),
    st.integers(5, 300),
    st.integers(30, 600),
    st.integers(7, 21),
)
airs = st.builds(
    lambda start, step, more: OutdoorRamp(start, step, start + more),
    st.integers(30, 300),
    st.integers(20, 200),
    st.integers(0, 600),
)


@st.composite
def tales(draw):
    """Two clocks, where they stand, and the weather of sixty days."""
    clocks = Clocks(draw(ramps), draw(airs))
    states = BothStates(
        RampState(draw(st.integers(0, clocks.sun.outings)), draw(st.integers(0, 3)), draw(st.booleans())),
        RampState(draw(st.integers(0, clocks.air.outings)), draw(st.integers(0, 3)), draw(st.booleans())),
    )
    held = draw(st.lists(st.lists(st.booleans(), min_size=60, max_size=60), min_size=1, max_size=4))
    return clocks, states, np.array(held)


@given(tales())
def test_many_weathers_at_once_are_each_weather_by_itself(tale):
    clocks, states, held = tale
    expected = []
    for row in held:
        weather = {day(number): COLD if hold else MILD for number, hold in enumerate(row)}
        plan = project_both(clocks, states, FIRST, weather, day(59))
        last = states
        for one in plan:
            last = BothStates(
                follow(clocks.sun, last.sun, one.sun_day), follow(clocks.air, last.air, one.air_day)
            )
        expected.append(len(plan) if last.done(clocks) else -1)
    assert days_to_ready(clocks, states, held).tolist() == expected


@given(tales(), st.integers(0, 59))
def test_one_more_day_held_never_brings_ready_nearer(tale, at):
    clocks, states, held = tale
    worse = held.copy()
    worse[:, at] = True
    before, after = (days_to_ready(clocks, states, one) for one in (held, worse))
    late = np.where(after == -1, 1000, after)
    assert (late >= np.where(before == -1, 1000, before)).all()


@given(tales(), st.data())
def test_standing_lower_on_either_clock_never_brings_ready_nearer(tale, data):
    clocks, states, held = tale
    lower = BothStates(
        RampState(data.draw(st.integers(0, states.sun.step)), states.sun.days_in, states.sun.resting),
        RampState(data.draw(st.integers(0, states.air.step)), states.air.days_in, states.air.resting),
    )
    before, after = (days_to_ready(clocks, one, held) for one in (states, lower))
    assert (np.where(after == -1, 1000, after) >= np.where(before == -1, 1000, before)).all()


@given(airs, st.lists(st.integers(0, 900), min_size=1, max_size=15), st.data())
def test_a_setback_never_leaves_the_outdoor_clock_higher(air, minutes, data):
    at = data.draw(st.integers(0, len(minutes) - 1))
    setback = data.draw(st.sampled_from(["droop", "wilt", "scorch"]))
    well = [OutingDay(day(number), given) for number, given in enumerate(minutes)]
    harmed = [*well[:at], OutingDay(day(at), minutes[at], setback), *well[at + 1 :]]
    ends = [state_on(air, days, day(len(minutes))) for days in (well, harmed)]
    assert ends[1].step <= ends[0].step


@given(airs, st.lists(st.integers(0, 900), min_size=1, max_size=15), st.integers(1, 300))
def test_more_minutes_outdoors_never_leave_the_outdoor_clock_lower(air, minutes, more):
    steps = [
        step_after(air, [OutingDay(day(number), given + extra) for number, given in enumerate(minutes)])
        for extra in (0, more)
    ]
    assert steps[1] >= steps[0]
