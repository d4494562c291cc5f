"""The plan: what is wanted, the odds against the sowing date, the season of each, and what to know of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QFrame,
    QGridLayout,
    QPushButton,
    QScrollArea,
    QSpinBox,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from greenroom.desk.bench import Bench
from greenroom.desk.flow import Flow
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.nothing_yet import NothingYet
from greenroom.desk.page import Page
from greenroom.desk.parts import Card, WhyLink, button, label, row
from greenroom.desk.sow.note_panel import NotePanel
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.desk.sow.rules_panel import RulesPanel
from greenroom.desk.sow.strip_card import StripCard
from greenroom.desk.sow.want_panel import WantPanel
from greenroom.desk.sow.want_table import WantTable
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.plan import Basis
from greenroom.season.plan_help import short_why
from greenroom.season.state import Touched
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.desk.sow.odds_chart import OddsChart

WIDE_PX = 1300
YEARS = 3  # before and after this one
NOTHING = tr("Nothing is on the plan of {year} yet")
CHOOSE = tr("Choose varieties on the right; how many seeds to sow, and when, follows from the plants wanted.")
NO_SEED = tr("Put your packets into the seed box first; the plan is made of the varieties in it.")
WHOLE: tuple[tuple[int, int, int, int], ...] = ((0, 0, 1, 1), (0, 1, 1, 2), (1, 0, 1, 2), (1, 2, 1, 1))
BEGINNING: tuple[tuple[int, int, int, int], ...] = ((0, 0, 2, 2), (0, 1, 1, 2), (1, 0, 1, 2), (0, 2, 2, 1))
UNBOUND_PX = 16_777_215  # the widest a widget of Qt can be
LEAST_TABLE_PX = 236  # its head and four varieties
PANELS = {"note": tr("Notes"), "want": tr("Add varieties"), "rules": tr("Rules")}


class PlanView(Page):
    """Puts the parts together; ``lay_out_asked`` asks for trays to be laid out."""

    key = "plan"
    lay_out_asked = Signal()

    def __init__(self, bench: Bench, desk: PlanDesk) -> None:
        super().__init__(bench)
        self.desk = desk
        self._stale = True
        self.table = WantTable(desk, bench.look)
        self.year = QSpinBox()
        self.year.setRange(desk.year - YEARS, desk.year + YEARS)
        self.year.setValue(desk.year)
        self.year.setFixedWidth(80)
        self.year.setAccessibleName(tr("Season planned"))
        self.choose = button(tr("Choose varieties"), self._choose, "primary", name="plan-choose")
        self.to_seed = button(
            tr("Go to the seed box"), lambda: bench.show_page("seed"), "primary", name="plan-seed"
        )
        self.short = WhyLink(bench, lambda: short_why(desk.plan))
        self.short.setAccessibleName(tr("why so many fall short"))
        self.nothing = NothingYet("", "", self.choose, self.to_seed, inside=True)
        self.fill = button(tr("Fill the trays"), self.lay_out_asked.emit, name="plan-fill")
        self.strip = StripCard(desk, bench.look)
        self.note = NotePanel(bench, desk)
        self.want = WantPanel(bench, desk)
        self.rules = RulesPanel(bench, desk)
        self.panels = QStackedWidget()
        self._grid = QGridLayout(self)
        self._table_px = 500
        self._whole: bool | None = None  # not placed yet
        self.tabs = QButtonGroup(self)
        self.chart: OddsChart | None = None
        self.chart_card = Card(tr("Odds by sowing date"))
        self.no_chart = label("", "quiet", wrap=True)
        self.to_place = button(tr("Go to the place"), lambda: bench.show_page("place"), name="chart-to-place")
        self._assemble()
        self.year.valueChanged.connect(desk.show_year)
        self.want.done.connect(lambda: self.show_panel("note"))
        desk.changed.connect(self._on_changed)
        desk.picked.connect(self._show_aside)

    def show_panel(self, key: str) -> None:
        """Open a panel beside the strip."""
        self.panels.setCurrentIndex(list(PANELS).index(key))
        for place, tab in enumerate(self.tabs.buttons()):
            tab.setChecked(list(PANELS)[place] == key)
        if key == "note":
            self.note.refresh()

    def take(self, touched: Touched) -> None:
        """The desk hears of changes and tells the parts."""

    def entered(self) -> None:
        if self._stale:
            self._stale = False
            self._make_chart()
            self._refresh()
            if not self.desk.plan.rows:
                self.show_panel("want")

    def leave(self) -> None:
        self.rules.flush()
        self.desk.keep()
        self.note.stop()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        wide = self.width() >= WIDE_PX
        self._table_px = 590 if wide else 500
        self._side.setFixedWidth(352 if wide else 300)
        self._fit_table()

    def _on_changed(self) -> None:
        if self.isVisible():
            self._refresh()
        else:
            self._stale = True

    def _refresh(self) -> None:
        plan = self.desk.plan
        self.year.blockSignals(True)
        self.year.setValue(plan.year)
        self.year.blockSignals(False)
        self.table.refresh()
        self.strip.strip.refresh()
        self.note.refresh()
        some, seed = bool(plan.rows), self.want.known
        self.nothing.say(NOTHING.format(year=plan.year), CHOOSE if seed else NO_SEED)
        self.choose.setVisible(seed)
        self.to_seed.setVisible(not seed)
        for part, shown in ((self.nothing, not some), (self.table, some)):
            part.setVisible(shown)
        self.fill.setEnabled(any(not one.sown for one in plan.rows))
        self._place(whole=some)
        self._show_chart(some)
        self._show_aside()
        short = sum(one.short for one in plan.rows)
        self.short.setText(tr("{count} short of {percent:.0f} %", count=short, percent=plan.rules.odds * 100))
        self.short.setVisible(short > 0)

    def _place(self, *, whole: bool) -> None:
        """Give the parts their places; before anything is wanted only the choosing needs room."""
        if whole != self._whole:
            self._whole = whole
            parts = (self._table_card, self.chart_card, self.strip, self._side)
            for part, at in zip(parts, WHOLE if whole else BEGINNING, strict=True):
                self._grid.addWidget(part, *at)
        self._fit_table()
        self.chart_card.setVisible(whole)
        self.strip.setVisible(whole)
        self._side.setVisible(whole or self.want.known)

    def _fit_table(self) -> None:
        self._table_card.setMinimumWidth(self._table_px)
        self._table_card.setMaximumWidth(self._table_px if self._whole else UNBOUND_PX)

    def _choose(self) -> None:
        self.show_panel("want")
        self.want.list.setFocus(Qt.FocusReason.OtherFocusReason)

    def _show_chart(self, some: bool) -> None:
        plan = self.desk.plan
        charted = plan.chart is not None and bool(plan.chart.varieties)
        words = " ".join(plan.missing)
        if not some:
            words = ""
        self.no_chart.setText(words)
        self.no_chart.setVisible(not charted)
        self.to_place.setVisible(some and not charted and plan.basis is not Basis.RECORD)
        if self.chart is not None:
            self.chart.setVisible(charted)
            self.chart.draw()

    def _show_aside(self) -> None:
        chosen, plan = self.desk.row, self.desk.plan
        if chosen is None or plan.chart is None:
            self.chart_card.aside.setText("")
            return
        self.chart_card.aside.setText(
            tr("shaded: when to sow · dotted: {percent:.0f} %", percent=plan.rules.odds * 100)
        )
        self.table.show_picked()

    def _make_chart(self) -> None:
        """Make the chart; the library that draws it is not asked for before."""
        if self.chart is not None:
            return
        from greenroom.desk.sow.odds_chart import OddsChart

        self.chart = OddsChart(self.desk, self.bench.look)
        self.chart.setAccessibleName(tr("Odds of ripe fruit by sowing date"))
        self.chart.setToolTip(
            tr("Drag the dashed line, or move it with the arrow keys: Enter keeps, Escape lets go.")
        )
        self.chart_card.body.insertWidget(1, self.chart, 1)

    def _assemble(self) -> None:
        self._table_card = Card(tr("What you want"))
        self._table_card.head.insertWidget(1, self.short)
        self._table_card.head.addWidget(self.year)
        self._table_card.head.addWidget(self.fill)
        self._table_card.body.addWidget(self.nothing, 1)
        self._table_card.body.addWidget(self.table, 1)
        self._table_card.body.addStretch(0)
        self._table_card.body.setContentsMargins(10, 10, 10, 8)
        odds = TableButton(self.bench, lambda one: sources.odds(one, self.desk.plan), lambda: self.chart)
        self.chart_card.head.addWidget(odds)
        self.strip.numbers.stands_for(self._table_card)
        self.chart_card.body.addWidget(self.no_chart)
        self.chart_card.body.addLayout(row(self.to_place, None))
        self.chart_card.body.addStretch(0)
        self._side = Card()
        self._side.aside.hide()
        self._side.body.addWidget(Flow(*(self._tab(key, words) for key, words in PANELS.items()), gap=4))
        for part, scrolled in ((self.note, True), (self.want, False), (self.rules, True)):
            self.panels.addWidget(_scrolled(part) if scrolled else part)
        self._side.body.addWidget(self.panels, 1)
        self._grid.setContentsMargins(PAGE_MARGIN, GAP, PAGE_MARGIN, PAGE_MARGIN - 4)
        self._grid.setSpacing(GAP + 4)
        self._grid.setColumnStretch(1, 1)
        self._table_card.setMinimumHeight(LEAST_TABLE_PX)
        for line in (0, 1):
            self._grid.setRowStretch(line, 1)
        self._place(whole=True)

    def _tab(self, key: str, words: str) -> QPushButton:
        made = QPushButton(words)
        made.setCheckable(True)
        made.setChecked(key == "note")
        made.setAutoDefault(False)
        made.setProperty("tight", "yes")
        made.setObjectName(f"panel-{key}")
        made.clicked.connect(lambda _checked=False: self.show_panel(key))
        self.tabs.addButton(made)
        return made


def _scrolled(part: QWidget) -> QScrollArea:
    area = QScrollArea()
    inside = QWidget()
    inside.setObjectName("ground")
    inside.setProperty("role", "plain")
    down = QVBoxLayout(inside)
    down.setContentsMargins(0, 0, 0, 0)
    down.addWidget(part)
    down.addStretch(1)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setWidgetResizable(True)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setWidget(inside)
    return area
