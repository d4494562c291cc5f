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
from greenroom.speech import tr

FULL = 100
ABOUT = tr(
    "Every fact in force, one CSV file a kind, in one zip, with a description of every "
    "column that programs read (CSV on the Web, W3C 2015). Nothing is left out but "
    "pictures, and what you struck out."
)
CALLED_OFF = tr("Called off; nothing was saved.")
TABLES: tuple[tuple[str, Callable[[Bench], Table | None]], ...] = (
    (tr("Packets"), sources.packets),
    (tr("Varieties"), sources.varieties),
    (tr("Germination tests"), sources.home_tests),
    (tr("Trays and racks"), sources.holders),
    (tr("Cells"), sources.all_cells),
    (tr("Light on the shelves"), sources.lamps),
    (tr("Hardening days"), sources.hardening),
    (tr("Minutes and light outdoors"), sources.minutes),
    (tr("Plants on the plot"), sources.plants),
    (tr("Feeds"), sources.feeds),
    (tr("Waterings"), sources.waterings),
    (tr("Weighings"), sources.weighings),
    (tr("Findings"), sources.findings),
    (tr("Losses"), sources.losses),
    (tr("Picks"), sources.picks),
    (tr("The round"), sources.the_round),
    (tr("The week ahead"), sources.week),
    (tr("Weather record"), sources.record),
    (tr("Forecast"), sources.forecast),
)
ACROSS = 4


class FactsCard(Card):
    """Writes all facts off the window's thread; it can be called off until the file is whole."""

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("All facts"))
        self.aside.hide()
        self._bench = bench
        self.bar = QProgressBar()
        self._worker: Worker[Path] = Worker((BadFileError, Cancelled, LedgerError), self)
        self._worker.progressed.connect(lambda share: self.bar.setValue(int(share * FULL)))
        self._worker.finished.connect(self._on_written)
        self._worker.failed.connect(self._on_failed)
        self.bar.setRange(0, FULL)
        self.bar.setTextVisible(False)
        self.bar.setAccessibleName(tr("share of the facts written"))
        self.write = button(tr("Save all facts"), self.choose, "primary", name="save-facts")
        self.cancel = button(tr("Cancel"), self.stop, name="cancel-facts")
        self.told = label("", wrap=True)
        self.told.hide()
        for part in (label(ABOUT, "quiet", wrap=True), self.bar, self.told):
            self.body.addWidget(part)
        self.body.addLayout(row(self.write, self.cancel, None))
        self._show_busy(busy=False)

    def choose(self) -> None:
        """Let the grower choose where the zip is to be."""
        choose_file(self.window(), tr("greenroom facts"), "zip", tr("Zip files"), self.start)

    def start(self, path: Path) -> None:
        """Write the zip."""
        ledger, now = self._bench.keeper.ledger, self._bench.keeper.now

        def work(progress: Progress, stopped: AskedToStop) -> Path:
            return write_facts(path, ledger.entries(), now, progress, stopped)

        self._say(tr("Writing {name} …", name=path.name))
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
        self._say(tr("{name} was saved.", name=path.name))

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
        super().__init__(tr("Tables"))
        self.aside.setText(tr("to read, copy, or save as CSV"))
        grid = QGridLayout()
        grid.setHorizontalSpacing(2 * GAP)
        grid.setVerticalSpacing(GAP // 2)
        for place, (words, make) in enumerate(TABLES):
            made = TableButton(bench, make, text=words)
            made.setAccessibleName(tr("open the table: {words}", words=words))
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
