"""A few strokes to draw pests and signs with, on a square of 48 units whatever its size in pixels."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPen

from greenroom.desk.look import Look

UNITS = 48.0

Point = tuple[float, float]


class Sketch:
    """Draws with colours of the look by their names; an empty name leaves fill or line away."""

    def __init__(self, painter: QPainter, look: Look, area: QRectF) -> None:
        self.painter = painter
        self._look = look
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(area.topLeft())
        scale = min(area.width(), area.height()) / UNITS
        painter.scale(scale, scale)

    def line(self, points: Iterable[Point], colour: str, width: float = 1.6) -> None:
        """Draw straight from point to point."""
        self._pens("", colour, width)
        self.painter.drawPolyline([QPointF(*point) for point in points])

    def bow(self, start: Point, bend: Point, end: Point, colour: str, width: float = 1.6) -> None:
        """Draw a bow from start to end, drawn towards a bend."""
        self._pens("", colour, width)
        path = QPainterPath(QPointF(*start))
        path.quadTo(QPointF(*bend), QPointF(*end))
        self.painter.drawPath(path)

    def round(self, at: Point, size: Point, fill: str, line: str = "", width: float = 1.2) -> None:
        """Draw an ellipse by its middle and its half axes."""
        self._pens(fill, line, width)
        self.painter.drawEllipse(QPointF(*at), *size)

    def dots(self, places: Iterable[Point], radius: float, colour: str, line: str = "") -> None:
        """Draw a dot at each place."""
        for at in places:
            self.round(at, (radius, radius), colour, line, 0.8)

    def leaf(self, at: Point, turn: float, fill: str, long: float = 16, broad: float = 5.5) -> None:
        """Draw a leaf from where it is fixed; ``turn`` in degrees, 0 to the right, clockwise."""
        self.painter.save()
        self.painter.translate(*at)
        self.painter.rotate(turn)
        self._pens(fill, "leaf", 1.3)
        self.painter.drawPath(blade(long, broad))
        self.line(((0, 0), (long * 0.85, 0)), "leaf", 0.8)
        self.painter.restore()

    def outline(self, path: QPainterPath, fill: str, line: str = "leaf", width: float = 1.4) -> None:
        """Draw a closed shape."""
        self._pens(fill, line, width)
        self.painter.drawPath(path)

    def soil(self, top: float = 40) -> None:
        """Draw the mix a seedling stands in."""
        self._pens("soil", "", 0)
        self.painter.drawRoundedRect(QRectF(5, top, 38, 48 - top - 2), 2, 2)

    def within(self, path: QPainterPath) -> None:
        """Let what is drawn from now on show only inside a shape, until ``everywhere``."""
        self.painter.save()
        self.painter.setClipPath(path)

    def everywhere(self) -> None:
        """Let what is drawn show everywhere again."""
        self.painter.restore()

    def _pens(self, fill: str, line: str, width: float) -> None:
        pen = QPen(self._look.colour(line), width) if line else QPen(Qt.PenStyle.NoPen)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
        self.painter.setPen(pen)
        self.painter.setBrush(self._look.colour(fill) if fill else Qt.BrushStyle.NoBrush)


def blade(long: float, broad: float) -> QPainterPath:
    """Return the outline of a leaf that lies to the right of 0, 0."""
    path = QPainterPath(QPointF(0, 0))
    path.quadTo(QPointF(long * 0.4, -broad * 1.6), QPointF(long, 0))
    path.quadTo(QPointF(long * 0.4, broad * 1.6), QPointF(0, 0))
    return path
