"""The units of a weather file: told apart by what air can do, converted by their definitions."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from greenroom.exchange.weather_units import guess_units, parse_number, rain_mm, temperature_c, wind_ms

WINTER_AND_SUMMER_C = [(-21.1, 3.3), (-10.0, 0.6), (4.4, 17.8), (15.0, 31.7), (17.2, 36.7), (-3.3, 9.4)]


def year(unit: str, cold: float = 0.0) -> list[tuple[str, str]]:
    """A year of days, the temperate ones above, cooled by ``cold`` [°C] and written in one of the units."""
    days = []
    for low, high in WINTER_AND_SUMMER_C * 60:
        if unit == "tenths":
            days.append((f"{(low - cold) * 10:.0f}", f"{(high - cold) * 10:.0f}"))
        elif unit == "metric":
            days.append((f"{low - cold:.1f}", f"{high - cold:.1f}"))
        else:
            days.append((f"{(low - cold) * 1.8 + 32:.0f}", f"{(high - cold) * 1.8 + 32:.0f}"))
    return days


@pytest.mark.parametrize("unit", ["tenths", "metric", "us"])
@pytest.mark.parametrize("cold", [0, 5, 10, 15])
def test_a_year_of_weather_tells_its_units(unit, cold):
    guess = guess_units(year(unit, cold))
    assert (guess.units, guess.sure) == (unit, True)


@pytest.mark.parametrize("unit", ["tenths", "metric", "us"])
def test_the_reason_is_one_sentence_about_the_values(unit):
    reason = guess_units(year(unit)).reason
    assert reason.endswith(".")
    assert ". " not in reason
    assert any(letter.isdigit() for letter in reason)


@pytest.mark.parametrize(
    ("days", "units"),
    [
        ([("-56", "44")] * 20, "tenths"),  # -5.6 and 4.4 °C: a winter month in tenths
        ([("18", "41")] * 20, "us"),  # the same month in °F, whole
        ([("-6", "4")] * 20, "metric"),  # the same month in °C, whole
        ([("240", "330")], "tenths"),
        ([("389", "389")], "tenths"),
        ([("70.5", "91.2")] * 20, "us"),
        ([("95", "140")], "tenths"),  # no air is 45 °F colder by night, day after day
        ([("96", "140")], "us"),
        ([("45.5", "60")], "metric"),
        ([("30", "40")], "metric"),
        ([("-130", "-100")], "metric"),
        ([("-131", "-100")], "tenths"),
    ],
)
def test_a_short_file_is_guessed_at_too(days, units):
    assert guess_units(days).units == units


def test_the_reason_names_the_value_that_decided():
    assert "389 cannot be" in guess_units([("240", "389")]).reason
    assert "38.9 °C" in guess_units([("240", "389")]).reason
    assert "-300 cannot be" in guess_units([("-300", "-200")]).reason


def test_most_of_a_year_is_needed_to_be_sure():
    assert guess_units([("60", "85")] * 300).sure
    assert not guess_units([("60", "85")] * 299).sure


def test_a_month_of_whole_degrees_is_never_called_sure():
    assert not guess_units([("-6", "4")] * 30).sure
    assert not guess_units([("18", "41")] * 30).sure


def test_one_misprint_in_a_year_does_not_change_the_units():
    assert guess_units([*year("metric"), ("10.0", "310.0")]).units == "metric"
    assert guess_units([*year("us"), ("70", "810")]).units == "us"


def test_days_without_temperatures_are_left_out_of_the_guess():
    assert guess_units([("", ""), ("9999", "9999"), ("-9999", "12"), ("x", "1")]).sure is False
    assert guess_units([*year("us"), ("-9999", "9999")]).units == "us"


def test_only_plain_numbers_are_numbers():
    assert parse_number(" 12.8 ") == 12.8
    assert parse_number("-0,6") == -0.6
    assert parse_number("+3.") == 3
    for text in ("", "nan", "inf", "1e5", "1_0", "0x1", "1.2.3", "١٢", "12 8", "--1", ".", "1" * 500):
        assert parse_number(text) is None


def test_the_scales_meet_where_their_definitions_say():
    """Kelvin and Celsius scales, inch and mile: NIST Special Publication 811 (2008), appendix B.8."""
    assert temperature_c(32, "us") == 0.0
    assert temperature_c(212, "us") == 100.0
    assert temperature_c(-40, "us") == -40.0
    assert temperature_c(50, "us") == 10.0
    assert rain_mm(1, "us") == 25.4
    assert wind_ms(100, "us") == 44.704
    assert (temperature_c(-211, "tenths"), rain_mm(254, "tenths"), wind_ms(76, "tenths")) == (
        -21.1,
        25.4,
        7.6,
    )
    assert (temperature_c(-21.1, "metric"), rain_mm(25.4, "metric"), wind_ms(7.6, "metric")) == (
        -21.1,
        25.4,
        7.6,
    )


@pytest.mark.parametrize(("text", "units"), [("-0", "tenths"), ("-0.0", "metric"), ("32", "us")])
def test_freezing_is_nought_and_not_minus_nought(text, units):
    number = parse_number(text)
    assert number is not None
    assert math.copysign(1, temperature_c(number, units)) == 1


@given(st.integers(-130, 140), st.integers(-130, 140))
def test_a_warmer_day_stays_warmer_in_any_units(one, other):
    for units in ("tenths", "metric", "us"):
        assert (one < other) == (temperature_c(one, units) < temperature_c(other, units))
