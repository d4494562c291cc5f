"""Files out: all facts in one zip, and every list as a table by its name."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtWidgets import QGridLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, column
from greenroom.desk.tables import sources
from greenroom.desk.tables.save_card import SaveCard, SaveWords, Work
from greenroom.desk.tables.table_button import TableButton
from greenroom.desk.tabs import Part
from greenroom.desk.worker import Cancelled as AskedToStop
from greenroom.desk.worker import Progress
from greenroom.exchange.facts_csv import write_facts
from greenroom.exchange.tables.table import Table
from greenroom.speech import tr

FACTS = SaveWords(
    key="facts",
    title=tr("All facts"),
    about=tr(
        "Every fact in force, one CSV file a kind, in one zip, with a description of every "
        "column that programs read (CSV on the Web, W3C 2015). Nothing is left out but "
        "pictures, and what you struck out."
    ),
    act=tr("Save all facts"),
    share=tr("share of the facts written"),
    file=tr("greenroom facts"),
)
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


def facts_card(bench: Bench) -> SaveCard:
    """Return the card that saves every fact in force."""

    def begin(path: Path) -> Work:
        ledger, now = bench.keeper.ledger, bench.keeper.now

        def write(progress: Progress, stopped: AskedToStop) -> str:
            write_facts(path, ledger.entries(), now, progress, stopped)
            return tr("{name} was saved.", name=path.name)

        return write

    return SaveCard(FACTS, begin)


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
        self.facts = facts_card(bench)
        self.tables = TablesCard(bench)
        layout = column(self.facts, self.tables, None, gap=GAP + 4)
        self.setLayout(layout)

    def closing(self) -> None:
        self.facts.stop()
