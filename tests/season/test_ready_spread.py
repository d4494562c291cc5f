"""The spread of the ready date is the rest of the ramp, played on each year: against a loop of its own.

The record is the daily one of Champion, Nebraska, that comes with the package aquacrop (tests/agronomy/
_field_record.py). The loop below knows the rules from the contract alone and shares no code with the
program: hold below 10 °C all day, at gusts of 11 m/s or rain of 15 mm; a day in keeps the step, each
further one running costs one; any other day is a step up.
"""

from datetime import date, timedelta

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.agronomy.hardening import DayWeather, HoldLimits, OutdoorRamp, Ramp, RampState
from greenroom.agronomy.sprouting import interval
from greenroom.agronomy.two_clocks import BothStates, Clocks
from greenroom.ledger.facts import WeatherDay, WeatherRecord
from greenroom.season.ramp_rules import rules_of
from greenroom.season.ready_history import (
    known_on,
    spread_history,
    spread_of,
    spread_why,
    spread_words,
    start_for,
    start_why,
)
from greenroom.season.ready_spread import held_years, ready_spread, start_by
from tests.agronomy._field_record import field_record
from tests.season._yard import FIRST, STEPS, TRAY, Yard, day

CLOCKS = Clocks(Ramp(), OutdoorRamp())
USUAL = HoldLimits()
COLD, MILD = DayWeather(tmin=2, tmax=8), DayWeather(tmin=9, tmax=19)
START = date(2027, 4, 1)


@pytest.fixture(scope="module")
def champion():
    table = field_record("champion")
    return [
        WeatherDay(when.date(), *map(float, row))
        for when, *row in table[["date", "tmin", "tmax", "rain"]].itertuples(index=False)
    ]


@pytest.fixture(scope="module")
def prairie(champion):
    yard = Yard()
    yard.write(WeatherRecord(day=date(2027, 1, 1), source="champion", days=tuple(champion)))
    return yard.season


def by_hand(champion, first, held_first=(), steps=11, step=0, limit=60):
    """The ready dates of every whole year, day by day."""
    known = {row.day: row for row in champion}
    found = {}
    for year in range(champion[0].day.year, champion[-1].day.year + 1):
        start = first.replace(year=year)
        days = [start + timedelta(days=number) for number in range(limit)]
        if not all(one in known for one in days):
            continue
        at, running, ready = step, 0, None
        for number, one in enumerate(days):
            weather = known[one]
            hold = weather.tmax_c < 10 or weather.rain_mm >= 15
            if number < len(held_first):
                hold = held_first[number]
            if hold:
                at, running = (max(0, at - 1) if running else at), running + 1
            else:
                at, running = at + 1, 0
            if at == steps:
                ready = first + timedelta(days=number)
                break
        found[year] = ready
    return found


def spread(season, first=START, forecast=None, states=None, clocks=CLOCKS, limits=USUAL):
    return ready_spread(season, clocks, states or BothStates(), first, forecast or {}, limits)


# ------------------------------------------------------------------------------- against the record, by hand


@pytest.mark.parametrize("first", [date(2027, 3, 10), date(2027, 4, 1), date(2027, 5, 1), date(2028, 2, 29)])
def test_each_year_is_ready_when_a_loop_over_its_days_says(champion, prairie, first):
    asked = first if first != date(2028, 2, 29) else date(2027, 2, 28)
    expected = by_hand(champion, asked)
    found = spread(prairie, first)
    late = {year: None if ready is None else first + (ready - asked) for year, ready in expected.items()}
    assert found.years == tuple(sorted(expected))
    assert found.days == tuple(sorted(late.values(), key=lambda ready: ready or date.max))
    assert len(set(found.days)) > 3 or first.month > 4  # the years do differ


def test_a_forecast_stands_in_for_all_years_and_each_year_for_itself_after_it(champion, prairie):
    held = [True, False, True, True, False]
    forecast = {START + timedelta(days=n): (COLD if hold else MILD) for n, hold in enumerate(held)}
    expected = by_hand(champion, START, held)
    found = spread(prairie, forecast=forecast)
    assert found.days == tuple(sorted(expected.values(), key=lambda ready: ready or date.max))
    assert found.forecast_until == START + timedelta(days=4)


def test_a_forecast_with_a_gap_is_used_up_to_the_gap(champion, prairie):
    forecast = {START: COLD, START + timedelta(days=2): COLD}
    found = spread(prairie, forecast=forecast)
    assert found.days == tuple(sorted(by_hand(champion, START, [True]).values()))
    assert found.forecast_until == START


