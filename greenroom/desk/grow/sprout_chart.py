"""The sprouting curve of a tray against what its mix's temperature lets one expect.

Imported when the first chart is shown, and by nothing that runs before the window is there: the
plotting library takes a third of a second to load.
"""

from __future__ import annotations

from datetime import timedelta

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QFont, QPen, QResizeEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.sharp import steady_pen
from greenroom.season.hardening_words import day_words
from greenroom.season.sprouting import SproutCurve
from greenroom.speech import tr

LEFT_PX = 42
BOTTOM_PX = 28
LEAST_ROOM = 88  # for five labels one above the other
END_ROOM = 26  # half the width of a day's label
HEADROOM_PX = 9  # half the height of the topmost label
QUARTERS = (0.0, 0.25, 0.5, 0.75, 1.0)
LABEL_OVERHANG = 30
TEXT_OFFSET = 7


class PercentAxis(pg.AxisItem):
    """0 to 100 %."""

    def tickValues(self, _low: float, _high: float, size: float) -> list[tuple[float, list[float]]]:
        step = 1 if size >= LEAST_ROOM else 2
        return [(0.25 * step, list(QUARTERS[::step]))]

    def tickStrings(self, values: list[float], _scale: float, _spacing: float) -> list[str]:
        return [tr("{share:.0f} %", share=value * 100) for value in values]


class DayAxis(pg.AxisItem):
    """Days since the first sowing."""

    def tickValues(self, low: float, high: float, size: float) -> list[tuple[float, list[float]]]:
        step = day_step(high - low, size)
        first = max(0, int(np.ceil(low / step)) * step)
        last = high - (high - low) * END_ROOM / max(size, 1.0)
        return [(float(step), [float(day) for day in range(first, int(last) + 1, step)])]

    def tickStrings(self, values: list[float], _scale: float, _spacing: float) -> list[str]:
        return [tr("day {day:.0f}", day=value) for value in values]


def day_step(span: float, pixels: float) -> int:
    """Return the days between two labels so that they do not run into each other."""
    room = max(1.0, pixels / 64.0)
    return next((step for step in (1, 2, 3, 5, 7, 10, 14, 21, 30, 60) if span / step <= room), 120)


def up_at(curve: SproutCurve, day: int) -> int:
    """Return the seedlings up by a day."""
    place = int(np.searchsorted(curve.days, day, side="right"))
    return curve.up[place - 1] if place else 0


def steps(curve: SproutCurve) -> tuple[np.ndarray, np.ndarray]:
    """Return the corners of the step curve: days and shares, from day 0 to the last day."""
    days, shares = [0.0], [0.0]
    for day, up in zip(curve.days, curve.up, strict=True):
        days += [float(day), float(day)]
        shares += [shares[-1], up / curve.seeds]
    days.append(float(max(curve.last_day, days[-1])))
    shares.append(shares[-1])
    end = float(curve.axis[-1])
    return np.minimum(days, end), np.array(shares)


