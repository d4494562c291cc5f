"""The open tray or rack on the Sow page: cells are chosen in it, or sown as the pointer passes."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QMouseEvent, QPainter, QPaintEvent, QPen

from greenroom.desk.bench import Bench
from greenroom.desk.grow.acts import Acts
from greenroom.desk.grow.cell_art import CellArt, Face
from greenroom.desk.grow.cell_keys import PLAIN, CellKeys
from greenroom.desk.grow.cell_mouse import CellMouse
from greenroom.desk.grow.grid import Place, block
from greenroom.desk.grow.hand import Hand
from greenroom.desk.grow.holder_view import HolderView
from greenroom.desk.sow.stroke import Stroke
from greenroom.season.spots import SpotKey, Stage

Key = Qt.Key
LEFT = Qt.MouseButton.LeftButton


class SowView(HolderView):
    """Shows a holder; ``brush`` tells whether a drag sows or chooses. Signals carry screen coordinates."""

    sow_asked = Signal()
    seeds_asked = Signal(int)
    stroke_started = Signal(QPoint)
    stroke_moved = Signal(QPoint)
    stroke_ended = Signal(QPoint)
    stroke_dropped = Signal()

    def __init__(self, bench: Bench, acts: Acts, hand: Hand, art: CellArt) -> None:
        super().__init__(bench, acts, hand, art)
        self.brush = False
        self.stroke: Stroke | None = None
        self._keys = SowKeys(self)
        self._mouse = SowMouse(self)

    @property
    def free_targets(self) -> list[SpotKey]:
        """The chosen cells that may be sown."""
        return [key for key in self.targets if self.season.spot(key).free]

    def choose_empty(self) -> None:
        """Choose every empty cell."""
        if self.holder is not None:
            spots = self.season.spots(self.holder.key)
            self._choose(self.place_of(spot.key) for spot in spots if spot.free)

    def choose_rows(self) -> None:
        """Choose the whole rows of the chosen cells."""
        last = self.choice.columns - 1
        rows = {row for row, _ in self.choice.targets}
        self._choose(place for row in sorted(rows) for place in block((row, 0), (row, last)))

    def choose_columns(self) -> None:
        """Choose the whole columns of the chosen cells."""
        last = self.choice.rows - 1
        columns = {column for _, column in self.choice.targets}
        self._choose(place for column in sorted(columns) for place in block((0, column), (last, column)))

    def show_stroke(self, stroke: Stroke | None) -> None:
        """Show what a stroke would sow, or no longer."""
        before = self.stroke
        self.stroke = stroke
        for one in (before, stroke):
            if one is not None:
                self.repaint_places(one.places)

    def repaint_places(self, places: Iterable[Place]) -> None:
        """Repaint some cells."""
        for place in places:
            self.update(self._ringed(place))

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.stroke is None or self.holder is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        face = Face(self.is_rack, Stage.SOWN, 0, self.stroke.seeds)
        for place in self.grid.within(event.rect()):
            if place in self.stroke.places:
                self.art.paint(painter, self.grid.cell(place), face)
                self._ring_leaf(painter, place)
        painter.end()

    def _ring_leaf(self, painter: QPainter, place: Place) -> None:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(self.bench.look.colour("leaf"), 3.0))
        cell = self.grid.cell(place)
        if self.is_rack:
            side = min(cell.width(), cell.height())
            painter.drawEllipse(cell.center(), side // 2, side // 2)
        else:
            painter.drawRoundedRect(cell, 7, 7)

    def _choose(self, places: Iterable[Place]) -> None:
        current, found = self.choice.current, list(places)
        self.choice.choose(found)
        if found:
            self.choice.current = self.choice.anchor = current or found[0]
        self.chosen()


class SowMouse(CellMouse):
    """A click chooses a cell, a drag a block; with the brush on, a drag sows what it passes."""

    def __init__(self, view: SowView) -> None:
        super().__init__(view)
        self._sow_view = view
        self._brushing = False

    def forget(self) -> None:
        super().forget()
        self._brushing = False

    def press(self, event: QMouseEvent) -> None:
        plain = event.modifiers() == Qt.KeyboardModifier.NoModifier
        if self._sow_view.brush and plain and event.button() == LEFT and self._sow_view.holder is not None:
            self._brushing = True
            self._sow_view.stroke_started.emit(event.globalPosition().toPoint())
        else:
            super().press(event)

    def move(self, event: QMouseEvent) -> None:
        if self._brushing:
            self._sow_view.stroke_moved.emit(event.globalPosition().toPoint())
        else:
            super().move(event)

    def release(self, event: QMouseEvent) -> None:
        if self._brushing and event.button() == LEFT:
            self._brushing = False
            self._sow_view.stroke_ended.emit(event.globalPosition().toPoint())
        else:
            super().release(event)

    def _lifted(self, press: object) -> list[SpotKey]:  # noqa: ARG002 nothing is lifted on this page
        return []

    def _click(self, press: object) -> None:
        place = getattr(press, "place", None)
        self._view.choice.choose([place] if place is not None else [])
        self._view.chosen()


class SowKeys(CellKeys):
    """Arrows go and choose; Space or Enter sows; E, R and C choose; 1 to 9 seeds a cell; Escape lets go."""

    def __init__(self, view: SowView) -> None:
        super().__init__(view)
        self._sow_view = view
        self._acts = {
            Key.Key_Space: view.sow_asked.emit,
            Key.Key_Return: view.sow_asked.emit,
            Key.Key_Enter: view.sow_asked.emit,
            Key.Key_E: view.choose_empty,
            Key.Key_R: view.choose_rows,
            Key.Key_C: view.choose_columns,
            Key.Key_Escape: self._escape,
        }

    def press(self, event: QKeyEvent) -> bool:
        if event.key() == Key.Key_Escape and self._sow_view.stroke is not None:
            self._sow_view.stroke_dropped.emit()
            return True
        if event.matches(QKeySequence.StandardKey.SelectAll):
            self._view.choice.choose_all()
            self._view.chosen()
            return True
        if self._go(event):
            return True
        if event.modifiers() not in PLAIN or (event.key() == Key.Key_Escape and not self._can_escape()):
            return False
        if Key.Key_1 <= event.key() <= Key.Key_9:
            self._sow_view.seeds_asked.emit(event.key() - Key.Key_0)
            return True
        act = self._acts.get(event.key())
        return self._do(act) if act is not None else False
