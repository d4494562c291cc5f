"""Temperatures and volumes are read in the grower's own units."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.desk.units import volume
from greenroom.season.temperatures import from_celsius, temperature, to_celsius


@pytest.mark.parametrize(
    ("celsius", "fahrenheit"),
    [(0.0, "32 °F"), (100.0, "212 °F"), (-40.0, "-40 °F"), (24.0, "75 °F")],
)
def test_a_temperature_reads_in_fahrenheit(celsius, fahrenheit):
    """Freezing and boiling point of water, where the scales meet, and a warm mat: NIST SP 811, B.8."""
    assert temperature(celsius, "f") == fahrenheit


def test_a_temperature_reads_in_celsius_without_a_tail_of_zeros():
    assert temperature(24.0, "c", 1) == "24 °C"
    assert temperature(24.5, "c", 1) == "24.5 °C"
    assert temperature(-0.2, "c") == "0 °C"


@given(st.floats(-60, 60))
def test_there_and_back_again_gives_the_same_temperature(celsius):
    assert to_celsius(from_celsius(celsius, "f"), "f") == pytest.approx(celsius, abs=1e-9)


def test_volumes_read_in_millilitres_litres_or_fluid_ounces():
    """1 US gallon = 128 fl oz = 3.785 412 L: NIST Handbook 44, appendix C."""
    assert volume(59, "ml") == "59 mL"
    assert volume(1500, "ml") == "1.5 L"
    assert volume(3785.411784, "floz") == "128 fl oz"
