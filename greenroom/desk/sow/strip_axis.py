"""The months over the season strip."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRect, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.sharp import straight
from greenroom.desk.sow.strip_scale import Scale
from greenroom.season.hardening_words import MONTHS_SHORT
from greenroom.speech import tr

AXIS_PX = 24


class StripAxis(QWidget):
    """The months over the strip."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._scale: Scale | None = None
        self.setAccessibleName(tr("the months"))
        self.setFixedHeight(AXIS_PX)
        look.changed.connect(self.update)

    def show_scale(self, scale: Scale) -> None:
        """Show another scale."""
        self._scale = scale
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._scale is None:
            return
        painter = QPainter(self)
        painter.setFont(font(SMALL_PX))
        for day in self._scale.months():
            x = round(self._scale.x(day))
            painter.setPen(self._look.colour("edge"))
            straight(painter, QPointF(x, 4), QPointF(x, self.height()))
            painter.setPen(self._look.colour("quiet"))
            painter.drawText(
                QRect(x + 4, 0, 80, AXIS_PX - 2), Qt.AlignmentFlag.AlignVCenter, MONTHS_SHORT[day.month - 1]
            )
        painter.end()
