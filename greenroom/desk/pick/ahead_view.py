"""What is ripe by when, a line a variety and bed along the days, with the picks that were made."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from PySide6.QtCore import QEvent, QPoint, QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QFocusEvent,
    QFont,
    QFontMetrics,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.look import BODY_PX, SMALL_PX, Look, font
from greenroom.desk.parts import told_under
from greenroom.desk.pick.ahead_scale import NAME_PX, AheadScale, scale_of
from greenroom.desk.pick.pick_words import ahead_words, short_day, where_words
from greenroom.desk.sharp import sharp_box, straight
from greenroom.season.hardening_words import MONTHS_SHORT
from greenroom.season.picking_ahead import RipeAhead, RipeDays
from greenroom.season.replay import Spread
from greenroom.speech import tr

ROW_PX, AXIS_PX, BAND_PX = 40, 24, 12
MARK_PX, PICK_PX = 6.0, 4.0
STEPS = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}


class AheadAxis(QWidget):
    """The months over the lines, today among them."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._scale: AheadScale | None = None
        self._today: date | None = None
        self.setAccessibleName(tr("the months"))
        self.setFixedHeight(AXIS_PX)
        look.changed.connect(self.update)

    def show_scale(self, scale: AheadScale, today: date) -> None:
        """Show another scale."""
        self._scale, self._today = scale, today
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        scale, today = self._scale, self._today
        if scale is None or today is None:
            return
        painter = QPainter(self)
        metrics = QFontMetrics(font(SMALL_PX, QFont.Weight.DemiBold))
        words = tr("today, {day}", day=short_day(today))
        width = metrics.horizontalAdvance(words)
        left = min(max(scale.x(today) - width / 2, NAME_PX), scale.right - width)
        free = QRectF(left - 4, 0, width + 8, AXIS_PX)
        painter.setFont(font(SMALL_PX))
        for day in scale.months():
            x = scale.x(day)
            name = QRectF(x + 4, 0, 34, AXIS_PX - 2)
            painter.setPen(self._look.colour("edge"))
            straight(painter, QPointF(x, AXIS_PX - 6), QPointF(x, AXIS_PX))
            if not name.intersects(free) and name.right() < scale.right + 20:
                painter.setPen(self._look.colour("quiet"))
                painter.drawText(name, Qt.AlignmentFlag.AlignVCenter, MONTHS_SHORT[day.month - 1])
        painter.setFont(font(SMALL_PX, QFont.Weight.DemiBold))
        painter.setPen(self._look.colour("clay_text"))
        painter.drawText(QRectF(left, 0, width + 4, AXIS_PX - 2), Qt.AlignmentFlag.AlignVCenter, words)
        painter.end()


