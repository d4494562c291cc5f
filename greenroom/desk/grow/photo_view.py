"""The photograph with the tray's corners, the grid laid over it, and what each cell is taken for."""

from __future__ import annotations

import math

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QFocusEvent,
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QPolygonF,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget

from greenroom.desk.grow.photo_art import BRIGHT, SHADE, paint_chosen, paint_handle, paint_mark
from greenroom.desk.grow.photo_state import MARK_WORDS, PhotoState, Place
from greenroom.desk.look import Look
from greenroom.exchange.tray_photo.homography import UNIT, Corners, homography, mapped
from greenroom.season.canopy import cover_words
from greenroom.speech import tr

GRAB_PX = 16.0
SMALLEST = QSize(240, 180)
EDGE_PX = 6.0
FRAME_PX = 4.0  # around the cell the keys are at
BESIDE_PLANT = (0.25, 0.27)  # of a cell, where its mark stands
HINT = tr("Drag the corners; click a cell that is taken wrongly; keys work too")
FINE, COARSE = 1.0, 12.0  # points of the photograph that a key moves a corner
Key = Qt.Key
STEPS = {Key.Key_Up: (-1, 0), Key.Key_Down: (1, 0), Key.Key_Left: (0, -1), Key.Key_Right: (0, 1)}
NEXT = {Key.Key_PageDown: 1, Key.Key_PageUp: -1}


