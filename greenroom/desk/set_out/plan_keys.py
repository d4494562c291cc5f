"""The keys on the plan; they are listed in ``shortcuts.PLAN``."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from greenroom.desk.set_out.laying import moved, sized
from greenroom.desk.set_out.plan_state import DRAW
from greenroom.season.spots import SpotKey

if TYPE_CHECKING:
    from greenroom.desk.set_out.plan_view import PlanView

Key = Qt.Key
STEPS = {Key.Key_Up: (-1, 0), Key.Key_Down: (1, 0), Key.Key_Left: (0, -1), Key.Key_Right: (0, 1)}
NEXT = {Key.Key_PageDown: 1, Key.Key_PageUp: -1}
STEP_M = 0.1


class PlanKeys:
    """Answers the keys: while planting they go from place to place, while drawing they move things."""

    def __init__(self, view: PlanView) -> None:
        self._view = view

    def press(self, event: QKeyEvent) -> bool:
        """Act on a key; False if it means nothing here."""
        if event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier):
            return False
        if self._view.state.mode == DRAW:
            return self._draw(event)
        return self._plant(event)

    def _plant(self, event: QKeyEvent) -> bool:
        key, hand = event.key(), self._view.hand
        if key in STEPS:
            self._step(*STEPS[Key(key)])
        elif key in NEXT:
            self._next_bed(NEXT[Key(key)])
        elif key in (Key.Key_Return, Key.Key_Enter) and not hand.active:
            return self._ask_story()
        elif key in (Key.Key_M, Key.Key_Return, Key.Key_Enter):
            return self._lift_or_put()
        elif key == Key.Key_Escape and hand.active:
            hand.let_go()
        else:
            return False
        return True

    def _draw(self, event: QKeyEvent) -> bool:
        key, thing = event.key(), self._view.state.thing
        if key in NEXT:
            self._next_thing(NEXT[Key(key)])
        elif key in STEPS and thing is not None:
            down, right = STEPS[Key(key)]
            change = sized if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else moved
            self._view.laid.emit(thing.key, change(thing, right * STEP_M, -down * STEP_M))
        elif key == Key.Key_Delete and thing is not None:
            self._view.taken_away.emit(thing.key)
        elif key == Key.Key_Escape and thing is not None:
            self._view.choose(None)
        else:
            return False
        return True

    def _step(self, down: int, right: int) -> None:
        beds, current = self._view.state.plot.beds, self._view.state.current
        bed = self._view.state.plot.bed(current.holder) if current is not None else None
        if current is None or bed is None:
            if beds:
                self._view.go_to(SpotKey(beds[0].key, 0, 0))
            return
        row = max(0, min(current.row + down, bed.rows - 1))
        column = max(0, min(current.column + right, bed.columns - 1))
        self._view.go_to(SpotKey(bed.key, row, column))

    def _next_bed(self, step: int) -> None:
        keys = [bed.key for bed in self._view.state.plot.beds]
        current = self._view.state.current
        if keys:
            place = (keys.index(current.holder) + step) % len(keys) if current is not None else 0
            self._view.go_to(SpotKey(keys[place], 0, 0))

    def _next_thing(self, step: int) -> None:
        keys = [thing.key for thing in self._view.state.things]
        chosen = self._view.state.chosen
        if keys:
            place = (keys.index(chosen) + step) % len(keys) if chosen in keys else 0
            self._view.choose(keys[place])

    def _ask_story(self) -> bool:
        current = self._view.state.current
        if current is not None:
            self._view.story_asked.emit(current)
        return current is not None

    def _lift_or_put(self) -> bool:
        hand, current = self._view.hand, self._view.state.current
        if hand.active:
            hand.put_down()
        elif current is not None:
            hand.lift([current], by_keys=True)
        return hand.active or current is not None
