"""One value a year as points, with the lines of one year in ten, half, and nine in ten.

It brings pyqtgraph in: import it late.
"""

from __future__ import annotations

import pyqtgraph as pg
from PySide6.QtCore import Qt

from greenroom.desk.chart_parts import YEAR_STEPS, DateAxis, ReadPlot, StepAxis
from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.place.figures import YearFigure
from greenroom.desk.sharp import steady_pen

LABELS_PX = 92
LABEL_PX = 15
POINT_PX = 7
OWN_PX = 11
AIR = 0.12


class YearChart(ReadPlot):
    """Points, lines, and what is under the pointer."""

    def __init__(self, look: Look, figure: YearFigure) -> None:
        left = DateAxis("left") if figure.start is not None else StepAxis("left", unit="d")
        self._years = StepAxis("bottom", YEAR_STEPS)
        super().__init__(look, left, self._years)
        self._figure = figure
        self.getPlotItem().getViewBox().sigResized.connect(self._fit)
        self.draw()

    @property
    def _span(self) -> tuple[int, int]:
        """The years drawn, with one free at either end."""
        return min(self._figure.points) - 1, max(self._figure.points) + 1

    def show_figure(self, figure: YearFigure) -> None:
        """Draw another figure of the same kind."""
        self._figure = figure
        self.draw()

    def words_at(self, place: float) -> str:
        return self._figure.told.get(int(place), "")

    def draw(self) -> None:
        super().draw()
        figure, look = self._figure, self._look
        if figure.start is not None and isinstance(self.left, DateAxis):
            self.left.show_from(figure.start)
        first, last = self._span
        for rule in figure.rules:
            style = Qt.PenStyle.SolidLine if rule.main else Qt.PenStyle.DashLine
            ink = steady_pen(self, look.colour("leaf"), 2.0 if rule.main else 1.0, style)
            self.addItem(pg.PlotCurveItem([first, last], [rule.value] * 2, pen=ink), ignoreBounds=True)
        past = {year: value for year, value in figure.points.items() if year != figure.this_year}
        self._points(past, POINT_PX, "o", "plum")
        own = {year: value for year, value in figure.points.items() if year == figure.this_year}
        self._points(own, OWN_PX, "d", "clay")
        self._labels: list[pg.TextItem] = []
        self.add_reading()
        self._fit()

    def _points(self, points: dict[int, float], size: int, symbol: str, colour: str) -> None:
        self.addItem(
            pg.ScatterPlotItem(
                list(points),
                list(points.values()),
                size=size,
                symbol=symbol,
                brush=pg.mkBrush(self._look.colour(colour)),
                pen=steady_pen(self, self._look.colour("card"), 1.0),
            )
        )

    def _fit(self) -> None:
        """Fit the axes to the points, and leave room at the right for what the lines are."""
        figure, box = self._figure, self.getPlotItem().getViewBox()
        values = [*figure.points.values(), *(rule.value for rule in figure.rules)]
        low, high = min(values), max(values)
        air = max(2.0, AIR * (high - low))
        self.setYRange(low - air, high + air, padding=0)
        first, last = self._span
        self._years.last = last - 1
        wide = max(box.width() - LABELS_PX, 1.0)
        self.setXRange(first, last + (last - first) * LABELS_PX / wide, padding=0)
        self._write_labels(last, (high - low + 2 * air) / max(box.height(), 1.0))

    def _write_labels(self, right: float, value_a_px: float) -> None:
        """Write what each line is at its end, none on top of another."""
        for label in self._labels:
            self.removeItem(label)
        self._labels = []
        below = float("-inf")
        for rule in sorted(self._figure.rules, key=lambda one: one.value):
            height = max(rule.value, below + LABEL_PX * value_a_px)
            below = height
            fill = pg.mkBrush(self._look.colour("card"))
            label = pg.TextItem(rule.words, self._look.colour("leaf_text"), anchor=(0, 0.5), fill=fill)
            label.setFont(font(SMALL_PX))
            label.setPos(right, height)
            self.addItem(label, ignoreBounds=True)
            self._labels.append(label)
