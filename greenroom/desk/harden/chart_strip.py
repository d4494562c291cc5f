"""The weather strip under the chart of a ramp: its columns stand under the chart's own bars."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, Signal
from PySide6.QtGui import QResizeEvent, QShowEvent

from greenroom.desk.bench import Bench
from greenroom.desk.harden.day_scale import DayScale
from greenroom.desk.harden.weather_strip import WeatherStrip
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.ramp_days import RampDay
from greenroom.season.side_by_side import Span
from greenroom.season.weather_strip import strip_days

if TYPE_CHECKING:
    from greenroom.desk.harden.ramp_chart import RampChart

BESIDE_FIRST, BESIDE_LAST = 0.1, 0.1
"""What the chart's axis leaves beside its first and last column, in columns."""


class ChartStrip(WeatherStrip):
    """Shows the days that the chart shows; it is asked to follow when the chart was drawn or resized."""

    moved = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench.look, low=True)
        self._bench = bench

    def follow(self, chart: RampChart, stand: TwoClocks, days: list[RampDay]) -> None:
        """Stand under the bars of a chart."""
        if not days:
            return
        span = Span(days[0].date, days[-1].date)
        keeper = self._bench.keeper
        scale = DayScale(span, *self._edges(chart, span.count))
        self.show_days(strip_days(keeper.season, span, [stand]), scale, keeper.place)

    def _edges(self, chart: RampChart, count: int) -> tuple[float, float]:
        """Return where the first column begins and the last ends, in this strip's own places."""
        box = chart.getPlotItem().getViewBox().sceneBoundingRect()
        column = box.width() / (count + BESIDE_FIRST + BESIDE_LAST)
        ends = box.left() + BESIDE_FIRST * column, box.right() - BESIDE_LAST * column
        left, right = (chart.mapFromScene(QPointF(end, box.bottom())).x() for end in ends)
        beside = chart.x() - self.x()
        return float(left + beside), float(right + beside)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.moved.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.moved.emit()
