"""The list of keys: what each does, from the one table of shortcuts."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from greenroom import __version__
from greenroom.desk.look import CARD_PADDING, GAP
from greenroom.desk.parts import button, column, label, row
from greenroom.desk.shortcuts import CARE, CELLS, PICK, PLAN, ROUND, SIDE, STORY, WINDOW, Shortcut


class KeysPanel(QFrame):
    """Opens over the middle of the window; Escape, Close or a click elsewhere closes it."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setObjectName("keys")
        self.setProperty("role", "card")
        self.setAccessibleName("The keys")
        self.close_button = button("Close", self.close)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(CARD_PADDING, CARD_PADDING, CARD_PADDING, CARD_PADDING)
        layout.setSpacing(2 * GAP)
        layout.addWidget(label("The keys", "page-title"))
        lists = QHBoxLayout()
        lists.setSpacing(6 * GAP)
        first = _listed("Anywhere", WINDOW)
        first.addLayout(_listed("On the plan of the plot", PLAN))
        first.addLayout(_listed("On trays side by side", SIDE))
        lists.addLayout(first)
        second = _listed("In a tray or rack", (*CARE, *CELLS))
        second.addLayout(_listed("While picking", PICK))
        second.addLayout(_listed("On the round", ROUND))
        second.addLayout(_listed("In a story", STORY))
        lists.addLayout(second)
        layout.addLayout(lists)
        layout.addLayout(row(label(f"greenroom {__version__}", "quiet"), None, self.close_button))

    def open_over(self, window: QWidget) -> None:
        """Show the panel over the middle of a window."""
        self.adjustSize()
        self.move(window.mapToGlobal(window.rect().center()) - self.rect().center())
        self.show()
        self.close_button.setFocus()


def _listed(title: str, shortcuts: Iterable[Shortcut]) -> QVBoxLayout:
    grid = QGridLayout()
    grid.setHorizontalSpacing(2 * GAP)
    grid.setVerticalSpacing(GAP // 2)
    for place, shortcut in enumerate(shortcuts):
        grid.addWidget(label(", ".join(shortcut.shown()), "strong"), place, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(label(shortcut.words), place, 1)
    layout = column(label(title, "title"))
    layout.addLayout(grid)
    layout.addStretch(1)
    return layout
