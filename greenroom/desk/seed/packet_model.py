"""The packets as a table model; it sorts and filters by itself."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from greenroom.desk.nothing_yet import WORKING_OUT
from greenroom.desk.seed.packet_rows import COLUMNS, EXPECTED, UNKNOWN, PacketRow
from greenroom.desk.seed.range_art import range_words, spoken_words
from greenroom.desk.seed.range_bar import EXPECTED_ROLE
from greenroom.season.germination import Expected
from greenroom.season.packets import folded
from greenroom.speech import tr

Index = QModelIndex | QPersistentModelIndex
NO_INDEX = QModelIndex()
ROLE = Qt.ItemDataRole
WAITING = "…"
NOT_KNOWN = tr("not known")
ASCENDING = Qt.SortOrder.AscendingOrder

Expect = Callable[[str], Expected | None]


def _not_known(_packet: str) -> Expected | None:
    return None


class PacketModel(QAbstractTableModel):
    """Rows of packets, those that match the filter, in the order asked for; what is not known comes last.

    ``expect`` tells what is expected of a packet by its key, None while it is not worked out.
    """

    def __init__(self, parent: QObject | None = None, expect: Expect = _not_known) -> None:
        super().__init__(parent)
        self._expect = expect
        self._all: list[PacketRow] = []
        self._shown: list[PacketRow] = []
        self._filter: list[str] = []
        self._column = 0
        self._order = ASCENDING

    @property
    def rows(self) -> list[PacketRow]:
        """Every packet, shown or not."""
        return self._all

    def show_rows(self, rows: Sequence[PacketRow]) -> None:
        """Show packets; where only figures changed, only figures are shown anew."""
        self._all = list(rows)
        self._show(self._arranged())

    def set_filter(self, text: str) -> None:
        """Show only the packets with all words of ``text`` in their names, kind, lot or year."""
        self._filter = folded(text).split()
        self._show(self._arranged())

    def row_of(self, key: str | None) -> int | None:
        """Return the row in which a packet stands, or None if it is not shown."""
        return next((place for place, row in enumerate(self._shown) if row.key == key), None)

    def packet_at(self, row: int) -> PacketRow | None:
        """Return the packet in a row, or None."""
        return self._shown[row] if 0 <= row < len(self._shown) else None

    def take_expected(self, packets: frozenset[str]) -> None:
        """Show what has been worked out of some packets."""
        for place, row in enumerate(self._shown):
            if row.key in packets:
                index = self.index(place, EXPECTED)
                self.dataChanged.emit(index, index)

    def sort_again(self) -> None:
        """Put the rows in order once more, when what they are sorted by has become known."""
        if self._column == EXPECTED:
            self._show(self._arranged())

    def rowCount(self, parent: Index = NO_INDEX) -> int:
        return 0 if parent.isValid() else len(self._shown)

    def columnCount(self, parent: Index = NO_INDEX) -> int:
        return 0 if parent.isValid() else len(COLUMNS)

    def data(self, index: Index, role: int = ROLE.DisplayRole) -> Any:  # noqa: ANN401 Qt's own signature
        if not index.isValid():
            return None
        row, column = self._shown[index.row()], COLUMNS[index.column()]
        if index.column() == EXPECTED and role in (ROLE.DisplayRole, ROLE.AccessibleTextRole, EXPECTED_ROLE):
            return self._expected_data(row, role)
        if role == ROLE.DisplayRole:
            return column.show(row)
        if role == ROLE.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if column.number else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignVCenter
        if role == ROLE.ToolTipRole:
            return tr("{name}: {what}", name=column.title, what=column.meaning)
        if role == ROLE.AccessibleTextRole:
            words = column.show(row)
            told = NOT_KNOWN if words in ("", UNKNOWN) else words
            return tr("{name}: {what}", name=column.title, what=told)
        return None

    def headerData(
        self,
        section: int,
        orientation: Qt.Orientation,
        role: int = ROLE.DisplayRole,
    ) -> Any:  # noqa: ANN401 Qt's own signature
        if orientation != Qt.Orientation.Horizontal or not 0 <= section < len(COLUMNS):
            return None
        column = COLUMNS[section]
        if role == ROLE.TextAlignmentRole:
            side = Qt.AlignmentFlag.AlignRight if column.number else Qt.AlignmentFlag.AlignLeft
            return side | Qt.AlignmentFlag.AlignVCenter
        return {ROLE.DisplayRole: column.title, ROLE.ToolTipRole: column.meaning}.get(ROLE(role))

    def sort(self, column: int, order: Qt.SortOrder = ASCENDING) -> None:
        """Sort by a column; rows that are alike in it stay as they stood."""
        if not 0 <= column < len(COLUMNS):
            return
        self._column, self._order = column, order
        self._show(self._arranged())

    def _expected_data(self, row: PacketRow, role: int) -> Expected | str | None:
        expected = self._expect(row.key)
        if role == EXPECTED_ROLE:
            return expected
        if role == ROLE.DisplayRole:
            return range_words(expected) if expected else WAITING
        told = spoken_words(expected) if expected else WORKING_OUT
        return tr("{name}: {what}", name=COLUMNS[EXPECTED].title, what=told)

    def _expected_share(self, row: PacketRow) -> float | None:
        expected = self._expect(row.key)
        return expected.share if expected else None

    def _arranged(self) -> list[PacketRow]:
        rows = [row for row in self._all if all(word in row.words for word in self._filter)]
        value = self._expected_share if self._column == EXPECTED else COLUMNS[self._column].sort
        known = [row for row in rows if value(row) is not None]
        unknown = [row for row in rows if value(row) is None]
        descending = self._order == Qt.SortOrder.DescendingOrder
        return [*sorted(known, key=value, reverse=descending), *unknown]  # type: ignore[arg-type] # None is left out

    def _show(self, rows: list[PacketRow]) -> None:
        if [row.key for row in rows] == [row.key for row in self._shown]:
            self._shown = rows
            if rows:
                self.dataChanged.emit(self.index(0, 0), self.index(len(rows) - 1, len(COLUMNS) - 1))
            return
        self.beginResetModel()
        self._shown = rows
        self.endResetModel()
