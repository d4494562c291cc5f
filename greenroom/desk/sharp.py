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
    there, back, odd = _grid(painter)
    ends = (there.map(start), there.map(end))
    painter.drawLine(*(back.map(QPointF(_nearest(one.x(), odd), _nearest(one.y(), odd))) for one in ends))


def sharp_box(painter: QPainter, box: QRectF) -> QRectF:
    """Return the box nearest to one whose edges, drawn with the painter's pen, lie on whole pixels."""
    there, back, odd = _grid(painter)
    seen = there.mapRect(box)
    corners = (seen.topLeft(), seen.bottomRight())
    return back.mapRect(QRectF(*(QPointF(_nearest(one.x(), odd), _nearest(one.y(), odd)) for one in corners)))


def _grid(painter: QPainter) -> tuple[QTransform, QTransform, bool]:
    """Let the pen be so many pixels wide; return the way to the pixels and back, and whether they are odd."""
    there, pen = painter.deviceTransform(), painter.pen()
    back, _ = there.inverted()
    if pen.style() is Qt.PenStyle.NoPen:
        return there, back, False
    scale = 1.0 if pen.isCosmetic() else there.m11()
    wide = max(1, round(pen.widthF() * scale))
    pen.setWidthF(wide / scale)
    painter.setPen(pen)
    return there, back, wide % 2 == 1


def _nearest(value: float, odd: bool) -> float:
    """Return the nearest middle of a pixel, or the nearest edge between two."""
    return round(value - 0.5) + 0.5 if odd else float(round(value))
