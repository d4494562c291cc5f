"""The list of copies: when, why, how much they hold, and whether they are sound, read in the background."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import tzinfo

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from greenroom.desk.keeping.copy_words import HEADER, Look, row_of
from greenroom.desk.rows_table import RowsTable
from greenroom.desk.worker import Cancelled, Progress, Worker
from greenroom.ledger import LedgerError
from greenroom.ledger.backup_check import checked_contents
from greenroom.ledger.backups import Copy

MOST_ROWS = 8


class CopiesList(QWidget):
    """A table of copies, the newest first; ``chosen`` is the row the grower is on, if it is sound."""

    changed = Signal()

    def __init__(self, name: str) -> None:
        super().__init__()
        self._looks: list[Look] = []
        self._zone: tzinfo | None = None
        self._reader: Worker[list[Look]] = Worker((), self)
        self._reader.finished.connect(self._on_read)
        self.table = RowsTable(name)
        self.table.selectionModel().currentRowChanged.connect(lambda _now, _before: self.changed.emit())
        self.table.rows.modelReset.connect(self.changed.emit)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(self.table)

    @property
    def chosen(self) -> Look | None:
        """The copy the grower is on, if it can be restored."""
        place = self.table.currentIndex().row()
        if not 0 <= place < len(self._looks) or self._looks[place].contents is None:
            return None
        return self._looks[place]

    @property
    def trouble(self) -> str:
        """What is wrong with the copy the grower is on, in one sentence; empty if nothing is."""
        place = self.table.currentIndex().row()
        return self._looks[place].trouble if 0 <= place < len(self._looks) else ""

    @property
    def read(self) -> bool:
        """Whether every copy was looked into."""
        return not self._reader.running

    def show_copies(self, copies: Sequence[Copy], zone: tzinfo) -> None:
        """Show copies, and begin to read them; the newest sound one is chosen."""
        self._zone = zone
        self._show([Look(copy) for copy in copies], 0)
        self._reader.start(lambda progress, stopped: _read(copies, progress, stopped))

    def closing(self) -> None:
        """Stop reading."""
        self._reader.cancel()

    def _on_read(self, looks: list[Look]) -> None:
        place = max(0, self.table.currentIndex().row())
        if place == 0:
            place = next((row for row, look in enumerate(looks) if look.contents is not None), 0)
        self._show(looks, place)

    def _show(self, looks: list[Look], place: int) -> None:
        self._looks = looks
        if self._zone is not None:
            self.table.show_rows(HEADER, [row_of(look, self._zone) for look in looks])
        self.table.fit(MOST_ROWS)
        self.table.setVisible(bool(looks))
        if looks:
            self.table.selectRow(place)
        self.changed.emit()


def _read(copies: Sequence[Copy], progress: Progress, stopped: Cancelled) -> list[Look]:
    looks = []
    for place, copy in enumerate(copies, start=1):
        if stopped():
            break
        looks.append(_look(copy))
        progress(place / len(copies))
    return looks


def _look(copy: Copy) -> Look:
    try:
        return Look(copy, checked_contents(copy.path))
    except LedgerError as error:
        return Look(copy, trouble=str(error))
