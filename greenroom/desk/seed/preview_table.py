"""The preview of a table from a file: a chooser over each column says what the column holds."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractItemView, QComboBox, QHeaderView, QTableView

from greenroom.desk.look import TARGET_PX
from greenroom.desk.seed.preview_model import NOT_USED, PreviewModel
from greenroom.speech import tr

ROW_PX = TARGET_PX
CHOOSER_PX = TARGET_PX + 8
NARROWEST_PX = 120


class PreviewTable(QTableView):
    """Shows the model's rows; its first row holds the choosers."""

    def __init__(self, model: PreviewModel[Any], name: str) -> None:
        super().__init__()
        self._preview = model
        self.choosers: list[QComboBox] = []
        self.setModel(model)
        self.setAccessibleName(name)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setTabKeyNavigation(False)
        self.horizontalHeader().setDefaultAlignment(
            Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter
        )
        self.horizontalHeader().setMinimumSectionSize(NARROWEST_PX)
        self.horizontalHeader().setDefaultSectionSize(NARROWEST_PX + 30)
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.verticalHeader().setDefaultSectionSize(ROW_PX)
        model.modelReset.connect(self._make_choosers)
        model.rematched.connect(self._show_match)

    def _make_choosers(self) -> None:
        self.choosers = []
        for column in range(self._preview.columnCount()):
            chooser = QComboBox()
            chooser.addItem(NOT_USED, None)
            for field, words in self._preview.fields.items():
                chooser.addItem(words, field)
            header = self._preview.headerData(column, Qt.Orientation.Horizontal)
            chooser.setAccessibleName(tr("column {header} is", header=header))
            chooser.activated.connect(self._chosen(column, chooser))
            self.setIndexWidget(self._preview.index(0, column), chooser)
            self.choosers.append(chooser)
        if self.choosers:
            self.setRowHeight(0, CHOOSER_PX)
        self._show_match()

    def _chosen(self, column: int, chooser: QComboBox) -> Callable[[int], None]:
        return lambda place: self._preview.set_field(column, chooser.itemData(place))

    def _show_match(self) -> None:
        for column, chooser in enumerate(self.choosers):
            chooser.setCurrentIndex(chooser.findData(self._preview.field_of(column)))
