"""The odds of ripe fruit against the sowing date, with a line for the date that is dragged.

This module brings pyqtgraph in; it is imported when the first chart is shown, not before.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import NamedTuple

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, QSizeF, Qt
from PySide6.QtGui import (
    QFocusEvent,
    QFont,
    QFontMetricsF,
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
from greenroom.desk.sow.curve_labels import label_places
from greenroom.desk.sow.odds_axes import DayAxis, ShareAxis
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.desk.sow.plan_words import chart_words, odds_words
from greenroom.season.hardening_words import day_words
from greenroom.season.plan import Plan, PlanRow
from greenroom.season.plan_chart import PlanChart
from greenroom.speech import tr

TOP, BOTTOM = 1.13, -0.08
LEAST_DAYS = 45
BEFORE_WINDOW, AFTER_LAST = timedelta(days=21), timedelta(days=7)
NEAR_PX = 9
MOST_NAMED = 7
LEAST_NAMED_PX = 150
WEEK = 7


class Style(NamedTuple):
    """How one curve is drawn: its colour, that of its name, its strokes."""

    line: str
    text: str
    dash: Qt.PenStyle


STYLES = (
    Style("clay", "clay_text", Qt.PenStyle.SolidLine),
    Style("leaf", "leaf_text", Qt.PenStyle.DashDotDotLine),
    Style("plum", "plum_text", Qt.PenStyle.SolidLine),
    Style("ink", "ink", Qt.PenStyle.DotLine),
    Style("link", "link", Qt.PenStyle.DashLine),
    Style("quiet", "quiet", Qt.PenStyle.DashDotLine),
    Style("soil_edge", "ink", Qt.PenStyle.DashLine),
)
"""Names stand at the curves, so that colour alone tells nothing."""


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
        self._make_items()
        self._names: list[pg.TextItem] = []
        self._curves: dict[str, pg.PlotDataItem] = {}
        self._box.sigResized.connect(self._place_names)
        look.changed.connect(self.draw)
        desk.changed.connect(self.draw)
        desk.picked.connect(self.draw)
        desk.tried.connect(self.follow)

    def draw(self) -> None:
        """Draw everything anew."""
        if not self.isVisible():
            return
        self._clear_curves()
        self._dress()
        plan, row = self._desk.plan, self._desk.row
        known = plan.chart is not None and bool(plan.chart.varieties)
        for item in (self.line, self.dot, self.band, self.told, self.wanted):
            item.setVisible(known and row is not None and row.sowing is not None)
        if plan.chart is None or row is None or not known:
            return
        self._fit(plan.chart, row)
        self._draw_curves(plan, plan.chart, row)
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
        chart, near = self._desk.plan.chart, self._curve_at(QPointF(point))
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
        elif (near := self._curve_at(event.position())) is not None:
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
        self.rest = pg.PlotCurveItem(connect="finite")
        self.dot = pg.ScatterPlotItem(size=12)
        self.told = pg.TextItem()
        self.told.setFont(font(SMALL_PX, QFont.Weight.DemiBold))
        for depth, item in enumerate((self.band, self.wanted, self.rest, self.line, self.dot, self.told)):
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
        self.rest.setPen(self._pen("rim", 1.0))
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
            np.any([chart.odds(one.variety) > 0 for one in self._named(row) if one.variety in chart], axis=0)
        )
        last = chart.days[int(alive[-1])] if alive.size else first
        last = max(last, on, first + timedelta(days=LEAST_DAYS)) + AFTER_LAST
        first, last = max(first, chart.days[0]), min(last, chart.days[-1])
        self.setXRange(first.toordinal(), last.toordinal(), padding=0)
        self.setYRange(BOTTOM, TOP, padding=0)

    def _named(self, row: PlanRow) -> list[PlanRow]:
        """Return the varieties whose curves are named: the one chosen, and those that stand about it."""
        rows = [one for one in self._desk.plan.rows if one.sowing is not None]
        place = next((place for place, one in enumerate(rows) if one.variety == row.variety), 0)
        start = max(0, min(place - MOST_NAMED // 2, len(rows) - MOST_NAMED))
        return rows[start : start + MOST_NAMED]

    def _draw_curves(self, plan: Plan, chart: PlanChart, row: PlanRow) -> None:
        days = np.array([day.toordinal() for day in chart.days], dtype=float)
        named = {one.variety for one in self._named(row)}
        others = [chart.odds(key) for key in chart.varieties if key not in named]
        self.rest.setData(
            np.tile(np.append(days, np.nan), len(others)) if others else [],
            np.concatenate([np.append(one, np.nan) for one in others]) if others else [],
        )
        for place, one in enumerate(plan.rows):
            if one.variety not in named:
                continue
            picked = one.variety == row.variety
            style = STYLES[place % len(STYLES)]
            pen = self._pen(style.line, 3.2 if picked else 1.7, style.dash)
            curve = pg.PlotDataItem(days, chart.odds(one.variety), pen=pen, antialias=True)
            curve.setZValue(25 if picked else 22)
            self._curves[one.variety] = curve
            self.addItem(curve, ignoreBounds=True)

    def _clear_curves(self) -> None:
        for item in (*self._curves.values(), *self._names):
            self.removeItem(item)
        self._curves.clear()
        self._names.clear()

    def _place_names(self) -> None:
        """Write each name at its curve, where it covers the least."""
        for item in self._names:
            self.removeItem(item)
        self._names.clear()
        room = self._box.sceneBoundingRect()
        if room.height() < LEAST_NAMED_PX or not self._curves:
            return
        over = self._box.mapViewToScene(QPointF(0, 1.0)).y()
        inner = QRectF(room.left() + 4, over, room.width() - 8, room.bottom() - over - 4)
        rows = [(place, one) for place, one in enumerate(self._desk.plan.rows) if one.variety in self._curves]
        picked = self._desk.row.variety if self._desk.row is not None else ""
        rows.sort(key=lambda pair: pair[1].variety != picked)
        curves, sizes, letters = [], [], []
        for _, one in rows:
            bold = one.variety == picked
            letters.append(font(SMALL_PX, QFont.Weight.Bold if bold else QFont.Weight.Medium))
            metrics = QFontMetricsF(letters[-1])
            sizes.append(QSizeF(metrics.horizontalAdvance(one.name) + 6, metrics.height() + 2))
            curves.append(self._in_scene(one.variety))
        places = label_places(curves, sizes, inner, self._line_room())
        for number, ((place, one), rect, type_) in enumerate(zip(rows, places, letters, strict=True)):
            if not any(rect.intersects(other) for other in places[:number]):  # else the pointer tells it
                self._name(one.name, STYLES[place % len(STYLES)].text, rect, type_)

    def _line_room(self) -> list[QRectF]:
        """Return the room of the line, where no name is to stand."""
        if not self.line.isVisible():
            return []
        x = self._box.mapViewToScene(QPointF(self.line.value(), 0)).x()
        room = self._box.sceneBoundingRect()
        return [QRectF(x - 2, room.top(), 4, room.height())]

    def _name(self, words: str, colour: str, rect: QRectF, letters: QFont) -> None:
        ground = self._look.colour("card")
        ground.setAlpha(190)  # so that a curve it must lie on does not strike it out
        item = pg.TextItem(color=self._look.colour(colour), anchor=(0, 0), fill=ground)
        item.setPlainText(words)
        item.setFont(letters)
        item.textItem.document().setDocumentMargin(1)
        item.setPos(self._box.mapSceneToView(rect.topLeft()))
        item.setZValue(28)
        self._names.append(item)
        self.addItem(item, ignoreBounds=True)

    def _in_scene(self, variety: str) -> np.ndarray:
        """Return a curve's points in pixels."""
        x, y = self._curves[variety].getData()
        low, high = (self._box.mapViewToScene(QPointF(*corner)) for corner in ((0, 0), (1, 1)))
        wide, tall = high.x() - low.x(), high.y() - low.y()
        return np.column_stack((low.x() + x * wide, low.y() + y * tall))

    def _on_line(self, point: QPointF) -> bool:
        row = self._desk.row
        if row is None or not self.line.isVisible():
            return False
        return abs(self.point_of(self._desk.day_of(row)).x() - point.x()) <= NEAR_PX

    def _curve_at(self, point: QPointF) -> str | None:
        there = self.mapToScene(point.toPoint())
        far = {
            key: float(np.min(np.hypot(*(self._in_scene(key) - (there.x(), there.y())).T)))
            for key in self._curves
        }
        near = min(far, key=lambda key: far[key], default=None)
        return near if near is not None and far[near] <= NEAR_PX else None

    def _pen(self, colour: str, width: float, dash: Qt.PenStyle = Qt.PenStyle.SolidLine) -> QPen:
        return steady_pen(self, self._look.colour(colour), width, dash)
