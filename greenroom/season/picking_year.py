"""Which season a day belongs to: the year in the north, July to June in the south."""

from __future__ import annotations

from datetime import date

JULY = 7


def season_of(day: date, *, southern: bool) -> int:
    """Return the spring that names the season of a day; in the south it begins in July."""
    return day.year - 1 if southern and day.month < JULY else day.year
