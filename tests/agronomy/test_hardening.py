"""Hardening off, worked by hand: each row of a table carries the rule that gives its step.

The rules are this program's own (no published schedule says what a skipped day does), so the expected
steps are worked on paper from the rule beside the row. Doses of the default ramp: 20·30^(k/10) with
30^(1/10) = 1.4051, by hand 20, 28.1, 39.5, 55.5, 78.0, 109.5, 153.9, 216.3, 303.9, 427.0, 600.
"""

import datetime as dt

import numpy as np
import pytest

from greenroom.agronomy.hardening import (
    REST,
    DayWeather,
    OutingDay,
    Planned,
    Ramp,
    project,
    replay,
    rests_on,
    step_after,
    step_on,
    verdict,
)

DEFAULT_DOSES = [20, 30, 40, 55, 80, 110, 155, 215, 305, 425, 600]
FIRST = dt.date(2024, 4, 27)  # runs over the end of April
MILD = DayWeather(tmin=12, tmax=20, gust=3, rain=0)
COLD = DayWeather(tmin=3, tmax=9, gust=3, rain=0)
ABSENT = "no entry"


def day(number):
    return FIRST + dt.timedelta(days=number)


def outing(number, minutes=0.0, setback=None, after=None, shade=0.0):
    return OutingDay(day(number), minutes, setback, after, shade)


def full_outings(count, ramp=None):
    ramp = ramp or Ramp()
    return [outing(number, ramp.minutes(number)) for number in range(count)]


def check_table(rows, start=0):
    """Each row: (minutes, setback, setback_after, shade), step for the day after, the rule."""
    days = full_outings(start)
    for number, (what, expected, rule) in enumerate(rows, start):
        if what == ABSENT:
            continue
        days.append(outing(number, *what))
        assert step_after(Ramp(), days) == expected, f"row {number - start}: {rule}"


# ---------------------------------------------------------------------------------------------- the ramp


def test_the_default_ramp_climbs_from_twenty_minutes_to_ten_hours():
    assert [Ramp().minutes(step) for step in range(11)] == DEFAULT_DOSES


def test_an_array_of_steps_gives_an_array_of_minutes():
    minutes = Ramp().minutes(np.array([[0, 5], [10, 1]]))
    np.testing.assert_array_equal(minutes, [[20, 110], [600, 30]])


def test_one_step_gives_a_plain_whole_number():
    assert type(Ramp().minutes(np.int64(3))) is int


def test_a_seven_outing_ramp_is_worked_by_hand():
    # 30·20^(k/6), 20^(1/6) = 1.64755: 30, 49.4, 81.4, 134.2, 221.0, 364.2, 600
    assert list(Ramp(30, 600, 7).doses) == [30, 50, 80, 135, 220, 365, 600]


def test_a_first_dose_is_never_rounded_down_to_nothing():
    assert Ramp(start_minutes=1, full_minutes=100).minutes(0) == 5


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ({"outings": 6}, "outings is 6"),
        ({"outings": 22}, "outings is 22"),
        ({"outings": 9.5}, "outings is 9.5"),
        ({"start_minutes": 0}, "start_minutes is 0"),
        ({"start_minutes": 60, "full_minutes": 60}, "full_minutes is 60; it must be a number, .*above 60"),
        ({"full_minutes": 1500}, "full_minutes is 1500; .*at most 1440"),
        ({"start_minutes": float("nan")}, "start_minutes is nan"),
        ({"start_minutes": None}, "start_minutes is None"),
    ],
)
def test_a_ramp_refuses_what_it_cannot_climb(arguments, said):
    with pytest.raises(ValueError, match=said):
        Ramp(**arguments)


@pytest.mark.parametrize("step", [-1, 11, 2.5])
def test_a_step_off_the_ramp_has_no_minutes(step):
    with pytest.raises(ValueError, match="step is"):
        Ramp().minutes(step)


# ------------------------------------------------------------------------------------- days without harm


def test_no_days_means_the_first_step():
    assert step_after(Ramp(), []) == 0


def test_eleven_full_outings_harden_a_tray():
    assert step_after(Ramp(), full_outings(11)) == 11


