"""The mouse on the plan: choose a place, carry plants, or lay, move and size beds and obstacles."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent

from greenroom.desk.grow.cell_mouse import is_far
from greenroom.desk.set_out import plan_paint
from greenroom.desk.set_out.laying import moved, sized
from greenroom.desk.set_out.plan_state import DRAW
from greenroom.season.plot import Bed, Plot, Shade
from greenroom.season.spots import SpotKey

if TYPE_CHECKING:
    from greenroom.desk.set_out.plan_view import PlanView


@dataclass(slots=True)
class _Press:
    """Where the button went down, on what, and what the drag does: "click", "carry", "move", "size"."""

    at: QPoint
    spot: SpotKey | None
    thing: Bed | Shade | None
    would: str
    doing: str = "click"


class PlanMouse:
    """Tells clicks from drags; what is laid is told once, when the button comes up."""

    def __init__(self, view: PlanView) -> None:
        self._view = view
        self._press: _Press | None = None
        self._before: Plot | None = None

    def press(self, event: QMouseEvent) -> None:
        """Take note of where the button goes down."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        point = event.position().toPoint()
        if self._view.state.mode == DRAW:
            self._press_drawing(point)
        else:
            self._press = _Press(point, self._view.spot_at(point), None, "carry")

    def move(self, event: QMouseEvent) -> None:
        """Begin or go on with a drag."""
        press, point = self._press, event.position().toPoint()
        if press is None:
            return
        if press.doing == "click" and is_far(press.at, point):
            self._begin(press, event)
        if press.doing == "carry":
            self._view.carried.emit(event.globalPosition().toPoint())
        elif press.doing in ("move", "size"):
            self._show(press, point)

    def release(self, event: QMouseEvent) -> None:
        """End a click or a drag."""
        press, self._press = self._press, None
        if press is None or event.button() != Qt.MouseButton.LeftButton:
            return
        if press.doing == "carry":
            self._view.dropped.emit(event.globalPosition().toPoint())
        elif press.doing in ("move", "size"):
            self._lay(press, event.position().toPoint())
        elif self._view.state.mode != DRAW:
            self._click(press)

    def _press_drawing(self, point: QPoint) -> None:
        view = self._view
        chosen = view.state.thing
        if chosen is not None and plan_paint.handle_rect(view, chosen).contains(QPointF(point)):
            self._press = _Press(point, None, chosen, "size")
            return
        view.choose(view.thing_at(point))
        self._press = _Press(point, None, view.state.thing, "move")

    def _begin(self, press: _Press, event: QMouseEvent) -> None:
        if press.would != "carry":
            if press.thing is not None:
                press.doing, self._before = press.would, self._view.state.plot
            return
        if press.spot is not None and self._view.season.spot(press.spot).up > 0:
            press.doing = "carry"
            self._view.carry_started.emit([press.spot], event.globalPosition().toPoint())

    def _new(self, press: _Press, point: QPoint) -> Bed | Shade:
        """Return the thing as it would lie with the pointer here."""
        if press.thing is None:
            raise LookupError("nothing is being drawn")
        start, here = self._view.frame.to_m(QPointF(press.at)), self._view.frame.to_m(QPointF(point))
        change = moved if press.doing == "move" else sized
        return change(press.thing, here[0] - start[0], here[1] - start[1])

    def _show(self, press: _Press, point: QPoint) -> None:
        new, plot = self._new(press, point), self._view.state.plot
        beds = tuple(new if isinstance(new, Bed) and bed.key == new.key else bed for bed in plot.beds)
        shades = tuple(new if isinstance(new, Shade) and one.key == new.key else one for one in plot.shades)
        self._view.state.plot = replace(plot, beds=beds, shades=shades)
        self._view.update()

    def _lay(self, press: _Press, point: QPoint) -> None:
        new = self._new(press, point)
        if self._before is not None:
            self._view.state.plot, self._before = self._before, None
        self._view.laid.emit(new.key, new)
        self._view.update()

    def _click(self, press: _Press) -> None:
        hand = self._view.hand
        if hand.active and press.spot is not None:
            hand.aim(press.spot)
            hand.put_down()
            return
        self._view.go_to(press.spot)
