"""Heat gathered day by day: the band of eight years in ten, the usual year, and this one.

It brings pyqtgraph in: import it late.
"""

from __future__ import annotations

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import Qt

from greenroom.desk.chart_parts import DateAxis, ReadPlot, StepAxis
from greenroom.desk.look import Look
from greenroom.desk.place.figures import HeatFigure
from greenroom.desk.sharp import steady_pen

AIR = 1.06
WORDS_PX = 78
BEGUN_SHARE = 0.005
AROUND_DAYS = 10


class HeatChart(ReadPlot):
    """Band, two curves, and what is under the pointer."""

    def __init__(self, look: Look, figure: HeatFigure) -> None:
        super().__init__(look, StepAxis("left", unit=figure.unit), DateAxis("bottom"))
        self.left.setWidth(WORDS_PX)
        self._figure = figure
        self.draw()

    def show_figure(self, figure: HeatFigure) -> None:
        """Draw another figure of the same kind."""
        self._figure = figure
        self.draw()

    def words_at(self, place: float) -> str:
        return self._figure.words_at(int(place)) if 0 <= place < len(self._figure.days) else ""

    def draw(self) -> None:
        super().draw()
        figure, look = self._figure, self._look
        if isinstance(self.bottom, DateAxis):
            self.bottom.show_from(figure.days[0])
        if isinstance(self.left, StepAxis):
            self.left.unit = figure.unit
        days = np.arange(len(figure.days), dtype=float)
        if not np.isnan(figure.usual).all():
            thin = steady_pen(self, look.colour("leaf"), 1.0)
            edges = [pg.PlotCurveItem(days, one, pen=thin) for one in (figure.low, figure.high)]
            band = pg.FillBetweenItem(*edges, brush=pg.mkBrush(look.colour("leaf_soft")))
            usual = pg.PlotCurveItem(
                days,
                figure.usual,
                pen=steady_pen(self, look.colour("leaf_text"), 1.6, Qt.PenStyle.DashLine),
                antialias=True,
            )
            for item in (band, *edges, usual):
                self.addItem(item, ignoreBounds=True)
        own = ~np.isnan(figure.this_year)
        if own.any():
            curve = pg.PlotCurveItem(
                days[own],
                figure.this_year[own],
                pen=steady_pen(self, look.colour("clay"), 2.6),
                antialias=True,
            )
            self.addItem(curve, ignoreBounds=True)
        self.add_reading()
        top = float(np.nanmax([*figure.high, *figure.this_year, 1.0]))
        self.setXRange(*self._busy(top), padding=0)
        self.setYRange(0, top * AIR, padding=0)

    def _busy(self, top: float) -> tuple[int, int]:
        """Return the days between which heat is gathered at all, this year's among them."""
        figure = self._figure
        begun = np.flatnonzero(np.fmax(figure.high, figure.this_year) > BEGUN_SHARE * top)
        ended = np.flatnonzero(figure.usual >= (1 - BEGUN_SHARE) * figure.usual[-1])
        known = np.flatnonzero(~np.isnan(figure.this_year))
        first = int(begun[0]) - AROUND_DAYS if begun.size else 0
        last = max(
            [int(ended[0]) + AROUND_DAYS if ended.size else len(figure.days) - 1, *known[-1:].tolist()]
        )
        return max(0, first), min(last, len(figure.days) - 1)
