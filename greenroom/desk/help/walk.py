"""The walk through the demo: one step at a time, each at a real part of the window, never in its way."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QPoint, QRect, Qt, QTimer
from PySide6.QtGui import QGuiApplication, QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QScrollArea, QWidget

from greenroom.desk.help.outline import Outline
from greenroom.desk.help.placing import beside
from greenroom.desk.help.walk_card import WalkCard
from greenroom.desk.help.walk_left import note_left, state_folder
from greenroom.desk.help.walk_steps import ANY, EXPLAINED, NAMES, STEPS, UNDONE, Shown, Step
from greenroom.desk.pages import open_walk
from greenroom.desk.place.first_run import DEMO_WORDS
from greenroom.desk.shortcuts import WALK
from greenroom.season.state import Touched
from greenroom.season.why import Why
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.desk.window import Window

LOOK_MS = 120
DONE_MS = 1100


def start_walk(window: Window) -> None:
    """Begin the walk in the demo; from the grower's own ledger, in a window of its own with the demo."""
    if not window.bench.keeper.demo:
        open_walk()
        window.bench.say(DEMO_WORDS)
        return
    for walk in window.findChildren(Walk):
        walk.end()
    Walk(window, state_folder()).go_to(0)


class Walk(QObject):
    """Goes on by itself once the grower did what a step asks for, or by Next, Back and Leave.

    Nothing moves on its way from step to step. What is looked at again and again, because no signal
    tells of it, is where the part pointed at stands, and whether a step was done.
    """

    def __init__(self, window: Window, folder: Path, *, done_ms: int = DONE_MS) -> None:
        super().__init__(window)
        self._window = window
        self._folder = folder
        self._place = 0
        self._explain = window.bench.explain
        self._before: object = None
        self._came_from: QWidget | None = None
        self._brought: QWidget | None = None
        self._ground = window.centralWidget()
        self.outline = Outline(window.bench.look, self._ground)
        self.card = WalkCard(window.bench.look, self._ground)
        self._keys = [self._shortcut(key) for key in ("walk next", "walk back", "walk focus")]
        self._look = QTimer(self, interval=LOOK_MS)
        self._look.timeout.connect(self.look)
        self._done = QTimer(self, singleShot=True, interval=done_ms)
        self._done.timeout.connect(self._go_on)
        self._was_done = False
        self._connect()

    @property
    def step(self) -> Step:
        """The step it is at."""
        return STEPS[self._place]

    def go_to(self, place: int) -> None:
        """Go to a step, and to its page."""
        self._done.stop()
        self._place, self._was_done, self._brought = place, False, None
        step = self.step
        self._show_page()
        where = tr("{place} of {steps}", place=place + 1, steps=len(STEPS)) + (
            f" · {NAMES[step.page]}" if step.page else ""
        )
        self.card.show_step(where, step.title, step.words, first=place == 0, last=place == len(STEPS) - 1)
        self._before = step.watch(self._window)
        self.look()
        self.card.show()
        self.card.raise_()
        self._look.start()

    def next(self) -> None:
        """Go to the next step; after the last one the walk is over."""
        if self._place + 1 == len(STEPS):
            self.leave()
        else:
            self.go_to(self._place + 1)

    def back(self) -> None:
        """Go to the step before."""
        if self._place > 0:
            self.go_to(self._place - 1)

    def leave(self) -> None:
        """Leave the walk, and remember that it was left."""
        note_left(self._folder)
        self.end()

    def end(self) -> None:
        """Take the walk off the window."""
        self._look.stop()
        self._done.stop()
        if self.card.isAncestorOf(QApplication.focusWidget() or self._window):
            self._give_back()
        self._window.bench.explain = self._explain
        for part in (*self._keys, self.outline, self.card):
            part.setParent(None)
            part.deleteLater()
        self.setParent(None)
        self.deleteLater()

    def look(self) -> None:
        """Follow what the step points at, and see whether it was done."""
        if not self._window.isVisible():
            self._look.stop()
            return
        away = bool(self.step.page) and self._window.current != self.step.page
        target = None if away else self._target()
        self.card.show_away(NAMES[self.step.page] if away else "")
        bounds = self._ground.rect()
        bounds.setTop(max(0, self._window.stack.mapTo(self._ground, QPoint()).y()))
        stands = beside(target or QRect(bounds.bottomRight(), bounds.bottomRight()), self.card.size(), bounds)
        if self.card.geometry() != stands:
            self.card.setGeometry(stands)
        if target is None:
            self.outline.hide()
        elif self.outline.isHidden() or target != self.outline.around or stands != self.outline.card:
            self.outline.show_around(target, stands)
            self.outline.stackUnder(self.card)
        if not away and self.step.watch(self._window) != self._before:
            self._note_done()

    def _target(self) -> QRect | None:
        """Return what the step points at, as far as it is in sight, or None."""
        shown: Shown = self.step.point(self._window)
        widget = shown.widget
        if not widget.isVisible():
            return None
        if widget is not self._brought:
            self._brought = widget
            _bring_into_sight(widget, shown.part or widget.rect())
        seen = _in_sight(widget, shown.part or widget.rect())
        return None if seen.isEmpty() else QRect(widget.mapTo(self._ground, seen.topLeft()), seen.size())

    def _note_done(self) -> None:
        """Leave a moment to see what came of it."""
        if not self._was_done:
            self._was_done = True
            self.card.show_done()
            self._done.start()

    def _go_on(self) -> None:
        """Go on, unless something is open over the page or is being dragged."""
        busy = QGuiApplication.mouseButtons() != Qt.MouseButton.NoButton
        if QApplication.activePopupWidget() is not None or busy:
            self._done.start()
        elif self._place + 1 < len(STEPS):
            self.next()

    def _take(self, touched: Touched) -> None:
        self._saw(touched.kinds | {ANY} if touched.kinds else touched.kinds)

    def _explain_and_see(self, why: Why, anchor: QWidget) -> None:
        """Open a why-panel as without the walk, and see that it was asked for."""
        self._explain(why, anchor)
        self._saw(frozenset({EXPLAINED}))

    def _undone(self) -> None:
        self._saw(frozenset({UNDONE}))

    def _saw(self, kinds: frozenset[str]) -> None:
        if self.step.kinds & kinds:
            self._note_done()

    def _show_page(self) -> None:
        if self.step.page and self._window.current != self.step.page:
            self._window.show_page(self.step.page)
        self.step.ready(self._window)

    def _turn_focus(self) -> None:
        """Move the keyboard to the card, or back to where it was on the page."""
        held = QApplication.focusWidget()
        if held is not None and self.card.isAncestorOf(held):
            self._give_back()
        else:
            self._came_from = held
            self.card.next_button.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _give_back(self) -> None:
        """Give the keyboard back to the page."""
        came_from = self._came_from
        if came_from is None or not came_from.isVisible():
            came_from = self.step.point(self._window).widget
        came_from.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _shortcut(self, key: str) -> QShortcut:
        keys = next(one for one in WALK if one.key == key).keys
        return QShortcut(QKeySequence(keys[0]), self._window)

    def _connect(self) -> None:
        acts = (self.next, self.back, self._turn_focus)
        for shortcut, act in zip(self._keys, acts, strict=True):
            shortcut.activated.connect(act)
        self.card.next.connect(self.next)
        self.card.back.connect(self.back)
        self.card.left.connect(self.leave)
        self.card.returned.connect(self._show_page)
        self._window.bench.keeper.changed.connect(self._take)
        self._window.bench.keeper.undone.connect(self._undone)
        self._window.bench.explain = self._explain_and_see


def _bring_into_sight(widget: QWidget, part: QRect) -> None:
    """Scroll, where a part of a widget is out of sight, until its middle is in it."""
    above: QWidget | None = widget.parentWidget()
    while above is not None and not above.isWindow():
        if isinstance(above, QScrollArea) and not _in_sight(widget, part).contains(part):
            inside = above.widget()
            if inside is not None and inside.isAncestorOf(widget):
                middle = widget.mapTo(inside, part.center())
                above.ensureVisible(middle.x(), middle.y(), part.width() // 2, part.height() // 2)
        above = above.parentWidget()


def _in_sight(widget: QWidget, part: QRect) -> QRect:
    """Return what of a part of a widget no parent cuts off, as where scrolling hides it."""
    seen, above = QRect(part), widget
    while not above.isWindow() and (parent := above.parentWidget()) is not None:
        above = parent
        seen &= QRect(widget.mapFrom(above, above.rect().topLeft()), above.size())
    return seen
