"""Temperatures in the unit the grower reads; the season keeps °C throughout."""

from __future__ import annotations

from collections.abc import Callable

from greenroom.season.place import Place
from greenroom.speech import figure

FREEZING_F = 32.0
F_IN_C = 1.8

SIGNS = {"c": "°C", "f": "°F"}

SayC = Callable[[float], str]
"""Puts a temperature [°C] into words, in the reader's own unit."""


def temperature(celsius: float, unit: str, decimals: int = 0) -> str:
    """Return a temperature in words, "24 °C" or "75 °F"; zeros at the end are left away."""
    return f"{plain_number(from_celsius(celsius, unit), decimals)} {unit_sign(unit)}"


def in_celsius(celsius: float) -> str:
    """Return a temperature in words, in °C."""
    return temperature(celsius, "c")


def said_at(place: Place) -> SayC:
    """Return what puts temperatures into the words of those who grow at a place."""
    return lambda celsius: temperature(celsius, place.temperature)


def from_celsius(celsius: float, unit: str) -> float:
    """Return a temperature in a unit of the grower's."""
    return celsius * F_IN_C + FREEZING_F if unit == "f" else celsius


def to_celsius(value: float, unit: str) -> float:
    """Return a temperature in °C that was given in a unit of the grower's."""
    return (value - FREEZING_F) / F_IN_C if unit == "f" else value


def unit_sign(unit: str) -> str:
    """Return "°C" or "°F"."""
    return SIGNS[unit]


def plain_number(value: float, decimals: int) -> str:
    """Return a number with at most so many decimals; never "-0"."""
    rounded = round(value, decimals) + 0.0  # which turns -0.0 into 0.0
    words = f"{rounded:.{decimals}f}"
    needed = len(words.rstrip("0").partition(".")[2])
    return figure(rounded, f".{needed}f")
