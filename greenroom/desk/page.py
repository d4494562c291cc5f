"""What the window expects of a page."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from greenroom.desk.bench import Bench
from greenroom.season.state import Touched


def first_stop(home: QWidget) -> QWidget | None:
    """Return what the Tab key comes to first within a part of the window."""
    at = home.nextInFocusChain()
    while at is not None and at is not home:
        stops = at.focusPolicy() & Qt.FocusPolicy.TabFocus and at.isEnabled() and at.isVisible()
        if stops and home.isAncestorOf(at):
            return at
        at = at.nextInFocusChain()
    return None


class Page(QWidget):
    """One page of the window. ``key`` names it in the ribbon."""

    key = ""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.setObjectName("page")
        self.bench = bench

    def take(self, touched: Touched) -> None:
        """Show what a change touched; called once after each act, also while the page is hidden."""

    def tick(self, now: datetime) -> None:
        """Take notice of the time; called about once a second while the page is shown."""

    def entered(self) -> None:
        """Called each time the page comes to the front."""

    def take_focus(self) -> None:
        """Take the keyboard to where work begins; called where it comes to the front for the first time."""
        start = first_stop(self)
        if start is not None:
            start.setFocus(Qt.FocusReason.OtherFocusReason)

    def leave(self) -> None:
        """Write what is being edited; called before another page comes to the front and on closing."""

    def closing(self) -> None:
        """Stop what still runs; called once, when the window closes."""
