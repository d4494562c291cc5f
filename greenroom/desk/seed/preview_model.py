"""The first rows of a table from a file, as they stand there, under the fields they are matched to."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Generic, Protocol, TypeVar

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt, Signal

from greenroom.desk.parts import plain_tip
from greenroom.exchange.seed_list import ColumnMatch
from greenroom.exchange.weather_plain_columns import PlainMatch
from greenroom.speech import tr

M = TypeVar("M", ColumnMatch, PlainMatch)
M_co = TypeVar("M_co", covariant=True)

Index = QModelIndex | QPersistentModelIndex
NO_INDEX = QModelIndex()
ROLE = Qt.ItemDataRole
IS_THE = tr("is the", sense="a column is the lot")
NOT_USED = tr("not used")


class TableLook(Protocol[M_co]):
    """What a look into a table tells: its header, its first rows, and what its columns seem to hold."""

    @property
    def header(self) -> tuple[str, ...]:
        """The names of the columns."""

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """The first rows."""

    @property
    def match(self) -> M_co:
        """The column of each field."""


class PreviewModel(QAbstractTableModel, Generic[M]):
    """Row 0 says what each column is taken for; the rows below are the file's own.

    ``fields`` are the fields a column may be taken for, in words; ``unmatched`` is the match of none.
    """

    rematched = Signal()

    def __init__(self, unmatched: M, fields: Mapping[str, str], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._look: TableLook[M] | None = None
        self._unmatched: M = unmatched
        self.fields = fields
        self.matching: M = unmatched

    def show_look(self, look: TableLook[M] | None) -> None:
        """Show another table, or none."""
        self.beginResetModel()
        self._look = look
        self.matching = look.match if look else self._unmatched
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
        if role == ROLE.ToolTipRole:
            return plain_tip(str(self.data(index)))
        if index.row() == 0:
            field = self.field_of(index.column())
            return self.fields[field] if field else NOT_USED
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
        return IS_THE if section == 0 else str(section)
