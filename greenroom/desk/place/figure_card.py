"""One figure of the weather record: its words, its chart, and the table behind it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QSizePolicy, QStackedWidget

from greenroom.desk.bench import Bench
from greenroom.desk.parts import Card, WhyLink, button, label
from greenroom.desk.place.chart_key import ChartKey
from greenroom.desk.place.figures import Figure, YearFigure
from greenroom.desk.rows_table import RowsTable
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.why import Why
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.desk.place.heat_chart import HeatChart
    from greenroom.desk.place.year_chart import YearChart
    from greenroom.exchange.tables.table import Table

CHART_PX = 190


class FigureCard(Card):
    """Draws only while it is seen, and only when it is its turn: ``waiting`` asks for one."""

    waiting = Signal()

    def __init__(self, bench: Bench, why: Callable[[], Why | None]) -> None:
        super().__init__(" ")
        self._bench = bench
        self.stale = False
        self.figure: Figure | None = None
        self.chart: YearChart | HeatChart | None = None
        self.aside.hide()
        self.why = WhyLink(bench, why)
        self.turn = button(tr("Table"), self.turn_over, "link")
        self.head.addStretch(1)
        self.head.addWidget(self.why)
        self.head.addWidget(self.turn)
        self.head.addWidget(TableButton(bench, self._numbers, lambda: self.chart, tr("Save")))
        self.summary = label("", wrap=True)
        self.key = ChartKey(bench.look)
        self.table = RowsTable("")
        self.views = QStackedWidget()
        self.views.setFixedHeight(CHART_PX)
        self.views.addWidget(self.table)
        for part in (self.summary, self.key, self.views):
            self.body.addWidget(part)
        self.body.addStretch(1)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)

    @property
    def as_table(self) -> bool:
        """Whether the table is in front."""
        return self.chart is not None and self.views.currentWidget() is self.table

    def show_figure(self, figure: Figure) -> None:
        """Show a figure."""
        self.figure = figure
        self.title.setText(figure.title)
        self.summary.setText(figure.summary)
        self.key.show_figure(figure)
        self.table.setAccessibleName(tr("{title}, as a table", title=figure.title))
        if self.as_table:
            self.table.show_rows(figure.header, figure.rows)
        self._name_turn(figure.title)
        self.why.setAccessibleName(tr("why: {title}", title=figure.title))
        self.setAccessibleName(figure.title)
        self.setAccessibleDescription(figure.summary)
        self.stale = True
        if self.isVisible():
            self.waiting.emit()

    def turn_over(self) -> None:
        """Show the table in place of the chart, or the chart again."""
        if self.chart is None or self.figure is None:
            return
        if not self.as_table:
            self.table.show_rows(self.figure.header, self.figure.rows)
        self.views.setCurrentWidget(self.chart if self.as_table else self.table)
        self.turn.setText(tr("Chart") if self.as_table else tr("Table"))
        self._name_turn(self.figure.title)
        self.key.setVisible(not self.as_table)

    def _name_turn(self, title: str) -> None:
        name = tr("{title}: chart", title=title) if self.as_table else tr("{title}: table", title=title)
        self.turn.setAccessibleName(name)

    def _numbers(self, bench: Bench) -> Table | None:
        """Return the numbers behind the figure, all of them."""
        return sources.years(bench) if isinstance(self.figure, YearFigure) else sources.heat(bench)

    def draw(self) -> None:
        """Draw the chart as the figure stands."""
        figure = self.figure
        if figure is None:
            return
        self.stale = False
        if self.chart is None:
            self.chart = _chart_of(self._bench, figure)
            self.views.addWidget(self.chart)
            self.views.setCurrentWidget(self.chart)
        else:
            self.chart.show_figure(figure)  # type: ignore[arg-type] # a card keeps to one kind of figure
        self.chart.setAccessibleName(figure.title)
        self.chart.setAccessibleDescription(figure.summary)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self.stale:
            self.waiting.emit()


def _chart_of(bench: Bench, figure: Figure) -> YearChart | HeatChart:
    """Return a chart for a figure; the plotting library is loaded by the first one."""
    if isinstance(figure, YearFigure):
        from greenroom.desk.place.year_chart import YearChart

        return YearChart(bench.look, figure)
    from greenroom.desk.place.heat_chart import HeatChart

    return HeatChart(bench.look, figure)
