"""The spread of the ready date, painted: how it narrowed from morning to morning."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.parts import told_under
from greenroom.desk.sharp import straight
from greenroom.season.hardening_words import day_words, ready_day_words, short_day_words
from greenroom.season.ready_history import SpreadOn
from greenroom.season.within import in_row
from greenroom.speech import tr

LEFT_PX, RIGHT_PX, TOP_PX, FOOT_PX = 52, 12, 8, 20
LEAST_DAYS = 4
LABEL_PX = 64


class SpreadBand(QWidget):
    """Mornings run to the right, ready dates upwards; the line is the middle year, the band nine in ten.

    A morning on which too few years got there within 60 days has no band.
    """

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._mornings: list[SpreadOn] = []
        self.setAccessibleName(tr("How the ready date narrowed"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        look.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(320, 90)

    @property
    def mornings(self) -> Sequence[SpreadOn]:
        """The mornings that are shown."""
        return self._mornings

    def show_history(self, history: Sequence[SpreadOn]) -> None:
        """Show the mornings whose spread is known."""
        self._mornings = [one for one in history if _known(one)]
        self.setAccessibleDescription(in_row(map(_told, self._mornings)) or tr("nothing is known yet"))
        self.update()

    def words_at(self, point: QPoint) -> str:
        """Return the spread as it was known on the morning nearest to a point; empty if none is known."""
        near = min(
            self._mornings,
            key=lambda one: abs(self.point(one.day, one.day).x() - point.x()),
            default=None,
        )
        return _told(near) if near is not None else ""

    def event(self, event: QEvent) -> bool:
        return told_under(self, event, self.words_at) or super().event(event)

    def point(self, morning: date, ready: date) -> QPointF:
        """Return where a ready date stands above a morning."""
        frame, (low, high) = self._frame(), self._dates()
        first = self._mornings[0].day
        wide = max(1, (self._mornings[-1].day - first).days)
        x = frame.left() + frame.width() * (morning - first).days / wide
        return QPointF(x, frame.bottom() - frame.height() * (ready - low).days / (high - low).days)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(font(SMALL_PX))
        if not self._mornings:
            return
        self._paint_axes(painter)
        edges = [self.point(one.day, one.early) for one in self._mornings if one.early]
        edges += [self.point(one.day, one.late) for one in reversed(self._mornings) if one.late]
        painter.setPen(QPen(self._look.colour("leaf"), 1))
        painter.setBrush(self._look.colour("leaf_soft"))
        painter.drawPolygon(QPolygonF(edges))
        middle = [self.point(one.day, one.usual) for one in self._mornings if one.usual]
        painter.setPen(QPen(self._look.colour("leaf"), 2.5))
        painter.drawPolyline(QPolygonF(middle))
        painter.setBrush(self._look.colour("leaf"))
        painter.drawEllipse(middle[-1], 3.5, 3.5)

    def _paint_axes(self, painter: QPainter) -> None:
        frame, (low, high) = self._frame(), self._dates()
        painter.setPen(QPen(self._look.colour("edge"), 1))
        for ready in (low, high):
            y = self.point(self._mornings[0].day, ready).y()
            straight(painter, QPointF(frame.left(), y), QPointF(frame.right(), y))
        painter.setPen(self._look.colour("quiet"))
        for ready in (low, high):
            y = self.point(self._mornings[0].day, ready).y()
            box = QRectF(0, y - 9, LEFT_PX - 6, 18)
            painter.drawText(
                box, int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter), short_day_words(ready)
            )
        foot = frame.bottom() + 3
        last = self._mornings[-1]
        painter.drawText(QRectF(frame.left(), foot, LABEL_PX, 16), 0, short_day_words(self._mornings[0].day))
        if frame.width() > 2 * LABEL_PX and len(self._mornings) > 1:
            box = QRectF(frame.right() - LABEL_PX, foot, LABEL_PX, 16)
            painter.drawText(box, int(Qt.AlignmentFlag.AlignRight), short_day_words(last.day))

    def _frame(self) -> QRectF:
        return QRectF(self.rect()).adjusted(LEFT_PX, TOP_PX, -RIGHT_PX, -FOOT_PX)

    def _dates(self) -> tuple[date, date]:
        """Return the first and last ready date on the axis."""
        low = min(one.early for one in self._mornings if one.early) - timedelta(days=1)
        high = max(one.late for one in self._mornings if one.late)
        return low, max(high, low + timedelta(days=LEAST_DAYS))


def _known(one: SpreadOn) -> bool:
    return None not in (one.early, one.usual, one.late)


def _told(one: SpreadOn) -> str:
    return tr(
        "on {day} {first} to {last}, most likely {likely}",
        day=day_words(one.day),
        first=ready_day_words(one.early),
        last=ready_day_words(one.late),
        likely=ready_day_words(one.usual),
    )
