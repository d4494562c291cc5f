"""Files out: all facts in one zip, and every list as a table by its name."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtWidgets import QGridLayout, QProgressBar

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, column, label, row
from greenroom.desk.place.tabs import Part
from greenroom.desk.tables import sources
from greenroom.desk.tables.saving import choose_file
from greenroom.desk.tables.table_button import TableButton
from greenroom.desk.worker import Cancelled as AskedToStop
from greenroom.desk.worker import Progress, Worker
from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.facts_csv import write_facts
from greenroom.exchange.tables.table import Table
from greenroom.ledger import LedgerError

FULL = 100
ABOUT = (
    "Every fact in force, one CSV file a kind, in one zip, with a description of every column that programs "
    "read (CSV on the Web, W3C 2015). Nothing is left out but pictures, and what you struck out."
)
CALLED_OFF = "Called off; nothing was saved."
TABLES: tuple[tuple[str, Callable[[Bench], Table | None]], ...] = (
    ("Packets", sources.packets),
    ("Varieties", sources.varieties),
    ("Germination tests", sources.home_tests),
    ("Trays and racks", sources.holders),
    ("Cells", sources.all_cells),
    ("Light on the shelves", sources.lamps),
    ("Hardening days", sources.hardening),
    ("Minutes and light outdoors", sources.minutes),
    ("Plants on the plot", sources.plants),
    ("Feeds", sources.feeds),
    ("Waterings", sources.waterings),
    ("Weighings", sources.weighings),
    ("Findings", sources.findings),
    ("Losses", sources.losses),
    ("Picks", sources.picks),
    ("The round", sources.the_round),
    ("The week ahead", sources.week),
    ("Weather record", sources.record),
    ("Forecast", sources.forecast),
)
ACROSS = 4


class FactsCard(Card):
    """Writes all facts off the window's thread; it can be called off until the file is whole."""

    def __init__(self, bench: Bench) -> None:
        super().__init__("All facts")
        self.aside.hide()
        self._bench = bench
        self.bar = QProgressBar()
        self._worker: Worker[Path] = Worker((BadFileError, Cancelled, LedgerError), self)
        self._worker.progressed.connect(lambda share: self.bar.setValue(int(share * FULL)))
        self._worker.finished.connect(self._on_written)
        self._worker.failed.connect(self._on_failed)
        self.bar.setRange(0, FULL)
        self.bar.setTextVisible(False)
        self.bar.setAccessibleName("share of the facts written")
        self.write = button("Save all facts", self.choose, "primary", name="save-facts")
        self.cancel = button("Cancel", self.stop, name="cancel-facts")
        self.told = label("", wrap=True)
        self.told.hide()
        for part in (label(ABOUT, "quiet", wrap=True), self.bar, self.told):
            self.body.addWidget(part)
        self.body.addLayout(row(self.write, self.cancel, None))
        self._show_busy(busy=False)

    def choose(self) -> None:
        """Let the grower choose where the zip is to be."""
        choose_file(self.window(), "greenroom facts", "zip", "Zip files", self.start)

    def start(self, path: Path) -> None:
        """Write the zip."""
        ledger, now = self._bench.keeper.ledger, self._bench.keeper.now

        def work(progress: Progress, stopped: AskedToStop) -> Path:
            return write_facts(path, ledger.entries(), now, progress, stopped)

        self._say(f"Writing {path.name} …")
        self.bar.setValue(0)
        self._worker.start(work)
        self._show_busy(busy=True)
        self.cancel.setFocus()

    def stop(self) -> None:
        """Call the writing off; what was there before stays."""
        if self._worker.running:
            self._worker.cancel()
            self._on_failed(Cancelled(CALLED_OFF))

    def _on_written(self, path: Path) -> None:
        self._show_busy(busy=False)
        self._say(f"{path.name} was saved.")

    def _on_failed(self, error: Exception) -> None:
        self._show_busy(busy=False)
        self._say(str(error) or CALLED_OFF)

    def _say(self, words: str) -> None:
        self.told.setText(words)
        self.told.show()

    def _show_busy(self, *, busy: bool) -> None:
        self.bar.setVisible(busy)
        self.cancel.setVisible(busy)
        self.write.setVisible(not busy)


class TablesCard(Card):
    """Each list by its name, a button each."""

    def __init__(self, bench: Bench) -> None:
        super().__init__("Tables")
        self.aside.setText("to read, copy, or save as CSV")
        grid = QGridLayout()
        grid.setHorizontalSpacing(2 * GAP)
        grid.setVerticalSpacing(GAP // 2)
        for place, (words, make) in enumerate(TABLES):
            made = TableButton(bench, make, text=words)
            made.setAccessibleName(f"open the table: {words}")
            grid.addWidget(made, place // ACROSS, place % ACROSS)
        grid.setColumnStretch(ACROSS, 1)
        self.body.addLayout(grid)


class FilesTab(Part):
    """Both cards."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.facts = FactsCard(bench)
        self.tables = TablesCard(bench)
        layout = column(self.facts, self.tables, None, gap=GAP + 4)
        self.setLayout(layout)

    def closing(self) -> None:
        self.facts.stop()
