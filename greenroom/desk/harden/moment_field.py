"""A field for a day and a time on the place's own clock, whatever zone the machine is set to."""

from __future__ import annotations

from datetime import date, datetime, time

from PySide6.QtCore import QDateTime, QTime, QTimeZone
from PySide6.QtGui import QFocusEvent
from PySide6.QtWidgets import QDateTimeEdit

from greenroom.desk.days import day_in, qt_day
from greenroom.season.deeds_harden import local_moment
from greenroom.season.place import Place
from greenroom.speech import tr

FORMAT = tr("d MMM yyyy  HH:mm", sense="form of a date")
WIDTH_PX = 176


class MomentField(QDateTimeEdit):
    """Holds wall time only; Qt is told it is UTC, so that no change of the machine's clocks bends it."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self._wall = QTimeZone(QTimeZone.Initialization.UTC)
        self._given: tuple[QDateTime, datetime] | None = None
        self.setTimeZone(self._wall)
        self.setDisplayFormat(FORMAT)
        self.setCurrentSection(QDateTimeEdit.Section.HourSection)
        self.setFixedWidth(WIDTH_PX)
        self.setObjectName(name)

    def set_moment(self, moment: datetime, place: Place) -> None:
        """Show a moment on the place's clock, to the minute."""
        local = place.local(moment)
        day, clock = qt_day(local), QTime(local.hour, local.minute)
        shown = QDateTime(day, clock, self._wall)
        self._given = (shown, moment)
        self.setDateTime(shown)

    def moment(self, place: Place) -> datetime:
        """Return the moment that is shown; to the second where it is still the one that was given.

        Raises
        ------
        RefusedError
            If the clocks of the place skip that time.
        """
        told = self.dateTime()
        if self._given is not None and self._given[0] == told:
            return self._given[1]
        clock = told.time()
        return local_moment(self.day(), time(clock.hour(), clock.minute()), place)

    def day(self) -> date:
        """Return the day that is shown."""
        return day_in(self)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.setSelectedSection(QDateTimeEdit.Section.HourSection)
