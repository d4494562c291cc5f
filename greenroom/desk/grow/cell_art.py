"""How a cell or pot is drawn in each of its states, told by shape as well as colour."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QPainter, QPainterPath, QPen, QPixmap

from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.season.spots import Spot, Stage

MOST_DOTS = 3
MOST_KEPT = 600  # pictures of one size and theme; a tray needs about ten


class Face(NamedTuple):
    """What can be seen of a spot."""

    pot: bool
    stage: Stage
    up: int = 0
    waiting: int = 0


def face_of(spot: Spot, *, pot: bool) -> Face:
    """Return what can be seen of a spot."""
    return Face(pot, spot.stage, spot.up, spot.waiting)


class CellArt:
    """Draws cells and pots; each picture is drawn once for a size and kept until the theme changes."""

    def __init__(self, look: Look) -> None:
        self._look = look
        self._kept: dict[tuple[Face, int, int, float], QPixmap] = {}
        look.changed.connect(self._kept.clear)

    def paint(self, painter: QPainter, rect: QRect, face: Face, *, opacity: float = 1.0) -> None:
        """Draw one cell into a rectangle."""
        picture = self.picture(face, rect.size(), painter.device().devicePixelRatioF())
        if opacity < 1.0:
            painter.setOpacity(opacity)
        painter.drawPixmap(rect.topLeft(), picture)
        if opacity < 1.0:
            painter.setOpacity(1.0)

    def picture(self, face: Face, size: QSize, ratio: float) -> QPixmap:
        """Return the picture of a cell at a size."""
        key = (face, size.width(), size.height(), ratio)
        found = self._kept.get(key)
        if found is None:
            if len(self._kept) >= MOST_KEPT:
                self._kept.clear()
            found = self._kept[key] = self._draw(face, size, ratio)
        return found

    def seedling(self, painter: QPainter, rect: QRectF, *, leaves: bool) -> None:
        """Draw a seedling without its cell, as it is carried in hand."""
        painter.save()
        _centre(painter, rect)
        _draw_plant(painter, self._look, leaves=leaves)
        painter.restore()

    def _draw(self, face: Face, size: QSize, ratio: float) -> QPixmap:
        picture = QPixmap(size * ratio)
        picture.setDevicePixelRatio(ratio)
        picture.fill(Qt.GlobalColor.transparent)
        painter = QPainter(picture)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        rect = QRectF(QPointF(0, 0), size.toSizeF())
        ground = _pot_ground if face.pot else _cell_ground
        ground(painter, rect, face, self._look)
        painter.save()
        _centre(painter, rect)
        if face.pot:
            painter.scale(0.8, 0.8)
        _MARKS[face.stage](painter, face, self._look)
        painter.restore()
        _count(painter, rect, face, self._look)
        painter.end()
        return picture


def _centre(painter: QPainter, rect: QRectF) -> None:
    """Put the painter's origin in the middle of a rectangle, its shorter side being 1."""
    side = min(rect.width(), rect.height())
    painter.translate(rect.center())
    painter.scale(side, side)


def _is_empty(face: Face) -> bool:
    return face.stage is Stage.MOVED or (face.pot and face.stage is Stage.BARE)


def _cell_ground(painter: QPainter, rect: QRectF, face: Face, look: Look) -> None:
    edge = QPen(look.colour("soil_edge"), 1.5)
    inner = rect.adjusted(1, 1, -1, -1)
    radius = max(3.0, min(rect.width(), rect.height()) * 0.14)
    if _is_empty(face):
        edge = QPen(look.colour("quiet"), 1.2, Qt.PenStyle.DashLine)
        painter.setBrush(Qt.BrushStyle.NoBrush)
    else:
        painter.setBrush(look.colour("soil"))
    painter.setPen(edge)
    painter.drawRoundedRect(inner, radius, radius)


def _pot_ground(painter: QPainter, rect: QRectF, face: Face, look: Look) -> None:
    side = min(rect.width(), rect.height()) - 3
    disc = QRectF(0, 0, side, side)
    disc.moveCenter(rect.center())
    if _is_empty(face):
        painter.setPen(QPen(look.colour("clay"), 1.4, Qt.PenStyle.DashLine))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawEllipse(disc)
        return
    rim = max(2.0, side * 0.09)
    painter.setPen(QPen(look.colour("clay"), rim))
    painter.setBrush(look.colour("soil"))
    painter.drawEllipse(disc.adjusted(rim / 2, rim / 2, -rim / 2, -rim / 2))


