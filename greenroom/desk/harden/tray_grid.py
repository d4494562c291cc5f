"""All trays on the ramp, painted beside each other on one axis of days; only what is seen is painted."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QPoint, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QAbstractScrollArea, QFrame

from greenroom.desk.harden.day_scale import DayScale
from greenroom.desk.harden.tray_row import GUTTER_PX, HIGHEST_ROW_PX, ROW_PX, TrayRow
from greenroom.desk.look import Look
from greenroom.desk.parts import told_under
from greenroom.season.ramp_days import RampDay
from greenroom.season.side_by_side import TrayLine, line_words
from greenroom.speech import tr

RIGHT_PX = 10


class TrayGrid(QAbstractScrollArea):
    """A row a tray. Arrow keys, Home, End and the page keys move; Enter or a click opens the tray."""

    opened = Signal(str)
    scaled = Signal()

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._lines: Sequence[TrayLine] = ()
        self._scale: DayScale | None = None
        self._current = 0
        self._longest = 1.0
        self.told: Callable[[RampDay], str] = lambda day: f"{day.date}"
        self.setObjectName("tray-grid")
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)
        self.setAccessibleName(tr("Trays side by side"))
        look.changed.connect(self.viewport().update)

    @property
    def current(self) -> str | None:
        """The key of the tray the keys stand on."""
        return self._lines[self._current].key if self._lines else None

    @property
    def row_px(self) -> int:
        """How high a row is: as high as there is room for, within reason."""
        room = self.viewport().height() // max(1, len(self._lines))
        return min(max(room, ROW_PX), HIGHEST_ROW_PX)

    @property
    def plot_edges(self) -> tuple[float, float]:
        """Where the days begin and end [px]."""
        return GUTTER_PX, max(GUTTER_PX + 1.0, self.viewport().width() - RIGHT_PX)

    def show_lines(self, lines: Sequence[TrayLine], scale: DayScale) -> None:
        """Show the trays; the one the keys stand on stays it."""
        kept = self.current
        keys = [line.key for line in lines]
        self._lines, self._scale = lines, scale
        self._current = keys.index(kept) if kept in keys else 0
        minutes = (max(day.planned, day.done + day.shade) for line in lines for day in line.days)
        self._longest = max(1.0, max(minutes, default=1.0))
        self._fit()
        self._tell()
        self.viewport().update()

    def row_box(self, row: int) -> QRectF:
        """Return where a row stands in the view."""
        top = row * self.row_px - self.verticalScrollBar().value()
        return QRectF(0, top, self.viewport().width(), self.row_px)

    def words_at(self, point: QPoint) -> str:
        """Return what there is to tell of the day at a point, or of the tray beside its days."""
        row = int((point.y() + self.verticalScrollBar().value()) // self.row_px)
        if not 0 <= row < len(self._lines) or self._scale is None:
            return ""
        line = self._lines[row]
        gone = int((point.x() - self._scale.left) // self._scale.wide)
        day = next((one for one in line.days if (one.date - self._scale.span.first).days == gone), None)
        return self.told(day) if day is not None else line_words(line)

    def viewportEvent(self, event: QEvent) -> bool:
        return told_under(self, event, self.words_at) or super().viewportEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._scale is None:
            return
        painter = QPainter(self.viewport())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        art = TrayRow(self._look, self._scale, self._longest, self.row_px)
        for row, line in enumerate(self._lines):
            box = self.row_box(row)
            if box.intersects(QRectF(event.rect())):
                art.paint(painter, box, line)
                if row == self._current:
                    self._paint_current(painter, box)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        row = int((event.position().y() + self.verticalScrollBar().value()) // self.row_px)
        if event.button() is Qt.MouseButton.LeftButton and 0 <= row < len(self._lines):
            self._go(row)
            self.opened.emit(self._lines[row].key)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        page = max(1, self.viewport().height() // self.row_px)
        steps = {
            Qt.Key.Key_Up: -1,
            Qt.Key.Key_Down: 1,
            Qt.Key.Key_PageUp: -page,
            Qt.Key.Key_PageDown: page,
            Qt.Key.Key_Home: -len(self._lines),
            Qt.Key.Key_End: len(self._lines),
        }
        key = Qt.Key(event.key())
        if key in steps:
            self._go(self._current + steps[key])
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space) and self.current is not None:
            self.opened.emit(self.current)
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()
        self.scaled.emit()

    def sizeHint(self) -> QSize:
        return QSize(480, 4 * ROW_PX)

    def _fit(self) -> None:
        bar = self.verticalScrollBar()
        bar.setRange(0, max(0, self.row_px * len(self._lines) - self.viewport().height()))
        bar.setPageStep(self.viewport().height())
        bar.setSingleStep(self.row_px // 2)

    def _go(self, row: int) -> None:
        if not self._lines:
            return
        before, self._current = self._current, min(max(row, 0), len(self._lines) - 1)
        bar, top = self.verticalScrollBar(), self._current * self.row_px
        bar.setValue(min(max(bar.value(), top + self.row_px - self.viewport().height()), top))
        for one in (before, self._current):
            self.viewport().update(self.row_box(one).toAlignedRect())
        self._tell()

    def _tell(self) -> None:
        """Let a screen reader hear the tray the keys stand on."""
        words = line_words(self._lines[self._current]) if self._lines else tr("no tray is being hardened")
        if words != self.accessibleDescription():
            self.setAccessibleDescription(words)
            QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.DescriptionChanged))

    def _paint_current(self, painter: QPainter, box: QRectF) -> None:
        focused = self.hasFocus()
        painter.setPen(QPen(self._look.colour("focus" if focused else "leaf"), 2 if focused else 1))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRoundedRect(box.adjusted(2, 2, -2, -2), 4, 4)
