"""How much weather the place's record holds: years, gaps, and the coldest and the warmest of it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

import numpy as np

from greenroom.ledger.facts import WeatherDay, WeatherRecord
from greenroom.season.place import record_days
from greenroom.season.state import Season


@dataclass(frozen=True, slots=True)
class RecordSummary:
    """How much weather there is between ``first`` and ``last``.

    ``missing`` counts the days between them without both temperatures, ``longest_gap`` the longest
    run of such days and ``gap_start`` its first day.
    """

    first: date
    last: date
    days: int
    missing: int
    longest_gap: int
    gap_start: date | None
    coldest_c: float
    warmest_c: float

    @property
    def years(self) -> int:
        """How many calendar years the record touches."""
        return self.last.year - self.first.year + 1


def record_summary(season: Season) -> RecordSummary | None:
    """Return how much weather there is, or None where no day has both temperatures."""
    return season.memo("record summary", (WeatherRecord,), lambda: summarise(record_days(season).values()))


def summarise(days: Iterable[WeatherDay]) -> RecordSummary | None:
    """Return what some days of weather hold, or None if no day has both temperatures."""
    whole = sorted((day.day.toordinal(), day.tmin_c, day.tmax_c) for day in days if None not in day[1:3])
    if not whole:
        return None
    table = np.array(whole, dtype=float)
    ordinals = table[:, 0].astype(int)
    gaps = np.diff(ordinals, append=ordinals[-1] + 1) - 1
    widest = int(gaps.argmax())
    return RecordSummary(
        first=date.fromordinal(ordinals[0]),
        last=date.fromordinal(ordinals[-1]),
        days=len(whole),
        missing=int(gaps.sum()),
        longest_gap=int(gaps[widest]),
        gap_start=date.fromordinal(ordinals[widest] + 1) if gaps[widest] else None,
        coldest_c=float(table[:, 1].min()),
        warmest_c=float(table[:, 2].max()),
    )
