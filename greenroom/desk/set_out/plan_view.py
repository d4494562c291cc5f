"""The plan of the plot, under the mouse and the keys."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QPointF, QSize, QSizeF, Qt, Signal
from PySide6.QtGui import (
    QAccessible,
    QAccessibleEvent,
    QContextMenuEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.grow.cell_art import CellArt
from greenroom.desk.grow.hand import Hand
from greenroom.desk.parts import told_under
from greenroom.desk.set_out import plan_paint
from greenroom.desk.set_out.frame import frame_in
from greenroom.desk.set_out.plan_keys import PlanKeys
from greenroom.desk.set_out.plan_mouse import PlanMouse
from greenroom.desk.set_out.plan_state import DRAW, PlanState
from greenroom.desk.set_out.plan_words import place_words, thing_words
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.speech import tr

SMALLEST = QSize(320, 220)
REACH_PX = 14.0


class PlanView(QWidget):
    """Shows the plot; plants are lifted into ``hand``, what is drawn is told by signals."""

    current_changed = Signal()
    chosen_changed = Signal()
    story_asked = Signal(object)
    laid = Signal(str, object)
    taken_away = Signal(str)
    carry_started = Signal(list, QPoint)
    carried = Signal(QPoint)
    dropped = Signal(QPoint)

    def __init__(self, bench: Bench, hand: Hand, art: CellArt) -> None:
        super().__init__()
        self.bench = bench
        self.hand = hand
        self.art = art
        self.state = PlanState()
        self.frame = frame_in(self.state.extent, QSizeF(SMALLEST))
        self._keys = PlanKeys(self)
        self._mouse = PlanMouse(self)
        self.setObjectName("plan")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        bench.look.changed.connect(self.update)
        hand.changed.connect(self.update)

    @property
    def season(self) -> Season:
        """The season as it stands."""
        return self.bench.keeper.season

    def refresh(self) -> None:
        """Show the state anew."""
        self._fit()
        self.update()
        self.tell()

    def go_to(self, spot: SpotKey | None) -> None:
        """Make a position the current one."""
        self.state.current = spot
        if self.hand.active and self.hand.by_keys and spot is not None:
            self.hand.aim(spot)
        self.update()
        self.tell()
        self.current_changed.emit()

    def choose(self, key: str | None) -> None:
        """Choose the bed or obstacle to draw."""
        self.state.chosen = key
        self.update()
        self.tell()
        self.chosen_changed.emit()

    def spot_at(self, point: QPoint) -> SpotKey | None:
        """Return the position under a point of this widget, or close to it."""
        x, y = self.frame.to_m(QPointF(point))
        inside = self.state.plot.spot_at(x, y)
        if inside is not None:
            return inside
        near = [
            (away, spot)
            for bed in self.state.plot.beds
            for spot, place in bed.places()
            if (away := _apart(self.frame.to_px(place), QPointF(point))) <= REACH_PX
        ]
        return min(near)[1] if near else None

    def thing_at(self, point: QPoint) -> str | None:
        """Return the key of the bed or obstacle under a point, the one drawn last before others."""
        for thing in reversed(self.state.things):
            outline = self.frame.polygon(thing.corners)
            if outline.containsPoint(QPointF(point), Qt.FillRule.OddEvenFill):
                return thing.key
        return None

    def tell(self) -> None:
        """Tell a screen reader what is current."""
        told = self.words()
        if told == self.accessibleName():
            return
        self.setAccessibleName(told)
        if QAccessible.isActive():
            QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.NameChanged))

    def words(self) -> str:
        """Return what is current, in words."""
        if self.state.mode == DRAW:
            thing = self.state.thing
            return thing_words(thing) if thing is not None else tr("Plan: choose a bed or what throws shade")
        if self.state.current is None:
            return tr("Plan of the plot: arrow keys go from place to place")
        return place_words(self.season, self.state, self.state.current)

    def sizeHint(self) -> QSize:
        return SMALLEST * 1.5

    def minimumSizeHint(self) -> QSize:
        return SMALLEST

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: ARG002 the plan is painted whole
        painter = QPainter(self)
        plan_paint.paint(self, painter)
        painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self._keys.press(event):
            super().keyPressEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        by_mouse = event.reason() == QContextMenuEvent.Reason.Mouse
        spot = self.spot_at(event.pos()) if by_mouse else self.state.current
        if spot is not None and self.state.mode != DRAW:
            self.go_to(spot)
            self.story_asked.emit(spot)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._mouse.press(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._mouse.move(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._mouse.release(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def event(self, event: QEvent) -> bool:
        return told_under(self, event, self._words_at) or super().event(event)

    def _words_at(self, point: QPoint) -> str:
        spot = self.spot_at(point)
        if spot is not None and self.state.mode != DRAW:
            return place_words(self.season, self.state, spot)
        key = self.thing_at(point)
        found = next((thing for thing in self.state.things if thing.key == key), None)
        return thing_words(found) if found is not None else ""

    def _fit(self) -> None:
        self.frame = frame_in(self.state.extent, QSizeF(self.size()))


def _apart(one: QPointF, other: QPointF) -> float:
    away = one - other
    return float((away.x() ** 2 + away.y() ** 2) ** 0.5)
