"""Counts of seedlings, the table of days to emerge, and how many seeds to sow, against published values."""

import subprocess
import sys

import numpy as np
import pytest
import scipy.stats
from statsmodels.stats.proportion import proportion_confint

from greenroom.agronomy import sprouting

# Example data of the R package germinationmetrics (its manual): 50 seeds, counts on days 1 to 14.
DAYS = np.arange(1, 15)
COUNTS = [0, 0, 0, 0, 4, 17, 10, 7, 1, 0, 1, 0, 0, 0]
SOWN = 50

# Harrington and Minges (1954), University of California, days to emergence at 1/2 in, as reprinted by the
# University of California Santa Cruz (Teaching Organic Farming and Gardening, unit 1.3).
# °C → days, None where none came up.
PUBLISHED_DAYS = {
    "asparagus": {0: None, 5: None, 10: 53, 15: 24, 20: 15, 25: 10, 30: 12, 35: 20, 40: 28},
    "lima bean": {10: None, 15: 31, 20: 18, 25: 7, 30: 7, 35: None},
    "cucumber": {0: None, 10: None, 15: 13, 20: 6, 25: 4, 30: 3, 35: 3},
    "eggplant": {20: 13, 25: 8, 30: 5},
    "lettuce": {0: 49, 5: 15, 10: 7, 15: 4, 20: 3, 25: 2, 30: 3, 35: None, 40: None},
    "onion": {0: 136, 5: 31, 10: 13, 15: 7, 20: 5, 25: 4, 30: 4, 35: 13, 40: None},
    "parsnip": {0: 172, 5: 57, 10: 27, 15: 19, 20: 14, 25: 15, 30: 32, 35: None, 40: None},
    "pepper": {0: None, 5: None, 10: None, 15: 25, 20: 13, 25: 8, 30: 8, 35: 9, 40: None},
    "sweet corn": {0: None, 5: None, 10: 22, 15: 12, 20: 7, 25: 4, 30: 4, 35: 3, 40: None},
    "tomato": {0: None, 5: None, 10: 43, 15: 14, 20: 8, 25: 6, 30: 6, 35: 9, 40: None},
    "watermelon": {5: None, 20: 12, 25: 5, 30: 4, 35: 3},
}


def test_the_published_count_gives_the_published_indices():
    # germinationmetrics manual, printed digits: 80 %, 6.7 d, 6.138924964, 0.266666667, 2.062987252.
    assert sprouting.final_fraction(sum(COUNTS), SOWN) == pytest.approx(0.80, abs=1e-12)
    assert sprouting.mean_days(DAYS, COUNTS) == pytest.approx(6.7, abs=1e-9)
    assert sprouting.speed_index(DAYS, COUNTS) == pytest.approx(6.138924964, abs=1e-9)
    assert sprouting.synchrony(COUNTS) == pytest.approx(0.266666667, abs=1e-9)
    assert sprouting.uncertainty_bits(COUNTS) == pytest.approx(2.062987252, abs=1e-9)


def test_the_two_rules_for_the_half_are_told_apart():
    # germinationmetrics manual: T50 5.970588235 d (Coolbear), 5.941176471 d (Farooq).
    assert sprouting.median_days(DAYS, COUNTS) == pytest.approx(5.970588235, abs=1e-9)
    assert sprouting.median_days(DAYS, COUNTS, rule="farooq") == pytest.approx(5.941176471, abs=1e-9)


def test_the_entropy_of_a_count_is_what_scipy_makes_it():
    counts = [3, 0, 9, 4, 1]
    assert sprouting.uncertainty_bits(counts) == pytest.approx(scipy.stats.entropy(counts, base=2), abs=1e-12)


def test_a_tray_with_nothing_up_gives_not_known_instead_of_nought():
    bare = [0, 0, 0]
    assert sprouting.mean_days([5, 6, 7], bare) is None
    assert sprouting.median_days([5, 6, 7], bare) is None
    assert sprouting.median_days([5, 6, 7], bare, rule="farooq") is None
    assert sprouting.synchrony(bare) is None
    assert sprouting.uncertainty_bits(bare) is None
    assert sprouting.speed_index([5, 6, 7], bare) == 0.0
    assert sprouting.synchrony([0, 1, 0]) is None


def test_a_half_already_found_at_the_first_look_is_drawn_from_the_day_of_sowing():
    # Definition: none up on day 0, 10 up on day 8; the 5th, by the line, on day 4.
    assert sprouting.median_days([8, 9], [10, 0], rule="farooq") == pytest.approx(4.0)
    assert sprouting.median_days([8], [1]) == pytest.approx(8.0)


def test_a_pause_at_the_half_gives_the_first_day_it_was_reached():
    # 2 of 4 up on day 6 and none more until day 9: N/2 = 2 is reached on day 6.
    assert sprouting.median_days([5, 6, 7, 8, 9], [0, 2, 0, 0, 2], rule="farooq") == pytest.approx(6.0)


