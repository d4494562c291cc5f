"""Temperatures and volumes in the units the grower reads; the season keeps °C and mL throughout."""

from __future__ import annotations

from greenroom.speech import figure

FLUID_OUNCE_ML = 29.5735295625
"""US fluid ounce, 1/128 of 231 cubic inches exactly: NIST Handbook 44, appendix C."""

ML_IN_LITRE = 1000.0
FREEZING_F = 32.0
F_IN_C = 1.8

SIGNS = {"c": "°C", "f": "°F"}


def temperature(celsius: float, unit: str, decimals: int = 0) -> str:
    """Return a temperature in words, "24 °C" or "75 °F"; zeros at the end are left away."""
    return f"{_plain(from_celsius(celsius, unit), decimals)} {unit_sign(unit)}"


def from_celsius(celsius: float, unit: str) -> float:
    """Return a temperature in a unit of the grower's."""
    return celsius * F_IN_C + FREEZING_F if unit == "f" else celsius


def to_celsius(value: float, unit: str) -> float:
    """Return a temperature in °C that was given in a unit of the grower's."""
    return (value - FREEZING_F) / F_IN_C if unit == "f" else value


def unit_sign(unit: str) -> str:
    """Return "°C" or "°F"."""
    return SIGNS[unit]


def volume(ml: float, unit: str) -> str:
    """Return a volume in words: "59 mL", "1.5 L" or "2 fl oz"."""
    if unit == "floz":
        return f"{_plain(ml / FLUID_OUNCE_ML, 1)} fl oz"
    if ml >= ML_IN_LITRE:
        return f"{_plain(ml / ML_IN_LITRE, 1)} L"
    return f"{_plain(ml, 0)} mL"


def _plain(value: float, decimals: int) -> str:
    """Return a number with at most so many decimals; never "-0"."""
    rounded = round(value, decimals) + 0.0  # which turns -0.0 into 0.0
    words = f"{rounded:.{decimals}f}"
    needed = len(words.rstrip("0").partition(".")[2])
    return figure(rounded, f".{needed}f")
