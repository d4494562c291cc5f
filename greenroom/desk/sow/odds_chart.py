"""The odds of ripe fruit against the sowing date, with a line for the date that is dragged.

This module brings pyqtgraph in; it is imported when the first chart is shown, not before.
"""

from __future__ import annotations

from datetime import date, timedelta

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import (
    QFocusEvent,
    QFont,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QWheelEvent,
)

from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.parts import told_under
from greenroom.desk.sharp import steady_pen
from greenroom.desk.sow.odds_axes import DayAxis, ShareAxis
from greenroom.desk.sow.odds_curves import NamedCurves
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.desk.sow.plan_words import chart_words, odds_words
from greenroom.season.hardening_words import day_words
from greenroom.season.plan import PlanRow
from greenroom.season.plan_chart import PlanChart
from greenroom.speech import tr

TOP, BOTTOM = 1.13, -0.08
LEAST_DAYS = 45
BEFORE_WINDOW, AFTER_LAST = timedelta(days=21), timedelta(days=7)
NEAR_PX = 9
WEEK = 7


class OddsChart(pg.PlotWidget):
    """A curve a variety; the line is dragged, or moved with the arrow keys, and the odds follow it."""

    def __init__(self, desk: PlanDesk, look: Look) -> None:
        self._bottom, self._left = DayAxis("bottom"), ShareAxis("left")
        super().__init__(background=None, axisItems={"left": self._left, "bottom": self._bottom})
        self._desk = desk
        self._look = look
        self._dragging = False
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMenuEnabled(False)
        self.setMouseEnabled(x=False, y=False)
        self.hideButtons()
        self.setFrameShape(pg.QtWidgets.QFrame.Shape.NoFrame)
        for axis in (self._left, self._bottom):
            axis.setStyle(tickFont=font(SMALL_PX), tickLength=0)
        self._left.setWidth(46)
        self._box = self.getPlotItem().getViewBox()
        self._box.setDefaultPadding(0.0)
        self.curves = NamedCurves(desk, look, self)
        self._make_items()
        self._box.sigResized.connect(self._place_names)
        look.changed.connect(self.draw)
        desk.changed.connect(self.draw)
        desk.picked.connect(self.draw)
        desk.tried.connect(self.follow)

    def draw(self) -> None:
        """Draw everything anew."""
        if not self.isVisible():
            return
        self.curves.clear()
        self._dress()
        plan, row = self._desk.plan, self._desk.row
        known = plan.chart is not None and bool(plan.chart.varieties)
        for item in (self.line, self.dot, self.band, self.told, self.wanted):
            item.setVisible(known and row is not None and row.sowing is not None)
        if plan.chart is None or row is None or not known:
            return
        self._fit(plan.chart, row)
        self.curves.draw(plan.chart, row)
        self.wanted.setPos(plan.rules.odds)
        if row.window is not None:
            self.band.setRegion((row.window.first.toordinal() - 0.5, row.window.last.toordinal() + 0.5))
        self.follow()
        self._place_names()

    def follow(self) -> None:
        """Move the line to the day that is tried."""
        row = self._desk.row
        sowing = self._desk.sowing_of(row) if row is not None else None
        if row is None or sowing is None:
            return
        x, share = self._desk.day_of(row).toordinal(), sowing.odds.share
        self.line.setPos(x)
        self.dot.setData([x], [share])
        low, high = self._box.viewRange()[0]
        self.told.setAnchor(
            (0.0 if x < low + (high - low) * 0.3 else 1.0 if x > high - (high - low) * 0.3 else 0.5, 0)
        )
        day, odds = day_words(self._desk.day_of(row)), odds_words(self._desk, row)
        self.told.setPlainText(tr("{name}: {what}", name=day, what=odds))
        self.told.setPos(x, TOP)
        self.setAccessibleDescription(chart_words(self._desk))

    def point_of(self, day: date, share: float = 0.5) -> QPoint:
        """Return where a day and odds lie in the widget."""
        return self.mapFromScene(self._box.mapViewToScene(QPointF(day.toordinal(), share)))

    def day_at(self, point: QPointF) -> date:
        """Return the day at a point of the widget."""
        x = self._box.mapSceneToView(self.mapToScene(point.toPoint())).x()
        return date.fromordinal(max(1, round(x)))

    def words_at(self, point: QPoint) -> str:
        """Return the odds of the variety whose curve is at a point, sown on the day there."""
        chart, near = self._desk.plan.chart, self._curve_at(point)
        if chart is None or near is None:
            return self.toolTip()
        name = next(one.name for one in self._desk.plan.rows if one.variety == near)
        day = self.day_at(QPointF(point))
        words = tr("in {years}", years=chart.odds_on(near, day).words)
        return tr("{name}: {what}", name=f"{name}, {day_words(day)}", what=words)

    def event(self, event: QEvent) -> bool:
        if event.type() is QEvent.Type.DevicePixelRatioChange:
            self.draw()
        return bool(super().event(event))

    def viewportEvent(self, event: QEvent) -> bool:
        return told_under(self, event, self.words_at) or bool(super().viewportEvent(event))

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() != Qt.MouseButton.LeftButton:
            return
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        if self._on_line(event.position()):
            self._dragging = True
        elif (near := self._curve_at(event.position().toPoint())) is not None:
            self._desk.pick(near)
        event.accept()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._dragging:
            self._desk.try_day(self.day_at(event.position()))
        shape = (
            Qt.CursorShape.SizeHorCursor if self._on_line(event.position()) else Qt.CursorShape.ArrowCursor
        )
        self.viewport().setCursor(shape)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if self._dragging and event.button() == Qt.MouseButton.LeftButton:
            self._dragging = False
            self._desk.keep()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        self.mousePressEvent(event)

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {
            Qt.Key.Key_Left: -1,
            Qt.Key.Key_Right: 1,
            Qt.Key.Key_PageUp: -WEEK,
            Qt.Key.Key_PageDown: WEEK,
        }
        if event.key() in steps:
            self._desk.step(steps[Qt.Key(event.key())])
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._desk.keep()
        elif event.key() == Qt.Key.Key_Escape and self._desk.trial is not None:
            self._dragging = False
            self._desk.let_go()
        else:
            event.ignore()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if not self._dragging:
            self._desk.keep()
        self.viewport().update()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.viewport().update()

    def showEvent(self, event: QEvent) -> None:
        super().showEvent(event)
        self.draw()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.hasFocus():
            painter = QPainter(self.viewport())
            painter.setPen(QPen(self._look.colour("focus"), 2))
            painter.drawRoundedRect(self.viewport().rect().adjusted(1, 1, -1, -1), 6, 6)
            painter.end()

    def sizeHint(self) -> QSize:
        return QSize(420, 220)

    def minimumSizeHint(self) -> QSize:
        return QSize(220, 110)

    def _make_items(self) -> None:
        self.band = pg.LinearRegionItem(movable=False)
        self.wanted = pg.InfiniteLine(angle=0)
        self.line = pg.InfiniteLine(angle=90)
        self.dot = pg.ScatterPlotItem(size=12)
        self.told = pg.TextItem()
        self.told.setFont(font(SMALL_PX, QFont.Weight.DemiBold))
        for depth, item in enumerate(
            (self.band, self.wanted, self.curves.rest, self.line, self.dot, self.told)
        ):
            item.setZValue(depth * 10)
            self.addItem(item, ignoreBounds=True)

    def _dress(self) -> None:
        colour = self._look.colour
        for axis in (self._left, self._bottom):
            axis.setPen(QPen(colour("edge"), 1))
            axis.setTextPen(colour("quiet"))
        self._left.setGrid(60)
        self.setBackground(colour("card"))
        self.band.setBrush(colour("leaf_soft"))
        self.band.setOpacity(0.55)
        for edge in self.band.lines:
            edge.setPen(self._pen("leaf", 1.0))
        self.wanted.setPen(self._pen("leaf_text", 1.2, Qt.PenStyle.DotLine))
        self.line.setPen(self._pen("ink", 1.8, Qt.PenStyle.DashLine))
        self.curves.rest.setPen(self._pen("rim", 1.0))
        self.dot.setBrush(colour("ink"))
        self.dot.setPen(self._pen("card", 2.0))
        self.told.setColor(colour("ink"))
        self.told.fill = pg.mkBrush(colour("card"))

    def _fit(self, chart: PlanChart, row: PlanRow) -> None:
        """Show the days on which something can still be decided: those of the window to those too late."""
        windows = [one.window for one in self._desk.plan.rows if one.window is not None]
        on = self._desk.day_of(row)
        first = min([on, *(window.first for window in windows)]) - BEFORE_WINDOW
        alive = np.flatnonzero(
            np.any(
                [chart.odds(one.variety) > 0 for one in self.curves.named(row) if one.variety in chart],
                axis=0,
            )
        )
        last = chart.days[int(alive[-1])] if alive.size else first
        last = max(last, on, first + timedelta(days=LEAST_DAYS)) + AFTER_LAST
        first, last = max(first, chart.days[0]), min(last, chart.days[-1])
        self.setXRange(first.toordinal(), last.toordinal(), padding=0)
        self.setYRange(BOTTOM, TOP, padding=0)

    def _place_names(self) -> None:
        self.curves.place_names(self._line_room())

    def _curve_at(self, point: QPoint) -> str | None:
        """Return the variety whose curve is at a point of the widget."""
        return self.curves.at(self.mapToScene(point), NEAR_PX)

    def _line_room(self) -> list[QRectF]:
        """Return the room of the line, where no name is to stand."""
        if not self.line.isVisible():
            return []
        x = self._box.mapViewToScene(QPointF(self.line.value(), 0)).x()
        room = self._box.sceneBoundingRect()
        return [QRectF(x - 2, room.top(), 4, room.height())]

    def _on_line(self, point: QPointF) -> bool:
        row = self._desk.row
        if row is None or not self.line.isVisible():
            return False
        return abs(self.point_of(self._desk.day_of(row)).x() - point.x()) <= NEAR_PX

    def _pen(self, colour: str, width: float, dash: Qt.PenStyle = Qt.PenStyle.SolidLine) -> QPen:
        return steady_pen(self, self._look.colour(colour), width, dash)
