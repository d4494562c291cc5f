"""The season of each variety from sowing to the first ripe fruit, as bars that are dragged to another day."""

from __future__ import annotations

from datetime import date
from itertools import pairwise

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
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.look import BODY_PX, SMALL_PX, Look, font
from greenroom.desk.parts import told_under
from greenroom.desk.sharp import sharp_box, straight
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.desk.sow.plan_words import NO_YEAR, short_day, strip_words
from greenroom.desk.sow.strip_scale import NAME_PX, Stages, scale_of, stages_of
from greenroom.season.plan import PlanRow
from greenroom.speech import tr

ROW_PX, BAR_PX = 32, 16
DRAG_PX = 3
WEEK = 7
POT_PX = 6
BESIDE = 4
FILLS = ("soil", "seedling", "sun", "leaf")
INKS = ("on_soil", "on_seedling", "on_sun", "on_leaf")
WORDS = (tr("comes up"), tr("grows on"), tr("hardens"), tr("outdoors"))


class SeasonStrip(QWidget):
    """A bar a variety. Up and Down choose one, Left and Right try a day, Enter keeps it, Escape lets go."""

    scaled = Signal(object)
    shown_row = Signal(QRect)

    def __init__(self, desk: PlanDesk, look: Look) -> None:
        super().__init__()
        self._desk = desk
        self._look = look
        self._rows: list[PlanRow] = []
        self.scale = scale_of(desk, 600)
        self._pressed: tuple[float, date] | None = None
        self._dragging = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(tr("The season of each variety"))
        self.setMouseTracking(True)
        look.changed.connect(self.update)
        desk.changed.connect(self.refresh)
        desk.picked.connect(self._on_picked)
        desk.tried.connect(self._on_tried)

    def refresh(self) -> None:
        """Show the plan as it stands."""
        if not self.isVisible():
            return
        self._rows = list(self._desk.plan.rows)
        self.setFixedHeight(max(1, len(self._rows)) * ROW_PX + BESIDE)
        self._rescale()
        self._speak()
        self.shown_row.emit(self._row_rect(self._place_of(self._picked())))
        self.update()

    def bar_of(self, variety: str) -> QRectF:
        """Return the bar of a variety, from sowing to ripe."""
        place = self._place_of(variety)
        stages = stages_of(self._desk, self._rows[place])
        end = stages.ripe or stages.set_out or stages.up
        left = self.scale.x(stages.on)
        return QRectF(left, place * ROW_PX + (ROW_PX - BAR_PX) / 2, self.scale.x(end) - left, BAR_PX)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        place = int(event.position().y()) // ROW_PX
        if event.button() != Qt.MouseButton.LeftButton or not 0 <= place < len(self._rows):
            return
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        row = self._rows[place]
        self._desk.pick(row.variety)
        if self._hits(row, event.position()):
            self._pressed = (event.position().x(), self._desk.day_of(row))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        place = int(event.position().y()) // ROW_PX
        over = 0 <= place < len(self._rows) and self._hits(self._rows[place], event.position())
        self.setCursor(Qt.CursorShape.SizeHorCursor if over or self._dragging else Qt.CursorShape.ArrowCursor)
        if self._pressed is None:
            return
        start, day = self._pressed
        way = event.position().x() - start
        if self._dragging or abs(way) >= DRAG_PX:
            self._dragging = True
            self._desk.try_day(date.fromordinal(day.toordinal() + self.scale.days(way)))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        dragging, self._dragging, self._pressed = self._dragging, False, None
        if dragging and event.button() == Qt.MouseButton.LeftButton:
            self._desk.keep()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        days = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1, Qt.Key.Key_PageUp: -WEEK, Qt.Key.Key_PageDown: WEEK}
        rows = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}
        if event.key() in days:
            self._desk.step(days[Qt.Key(event.key())])
        elif event.key() in rows:
            self._go(rows[Qt.Key(event.key())])
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._desk.keep()
        elif event.key() == Qt.Key.Key_Escape and self._desk.trial is not None:
            self._dragging, self._pressed = False, None
            self._desk.let_go()
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if not self._dragging:
            self._desk.keep()
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._rescale()
        self.shown_row.emit(self._row_rect(self._place_of(self._picked())))

    def words_at(self, point: QPoint) -> str:
        """Return the season of the variety whose row is at a point; empty beneath the rows."""
        place = point.y() // ROW_PX
        return strip_words(self._desk, self._rows[place]) if 0 <= place < len(self._rows) else ""

    def event(self, event: QEvent) -> bool:
        return told_under(self, event, self.words_at) or super().event(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for day in self.scale.months():
            painter.setPen(self._look.colour("line"))
            x = round(self.scale.x(day))
            straight(painter, QPointF(x, event.rect().top()), QPointF(x, event.rect().bottom() + 1))
        picked = self._desk.row
        for place, row in enumerate(self._rows):
            rect = self._row_rect(place)
            if rect.intersects(event.rect()):
                self._paint_row(
                    painter, rect, row, picked=picked is not None and row.variety == picked.variety
                )
        self._paint_frost(painter)
        painter.end()

    def _paint_row(self, painter: QPainter, rect: QRect, row: PlanRow, *, picked: bool) -> None:
        if picked:
            painter.setPen(
                QPen(self._look.colour("focus"), 2) if self.hasFocus() else QPen(Qt.PenStyle.NoPen)
            )
            painter.setBrush(self._look.colour("leaf_wash"))
            painter.drawRoundedRect(rect.adjusted(1, 1, -2, -1), 6, 6)
        letters = font(BODY_PX, QFont.Weight.DemiBold if picked else QFont.Weight.Medium)
        painter.setFont(letters)
        painter.setPen(self._look.colour("ink"))
        name = QFontMetrics(letters).elidedText(row.name, Qt.TextElideMode.ElideRight, NAME_PX - 16)
        painter.drawText(rect.adjusted(8, 0, 0, 0), Qt.AlignmentFlag.AlignVCenter, name)
        self._paint_bar(painter, rect, stages_of(self._desk, row), row, picked=picked)

    def _paint_bar(
        self, painter: QPainter, rect: QRect, stages: Stages, row: PlanRow, *, picked: bool
    ) -> None:
        top = rect.top() + (ROW_PX - BAR_PX) / 2
        end = stages.ripe or (
            self._desk.plan.frost.usual if self._desk.plan.frost and stages.set_out else None
        )
        marks = [stages.on, stages.up, stages.hardens, stages.set_out, end]
        for place, (start, stop) in enumerate(pairwise(marks)):
            if start is None or stop is None or stop <= start:
                continue
            part = QRectF(self.scale.x(start), top, self.scale.x(stop) - self.scale.x(start), BAR_PX)
            painter.setPen(QPen(self._look.colour("soil_edge"), 1))
            painter.setBrush(self._look.colour(FILLS[place]))
            if place == len(FILLS) - 1 and stages.ripe is None:
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.setPen(QPen(self._look.colour("clay"), 1.4, Qt.PenStyle.DashLine))
            painter.drawRoundedRect(sharp_box(painter, part.adjusted(0.5, 0, -0.5, 0)), 3, 3)
            if picked and stages.ripe is not None:
                if FILLS[place] == "seedling" and stages.pot_up is not None:
                    part.setRight(self.scale.x(stages.pot_up) - POT_PX)
                self._word(painter, part, place)
        if stages.ripe is None and stages.set_out is not None and end is not None and end > stages.set_out:
            part = QRectF(
                self.scale.x(stages.set_out), top, self.scale.x(end) - self.scale.x(stages.set_out), BAR_PX
            )
            painter.setPen(self._look.colour("clay_text"))
            painter.setFont(font(SMALL_PX))
            painter.drawText(part, Qt.AlignmentFlag.AlignCenter, NO_YEAR)
        self._paint_marks(painter, top, stages)
        if row.variety == self._picked() and self._desk.trial is not None:
            self._paint_trial(painter, top, stages.on)

    def _word(self, painter: QPainter, part: QRectF, place: int) -> None:
        letters = font(SMALL_PX, QFont.Weight.Medium)
        if QFontMetrics(letters).horizontalAdvance(WORDS[place]) + 6 > part.width():
            return
        painter.setFont(letters)
        painter.setPen(self._look.colour(INKS[place]))
        painter.drawText(part, Qt.AlignmentFlag.AlignCenter, WORDS[place])

    def _paint_marks(self, painter: QPainter, top: float, stages: Stages) -> None:
        """Draw the pot, the spreads of setting out and ripening, and the ripe fruit."""
        if stages.pot_up is not None:
            x = self.scale.x(stages.pot_up)
            painter.setPen(QPen(self._look.colour("card"), 1))
            painter.setBrush(self._look.colour("clay"))
            pot = [QPointF(-5, 4), QPointF(5, 4), QPointF(3, 12), QPointF(-3, 12)]
            painter.drawPolygon([QPointF(x, top) + corner for corner in pot])
        for spread, colour in ((stages.out_spread, "ink"), (stages.ripe_spread, "clay")):
            if spread is not None:
                self._paint_spread(
                    painter, top, self.scale.x(spread.early), self.scale.x(spread.late), colour
                )
        if stages.ripe is not None:
            painter.setPen(QPen(self._look.colour("card"), 1.5))
            painter.setBrush(self._look.colour("clay"))
            painter.drawEllipse(QPointF(self.scale.x(stages.ripe), top + BAR_PX / 2), 6, 6)

    def _paint_spread(self, painter: QPainter, top: float, left: float, right: float, colour: str) -> None:
        """Draw how far the years lie apart: a pale band for ripe fruit, a rail below for setting out."""
        paint = self._look.colour(colour)
        if colour == "clay":
            paint.setAlpha(90)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(paint)
            painter.drawRoundedRect(QRectF(left, top + 3, max(2.0, right - left), BAR_PX - 6), 4, 4)
            return
        paint.setAlpha(150)
        painter.setPen(QPen(paint, 2))
        base = top + BAR_PX + 3
        straight(painter, QPointF(left, base), QPointF(right, base))
        for x in (left, right):
            straight(painter, QPointF(x, base - 2), QPointF(x, base + 2))

    def _paint_trial(self, painter: QPainter, top: float, on: date) -> None:
        letters = font(SMALL_PX, QFont.Weight.DemiBold)
        words = short_day(on)
        wide = QFontMetrics(letters).horizontalAdvance(words) + 10
        plate = QRectF(max(NAME_PX, self.scale.x(on) - wide - 3), top - 1, wide, BAR_PX + 2)
        painter.setPen(QPen(self._look.colour("edge"), 1))
        painter.setBrush(self._look.colour("card"))
        painter.drawRoundedRect(sharp_box(painter, plate), 4, 4)
        painter.setFont(letters)
        painter.setPen(self._look.colour("ink"))
        painter.drawText(plate, Qt.AlignmentFlag.AlignCenter, words)

    def _paint_frost(self, painter: QPainter) -> None:
        plan = self._desk.plan
        frosts = next((row.frosts for row in self._rows if row.frosts is not None), None)
        day = plan.frost.usual if plan.frost is not None else frosts.end if frosts is not None else None
        if day is None:
            return
        if plan.frost is not None:
            pale = self._look.colour("sky")
            pale.setAlpha(90)
            left = self.scale.x(plan.frost.early)
            painter.fillRect(QRectF(left, 0, self.scale.x(plan.frost.late) - left, self.height()), pale)
        painter.setPen(QPen(self._look.colour("link"), 1.8, Qt.PenStyle.DashLine))
        x = self.scale.x(day)
        straight(painter, QPointF(x, 0), QPointF(x, self.height()))

    def _row_rect(self, place: int) -> QRect:
        return QRect(0, place * ROW_PX, self.width(), ROW_PX)

    def _hits(self, row: PlanRow, point: QPointF) -> bool:
        return self.bar_of(row.variety).adjusted(-BESIDE, -BESIDE, BESIDE, BESIDE).contains(point)

    def _picked(self) -> str | None:
        row = self._desk.row
        return row.variety if row is not None else None

    def _place_of(self, variety: str | None) -> int:
        keys = [row.variety for row in self._rows]
        return keys.index(variety) if variety in keys else 0

    def _go(self, by: int) -> None:
        place = self._place_of(self._picked()) + by
        if 0 <= place < len(self._rows):
            self._desk.pick(self._rows[place].variety)

    def _on_picked(self) -> None:
        self.update()
        self._speak()
        if self._rows:
            self.shown_row.emit(self._row_rect(self._place_of(self._picked())))

    def _on_tried(self) -> None:
        self.update(self._row_rect(self._place_of(self._picked())))
        self._speak()

    def _speak(self) -> None:
        row = self._desk.row
        if row is not None:
            self.setAccessibleDescription(strip_words(self._desk, row))
            event = QAccessibleEvent(self, QAccessible.Event.DescriptionChanged)
            QAccessible.updateAccessibility(event)

    def _rescale(self) -> None:
        if self._rows:
            self.scale = scale_of(self._desk, self.width())
            self.scaled.emit(self.scale)

    def sizeHint(self) -> QSize:
        return QSize(400, max(1, len(self._rows)) * ROW_PX + BESIDE)