def test_the_rest_of_a_ramp_is_played_from_where_it_stands(champion, prairie):
    states = BothStates(RampState(6), RampState(7))
    assert spread(prairie, states=states).days == tuple(sorted(by_hand(champion, START, step=6).values()))


def test_a_clock_settled_for_today_is_played_from_tomorrow(champion, prairie):
    states = BothStates(RampState(6), RampState(6), sun_settled=True)
    found = spread(prairie, states=states)
    tomorrow = START + timedelta(days=1)
    assert found.days == tuple(sorted(by_hand(champion, tomorrow, step=6).values()))


def test_a_crop_with_other_limits_has_other_dates(prairie):
    hardy, tender = (spread(prairie, limits=HoldLimits(cold_c=celsius)) for celsius in (4.4, 15.0))
    assert hardy.usual < tender.usual


# --------------------------------------------------------------------------------------------- what it says


def test_tenths_odds_and_band_count_the_same_years(prairie):
    found = spread(prairie)
    assert found.count == len(found.years)
    for share in (0.1, 0.5, 0.9):
        ready = found.by(share)
        assert found.odds(ready) >= share
        assert found.odds(ready - timedelta(days=1)) < share
    assert found.early <= found.usual <= found.late
    assert found.odds(START) == 0
    assert found.curve()[-1][1] == found.ready_by(date.max) / found.count
    assert found.band(found.usual) == interval(found.ready_by(found.usual), found.count)


def test_years_that_never_get_there_have_no_date_but_count():
    yard = Yard()
    rows = [
        WeatherDay(date(year, 1, 1) + timedelta(days=n), 0.0, 5.0 if year == 2020 else 20.0)
        for year in range(2019, 2025)
        for n in range(365)
    ]
    yard.write(WeatherRecord(day=date(2027, 1, 1), source="made up", days=tuple(rows)))
    found = spread(yard.season)
    assert found.count == 6
    assert found.days[-1] is None
    assert found.late is None
    assert found.usual == START + timedelta(days=10)
    assert "not within 60 days in the slowest tenth" in spread_words(found)
    assert found.odds(date.max) == pytest.approx(5 / 6)


def test_without_a_record_there_is_no_spread():
    assert spread(Yard().season) is None
    assert start_by(Yard().season, CLOCKS, START + timedelta(days=20), START, {}, USUAL) is None
    assert held_years(Yard().season, START, 10, USUAL)[1] == ()


def test_a_year_with_too_many_days_missing_is_left_out_and_a_few_are_borne():
    yard = Yard()

    def year(number, gaps):
        start = date(number, 1, 1)
        return [WeatherDay(start + timedelta(days=n), 5.0, 20.0) for n in range(365) if n not in gaps]

    april = (date(2021, 4, 1) - date(2021, 1, 1)).days
    rows = [*year(2021, set(range(april, april + 7))), *year(2022, set(range(april, april + 5)))]
    yard.write(WeatherRecord(day=date(2027, 1, 1), source="made up", days=tuple(rows)))
    # of 60 days 7 are more than a tenth, 5 are not
    assert spread(yard.season).years == (2022,)


def test_no_year_sees_days_that_are_still_to_come():
    yard = Yard()
    rows = [WeatherDay(date(2025, 1, 1) + timedelta(days=n), 5.0, 20.0) for n in range(850)]
    yard.write(WeatherRecord(day=date(2027, 1, 1), source="made up", days=tuple(rows)))
    assert rows[-1].day > START
    assert spread(yard.season).years == (2025, 2026)
    # Of the year from 1 April 2026 on the 366th day is 1 April 2027 itself: still to come.
    assert held_years(yard.season, START, 366, USUAL)[1] == (2025,)


def test_what_would_have_held_is_laid_out_year_by_year(champion, prairie):
    held, years = held_years(prairie, START, 30, USUAL)
    known = {row.day: row for row in champion}
    for number, year in enumerate(years):
        days = [known[date(year, 4, 1) + timedelta(days=n)] for n in range(30)]
        expected = [row.tmax_c < 10 or row.rain_mm >= 15 for row in days]
        assert held[number].tolist() == expected


def test_gusts_hold_where_the_record_has_them():
    yard = Yard()
    rows = [
        WeatherDay(date(2024, 1, 1) + timedelta(days=n), 5.0, 20.0, None, 12.0 if n % 2 else None)
        for n in range(366)
    ]
    yard.write(WeatherRecord(day=date(2027, 1, 1), source="made up", days=tuple(rows)))
    held, _ = held_years(yard.season, date(2027, 1, 1), 6, USUAL)
    assert held.tolist() == [[False, True, False, True, False, True]]


# ---------------------------------------------------------------------------------------- the other way round


