"""The table of packets, as the grower moves about in it."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableView

from greenroom.desk.look import TARGET_PX, Look
from greenroom.desk.seed.packet_model import PacketModel
from greenroom.desk.seed.packet_rows import COLUMNS, EXPECTED
from greenroom.desk.seed.range_bar import RangeCell
from greenroom.speech import tr

ROW_PX = TARGET_PX + 2
WIDE_ENOUGH = {"species": 1000, "packed": 860, "seeds": 860, "sown": 860, "germination": 660}
"""Columns that are left out of a table narrower than this [px]; the chosen packet shows them anyway."""

WIDTHS = {"species": 130, "lot": 60, "packed": 64, "age": 68, "expected": 168}
USUAL_WIDTH = 54
AIR_PX = 16


class PacketTable(QTableView):
    """One packet a row; a click on a head sorts, Enter goes to the packet's fields, Delete strikes out."""

    current_packet = Signal(object)
    opened = Signal()
    struck = Signal()

    def __init__(self, model: PacketModel, look: Look) -> None:
        super().__init__()
        self._packets = model
        self._key: str | None = None
        self.setModel(model)
        self.setAccessibleName(tr("Packets in the seed box"))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setAlternatingRowColors(True)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setTabKeyNavigation(False)
        self.setSortingEnabled(True)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.verticalHeader().setDefaultSectionSize(ROW_PX)
        self._size_columns()
        self.setItemDelegateForColumn(EXPECTED, RangeCell(look, self))
        look.changed.connect(self.viewport().update)
        self.sortByColumn(0, Qt.SortOrder.AscendingOrder)
        self.selectionModel().currentRowChanged.connect(self._on_current)
        model.modelReset.connect(self._take_up_again)
        self.doubleClicked.connect(lambda _index: self.opened.emit())

    def choose(self, key: str | None) -> None:
        """Go to a packet; None leaves every row."""
        self._key = key
        row = self._packets.row_of(key)
        if row is None:
            self.selectionModel().clear()
            return
        index = self._packets.index(row, 0)
        self.setCurrentIndex(index)
        self.scrollTo(index)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.currentIndex().isValid():
            self.opened.emit()
        elif event.key() == Qt.Key.Key_Delete and self.currentIndex().isValid():
            self.struck.emit()
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        width = self.viewport().width()
        for place, column in enumerate(COLUMNS):
            self.setColumnHidden(place, width < WIDE_ENOUGH.get(column.key, 0))

    def _size_columns(self) -> None:
        head = self.horizontalHeader()
        head.setHighlightSections(False)
        head.setMinimumSectionSize(40)
        for place, column in enumerate(COLUMNS):
            longest = max(
                head.fontMetrics().horizontalAdvance(words) for words in (column.title, column.longest)
            )
            self.setColumnWidth(place, max(WIDTHS.get(column.key, USUAL_WIDTH), longest + AIR_PX))
        for place in (0, 1):
            head.setSectionResizeMode(place, QHeaderView.ResizeMode.Stretch)

    def _on_current(self, current: QModelIndex, _before: QModelIndex) -> None:
        if current.isValid():
            self.selectRow(current.row())
        packet = self._packets.packet_at(current.row()) if current.isValid() else None
        self._key = packet.key if packet else None
        self.current_packet.emit(self._key)

    def _take_up_again(self) -> None:
        """Stand on the same packet after rows came, went or changed places."""
        self.choose(self._key)
