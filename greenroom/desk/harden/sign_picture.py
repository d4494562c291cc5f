"""A seedling as it droops, wilts or scorches, drawn: what to hold a plant against."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QSize
from PySide6.QtGui import QPainter, QPainterPath, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from greenroom.desk.look import Look
from greenroom.speech import tr

SIDE_PX = 72
LEAF_LONG, LEAF_BROAD = 24.0, 8.0
TURNS = {"droop": (55.0, 70.0), "wilt": (95.0, 105.0), "scorch": (-8.0, 8.0)}
"""Degrees by which the upper and the lower leaves hang below level."""
WORDS = {
    "droop": tr("Drawing: the stem stands, the leaves hang."),
    "wilt": tr("Drawing: the stem bends over and the leaves hang limp."),
    "scorch": tr("Drawing: the leaves stand, with pale patches on them."),
}


class SignPicture(QWidget):
    """Told apart by the stem's bend, the leaves' slope and the patches, not by colour alone."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._what = "droop"
        self.setFixedSize(SIDE_PX, SIDE_PX)
        look.changed.connect(self.update)

    def show_sign(self, what: str) -> None:
        """Draw one kind of setback."""
        self._what = what
        self.setAccessibleName(WORDS[what])
        self.setToolTip(WORDS[what])
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(SIDE_PX, SIDE_PX)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        foot, middle, top = self._stem()
        painter.setPen(QPen(self._look.colour("clay"), 3))
        painter.drawLine(QPointF(14, foot.y()), QPointF(SIDE_PX - 14, foot.y()))
        stem = QPainterPath(foot)
        stem.quadTo(middle, top)
        painter.setPen(QPen(self._look.colour("leaf"), 3))
        painter.drawPath(stem)
        upper, lower = TURNS[self._what]
        half = stem.pointAtPercent(0.55)
        for place, turn in ((top, upper), (half, lower)):
            for side in (-1, 1):
                self._paint_leaf(painter, place, turn, side)

    def _stem(self) -> tuple[QPointF, QPointF, QPointF]:
        """Return foot, bend and tip of the stem."""
        foot = QPointF(SIDE_PX / 2, SIDE_PX - 6)
        if self._what == "wilt":
            return foot, QPointF(SIDE_PX / 2 - 4, 4), QPointF(SIDE_PX / 2 + 16, 30)
        return foot, QPointF(SIDE_PX / 2, 40), QPointF(SIDE_PX / 2, 18)

    def _paint_leaf(self, painter: QPainter, place: QPointF, turn: float, side: int) -> None:
        leaf = QPainterPath(QPointF(0, 0))
        leaf.quadTo(QPointF(LEAF_LONG / 2, -LEAF_BROAD), QPointF(LEAF_LONG, 0))
        leaf.quadTo(QPointF(LEAF_LONG / 2, LEAF_BROAD), QPointF(0, 0))
        painter.save()
        painter.translate(place)
        painter.scale(side, 1)
        painter.rotate(turn)
        painter.setPen(QPen(self._look.colour("leaf"), 1.5))
        painter.setBrush(self._look.colour("leaf_soft"))
        painter.drawPath(leaf)
        if self._what == "scorch":
            painter.setPen(QPen(self._look.colour("clay"), 1))
            painter.setBrush(self._look.colour("card"))
            painter.drawEllipse(QPointF(LEAF_LONG * 0.6, -1), 5, 2.6)
        painter.restore()
