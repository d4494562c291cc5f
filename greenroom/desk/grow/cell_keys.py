"""The keys on a tray: everything the mouse can do, and a little more."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent, QKeySequence

from greenroom.season.spots import SpotKey

if TYPE_CHECKING:
    from greenroom.desk.grow.holder_view import HolderView

Key = Qt.Key
SHIFT = Qt.KeyboardModifier.ShiftModifier
PLAIN = (Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.KeypadModifier)

STEPS = {Key.Key_Up: (-1, 0), Key.Key_Down: (1, 0), Key.Key_Left: (0, -1), Key.Key_Right: (0, 1)}


class CellKeys:
    """Answers the keys listed in ``shortcuts.CELLS``."""

    def __init__(self, view: HolderView) -> None:
        self._view = view
        self._acts: dict[int, Callable[[], None]] = {
            Key.Key_Space: lambda: self._act(view.acts.mark),
            Key.Key_Plus: lambda: self._act(view.acts.more),
            Key.Key_Backspace: lambda: self._act(view.acts.less),
            Key.Key_Minus: lambda: self._act(view.acts.less),
            Key.Key_Delete: self._ask_loss,
            Key.Key_M: self._lift,
            Key.Key_Return: self._story,
            Key.Key_Enter: self._story,
            Key.Key_Escape: self._escape,
        }

    def press(self, event: QKeyEvent) -> bool:
        """Act on a key; False if it means nothing here."""
        if event.matches(QKeySequence.StandardKey.SelectAll):
            self._view.choice.choose_all()
            self._view.chosen()
            return True
        if self._go(event):
            return True
        if event.key() == Key.Key_Plus and not event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            return self._do(self._acts[Key.Key_Plus])
        if event.modifiers() not in PLAIN:
            return False
        if Key.Key_0 <= event.key() <= Key.Key_9:
            number = event.key() - Key.Key_0
            return self._do(lambda: self._act(lambda keys: self._view.acts.leaves(keys, number)))
        if event.key() == Key.Key_Escape and not self._can_escape():
            return False
        act = self._acts.get(event.key())
        return self._do(act) if act is not None else False

    def _go(self, event: QKeyEvent) -> bool:
        """Move the current cell, or choose as it goes."""
        choice, extend = self._view.choice, bool(event.modifiers() & SHIFT)
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            return False
        if event.key() in STEPS:
            choice.step(*STEPS[Key(event.key())], extend=extend)
        elif event.key() == Key.Key_Home:
            choice.step(0, -choice.columns, extend=extend)
        elif event.key() == Key.Key_End:
            choice.step(0, choice.columns, extend=extend)
        else:
            return False
        self._view.chosen()
        return True

    def _act(self, act: Callable[[list[SpotKey]], object]) -> None:
        """Do something to the chosen cells, unless seedlings are in hand."""
        if not self._view.hand.active and self._view.targets:
            act(self._view.targets)

    def _ask_loss(self) -> None:
        if not self._view.hand.active and self._view.targets:
            self._view.loss_asked.emit()

    def _lift(self) -> None:
        hand = self._view.hand
        if hand.active:
            hand.put_down()
        elif self._view.targets:
            hand.lift(self._view.targets, by_keys=True)

    def _story(self) -> None:
        if self._view.hand.active:
            self._view.hand.put_down()
        elif self._view.current is not None:
            self._view.story_asked.emit(self._view.current)

    def _can_escape(self) -> bool:
        return self._view.hand.active or bool(self._view.choice.chosen)

    def _escape(self) -> None:
        if self._view.hand.active:
            self._view.hand.let_go()
        else:
            self._view.choice.clear()
            self._view.chosen()

    @staticmethod
    def _do(act: Callable[[], None]) -> bool:
        act()
        return True
