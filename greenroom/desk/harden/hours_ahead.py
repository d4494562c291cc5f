"""The hours fit for an outing, today and on the days ahead: worked out a day at a time, after painting."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping
from datetime import date, datetime
from itertools import islice

from PySide6.QtCore import QObject, QTimer, Signal

from greenroom.desk.bench import Bench
from greenroom.desk.harden.days_ahead import SHOWN
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.days_out import DayOut, begun, days_out
from greenroom.season.outdoors_why import window_why
from greenroom.season.outing_windows import Window
from greenroom.season.why import Why

BETWEEN_DAYS_MS = 4
FIRST_AFTER_MS = 30


class HoursAhead(QObject):
    """Answers what is known already and works the rest out later; ``found`` tells that all is there."""

    found = Signal()

    def __init__(self, bench: Bench, parent: QObject) -> None:
        super().__init__(parent)
        self._bench = bench
        self._known: dict[date, DayOut] = {}
        self._coming: Iterator[DayOut] = iter(())
        self._asked: tuple[Hashable, ...] | None = None
        self._timer = QTimer(self, singleShot=True)
        self._timer.timeout.connect(self._next)

    def want(self, stand: TwoClocks, now: datetime) -> None:
        """Ask for today and the days ahead of a holder."""
        asked = _asked(stand, now)
        if asked == self._asked:
            return
        same = self._asked is not None and asked[0] == self._asked[0]
        days = {day.date for day in stand.ahead} if same else set()
        self._known = {day: found for day, found in self._known.items() if day in days}
        self._asked = asked
        self._coming = islice(days_out(self._bench.keeper.season, stand, now), SHOWN)
        self._timer.start(FIRST_AFTER_MS)

    def forget(self) -> None:
        """Work everything out anew when it is next asked for."""
        self._asked = None
        self._known = {}

    def stop(self) -> None:
        """Work nothing further out until it is asked for again."""
        self._timer.stop()

    def of(self, day: date) -> DayOut | None:
        """Return a day with its hours, or None while they are not worked out or nothing is asked of it."""
        found = self._known.get(day)
        return found if found is not None and _tells(found) else None

    def best(self) -> Mapping[date, Window | None]:
        """Return the best hours of the days that are worked out; None where no hour is fit."""
        told = {day: found.windows for day, found in self._known.items() if _tells(found)}
        return {day: windows.best for day, windows in told.items() if windows.asked > 0}

    def why(self, day: date) -> Why | None:
        """Return why these hours of a day."""
        found = self.of(day)
        return window_why(found.windows, self._bench.keeper.place) if found else None

    def _next(self) -> None:
        found = next(self._coming, None)
        if found is None:
            self.found.emit()
            return
        self._known[found.date] = found
        self._timer.start(BETWEEN_DAYS_MS)


def _asked(stand: TwoClocks, now: datetime) -> tuple[Hashable, ...]:
    """Return all that the hours of a holder rest on, but for the weather."""
    left = None if stand.outing is not None else (begun(now), stand.sun.left, stand.air.left)
    return (stand.holder, stand.by, stand.rules, stand.ahead[:SHOWN], left)


def _tells(found: DayOut) -> bool:
    """Whether a day asks for sun; one that is held tells its hours only where some would do all the same."""
    return found.gap if found.held else found.windows.outing is not None or found.windows.asked > 0
