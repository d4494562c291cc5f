"""Laws of the hardening ramp that hold for any ramp and any history."""

import datetime as dt
from dataclasses import replace
from itertools import pairwise

from hypothesis import assume, given
from hypothesis import strategies as st

from greenroom.agronomy.hardening import (
    DayWeather,
    OutingDay,
    Ramp,
    project,
    replay,
    rests_on,
    step_after,
    step_on,
    verdict,
)

FIRST = dt.date(2024, 2, 20)  # runs over a leap day
SEVERITY = {None: 0, "droop": 1, "wilt": 2, "scorch": 3}

setbacks = st.sampled_from(["droop", "wilt", "scorch"])
minutes = st.one_of(st.just(0), st.integers(0, 700), st.floats(0, 700))


@st.composite
def ramps(draw):
    start = draw(st.floats(0.5, 400))
    full = draw(st.floats(start, 1440, exclude_min=True))
    return Ramp(start, full, draw(st.integers(7, 21)))


@st.composite
def histories(draw, least=0):
    """Days in calendar order, some left out, many of them full outings."""
    days = []
    date = FIRST
    for _ in range(draw(st.integers(least, 18))):
        setback = draw(st.one_of(st.none(), st.none(), st.none(), setbacks))
        after = draw(st.one_of(st.none(), minutes)) if setback else None
        sun = draw(st.one_of(minutes, st.just(1440)))
        days.append(OutingDay(date, sun, setback, after, draw(st.sampled_from([0, 0, 90]))))
        date += dt.timedelta(days=draw(st.sampled_from([1, 1, 1, 1, 2, 3, 5])))
    return days


@st.composite
def forecasts(draw):
    """Thirty days, some cold, some windy, some unknown."""
    kinds = [DayWeather(10, 20, 3, 0), DayWeather(2, 6, 3, 0), DayWeather(9, 15, 9, 0), DayWeather(), None]
    drawn = draw(st.lists(st.sampled_from(kinds), max_size=30))
    return {FIRST + dt.timedelta(days=number): kind for number, kind in enumerate(drawn) if kind}


def ready_date(ramp, days, forecast):
    """First day with nothing left to plan, looked for over half a year."""
    today = days[-1].date
    plan = project(ramp, days, today, forecast, today + dt.timedelta(days=180))
    return plan[-1].date if plan else today


@given(ramps())
def test_minutes_never_fall_and_come_in_fives(ramp):
    doses = [ramp.minutes(step) for step in range(ramp.outings)]
    assert doses == sorted(doses)
    assert all(dose % 5 == 0 and dose >= 5 for dose in doses)


@given(ramps())
def test_a_ramp_begins_and_ends_within_rounding_of_what_was_asked(ramp):
    assert abs(ramp.minutes(0) - max(5, ramp.start_minutes)) <= 2.5 + 1e-9
    assert abs(ramp.minutes(ramp.outings - 1) - max(5, ramp.full_minutes)) <= 2.5 + 1e-9


@given(ramps(), histories())
def test_a_step_stays_on_the_ramp_and_never_climbs_two_at_once(ramp, days):
    for row in replay(ramp, days):
        assert 0 <= row.after <= ramp.outings
        assert row.after <= row.before + 1


@given(ramps(), histories(least=1))
def test_a_replay_hangs_together(ramp, days):
    rows = replay(ramp, days)
    assert [row.after for row in rows[:-1]] == [row.before for row in rows[1:]]
    assert rows[0].before == 0
    assert rows[-1].after == step_after(ramp, days)
    assert len(rows) == (days[-1].date - days[0].date).days + 1


@given(ramps(), histories(least=1))
def test_writing_down_the_days_in_changes_nothing(ramp, days):
    assert step_after(ramp, [row.day for row in replay(ramp, days)]) == step_after(ramp, days)


@given(ramps(), histories(least=1), st.data())
def test_a_setback_never_leaves_a_tray_on_a_higher_step(ramp, days, data):
    at = data.draw(st.integers(0, len(days) - 1))
    well = [*days[:at], replace(days[at], setback=None, setback_after=None), *days[at + 1 :]]
    harmed = [*days[:at], replace(days[at], setback=data.draw(setbacks)), *days[at + 1 :]]
    assert step_after(ramp, harmed) <= step_after(ramp, well)


