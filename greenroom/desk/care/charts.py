"""The charts of care: how a holder dries, and the nitrogen it was given.

They bring pyqtgraph in: import this when the first of them is shown.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date, timedelta

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import Qt

from greenroom.desk.chart_parts import ReadPlot, StepAxis
from greenroom.desk.grow.sprout_chart import PercentAxis, day_step
from greenroom.desk.look import Look
from greenroom.desk.place.figures import short_day
from greenroom.desk.sharp import steady_pen
from greenroom.season.feeding import Given
from greenroom.season.hardening_words import day_words
from greenroom.season.watering_curve import WaterCurve
from greenroom.speech import tr

HEIGHT_PX = 216
ROOM = 1.08
DOT_PX = 9
MILLIGRAMS = 1000


class DayAxis(pg.AxisItem):
    """Days as dates, a few of them."""

    def __init__(self) -> None:
        super().__init__("bottom")
        self.start = date(2001, 1, 1)

    def show_from(self, start: date) -> None:
        """Count the days from a date."""
        self.start = start
        self.picture = None
        self.update()

    def tickValues(self, low: float, high: float, size: float) -> list[tuple[float, list[float]]]:
        step = day_step(high - low, size)
        edge = (high - low) * 24 / max(size, 1.0)
        days = range(int(np.ceil(low / step)) * step, int(high) + 1, step)
        return [(float(step), [float(day) for day in days if low + edge <= day <= high - edge])]

    def tickStrings(self, values: Sequence[float], _scale: float, _spacing: float) -> list[str]:
        return [short_day(self.start + timedelta(days=round(value))) for value in values]


class CareChart(ReadPlot):
    """A still chart over days that tells what is under the pointer."""

    def __init__(self, look: Look, left: pg.AxisItem) -> None:
        self.days = DayAxis()
        super().__init__(look, left, self.days)
        self.setFixedHeight(HEIGHT_PX)
        self._words: Callable[[float], str] = lambda _day: ""

    def draw(self) -> None:
        super().draw()
        self.add_reading()

    def words_at(self, place: float) -> str:
        left, right = self.viewRange()[0]
        return self._words(place) if left <= place <= right else ""

    def _upright(self, day: float, colour: str) -> None:
        style = Qt.PenStyle.DashLine
        line = pg.InfiniteLine(pos=day, angle=90, pen=steady_pen(self, self._look.colour(colour), 1.2, style))
        self.addItem(line, ignoreBounds=True)

    def _curve(
        self, points: Sequence[tuple[float, float]], colour: str, width: float, style: Qt.PenStyle
    ) -> None:
        xs, ys = np.array(points, dtype=float).T
        drawn = pg.PlotCurveItem(
            xs, ys, pen=steady_pen(self, self._look.colour(colour), width, style), antialias=True
        )
        self.addItem(drawn, ignoreBounds=True)

    def _dots(self, points: Sequence[tuple[float, float]], colour: str) -> None:
        xs, ys = np.array(points, dtype=float).T
        brush, edge = pg.mkBrush(self._look.colour(colour)), steady_pen(self, self._look.colour("card"), 1.0)
        self.addItem(pg.ScatterPlotItem(xs, ys, size=DOT_PX, brush=brush, pen=edge), ignoreBounds=True)


class DryChart(CareChart):
    """Weighings as dots, the curve through them, the share at which it wants water, and today."""

    def __init__(self, look: Look) -> None:
        super().__init__(look, PercentAxis("left"))
        self._shown: WaterCurve | None = None

    def show_curve(self, curve: WaterCurve) -> None:
        """Draw a curve."""
        self._shown = curve
        self._words, self.step = curve.words_at, curve.step
        self.draw()

    def draw(self) -> None:
        super().draw()
        curve = self._shown
        if curve is None:
            return
        solid, dashed = Qt.PenStyle.SolidLine, Qt.PenStyle.DotLine
        self.days.show_from(curve.start)
        self._curve(curve.trigger, "clay", 1.6, dashed)
        self._curve(curve.line, "leaf_text", 2.4, solid)
        if curve.points:
            self._dots(curve.points, "leaf_text")
        self._upright(curve.today, "quiet")
        if curve.on is not None:
            self._dots([(curve.on, curve.share_at(curve.on))], "clay")
        last = max(curve.line[-1][0], curve.today, 1.0)
        self.setXRange(-0.02 * last, last, padding=0)
        top = max([1.0, *(share for _, share in curve.points)])
        self.setYRange(0, top * ROOM, padding=0)


class NitrogenChart(CareChart):
    """Nitrogen given up to each day, as steps [mg], a dot for each feed."""

    def __init__(self, look: Look) -> None:
        super().__init__(look, StepAxis("left", unit="mg"))
        self._given: tuple[Given, ...] = ()
        self._today = date(2001, 1, 1)

    def show_given(self, given: tuple[Given, ...], today: date) -> None:
        """Draw what was given."""
        self._given, self._today = given, today
        self._words = self._words_at
        self.draw()

    def draw(self) -> None:
        super().draw()
        if not self._given:
            return
        start = self._given[0].fact.day - timedelta(days=1)
        self.days.show_from(start)
        steps, held = [(0.0, 0.0)], 0.0
        for one in self._given:
            day = float((one.fact.day - start).days)
            steps += [(day, held), (day, one.sum_g * MILLIGRAMS)]
            held = one.sum_g * MILLIGRAMS
        last = max(float((self._today - start).days), steps[-1][0])
        steps.append((last, held))
        self._curve(steps, "plum", 2.4, Qt.PenStyle.SolidLine)
        self._dots([steps[2 * place + 2] for place in range(len(self._given))], "plum")
        self._upright(float((self._today - start).days), "quiet")
        self.setXRange(0, last * 1.02 + 1, padding=0)
        self.setYRange(0, max(held, 1.0) * ROOM, padding=0)

    def _words_at(self, days: float) -> str:
        day = self._given[0].fact.day + timedelta(days=round(days) - 1)
        upto = [one.sum_g for one in self._given if one.fact.day <= day]
        return tr(
            "{day}: {milligrams:,.0f} mg N given",
            day=day_words(day),
            milligrams=(upto[-1] if upto else 0.0) * MILLIGRAMS,
        )
