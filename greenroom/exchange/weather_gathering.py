"""What all readers of weather files do alike: go in steps, gather days, and count what is missing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date

from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.weather_days import MissingCounts
from greenroom.ledger.facts import WeatherDay
from greenroom.speech import tr

Refuse = Callable[[str, int | None], BadFileError]


def count_missing(days: Sequence[WeatherDay], flagged: int = 0, absent: int | None = None) -> MissingCounts:
    """Count what is missing of days in order.

    Parameters
    ----------
    days : sequence of WeatherDay
        At least one.
    flagged : int, optional
        How many values failed the file's own checks.
    absent : int, optional
        How many whole days are missing; by default all between the first and the last.
    """
    between = (days[-1].day - days[0].day).days + 1 - len(days)
    return MissingCounts(
        days=between if absent is None else absent,
        tmin=sum(day.tmin_c is None for day in days),
        tmax=sum(day.tmax_c is None for day in days),
        rain=sum(day.rain_mm is None for day in days),
        gust=sum(day.gust_ms is None for day in days),
        flagged=flagged,
    )


@dataclass(frozen=True, slots=True)
class Step:
    """Between two stretches of work: ask whether to go on, and tell how far it has come, 0 to 1."""

    progress: Callable[[float], object] | None = None
    cancelled: Callable[[], bool] | None = None

    def __call__(self, share: float) -> None:
        """Raise Cancelled if the work was called off."""
        if self.cancelled is not None and self.cancelled():
            raise Cancelled
        if self.progress is not None:
            self.progress(share)


class DayBook:
    """Gathers days in any order, each once, none with a night warmer than its day."""

    def __init__(self, refuse: Refuse) -> None:
        """Take what makes a refusal of a sentence and a line."""
        self._refuse = refuse
        self._days: dict[date, tuple[int, WeatherDay]] = {}

    def __len__(self) -> int:
        return len(self._days)

    def add(self, line: int, day: WeatherDay) -> None:
        """Add a day that stands in a line; raise BadFileError if it cannot be."""
        if day.day in self._days:
            raise self._refuse(
                tr(
                    "{day} is already in line {line}; each day is allowed once",
                    day=day.day,
                    line=self._days[day.day][0],
                ),
                line,
            )
        if day.tmin_c is not None and day.tmax_c is not None and day.tmin_c > day.tmax_c:
            raise self._refuse(
                tr(
                    "the lowest of {day}, {low:g} °C, is above its highest, {high:g} °C; the lowest "
                    "of a day must not be above its highest",
                    day=day.day,
                    low=day.tmin_c,
                    high=day.tmax_c,
                ),
                line,
            )
        self._days[day.day] = (line, day)

    def in_order(self) -> tuple[WeatherDay, ...]:
        """Return all days in order; raise BadFileError if none has both temperatures."""
        days = tuple(self._days[day][1] for day in sorted(self._days))
        if not any(day.tmin_c is not None and day.tmax_c is not None for day in days):
            raise self._refuse(
                tr("no day has both a lowest and a highest temperature; at least one is needed"), None
            )
        return days
