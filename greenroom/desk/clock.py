"""The clock the window goes by: the system's, moved to another day, or standing still."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, tzinfo


def system_now() -> datetime:
    """Return this moment, in UTC."""
    return datetime.now(UTC)


@dataclass(frozen=True, slots=True)
class Clock:
    """Tells the moment: the source's, moved by ``shift``."""

    source: Callable[[], datetime] = system_now
    shift: timedelta = timedelta()

    def now(self) -> datetime:
        """Return the moment, in UTC."""
        return self.source() + self.shift

    def today(self, zone: tzinfo) -> date:
        """Return the day it is in a time zone."""
        return self.now().astimezone(zone).date()

    def moved_to(self, day: date, zone: tzinfo) -> Clock:
        """Return this clock moved to another day, at the same time of day in ``zone``."""
        here = self.now().astimezone(zone)
        there = datetime.combine(day, here.timetz().replace(tzinfo=None), tzinfo=zone)
        return Clock(self.source, self.shift + (there.astimezone(UTC) - here.astimezone(UTC)))


def standing_at(moment: datetime) -> Clock:
    """Return a clock that stands still."""
    return Clock(lambda: moment)


def at_local(day: date, hour: int, minute: int, zone: tzinfo) -> datetime:
    """Return the moment of a local time, in UTC."""
    return datetime.combine(day, time(hour, minute), tzinfo=zone).astimezone(UTC)
