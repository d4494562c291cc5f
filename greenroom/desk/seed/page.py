"""The Seed page: the packets in the seed box, a new one, a chosen one, and seed lists from files."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QLineEdit, QStackedWidget, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.nothing_yet import NothingYet
from greenroom.desk.page import Page
from greenroom.desk.paper.errand import REPORT, Errand
from greenroom.desk.paper.way import paper_button
from greenroom.desk.parts import button, column, label, row, short_label
from greenroom.desk.seed.expectations import Expectations
from greenroom.desk.seed.list_import import ListImport
from greenroom.desk.seed.packet_model import PacketModel
from greenroom.desk.seed.packet_panel import PacketPanel
from greenroom.desk.seed.packet_rows import rows_of
from greenroom.desk.seed.packet_table import PacketTable
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.season.own_sowings import KINDS as OWN_KINDS
from greenroom.season.state import Touched
from greenroom.speech import many, tr, trn

KINDS = frozenset(("packet", "variety", "sown", "germination_test"))
EXPECTED_KINDS = KINDS | {cls.kind for cls in OWN_KINDS} | {"germination_count"}
PANEL_KINDS = EXPECTED_KINDS | {"wanted", "plan_rules", "units_set", "place_set", "picture_kept"}
EMPTY = tr("The seed box is empty")
EMPTY_WORDS = tr("Enter your first packet on the right, or import a seed list from a file.")
NONE_MATCH = tr("No packet matches the filter")
MATCH_WORDS = tr("A filter is looked for in the name, kind, lot and year of each packet.")
FILTER_PX = 200
WIDE_PX, WIDE_PANEL_PX, PANEL_PX = 1300, 420, 348


class SeedPage(Page):
    """The table of packets, and beside it the sheet of one packet; or the import of a list."""

    key = "seed"

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self._stale = True
        self._day = bench.keeper.today
        self.expectations = Expectations(bench.keeper, self)
        self.model = PacketModel(self, self.expectations.wanted)
        self.table = PacketTable(self.model, bench.look)
        self.panel = PacketPanel(bench, self.expectations)
        self.card = self.panel.card
        self.list_import = ListImport(bench)
        self.filter = QLineEdit()
        self.summary = short_label("", "quiet")
        enter = button(tr("Enter a packet"), self.card.form.focus_first, "primary", name="first-packet")
        first_list = button(tr("Import a seed list"), self.show_import, name="first-list")
        self.empty = NothingYet(EMPTY, EMPTY_WORDS, enter, first_list, inside=True)
        show_all = button(tr("Show all packets"), self.filter.clear, name="show-all")
        self.unmatched = NothingYet(NONE_MATCH, MATCH_WORDS, show_all, inside=True)
        self.open_import = button(tr("Import a seed list"), self.show_import, name="open-list")
        self.views = QStackedWidget()
        self._lay_out()
        self._connect()

    def take(self, touched: Touched) -> None:
        if touched.kinds & EXPECTED_KINDS:
            self.expectations.forget()
            self._stale = True
        if self.isVisible() and touched.kinds & PANEL_KINDS:
            self._refresh()

    def entered(self) -> None:
        self._refresh()
        if not self.model.rows:
            self.card.form.focus_first()

    def take_focus(self) -> None:
        if self.table.isVisible():
            self.table.setFocus(Qt.FocusReason.OtherFocusReason)
        else:
            super().take_focus()

    def leave(self) -> None:
        self.panel.commit()

    def tick(self, _now: datetime) -> None:
        if self.bench.keeper.today != self._day:
            self._grow_older()

    def closing(self) -> None:
        self.expectations.stop()
        self.panel.closing()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.panel.setFixedWidth(WIDE_PANEL_PX if self.width() >= WIDE_PX else PANEL_PX)

    def show_import(self) -> None:
        """Show the import of a list in place of the table."""
        self.panel.commit()
        self.views.setCurrentIndex(1)
        self.open_import.setEnabled(False)
        self.list_import.file.path.setFocus()

    def show_box(self) -> None:
        """Show the table again."""
        self.views.setCurrentIndex(0)
        self.open_import.setEnabled(True)
        self._refresh()
        self.table.setFocus()

    def _refresh(self) -> None:
        keeper = self.bench.keeper
        if self._stale:
            self._stale = False
            self.model.show_rows(rows_of(keeper.season, self.bench.guide, keeper.today))
        self.panel.refresh()
        self._show_summary()

    def _grow_older(self) -> None:
        """Take notice of another day: seed is a day older, and a test nearer its end."""
        self._day = self.bench.keeper.today
        self.expectations.forget()
        self._stale = True
        if self.isVisible():
            self._refresh()

    def _show_summary(self) -> None:
        rows = self.model.rows
        left = sum(one.left for one in rows if one.left is not None)
        kinds = len({one.name for one in rows})
        words = [
            many(len(rows), "packet"),
            trn("{n:,} variety", "{n:,} varieties", kinds),
            trn("1 counted seed left", "{n:,} counted seeds left", left),
        ]
        self.summary.setText(" · ".join(words) if rows else tr("no packets yet"))
        shown = self.model.rowCount() > 0
        self.empty.setVisible(not rows)
        self.unmatched.setVisible(bool(rows) and not shown)
        self.table.setVisible(shown)

    def _on_filter(self, text: str) -> None:
        self.model.set_filter(text)
        self._show_summary()

    def _on_added(self, key: str) -> None:
        if self.model.row_of(key) is None:
            self.filter.clear()

    def _connect(self) -> None:
        self.expectations.found.connect(self.model.take_expected)
        self.expectations.all_found.connect(self.model.sort_again)
        self.filter.textChanged.connect(self._on_filter)
        self.table.current_packet.connect(self._on_current)
        self.table.opened.connect(self.panel.open_fields)
        self.table.struck.connect(self.card.strike_out)
        self.card.added.connect(self._on_added)
        self.card.another.clicked.connect(lambda _checked=False: self.table.choose(None))
        self.list_import.closed.connect(self.show_box)

    def _on_current(self, key: str | None) -> None:
        if key is not None or self.card.key is not None:
            self.card.show_packet(key)

    def _lay_out(self) -> None:
        self.filter.setPlaceholderText(tr("filter: name, kind, lot, year"))
        self.filter.setAccessibleName(tr("Filter packets"))
        self.filter.setClearButtonEnabled(True)
        self.filter.setFixedWidth(FILTER_PX)
        sheet = QFrame()
        sheet.setProperty("role", "card")
        inside = column(self.empty, self.unmatched, self.table, gap=0)
        inside.setContentsMargins(2, 2, 2, 2)
        sheet.setLayout(inside)
        box = QWidget()
        layout = row(gap=GAP + 4)
        layout.addWidget(sheet, 1)
        layout.addWidget(self.panel)
        box.setLayout(layout)
        self.views.addWidget(box)
        self.views.addWidget(self.list_import)
        page = QVBoxLayout(self)
        page.setContentsMargins(PAGE_MARGIN, PAGE_MARGIN - 4, PAGE_MARGIN, PAGE_MARGIN - 4)
        page.setSpacing(GAP + 2)
        numbers = TableButton(self.bench, sources.packets)
        report = paper_button(self.bench, lambda: Errand(REPORT, back=self.key), tr("Season report…"), "link")
        acts = (report, numbers, self.filter, self.open_import)
        page.addLayout(row(label(tr("Seed box"), "page-title"), self.summary, None, *acts))
        page.addWidget(self.views, 1)
