"""What holds of every plan, whatever the place, the kinds and the rules."""

from datetime import date, timedelta
from functools import cache

import numpy as np
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from greenroom.guide import Span
from greenroom.ledger.facts import PlanRules, WeatherDay
from greenroom.season.germination import aged_share, beta_range
from greenroom.season.learning import Lot, lot_effect, variety_effect
from greenroom.season.plan import plan_of
from greenroom.season.plan_help import shortfall
from greenroom.season.plan_needs import ready_after
from greenroom.season.plan_seeds import seeds_a_cell, sure_of
from tests.season.plan_ground import TODAY, YEAR, Kind, ground

shares = st.floats(min_value=0.05, max_value=0.99)
crops = st.sampled_from(("bell", "habanero", "superhot", "aji", "rocoto", "tomato", "leek", "basil", None))
days = st.integers(min_value=0, max_value=211)


@cache
def years(seed, mean_c):
    """Eight invented years of a place: a wave with noise."""
    random = np.random.default_rng(seed)
    dates = np.arange(np.datetime64("2010-01-01"), np.datetime64("2018-01-01"))
    wave = -np.cos(2 * np.pi * (dates.astype(int) - 20) / 365.25)
    noise = np.convolve(random.normal(0, 4, dates.size), np.ones(5) / 5, mode="same")
    low = mean_c - 5 + 11 * wave + noise
    high = low + random.uniform(6, 14, dates.size)
    return tuple(
        WeatherDay(day, float(cold), float(warm))
        for day, cold, warm in zip(dates.tolist(), low, high, strict=True)
    )


places = st.builds(years, st.integers(min_value=0, max_value=3), st.sampled_from((7.0, 10.0, 13.0, 17.0)))
kinds = st.builds(
    Kind,
    st.just("Any Kind"),
    crops,
    st.integers(min_value=40, max_value=160),
    st.integers(min_value=1, max_value=20),
    st.floats(min_value=0.3, max_value=1.0),
    st.none() | st.integers(min_value=2018, max_value=2027),
    st.none() | st.integers(min_value=0, max_value=60),
)
rules = st.fixed_dictionaries(
    {
        "odds": st.floats(min_value=0.3, max_value=0.95),
        "confidence": st.floats(min_value=0.6, max_value=0.99),
        "floor_c": st.floats(min_value=4, max_value=14),
        "hardening_days": st.integers(min_value=0, max_value=21),
    }
)


@settings(max_examples=40, deadline=None)
@given(places, kinds, rules, days, days)
def test_a_later_sowing_never_has_better_odds(place, kind, rules, one, other):
    chart = plan_of(ground(kind, days=place, rules=rules).season, YEAR, TODAY).chart
    early, late = sorted((chart.days[one], chart.days[other]))
    assert chart.odds_on("Any Kind", early).ripe >= chart.odds_on("Any Kind", late).ripe


@settings(max_examples=40, deadline=None)
@given(places, kinds, rules)
def test_the_day_the_plan_gives_keeps_what_it_says(place, kind, rules):
    plan = plan_of(ground(kind, days=place, rules=rules).season, YEAR, TODAY)
    (row,) = plan.rows
    chart = plan.chart
    assert row.short == (row.sowing.odds.share < rules["odds"])
    if row.latest is not None:
        assert chart.odds_on("Any Kind", row.latest).share >= rules["odds"] - 1e-9
        if row.latest < chart.days[-1]:
            after = chart.odds_on("Any Kind", row.latest + timedelta(days=1))
            assert after.share < rules["odds"]
        if row.window is not None:
            assert row.window.last <= row.latest
    else:
        assert max(chart.odds("Any Kind")) < rules["odds"]
    if row.window is not None:
        assert chart.days[0] <= row.window.first <= row.window.last <= chart.days[-1]


@settings(max_examples=40, deadline=None)
@given(places, kinds, rules, days)
def test_the_stages_of_a_sowing_come_in_their_order(place, kind, rules, number):
    chart = plan_of(ground(kind, days=place, rules=rules).season, YEAR, TODAY).chart
    sowing = chart.sown("Any Kind", chart.days[number])
    assert sowing.on <= sowing.up <= sowing.ready <= sowing.set_out_on
    for spread in (sowing.set_out, sowing.ripe, sowing.end):
        if spread is not None:
            assert spread.early <= spread.usual <= spread.late
            assert 1 <= spread.years <= sowing.odds.years
    assert (sowing.ripe.years if sowing.ripe else 0) == sowing.odds.ripe
    assert sowing.odds.low <= sowing.odds.share <= sowing.odds.high


