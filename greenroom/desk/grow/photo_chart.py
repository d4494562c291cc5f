"""The leaf cover of a tray over the days: a thin line a cell, and the median of those with leaf.

It brings pyqtgraph in: import this when the chart is first shown.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSizePolicy

from greenroom.desk.care.charts import ROOM, CareChart
from greenroom.desk.chart_parts import StepAxis
from greenroom.desk.look import Look
from greenroom.desk.sharp import steady_pen
from greenroom.season.canopy import CanopyDay, cover_words
from greenroom.season.hardening_words import day_words
from greenroom.speech import many, tr

LEAST_HEIGHT_PX = 120
THIN_ALPHA = 120
LEAST_TOP = 5.0  # per cent


class CoverAxis(StepAxis):
    """Per cent of a cell."""

    def tickStrings(self, values: Sequence[float], _scale: float, _spacing: float) -> list[str]:
        return [tr("{share:g} %", share=value) for value in values]


class CanopyChart(CareChart):
    """Draws the days on which a tray was read."""

    def __init__(self, look: Look) -> None:
        super().__init__(look, CoverAxis("left"))
        self.setMinimumHeight(LEAST_HEIGHT_PX)
        self.setMaximumHeight(16_777_215)  # Qt's own largest: as tall as there is room
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self._shown: tuple[CanopyDay, ...] = ()
        self._words = self.words_at

    def show_days(self, days: tuple[CanopyDay, ...]) -> None:
        """Draw the readings of a tray, in the order of their days."""
        self._shown = days
        self.draw()

    def draw(self) -> None:
        super().draw()
        if not self._shown:
            return
        start = self._start
        self.days.show_from(start)
        xs, ys = self._cells()
        if len(xs):
            colour = self._look.colour("leaf_text")
            colour.setAlpha(THIN_ALPHA)
            thin = pg.PlotCurveItem(
                xs, ys, pen=steady_pen(self, colour, 1.0), connect="finite", antialias=True
            )
            self.addItem(thin, ignoreBounds=True)
        middles = [(float((one.day - start).days), one.middle * 100) for one in self._shown]
        self._curve(middles, "leaf_text", 2.4, Qt.PenStyle.SolidLine)
        self._dots(middles, "leaf_text")
        self.setXRange(0, middles[-1][0] + 1, padding=0)
        top = max((cover for one in self._shown for cover in one.cover.values()), default=0.0) * 100
        self.setYRange(0, max(LEAST_TOP, top) * ROOM, padding=0)

    def words_at(self, days: float) -> str:
        """Return what was read on a day, or that nothing was."""
        day = self._start + timedelta(days=round(days))
        found = next((one for one in self._shown if one.day == day), None)
        if found is None:
            return day_words(day)
        leafy = many(found.leafy, "cell")
        return tr(
            "{day}: median {cover} of {cells} with leaf",
            day=day_words(day),
            cover=cover_words(found.middle),
            cells=leafy,
        )

    @property
    def _start(self) -> date:
        return self._shown[0].day - timedelta(days=1)

    def _cells(self) -> tuple[np.ndarray, np.ndarray]:
        """Return the line of each cell, one after the other, nothing between two of them."""
        keys = sorted({key for one in self._shown for key, cover in one.cover.items() if cover > 0})
        xs: list[float] = []
        ys: list[float] = []
        for key in keys:
            for one in self._shown:
                if key in one.cover:
                    xs.append(float((one.day - self._start).days))
                    ys.append(one.cover[key] * 100)
            xs.append(np.nan)
            ys.append(np.nan)
        return np.array(xs), np.array(ys)