@pytest.mark.parametrize(("crop", "row"), PUBLISHED_DAYS.items())
def test_the_tabled_temperatures_give_the_tabled_days(crop, row):
    assert {celsius: sprouting.days_to_emerge(celsius, crop) for celsius in row} == row


def test_every_tabled_crop_answers_to_its_name_and_has_a_best_temperature():
    assert len(sprouting.CROPS) == 24
    for crop in sprouting.CROPS:
        days = sprouting.days_to_emerge(np.arange(0.0, 41.0, 5.0), crop)
        assert 1 <= np.nanmin(days) <= 14, crop


def test_between_two_lines_the_rate_and_not_the_days_is_halfway():
    # Halfway between 15 °C (25 d) and 20 °C (13 d): 2 / (1/25 + 1/13), as thermal time requires.
    assert sprouting.days_to_emerge(17.5) == pytest.approx(2 / (1 / 25 + 1 / 13))
    # Half the rate of 15 °C halfway down to 10 °C, where none came up.
    assert sprouting.days_to_emerge(12.5) == pytest.approx(50.0)


def test_the_line_agrees_with_a_published_thermal_time_within_a_third():
    # Onion: 80 °C·d above 2.5 °C, so 4 d at 22.5 °C and 16 d at 7.5 °C; Brewster, Onions and Other
    # Vegetable Alliums, worked after Harrington (1962). The table is another lot, hence the third.
    assert sprouting.days_to_emerge(22.5, "onion") == pytest.approx(4, rel=1 / 3)
    assert sprouting.days_to_emerge(7.5, "onion") == pytest.approx(16, rel=1 / 3)


def test_too_cold_too_hot_and_untested_are_not_known():
    for celsius in (-5, 0, 9.9, 10, 40, 41, 60):
        assert sprouting.days_to_emerge(celsius) is None
    assert sprouting.days_to_emerge(17.5, "eggplant") is None
    assert sprouting.days_to_emerge(36, "eggplant") is None


def test_a_log_of_temperatures_keeps_its_shape_and_its_gaps():
    days = sprouting.days_to_emerge([[15, np.nan], [10, 25]], "Pepper ")
    np.testing.assert_array_equal(days, [[25, np.nan], [np.nan, 8]])


# Least n with P(Binomial(n, p) >= k) >= confidence: the binomial law itself, here against scipy.stats.
@pytest.mark.parametrize(
    ("wanted", "chance", "confidence", "seeds"),
    [
        (6, 0.80, 0.95, 10),
        (6, 0.55, 0.95, 16),
        (1, 0.50, 0.95, 5),
        (3, 0.70, 0.95, 7),
        (10, 0.85, 0.95, 14),
        (24, 0.80, 0.95, 35),
        (12, 0.75, 0.95, 20),
        (2, 0.55, 0.95, 7),
        (4, 0.60, 0.90, 9),
        (1, 0.55, 0.99, 6),
        (6, 0.72, 0.95, 12),
    ],
)
def test_the_seeds_to_sow_are_the_fewest_by_the_binomial_law(wanted, chance, confidence, seeds):
    n = sprouting.seeds_to_sow(wanted, chance, confidence)
    assert n == seeds
    assert scipy.stats.binom.sf(wanted - 1, n, chance) >= confidence
    assert scipy.stats.binom.sf(wanted - 1, n - 1, chance) < confidence


def test_seeds_to_sow_takes_arrays_and_the_easy_cases():
    np.testing.assert_array_equal(sprouting.seeds_to_sow([[1], [6]], [0.5, 0.8]), [[5, 2], [18, 10]])
    assert sprouting.seeds_to_sow(0, 0.4) == 0
    assert sprouting.seeds_to_sow(7, 1.0) == 7
    assert sprouting.seeds_to_sow(1, 0.95, 0.95) == 1
    assert isinstance(sprouting.seeds_to_sow(6, 0.8), int)


def test_dividing_the_plants_wanted_by_the_germination_sows_too_few():
    # The rule of thumb k/p: 8 seeds for 6 plants at 80 % work only 797 times in 1,000 (binomial law).
    assert scipy.stats.binom.sf(5, 8, 0.8) == pytest.approx(0.7969, abs=1e-4)
    assert sprouting.seeds_to_sow(6, 0.8) > 8


def test_cells_filled_match_the_nursery_table():
    # USDA Forest Service container nursery manuals, sowing table (from memory): germination 50-59 %,
    # 4 seeds fill 94-97 % of cells; 60-69 %, 3 seeds 94-97 %; 70-79 %, 2: 91-96 %; 80-89 %, 2: 96-99 %.
    for germination, seeds, least, most in [
        ((0.50, 0.59), 4, 94, 97),
        ((0.60, 0.69), 3, 94, 97),
        ((0.70, 0.79), 2, 91, 96),
        ((0.80, 0.89), 2, 96, 99),
    ]:
        filled = 100 * (1 - sprouting.blank_chance(seeds, np.array(germination)))
        assert np.round(filled).astype(int).tolist() == [least, most]


