"""The axes of the odds chart: sowing days and shares of the years. It brings pyqtgraph in: import it late."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

import pyqtgraph as pg

from greenroom.season.hardening_words import short_day_words
from greenroom.speech import tr

QUARTERS = (0.0, 0.25, 0.5, 0.75, 1.0)


class DayAxis(pg.AxisItem):
    """Firsts and middles of months below the curves, as many as have room."""

    def tickValues(self, low: float, high: float, size: float) -> list[tuple[float, list[float]]]:
        first, last = date.fromordinal(int(low)), date.fromordinal(int(high))
        days = [
            date(year, month, number)
            for year in range(first.year, last.year + 1)
            for month in range(1, 13)
            for number in (1, 15)
        ]
        shown = [day for day in days if first <= day <= last]
        if size < 58 * len(shown):
            shown = [day for day in shown if day.day == 1]
        return [(14.0, [float(day.toordinal()) for day in shown])]

    def tickStrings(self, values: Sequence[float], _scale: float, _spacing: float) -> list[str]:
        days = [date.fromordinal(int(value)) for value in values]
        return [short_day_words(day) for day in days]


class ShareAxis(pg.AxisItem):
    """0 to 100 % of the years."""

    def tickValues(self, _low: float, _high: float, size: float) -> list[tuple[float, list[float]]]:
        return [(0.25, list(QUARTERS if size > 110 else QUARTERS[::2]))]

    def tickStrings(self, values: Sequence[float], _scale: float, _spacing: float) -> list[str]:
        return [tr("{percent:.0f} %", percent=value * 100) for value in values]
