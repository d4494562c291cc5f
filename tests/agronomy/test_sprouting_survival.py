"""The curve of seeds still bare and the chance of a late one, against published data and lifelines."""

import numpy as np
import pytest
import scipy.stats
from lifelines import KaplanMeierFitter

from greenroom.agronomy import sprouting

# Freireich et al. (1963) Blood 21:699-716, 6-MP arm, weeks; the data every text on survival works through
# (Kalbfleisch and Prentice 1980; Cox and Oakes 1984). Week 6 has three events and one loss: a tie.
WEEKS = [6, 6, 6, 6, 7, 9, 10, 10, 11, 13, 16, 17, 19, 20, 22, 23, 25, 32, 32, 34, 35]
EVENT = [1, 1, 1, 0, 1, 0, 1, 0, 0, 1, 1, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0]


def test_the_textbook_data_give_the_textbook_curve():
    # Printed product-limit estimates, from memory: .857 .807 .753 .690 .627 .538 .448, median 23.
    curve = sprouting.kaplan_meier(WEEKS, EVENT)
    printed = [0.857, 0.807, 0.753, 0.690, 0.627, 0.538, 0.448]
    np.testing.assert_allclose(curve.at([6, 7, 10, 13, 16, 22, 23]), printed, atol=5e-4)
    assert curve.median == 23
    assert curve.seeds == 21


def test_the_published_weed_seeds_give_the_published_shares():
    # Onofri et al. (2022) Weed Science 70:259: 30 seeds; 10, 15, 2, 1 up on days 5, 10, 15, 20; 2 never.
    days = np.repeat([5, 10, 15, 20, 20], [10, 15, 2, 1, 2])
    curve = sprouting.kaplan_meier(days, np.arange(30) < 28)
    np.testing.assert_allclose(1 - curve.bare, [0.3333, 0.8333, 0.9, 0.9333], atol=5e-5)
    assert curve.days.tolist() == [5, 10, 15, 20]
    assert curve.median == 10


def test_a_published_seed_lot_ends_at_its_published_share():
    # Data set verbascum of the R package drcte: of 100 seeds of V. blattaria 84 came up.
    curve = sprouting.kaplan_meier(np.r_[np.full(84, 9), np.full(16, 15)], np.arange(100) < 84)
    assert 1 - curve.at(15) == pytest.approx(0.84)
    low, high = sprouting.interval(84, 100)
    assert low < 0.84 < high


def test_seeds_lost_to_the_count_are_neither_sprouted_nor_barren():
    # Worked by hand: 20 seeds, 3 up on day 7, 5 on 9, 2 lost on 10, 4 up on 11, 1 on 14, 5 bare on 21.
    days = np.repeat([7, 9, 10, 11, 14, 21], [3, 5, 2, 4, 1, 5])
    up = np.repeat([True, True, False, True, True, False], [3, 5, 2, 4, 1, 5])
    curve = sprouting.kaplan_meier(days, up)
    np.testing.assert_allclose(1 - curve.at([6, 7, 9, 10, 11, 14, 21]), [0, 0.15, 0.4, 0.4, 0.64, 0.7, 0.7])


@pytest.mark.parametrize("seed", range(8))
def test_curve_band_and_median_are_what_lifelines_makes_them(seed):
    rng = np.random.default_rng(seed)
    days, up = rng.integers(4, 15, 60), rng.random(60) < 0.7
    curve = sprouting.kaplan_meier(days, up, confidence=0.9)
    fit = KaplanMeierFitter(alpha=0.1).fit(days, up)
    np.testing.assert_allclose(curve.bare, fit.survival_function_at_times(curve.days), atol=1e-12)
    band = fit.confidence_interval_.loc[curve.days].to_numpy()
    live = curve.bare > 0
    np.testing.assert_allclose(curve.low[live], band[live, 0], atol=1e-9)
    np.testing.assert_allclose(curve.high[live], band[live, 1], atol=1e-9)
    assert curve.median == (fit.median_survival_time_ if np.isfinite(fit.median_survival_time_) else None)


def test_a_seed_lost_on_a_day_still_counts_among_those_bare_before_it():
    # Two seeds, one up and one lost on day 7: half, not all, came up.
    assert sprouting.kaplan_meier([7, 7], [True, False]).bare.tolist() == [0.5]
    assert sprouting.kaplan_meier([7, 7], [False, True]).median == 7


def test_ten_seeds_up_one_a_day_are_half_up_on_the_fifth():
    # The products 9/10 x 8/9 x ... come to a hair above one half in binary; the grower counts five of ten.
    assert sprouting.kaplan_meier(range(1, 11), [True] * 10).median == 5


def test_a_tray_never_half_up_has_no_median():
    assert sprouting.kaplan_meier([6, 9, 9, 9], [True, False, False, False]).median is None


