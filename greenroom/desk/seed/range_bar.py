"""One packet's expected share as a bar with its scale, and as a cell of the table."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QStyle, QStyledItemDelegate, QStyleOptionViewItem, QWidget

from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.parts import plain_tip
from greenroom.desk.seed.range_art import paint_range, range_words, spoken_words
from greenroom.season.germination import Expected
from greenroom.speech import tr

EXPECTED_ROLE = int(Qt.ItemDataRole.UserRole) + 1
WORDS_PX = 62
BAR_PX, WIDE_BAR_PX = 8, 12
SIDE_PX = 8
SCALE = (0, 25, 50, 75, 100)


class RangeBar(QWidget):
    """The bar with a scale from 0 to 100 % and the law's least named under its wedge."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._expected: Expected | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(tr("Expected germination"))
        look.changed.connect(self.update)

    def show_expected(self, expected: Expected) -> None:
        """Show a packet's range."""
        self._expected = expected
        self.setAccessibleDescription(spoken_words(expected))
        self.setToolTip(plain_tip(spoken_words(expected)))
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(200, 44)

    def minimumSizeHint(self) -> QSize:
        return QSize(120, 44)

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._expected is None:
            return
        painter = QPainter(self)
        bar = QRectF(SIDE_PX, 5, self.width() - 2 * SIDE_PX, WIDE_BAR_PX)
        paint_range(painter, bar, self._look, self._expected)
        painter.setFont(font(SMALL_PX))
        painter.setPen(self._look.colour("quiet"))
        for percent in SCALE:
            self._write(painter, bar, percent)
        painter.end()

    def _write(self, painter: QPainter, bar: QRectF, percent: int) -> None:
        x = bar.left() + bar.width() * percent / 100
        width = 40.0
        left = min(max(x - width / 2, 0.0), self.width() - width)
        side = {0: Qt.AlignmentFlag.AlignLeft, 100: Qt.AlignmentFlag.AlignRight}
        flags = side.get(percent, Qt.AlignmentFlag.AlignHCenter) | Qt.AlignmentFlag.AlignBottom
        words = "100 %" if percent == SCALE[-1] else str(percent)
        painter.drawText(QRectF(left, bar.bottom() + 7, width, 19), flags, words)


class RangeCell(QStyledItemDelegate):
    """Paints the range of a packet in the table, the figure in words beside it."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self._look = look

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        expected = index.data(EXPECTED_ROLE)
        if expected is None:
            super().paint(painter, option, index)
            return
        sheet = QStyleOptionViewItem(option)
        self.initStyleOption(sheet, index)
        sheet.text = ""
        table: QWidget = option.widget
        table.style().drawControl(QStyle.ControlElement.CE_ItemViewItem, sheet, painter, table)
        rect = QRectF(option.rect)
        words = rect.adjusted(rect.width() - WORDS_PX, 0, -SIDE_PX, 0)
        painter.save()
        painter.setFont(font(SMALL_PX))
        painter.setPen(self._look.colour("ink"))
        painter.drawText(
            words, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, range_words(expected)
        )
        painter.restore()
        bar = QRectF(rect.left() + SIDE_PX, 0, rect.width() - WORDS_PX - 2 * SIDE_PX, BAR_PX)
        bar.moveTop(rect.center().y() - BAR_PX / 2)
        paint_range(painter, bar, self._look, expected)
