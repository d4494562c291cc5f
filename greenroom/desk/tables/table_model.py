"""A table as Qt shows it: sorted in the model itself, numbers to the right, nothing for what is not known."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt

from greenroom.desk.parts import plain_tip
from greenroom.exchange.tables.table import Cell, Row, Table
from greenroom.speech import figure, tr

Index = QModelIndex | QPersistentModelIndex
NO_INDEX = QModelIndex()
ROLE = Qt.ItemDataRole
RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
YES_NO = {True: tr("yes"), False: tr("no")}


def shown(value: Cell) -> str:
    """Return a cell as it is read: dates as in the file, so that they sort and compare as they stand."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return YES_NO[value]
    if isinstance(value, datetime):
        return value.isoformat(sep=" ", timespec="minutes")
    if isinstance(value, float):
        return figure(value, "g") if abs(value) < 1e6 else figure(value, ".0f")
    return value.isoformat() if isinstance(value, date) else str(value)


class TableModel(QAbstractTableModel):
    """Shows one table; ``table`` has its rows as they are sorted now."""

    def __init__(self, table: Table) -> None:
        super().__init__()
        self._table = table
        self._rows: list[Row] = list(table.rows)

    @property
    def table(self) -> Table:
        """The table with its rows as they stand."""
        return Table(self._table.name, self._table.columns, tuple(self._rows))

    def rowCount(self, parent: Index = NO_INDEX) -> int:
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = NO_INDEX) -> int:
        return 0 if parent.isValid() else len(self._table.columns)

    def data(self, index: Index, role: int = ROLE.DisplayRole) -> Any:  # noqa: ANN401 Qt's own signature
        if not index.isValid():
            return None
        column = self._table.columns[index.column()]
        value = column.read(self._rows[index.row()][index.column()])
        if role in (ROLE.DisplayRole, ROLE.ToolTipRole):
            return shown(value) if role == ROLE.DisplayRole else plain_tip(shown(value))
        if role == ROLE.TextAlignmentRole:
            return RIGHT if column.numeric else LEFT
        if role == ROLE.AccessibleTextRole:
            return f"{column.heading}: {shown(value) or tr('not known')}"
        return None

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = ROLE.DisplayRole) -> Any:  # noqa: ANN401 Qt's own signature
        if orientation != Qt.Orientation.Horizontal or not 0 <= section < len(self._table.columns):
            return None
        column = self._table.columns[section]
        if role == ROLE.DisplayRole:
            return column.heading
        return (RIGHT if column.numeric else LEFT) if role == ROLE.TextAlignmentRole else None

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:
        """Sort by a column; rows of which it is not known stand last either way, equals stay as they are."""
        if not 0 <= column < len(self._table.columns):
            return
        self.layoutAboutToBeChanged.emit()
        before = self.persistentIndexList()
        places = self._sorted(column, falling=order == Qt.SortOrder.DescendingOrder)
        now = {old: new for new, old in enumerate(places)}
        self._rows = [self._rows[place] for place in places]
        after = [self.index(now[one.row()], one.column()) for one in before]
        self.changePersistentIndexList(before, after)
        self.layoutChanged.emit()

    def _sorted(self, column: int, *, falling: bool) -> list[int]:
        """Return the places of the rows as they are to stand."""
        cells = [row[column] for row in self._rows]
        known = [place for place, cell in enumerate(cells) if cell is not None]
        known.sort(key=lambda place: _key(cells[place]), reverse=falling)
        return known + [place for place, cell in enumerate(cells) if cell is None]


def _key(value: Cell) -> Any:  # noqa: ANN401 whatever is compared with its own kind
    return value.casefold() if isinstance(value, str) else value
