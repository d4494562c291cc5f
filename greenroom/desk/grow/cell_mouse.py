"""The mouse on a tray: click, choose a block, or lift seedlings and carry them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication

from greenroom.desk.grow.grid import Place
from greenroom.season.spots import SpotKey

if TYPE_CHECKING:
    from greenroom.desk.grow.holder_view import HolderView

CTRL = Qt.KeyboardModifier.ControlModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


@dataclass(slots=True)
class _Press:
    """Where the button went down; ``doing`` is "click" until the mouse has moved far enough."""

    at: QPoint
    place: Place | None
    besides: bool
    doing: str = "click"


class CellMouse:
    """Tells clicks from drags.

    A drag that begins on a living seedling lifts it, or the whole choice if it is one of it; a drag
    that begins anywhere else draws a block. The drag is this widget's own grab of the mouse and not
    the system's drag and drop: it stays inside the window, shows how many are in hand, lets Escape
    through, and runs the same with a real mouse and in a test without a screen.
    """

    def __init__(self, view: HolderView) -> None:
        self._view = view
        self._press: _Press | None = None

    def forget(self) -> None:
        """Forget a press that is under way."""
        self._press = None
        self._view.rubber = None

    def press(self, event: QMouseEvent) -> None:
        """Take note of where the button goes down; with Shift or Ctrl choose at once."""
        if event.button() != Qt.MouseButton.LeftButton or self._view.holder is None:
            return
        point = event.position().toPoint()
        place = self._view.grid.at(point)
        self._press = _Press(point, place, besides=bool(event.modifiers() & CTRL))
        if place is None:
            return
        if event.modifiers() & SHIFT:
            self._view.choice.extend(place)
            self._press.doing = "chosen"
            self._view.chosen()
        elif event.modifiers() & CTRL:
            self._view.choice.toggle(place)
            self._press.doing = "chosen"
            self._view.chosen()

    def move(self, event: QMouseEvent) -> None:
        """Begin or go on with a drag."""
        press = self._press
        if press is None:
            return
        point = event.position().toPoint()
        if press.doing in ("click", "chosen") and is_far(press.at, point):
            self._begin_drag(press, event)
        if press.doing == "band":
            self._view.rubber = QRect(press.at, point).normalized()
            self._view.see_point(point)
            self._view.update()
        elif press.doing == "carry":
            self._view.carried.emit(event.globalPosition().toPoint())

    def release(self, event: QMouseEvent) -> None:
        """End a click or a drag."""
        press, self._press = self._press, None
        if press is None or event.button() != Qt.MouseButton.LeftButton:
            return
        if press.doing == "carry":
            self._view.dropped.emit(event.globalPosition().toPoint())
        elif press.doing == "band":
            self._end_band(press)
        elif press.doing == "click":
            self._click(press)

    def _begin_drag(self, press: _Press, event: QMouseEvent) -> None:
        lifted = self._lifted(press)
        if not lifted:
            press.doing = "band"
            return
        press.doing = "carry"
        self._view.carry_started.emit(lifted, event.globalPosition().toPoint())

    def _lifted(self, press: _Press) -> list[SpotKey]:
        """Return the cells a drag from here lifts: none if no seedling stands under it."""
        view = self._view
        if press.place is None or view.season.spot(view.key_of(press.place)).up == 0:
            return []
        chosen = view.choice.chosen
        places = sorted(chosen) if press.place in chosen else [press.place]
        return [key for key in map(view.key_of, places) if view.season.spot(key).up > 0]

    def _end_band(self, press: _Press) -> None:
        view = self._view
        band, view.rubber = view.rubber, None
        if band is not None:
            view.choice.choose(view.grid.within(band), besides=press.besides)
        view.chosen()
        view.update()

    def _click(self, press: _Press) -> None:
        view = self._view
        if press.place is None:
            view.choice.clear()
            view.chosen()
            return
        key = view.key_of(press.place)
        if view.hand.active:
            view.hand.aim(key)
            view.hand.put_down()
            return
        view.go_to(press.place)
        view.acts.click(key)


def is_far(start: QPoint, point: QPoint) -> bool:
    """Return whether the pointer has moved far enough from a press to mean a drag."""
    return (point - start).manhattanLength() >= QApplication.startDragDistance()
