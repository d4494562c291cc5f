"""Fertiliser by mass balance against published mixing tables, and oxide factors against atomic weights."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.agronomy import feeding

ppm = st.floats(0.0, 2000.0)
percent = st.floats(0.5, 100.0)


@pytest.mark.parametrize(
    ("percent_n", "ppm_n", "ounces"),
    # Virginia Tech (Virginia Cooperative Extension) mixing table, rounded to half an ounce: 20 % N at 200 ppm
    # takes 13½ oz in 100 gallons; 15 % N, 18 oz.
    [(20, 200, 13.5), (15, 200, 18.0)],
)
def test_ounces_agree_with_the_published_mixing_table(percent_n, ppm_n, ounces):
    assert feeding.ounces_per_100_gallons(ppm_n, percent_n) == pytest.approx(ounces, abs=0.25)


def test_the_injector_stock_of_a_published_example():
    # Cornell University (Mattson), 20-10-20 at 150 ppm through 1:200: 20.25 oz in a gallon of stock, by the
    # rounded rule of 75 ppm an ounce; exact mass is a seventh of a percent more.
    stock = feeding.ounces_per_100_gallons(150, 20) / 100 * 200
    assert stock == pytest.approx(20.25, rel=0.015)


def test_an_ounce_of_pure_nitrogen_in_a_hundred_gallons_is_just_under_75_ppm():
    # Extension rule: ppm = oz per 100 gal x fraction N x 75. Exact by the units of NIST Handbook 44: 74.89.
    assert 1 / feeding.ounces_per_100_gallons(1.0, 100) == pytest.approx(74.89, abs=0.005)


@pytest.mark.parametrize(
    ("ppm_n", "percent_n", "grams"), [(50, 20, 0.25), (200, 20, 1.0), (100, 15, 0.6667), (1000, 100, 1.0)]
)
def test_grams_are_plain_mass_balance(ppm_n, percent_n, grams):
    # Identity: 1 g/L of a 20 % fertiliser holds 0.2 g = 200 mg of N.
    assert feeding.grams_per_litre(ppm_n, percent_n) == pytest.approx(grams, abs=5e-5)


def test_the_oxides_turn_into_elements_by_the_printed_factors():
    # Printed in fertiliser handbooks: P = P2O5 x 0.4364, K = K2O x 0.8301 (IUPAC atomic weights).
    assert feeding.p_from_p2o5(1.0) == pytest.approx(0.4364, abs=5e-5)
    assert feeding.k_from_k2o(1.0) == pytest.approx(0.8301, abs=1e-4)
    # A 20-10-20 has 4.4 % P and 16.6 % K.
    np.testing.assert_allclose(feeding.p_from_p2o5([10, 0]), [4.364, 0], atol=5e-4)
    np.testing.assert_allclose(feeding.k_from_k2o([20, 0]), [16.603, 0], atol=5e-4)


@given(ppm, percent)
def test_both_recipes_make_the_same_feed(ppm_n, percent_n):
    # Ounce and gallon by definition: 28.349523125 g and 3.785411784 L.
    metric = feeding.ounces_per_100_gallons(ppm_n, percent_n) * 28.349523125 / 378.5411784
    assert metric == pytest.approx(feeding.grams_per_litre(ppm_n, percent_n), rel=1e-12, abs=1e-15)


@given(ppm, percent)
def test_twice_the_strength_takes_twice_the_fertiliser_and_a_richer_one_half(ppm_n, percent_n):
    once = feeding.grams_per_litre(ppm_n, percent_n)
    assert feeding.grams_per_litre(2 * ppm_n, percent_n) == pytest.approx(2 * once)
    assert feeding.grams_per_litre(ppm_n, percent_n / 2) == pytest.approx(2 * once)


def test_a_row_of_strengths_gives_a_row_and_one_gives_a_number():
    assert isinstance(feeding.grams_per_litre(100, 20), float)
    np.testing.assert_allclose(
        feeding.ounces_per_100_gallons([50, 100, 150, np.nan], 20), [3.338, 6.676, 10.014, np.nan], atol=5e-4
    )


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda: feeding.grams_per_litre(-1, 20), "ppm_n is -1; it must be a number, at least 0"),
        (
            lambda: feeding.grams_per_litre(100, 0),
            "percent_n is 0; it must be a number, at most 100 and above 0",
        ),
        (lambda: feeding.ounces_per_100_gallons(100, [20, 120]), r"percent_n\[1\] is 120"),
        (lambda: feeding.p_from_p2o5(-3), "x is -3"),
        (lambda: feeding.k_from_k2o(None), "x is None"),
    ],
)
def test_a_bad_value_is_named_with_what_is_allowed(call, words):
    with pytest.raises(ValueError, match=words):
        call()
