"""The packets to sow from, those with seeds left first."""

from __future__ import annotations

from collections.abc import Sequence
from enum import IntEnum
from typing import Any

from PySide6.QtCore import QAbstractListModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from greenroom.desk.seed.packet_rows import PacketRow
from greenroom.season.packets import folded
from greenroom.speech import tr

Index = QModelIndex | QPersistentModelIndex
ROOT = QModelIndex()


class Role(IntEnum):
    """What the list can be asked for besides Qt's own roles."""

    PACKET = Qt.ItemDataRole.UserRole + 1
    WORDS = Qt.ItemDataRole.UserRole + 2


def left_words(row: PacketRow) -> str:
    """Return what is left in a packet: "10 of 40 left", "none left", "not counted"."""
    if row.left is None:
        return tr("not counted")
    return (
        tr("none left", sense="seeds")
        if row.left == 0
        else tr("{left:,} of {total:,} left", left=row.left, total=row.seeds)
    )


class SowPackets(QAbstractListModel):
    """One row a packet, by name; emptied packets stand at the end."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._all: list[PacketRow] = []
        self._shown: list[PacketRow] = []
        self._filter: list[str] = []

    @property
    def rows(self) -> list[PacketRow]:
        """Every packet, shown or not."""
        return self._all

    def show_rows(self, rows: Sequence[PacketRow]) -> None:
        """Show packets; where only figures changed, only figures are shown anew."""
        self._all = sorted(rows, key=lambda row: row.left == 0)
        self._show()

    def set_filter(self, text: str) -> None:
        """Show only packets with every word of ``text``."""
        self._filter = folded(text).split()
        self._show()

    def index_of(self, key: str | None) -> QModelIndex:
        """Return where a packet stands; an invalid index if it is not shown."""
        for place, row in enumerate(self._shown):
            if row.key == key:
                return self.index(place)
        return QModelIndex()

    def packet_at(self, index: Index) -> PacketRow | None:
        """Return the packet of a row, or None."""
        return self._shown[index.row()] if index.isValid() else None

    def rowCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(self._shown)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: ANN401 Qt's own signature
        row = self.packet_at(index)
        if row is None:
            return None
        words = " · ".join(part for part in (left_words(row), row.kind) if part)
        answers: dict[int, str] = {
            Qt.ItemDataRole.DisplayRole: row.name,
            Qt.ItemDataRole.AccessibleTextRole: f"{row.name}, {words}",
            Role.PACKET: row.key,
            Role.WORDS: words,
        }
        return answers.get(role)

    def _show(self) -> None:
        rows = [row for row in self._all if all(word in row.words for word in self._filter)]
        if [row.key for row in rows] == [row.key for row in self._shown]:
            self._shown = rows
            if rows:
                self.dataChanged.emit(self.index(0), self.index(len(rows) - 1))
            return
        self.beginResetModel()
        self._shown = rows
        self.endResetModel()
