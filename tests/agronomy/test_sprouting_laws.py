"""Laws that sprouting numbers keep whatever the counts: bounds, order, scale."""

import numpy as np
import pytest
import scipy.stats
from hypothesis import assume, given
from hypothesis import strategies as st

from greenroom.agronomy import sprouting

chances = st.floats(0.02, 1.0)
counts = st.lists(st.integers(0, 40), min_size=1, max_size=20)
spreads = st.floats(0.05, 1.5)
medians = st.floats(2.0, 40.0)


@given(counts)
def test_mean_and_median_lie_between_sowing_and_the_last_seedling(count):
    assume(sum(count) > 0)
    days = np.arange(1, len(count) + 1)
    last = days[np.flatnonzero(count)[-1]]
    first = days[np.flatnonzero(count)[0]]
    assert first - 1e-9 <= sprouting.mean_days(days, count) <= last + 1e-9
    for rule in ("coolbear", "farooq"):
        assert 0 <= sprouting.median_days(days, count, rule) <= last
    assert sprouting.median_days(days, count, "farooq") <= sprouting.median_days(days, count, "coolbear")


@given(counts, st.integers(2, 6))
def test_a_bigger_tray_sprouting_alike_has_the_same_mean_and_entropy_and_more_speed(count, times):
    assume(sum(count) > 0)
    days, more = np.arange(1, len(count) + 1), np.multiply(count, times)
    assert sprouting.mean_days(days, more) == pytest.approx(sprouting.mean_days(days, count))
    assert sprouting.uncertainty_bits(more) == pytest.approx(sprouting.uncertainty_bits(count), abs=1e-9)
    assert sprouting.speed_index(days, more) == pytest.approx(times * sprouting.speed_index(days, count))


@given(counts, st.integers(1, 9))
def test_the_same_seedlings_later_are_later_by_that_much_and_slower(count, later):
    assume(sum(count) > 0)
    days = np.arange(1, len(count) + 1)
    assert sprouting.mean_days(days + later, count) == pytest.approx(sprouting.mean_days(days, count) + later)
    assert sprouting.speed_index(days + later, count) < sprouting.speed_index(days, count)


@given(counts)
def test_synchrony_and_entropy_keep_their_bounds(count):
    z, bits = sprouting.synchrony(count), sprouting.uncertainty_bits(count)
    if z is not None:
        assert 0 <= z <= 1
    if bits is not None:
        assert 0 <= bits <= np.log2(len(count)) + 1e-9


@given(st.integers(2, 60))
def test_seedlings_all_on_one_day_are_in_step_and_certain(n):
    assert sprouting.synchrony([0, n, 0]) == 1.0
    assert sprouting.uncertainty_bits([0, n, 0]) == 0.0


@given(st.floats(10.5, 24.5), st.floats(0.01, 0.5))
def test_warmer_mix_below_the_best_never_slows_a_pepper(celsius, warmer):
    assert sprouting.days_to_emerge(celsius + warmer) <= sprouting.days_to_emerge(celsius)


@given(st.integers(1, 60), chances, st.floats(0.01, 0.999))
def test_seeds_to_sow_is_the_least_that_reaches_the_confidence(wanted, chance, confidence):
    n = sprouting.seeds_to_sow(wanted, chance, confidence)
    assert scipy.stats.binom.sf(wanted - 1, n, chance) >= confidence - 1e-9
    assert n == wanted or scipy.stats.binom.sf(wanted - 1, n - 1, chance) < confidence + 1e-9


@given(st.integers(1, 40), chances, st.floats(0.5, 0.98))
def test_more_plants_or_surer_never_needs_fewer_seeds(wanted, chance, confidence):
    n = sprouting.seeds_to_sow(wanted, chance, confidence)
    assert sprouting.seeds_to_sow(wanted + 1, chance, confidence) > n
    assert sprouting.seeds_to_sow(wanted, chance, confidence + 0.01) >= n


@given(st.integers(0, 8), st.floats(0.02, 0.999))
def test_one_more_seed_makes_a_blank_rarer(seeds, chance):
    assert sprouting.blank_chance(seeds + 1, chance) < sprouting.blank_chance(seeds, chance)


@given(st.integers(1, 300), st.data())
def test_the_interval_holds_the_share_and_exact_reaches_its_confidence(n, data):
    k = data.draw(st.integers(0, n))
    share = sprouting.final_fraction(k, n)
    for method in ("wilson", "exact"):
        low, high = sprouting.interval(k, n, method=method)
        assert 0 <= low <= share <= high <= 1
    # Clopper and Pearson (1934): at the upper limit k or fewer has chance 2.5 %, at the lower k or more.
    if k < n:
        assert scipy.stats.binom.cdf(k, n, high) == pytest.approx(0.025, abs=1e-6)
    if k > 0:
        assert scipy.stats.binom.sf(k - 1, n, low) == pytest.approx(0.025, abs=1e-6)


@given(st.integers(0, 30), st.integers(1, 30), st.sampled_from(["wilson", "exact"]))
def test_counting_failures_mirrors_the_interval(k, more, method):
    n = k + more
    low, high = sprouting.interval(k, n, method=method)
    assert sprouting.interval(n - k, n, method=method) == pytest.approx((1 - high, 1 - low), abs=1e-9)


@given(medians, spreads, st.floats(0.0, 1.0))
def test_a_bare_cell_never_gains_hope_by_waiting(median, spread, viable):
    hope = sprouting.chance_still_up(np.linspace(0, 120, 241), median, spread, viable)
    assert hope[0] == pytest.approx(viable)
    assert (np.diff(hope) <= 1e-12).all()
    assert ((hope >= 0) & (hope <= 1)).all()


@given(st.floats(0, 60), medians, spreads, st.floats(0.05, 1.0))
def test_a_longer_wait_never_lowers_the_chance_and_forever_is_the_limit(day, median, spread, viable):
    waits = sprouting.chance_still_up(day, median, spread, viable, horizon=np.linspace(0, 90, 91))
    assert waits[0] == 0.0
    assert (np.diff(waits) >= -1e-12).all()
    assert waits[-1] <= sprouting.chance_still_up(day, median, spread, viable) + 1e-12


@given(st.floats(0, 30), st.floats(0.1, 20), medians, st.floats(0.1, 1.5), st.floats(0.05, 1.0))
def test_now_or_later_adds_up(day, wait, median, spread, viable):
    # Chance ever = chance soon + chance not soon x chance ever from then.
    soon = sprouting.chance_still_up(day, median, spread, viable, wait)
    then = sprouting.chance_still_up(day + wait, median, spread, viable)
    ever = sprouting.chance_still_up(day, median, spread, viable)
    assert soon + (1 - soon) * then == pytest.approx(ever, abs=1e-9)


@given(st.lists(st.tuples(st.integers(0, 30), st.booleans()), min_size=1, max_size=60))
def test_the_curve_of_bare_seeds_never_rises_and_never_leaves_its_band(seeds):
    days, up = zip(*seeds, strict=True)
    curve = sprouting.kaplan_meier(days, up)
    assert (np.diff(curve.bare) <= 0).all()
    known = ~np.isnan(curve.low)
    assert (curve.low[known] <= curve.bare[known] + 1e-12).all()
    assert (curve.bare[known] <= curve.high[known] + 1e-12).all()


@given(st.lists(st.integers(0, 30), min_size=1, max_size=60))
def test_without_losses_the_curve_is_a_plain_count(days):
    curve = sprouting.kaplan_meier(days, [True] * len(days))
    plain = [np.mean(np.array(days) > day) for day in curve.days]
    np.testing.assert_allclose(curve.bare, plain, atol=1e-12)
