"""The key of a chart: each mark beside what it stands for, told by shape as well as colour."""

from __future__ import annotations

from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.place.figures import Figure, YearFigure
from greenroom.speech import tr

MARK_PX = 18
GAP_PX = 6
APART_PX = 16
HEIGHT_PX = 18


SHAPES = {
    "dot": tr("dot"),
    "diamond": tr("diamond"),
    "line": tr("line", sense="drawn"),
    "dashes": tr("dashes"),
    "band": tr("band"),
}


class Mark(NamedTuple):
    """One mark: its shape ("dot", "diamond", "line", "dashes", "band"), its colour and its words."""

    shape: str
    colour: str
    words: str


def marks_of(figure: Figure) -> tuple[Mark, ...]:
    """Return the marks of a figure."""
    if isinstance(figure, YearFigure):
        marks = [
            Mark("dot", "plum", tr("a year")),
            Mark("line", "leaf", tr("half", sense="of the years")),
            Mark("dashes", "leaf", tr("1 and 9 of 10")),
        ]
        if figure.this_year in figure.points:
            marks.insert(1, Mark("diamond", "clay", str(figure.this_year)))
        return tuple(marks)
    return (
        Mark("line", "clay", str(figure.year)),
        Mark("dashes", "leaf_text", tr("usual")),
        Mark("band", "leaf_soft", tr("eight years in ten")),
    )


class ChartKey(QWidget):
    """Paints the marks in a line."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._marks: tuple[Mark, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        look.changed.connect(self.update)

    def show_figure(self, figure: Figure) -> None:
        """Show the key of a figure."""
        self._marks = marks_of(figure)
        told = ", ".join(f"{SHAPES[mark.shape]} {mark.words}" for mark in self._marks)
        self.setAccessibleName(tr("key: {marks}", marks=told))
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(120, HEIGHT_PX)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002 Qt hands it over
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(font(SMALL_PX))
        metrics = QFontMetrics(font(SMALL_PX))
        x = 0.0
        for mark in self._marks:
            self._paint_mark(painter, mark, QRectF(x, 0, MARK_PX, HEIGHT_PX))
            x += MARK_PX + GAP_PX
            wide = metrics.horizontalAdvance(mark.words)
            painter.setPen(self._look.colour("quiet"))
            painter.drawText(QRectF(x, 0, wide + 2, HEIGHT_PX), Qt.AlignmentFlag.AlignVCenter, mark.words)
            x += wide + APART_PX
        painter.end()

    def _paint_mark(self, painter: QPainter, mark: Mark, box: QRectF) -> None:
        colour, middle = self._look.colour(mark.colour), box.center()
        painter.setBrush(colour if mark.shape in ("dot", "diamond", "band") else Qt.BrushStyle.NoBrush)
        dashes = Qt.PenStyle.DashLine if mark.shape == "dashes" else Qt.PenStyle.SolidLine
        painter.setPen(QPen(colour, 2.0, dashes) if mark.shape in ("line", "dashes") else Qt.PenStyle.NoPen)
        if mark.shape == "dot":
            painter.drawEllipse(middle, 3.5, 3.5)
        elif mark.shape == "diamond":
            corners = ((0.0, -5.5), (5.5, 0.0), (0.0, 5.5), (-5.5, 0.0))
            painter.drawPolygon(QPolygonF([middle + QPointF(x, y) for x, y in corners]))
        elif mark.shape == "band":
            painter.drawRect(QRectF(box.left(), middle.y() - 5, MARK_PX, 10))
        else:
            painter.drawLine(QPointF(box.left(), middle.y()), QPointF(box.right(), middle.y()))
