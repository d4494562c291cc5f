"""Lines that are sharp, and as thick as they are meant, on a screen of any scale.

A line between two rows of pixels is smeared over both, and Qt counts the width of a pen that no zoom
changes in pixels of the screen: at twice the scale it is half as thick. Both are put right here.
"""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QTransform
from PySide6.QtWidgets import QWidget

FINE_PX = 2
DRAWN_FOR = "drawnForScale"
"""The property of a chart that is drawn for another scale than its screen's, to be saved as a picture."""


def scale_of(chart: QWidget) -> float:
    """Return how many pixels a chart has for each of its units."""
    other = chart.property(DRAWN_FOR)
    return float(other) if other is not None else chart.devicePixelRatioF()


def steady_pen(
    chart: QWidget, colour: QColor, width: float = 1.4, style: Qt.PenStyle = Qt.PenStyle.SolidLine
) -> QPen:
    """Return a pen for the curves of a chart, which stays so wide whatever the axes are scaled to.

    A fine line is of whole pixels, so that all of its kind are alike.
    """
    wide = width * scale_of(chart)
    made = QPen(colour, wide if wide >= FINE_PX else max(1, round(wide)), style)
    made.setCosmetic(True)
    return made


def straight(painter: QPainter, start: QPointF, end: QPointF) -> None:
    """Draw a line that stands upright or lies level, with the painter's pen, on whole pixels."""
    grid = _grid(painter)
    painter.drawLine(
        QPointF(*_nearest(start.x(), start.y(), *grid)), QPointF(*_nearest(end.x(), end.y(), *grid))
    )


def sharp_box(painter: QPainter, box: QRectF) -> QRectF:
    """Return the box nearest to one whose edges, drawn with the painter's pen, lie on whole pixels."""
    grid = _grid(painter)
    left, top = _nearest(box.left(), box.top(), *grid)
    right, bottom = _nearest(box.right(), box.bottom(), *grid)
    return QRectF(left, top, right - left, bottom - top)


def _grid(painter: QPainter) -> tuple[QTransform, float]:
    """Let the pen be whole pixels wide; return the way to the pixels, and where in one its middle belongs.

    That is the middle of a pixel for a pen of an odd number of them, else the edge between two.
    """
    there, pen = painter.deviceTransform(), painter.pen()
    if pen.style() is Qt.PenStyle.NoPen:
        return there, 0.0
    scale = 1.0 if pen.isCosmetic() else there.m11()
    wide = max(1, round(pen.widthF() * scale))
    if wide != pen.widthF() * scale:
        pen.setWidthF(wide / scale)
        painter.setPen(pen)
    return there, 0.5 if wide % 2 else 0.0


def _nearest(x: float, y: float, there: QTransform, middle: float) -> tuple[float, float]:
    """Return the place nearest to one that lies so in its pixel; the painter is not turned."""
    across, down, right, below = there.m11(), there.m22(), there.dx(), there.dy()
    return (
        (round(x * across + right - middle) + middle - right) / across,
        (round(y * down + below - middle) + middle - below) / down,
    )
