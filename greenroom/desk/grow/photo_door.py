"""The way from the open tray to the reading of a photograph and back; the panel is made when first opened."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QStackedWidget, QWidget

from greenroom.desk.bench import Bench
from greenroom.season.state import Touched

if TYPE_CHECKING:
    from greenroom.desk.grow.photo_panel import PhotoPanel


class PhotoDoor(QObject):
    """Puts the panel into a stack in place of the page's own work."""

    closed = Signal()

    def __init__(self, bench: Bench, stack: QStackedWidget, work: QWidget) -> None:
        super().__init__(stack)
        self._bench = bench
        self._stack = stack
        self._work = work
        self.panel: PhotoPanel | None = None

    @property
    def open(self) -> bool:
        """Whether the panel is in front."""
        return self.panel is not None and self._stack.currentWidget() is self.panel

    def open_for(self, holder: str) -> None:
        """Read photographs of a tray."""
        if self.panel is None:
            from greenroom.desk.grow.photo_panel import PhotoPanel

            self.panel = PhotoPanel(self._bench)
            self.panel.closed.connect(self._on_closed)
            self._stack.addWidget(self.panel)
        self._stack.setCurrentWidget(self.panel)
        self.panel.open_for(holder)

    def take(self, touched: Touched) -> None:
        """Show what a change touched."""
        if self.open and self.panel is not None:
            self.panel.take(touched)

    def follow_today(self) -> None:
        """Go on to a new day at midnight."""
        if self.panel is not None:
            self.panel.seen_on.follow_today()

    def close(self) -> None:
        """Go back to the cells."""
        if self.open and self.panel is not None:
            self.panel.close_panel()

    def closing(self) -> None:
        """Stop what still runs."""
        if self.panel is not None:
            self.panel.stop()

    def _on_closed(self) -> None:
        if self.open:
            self._stack.setCurrentWidget(self._work)
            self.closed.emit()
