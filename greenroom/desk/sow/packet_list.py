"""The list of packets on the Sow page; a packet is dragged from it over the cells."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPoint, QRect, QSize, Qt, Signal
from PySide6.QtGui import QFont, QKeyEvent, QMouseEvent, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QApplication,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from greenroom.desk.look import BODY_PX, SMALL_PX, Look, font
from greenroom.desk.sow.packet_model import Role, SowPackets
from greenroom.desk.two_lines import draw_line
from greenroom.speech import tr

ROW_PX = 46
INDENT = 10
LEFT = Qt.MouseButton.LeftButton


class PacketItem(QStyledItemDelegate):
    """Two lines: the name, and what is left of it."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self._look = look

    def sizeHint(self, _option: QStyleOptionViewItem, _index: QModelIndex | QPersistentModelIndex) -> QSize:
        return QSize(80, ROW_PX)

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        rect: QRect = option.rect
        state: QStyle.StateFlag = option.state
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        chosen = bool(state & QStyle.StateFlag.State_Selected)
        if chosen:
            painter.setPen(QPen(self._look.colour("leaf"), 2))
            painter.setBrush(self._look.colour("leaf_wash"))
            painter.drawRoundedRect(rect.adjusted(2, 2, -2, -2), 6, 6)
        inside = rect.adjusted(INDENT, 6, -INDENT, -6)
        draw_line(
            painter,
            self._look,
            inside,
            index.data(),
            font(BODY_PX, QFont.Weight.DemiBold),
            "ink",
            top=True,
        )
        draw_line(painter, self._look, inside, index.data(Role.WORDS), font(SMALL_PX), "quiet", top=False)
        painter.restore()


class PacketList(QListView):
    """Going to a packet chooses it; dragging it starts a stroke. Signals carry screen coordinates."""

    chosen = Signal(object)
    entered_cells = Signal()
    stroke_started = Signal(QPoint)
    stroke_moved = Signal(QPoint)
    stroke_ended = Signal(QPoint)
    stroke_dropped = Signal()

    def __init__(self, look: Look) -> None:
        super().__init__()
        self.packets = SowPackets(self)
        self._key: str | None = None
        self._pressed: QPoint | None = None
        self._carrying = False
        self.setModel(self.packets)
        self.setItemDelegate(PacketItem(look, self))
        self.setUniformItemSizes(True)
        self.setAccessibleName(tr("Packets to sow from"))
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.selectionModel().currentChanged.connect(self._on_current)
        self.packets.modelReset.connect(self._take_up_again)
        look.changed.connect(self.viewport().update)

    @property
    def key(self) -> str | None:
        """The packet chosen."""
        return self._key

    def choose(self, key: str | None) -> None:
        """Go to a packet."""
        index = self.packets.index_of(key)
        if index.isValid():
            self.setCurrentIndex(index)
            self.scrollTo(index)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        super().mousePressEvent(event)
        point = event.position().toPoint()
        if event.button() == LEFT and self.indexAt(point).isValid():
            self._pressed = point

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._pressed is None:
            return
        here, there = event.position().toPoint(), event.globalPosition().toPoint()
        far = (here - self._pressed).manhattanLength() >= QApplication.startDragDistance()
        if not self._carrying and far:
            self._carrying = True
            self.stroke_started.emit(there)
        elif self._carrying:
            self.stroke_moved.emit(there)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        carrying, self._carrying, self._pressed = self._carrying, False, None
        if carrying:
            self.stroke_ended.emit(event.globalPosition().toPoint())
        else:
            super().mouseReleaseEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self._carrying:
            self.stroke_dropped.emit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.currentIndex().isValid():
            self.entered_cells.emit()
        else:
            super().keyPressEvent(event)

    def _on_current(self, current: QModelIndex, _before: QModelIndex) -> None:
        packet = self.packets.packet_at(current)
        self._key = packet.key if packet else self._key
        self.chosen.emit(self._key)

    def _take_up_again(self) -> None:
        """Stand on the same packet after rows came, went or changed places; one that is gone is left."""
        if all(row.key != self._key for row in self.packets.rows):
            self._key = None
        self.choose(self._key)
        self.chosen.emit(self._key)