def test_past_the_last_look_the_share_is_not_known_unless_all_were_up():
    curve = sprouting.kaplan_meier([6, 9], [True, False])
    assert curve.at(5.9) == 1.0
    assert curve.at(9) == 0.5
    assert curve.at(9.5) is None
    np.testing.assert_array_equal(curve.at([0, 6, 10]), [1, 0.5, np.nan])
    assert sprouting.kaplan_meier([6, 9], [True, True]).at(30) == 0.0


def test_the_band_is_a_point_before_the_first_seedling_and_unknown_when_none_is_bare():
    curve = sprouting.kaplan_meier([5, 6, 7], [False, True, True])
    assert (curve.low[0], curve.high[0]) == (1.0, 1.0)
    assert np.isnan(curve.low[-1])
    assert np.isnan(curve.high[-1])


def test_a_curve_once_drawn_cannot_be_changed():
    curve = sprouting.kaplan_meier([5, 6], [True, True])
    with pytest.raises(ValueError, match="read-only"):
        curve.bare[0] = 0.3


def test_the_log_normal_days_reproduce_the_published_half():
    # Onofri et al. (2022) Weed Science 70:259: median 4.5, spread 0.6, 85 % viable; half of all by 5.14 d.
    assert sprouting.chance_still_up(0, 4.5, 0.6, 0.85, horizon=5.1443) == pytest.approx(0.5, abs=1e-4)


@pytest.mark.parametrize("viable", [0.3, 0.85, 1.0])
def test_the_chance_of_a_bare_cell_is_bayes_on_scipys_log_normal(viable):
    day = np.array([0.0, 2.0, 6.0, 9.0, 14.0, 25.0])
    waits = scipy.stats.lognorm(s=0.3, scale=8.0)
    bare = 1 - viable * waits.cdf(day)
    ever = sprouting.chance_still_up(day, 8.0, 0.3, viable)
    np.testing.assert_allclose(ever, viable * waits.sf(day) / bare, atol=1e-10)
    soon = sprouting.chance_still_up(day, 8.0, 0.3, viable, horizon=3)
    np.testing.assert_allclose(soon, viable * (waits.cdf(day + 3) - waits.cdf(day)) / bare, atol=1e-10)


def test_on_the_day_of_sowing_the_chance_is_the_viable_share():
    assert sprouting.chance_still_up(0, 9, 0.3, 0.8) == pytest.approx(0.8, abs=1e-15)


def test_a_cell_bare_for_years_has_no_chance_left_unless_every_seed_is_viable():
    assert sprouting.chance_still_up(4000, 9, 0.2, 0.99) == pytest.approx(0.0, abs=1e-12)
    assert sprouting.chance_still_up(4000, 9, 0.2, 1.0) == 1.0
    # The share still to come each day falls to nothing in binary long before; its ratio must not.
    # The tail of the normal (Mills): hazard z/(spread t) with z = ln(t / median) / spread.
    z = np.log(4000 / 9) / 0.2
    soon = sprouting.chance_still_up(4000, 9, 0.2, 1.0, horizon=1)
    assert soon == pytest.approx(1 - np.exp(-z / (0.2 * 4000)), rel=0.01)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: sprouting.kaplan_meier([], []), r"days has shape \(0,\)"),
        (
            lambda: sprouting.kaplan_meier([1, -2], [1, 0]),
            r"days\[1\] is -2; it must be a number, at least 0",
        ),
        (lambda: sprouting.kaplan_meier([1, np.nan], [1, 0]), r"days\[1\] is nan"),
        (lambda: sprouting.kaplan_meier([1, 2], [1]), "up is 1 long; it must be as long as days, 2"),
        (lambda: sprouting.kaplan_meier([1, 2], [1, 3]), r"up\[1\] is 3; it must be true .* or false"),
        (lambda: sprouting.kaplan_meier([1], True), "up is True; it must be true .* one for each seed"),
        (lambda: sprouting.kaplan_meier([1], [1], confidence=95), "confidence is 95"),
        (lambda: sprouting.kaplan_meier([1], [1]).at(-1), "day is -1"),
        (lambda: sprouting.chance_still_up(-1, 8, 0.3, 0.9), "day is -1"),
        (lambda: sprouting.chance_still_up(1, 0, 0.3, 0.9), "median is 0; it must be a number, above 0"),
        (lambda: sprouting.chance_still_up(1, 8, 0, 0.9), "spread is 0"),
        (
            lambda: sprouting.chance_still_up(1, 8, 0.3, 90),
            "viable is 90; it must be a number, at least 0 and at most",
        ),
        (lambda: sprouting.chance_still_up(1, 8, 0.3, 0.9, horizon=-2), "horizon is -2"),
    ],
)
def test_a_bad_value_is_named_with_what_is_allowed(call, words):
    with pytest.raises(ValueError, match=words):
        call()
