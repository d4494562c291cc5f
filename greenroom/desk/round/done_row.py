"""A line of the round for what needs no doing: done today, put off, or struck out."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout

from greenroom.desk.look import GAP
from greenroom.desk.parts import button, label


class QuietRow(QFrame):
    """``back`` is emitted when what it tells is to be taken back, or brought back."""

    back = Signal()

    def __init__(self, what: str, words: str, way_back: str, mark: str = "✓") -> None:
        super().__init__()
        self.setObjectName("quiet-row")
        self.what = label(f"{mark} {what}", "good" if mark == "✓" else "strong")
        self.words = label(words, "quiet", wrap=True)
        self.back_button = button(way_back, self.back.emit, "link", name="row-back")
        self.back_button.setAccessibleName(f"{way_back}: {what}, {words}")
        layout = QHBoxLayout(self)
        layout.setContentsMargins(GAP + 4, 1, GAP, 1)
        layout.setSpacing(GAP + 4)
        layout.addWidget(self.what)
        layout.addWidget(self.words, 1)
        layout.addWidget(self.back_button)
