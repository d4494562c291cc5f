"""A day of the year, whatever the year: its number and its month."""

from __future__ import annotations

from calendar import monthrange
from datetime import date

from PySide6.QtWidgets import QComboBox, QSpinBox, QWidget

from greenroom.desk.look import GAP
from greenroom.desk.parts import row
from greenroom.season.hardening_words import MONTHS
from greenroom.season.proposal import RefusedError
from greenroom.speech import tr

LEAP_YEAR = 2000


class DayField(QWidget):
    """Two fields side by side, each reached by Tab: type the number, then the month's first letters."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.day = QSpinBox()
        self.day.setRange(1, 31)
        self.day.setAccessibleName(tr("{name}: day", name=name))
        self.month = QComboBox()
        self.month.addItems(MONTHS)
        self.month.setAccessibleName(tr("{name}: month", name=name))
        inside = row(self.day, self.month, gap=GAP)
        inside.setContentsMargins(0, 0, 0, 0)
        self.setLayout(inside)
        self.setFocusProxy(self.day)

    def show_day(self, day: date) -> None:
        """Show a day."""
        self.month.setCurrentIndex(day.month - 1)
        self.day.setValue(day.day)

    def in_year(self, year: int) -> date:
        """Return the day in a year; 29 February of a common year is the 28th.

        Raises
        ------
        RefusedError
            With one sentence, if the month has no such day.
        """
        month, day = self.month.currentIndex() + 1, self.day.value()
        longest = monthrange(LEAP_YEAR, month)[1]
        if day > longest:
            raise RefusedError(
                tr(
                    "There is no {day} {month}; 1 to {longest} is allowed.",
                    day=day,
                    month=MONTHS[month - 1],
                    longest=longest,
                )
            )
        return date(year, month, min(day, monthrange(year, month)[1]))
