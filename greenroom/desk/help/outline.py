"""The line drawn around what a step of the walk speaks of, with a short line to its card."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPoint, QRect, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from greenroom.desk.look import RADIUS, Look

LINE_PX = 3
AWAY_PX = 3


class Outline(QWidget):
    """Lies over the window and takes neither mouse nor keyboard."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self._ground = parent
        self._look = look
        self._around, self._card = QRect(), QRect()
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setAttribute(Qt.WidgetAttribute.WA_NoSystemBackground)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        look.changed.connect(self.update)

    @property
    def around(self) -> QRect:
        """What the line is drawn around."""
        return self._around

    @property
    def card(self) -> QRect:
        """Where the card stands that a line leads to."""
        return self._card

    def show_around(self, target: QRect, card: QRect) -> None:
        """Draw the line around a rectangle, and one from there to a card."""
        self.setGeometry(self._ground.rect())
        self._around, self._card = target, card
        self.show()
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(self._look.colour("plum_text"), LINE_PX))
        inside = self.rect().adjusted(2, 2, -2, -2)
        frame = QRectF(self._around.adjusted(-AWAY_PX, -AWAY_PX, AWAY_PX, AWAY_PX).intersected(inside))
        painter.drawRoundedRect(frame, RADIUS, RADIUS)
        if not self._around.intersects(self._card):
            painter.drawLine(QLineF(*_nearest(frame.toRect(), self._card)))


def _nearest(one: QRect, other: QRect) -> tuple[QPoint, QPoint]:
    """Return the ends of the shortest upright or level line between two rectangles, or of a slanting one."""

    def ends(low: int, high: int, other_low: int, other_high: int) -> tuple[int, int]:
        first, last = max(low, other_low), min(high, other_high)
        if first <= last:
            return (first + last) // 2, (first + last) // 2
        return (high, other_low) if high < other_low else (low, other_high)

    x, other_x = ends(one.left(), one.right(), other.left(), other.right())
    y, other_y = ends(one.top(), one.bottom(), other.top(), other.bottom())
    return QPoint(x, y), QPoint(other_x, other_y)
