"""The small button in the corner of a list or chart that opens the table behind it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget

from greenroom.desk.bench import Bench
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.desk.tables.pictures import Picture
    from greenroom.exchange.tables.table import Table
    from greenroom.season.plan import Plan

STANDS_FOR = "tableButton"
TIP = tr("The table behind it: read, sort, copy or save")


def plan_picture_of(bench: Bench, plan: Callable[[], Plan]) -> Callable[[], Picture]:
    """Return what draws the plan as a picture; nothing of it is loaded before it is asked for."""

    def make() -> Picture:
        from greenroom.desk.tables.plan_drawing import plan_drawing

        return plan_drawing(bench, plan)

    return make


class TableButton(QPushButton):
    """Makes the table when it is asked for; ``chart`` names the chart that can be saved as a picture.

    ``table`` may return None where there is nothing to show as a table just now. Of what makes, shows
    and writes tables nothing is loaded before the first is asked for.
    """

    def __init__(
        self,
        bench: Bench,
        table: Callable[[Bench], Table | None],
        chart: Callable[[], QWidget | Picture | None] | None = None,
        text: str = tr("Table"),
    ) -> None:
        super().__init__(text)
        self._bench = bench
        self._table = table
        self._chart = chart
        self.setAutoDefault(False)
        self.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.setProperty("kind", "link")
        self.setObjectName("open-table")
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setToolTip(TIP)
        self.setAccessibleName(tr("open the table behind it"))
        self.clicked.connect(lambda _checked=False: self.open())

    def pictured_by(self, chart: Callable[[], QWidget | Picture | None]) -> None:
        """Take a chart that can be saved as a picture beside the table."""
        self._chart = chart

    def stands_for(self, widget: QWidget) -> None:
        """Be the button of a list that has none of its own, so that the keys find it from there."""
        widget.setProperty(STANDS_FOR, self)

    def table(self) -> Table | None:
        """Return the table as it stands now, in the grower's own units."""
        from greenroom.desk.tables.own_units import as_read

        made = self._table(self._bench)
        return None if made is None else as_read(made, self._bench.keeper.place)

    def open(self) -> None:
        """Show the table over the page."""
        table = self.table()
        if table is None:
            self._bench.say(tr("There is nothing to show as a table yet."))
            return
        from greenroom.desk.tables.table_panel import TablePanel

        TablePanel(self._bench, table, self._picture(table.name), self.window()).open_over()

    def copy(self) -> None:
        """Put the table on the clipboard."""
        table = self.table()
        if table is None:
            self._bench.say(tr("There is nothing to copy yet."))
            return
        from greenroom.desk.tables.clipboard import copy

        self._bench.say(copy(table))

    def _picture(self, name: str) -> Picture | None:
        from greenroom.desk.tables.pictures import ChartPicture

        found = self._chart() if self._chart is not None else None
        return ChartPicture(name, found) if isinstance(found, QWidget) else found
