"""What was found on a holder day by day, and what was lost by cause, stage and variety."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from PySide6.QtWidgets import QComboBox, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.care.look_over_chart import LossChart, count_words, stages_words
from greenroom.desk.look import GAP
from greenroom.desk.parts import WhyLink, label, row
from greenroom.desk.rows_table import RowsTable
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.guide.troubles import Troubles
from greenroom.season.hardening_words import day_words
from greenroom.season.losses import Losses, every_holder, losses_of, losses_why
from greenroom.season.place import place_of
from greenroom.season.replay import season_start
from greenroom.season.troubles_found import last_look_words, seen_on
from greenroom.season.within import opening
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.exchange.tables.table import Table

HOW = tr(
    "Once a week, and twice in the plot: every plant. Undersides and young leaves first, "
    "then stems, flowers and the mix. Choose on the left what you see; with nothing to "
    "be seen, say so with one click."
)
FOUND_ROWS, VARIETY_ROWS = 8, 6
HERE, ALL = "here", "all"


class FoundSheet(QWidget):
    """The looks at a holder, the latest first."""

    def __init__(self, bench: Bench, troubles: Troubles) -> None:
        super().__init__()
        self._bench = bench
        self._troubles = troubles
        self.last = label("", "title")
        self.table = RowsTable(tr("what was found"))
        self.none = label(tr("Nothing is written down yet."), "quiet")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(GAP, 0, GAP, GAP)
        layout.setSpacing(GAP)
        layout.addWidget(self.last)
        layout.addWidget(label(HOW, wrap=True))
        layout.addWidget(self.none)
        layout.addWidget(self.table, 1)
        layout.addStretch(1)

    def show_holder(self, holder: str) -> None:
        """Show what was seen on a holder."""
        seen = seen_on(self._bench.keeper.season, holder, self._troubles)
        words = last_look_words(seen)
        self.last.setText(opening(words))
        self.table.rows.show_rows((tr("Day"), tr("Seen")), [(day_words(one.day), one.words) for one in seen])
        self.table.setVisible(bool(seen))
        self.none.setVisible(not seen)
        _fit(self.table, min(len(seen), FOUND_ROWS))


class LossSheet(QWidget):
    """Losses of this holder, or of all in this season."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._holder = ""
        self._losses: Losses | None = None
        self.scope = QComboBox()
        self.scope.setObjectName("loss-scope")
        self.scope.setAccessibleName(tr("losses of"))
        self.scope.addItem(tr("this one"), HERE)
        self.scope.addItem(tr("all, this season"), ALL)
        self.scope.currentIndexChanged.connect(lambda _place: self.refresh())
        self.words = label("", "title", wrap=True)
        self.why = WhyLink(bench, lambda: losses_why(self._losses) if self._losses else None)
        self.chart = LossChart(bench.look)
        self.table = RowsTable(tr("losses by variety"))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(GAP, 0, GAP, GAP)
        layout.setSpacing(GAP)
        head = row(gap=GAP)
        head.addWidget(self.words, 1)
        head.addWidget(self.why)
        layout.addLayout(head)
        self.as_table = TableButton(bench, self._table, lambda: self.chart)
        layout.addLayout(row(label(tr("Losses of")), self.scope, None, self.as_table))
        layout.addWidget(self.chart)
        layout.addWidget(self.table)
        layout.addStretch(1)

    def show_holder(self, holder: str) -> None:
        """Show the losses of a holder."""
        self._holder = holder
        self.refresh()

    def refresh(self) -> None:
        """Count anew."""
        keeper = self._bench.keeper
        season, today = keeper.season, keeper.today
        if self.scope.currentData() == ALL:
            losses = losses_of(season, every_holder(season), self._season_start(), today)
        else:
            losses = losses_of(season, [self._holder], date.min, today)
        self._losses = losses
        self.words.setText(losses.words)
        self.why.setVisible(losses.total > 0)
        self.chart.setVisible(losses.total > 0)
        self.as_table.setVisible(losses.total + losses.thinned > 0)
        self.table.setVisible(losses.total > 0)
        self.chart.show_losses(losses)
        rows = [(one.name, count_words(one), stages_words(one)) for one in losses.by_variety]
        self.table.rows.show_rows((tr("Variety"), tr("Lost"), tr("At which stage")), rows)
        _fit(self.table, min(len(rows), VARIETY_ROWS))

    def _season_start(self) -> date:
        keeper = self._bench.keeper
        return season_start(keeper.today.year, southern=place_of(keeper.season).southern)

    def _table(self, bench: Bench) -> Table:
        """Return the losses that are shown, a row a loss."""
        if self.scope.currentData() == ALL:
            return sources.losses(bench, first=self._season_start())
        return sources.losses(bench, self._holder)


def _fit(table: RowsTable, rows: int) -> None:
    """Let a table be as high as so many rows."""
    high = table.horizontalHeader().sizeHint().height() + rows * table.verticalHeader().defaultSectionSize()
    table.setFixedHeight(high + 2 * GAP)