class PhotoView(QWidget):
    """Paints the photograph; corners are dragged or moved with the arrow keys, a click decides a cell.

    ``corners_set`` is emitted when a corner was put down, ``toggled`` when a cell was decided.
    """

    corners_set = Signal()
    toggled = Signal()
    told = Signal(str)

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.state: PhotoState | None = None
        self.corner: int | None = None  # the one the keys move
        self.cell: Place | None = None
        self._held: int | None = None
        self._whole = QImage()
        self._scaled = QPixmap()
        self.setMinimumSize(SMALLEST)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setObjectName("photo-view")
        self.setAccessibleName(tr("photograph of the tray"))
        look.changed.connect(self.update)

    def show_state(self, state: PhotoState | None, image: QImage | None = None) -> None:
        """Show a photograph; its points are given when it is another."""
        self.state = state
        if image is not None or state is None or state.loaded is None:
            self._whole = image if image is not None else QImage()
            self._scaled = QPixmap()
            self.corner = self.cell = self._held = None
        self._tell()
        self.update()

    def frame(self) -> QRectF:
        """Return where the photograph is painted."""
        if self._whole.isNull():
            return QRectF()
        room = QRectF(self.rect()).adjusted(EDGE_PX, EDGE_PX, -EDGE_PX, -EDGE_PX)
        size = self._whole.size().toSizeF().scaled(room.size(), Qt.AspectRatioMode.KeepAspectRatio)
        found = QRectF(QPointF(0, 0), size)
        found.moveCenter(room.center())
        return found

    def on_screen(self, x: float, y: float) -> QPointF:
        """Return where a point of the photograph is painted."""
        frame, size = self.frame(), self._whole.size()
        return QPointF(
            frame.left() + x / max(1, size.width()) * frame.width(),
            frame.top() + y / max(1, size.height()) * frame.height(),
        )

    def in_photo(self, at: QPointF) -> tuple[float, float]:
        """Return which point of the photograph is painted somewhere, kept within it."""
        frame, size = self.frame(), self._whole.size()
        x = (at.x() - frame.left()) / max(1.0, frame.width())
        y = (at.y() - frame.top()) / max(1.0, frame.height())
        return min(1.0, max(0.0, x)) * size.width(), min(1.0, max(0.0, y)) * size.height()

    def place_at(self, at: QPointF) -> Place | None:
        """Return the cell that is painted somewhere, if one is."""
        state = self.state
        if state is None or state.corners is None or not state.fit:
            return None
        ((x, y),) = mapped(homography(state.corners, UNIT), [self.in_photo(at)])
        row, column = math.floor(y * state.rows), math.floor(x * state.columns)
        inside = 0 <= row < state.rows and 0 <= column < state.columns
        return (row, column) if inside and self.frame().contains(at) else None

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._whole.isNull():
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.drawPixmap(self.frame().topLeft(), self._picture())
        if self.state is not None and self.state.corners is not None:
            self._paint_grid(painter, self.state, self.state.corners)
        painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._scaled = QPixmap()
        super().resizeEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self._tell()
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() != Qt.MouseButton.LeftButton or self.state is None:
            return
        self._held = self._corner_at(event.position())
        if self._held is not None:
            self.corner, self.cell = self._held, None
            self.update()
        else:
            self._decide(self.place_at(event.position()))
        self._tell()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._held is not None:
            self._put(self._held, *self.in_photo(event.position()))

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:
        if self._held is not None:
            self._held = None
            self.corners_set.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = event.key()
        if self.state is None or self.state.corners is None:
            super().keyPressEvent(event)
        elif key in NEXT:
            self._next_corner(NEXT[Key(key)])
        elif key in STEPS:
            down, right = STEPS[Key(key)]
            coarse = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            self._step(self.state, self.state.corners, down, right, COARSE if coarse else FINE)
        elif key in (Key.Key_Space, Key.Key_Return, Key.Key_Enter) and self.cell is not None:
            self._decide(self.cell)
            self._tell()
            return
        elif key == Key.Key_Escape and self.corner is not None:
            self.corner = None
        else:
            super().keyPressEvent(event)
            return
        self._tell()
        self.update()

    def _paint_grid(self, painter: QPainter, state: PhotoState, corners: Corners) -> None:
        screen = [self.on_screen(*corner) for corner in corners]
        outline = QPolygonF(screen)
        for pen in (QPen(SHADE, 3.6), QPen(BRIGHT, 1.8)):
            painter.setPen(pen)
            painter.drawPolygon(outline)
        if state.fit:
            self._paint_cells(painter, state, corners)
        middle = outline.boundingRect().center()
        for place, (at, name) in enumerate(zip(screen, state.corner_names(), strict=True)):
            chosen = place == self._held or (place == self.corner and self.hasFocus())
            paint_handle(painter, self._look, at, name, at - middle, chosen=chosen)

    def _paint_cells(self, painter: QPainter, state: PhotoState, corners: Corners) -> None:
        matrix = homography(UNIT, corners)

        def at(across: float, down: float) -> QPointF:
            ((x, y),) = mapped(matrix, [(across / state.columns, down / state.rows)])
            return self.on_screen(float(x), float(y))

        painter.setPen(QPen(BRIGHT, 1.0))
        for column in range(1, state.columns):
            painter.drawLine(at(column, 0), at(column, state.rows))
        for row in range(1, state.rows):
            painter.drawLine(at(0, row), at(state.columns, row))
        if self.cell is not None and self.hasFocus():
            row, column = self.cell
            edges = ((column, row), (column + 1, row), (column + 1, row + 1), (column, row + 1))
            paint_chosen(painter, self._look, QPolygonF([at(*edge) for edge in edges]))
        marked = state.spots(*BESIDE_PLANT)
        cell = at(0, 0) - at(1, 1)
        radius = 0.22 * min(abs(cell.x()), abs(cell.y()))
        for place, mark in state.marks().items():
            paint_mark(painter, self._look, self.on_screen(*marked[place]), radius, mark)

    def _picture(self) -> QPixmap:
        """Return the photograph at the size it is painted, scaled once."""
        if self._scaled.isNull():
            ratio = self.devicePixelRatioF()
            scaled = self._whole.scaled(
                (self.frame().size() * ratio).toSize(),
                Qt.AspectRatioMode.IgnoreAspectRatio,
                Qt.TransformationMode.SmoothTransformation,
            )
            self._scaled = QPixmap.fromImage(scaled)
            self._scaled.setDevicePixelRatio(ratio)
        return self._scaled

    def _corner_at(self, at: QPointF) -> int | None:
        if self.state is None or self.state.corners is None:
            return None
        away = [at - self.on_screen(*corner) for corner in self.state.corners]
        near = min(range(4), key=lambda place: QPointF.dotProduct(away[place], away[place]))
        return near if math.hypot(away[near].x(), away[near].y()) <= GRAB_PX else None

    def _put(self, corner: int, x: float, y: float) -> None:
        if self.state is None or self.state.corners is None:
            return
        first, second, third, fourth = (
            (x, y) if place == corner else kept for place, kept in enumerate(self.state.corners)
        )
        self.state.corners = (first, second, third, fourth)
        self.state.reading = None  # what was read there is read anew
        self.update()

    def _decide(self, place: Place | None) -> None:
        if place is None or self.state is None or self.state.reading is None:
            return
        before, whole = self.cell, self.corner is not None
        self.corner, self.cell = None, place
        self.state.toggle(place)
        self._update_cells(before, place) if not whole else self.update()
        self.toggled.emit()

    def _update_cells(self, *places: Place | None) -> None:
        """Paint some cells anew and nothing else."""
        state = self.state
        if state is None or state.corners is None or not state.fit:
            return
        matrix = homography(UNIT, state.corners)
        for row, column in (place for place in places if place is not None):
            edges = [(column + across, row + down) for across, down in UNIT]
            points = mapped(matrix, [(x / state.columns, y / state.rows) for x, y in edges])
            room = QPolygonF([self.on_screen(float(x), float(y)) for x, y in points]).boundingRect()
            self.update(room.adjusted(-FRAME_PX, -FRAME_PX, FRAME_PX, FRAME_PX).toAlignedRect())

    def _next_corner(self, step: int) -> None:
        self.cell = None
        self.corner = (0 if step > 0 else 3) if self.corner is None else (self.corner + step) % 4

    def _step(self, state: PhotoState, corners: Corners, down: int, right: int, by: float) -> None:
        if self.corner is not None:
            (x, y), (wide, high) = corners[self.corner], state.size
            self._put(self.corner, min(wide, max(0.0, x + right * by)), min(high, max(0.0, y + down * by)))
            self.corners_set.emit()
            return
        row, column = self.cell or (0, 0)
        if self.cell is not None:
            row = min(state.rows - 1, max(0, row + down))
            column = min(state.columns - 1, max(0, column + right))
        self.cell = (row, column)

    def _tell(self) -> None:
        """Let those who do not see the screen hear where the keys are."""
        words = self.words()
        if words != self.accessibleDescription():
            self.setAccessibleDescription(words)
            self.told.emit(words)
            if QAccessible.isActive():
                event = QAccessibleEvent(self, QAccessible.Event.DescriptionChanged)
                QAccessible.updateAccessibility(event)

    def words(self) -> str:
        """Return what the keys are at: a corner, or a cell and what it is taken for."""
        state = self.state
        if state is None or state.loaded is None:
            return tr("no photograph yet")
        if self.corner is not None:
            return tr("corner of {cell}; arrow keys move it", cell=state.corner_names()[self.corner])
        if self.cell is None or state.reading is None:
            return HINT
        cover = state.reading.cells[self.cell[0] * state.columns + self.cell[1]].cover
        return tr(
            "{cell}: {taken_for}, leaf on {cover} of it",
            cell=state.key(self.cell).label,
            taken_for=MARK_WORDS[state.mark(self.cell)],
            cover=cover_words(cover),
        )