class SproutChart(QWidget):
    """Band, step curve, and a line that tells the day under the pointer."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._curve: SproutCurve | None = None
        axes = {"left": PercentAxis("left"), "bottom": DayAxis("bottom")}
        self.plot = pg.PlotWidget(axisItems=axes)
        self.plot.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.plot.setMenuEnabled(False)
        self.plot.setMouseEnabled(x=False, y=False)
        self.plot.hideButtons()
        self.plot.setFrameShape(self.plot.Shape.NoFrame)
        self.rules = [pg.InfiniteLine(pos=share, angle=0) for share in QUARTERS]
        self.early = pg.PlotCurveItem(antialias=True)
        self.late = pg.PlotCurveItem(antialias=True)
        self.band = pg.FillBetweenItem(self.early, self.late)
        self.line = pg.PlotCurveItem()
        self.now = pg.InfiniteLine(angle=90)
        self.reading = pg.InfiniteLine(angle=90)
        self.told = pg.TextItem(anchor=(0, 0))
        for item in (
            *self.rules,
            self.band,
            self.early,
            self.late,
            self.now,
            self.line,
            self.reading,
            self.told,
        ):
            self.plot.addItem(item, ignoreBounds=True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.plot)
        self.plot.scene().sigMouseMoved.connect(self._on_move)
        look.changed.connect(self._dress)
        self._dress()

    def show_curve(self, curve: SproutCurve) -> None:
        """Draw a curve."""
        self._curve = curve
        end = float(curve.axis[-1])
        self.plot.setXRange(0, end, padding=0)
        self._leave_headroom()
        days, shares = steps(curve)
        self.line.setData(days, shares)
        known = curve.early is not None and curve.late is not None
        for item in (self.band, self.early, self.late):
            item.setVisible(known)
        if known:
            self.early.setData(curve.axis, curve.early)
            self.late.setData(curve.axis, curve.late)
        self.now.setVisible(curve.last_day <= end)
        self.now.setPos(curve.last_day)
        self._tell(None)

    def words_at(self, day: int) -> str:
        """Return what was and what was to be expected on a day."""
        curve = self._curve
        if curve is None:
            return ""
        when = curve.start + timedelta(days=day)
        up = up_at(curve, day)
        words = tr("day {day} · {date}", day=day, date=day_words(when))
        if day <= curve.last_day:
            words += tr(": {up} up, {share:.0f} %", up=up, share=up / curve.seeds * 100)
        if curve.early is not None and curve.late is not None:
            place = min(int(np.searchsorted(curve.axis, day)), len(curve.axis) - 1)
            low, high = curve.late[place] * 100, curve.early[place] * 100
            words += tr(" · expected {low:.0f} to {high:.0f} %", low=low, high=high)
        return words

    def event(self, event: QEvent) -> bool:
        if event.type() is QEvent.Type.DevicePixelRatioChange:
            self._dress()
        return super().event(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._leave_headroom()

    def _leave_headroom(self) -> None:
        room = max(1, self.plot.height() - BOTTOM_PX - HEADROOM_PX)
        self.plot.setYRange(0, 1.0 + HEADROOM_PX / room, padding=0)

    def _on_move(self, point: QPointF) -> None:
        box = self.plot.getViewBox()
        inside = self._curve is not None and box.sceneBoundingRect().contains(point)
        self._tell(round(box.mapSceneToView(point).x()) if inside else None)

    def leaveEvent(self, event: object) -> None:  # noqa: ARG002 Qt hands it over
        self._tell(None)

    def _tell(self, day: int | None) -> None:
        """Show the reading line at a day, or none."""
        shown = day is not None and self._curve is not None and 0 <= day <= float(self._curve.axis[-1])
        self.reading.setVisible(shown)
        self.told.setVisible(shown)
        if not shown or day is None or self._curve is None:
            return
        self.reading.setPos(day)
        self.told.setText(self.words_at(day))
        self.told.setAnchor((self._overhang(day, float(self._curve.axis[-1])), 1.0))
        self.told.setPos(day, 0.0)

    def _overhang(self, day: int, end: float) -> float:
        """Return the share of the reading that must stand left of its line to end inside the chart."""
        room, wide = self.plot.getViewBox().width(), self.told.boundingRect().width()
        over = day / end * room + wide - room
        return min(1.0, max(0.0, over / wide)) if wide else 0.0

    def _dress(self) -> None:
        """Put the theme on."""
        look, dashed = self._look, Qt.PenStyle.DashLine
        self.plot.setBackground(look.colour("card"))
        soft, thin = look.colour("leaf_soft"), steady_pen(self, look.colour("leaf"), 1.0)
        self.band.setBrush(pg.mkBrush(soft))
        self.early.setPen(thin)
        self.late.setPen(thin)
        self.line.setPen(steady_pen(self, look.colour("leaf_text"), 2.4))
        self.now.setPen(steady_pen(self, look.colour("clay"), 1.2, dashed))
        self.reading.setPen(steady_pen(self, look.colour("quiet"), 1.0, dashed))
        self.told.setColor(look.colour("ink"))
        self.told.setFont(font(SMALL_PX, QFont.Weight.Medium))
        self.told.fill = pg.mkBrush(look.colour("card"))
        for rule in self.rules:
            rule.setPen(steady_pen(self, look.colour("line"), 1.0))
        for name, room in (("left", LEFT_PX), ("bottom", BOTTOM_PX)):
            axis = self.plot.getAxis(name)
            axis.setPen(QPen(look.colour("line"), 1))
            axis.setTextPen(look.colour("quiet"))
            axis.setTickFont(font(SMALL_PX))
            axis.setStyle(tickLength=0, hideOverlappingLabels=LABEL_OVERHANG, autoReduceTextSpace=False)
            axis.setStyle(tickTextOffset=TEXT_OFFSET)
            axis.setWidth(room) if name == "left" else axis.setHeight(room)
