"""Volumes in the unit the grower reads; the season keeps mL throughout."""

from __future__ import annotations

from greenroom.season.temperatures import plain_number

FLUID_OUNCE_ML = 29.5735295625
"""US fluid ounce, 1/128 of 231 cubic inches exactly: NIST Handbook 44, appendix C."""

ML_IN_LITRE = 1000.0


def volume(ml: float, unit: str) -> str:
    """Return a volume in words: "59 mL", "1.5 L" or "2 fl oz"."""
    if unit == "floz":
        return f"{plain_number(ml / FLUID_OUNCE_ML, 1)} fl oz"
    if ml >= ML_IN_LITRE:
        return f"{plain_number(ml / ML_IN_LITRE, 1)} L"
    return f"{plain_number(ml, 0)} mL"
