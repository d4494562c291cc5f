"""The first rows of a seed list, as they stand in the file, under the fields they are matched to."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt, Signal

from greenroom.exchange.seed_list import FIELD_WORDS, ColumnMatch, SeedListLook

Index = QModelIndex | QPersistentModelIndex
NO_INDEX = QModelIndex()
ROLE = Qt.ItemDataRole
NOT_USED = "not used"


class PreviewModel(QAbstractTableModel):
    """Row 0 says what each column is taken for; the rows below are the file's own."""

    rematched = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._look: SeedListLook | None = None
        self.matching = ColumnMatch()

    def show_look(self, look: SeedListLook | None) -> None:
        """Show another list, or none."""
        self.beginResetModel()
        self._look = look
        self.matching = look.match if look else ColumnMatch()
        self.endResetModel()

    def field_of(self, column: int) -> str | None:
        """Return the field a column is taken for, or None."""
        return next((field for field, place in self.matching.used().items() if place == column), None)

    def set_field(self, column: int, field: str | None) -> None:
        """Take a column for a field; the column it was taken for before is used no more."""
        before = self.field_of(column)
        if before == field:
            return
        changes: dict[str, int | None] = {before: None} if before else {}
        if field:
            changes[field] = column
        self.matching = replace(self.matching, **changes)
        self.dataChanged.emit(self.index(0, 0), self.index(0, self.columnCount() - 1))
        self.rematched.emit()

    def rowCount(self, parent: Index = NO_INDEX) -> int:
        return 0 if parent.isValid() or self._look is None else len(self._look.rows) + 1

    def columnCount(self, parent: Index = NO_INDEX) -> int:
        return 0 if parent.isValid() or self._look is None else len(self._look.header)

    def data(self, index: Index, role: int = ROLE.DisplayRole) -> Any:  # noqa: ANN401 Qt's own signature
        if not index.isValid() or self._look is None or role not in (ROLE.DisplayRole, ROLE.ToolTipRole):
            return None
        if index.row() == 0:
            field = self.field_of(index.column())
            return FIELD_WORDS[field] if field else NOT_USED
        cells = self._look.rows[index.row() - 1]
        return cells[index.column()] if index.column() < len(cells) else ""

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = ROLE.DisplayRole,
    ) -> Any:  # noqa: ANN401 Qt's own signature
        if self._look is None or role != ROLE.DisplayRole:
            return None
        if orientation == Qt.Orientation.Horizontal:
            return self._look.header[section] if section < len(self._look.header) else None
        return "is the" if section == 0 else str(section)
