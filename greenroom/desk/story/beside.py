"""The story in a stack of what stands beside a plan: opened over it, and closed to what was there."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, Qt
from PySide6.QtWidgets import QStackedWidget, QWidget

from greenroom.desk.story.panel import StoryPanel
from greenroom.season.spots import SpotKey


class StoryBeside(QObject):
    """Brings the panel to the front of a stack; ``back`` is where the keyboard goes when it closes."""

    def __init__(self, panel: StoryPanel, stack: QStackedWidget, back: Callable[[], QWidget]) -> None:
        super().__init__(stack)
        self._panel = panel
        self._stack = stack
        self._back = back
        self._before: QWidget | None = None
        stack.addWidget(panel)
        panel.closed.connect(self._on_closed)

    def open_story(self, key: SpotKey | None) -> None:
        """Show the story of what stands in a spot."""
        if key is None:
            return
        if self._stack.currentWidget() is not self._panel:
            self._before = self._stack.currentWidget()
        self._panel.open_for(key)
        self._stack.setCurrentWidget(self._panel)
        self._panel.note.setFocus(Qt.FocusReason.OtherFocusReason)

    def follow(self, key: SpotKey | None) -> None:
        """Go on to another spot if the story is open."""
        if key is not None and self._stack.currentWidget() is self._panel:
            self._panel.follow(key)

    def show_other(self, widget: QWidget) -> None:
        """Bring something else to the front; an open story is closed."""
        self._before = widget
        if self._stack.currentWidget() is self._panel:
            self._panel.close_panel()
        self._stack.setCurrentWidget(widget)

    def _on_closed(self) -> None:
        if self._before is not None:
            self._stack.setCurrentWidget(self._before)
        self._back().setFocus(Qt.FocusReason.OtherFocusReason)
