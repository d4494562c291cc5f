"""The table of the varieties wanted: plants, seeds, the sowing window, and how often each ripens."""

from __future__ import annotations

from PySide6.QtCore import (
    QEvent,
    QModelIndex,
    QPersistentModelIndex,
    QPoint,
    QPointF,
    QRect,
    QRectF,
    QSize,
    Qt,
)
from PySide6.QtGui import QFont, QFontMetrics, QKeyEvent, QPainter, QPen, QPolygonF, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QSpinBox,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from greenroom.desk.look import BODY_PX, SMALL_PX, Look, font
from greenroom.desk.parts import told_under
from greenroom.desk.sow.plan_desk import PlanDesk
from greenroom.desk.sow.want_model import FEW, LOWER, SHARE, SHORT, UPPER, Column, WantModel
from greenroom.desk.two_lines import draw_line
from greenroom.season.deeds_plan import MOST_PLANTS
from greenroom.speech import tr

ROW_PX = 44
INDENT = 6
SHARES = {Column.NAME: 21, Column.PLANTS: 14, Column.SEEDS: 15, Column.WINDOW: 26, Column.RIPE: 24}
"""Of the width, in hundredths, as far as the words of each have room in it."""

Index = QModelIndex | QPersistentModelIndex


class WantItem(QStyledItemDelegate):
    """Two lines a cell; odds as a bar with a mark where they fall short."""

    def __init__(self, look: Look, parent: QWidget) -> None:
        super().__init__(parent)
        self._look = look

    def sizeHint(self, _option: QStyleOptionViewItem, _index: Index) -> QSize:
        return QSize(40, ROW_PX)

    def createEditor(self, parent: QWidget, _option: QStyleOptionViewItem, _index: Index) -> QWidget:  # noqa: N802 Qt
        made = QSpinBox(parent)
        made.setRange(0, MOST_PLANTS)
        made.setAccessibleName(tr("Plants wanted; 0 takes the variety off the plan"))
        return made

    def updateEditorGeometry(self, editor: QWidget, option: QStyleOptionViewItem, _index: Index) -> None:  # noqa: N802 Qt
        rect: QRect = option.rect
        editor.setGeometry(rect.adjusted(1, 7, -1, -7))

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        rect: QRect = option.rect
        state: QStyle.StateFlag = option.state
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, self._look.colour("leaf_wash"))
        column = Column(index.column())
        inside = rect.adjusted(INDENT, 5, -INDENT, -5)
        if column is Column.PLANTS:
            self._plants(painter, inside, index)
        elif column is Column.RIPE:
            self._ripe(painter, inside, index)
        else:
            self._lines(painter, inside, index)
        if state & QStyle.StateFlag.State_HasFocus:
            painter.setPen(QPen(self._look.colour("focus"), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(rect.adjusted(1, 1, -1, -1), 5, 5)
        painter.restore()

    def _lines(self, painter: QPainter, rect: QRect, index: Index) -> None:
        bold = index.column() == Column.NAME
        weight = QFont.Weight.DemiBold if bold else QFont.Weight.Normal
        alert = index.column() == Column.SEEDS and bool(index.data(FEW))
        draw_line(painter, self._look, rect, index.data(UPPER), font(BODY_PX, weight), "ink", top=True)
        draw_line(
            painter,
            self._look,
            rect,
            index.data(LOWER),
            font(SMALL_PX),
            "clay_text" if alert else "quiet",
            top=False,
        )

    def _plants(self, painter: QPainter, rect: QRect, index: Index) -> None:
        box = QRectF(rect.left() - 2, rect.center().y() - 12, min(rect.width() + 4, 52), 25)
        painter.setPen(QPen(self._look.colour("rim"), 1))
        painter.setBrush(self._look.colour("card"))
        painter.drawRoundedRect(box, 5, 5)
        painter.setPen(self._look.colour("ink"))
        painter.setFont(font(BODY_PX))
        painter.drawText(
            box.adjusted(8, 0, -14, 0),
            Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft,
            index.data(UPPER),
        )
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._look.colour("quiet"))
        x, middle = box.right() - 9, box.center().y()
        for side in (-1, 1):
            tip = [QPointF(x - 3.5, middle + 2.5 * side), QPointF(x + 3.5, middle + 2.5 * side)]
            painter.drawPolygon(QPolygonF([*tip, QPointF(x, middle + 6.5 * side)]))

    def _ripe(self, painter: QPainter, rect: QRect, index: Index) -> None:
        share, short = index.data(SHARE), bool(index.data(SHORT))
        words = rect
        if short:
            self._mark(painter, QPointF(rect.right() - 7, rect.top() + 9))
        if share is not None:
            track = QRectF(rect.left(), rect.top() + 4, rect.width() - (22 if short else 0), 10)
            painter.setPen(QPen(self._look.colour("rim"), 1))
            painter.setBrush(self._look.colour("ground"))
            painter.drawRoundedRect(track, 5, 5)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(self._look.colour("clay" if short else "leaf"))
            if share > 0:
                full = QRectF(track.left(), track.top(), max(10.0, track.width() * share), 10)
                painter.drawRoundedRect(full, 5, 5)
        colour = "clay_text" if short else "quiet"
        draw_line(painter, self._look, words, index.data(LOWER), font(SMALL_PX), colour, top=share is None)

    def _mark(self, painter: QPainter, middle: QPointF) -> None:
        """Draw a warning: a triangle with a stroke and a dot in it."""
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._look.colour("clay"))
        corners = [QPointF(0, -8), QPointF(8, 6.5), QPointF(-8, 6.5)]
        painter.drawPolygon(QPolygonF([middle + corner for corner in corners]))
        painter.setPen(
            QPen(self._look.colour("on_clay"), 1.8, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap)
        )
        painter.drawLine(middle + QPointF(0, -3), middle + QPointF(0, 1.5))
        painter.drawPoint(middle + QPointF(0, 4.6))


