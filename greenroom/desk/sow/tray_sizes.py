"""Choosing how many cells: the usual trays as buttons."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QButtonGroup, QGridLayout, QPushButton, QSizePolicy, QWidget

from greenroom.agronomy.containers import tray
from greenroom.desk.look import GAP
from greenroom.desk.sow.tray_words import COUNTS
from greenroom.speech import tr

ACROSS = 3


class TraySizes(QWidget):
    """One button a count; the one that stands for the rows and columns entered is pressed."""

    chosen = Signal(int)

    def __init__(self) -> None:
        super().__init__()
        self._group = QButtonGroup(self)
        self._group.setExclusive(False)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(GAP // 2)
        self.buttons: dict[int, QPushButton] = {}
        for place, count in enumerate(COUNTS):
            sheet = tray(count)
            made = QPushButton(str(count))
            made.setCheckable(True)
            made.setAutoDefault(False)
            made.setProperty("tight", "yes")
            made.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
            made.setObjectName(f"tray-{count}")
            made.setToolTip(tr("{rows} × {columns} cells", rows=sheet.rows, columns=sheet.columns))
            made.setAccessibleName(
                tr("{count} cells, {rows} by {columns}", count=count, rows=sheet.rows, columns=sheet.columns)
            )
            made.clicked.connect(lambda _checked=False, count=count: self.chosen.emit(count))
            self.buttons[count] = made
            grid.addWidget(made, place // ACROSS, place % ACROSS)

    def show_size(self, rows: int, columns: int) -> int | None:
        """Press the button of a tray of so many rows and columns; return its count, or None."""
        found = None
        for count, one in self.buttons.items():
            same = (tray(count).rows, tray(count).columns) == (rows, columns)
            one.setChecked(same)
            found = count if same else found
        return found
