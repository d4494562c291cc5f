"""The sheet's list: what to look for, by where it shows, each drawn, with where to look."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
)

from greenroom.desk.care.look_over_drawing import draw
from greenroom.desk.look import BODY_PX, SMALL_PX, Look, font
from greenroom.desk.parts import plain_tip
from greenroom.guide.troubles import Troubles
from greenroom.speech import tr

WIDTH_PX = 256
ROW_PX, HEAD_PX, ICON_PX, EDGE_PX = 46, 28, 34, 8
ROW = Qt.ItemDataRole.UserRole
RECORD, PEST, SIGN = "record", "pest", "sign"
FOUND, LOSSES = "found", "losses"
STAGES = {
    "seedling": tr("Signs on seedlings"),
    "plant": tr("Signs on leaves"),
    "fruit": tr("Signs on flowers and fruits"),
}


@dataclass(frozen=True, slots=True)
class Row:
    """One row: what it opens, its name and a line below; a row without ``kind`` is a heading."""

    name: str
    kind: str = ""
    key: str = ""
    line: str = ""
    picture: str = ""


def rows_of(troubles: Troubles) -> list[Row]:
    """Return the rows of the sheet from the top."""
    pests = [Row(one.name, PEST, one.key, one.look, one.picture) for one in troubles.pests.values()]
    rows = [
        Row(tr("The record")),
        Row(tr("Found so far"), RECORD, FOUND, tr("what was seen here, day by day")),
        Row(tr("Losses"), RECORD, LOSSES, tr("by cause, stage and variety")),
        Row(tr("Pests: where to look")),
        *pests,
    ]
    for stage, words in STAGES.items():
        signs = [one for one in troubles.signs.values() if one.stage == stage]
        rows.append(Row(words))
        rows += [Row(one.name, SIGN, one.key, one.seen, one.picture) for one in signs]
    return rows


class LookOverList(QListWidget):
    """``chosen`` carries what a row opens, its kind and its key."""

    chosen = Signal(str, str)

    def __init__(self, look: Look, troubles: Troubles) -> None:
        super().__init__()
        self.setObjectName("look-over-list")
        self.setAccessibleName(tr("what to look for"))
        self.setFixedWidth(WIDTH_PX)
        self.setMinimumHeight(200)
        self.setItemDelegate(_RowPainter(look, self))
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        for row in rows_of(troubles):
            self.addItem(_item(row))
        self.currentItemChanged.connect(self._on_current)
        look.changed.connect(self.viewport().update)

    def open_row(self, kind: str, key: str) -> None:
        """Choose the row that opens something."""
        for place in range(self.count()):
            row = self.item(place).data(ROW)
            if (row.kind, row.key) == (kind, key):
                self.setCurrentRow(place)

    def _on_current(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            row = item.data(ROW)
            self.chosen.emit(row.kind, row.key)


class _RowPainter(QStyledItemDelegate):
    """Draws the picture, the name and the line below it."""

    def __init__(self, look: Look, parent: QListWidget) -> None:
        super().__init__(parent)
        self._look = look
        self._name, self._line = font(BODY_PX, QFont.Weight.DemiBold), font(SMALL_PX)

    def sizeHint(self, _option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        return QSize(WIDTH_PX, ROW_PX if index.data(ROW).kind else HEAD_PX)

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        row, area = index.data(ROW), QRectF(option.rect)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if row.kind:
            self._frame(painter, area, option.state)
            side = QRectF(area.left() + EDGE_PX, area.top() + (ROW_PX - ICON_PX) / 2, ICON_PX, ICON_PX)
            draw(painter, self._look, row.picture, side)
            left = EDGE_PX + (ICON_PX + EDGE_PX if row.picture else 0)
            words = area.adjusted(left, 4, -EDGE_PX, -4)
            self._write(painter, words, row.name, self._name, "ink", Qt.AlignmentFlag.AlignTop)
            self._write(painter, words, row.line, self._line, "quiet", Qt.AlignmentFlag.AlignBottom)
        else:
            words = area.adjusted(EDGE_PX, 4, -EDGE_PX, -2)
            self._write(painter, words, row.name, self._name, "quiet", Qt.AlignmentFlag.AlignBottom)
        painter.restore()

    def _frame(self, painter: QPainter, area: QRectF, state: QStyle.StateFlag) -> None:
        chosen = bool(state & QStyle.StateFlag.State_Selected)
        if not chosen:
            return
        focused = bool(state & QStyle.StateFlag.State_HasFocus)
        painter.setBrush(self._look.colour("leaf_wash"))
        painter.setPen(QPen(self._look.colour("focus" if focused else "leaf"), 2 if focused else 1))
        painter.drawRoundedRect(area.adjusted(2, 2, -2, -2), 5, 5)

    def _write(
        self, painter: QPainter, area: QRectF, text: str, face: QFont, colour: str, upright: Qt.AlignmentFlag
    ) -> None:
        painter.setFont(face)
        painter.setPen(self._look.colour(colour))
        words = QFontMetricsF(face).elidedText(text, Qt.TextElideMode.ElideRight, area.width())
        painter.drawText(area, Qt.AlignmentFlag.AlignLeft | upright, words)


def _item(row: Row) -> QListWidgetItem:
    made = QListWidgetItem(row.name)
    made.setData(ROW, row)
    if row.kind:
        made.setToolTip(plain_tip(tr("{name}: {what}", name=row.name, what=row.line)))
        made.setData(Qt.ItemDataRole.AccessibleTextRole, tr("{name}: {what}", name=row.name, what=row.line))
    else:
        made.setFlags(Qt.ItemFlag.NoItemFlags)
    return made