class WantTable(QTableView):
    """Going to a row chooses its variety; the plants are changed where they stand."""

    def __init__(self, desk: PlanDesk, look: Look) -> None:
        super().__init__()
        self._desk = desk
        self.wants = WantModel(desk, self)
        self.setModel(self.wants)
        self.setItemDelegate(WantItem(look, self))
        self.setAccessibleName(tr("Varieties wanted"))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        triggers = QAbstractItemView.EditTrigger
        self.setEditTriggers(triggers.SelectedClicked | triggers.EditKeyPressed | triggers.AnyKeyPressed)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(ROW_PX)
        head = self.horizontalHeader()
        head.setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        head.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        head.setHighlightSections(False)
        head.setMinimumSectionSize(40)
        self.selectionModel().currentChanged.connect(self._on_current)
        desk.tried.connect(self.wants.refresh_trial)
        look.changed.connect(self.viewport().update)

    def refresh(self) -> None:
        """Show the plan as it stands."""
        self.wants.refresh()
        self._share_out()
        self.show_picked()

    def show_picked(self) -> None:
        """Stand on the variety chosen."""
        place = self.wants.place_of(self._desk.row)
        if place >= 0 and self.currentIndex().row() != place:
            index = self.wants.index(place, max(self.currentIndex().column(), 0))
            self.setCurrentIndex(index)
            self.scrollTo(index)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key, current = event.key(), self.currentIndex()
        plants = self.wants.index(current.row(), Column.PLANTS)
        if self.state() == QAbstractItemView.State.EditingState:
            return  # the key that ends an edit does nothing else
        if key == Qt.Key.Key_Delete and current.isValid():
            self.wants.setData(plants, 0)
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and current.isValid():
            self.setCurrentIndex(plants)
            self.edit(plants)
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._share_out()
        self.scrollTo(self.currentIndex())

    def viewportEvent(self, event: QEvent) -> bool:
        return told_under(self, event, self._tip_at) or super().viewportEvent(event)

    def _tip_at(self, point: QPoint) -> str:
        index = self.indexAt(point)
        return self.wants.tip(index) if index.isValid() else ""

    def _share_out(self) -> None:
        """Give each column its share of the width; room that its words leave goes to those that lack some."""
        width = self.viewport().width()
        shares = {column: width * share // 100 for column, share in SHARES.items()}
        spare = {column: share - self._needed(column) for column, share in shares.items()}
        lack = -sum(room for room in spare.values() if room < 0)
        left = sum(room for room in spare.values() if room > 0)
        move = min(lack, left)
        for column, share in shares.items():
            room = spare[column]
            moved = room * move // (left if room > 0 else lack) if room else 0
            self.setColumnWidth(column, share - moved)

    def _needed(self, column: Column) -> int:
        """Return the width that the head and the words of a column need; the kind of a variety may be cut."""
        upper, lower = QFontMetrics(font(BODY_PX, QFont.Weight.DemiBold)), QFontMetrics(font(SMALL_PX))
        widest = self.horizontalHeader().sectionSizeHint(column)
        for place in range(self.wants.rowCount()):
            index = self.wants.index(place, column)
            if column not in (Column.PLANTS, Column.RIPE):
                widest = max(widest, upper.horizontalAdvance(index.data(UPPER)) + 2 * INDENT)
            if column not in (Column.PLANTS, Column.NAME):
                widest = max(widest, lower.horizontalAdvance(index.data(LOWER)) + 2 * INDENT)
        return widest

    def _on_current(self, current: QModelIndex, _before: QModelIndex) -> None:
        if current.isValid():
            self._desk.pick(self.wants.rows[current.row()].variety)
