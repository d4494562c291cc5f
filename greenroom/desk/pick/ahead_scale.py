"""Where the days of the predictions lie beside the names."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from greenroom.season.months import month_starts
from greenroom.season.picking_ahead import RipeAhead
from greenroom.season.replay import Spread

NAME_PX, RIGHT_PX = 150, 14
MARGIN = timedelta(days=9)
SHORTEST = timedelta(days=60)


@dataclass(frozen=True, slots=True)
class AheadScale:
    """Days from left to right, beside the names."""

    first: date
    last: date
    width: int

    def x(self, day: date) -> float:
        """Return where a day lies; one beyond the ends lies at the end."""
        share = (day - self.first).days / max(1, (self.last - self.first).days)
        return NAME_PX + min(1.0, max(0.0, share)) * self.room

    @property
    def room(self) -> float:
        """The width of all the days."""
        return max(60.0, float(self.width - NAME_PX - RIGHT_PX))

    @property
    def right(self) -> float:
        """Where the last day lies."""
        return NAME_PX + self.room

    def months(self) -> list[date]:
        """Return the firsts of the months that are shown."""
        return month_starts(self.first, self.last)


def scale_of(rows: Sequence[RipeAhead], frost: Spread | None, today: date, width: int) -> AheadScale:
    """Return the scale on which today, every prediction and pick, and the killing nights have room."""
    days = [today]
    for one in rows:
        days += [fact.day for fact in one.picks]
        if one.days is not None:
            told = (one.days.early, one.days.usual, one.days.late, one.days.killed_on)
            days += [day for day in told if day is not None]
    if frost is not None:
        days.append(frost.late)
    first, last = min(days) - MARGIN, max(days) + MARGIN
    return AheadScale(first, max(last, first + SHORTEST), width)