class AheadView(QWidget):
    """Up and Down choose a line; Enter or a double click takes it to the form."""

    chosen = Signal(object)
    taken = Signal(object)
    scaled = Signal(object)
    shown_row = Signal(QRect)

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._rows: tuple[RipeAhead, ...] = ()
        self._frost: Spread | None = None
        self._today = date.min
        self._place = 0
        self.scale: AheadScale | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(tr("What is ripe by when"))
        look.changed.connect(self.update)

    @property
    def row(self) -> RipeAhead | None:
        """The line that is chosen."""
        return self._rows[self._place] if self._place < len(self._rows) else None

    def show_rows(self, rows: Sequence[RipeAhead], frost: Spread | None, today: date) -> None:
        """Show other predictions; the line chosen stays the one of its variety and bed."""
        before = _mark(self.row)
        self._rows, self._frost, self._today = tuple(rows), frost, today
        places = [place for place, one in enumerate(rows) if _mark(one) == before]
        self._place = places[0] if places else 0
        self.setFixedHeight(max(1, len(rows)) * ROW_PX + 2)
        self._rescale()
        self._tell()

    def choose(self, place: int) -> None:
        """Choose a line."""
        if not 0 <= place < len(self._rows):
            return
        self._place = place
        self.shown_row.emit(QRect(0, place * ROW_PX, 1, ROW_PX))
        self._tell()

    def words_at(self, point: QPoint) -> str:
        """Return the prediction of the line at a point; empty beneath the lines."""
        place = point.y() // ROW_PX
        return ahead_words(self._rows[place]) if 0 <= place < len(self._rows) else ""

    def event(self, event: QEvent) -> bool:
        return told_under(self, event, self.words_at) or super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if key in STEPS:
            self.choose(self._place + STEPS[key])
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.row is not None:
            self.taken.emit(self.row)
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        self.choose(int(event.position().y()) // ROW_PX)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        self.choose(int(event.position().y()) // ROW_PX)
        if self.row is not None:
            self.taken.emit(self.row)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def resizeEvent(self, event: object) -> None:  # noqa: ARG002 only the new width counts
        self._rescale()

    def minimumSizeHint(self) -> QSize:
        return QSize(NAME_PX + 120, ROW_PX)

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.scale is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_ground(painter, self.scale)
        for place, one in enumerate(self._rows):
            box = QRectF(0, place * ROW_PX, self.width(), ROW_PX)
            if event.rect().intersects(box.toRect()):
                self._paint_row(painter, box, one, self.scale)
        if self.hasFocus() and self.row is not None:
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(self._look.colour("focus"), 2))
            painter.drawRoundedRect(QRectF(1, self._place * ROW_PX + 1, self.width() - 2, ROW_PX - 2), 5, 5)
        painter.end()

    def _rescale(self) -> None:
        if not self._rows:
            return
        self.scale = scale_of(self._rows, self._frost, self._today, self.width())
        self.scaled.emit(self.scale)
        self.update()

    def _tell(self) -> None:
        self.setAccessibleDescription(
            ahead_words(self.row) if self.row else tr("Nothing is planned or set out")
        )
        QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.DescriptionChanged))
        self.chosen.emit(self.row)
        self.update()

    def _paint_ground(self, painter: QPainter, scale: AheadScale) -> None:
        """The chosen line, the months, the nights that kill, and today."""
        painter.fillRect(self.rect(), self._look.colour("card"))
        if self.row is not None:
            painter.fillRect(
                QRectF(0, self._place * ROW_PX, self.width(), ROW_PX), self._look.colour("leaf_wash")
            )
        painter.setPen(QPen(self._look.colour("line"), 1))
        for day in scale.months():
            straight(painter, QPointF(scale.x(day), 0), QPointF(scale.x(day), self.height()))
        if self._frost is not None:
            left, right = scale.x(self._frost.early), scale.x(self._frost.late)
            painter.fillRect(QRectF(left, 0, right - left, self.height()), self._look.colour("sky"))
        painter.setPen(QPen(self._look.colour("clay"), 1.5, Qt.PenStyle.DashLine))
        x = scale.x(self._today)
        straight(painter, QPointF(x, 0), QPointF(x, self.height()))

    def _paint_row(self, painter: QPainter, box: QRectF, one: RipeAhead, scale: AheadScale) -> None:
        upper = QRectF(6, box.top() + 3, NAME_PX - 14, 18)
        self._write(painter, upper, one.name, font(BODY_PX, QFont.Weight.DemiBold), "ink")
        self._write(painter, upper.translated(0, 17), where_words(one), font(SMALL_PX), "quiet")
        middle = box.top() + 13
        if one.days is not None:
            self._paint_days(painter, middle, one, one.days, scale)
        painter.setPen(QPen(self._look.colour("card"), 1))
        painter.setBrush(self._look.colour("clay"))
        for fact in one.picks:
            painter.drawEllipse(QPointF(scale.x(fact.day), middle), PICK_PX, PICK_PX)
        self._paint_words(painter, box, one, scale)

    def _paint_days(
        self, painter: QPainter, middle: float, one: RipeAhead, days: RipeDays, scale: AheadScale
    ) -> None:
        """A band from the early to the late day, open where frost may come first; a wedge at the usual."""
        done = one.first_ripe is not None
        if days.early is not None:
            left = scale.x(days.early)
            right = scale.x(days.late) if days.late is not None else scale.right
            band = QRectF(left, middle - BAND_PX / 2, max(3.0, right - left), BAND_PX)
            edge = Qt.PenStyle.DashLine if one.lot is None else Qt.PenStyle.SolidLine
            painter.setPen(QPen(self._look.colour("leaf_text"), 1.2, edge))
            painter.setBrush(self._look.colour("leaf_soft" if not done else "leaf_wash"))
            painter.drawRoundedRect(sharp_box(painter, band), 4, 4)
        if days.usual is not None:
            x = scale.x(days.usual)
            tips = ((0, -MARK_PX), (MARK_PX, 0), (0, MARK_PX), (-MARK_PX, 0))
            painter.setPen(QPen(self._look.colour("card"), 1))
            painter.setBrush(self._look.colour("leaf_text"))
            painter.drawPolygon(QPolygonF([QPointF(x + dx, middle + dy) for dx, dy in tips]))

    def _paint_words(self, painter: QPainter, box: QRectF, one: RipeAhead, scale: AheadScale) -> None:
        """The day in words below the band, kept within the days."""
        words = _line_words(one)
        letters = font(SMALL_PX)
        width = QFontMetrics(letters).horizontalAdvance(words) + 4
        at = one.first_ripe or (one.days.usual or one.days.early if one.days else None)
        centre = scale.x(at) if at is not None else NAME_PX + scale.room / 2
        left = min(max(centre - width / 2, NAME_PX), max(NAME_PX, scale.right - width))
        rect = QRectF(left, box.top() + 20, min(width, scale.room), 18)
        late = one.days is not None and one.days.usual is None
        ground = self._look.colour("leaf_wash" if one is self.row else "card")
        painter.fillRect(rect.adjusted(-2, 2, 2, -2), ground)  # so that no line strikes the words out
        self._write(painter, rect, words, letters, "clay_text" if late else "ink")

    def _write(self, painter: QPainter, rect: QRectF, words: str, letters: QFont, colour: str) -> None:
        painter.setFont(letters)
        painter.setPen(self._look.colour(colour))
        shown = QFontMetrics(letters).elidedText(words, Qt.TextElideMode.ElideRight, int(rect.width()))
        painter.drawText(rect, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, shown)


def _mark(one: RipeAhead | None) -> object:
    if one is None:
        return None
    return (one.variety, one.lot.holder, one.lot.out) if one.lot is not None else (one.variety, "")


def _line_words(one: RipeAhead) -> str:
    """What stands under the band: the day it is ripe, or why it is not."""
    days = one.days
    if one.first_ripe is not None:
        fruit = sum(fact.count for fact in one.picks)
        return tr("ripe {day}, {fruit:,} picked", day=short_day(one.first_ripe), fruit=fruit)
    if days is None:
        return tr("days to ripe not known") if one.ripening is None else tr("set out in another season")
    if days.killed_on is not None:
        return tr("ended by frost {day}", day=short_day(days.killed_on))
    if days.usual is None:
        return (
            tr("frost comes first")
            if days.odds is None
            else tr("frost first; ripe in {odds}", odds=days.odds.words)
        )
    odds = f", {days.odds.words}" if days.odds is not None else ""
    return f"{short_day(days.usual)}{odds}"
