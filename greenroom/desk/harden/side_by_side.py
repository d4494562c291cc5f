"""All trays on the ramp side by side: a chart with the weather under it, and the same as a table."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QPushButton, QStackedWidget, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.harden.bar_art import ChartKey
from greenroom.desk.harden.chart_card import told_at
from greenroom.desk.harden.day_scale import DayHead, DayScale
from greenroom.desk.harden.tray_grid import TrayGrid
from greenroom.desk.harden.weather_strip import WeatherStrip
from greenroom.desk.nothing_yet import NothingYet
from greenroom.desk.parts import Card, WhyLink, button, column
from greenroom.desk.rows_table import RowsTable
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.ready_history import spread_of, spread_why
from greenroom.season.side_by_side import COLUMNS, Span, TrayLine, cells, span_of, tray_line
from greenroom.season.weather_strip import strip_days
from greenroom.season.why import Why
from greenroom.speech import tr

BETWEEN_TRAYS_MS = 5
TITLE = tr("Nothing is going out yet")
NOTHING = tr("Trays stand here side by side, day by day, once their hardening has begun.")
MARKS = tr("▼ set back   × in   hatched: held   ◆ ready, in 8 years of 10")


class SideBySide(Card):
    """The trays come first; how sure each ready date is follows tray by tray."""

    opened = Signal(str)

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Trays side by side"))
        self._bench = bench
        self._stands: list[TwoClocks] = []
        self._lines: list[TrayLine] = []
        self._waiting: list[int] = []
        self.head_days = DayHead(bench.look)
        self.grid = TrayGrid(bench.look)
        self.grid.told = told_at
        self.strip = WeatherStrip(bench.look)
        self.table = RowsTable(tr("Trays side by side, as a table"))
        self.table.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        self.as_table = QPushButton(tr("Table"))
        self.as_table.setObjectName("side-table")
        self.as_table.setProperty("kind", "link")
        self.as_table.setCheckable(True)
        self.as_table.setAccessibleName(tr("Show the trays as a table"))
        back = button(tr("Back to the trays"), lambda: self.opened.emit(""), "primary", name="side-back")
        self.nothing = NothingYet(TITLE, NOTHING, back, inside=True)
        self.why = WhyLink(bench, self._why)
        self.why.setAccessibleName(tr("why this ready date"))
        self.aside.setText(MARKS)
        self.head.addWidget(self.why)
        self.head.addWidget(self.as_table)
        self._timer = QTimer(self, interval=BETWEEN_TRAYS_MS)
        self._assemble()
        self._connect()

    @property
    def lines(self) -> list[TrayLine]:
        """The trays as they are shown."""
        return self._lines

    def show_stands(self, stands: list[TwoClocks]) -> None:
        """Show how all holders on the ramp stand; those that did not change keep what was worked out."""
        season = self._bench.keeper.season
        before = {id(stand): line for stand, line in zip(self._stands, self._lines, strict=True)}
        lines = [before.get(id(stand)) or tray_line(season, stand) for stand in stands]
        self._stands, self._lines = stands, lines
        self._waiting = [place for place, line in enumerate(lines) if line.spread is None]
        self._show()
        if self._waiting and self.isVisible():
            self._timer.start()

    def take_focus(self) -> None:
        """Give the keyboard to the trays, or to the way back where there are none."""
        if self._lines:
            self.grid.setFocus()
        else:
            self.nothing.take_focus()

    def stop(self) -> None:
        """Work nothing out until it is asked for again."""
        self._timer.stop()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self.opened.emit("")
        else:
            super().keyPressEvent(event)

    def _assemble(self) -> None:
        chart = QWidget()
        lines = column(ChartKey(self._bench.look), self.head_days, gap=0)
        lines.addWidget(self.grid, 1)
        lines.addWidget(self.strip)
        chart.setLayout(lines)
        self.stack = QStackedWidget()
        self.stack.addWidget(chart)
        self.stack.addWidget(self.table)
        self.stack.addWidget(self.nothing)
        self.body.addWidget(self.stack, 1)

    def _connect(self) -> None:
        self._timer.timeout.connect(self._work_out_one)
        self.grid.opened.connect(self.opened.emit)
        self.grid.scaled.connect(self._show_scale)
        self.table.activated.connect(lambda index: self.opened.emit(self._lines[index.row()].key))
        self.as_table.toggled.connect(self._turn)

    def _turn(self, on: bool) -> None:
        self.stack.setCurrentIndex(1 if on else 0)
        self.as_table.setText(tr("Chart") if on else tr("Table"))
        self.as_table.setAccessibleName(tr("Back to the chart") if on else tr("Show the trays as a table"))

    def _span(self) -> Span:
        today: date = self._bench.keeper.today
        return span_of(self._lines, today)

    def _show(self) -> None:
        some = bool(self._lines)
        self.as_table.setVisible(some)
        self.aside.setVisible(some)
        if some:
            self._turn(self.as_table.isChecked())
        else:
            self.stack.setCurrentWidget(self.nothing)
        self._show_scale()
        self.why.setVisible(any(line.spread is not None for line in self._lines))
        self.table.show_rows(COLUMNS, [cells(line) for line in self._lines])

    def _show_scale(self) -> None:
        """Show all on the axis of days, at the width there is."""
        keeper = self._bench.keeper
        scale = DayScale(self._span(), *self.grid.plot_edges)
        self.head_days.show_scale(scale, keeper.today)
        self.grid.show_lines(list(self._lines), scale)
        self.strip.show_days(strip_days(keeper.season, scale.span, self._stands), scale, keeper.place)

    def _work_out_one(self) -> None:
        """Work out how sure the next ready date is; the axis follows when all are known."""
        if not self._waiting:
            self._timer.stop()
            return
        place = self._waiting.pop(0)
        spread = spread_of(self._bench.keeper.season, self._stands[place])
        self._lines[place] = replace(self._lines[place], spread=spread)
        if not self._waiting:
            self._timer.stop()
            self._show()

    def _why(self) -> Why | None:
        line = next((line for line in self._lines if line.key == self.grid.current), None)
        return spread_why(line.spread) if line is not None and line.spread is not None else None
