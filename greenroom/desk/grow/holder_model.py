"""The trays and racks in use, as a list: "On the shelf", then "Pots"."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntEnum

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, Qt

from greenroom.desk.grow.holder_head import count_words, holder_words
from greenroom.desk.keeper import Keeper
from greenroom.desk.parts import plain_tip
from greenroom.season.state import Touched
from greenroom.speech import tr

Index = QModelIndex | QPersistentModelIndex
ROOT = QModelIndex()

HEADINGS = {"tray": tr("On the shelf"), "rack": tr("Pots", sense="racks of them")}
SHELF_KINDS = frozenset({"holder_made", "holder_retired", "holder_placed"})


class Role(IntEnum):
    """What the list can be asked for besides Qt's own roles."""

    HOLDER = Qt.ItemDataRole.UserRole + 1


@dataclass(frozen=True, slots=True)
class _Row:
    """A heading, or a holder by its key."""

    form: str
    holder: str | None = None


class HolderModel(QAbstractListModel):
    """One row a holder, under the heading of its form; a form of which there is none has no heading."""

    def __init__(self, keeper: Keeper) -> None:
        super().__init__()
        self._keeper = keeper
        self._rows: list[_Row] = []
        self.refill()

    def refill(self) -> None:
        """List the holders anew."""
        rows: list[_Row] = []
        for form in HEADINGS:
            held = self._keeper.season.holders(form)
            if held:
                rows += [_Row(form), *(_Row(form, one.key) for one in held)]
        if rows != self._rows:
            self.beginResetModel()
            self._rows = rows
            self.endResetModel()
        elif rows:
            self.dataChanged.emit(self.index(0), self.index(len(rows) - 1))

    def take(self, touched: Touched) -> None:
        """Show what a change touched."""
        if touched.kinds & SHELF_KINDS:
            self.refill()
            return
        for holder in touched.holders:
            index = self.index_of(holder)
            if index.isValid():
                self.dataChanged.emit(index, index)

    def index_of(self, holder: str | None) -> QModelIndex:
        """Return where a holder stands in the list; an invalid index if it is not there."""
        for place, row in enumerate(self._rows):
            if row.holder is not None and row.holder == holder:
                return self.index(place)
        return QModelIndex()

    def holder_at(self, index: Index) -> str | None:
        """Return the holder of a row; None for a heading."""
        return self._rows[index.row()].holder if index.isValid() else None

    def rowCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(self._rows)

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        if self.holder_at(index) is None:
            return Qt.ItemFlag.ItemNeverHasChildren
        return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemNeverHasChildren

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> str | None:
        if not index.isValid() or not 0 <= index.row() < len(self._rows):
            return None
        row = self._rows[index.row()]
        if role == Role.HOLDER:
            return row.holder
        if row.holder is None:
            texts = (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole)
            return HEADINGS[row.form] if role in texts else None
        return self._holder_data(row.holder, role)

    def _holder_data(self, key: str, role: int) -> str | None:
        season, place = self._keeper.season, self._keeper.place
        holder = season.holder(key)
        if role == Qt.ItemDataRole.DisplayRole:
            return holder.name
        if role not in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole):
            return None
        counts = season.counts(key)
        about = holder_words(holder, counts, place.temperature, place.volume)
        words = tr("{name}: {what}", name=holder.name, what=f"{count_words(holder, counts)}, {about}")
        return plain_tip(words) if role == Qt.ItemDataRole.ToolTipRole else words
