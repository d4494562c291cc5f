"""The hours fit for an outing, today and on the days ahead: worked out a day at a time, after painting."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime

from PySide6.QtCore import QObject, QTimer, Signal

from greenroom.desk.bench import Bench
from greenroom.desk.harden.days_ahead import SHOWN
from greenroom.season.hardening import Standing
from greenroom.season.outdoors_why import window_why
from greenroom.season.outing_windows import DayWindows, Window, day_windows
from greenroom.season.ramp_rules import rules_of_holder
from greenroom.season.why import Why

BETWEEN_DAYS_MS = 4
FIRST_AFTER_MS = 30


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of one day: minutes in the sun, and from when on, if the day has begun."""

    holder: str
    day: date
    minutes: float
    now: datetime | None = None


class HoursAhead(QObject):
    """Answers what is known already and works the rest out later; ``found`` tells that all is there."""

    found = Signal()

    def __init__(self, bench: Bench, parent: QObject) -> None:
        super().__init__(parent)
        self._bench = bench
        self._known: dict[Asked, DayWindows] = {}
        self._wanted: list[Asked] = []
        self._timer = QTimer(self, singleShot=True)
        self._timer.timeout.connect(self._next)

    def want(self, stand: Standing, now: datetime) -> None:
        """Ask for today and the days ahead of a holder."""
        self._wanted = asked_of(stand, now)
        self._known = {asked: found for asked, found in self._known.items() if asked in self._wanted}
        if len(self._known) < len(self._wanted):
            self._timer.start(FIRST_AFTER_MS)

    def forget(self) -> None:
        """Work everything out anew when it is next asked for."""
        self._known.clear()

    def stop(self) -> None:
        """Work nothing further out until it is asked for again."""
        self._timer.stop()

    def of(self, day: date) -> DayWindows | None:
        """Return the hours of a day, or None while they are not worked out or nothing is asked of it."""
        return next((found for asked, found in self._known.items() if asked.day == day), None)

    def best(self) -> Mapping[date, Window | None]:
        """Return the best hours of the days that are worked out; None where no hour is fit."""
        return {asked.day: found.best for asked, found in self._known.items()}

    def why(self, day: date) -> Why | None:
        """Return why these hours of a day."""
        found = self.of(day)
        return window_why(found, self._bench.keeper.place) if found else None

    def _next(self) -> None:
        missing = [asked for asked in self._wanted if asked not in self._known]
        if missing:
            self._known[missing[0]] = self._work_out(missing[0])
        if len(missing) > 1:
            self._timer.start(BETWEEN_DAYS_MS)
        else:
            self.found.emit()

    def _work_out(self, asked: Asked) -> DayWindows:
        season = self._bench.keeper.season
        limits = rules_of_holder(season, asked.holder).limits
        return day_windows(season, asked.day, asked.minutes, limits, holder=asked.holder, now=asked.now)


def asked_of(stand: Standing, now: datetime) -> list[Asked]:
    """Return what is asked of today and the days ahead.

    A holder that waits is asked only about the hours that are left; one that is out, about the whole day,
    so that the hours it is in can be held against the best ones.
    """
    found = []
    for planned in stand.ahead[:SHOWN]:
        today = planned.date == stand.today
        if planned.minutes <= 0 or (today and stand.settled is not None):
            continue
        begun = now.replace(minute=now.minute // 5 * 5, second=0, microsecond=0)
        from_now = begun if today and stand.outing is None else None
        found.append(Asked(stand.holder, planned.date, float(planned.minutes), from_now))
    return found
