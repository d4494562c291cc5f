"""Which copies of a ledger stay: many of the last day, fewer the older they are, some of every month.

A pure function of the copies and the moment. What "newer" means is told by their running numbers and
not by their moments, and the latest few stay whatever their moments say: so a clock that was set wrong
and back again costs no copy that matters.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from datetime import UTC, datetime, timedelta
from typing import NamedTuple

ALWAYS = 10
"""So many of the latest copies stay, whatever their moments."""

# Common practice, no source: each step back in time keeps the last copy of a longer stretch.
ALL_OF = timedelta(days=1)
DAILY_FOR = timedelta(days=14)
WEEKLY_FOR = timedelta(days=92)


class Taken(NamedTuple):
    """A copy: its running number and the moment it was taken, in UTC."""

    number: int
    moment: datetime


def to_drop(copies: Iterable[Taken], now: datetime) -> set[int]:
    """Return the numbers of the copies that need not stay.

    Parameters
    ----------
    copies : iterable of Taken
        Each number once.
    now : datetime
        This moment, aware.

    Returns
    -------
    set of int
        All copies of the last day stay, and any from a day yet to come; then the last of each day for
        two weeks, the last of each week for three months, and the last of each month from there on.
    """
    newest_first = sorted(copies, key=lambda one: -one.number)
    filled: set[Hashable] = set()
    dropped: set[int] = set()
    for place, one in enumerate(newest_first):
        stretch = _stretch(one.moment.astimezone(UTC), now)
        if stretch is None:
            continue
        if stretch in filled and place >= ALWAYS:
            dropped.add(one.number)
        filled.add(stretch)
    return dropped


def _stretch(moment: datetime, now: datetime) -> Hashable | None:
    """Return the stretch of time of which one copy stays; None if each does."""
    age = now - moment
    if age <= ALL_OF:
        return None
    reach: tuple[tuple[timedelta, Callable[[datetime], Hashable]], ...] = (
        (DAILY_FOR, lambda one: ("day", one.date())),
        (WEEKLY_FOR, lambda one: ("week", *one.isocalendar()[:2])),
    )
    for most, stretch in reach:
        if age <= most:
            return stretch(moment)
    return ("month", moment.year, moment.month)