def test_one_blank_cell_is_the_chance_that_every_seed_failed():
    # Binomial identity: 0.45 ** 3.
    assert sprouting.blank_chance(3, 0.55) == pytest.approx(1 - 0.908875, abs=1e-12)
    assert sprouting.blank_chance(0, 0.55) == 1.0
    assert sprouting.blank_chance(2, 1.0) == 0.0


@pytest.mark.parametrize(
    ("k", "n", "low", "high"),
    # Clopper and Pearson's exact 95 % limits, as in the binomial tables: 8/10, 18/20, 40/50, 0/10, 11/144.
    [
        (8, 10, 0.4439, 0.9748),
        (18, 20, 0.6830, 0.9877),
        (40, 50, 0.6628, 0.8997),
        (0, 10, 0.0, 0.3085),
        (11, 144, 0.0387, 0.1326),
    ],
)
def test_the_exact_interval_is_the_tabled_one(k, n, low, high):
    assert sprouting.interval(k, n, method="exact") == pytest.approx((low, high), abs=5e-5)


@pytest.mark.parametrize(("method", "theirs"), [("wilson", "wilson"), ("exact", "beta")])
@pytest.mark.parametrize("confidence", [0.5, 0.9, 0.95, 0.999])
def test_intervals_are_what_statsmodels_makes_them(method, theirs, confidence):
    n = np.array([1, 1, 7, 10, 10, 10, 144, 3000])
    k = np.array([0, 1, 3, 0, 8, 10, 11, 2999])
    low, high = sprouting.interval(k, n, confidence, method)
    expected_low, expected_high = proportion_confint(k, n, 1 - confidence, theirs)
    np.testing.assert_allclose(low, expected_low, atol=1e-9)
    np.testing.assert_allclose(high, expected_high, atol=1e-9)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: sprouting.final_fraction(5, 4), "sprouted is 5; it must be at most sown, 4"),
        (lambda: sprouting.final_fraction(0, 0), "sown is 0; it must be a number, at least 1"),
        (lambda: sprouting.final_fraction("six", 7), "sprouted is 'six'"),
        (lambda: sprouting.final_fraction(None, 7), "sprouted is None"),
        (lambda: sprouting.mean_days([1, 3, 3], [1, 0, 2]), r"days\[2\] is 3 after 3"),
        (lambda: sprouting.mean_days([1, 2], [1, 2, 3]), "counts is 3 long; it must be as long as days, 2"),
        (lambda: sprouting.mean_days([1, 2], [1, 2.5]), r"counts\[1\] is 2.5; it must be a whole number"),
        (lambda: sprouting.mean_days([1, 2], [1, -2]), r"counts\[1\] is -2"),
        (lambda: sprouting.mean_days([], []), r"days has shape \(0,\)"),
        (lambda: sprouting.speed_index([0, 1], [1, 0]), r"days\[0\] is 0; a seedling cannot be up"),
        (
            lambda: sprouting.median_days([1], [1], rule="mine"),
            "rule is 'mine'; it must be one of: coolbear, farooq",
        ),
        (lambda: sprouting.synchrony(7), r"counts has shape \(\)"),
        (lambda: sprouting.days_to_emerge(float("nan")), "celsius is nan"),
        (
            lambda: sprouting.days_to_emerge(400),
            "celsius is 400; it must be a number, at least -50 and at most 70",
        ),
        (lambda: sprouting.days_to_emerge(20, "cactus"), "crop is 'cactus'; it must be one of: asparagus"),
        (lambda: sprouting.days_to_emerge(20, 3), "crop is 3"),
        (lambda: sprouting.seeds_to_sow(2.5, 0.5), "wanted is 2.5; it must be a whole number"),
        (lambda: sprouting.seeds_to_sow(2, 0.0), "chance is 0"),
        (lambda: sprouting.seeds_to_sow(2, [0.5, np.nan]), r"chance\[1\] is nan"),
        (
            lambda: sprouting.seeds_to_sow(2, 0.5, 1.0),
            "confidence is 1; it must be a number, above 0 and below 1",
        ),
        (lambda: sprouting.blank_chance(-1, 0.5), "seeds is -1"),
        (lambda: sprouting.blank_chance(1, 1.5), "chance is 1.5"),
        (lambda: sprouting.interval([3, 5], [4, 4]), r"k\[1\] is 5; it must be at most n, 4"),
        (
            lambda: sprouting.interval(3, 4, method="guess"),
            "method is 'guess'; it must be one of: wilson, exact",
        ),
    ],
)
def test_a_bad_value_is_named_with_what_is_allowed(call, words):
    with pytest.raises(ValueError, match=words):
        call()


def test_opening_the_program_does_not_wait_for_scipy():
    code = (
        "import sys, greenroom.agronomy.sprouting; sys.exit(any(m.startswith('scipy') for m in sys.modules))"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False, timeout=60).returncode == 0