def test_outings_long_and_short():
    check_table(
        [
            ((20,), 1, "all of the 20 minutes: one up"),
            ((24,), 2, "24 of 30 is 80 % exactly: one up"),
            ((31.9,), 2, "31.9 of 40 is less than 80 %, but out: same"),
            ((32,), 3, "32 of 40 is 80 %: one up"),
            ((1,), 3, "one minute is out all the same: same"),
            ((600,), 4, "far more than the step asks is still one step"),
        ]
    )


def test_four_fifths_of_any_dose_is_enough_and_a_hair_less_is_not():
    # 4/5 of a multiple of 5 is whole, so the limit is met exactly and not by luck of rounding
    for dose in range(5, 1440, 5):
        ramp = Ramp(start_minutes=dose, full_minutes=1440)
        assert step_after(ramp, [outing(0, dose // 5 * 4)]) == 1, dose
        assert step_after(ramp, [outing(0, dose // 5 * 4 - 0.01)]) == 0, dose


def test_days_in_cost_nothing_once_and_a_step_each_after():
    check_table(
        [
            ((0,), 5, "first day in: same"),
            ((0,), 4, "second running: one down"),
            ((0,), 3, "third running: one down"),
            ((10,), 3, "out, under 80 % of 55: same, and the run ends"),
            ((0,), 3, "first day in of a new run: same"),
            ((0,), 2, "second running: one down"),
        ],
        start=5,
    )


def test_a_day_without_an_entry_is_a_day_in():
    check_table(
        [
            (ABSENT, 5, "first day in: same"),
            (ABSENT, 4, "second running: one down"),
            (ABSENT, 3, "third running: one down"),
            ((55,), 4, "the step was 3, 55 minutes: one up"),
        ],
        start=5,
    )


def test_a_written_day_in_and_a_missing_one_count_into_the_same_run():
    check_table(
        [
            (ABSENT, 5, "first day in: same"),
            ((0,), 4, "second running: one down"),
            (ABSENT, 3, "third running: one down"),
            ((0,), 2, "fourth running: one down"),
        ],
        start=5,
    )


def test_days_before_the_first_entry_cost_nothing():
    assert step_after(Ramp(), [outing(30, 20)]) == 1


def test_a_day_of_shade_keeps_the_step_and_ends_the_run():
    check_table(
        [
            ((0,), 5, "first day in: same"),
            ((0,), 4, "second running: one down"),
            ((0, None, None, 180), 4, "shade only: keeps the step, ends the run"),
            ((0,), 4, "first day in again: same"),
            ((0,), 3, "second running: one down"),
        ],
        start=5,
    )


def test_shade_beside_sun_adds_nothing_to_the_ramp():
    check_table([((15, None, None, 600), 0, "15 of 20 minutes of sun: same, whatever the shade")])


def test_a_tray_left_in_long_enough_starts_afresh_and_no_lower():
    check_table(
        [
            ((0,), 2, "first day in: same"),
            ((0,), 1, "one down"),
            ((0,), 0, "one down"),
            ((0,), 0, "never below 0"),
            ((20,), 1, "the first step again: one up"),
        ],
        start=2,
    )


def test_a_hardened_tray_stays_hardened_while_it_goes_out():
    check_table([((600,), 11, "hardened"), ((30,), 11, "out: same"), ((0, None, None, 60), 11, "same")], 11)


def test_a_hardened_tray_kept_in_softens_a_step_a_day_after_the_first():
    check_table([((0,), 11, "first day in: same"), ((0,), 10, "one down"), ((0,), 9, "one down")], start=11)


# ------------------------------------------------------------------------------------------------ harm


def test_setbacks_one_by_one_from_the_sixth_outing():
    # Each starts from step 6 (155 minutes).
    for what, expected, rule in [
        ((155, "droop"), 5, "step - 1 = 5; 155 borne reaches step 6: the lower is 5"),
        ((155, "droop", 60), 3, "55 is the highest dose up to 60: step 3, lower than 5"),
        ((155, "droop", 55), 3, "55 itself was borne: step 3"),
        ((155, "droop", 54), 2, "40 is the highest dose up to 54: step 2"),
        ((155, "droop", 10), 0, "no dose is 10 or less: step 0"),
        ((60, "droop"), 3, "drooped when 60 minutes ended it: step 3"),
        ((155, "wilt"), 4, "one lower than droop's 5"),
        ((155, "wilt", 60), 2, "one lower than droop's 3"),
        ((155, "scorch"), 3, "two lower than droop's 5"),
        ((155, "scorch", 60), 1, "two lower than droop's 3"),
        ((155, "scorch", 30), 0, "droop's 1, two lower: never below 0"),
        ((400, "droop"), 5, "more borne than asked does not lift it: step - 1"),
        ((0, "droop", None, 120), 0, "drooped in shade before any sun: no dose is 0, step 0"),
    ]:
        check_table([(what, expected, rule)], start=6)


def test_a_setback_at_the_first_step_stays_there():
    for setback in ("droop", "wilt", "scorch"):
        check_table([((20, setback), 0, "never below 0")])


def test_a_setback_undoes_even_a_full_outing():
    check_table([((20,), 1, "one up"), ((30, "droop"), 0, "step 1, all minutes, but droop: 1 - 1")])


def test_a_setback_on_a_hardened_tray_counts_from_the_last_step():
    for what, expected, rule in [
        ((600, "droop"), 9, "last step 10: 10 - 1"),
        ((600, "wilt"), 8, "one lower"),
        ((600, "scorch"), 7, "two lower"),
        ((600, "droop", 120), 5, "110 is the highest dose up to 120: step 5"),
        ((1440, "droop"), 9, "10 - 1, however long it stood out"),
    ]:
        check_table([(what, expected, rule)], start=11)


def test_the_day_after_scorch_is_a_day_in_that_starts_no_run():
    check_table(
        [
            ((215, "scorch"), 4, "step 7 - 1, two lower"),
            ((0,), 4, "the rest day: costs nothing, not in the run"),
            ((0,), 4, "first day in of a run: same"),
            ((0,), 3, "second running: one down"),
        ],
        start=7,
    )


def test_an_unwritten_rest_day_counts_the_same():
    check_table(
        [
            ((215, "scorch"), 4, "step 7 - 1, two lower"),
            (ABSENT, 4, "the rest day"),
            (ABSENT, 4, "first day in: same"),
            ((80,), 5, "step 4 asks 80: one up"),
        ],
        start=7,
    )


def test_after_droop_or_wilt_the_next_day_in_is_the_first_of_a_run():
    check_table(
        [((215, "wilt"), 5, "7 - 1, one lower"), ((0,), 5, "first day in"), ((0,), 4, "one down")], start=7
    )


def test_a_tray_sent_out_on_its_rest_day_is_judged_by_what_it_bore():
    check_table(
        [
            ((215, "scorch"), 4, "step 7 - 1, two lower"),
            ((80,), 5, "out all the same, 80 of 80 minutes: one up"),
            ((0,), 5, "the rest is over: first day in of a run"),
            ((0,), 4, "second running: one down"),
        ],
        start=7,
    )


def test_scorch_again_on_the_rest_day_brings_another_rest_day():
    check_table(
        [
            ((305, "scorch"), 5, "step 8 - 1, two lower"),
            ((110, "scorch"), 2, "step 5 - 1, two lower"),
            ((0,), 2, "rest"),
            ((0,), 2, "first day in"),
            ((0,), 1, "one down"),
        ],
        start=8,
    )


def test_a_setback_ends_a_run_of_days_in():
    check_table(
        [
            ((0,), 6, "first day in"),
            ((0,), 5, "one down"),
            ((110, "droop"), 4, "5 - 1"),
            ((0,), 4, "first day in of a new run"),
        ],
        start=6,
    )


def test_scorch_found_on_a_day_in_leaves_the_run_running():
    check_table(
        [
            ((0,), 6, "first day in"),
            ((0, "scorch", 155), 3, "6 - 1, two lower; second day in running"),
            ((0,), 3, "rest: costs nothing"),
            ((0,), 2, "third day in of the run: one down"),
        ],
        start=6,
    )


# --------------------------------------------------------------------------------- replaying and its like


def test_a_replay_tells_each_days_step_before_and_after():
    ramp = Ramp()
    days = [outing(0, 20), outing(1, 30), outing(4, 20), outing(5, 30, "droop")]
    walked = replay(ramp, days)
    assert [(row.before, row.after) for row in walked] == [(0, 1), (1, 2), (2, 2), (2, 1), (1, 1), (1, 0)]
    assert [row.day.date for row in walked] == [day(number) for number in range(6)]
    assert walked[2].day == OutingDay(day(2), 0)


def test_the_order_in_which_days_are_handed_over_does_not_matter():
    days = [*full_outings(4), outing(6, 80, "wilt")]
    assert step_after(Ramp(), reversed(days)) == step_after(Ramp(), days)


def test_two_entries_for_one_date_are_refused():
    with pytest.raises(
        ValueError, match="days holds two entries for 2024-04-27; there must be at most one a date"
    ):
        step_after(Ramp(), [outing(0, 20), outing(0, 30)])


def test_the_step_on_a_later_day_counts_the_days_between_as_days_in():
    days = full_outings(5)
    assert [step_on(Ramp(), days, day(number)) for number in (5, 6, 7, 8)] == [5, 5, 4, 3]
    assert step_on(Ramp(), [], FIRST) == 0


def test_the_step_on_a_day_already_lived_is_refused():
    with pytest.raises(ValueError, match="days holds 2024-04-28; the last must lie before 2024-04-28"):
        step_on(Ramp(), full_outings(2), day(1))


def test_only_the_day_after_scorch_is_a_rest_day():
    days = [outing(0, 20), outing(1, 30, "scorch"), outing(3, 20, "wilt")]
    assert [rests_on(days, day(number)) for number in range(5)] == [False, False, True, False, False]


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ((dt.datetime(2024, 5, 1, tzinfo=dt.UTC), 20), "date is datetime"),
        (("2024-05-01", 20), "date is '2024-05-01'; it must be a date"),
        ((FIRST, -1), "minutes is -1; it must be a number, at least 0 and at most 1440"),
        ((FIRST, 1441), "minutes is 1441"),
        ((FIRST, float("nan")), "minutes is nan"),
        ((FIRST, None), "minutes is None"),
        ((FIRST, [20, 30]), "minutes is an array"),
        ((FIRST, 20, "sulk"), "setback is 'sulk'; it must be one of: droop, wilt, scorch"),
        ((FIRST, 20, "droop", -5), "setback_after is -5"),
        ((FIRST, 20, None, None, -5), "shade_minutes is -5"),
    ],
)
def test_a_day_refuses_what_cannot_have_happened(arguments, said):
    with pytest.raises(ValueError, match=said):
        OutingDay(*arguments)


# ------------------------------------------------------------------------------------------- the weather


@pytest.mark.parametrize(
    ("weather", "said", "rule"),
    [
        ((5, 10, 6.9, 4.9), ("out", ()), "tmax not below 10, gust below 7, rain below 5"),
        ((5, 9.9, 0, 0), ("hold", ("too cold",)), "tmax below 10"),
        ((12, 20, 11, 0), ("hold", ("strong gusts",)), "gust at 11"),
        ((12, 20, 0, 15), ("hold", ("heavy rain",)), "rain at 15"),
        ((12, 20, 7, 0), ("sheltered", ("gusts",)), "gust at 7"),
        ((12, 20, 10.9, 14.9), ("sheltered", ("gusts", "rain")), "gust from 7, rain from 5"),
        ((12, 20, 0, 5), ("sheltered", ("rain",)), "rain at 5"),
        ((2, 8, 12, 20), ("hold", ("too cold", "strong gusts", "heavy rain")), "all three"),
        ((-5, 12, 0, 0), ("out", ()), "a cold night alone holds nothing: trays come in"),
        ((None, None, None, None), ("out", ()), "the unknown never holds"),
        ((float("nan"), float("nan"), float("nan"), float("nan")), ("out", ()), "NaN is unknown"),
        ((None, None, 12, None), ("hold", ("strong gusts",)), "what is known still holds"),
    ],
)
def test_the_weather_lets_trays_out_shelters_or_holds_them(weather, said, rule):
    assert verdict(*weather) == said, rule


@pytest.mark.parametrize(
    ("weather", "said"),
    [((1, 2, -1, 0), "gust is -1"), ((1, 2, 0, -1), "rain is -1"), ((1, float("inf"), 0, 0), "tmax is inf")],
)
def test_weather_that_cannot_be_is_refused(weather, said):
    with pytest.raises(ValueError, match=said):
        verdict(*weather)


# ---------------------------------------------------------------------------------------- the days ahead


def test_a_plan_without_forecast_runs_up_the_ramp_a_day_a_step():
    plan = project(Ramp(), [], FIRST, {}, day(60))
    assert [planned.minutes for planned in plan] == DEFAULT_DOSES
    assert [planned.date for planned in plan] == [day(number) for number in range(11)]
    assert {(planned.verdict, planned.reasons) for planned in plan} == {("out", ())}


def test_a_plan_starts_tomorrow_when_today_is_written():
    plan = project(Ramp(), full_outings(3), day(2), {}, day(4))
    assert plan == [Planned(day(3), 3, 55, "out"), Planned(day(4), 4, 80, "out")]


def test_days_unwritten_before_today_were_days_in():
    # outings on days 0 to 4, step 5; day 5 in: same; day 6 in: one down; today is day 7
    assert project(Ramp(), full_outings(5), day(7), {}, day(7)) == [Planned(day(7), 4, 80, "out")]


def test_days_held_by_the_weather_count_as_days_in():
    forecast = {day(2): COLD, day(3): COLD, day(4): COLD, day(5): MILD, day(6): COLD}
    plan = project(Ramp(), full_outings(2), day(2), forecast, day(7))
    assert [(planned.step, planned.minutes, planned.verdict) for planned in plan] == [
        (2, 0, "hold"),  # first day in: same
        (2, 0, "hold"),  # second running: one down
        (1, 0, "hold"),  # third running: one down
        (0, 20, "out"),  # 20 of 20: one up
        (1, 0, "hold"),  # first day in of a new run: same
        (1, 30, "out"),  # past the forecast
    ]
    assert plan[0].reasons == ("too cold",)


def test_a_run_of_days_in_goes_on_from_the_past_into_the_plan():
    days = [*full_outings(3), outing(3)]
    plan = project(Ramp(), days, day(4), {day(4): COLD}, day(5))
    assert [(planned.step, planned.minutes) for planned in plan] == [(3, 0), (2, 40)]


def test_a_sheltered_day_is_a_full_outing():
    windy = DayWeather(tmin=12, tmax=20, gust=8, rain=None)
    plan = project(Ramp(), [], FIRST, {FIRST: windy}, day(1))
    assert plan == [Planned(FIRST, 0, 20, "sheltered", ("gusts",)), Planned(day(1), 1, 30, "out")]


def test_the_rest_day_after_scorch_stands_in_the_plan_and_costs_nothing():
    days = [*full_outings(7), outing(7, 215, "scorch")]
    plan = project(Ramp(), days, day(7), {day(9): COLD}, day(10))
    assert plan == [
        Planned(day(8), 4, 0, "hold", (REST,)),
        Planned(day(9), 4, 0, "hold", ("too cold",)),  # first day in of the run: same
        Planned(day(10), 4, 80, "out"),
    ]


def test_a_hardened_tray_has_nothing_left_to_plan():
    assert project(Ramp(), full_outings(11), day(10), {}, day(30)) == []


def test_a_plan_ends_on_its_last_day_even_if_nothing_is_hardened():
    assert project(Ramp(), [], FIRST, {}, FIRST) == [Planned(FIRST, 0, 20, "out")]
    assert project(Ramp(), [], FIRST, {}, day(-1)) == []


def test_days_after_today_are_refused():
    with pytest.raises(ValueError, match="days holds 2024-04-29; none may lie after today, 2024-04-27"):
        project(Ramp(), full_outings(3), FIRST, {}, day(20))
