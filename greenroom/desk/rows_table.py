"""A plain table to read: what stands behind a chart, or the days of a forecast."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView

from greenroom.desk.look import TARGET_PX

Index = QModelIndex | QPersistentModelIndex
NO_INDEX = QModelIndex()
ROLE = Qt.ItemDataRole
HEAD_PX = 32
NARROWEST_PX = 72


class RowsModel(QAbstractTableModel):
    """Rows of words under a header; the first column names the row."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._header: tuple[str, ...] = ()
        self._rows: tuple[tuple[str, ...], ...] = ()

    def show_rows(self, header: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
        """Show other rows."""
        self.beginResetModel()
        self._header = tuple(header)
        self._rows = tuple(tuple(row) for row in rows)
        self.endResetModel()

    def rowCount(self, parent: Index = NO_INDEX) -> int:
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = NO_INDEX) -> int:
        return 0 if parent.isValid() else len(self._header)

    def data(self, index: Index, role: int = ROLE.DisplayRole) -> Any:  # noqa: ANN401 Qt's own signature
        if not index.isValid():
            return None
        row, column = index.row(), index.column()
        if role == ROLE.DisplayRole:
            return self._rows[row][column]
        if role == ROLE.AccessibleTextRole:
            return f"{self._rows[row][0]}, {self._header[column]}: {self._rows[row][column]}"
        return None

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = ROLE.DisplayRole) -> Any:  # noqa: ANN401 Qt's own signature
        if orientation == Qt.Orientation.Horizontal and role == ROLE.DisplayRole:
            return self._header[section] if section < len(self._header) else None
        return None


class RowsTable(QTableView):
    """Shows the rows; the arrow keys go from cell to cell, Tab leaves."""

    def __init__(self, name: str) -> None:
        super().__init__()
        self.rows = RowsModel(self)
        self.setModel(self.rows)
        self.setAccessibleName(name)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setAlternatingRowColors(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.verticalHeader().setDefaultSectionSize(TARGET_PX)
        header = self.horizontalHeader()
        header.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setStretchLastSection(True)
        header.setMinimumSectionSize(NARROWEST_PX)
        header.setSectionsClickable(False)

    def show_rows(self, header: Sequence[str], rows: Sequence[Sequence[str]]) -> None:
        """Show other rows."""
        self.rows.show_rows(header, rows)

    def fit(self, most: int) -> None:
        """Take the height of all rows, up to so many."""
        rows = min(most, max(1, self.rows.rowCount()))
        self.setFixedHeight(HEAD_PX + rows * TARGET_PX + 2 * self.frameWidth() + 4)
