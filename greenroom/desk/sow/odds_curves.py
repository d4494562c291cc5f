"""The curves of the odds chart with their names beside them, each told apart by its strokes as by its colour.

This module brings pyqtgraph in, as the chart does.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import pyqtgraph as pg
from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QFont, QFontMetricsF

from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.sharp import steady_pen
from greenroom.desk.sow.curve_labels import label_places
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.season.plan import PlanRow
from greenroom.season.plan_chart import PlanChart

MOST_NAMED = 7
LEAST_NAMED_PX = 150


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


class NamedCurves:
    """Draws the curves on a plot; of many varieties only those about the one chosen are named."""

    def __init__(self, desk: PlanDesk, look: Look, plot: pg.PlotWidget) -> None:
        self._desk = desk
        self._look = look
        self._plot = plot
        self._box = plot.getPlotItem().getViewBox()
        self._curves: dict[str, pg.PlotDataItem] = {}
        self.names: list[pg.TextItem] = []
        self.rest = pg.PlotCurveItem(connect="finite")

    def named(self, row: PlanRow) -> list[PlanRow]:
        """Return the varieties whose curves are named: the one chosen, and those that stand about it."""
        rows = [one for one in self._desk.plan.rows if one.sowing is not None]
        place = next((place for place, one in enumerate(rows) if one.variety == row.variety), 0)
        start = max(0, min(place - MOST_NAMED // 2, len(rows) - MOST_NAMED))
        return rows[start : start + MOST_NAMED]

    def draw(self, chart: PlanChart, row: PlanRow) -> None:
        """Draw the curves: those that are named each in its own way, the others thin and in one."""
        days = np.array([day.toordinal() for day in chart.days], dtype=float)
        named = {one.variety for one in self.named(row)}
        others = [chart.odds(key) for key in chart.varieties if key not in named]
        self.rest.setData(
            np.tile(np.append(days, np.nan), len(others)) if others else [],
            np.concatenate([np.append(one, np.nan) for one in others]) if others else [],
        )
        for place, one in enumerate(self._desk.plan.rows):
            if one.variety not in named:
                continue
            picked = one.variety == row.variety
            style = STYLES[place % len(STYLES)]
            pen = steady_pen(self._plot, self._look.colour(style.line), 3.2 if picked else 1.7, style.dash)
            curve = pg.PlotDataItem(days, chart.odds(one.variety), pen=pen, antialias=True)
            curve.setZValue(25 if picked else 22)
            self._curves[one.variety] = curve
            self._plot.addItem(curve, ignoreBounds=True)

    def clear(self) -> None:
        """Take the curves and their names away."""
        for item in (*self._curves.values(), *self.names):
            self._plot.removeItem(item)
        self._curves.clear()
        self.names.clear()

    def place_names(self, taken: list[QRectF]) -> None:
        """Write each name at its curve, where it covers the least and nothing that is taken."""
        for item in self.names:
            self._plot.removeItem(item)
        self.names.clear()
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
        places = label_places(curves, sizes, inner, taken)
        for number, ((place, one), rect, type_) in enumerate(zip(rows, places, letters, strict=True)):
            if not any(rect.intersects(other) for other in places[:number]):  # else the pointer tells it
                self._name(one.name, STYLES[place % len(STYLES)].text, rect, type_)

    def at(self, there: QPointF, near_px: float) -> str | None:
        """Return the variety whose curve passes a point of the scene as near as that."""
        far = {
            key: float(np.min(np.hypot(*(self._in_scene(key) - (there.x(), there.y())).T)))
            for key in self._curves
        }
        near = min(far, key=lambda key: far[key], default=None)
        return near if near is not None and far[near] <= near_px else None

    def _name(self, words: str, colour: str, rect: QRectF, letters: QFont) -> None:
        ground = self._look.colour("card")
        ground.setAlpha(190)  # so that a curve it must lie on does not strike it out
        item = pg.TextItem(color=self._look.colour(colour), anchor=(0, 0), fill=ground)
        item.setPlainText(words)
        item.setFont(letters)
        item.textItem.document().setDocumentMargin(1)
        item.setPos(self._box.mapSceneToView(rect.topLeft()))
        item.setZValue(28)
        self.names.append(item)
        self._plot.addItem(item, ignoreBounds=True)

    def _in_scene(self, variety: str) -> np.ndarray:
        """Return a curve's points in pixels."""
        x, y = self._curves[variety].getData()
        low, high = (self._box.mapViewToScene(QPointF(*corner)) for corner in ((0, 0), (1, 1)))
        wide, tall = high.x() - low.x(), high.y() - low.y()
        return np.column_stack((low.x() + x * wide, low.y() + y * tall))
