"""What is typed into the fields of a packet, read or refused with one sentence."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TypeVar

from greenroom.exchange.seed_values import UnfitError, read_count, read_days, read_year
from greenroom.speech import figure, tr

T = TypeVar("T")
PERCENT = re.compile(r"(?P<number>\d{1,3}(?:[.,]\d{1,3})?)\s*%?")


def read_field(name: str, text: str, read: Callable[[str], T]) -> T:
    """Return what a field says.

    Raises
    ------
    UnfitError
        With one whole sentence: which field, what stands in it, what is allowed.
    """
    try:
        return read(text)
    except UnfitError as error:
        shown = " ".join(text.split())
        raise UnfitError(
            tr("{field}: “{typed}” stands where {allowed} is needed.", field=name, typed=shown, allowed=error)
        ) from error


def read_percent(text: str) -> float | None:
    """Return a percentage as a share, 0 to 1; None for an empty field."""
    if not text.strip():
        return None
    found = PERCENT.fullmatch(text.strip())
    number = float(found["number"].replace(",", ".")) if found else -1.0
    if not 0 <= number <= 100 or 0 < number < 1:
        raise UnfitError(tr("a percentage such as 85, 1 to 100, or nothing"))
    return round(number / 100, 6)


def number_words(value: float | None) -> str:
    """Return a number for an empty or filled field."""
    return "" if value is None else figure(value, ".10g")


def percent_words(share: float | None) -> str:
    """Return a share as the germination field shows it."""
    return "" if share is None else figure(round(share * 100, 3), "g")


__all__ = [
    "UnfitError",
    "number_words",
    "percent_words",
    "read_count",
    "read_days",
    "read_field",
    "read_percent",
    "read_year",
]
