"""Days as places from left to right, shared by the charts that stand above each other."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.season.hardening_words import short_day_words
from greenroom.season.side_by_side import Span
from greenroom.speech import tr

HEAD_PX = 22
LABEL_PX = 50


@dataclass(frozen=True, slots=True)
class DayScale:
    """A span of days between two edges [px]."""

    span: Span
    left: float
    right: float

    @property
    def wide(self) -> float:
        """Width of a day."""
        return (self.right - self.left) / self.span.count

    def x(self, day: date) -> float:
        """Return the left edge of a day."""
        return self.left + self.wide * (day - self.span.first).days

    def middle(self, day: date) -> float:
        """Return the middle of a day."""
        return self.x(day) + self.wide / 2

    def labels(self) -> Iterator[tuple[date, str]]:
        """Yield as many days as have room for their names."""
        every = max(1, int(-(-LABEL_PX // max(self.wide, 1.0))))
        for number, day in enumerate(self.span.days()):
            if number % every == 0:
                yield day, short_day_words(day)


class DayHead(QWidget):
    """The names of the days, over the charts."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._scale: DayScale | None = None
        self._today: date | None = None
        self.setAccessibleName(tr("the days"))
        self.setFixedHeight(HEAD_PX)
        look.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(400, HEAD_PX)

    def show_scale(self, scale: DayScale, today: date) -> None:
        """Show the days of a scale."""
        self._scale, self._today = scale, today
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._scale is None:
            return
        painter = QPainter(self)
        painter.setFont(font(SMALL_PX))
        for day, words in self._scale.labels():
            painter.setPen(self._look.colour("ink" if day == self._today else "quiet"))
            box = QRectF(self._scale.middle(day) - LABEL_PX / 2, 0, LABEL_PX, HEAD_PX)
            painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), words)