@given(ramps(), histories(least=1), forecasts(), st.data())
def test_a_setback_never_shortens_the_time_to_ready(ramp, days, forecast, data):
    at = data.draw(st.integers(0, len(days) - 1))
    well = [*days[:at], replace(days[at], setback=None, setback_after=None), *days[at + 1 :]]
    harmed = [*days[:at], replace(days[at], setback=data.draw(setbacks)), *days[at + 1 :]]
    assert ready_date(ramp, harmed, forecast) >= ready_date(ramp, well, forecast)


@given(ramps(), histories(least=1), st.data())
def test_a_worse_setback_on_the_last_day_never_leaves_a_higher_step(ramp, days, data):
    mild, bad = sorted(data.draw(st.tuples(setbacks, setbacks)), key=SEVERITY.get)
    last = {kind: [*days[:-1], replace(days[-1], setback=kind)] for kind in (mild, bad)}
    assert step_after(ramp, last[bad]) <= step_after(ramp, last[mild])


@given(ramps(), histories(least=1), minutes, minutes)
def test_a_setback_after_less_sun_never_leaves_a_higher_step(ramp, days, one, other):
    sooner, later = sorted([one, other])
    steps = [
        step_after(ramp, [*days[:-1], replace(days[-1], setback="droop", setback_after=after)])
        for after in (sooner, later)
    ]
    assert steps == sorted(steps)


@given(ramps(), histories(least=1), st.integers(1, 30))
def test_staying_in_never_raises_a_step_and_costs_at_most_one_a_day(ramp, days, wait):
    last = days[-1].date
    steps = [step_on(ramp, days, last + dt.timedelta(days=number)) for number in range(1, wait + 2)]
    drops = [before - after for before, after in pairwise(steps)]
    assert set(drops) <= {0, 1}
    assert steps[0] == step_after(ramp, days)


@given(ramps(), histories(least=1))
def test_a_single_day_in_after_an_outing_costs_nothing(ramp, days):
    assume(days[-1].minutes > 0)
    last = days[-1].date
    two_days_on = step_on(ramp, days, last + dt.timedelta(days=2))
    assert two_days_on == step_after(ramp, days)


@given(ramps(), histories(least=1), forecasts())
def test_a_plan_followed_to_the_letter_ends_where_it_says(ramp, days, forecast):
    today = days[-1].date
    until = today + dt.timedelta(days=40)
    plan = project(ramp, days, today, forecast, until)
    done = [*days, *(OutingDay(planned.date, planned.minutes) for planned in plan)]
    walked = {row.day.date: row.before for row in replay(ramp, done)}
    assert all(walked[planned.date] == planned.step for planned in plan)
    if not plan or plan[-1].date < until:
        assert step_after(ramp, done) == ramp.outings


@given(ramps(), histories(least=1), forecasts())
def test_the_days_of_a_plan_follow_one_another_and_rest_after_scorch(ramp, days, forecast):
    today = days[-1].date
    plan = project(ramp, days, today, forecast, today + dt.timedelta(days=20))
    for number, planned in enumerate(plan, 1):
        assert planned.date == today + dt.timedelta(days=number)
        assert (planned.minutes == 0) == (planned.verdict == "hold")
        assert not rests_on(days, planned.date) or planned.verdict == "hold"


@given(
    st.one_of(st.none(), st.floats(-30, 45)),
    st.one_of(st.none(), st.floats(0, 60)),
    st.one_of(st.none(), st.floats(0, 300)),
    st.floats(0, 20),
)
def test_worse_weather_never_gives_a_milder_verdict(tmax, gust, rain, worse):
    order = ["out", "sheltered", "hold"]
    before = order.index(verdict(None, tmax, gust, rain)[0])
    for changed in [
        (None if tmax is None else tmax - worse, gust, rain),
        (tmax, None if gust is None else gust + worse, rain),
        (tmax, gust, None if rain is None else rain + worse),
    ]:
        assert order.index(verdict(None, *changed)[0]) >= before


@given(st.floats(-30, 45), st.floats(0, 60), st.floats(0, 300))
def test_not_knowing_a_figure_never_makes_a_verdict_stricter(tmax, gust, rain):
    order = ["out", "sheltered", "hold"]
    known = order.index(verdict(None, tmax, gust, rain)[0])
    for hidden in [(None, gust, rain), (tmax, None, rain), (tmax, gust, None)]:
        assert order.index(verdict(None, *hidden)[0]) <= known
