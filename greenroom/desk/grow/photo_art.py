"""How a cell read from a photograph and the corners of its tray are drawn, told by shape and colour."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QPainter, QPen, QPolygonF

from greenroom.desk.grow.photo_state import Mark
from greenroom.desk.look import SMALL_PX, Look, font

LEAST_PX, MOST_PX = 4.5, 9.0
HANDLE_PX = 9.0
SHADE = QColor(0, 0, 0, 150)
BRIGHT = QColor(255, 255, 255, 235)


def paint_mark(painter: QPainter, look: Look, at: QPointF, radius: float, mark: Mark) -> None:
    """Draw what a cell is taken for around a point."""
    radius = min(MOST_PX, max(LEAST_PX, radius))
    painter.setPen(QPen(SHADE, 1.0))
    _SHAPES[mark](painter, look, at, radius)


def paint_handle(
    painter: QPainter, look: Look, at: QPointF, name: str, outward: QPointF, *, chosen: bool
) -> None:
    """Draw a corner's handle, and outward of it the name of its cell."""
    painter.setPen(QPen(SHADE, 4.0))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawEllipse(at, HANDLE_PX, HANDLE_PX)
    painter.setPen(QPen(look.colour("focus") if chosen else BRIGHT, 3.5 if chosen else 2.0))
    painter.drawEllipse(at, HANDLE_PX, HANDLE_PX)
    painter.drawLine(at - QPointF(4, 0), at + QPointF(4, 0))
    painter.drawLine(at - QPointF(0, 4), at + QPointF(0, 4))
    painter.setFont(font(SMALL_PX, QFont.Weight.DemiBold))
    room = QRectF(painter.fontMetrics().boundingRect(name)).adjusted(-5, -2, 5, 2)
    room.moveCenter(at + QPointF(24 if outward.x() > 0 else -24, 12 if outward.y() > 0 else -12))
    room.moveLeft(min(max(room.left(), 1.0), painter.viewport().width() - room.width() - 1))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.colour("card"))
    painter.drawRoundedRect(room, 4, 4)
    painter.setPen(look.colour("ink"))
    painter.drawText(room, Qt.AlignmentFlag.AlignCenter, name)


def paint_chosen(painter: QPainter, look: Look, outline: QPolygonF) -> None:
    """Draw the frame of the cell the keys are at."""
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(BRIGHT, 4.0))
    painter.drawPolygon(outline)
    painter.setPen(QPen(look.colour("focus"), 2.2))
    painter.drawPolygon(outline)


def _tick(painter: QPainter, at: QPointF, radius: float, colour: QColor) -> None:
    pen = QPen(colour, max(1.6, radius / 4.0))
    pen.setCapStyle(Qt.PenCapStyle.RoundCap)
    painter.setPen(pen)
    points = [QPointF(-0.45, 0.02), QPointF(-0.1, 0.38), QPointF(0.5, -0.38)]
    painter.drawPolyline([at + point * radius for point in points])


def _new(painter: QPainter, look: Look, at: QPointF, radius: float) -> None:
    painter.setPen(QPen(BRIGHT, 1.5))
    painter.setBrush(QBrush(look.colour("leaf")))
    painter.drawEllipse(at, radius, radius)
    _tick(painter, at, radius, look.colour("on_leaf"))


def _known(painter: QPainter, look: Look, at: QPointF, radius: float) -> None:
    painter.setPen(QPen(look.colour("leaf"), 2.0))
    painter.setBrush(QBrush(BRIGHT))
    painter.drawEllipse(at, radius, radius)
    _tick(painter, at, radius, QColor(look.colour("leaf")))


def _unsure(painter: QPainter, look: Look, at: QPointF, radius: float) -> None:
    side = radius * 1.25
    painter.setBrush(QBrush(look.colour("sun")))
    painter.drawPolygon(
        QPolygonF([at + QPointF(*turn) * side for turn in ((0, -1), (1, 0), (0, 1), (-1, 0))])
    )
    _letter(painter, at, radius, "?", look.colour("on_sun"))


def _unsown(painter: QPainter, look: Look, at: QPointF, radius: float) -> None:
    side = radius * 1.2
    painter.setPen(QPen(BRIGHT, 1.2))
    painter.setBrush(QBrush(look.colour("clay")))
    corners = ((0.0, -1.1), (1.05, 0.8), (-1.05, 0.8))
    painter.drawPolygon(QPolygonF([at + QPointF(*corner) * side for corner in corners]))
    _letter(painter, at + QPointF(0, radius * 0.15), radius * 0.85, "!", look.colour("on_clay"))


def _bare(painter: QPainter, _look: Look, at: QPointF, radius: float) -> None:
    small = radius * 0.45
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(SHADE, 3.4))
    painter.drawEllipse(at, small, small)
    painter.setPen(QPen(BRIGHT, 1.6))
    painter.drawEllipse(at, small, small)


def _unseen(painter: QPainter, look: Look, at: QPointF, radius: float) -> None:
    painter.setPen(QPen(look.colour("leaf"), 2.0))
    painter.setBrush(QBrush(BRIGHT))
    painter.drawEllipse(at, radius, radius)
    painter.setPen(QPen(look.colour("clay"), 2.2))
    painter.drawLine(at - QPointF(radius * 0.5, 0), at + QPointF(radius * 0.5, 0))


def _letter(painter: QPainter, at: QPointF, radius: float, letter: str, colour: QColor) -> None:
    painter.setFont(font(max(9, round(radius * 1.5)), QFont.Weight.Bold))
    painter.setPen(colour)
    room = QRectF(at.x() - radius, at.y() - radius, 2 * radius, 2 * radius)
    painter.drawText(room, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextDontClip, letter)


_SHAPES: dict[Mark, Callable[[QPainter, Look, QPointF, float], None]] = {
    Mark.NEW: _new,
    Mark.KNOWN: _known,
    Mark.UNSURE: _unsure,
    Mark.UNSOWN: _unsown,
    Mark.UNSEEN: _unseen,
    Mark.BARE: _bare,
}