def test_the_last_start_in_time_is_the_one_a_loop_finds(champion, prairie):
    target = START + timedelta(days=40)
    found = start_by(prairie, CLOCKS, target, START, {}, USUAL, wanted=0.8)
    odds = {}
    for number in range(41):
        start = START + timedelta(days=number)
        ready = by_hand(champion, start)
        odds[start] = sum(one is not None and one <= target for one in ready.values()) / len(ready)
    assert dict(found.starts) == pytest.approx(odds)
    assert found.latest == max(start for start, share in odds.items() if share >= 0.8)
    assert found.years == len(by_hand(champion, START))
    assert found.odds(found.latest) >= 0.8
    assert found.odds(target + timedelta(days=1)) is None


def test_a_day_too_near_or_past_has_no_start_in_time(prairie):
    near = start_by(prairie, CLOCKS, START + timedelta(days=5), START, {}, USUAL)
    assert near.latest is None
    assert "No start is in time" in start_why(near).figure
    assert start_by(prairie, CLOCKS, START - timedelta(days=1), START, {}, USUAL) is None


def test_the_forecast_counts_for_the_first_starts(prairie):
    target = START + timedelta(days=12)
    cold = {START + timedelta(days=n): COLD for n in range(6)}
    warm = {START + timedelta(days=n): MILD for n in range(6)}
    worse, better = (start_by(prairie, CLOCKS, target, START, one, USUAL) for one in (cold, warm))
    assert worse.odds(START) <= better.odds(START)
    assert worse.odds(START) == 0


def test_the_backward_question_is_answered_in_a_sentence(prairie):
    rules = rules_of(prairie, "pepper")
    found = start_for(prairie, rules, date(2027, 5, 28), date(2027, 4, 10))
    why = start_why(found)
    assert why.figure.startswith("To be ready on 28 May, begin by ")
    assert ("to be ready by", "28 May") in why.inputs
    assert found.wanted == 0.8
    assert found.starts[0][0] == date(2027, 4, 10)


# ------------------------------------------------------------------------------- a holder, day by day


@pytest.fixture
def trays(champion):
    yard = Yard()
    yard.write(WeatherRecord(day=date(2027, 1, 1), source="champion", days=tuple(champion)))
    return yard


def done(yard, count, shade=200):
    for number in range(1, count + 1):
        yard.out(day(number), "6:00", STEPS[number - 1], shade)


def test_a_holders_spread_is_its_own_ramp_from_where_it_stands(champion, trays):
    done(trays, 5)
    today = day(6)
    found = spread_of(trays.season, trays.stand(today))
    assert found.days == tuple(
        sorted(by_hand(champion, today, step=5).values(), key=lambda one: one or date.max)
    )
    assert found.years[0] == champion[0].day.year


def test_a_day_that_is_out_already_is_not_held_back_by_its_weather(trays):
    done(trays, 4)
    trays.weather({day(5): {"tmax_c": 12.0, "gust_ms": 20.0}})
    before = spread_of(trays.season, trays.stand(day(5), "8:00"))
    trays.out(day(5), "8:00", 30)
    after = spread_of(trays.season, trays.stand(day(5), "9:30"))
    assert after.usual < before.usual


def test_a_hardened_holder_has_no_spread(trays):
    done(trays, 11, shade=0)
    assert spread_of(trays.season, trays.stand(day(12))) is None
    assert spread_history(trays.season, trays.stand(day(12)))[-1].day == day(11)


def test_the_spread_narrows_as_days_pass(trays):
    done(trays, 6)
    found = spread_history(trays.season, trays.stand(day(7)))
    assert [one.day for one in found] == [day(number) for number in range(1, 8)]
    assert found[0].late - found[0].early >= found[-1].late - found[-1].early
    assert all(one.early <= one.usual <= one.late for one in found)
    assert {one.years for one in found} <= {found[0].years, found[0].years + 1}


def test_each_morning_is_told_by_what_was_known_on_it(trays):
    done(trays, 3)
    before = spread_history(trays.season, trays.stand(day(4)))
    # A forecast taken on the fourth day tells nothing of what was thought on the days before.
    cold = {day(4 + number): {"tmax_c": 5.0, "tmin_c": 1.0} for number in range(4)}
    trays.forecast(trays.at(day(4), "6:00"), cold)
    after = spread_history(trays.season, trays.stand(day(4)))
    assert after[:3] == before[:3]
    assert after[3].usual > before[3].usual
    assert sorted(known_on(trays.season, day(4))) == sorted(cold)
    assert known_on(trays.season, day(3)) == {}
    # On the morning of the sixth day that of the fourth is still what is known.
    assert sorted(known_on(trays.season, day(6))) == [day(6), day(7)]


