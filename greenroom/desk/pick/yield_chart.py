"""One measure of harvests as bars, a group a variety, a bar a season; each bar says its season and value.

This module brings pyqtgraph in; it is imported when the first chart is shown, not before.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import pyqtgraph as pg
from PySide6.QtCore import QEvent, QPoint, Qt

from greenroom.desk.chart_parts import Plot, StepAxis
from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.parts import told_under
from greenroom.desk.sharp import steady_pen
from greenroom.season.within import in_row
from greenroom.speech import tr

NAMES_PX = 118
HALF, AIR = 0.5, 0.28
BAR_PX, GROUP_PX, AXIS_PX, TITLE_PX = 17, 16, 26, 20
LEAST_PX = 260
ROOM_FOR_WORDS = 1.55
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000, 50_000, 100_000)
FILLS = ("leaf", "sun", "plum", "clay", "sky")


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar: the variety, its season, how long it is, what it says, and what else there is to tell."""

    name: str
    year: int
    value: float
    words: str
    more: str

    @property
    def told(self) -> str:
        """What it says, with its name."""
        return tr("{name}: {what}", name=f"{self.name} {self.year}", what=self.words)


class NameAxis(pg.AxisItem):
    """The varieties beside their bars."""

    def __init__(self) -> None:
        super().__init__("left")
        self._names: dict[float, str] = {}

    def show_names(self, names: dict[float, str]) -> None:
        """Write other names, each at its place."""
        self._names = names
        self.picture = None
        self.update()

    def tickValues(self, _low: float, _high: float, _size: float) -> list[tuple[float, list[float]]]:
        return [(1.0, list(self._names))]

    def tickStrings(self, values: Sequence[float], _scale: float, _spacing: float) -> list[str]:
        return [self._names[value] for value in values]


class YieldChart(Plot):
    """Bars from left to right, the varieties from top to bottom."""

    def __init__(self, look: Look) -> None:
        self._names = NameAxis()
        super().__init__(look, self._names, StepAxis("bottom", STEPS))
        self._bars: list[Bar] = []
        self._unit = ""
        self._names.setWidth(NAMES_PX)
        self.setMinimumWidth(LEAST_PX)
        self._drawn: list[tuple[float, Bar]] = []
        self.viewport().setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.viewport().setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.bottom.setHeight(AXIS_PX + TITLE_PX)
        look.changed.connect(self.draw)

    def show_bars(self, bars: Sequence[Bar], unit: str) -> None:
        """Show other bars; ``unit`` stands at the axis."""
        self._bars, self._unit = list(bars), unit
        names = dict.fromkeys(one.name for one in bars)
        height = len(bars) * BAR_PX + len(names) * GROUP_PX + AXIS_PX + TITLE_PX + 12
        self.setFixedHeight(max(140, height))
        self.draw()

    def bar_at(self, point: QPoint) -> Bar | None:
        """Return the bar on whose line a point is, or None between them."""
        y = self.getPlotItem().getViewBox().mapSceneToView(self.mapToScene(point)).y()
        return next((one for place, one in self._drawn if abs(y - place) <= HALF), None)

    def event(self, event: QEvent) -> bool:
        return told_under(self, event, self._words_at) or super().event(event)

    def _words_at(self, point: QPoint) -> str:
        one = self.bar_at(point)
        return in_row((one.told, one.more)) if one is not None else ""

    def draw(self) -> None:
        super().draw()
        self._drawn.clear()
        self.bottom.setLabel(self._unit, **{"font-size": f"{SMALL_PX}px"})
        years = sorted({one.year for one in self._bars}, reverse=True)
        top, places = 0.0, dict[float, str]()
        for name in dict.fromkeys(one.name for one in self._bars):
            group = [one for one in self._bars if one.name == name]
            for one in group:
                self._drawn.append((-(top + HALF), one))
                self._draw_bar(one, -(top + HALF), FILLS[years.index(one.year) % len(FILLS)])
                top += 1
            places[-(top - len(group) / 2)] = name
            top += GROUP_PX / BAR_PX
        self._names.show_names(places)
        most = max((one.value for one in self._bars), default=1.0) or 1.0
        self.setXRange(0, most * ROOM_FOR_WORDS, padding=0)
        self.setYRange(-top, 0.4, padding=0)
        self.setAccessibleDescription(in_row(one.told for one in self._bars))

    def _draw_bar(self, one: Bar, y: float, fill: str) -> None:
        brush, edge = self._look.colour(fill), steady_pen(self, self._look.colour("ink"), 0.8)
        bar = pg.BarGraphItem(x0=0, y=y, height=1 - AIR, width=one.value, brush=brush, pen=edge)
        self.addItem(bar, ignoreBounds=True)
        words = pg.TextItem(
            tr("{name}: {what}", name=one.year, what=one.words), self._look.colour("ink"), anchor=(0, 0.5)
        )
        words.setFont(font(SMALL_PX))
        words.setPos(one.value, y)
        self.addItem(words, ignoreBounds=True)
