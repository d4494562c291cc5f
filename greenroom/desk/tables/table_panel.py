"""The table behind a list or chart, over the page: to read and sort, to copy, to save, and as a picture."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QPoint, QSize, Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHeaderView,
    QSpinBox,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from greenroom.desk.bench import Bench
from greenroom.desk.look import CARD_PADDING, GAP, TARGET_PX
from greenroom.desk.parts import button, label, row
from greenroom.desk.tables.clipboard import copy
from greenroom.desk.tables.picture import LARGEST_PX
from greenroom.desk.tables.pictures import Picture
from greenroom.desk.tables.saving import choose_file, save
from greenroom.desk.tables.table_model import TableModel
from greenroom.exchange.tables.csv_text import csv_text
from greenroom.exchange.tables.table import Table
from greenroom.exchange.tables_file import write_bytes, write_text
from greenroom.speech import tr, trn

SHARE = 0.86  # of the window, at most
WIDEST_PX, WIDEST_COLUMN_PX = 1100, 320
MARGINS_PX = 2 * CARD_PADDING + 24
HEAD_PX, SMALLEST_PX = 190, 420
WIDE, HIGH = 1600, 900
EMPTY = tr("There is nothing in it yet.")


class TablePanel(QFrame):
    """Escape, Close or a click elsewhere closes it."""

    def __init__(self, bench: Bench, table: Table, picture: Picture | None, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self._bench = bench
        self._picture = picture
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setObjectName("table-panel")
        self.setProperty("role", "card")
        self.setAccessibleName(tr("Table: {name}", name=table.name))
        self.model = TableModel(table)
        self.view = _view(self.model, table.name)
        self.model.setParent(self.view)
        self.told = label(_counted(table), "quiet")
        self.told.setWordWrap(True)
        self.copy_button = button(tr("Copy", sense="to the clipboard"), self.copy, name="table-copy")
        self.save_button = button(tr("Save as CSV"), self.save, "primary", name="table-save")
        self.close_button = button(tr("Close"), self.close, name="table-close")
        self.wide, self.high = (
            _pixels(tr("Width of the picture"), WIDE),
            _pixels(tr("Height of the picture"), HIGH),
        )
        self.svg_button = button(tr("Save as SVG"), self.save_svg, name="picture-svg")
        self.png_button = button(tr("Save as PNG"), self.save_png, name="picture-png")
        self._lay_out(table)

    def open_over(self) -> None:
        """Show the panel over the middle of the window."""
        home = self._home()
        room = home.size() * SHARE
        wanted = self.view.horizontalHeader().length() + self.view.verticalScrollBar().sizeHint().width()
        width = max(SMALLEST_PX, min(wanted + MARGINS_PX, room.width(), WIDEST_PX))
        height = min(HEAD_PX + TARGET_PX * max(2, self.model.rowCount()), room.height())
        self.resize(width, height)
        centre = home.mapToGlobal(QPoint(home.width() // 2, home.height() // 2))
        self.move(centre - self.rect().center())
        self.show()
        self.view.setFocus()

    def copy(self) -> None:
        """Put the table on the clipboard, its rows as they stand."""
        self.told.setText(copy(self.model.table))

    def save(self) -> None:
        """Let the grower choose a place and save the table there, its rows as they stand."""
        table = self.model.table
        self._leave(
            table.name, "csv", tr("CSV tables"), lambda path: write_text(path, csv_text(table, bom=True))
        )

    def save_svg(self) -> None:
        """Save the chart as SVG."""
        picture, size = self._picture, self._size()
        if picture is not None:
            content = picture.svg(size)
            self._leave(picture.name, "svg", tr("SVG pictures"), lambda path: write_bytes(path, content))

    def save_png(self) -> None:
        """Save the chart as PNG."""
        picture, size = self._picture, self._size()
        if picture is not None:
            content = picture.png(size)
            self._leave(picture.name, "png", tr("PNG pictures"), lambda path: write_bytes(path, content))

    def _leave(self, name: str, ending: str, kind: str, write: Callable[[Path], object]) -> None:
        """Give way to the system's chooser; what was made is written where it says."""
        bench, home = self._bench, self._home()
        self.close()
        choose_file(home, name, ending, kind, lambda path: save(bench, path, write))

    def _home(self) -> QWidget:
        """Return the window it stands over; a hold on it of our own would outlive it."""
        return self.parentWidget() or self

    def _size(self) -> QSize:
        return QSize(self.wide.value(), self.high.value())

    def _lay_out(self, table: Table) -> None:
        sheet = QVBoxLayout(self)
        sheet.setContentsMargins(CARD_PADDING, CARD_PADDING, CARD_PADDING, CARD_PADDING)
        sheet.setSpacing(GAP)
        title = label(table.name, "title", wrap=True)
        title.setMinimumWidth(1)  # a name of one endless word is cut, not the window stretched
        sheet.addWidget(title)
        sheet.addWidget(self.view, 1)
        sheet.addWidget(self.told)
        sheet.addLayout(row(self.copy_button, self.save_button, None, self.close_button))
        if self._picture is not None:
            caption = label(tr("Picture, at most"), "quiet")
            caption.setBuddy(self.wide)
            sheet.addLayout(
                row(
                    caption, self.wide, label("×", "quiet"), self.high, self.svg_button, self.png_button, None
                )
            )
        else:
            for part in (self.wide, self.high, self.svg_button, self.png_button):
                part.setParent(self)  # a part without a parent would be a window
                part.hide()


def _counted(table: Table) -> str:
    if not table.rows:
        return EMPTY
    return trn(
        "{n:,} row. A click on a heading sorts by it; copied and saved is what you see.",
        "{n:,} rows. A click on a heading sorts by it; copied and saved is what you see.",
        len(table.rows),
    )


def _view(model: TableModel, name: str) -> QTableView:
    view = QTableView()
    view.setModel(model)
    view.setAccessibleName(name)
    view.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    view.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
    view.setTabKeyNavigation(False)
    view.setShowGrid(False)
    view.setAlternatingRowColors(True)
    view.setWordWrap(False)
    view.verticalHeader().hide()
    view.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
    view.verticalHeader().setDefaultSectionSize(TARGET_PX)
    header = view.horizontalHeader()
    header.setSortIndicatorShown(True)
    header.setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
    header.setSectionsClickable(True)
    header.setMaximumSectionSize(WIDEST_COLUMN_PX)
    view.setSortingEnabled(True)
    view.resizeColumnsToContents()
    return view


def _pixels(name: str, value: int) -> QSpinBox:
    field = QSpinBox()
    field.setRange(100, LARGEST_PX)
    field.setValue(value)
    field.setAccessibleName(name)
    field.setFixedWidth(86)
    return field