@settings(max_examples=25, deadline=None)
@given(places, kinds, rules)
def test_more_seed_is_asked_for_the_surer_the_plants_are_to_be(place, kind, rules):
    assume(kind.seeds is None)
    need, surer = (
        plan_of(ground(kind, rules=rules | {"confidence": sure}).season, YEAR, TODAY).rows[0].seeds
        for sure in (rules["confidence"], 0.995)
    )
    assume(need is not None)
    assert surer.cells >= need.cells >= kind.plants
    assert need.sure >= need.confidence - 1e-9
    assert need.fewest <= need.seeds <= need.most
    assert 0 <= need.blanks <= need.cells


@settings(max_examples=25, deadline=None)
@given(places, kinds, rules)
def test_what_is_told_to_help_does_help(place, kind, rules):
    told = ground(kind, days=place, rules=rules | {"odds": 0.95})
    plan = plan_of(told.season, YEAR, TODAY)
    (row,) = plan.rows
    found = shortfall(told.season, plan, row, TODAY)
    assert (found is not None) == row.short
    for one in found.helps if found else ():
        assert one.odds.share > row.sowing.odds.share
        assert one.odds.years == row.sowing.odds.years
        assert one.odds.words in one.words


@given(shares, shares, st.integers(min_value=1, max_value=30), st.integers(min_value=0, max_value=30))
def test_seeds_a_cell_fill_as_many_cells_as_asked_and_no_more_than_needed(share, filled, plants, more):
    seeds = seeds_a_cell(share, filled)
    assert seeds == 10 or 1 - (1 - share) ** seeds >= filled - 1e-9
    assert seeds == 1 or 1 - (1 - share) ** (seeds - 1) < filled + 1e-9
    assert sure_of(plants, plants + more, share) <= sure_of(plants, plants + more + 1, share) + 1e-12


@given(
    st.floats(min_value=0.05, max_value=0.95),
    st.floats(min_value=0, max_value=12),
    st.floats(min_value=0.1, max_value=5),
    st.floats(min_value=0.5, max_value=8),
    st.none() | st.floats(min_value=0.3, max_value=0.8),
)
def test_older_seed_never_comes_up_better(label, years, more, life, least):
    young, old = (aged_share(label, age, life, least) for age in (years, years + more))
    assert 0 <= old <= young <= label + 1e-12


@given(st.floats(min_value=0.5, max_value=200), st.floats(min_value=0.5, max_value=200))
def test_the_range_of_a_share_holds_its_mean_and_narrows_with_more_seeds(alpha, beta):
    low, high = beta_range(alpha, beta)
    assert 0 <= low <= high <= 1
    wide = beta_range(alpha * 4, beta * 4)
    assert wide[1] - wide[0] <= high - low + 1e-9


lots = st.lists(
    st.builds(
        Lot,
        st.sampled_from("abcdef"),
        st.floats(min_value=-0.7, max_value=0.7),
        st.floats(min_value=1, max_value=90),
        st.integers(min_value=1, max_value=50),
    ),
    max_size=5,
    unique_by=lambda lot: lot.packet,
)


@given(lots, st.sampled_from("abcdef"))
def test_own_results_move_a_figure_towards_them_and_never_past(lots, packet):
    middle, variance = variety_effect(lots)
    logs = [lot.log for lot in lots]
    assert min([0.0, *logs]) - 1e-12 <= middle <= max([0.0, *logs]) + 1e-12
    assert variance <= variety_effect([])[1] + 1e-12
    own, own_variance = lot_effect(lots, packet)
    assert min([0.0, *logs]) - 1e-12 <= own <= max([0.0, *logs]) + 1e-12
    assert own_variance <= lot_effect([], packet)[1] + 1e-12


@given(
    st.floats(min_value=2, max_value=14),
    st.floats(min_value=0, max_value=4),
    st.floats(min_value=1, max_value=40),
    st.floats(min_value=0, max_value=30),
    st.integers(min_value=0, max_value=30),
)
def test_slower_seed_is_never_ready_sooner(weeks, wide, best, slower, hardening):
    span = Span(weeks, weeks + wide)
    soon, late = (ready_after(span, best + more, best, hardening) for more in (0.0, slower))
    assert late >= soon
    assert late >= best + slower + hardening


def test_the_rules_start_as_the_facts_do():
    """What the ledger has as defaults is what the plan starts with."""
    told = ground(Kind("Any Kind", "bell"))
    plan = plan_of(told.season, YEAR, TODAY)
    assert plan.rules == PlanRules(id="", day=date.min)
