"""Days as the fields of the window hold them, and as the season knows them."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import QDate
from PySide6.QtWidgets import QDateEdit, QDateTimeEdit

from greenroom.desk.keeper import Keeper


def qt_day(day: date) -> QDate:
    """Return a day as a field holds it."""
    return QDate(day.year, day.month, day.day)


def day_in(field: QDateTimeEdit) -> date:
    """Return the day that a field holds."""
    chosen = field.date()
    return date(chosen.year(), chosen.month(), chosen.day())


class DayEdit(QDateEdit):
    """A field for a day that is not after today; it stays at today unless another day is chosen."""

    def __init__(self, keeper: Keeper, form: str) -> None:
        super().__init__()
        self._keeper = keeper
        self.setCalendarPopup(True)
        self.setDisplayFormat(form)
        self.back_to_today()

    @property
    def day(self) -> date:
        """The day chosen."""
        return day_in(self)

    def back_to_today(self) -> None:
        """Choose today again."""
        self._today = self._keeper.today
        self.setMaximumDate(qt_day(self._today))
        self.setDate(qt_day(self._today))

    def follow_today(self) -> bool:
        """Go on to a new day at midnight, unless another day was chosen; True if it is a new day."""
        if self._today == self._keeper.today:
            return False
        chosen, was_today = self.date(), self.day == self._today
        self.back_to_today()
        if not was_today:
            self.setDate(chosen)
        return True
