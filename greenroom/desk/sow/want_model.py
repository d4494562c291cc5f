"""The varieties wanted, as rows of a table."""

from __future__ import annotations

from enum import IntEnum
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.desk.sow.plan_words import (
    bare_odds_words,
    odds_tip,
    row_words,
    seeds_words,
    span_words,
    when_words,
)
from greenroom.season.crops import crop_words
from greenroom.season.deeds_plan import want
from greenroom.season.plan import PlanRow
from greenroom.speech import tr

Index = QModelIndex | QPersistentModelIndex
ROOT = QModelIndex()
HEADS = (tr("Variety"), tr("Plants"), tr("Seeds"), tr("Sow between"), tr("Ripens here"))
UPPER, LOWER, SHORT, SHARE, FEW = (Qt.ItemDataRole.UserRole + number for number in range(1, 6))
"""First and second line of a cell, whether the odds fall short, the odds (None unknown), too few seeds."""


class Column(IntEnum):
    """The columns."""

    NAME = 0
    PLANTS = 1
    SEEDS = 2
    WINDOW = 3
    RIPE = 4


class WantModel(QAbstractTableModel):
    """One row a variety, in the order they were asked for; the number of plants can be changed."""

    def __init__(self, desk: PlanDesk, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._desk = desk
        self.rows: list[PlanRow] = []

    def refresh(self) -> None:
        """Take in the plan as it stands; where only figures changed, only figures are shown anew."""
        rows = list(self._desk.plan.rows)
        if [row.variety for row in rows] == [row.variety for row in self.rows]:
            self.rows = rows
            if rows:
                self.dataChanged.emit(self.index(0, 0), self.index(len(rows) - 1, len(HEADS) - 1))
            return
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()

    def refresh_trial(self) -> None:
        """Show another day of the variety chosen."""
        place = self.place_of(self._desk.row)
        if place >= 0:
            self.dataChanged.emit(self.index(place, Column.WINDOW), self.index(place, Column.RIPE))

    def place_of(self, row: PlanRow | None) -> int:
        """Return where a variety stands, -1 if it does not."""
        keys = [one.variety for one in self.rows]
        return keys.index(row.variety) if row is not None and row.variety in keys else -1

    def rowCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: Index = ROOT) -> int:
        return 0 if parent.isValid() else len(HEADS)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> Any:  # noqa: ANN401 Qt's own signature
        if orientation == Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole:
            return HEADS[section]
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        known = Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        return known | Qt.ItemFlag.ItemIsEditable if index.column() == Column.PLANTS else known

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:  # noqa: ANN401 Qt's own signature
        if not index.isValid():
            return None
        row = self.rows[index.row()]
        if role == Qt.ItemDataRole.EditRole:
            return row.plants if index.column() == Column.PLANTS else None
        if role == SHARE:
            sowing = self._desk.sowing_of(row)
            return None if sowing is None else sowing.odds.share
        if role == SHORT:
            return self._desk.is_short(row)
        if role == FEW:
            return row.seeds is None or not row.seeds.enough
        upper, lower = self._lines(row, Column(index.column()))
        answers = {
            Qt.ItemDataRole.DisplayRole: f"{upper} {lower}".strip(),
            Qt.ItemDataRole.AccessibleTextRole: row_words(self._desk, row)
            if index.column() == Column.NAME
            else f"{upper} {lower}".strip(),
            UPPER: upper,
            LOWER: lower,
        }
        return answers.get(role)

    def setData(self, index: Index, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        if role != Qt.ItemDataRole.EditRole or index.column() != Column.PLANTS or not isinstance(value, int):
            return False
        row, keeper = self.rows[index.row()], self._desk.bench.keeper
        return keeper.do(lambda: want(keeper.season, row.variety, self._desk.year, value, keeper.today))

    def tip(self, index: Index) -> str:
        """Return what is said of a cell under the pointer."""
        row = self.rows[index.row()]
        if index.column() == Column.RIPE:
            return odds_tip(self._desk, row)
        return row_words(self._desk, row)

    def _lines(self, row: PlanRow, column: Column) -> tuple[str, str]:
        if column is Column.NAME:
            return row.name, crop_words(self._desk.bench.guide, row.needs.crop)
        if column is Column.PLANTS:
            return str(row.plants), ""
        if column is Column.SEEDS:
            return seeds_words(row)
        if column is Column.WINDOW:
            return span_words(row.window), when_words(self._desk, row)
        return "", bare_odds_words(self._desk, row)