def _mark_bare(_painter: QPainter, _face: Face, _look: Look) -> None:
    """Empty soil, or an empty pot: nothing is drawn on it."""


def _mark_sown(painter: QPainter, face: Face, look: Look) -> None:
    _dots(painter, look, min(face.waiting, MOST_DOTS), QPointF(0, 0), 0.075)


def _mark_up(painter: QPainter, face: Face, look: Look) -> None:
    _draw_plant(painter, look, leaves=False)
    _dots(painter, look, min(face.waiting, MOST_DOTS), QPointF(0, 0.37), 0.045)


def _mark_leaves(painter: QPainter, face: Face, look: Look) -> None:
    _draw_plant(painter, look, leaves=True)
    _dots(painter, look, min(face.waiting, MOST_DOTS), QPointF(0, 0.4), 0.045)


def _mark_lost(painter: QPainter, _face: Face, look: Look) -> None:
    painter.setPen(QPen(look.colour("on_soil"), 0.06, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
    for slope in (-1, 1):
        painter.drawLine(QPointF(-0.17, -0.17 * slope), QPointF(0.17, 0.17 * slope))


def _mark_moved(painter: QPainter, face: Face, look: Look) -> None:
    if face.pot:
        return
    pen = QPen(look.colour("quiet"), 0.05, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap)
    painter.setPen(pen)
    tip = QPointF(0.13, -0.13)
    painter.drawLine(QPointF(-0.13, 0.13), tip)
    painter.drawLine(tip, QPointF(-0.03, -0.13))
    painter.drawLine(tip, QPointF(0.13, 0.03))


_MARKS: dict[Stage, Callable[[QPainter, Face, Look], None]] = {
    Stage.BARE: _mark_bare,
    Stage.SOWN: _mark_sown,
    Stage.UP: _mark_up,
    Stage.LEAVES: _mark_leaves,
    Stage.LOST: _mark_lost,
    Stage.MOVED: _mark_moved,
}


def _dots(painter: QPainter, look: Look, number: int, middle: QPointF, radius: float) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.colour("on_soil"))
    for place in range(number):
        x = (place - (number - 1) / 2) * radius * 3.2
        painter.drawEllipse(middle + QPointF(x, 0), radius, radius)


def _draw_plant(painter: QPainter, look: Look, *, leaves: bool) -> None:
    """Draw two seed leaves on a stem; with ``leaves``, a pair of true leaves above them too."""
    green = look.colour("seedling")
    stem = QPen(green, 0.06, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap)
    painter.setPen(stem)
    fork = QPointF(0, 0.12 if leaves else 0.02)
    painter.drawLine(QPointF(0, 0.30), QPointF(0, 0.04))
    painter.setPen(Qt.PenStyle.NoPen)
    low = green.darker(116) if leaves else green
    for side in (-1, 1):
        _leaf(painter, fork, side, degrees=-4 if leaves else 18, length=0.32, width=0.075, colour=low)
    if leaves:
        for side in (-1, 1):
            _leaf(painter, QPointF(0, 0.04), side, degrees=42, length=0.42, width=0.1, colour=green)


def _leaf(
    painter: QPainter,
    base: QPointF,
    side: int,
    *,
    degrees: float,
    length: float,
    width: float,
    colour: QColor,
) -> None:
    """Draw one leaf from its base outwards, to the right (side 1) or the left (-1)."""
    path = QPainterPath(QPointF(0, 0))
    path.cubicTo(length * 0.25, -width * 1.4, length * 0.8, -width * 1.2, length, 0)
    path.cubicTo(length * 0.8, width * 1.2, length * 0.25, width * 1.4, 0, 0)
    painter.save()
    painter.translate(base)
    painter.scale(side, 1)
    painter.rotate(-degrees)
    painter.setBrush(QBrush(colour))
    painter.drawPath(path)
    painter.restore()


def _count(painter: QPainter, rect: QRectF, face: Face, look: Look) -> None:
    """Write how many stand in one spot where there are several."""
    if face.up < 2:
        return
    plate = QRectF(rect.right() - 17, rect.top() + 2, 15, 15)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(look.colour("card"))
    painter.drawRoundedRect(plate, 4, 4)
    painter.setPen(look.colour("ink"))
    painter.setFont(font(SMALL_PX, QFont.Weight.DemiBold))
    painter.drawText(plate, Qt.AlignmentFlag.AlignCenter, str(face.up))
