"""Axes, dress and reading that the charts share. It brings pyqtgraph in: import it late."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QFont, QPen
from PySide6.QtWidgets import QWidget

from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.place.figures import short_day
from greenroom.desk.sharp import steady_pen
from greenroom.season.months import month_starts
from greenroom.speech import figure

LEFT_PX = 52
BOTTOM_PX = 24
TICK_PX = 26
DATE_PX = 46
YEAR_STEPS = (1, 2, 5, 10, 20, 50)
MONTH_STEPS = (1, 2, 3, 4, 6)
EDGE_PX = {"left": 7, "bottom": 16}
"""Half of what a label takes: nearer to an end of the axis none is written."""
ROUND_STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000)


class DateAxis(pg.AxisItem):
    """Days of a season told as dates, on the firsts of months, and in between where there is room."""

    def __init__(self, side: str) -> None:
        super().__init__(side)
        self._start = date(2001, 1, 1)
        self._px = TICK_PX if side == "left" else DATE_PX

    def show_from(self, start: date) -> None:
        """Count the days from a date."""
        self._start = start
        self.picture = None
        self.update()

    def tickValues(self, low: float, high: float, size: float) -> list[tuple[float, list[float]]]:
        first, last = (self._start + timedelta(days=float(end)) for end in (np.ceil(low), np.floor(high)))
        starts = month_starts(first, last)
        room = max(1, int(size // self._px))
        if 2 * len(starts) + 1 <= room:
            days = [first + timedelta(days=number) for number in range((last - first).days + 1)]
            shown = [day for day in days if day.day in (1, 15)]
        else:
            step = next((step for step in MONTH_STEPS if len(starts) / step <= room), MONTH_STEPS[-1])
            shown = [day for day in starts if (day.month - 1) % step == 0]
        places = [float((day - self._start).days) for day in shown]
        return [(1.0, _inside(places, low, high, EDGE_PX[self.orientation] / max(size, 1.0)))]

    def tickStrings(self, values: Sequence[float], _scale: float, _spacing: float) -> list[str]:
        return [short_day(self._start + timedelta(days=round(value))) for value in values]


class StepAxis(pg.AxisItem):
    """Whole numbers on round steps, with their unit: years, days, heat; none beyond ``last``."""

    def __init__(self, side: str, steps: Sequence[int] = ROUND_STEPS, unit: str = "") -> None:
        super().__init__(side)
        self.unit = unit
        self._steps = steps
        self.last = float("inf")
        self._px = TICK_PX if side == "left" else DATE_PX

    def tickValues(self, low: float, high: float, size: float) -> list[tuple[float, list[float]]]:
        room = max(1.0, size / self._px)
        step = next((one for one in self._steps if (high - low) / one <= room), self._steps[-1])
        first = int(np.ceil(low / step)) * step
        values = [float(value) for value in range(first, int(min(high, self.last)) + 1, step)]
        return [(float(step), _inside(values, low, high, EDGE_PX[self.orientation] / max(size, 1.0)))]

    def tickStrings(self, values: Sequence[float], _scale: float, _spacing: float) -> list[str]:
        return [f"{figure(value, '.0f')} {self.unit}".rstrip() for value in values]


class Plot(pg.PlotWidget):
    """A still plot: nothing is dragged or zoomed, so that the wheel and the arrows stay the page's."""

    def __init__(self, look: Look, left: pg.AxisItem, bottom: pg.AxisItem) -> None:
        super().__init__(background=None, axisItems={"left": left, "bottom": bottom})
        self._look = look
        self.left, self.bottom = left, bottom
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setMenuEnabled(False)
        self.setMouseEnabled(x=False, y=False)
        self.hideButtons()
        self.setFrameShape(pg.QtWidgets.QFrame.Shape.NoFrame)
        self.getPlotItem().getViewBox().setDefaultPadding(0.0)
        left.setWidth(LEFT_PX)
        bottom.setHeight(BOTTOM_PX)

    def draw(self) -> None:
        """Draw everything anew, in the colours of the theme and for the scale of the screen."""
        self.clear()
        self.dress()

    def dress(self) -> None:
        """Put the theme on the axes."""
        self.setBackground(self._look.colour("card"))
        for axis in (self.left, self.bottom):
            axis.setPen(QPen(self._look.colour("line"), 1))
            axis.setTextPen(self._look.colour("quiet"))
            axis.setStyle(tickFont=font(SMALL_PX), tickLength=0, tickTextOffset=6, autoReduceTextSpace=False)
            axis.setStyle(tickAlpha=0)  # else a dot of it stands on what begins at the axis

    def event(self, event: QEvent) -> bool:
        if event.type() is QEvent.Type.DevicePixelRatioChange:
            self.draw()
        return bool(super().event(event))


class ReadPlot(Plot):
    """A plot that tells in words what lies where the pointer is along its foot, in steps of ``step``."""

    def __init__(self, look: Look, left: pg.AxisItem, bottom: pg.AxisItem) -> None:
        super().__init__(look, left, bottom)
        self.step = 1.0
        self._line, self._told = _reading(self, look)
        self.scene().sigMouseMoved.connect(self._on_move)
        look.changed.connect(self.draw)

    @property
    def told(self) -> str:
        """What the plot tells at the pointer; empty if there is nothing."""
        return self._told.textItem.toPlainText() if self._told.isVisible() else ""

    def words_at(self, place: float) -> str:  # noqa: ARG002 a chart knows what lies there
        """Return what there is to tell at a place, or an empty text."""
        return ""

    def tell(self, place: float | None) -> None:
        """Show what there is to tell at a place, or nothing."""
        words = self.words_at(place) if place is not None else ""
        self._line.setVisible(bool(words))
        self._told.setVisible(bool(words))
        if words and place is not None:
            (left, right), (_, top) = self.viewRange()
            self._line.setPos(place)
            self._told.setText(words)
            self._told.setAnchor((1.0 if place > (left + right) / 2 else 0.0, 0.0))
            self._told.setPos(place, top)

    def leaveEvent(self, event: object) -> None:  # noqa: ARG002 Qt hands it over
        self.tell(None)

    def add_reading(self) -> None:
        """Put the line and the words of the reading on the plot, over what is drawn already."""
        self._line, self._told = _reading(self, self._look)
        for item in (self._line, self._told):
            self.addItem(item, ignoreBounds=True)

    def _on_move(self, point: QPointF) -> None:
        box = self.getPlotItem().getViewBox()
        inside = box.sceneBoundingRect().contains(point)
        steps = round(box.mapSceneToView(point).x() / self.step)
        self.tell(steps * self.step if inside else None)


def _inside(values: Sequence[float], low: float, high: float, share: float) -> list[float]:
    """Return the values that are not within a share of the axis from its ends; the very start stays."""
    edge = share * (high - low)
    return [value for value in values if low + edge <= value <= high - edge or value == low == 0]


def _reading(chart: QWidget, look: Look) -> tuple[pg.InfiniteLine, pg.TextItem]:
    """Return the line and the words that tell what is under the pointer, both hidden."""
    line = pg.InfiniteLine(angle=90, pen=steady_pen(chart, look.colour("quiet"), 1.0, Qt.PenStyle.DashLine))
    told = pg.TextItem("", look.colour("ink"), anchor=(0, 0), fill=pg.mkBrush(look.colour("card")))
    told.setFont(font(SMALL_PX, QFont.Weight.Medium))
    told.setZValue(20)
    for item in (line, told):
        item.hide()
    return line, told
