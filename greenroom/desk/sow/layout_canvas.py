"""Trays as they would be sown: blocks of cells that are taken to other cells or trays."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QPoint, QPointF, QRect, QSize, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QFocusEvent,
    QFont,
    QFontMetrics,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.grow.cell_art import CellArt, Face
from greenroom.desk.grow.grid import Grid, Margins, fit
from greenroom.desk.look import BODY_PX, SMALL_PX, Look, font
from greenroom.desk.sharp import straight
from greenroom.season.fill_trays import Block, Cell, FilledTray
from greenroom.season.spots import Stage, row_label
from greenroom.speech import tr

LEFT_PX, HEAD_PX, BANDS_PX, NUMBERS_PX = 28, 24, 20, 20
GAP_PX = 18
MOST_PITCH_PX = 40

Where = tuple[int, int]
"""A tray and the place of a block in it."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """Where one tray is drawn."""

    top: int
    grid: Grid


class LayoutCanvas(QWidget):
    """Draws the trays; ``moved`` carries a block, a tray and a cell; ``emptied`` a block to be left out.

    Home and End, or N, go from block to block; arrows move the one chosen, Delete leaves it out.
    """

    moved = Signal(object, int, object)
    stepped = Signal(object, object)
    emptied = Signal(object)
    chosen = Signal()
    menu_asked = Signal(object, QPoint)

    def __init__(self, look: Look, names: Callable[[int], str]) -> None:
        super().__init__()
        self._look = look
        self._art = CellArt(look)
        self._names = names
        self.trays: list[FilledTray] = []
        self.current: Where | None = None
        self.sheets: list[Sheet] = []
        self._grip: Cell | None = None
        self._target: tuple[int, Cell] | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName(tr("Trays as they would be sown"))
        look.changed.connect(self.update)

    @property
    def blocks(self) -> list[Where]:
        """Every block, tray by tray."""
        return [(tray, place) for tray, one in enumerate(self.trays) for place in range(len(one.blocks))]

    def block(self, where: Where) -> Block:
        """Return a block."""
        return self.trays[where[0]].blocks[where[1]]

    def show_trays(self, trays: list[FilledTray], current: Where | None = None) -> None:
        """Show trays."""
        self.trays = trays
        blocks = self.blocks
        self.current = current if current in blocks else blocks[0] if blocks else None
        self._lay_out()
        self._tell()

    def at(self, point: QPoint) -> tuple[int, Cell] | None:
        """Return the tray and the cell at a point."""
        for tray, sheet in enumerate(self.sheets):
            cell = sheet.grid.at(point)
            if cell is not None:
                return tray, cell
        return None

    def block_at(self, tray: int, cell: Cell) -> Where | None:
        """Return the block a cell belongs to."""
        for place, block in enumerate(self.trays[tray].blocks):
            if cell in block.cells:
                return tray, place
        return None

    def mousePressEvent(self, event: QMouseEvent) -> None:
        found = self.at(event.position().toPoint())
        where = self.block_at(*found) if found is not None else None
        if event.button() == Qt.MouseButton.LeftButton and found is not None and where is not None:
            self.current, self._grip = where, found[1]
            self._tell()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._grip is None or self.current is None:
            return
        found = self.at(event.position().toPoint())
        self._target = (found[0], self._first_for(*found)) if found is not None else None
        self.update()

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:
        target, current, grip = self._target, self.current, self._grip
        self._grip = self._target = None
        self.update()
        if grip is not None and target is not None and current is not None:
            tray, first = target
            if (tray, first) != (current[0], self.block(current).cells[0]):
                self.moved.emit(current, tray, first)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if self.current is not None:
            self.menu_asked.emit(self.current, event.globalPos())

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {
            Qt.Key.Key_Left: (0, -1),
            Qt.Key.Key_Right: (0, 1),
            Qt.Key.Key_Up: (-1, 0),
            Qt.Key.Key_Down: (1, 0),
        }
        if event.key() == Qt.Key.Key_Escape and self._grip is not None:
            self._grip = self._target = None
            self.update()
        elif self.current is None:
            super().keyPressEvent(event)
        elif event.key() in steps:
            self.stepped.emit(self.current, steps[Qt.Key(event.key())])
        elif event.key() in (Qt.Key.Key_N, Qt.Key.Key_End, Qt.Key.Key_Home):
            self._go(1 if event.key() != Qt.Key.Key_Home else -1)
        elif event.key() == Qt.Key.Key_Delete:
            self.emptied.emit(self.current)
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._lay_out()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for tray, sheet in enumerate(self.sheets):
            self._paint_head(painter, tray, sheet)
            blocks = self.trays[tray].blocks
            for place, block in enumerate(blocks):
                starts = [min(cell[1] for cell in one.cells) for one in blocks if one is not block]
                current = (tray, place) == self.current
                self._paint_block(painter, sheet, block, starts, current=current)
        self._paint_target(painter)
        painter.end()

    def _paint_head(self, painter: QPainter, tray: int, sheet: Sheet) -> None:
        painter.setFont(font(BODY_PX, QFont.Weight.DemiBold))
        painter.setPen(self._look.colour("ink"))
        painter.drawText(
            QRect(0, sheet.top, self.width(), HEAD_PX), Qt.AlignmentFlag.AlignVCenter, self._names(tray)
        )
        grid = sheet.grid
        painter.setFont(font(SMALL_PX))
        painter.setPen(self._look.colour("quiet"))
        sown = {cell: block.seeds_a_cell for block in self.trays[tray].blocks for cell in block.cells}
        for column in range(grid.columns):
            slot = grid.slot((0, column))
            head = QRect(slot.left(), slot.top() - NUMBERS_PX, slot.width(), NUMBERS_PX)
            painter.drawText(head, Qt.AlignmentFlag.AlignCenter, str(column + 1))
        for row in range(grid.rows):
            slot = grid.slot((row, 0))
            side = QRect(0, slot.top(), LEFT_PX - 6, slot.height())
            painter.drawText(
                side, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter, row_label(row)
            )
            for column in range(grid.columns):
                seeds = sown.get((row, column), 0)
                face = Face(False, Stage.SOWN if seeds else Stage.BARE, 0, seeds)
                self._art.paint(painter, grid.cell((row, column)), face)

    def _paint_block(
        self, painter: QPainter, sheet: Sheet, block: Block, starts: list[int], *, current: bool
    ) -> None:
        """Draw a block's line and its name, which may run on over the empty columns behind it."""
        grid = sheet.grid
        columns = sorted({column for _, column in block.cells})
        left, right = grid.slot((0, columns[0])).left() + 2, grid.slot((0, columns[-1])).right() - 2
        base = grid.top - NUMBERS_PX
        letters = font(SMALL_PX, QFont.Weight.DemiBold)
        painter.setFont(letters)
        painter.setPen(self._look.colour("ink"))
        next_start = min((one for one in starts if one > columns[-1]), default=grid.columns)
        room = grid.slot((0, next_start - 1)).right() - 4 - left
        words = QFontMetrics(letters).elidedText(block.name, Qt.TextElideMode.ElideRight, room)
        painter.drawText(
            QRect(left, base - BANDS_PX, room, BANDS_PX - 3), Qt.AlignmentFlag.AlignVCenter, words
        )
        painter.setPen(QPen(self._look.colour("leaf" if current else "quiet"), 3 if current else 1.5))
        straight(painter, QPointF(left, base - 1), QPointF(right, base - 1))
        if not current:
            return
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(self._look.colour("focus" if self.hasFocus() else "leaf"), 2.5))
        for cell in block.cells:
            painter.drawRoundedRect(grid.cell(cell), 6, 6)

    def _paint_target(self, painter: QPainter) -> None:
        if self._target is None or self.current is None:
            return
        tray, first = self._target
        grid = self.sheets[tray].grid
        begin = first[1] * grid.rows + first[0]
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(self._look.colour("sun"), 3, Qt.PenStyle.DashLine))
        for number in range(
            begin, min(begin + len(self.block(self.current).cells), grid.rows * grid.columns)
        ):
            painter.drawRoundedRect(grid.cell((number % grid.rows, number // grid.rows)), 6, 6)

    def _first_for(self, tray: int, cell: Cell) -> Cell:
        """Return where the block would begin, held by the cell it was taken by."""
        if self.current is None or self._grip is None:
            return cell
        held = self.block(self.current).cells.index(self._grip)
        rows = self.sheets[tray].grid.rows
        begin = max(0, cell[1] * rows + cell[0] - held)
        return begin % rows, begin // rows

    def _go(self, by: int) -> None:
        blocks = self.blocks
        place = blocks.index(self.current) if self.current in blocks else 0
        self.current = blocks[(place + by) % len(blocks)]
        self._tell()

    def _tell(self) -> None:
        words = tr("Nothing is laid out.")
        if self.current is not None:
            block = self.block(self.current)
            words = f"{block.name}, {self._names(self.current[0])}, {block.words}"
        self.setAccessibleDescription(words)
        self.update()
        self.chosen.emit()

    def _lay_out(self) -> None:
        self.sheets, top = [], 0
        for one in self.trays:
            margins = Margins(LEFT_PX, top + HEAD_PX + BANDS_PX + NUMBERS_PX, 8, 0)
            tall = margins.top + one.tray.rows * MOST_PITCH_PX
            grid = fit(one.tray.rows, one.tray.columns, QSize(max(self.width(), 240), tall), margins)
            self.sheets.append(Sheet(top, grid))
            top = grid.area.bottom() + GAP_PX
        if top != self.height() and top > 0:
            self.setFixedHeight(top)
        self.update()