def test_a_setback_shows_from_the_morning_after_it(trays):
    done(trays, 5)
    well = spread_history(trays.season, trays.stand(day(6)))
    trays.setback(day(4), "7:00", "wilt")
    harmed = spread_history(trays.season, trays.stand(day(6)))
    assert harmed[:4] == well[:4]
    assert all(one.usual > other.usual for one, other in zip(harmed[4:], well[4:], strict=True))


def test_the_reason_counts_years_and_names_the_forecast(trays):
    done(trays, 2)
    trays.forecast(trays.at(day(3), "6:00"), {day(3 + number): {} for number in range(5)})
    why = spread_why(spread_of(trays.season, trays.stand(day(3))))
    inputs = dict(why.inputs)
    assert inputs["forecast used"] == "to 14 May"
    assert inputs["years of the record"].endswith("1982 to 2018")
    assert why.figure.startswith("Ready ")


# -------------------------------------------------------------------------------------------------- laws


@pytest.fixture(scope="module")
def years():
    random = np.random.default_rng(11)
    yard = Yard()
    rows = [
        WeatherDay(date(2005, 1, 1) + timedelta(days=n), 0.0, float(t), float(r), float(g))
        for n, (t, r, g) in enumerate(
            zip(
                random.normal(13, 5, 7000).clip(1, 40),
                random.gamma(0.3, 8, 7000),
                random.gamma(3, 2, 7000),
                strict=True,
            )
        )
    ]
    yard.write(WeatherRecord(day=date(2027, 1, 1), source="made up", days=tuple(rows)))
    return yard.season


states_drawn = st.tuples(st.integers(0, 10), st.integers(0, 9), st.booleans())


@given(states_drawn, st.integers(1, 3), st.sampled_from(["sun", "air"]))
def test_a_setback_never_brings_any_share_of_the_years_nearer(years, standing, down, which):
    sun, air, resting = standing
    lower = (max(0, sun - down), air) if which == "sun" else (sun, max(0, air - down))
    well = spread(years, states=BothStates(RampState(sun, resting=resting), RampState(air)))
    harmed = spread(years, states=BothStates(RampState(lower[0], resting=resting), RampState(lower[1])))
    for one, other in zip(well.days, harmed.days, strict=True):
        assert (other or date.max) >= (one or date.max)


@given(st.lists(st.booleans(), min_size=1, max_size=10), st.data())
def test_a_worse_forecast_never_brings_ready_nearer(years, held, data):
    worse = list(held)
    worse[data.draw(st.integers(0, len(held) - 1))] = True
    found = [
        spread(
            years,
            forecast={START + timedelta(days=n): (COLD if hold else MILD) for n, hold in enumerate(row)},
        )
        for row in (held, worse)
    ]
    for one, other in zip(found[0].days, found[1].days, strict=True):
        assert (other or date.max) >= (one or date.max)


@given(st.integers(0, 300), st.floats(0.05, 0.95))
def test_a_later_start_never_has_better_odds_and_surer_means_sooner(years, number, wanted):
    today = date(2027, 1, 1) + timedelta(days=number)
    target = today + timedelta(days=25)
    found = start_by(years, CLOCKS, target, today, {}, USUAL, wanted)
    odds = [share for _, share in found.starts]
    assert odds == sorted(odds, reverse=True)
    surer = start_by(years, CLOCKS, target, today, {}, USUAL, min(1.0, wanted + 0.05))
    assert found.latest is not None or surer.latest is None
    assert surer.latest is None or surer.latest <= found.latest


@given(st.floats(-10, 25), st.floats(0, 10))
def test_a_tenderer_crop_is_never_ready_sooner(years, cold, more):
    hardy, tender = (spread(years, limits=HoldLimits(cold_c=celsius)) for celsius in (cold, cold + more))
    for one, other in zip(hardy.days, tender.days, strict=True):
        assert (other or date.max) >= (one or date.max)


def test_what_was_worked_out_is_kept_until_the_record_changes(years):
    assert spread(years) is spread(years)
    yard = Yard()
    rows = tuple(WeatherDay(date(2024, 1, 1) + timedelta(days=n), 5.0, 20.0) for n in range(366))
    yard.write(WeatherRecord(day=date(2027, 1, 1), source="made up", days=rows))
    before = spread(yard.season)
    yard.out(FIRST, "8:00", 20)
    assert spread(yard.season) is before
    cold = tuple(row._replace(tmax_c=6.0) for row in rows)
    yard.write(WeatherRecord(day=date(2027, 1, 2), source="made up", days=cold))
    assert spread(yard.season).usual is None
    assert before.usual is not None
    assert yard.season.holder(TRAY).name == "Tray C"
