"""What is said where there is nothing to show: what is not there yet, and the next step."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QPushButton, QVBoxLayout, QWidget

from greenroom.desk.flow import Flow
from greenroom.desk.look import CARD_PADDING, GAP
from greenroom.desk.parts import label, row
from greenroom.speech import tr

WIDTH_PX = 480
ABOVE, BELOW = 1, 2  # shares of the room left: the words stand a third of the way down
MOST = 100  # of the width, as far as it may grow
WORKING_OUT = tr("working it out…")


class NothingYet(QWidget):
    """A title, one sentence and a button, in the middle and a third of the way down.

    On the ground of a page it is a card; ``inside`` a card it has no frame of its own. The first
    button is the next step: what is said is told with it to a screen reader.
    """

    def __init__(self, title: str, words: str, *steps: QPushButton, inside: bool = False) -> None:
        super().__init__()
        self.title = label(title, "title", wrap=True)
        self.words = label(words, wrap=True)
        self.steps = steps
        sheet = QFrame()
        sheet.setProperty("role", "" if inside else "card")
        sheet.setMaximumWidth(WIDTH_PX)
        told = QVBoxLayout(sheet)
        margin = 0 if inside else CARD_PADDING
        told.setContentsMargins(margin, margin - 4 if margin else GAP, margin, margin)
        told.setSpacing(GAP)
        told.addWidget(self.title)
        told.addWidget(self.words)
        if steps:
            told.addWidget(Flow(*steps))
        across = row(None, sheet, None)
        across.setStretch(1, MOST)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addStretch(ABOVE)
        layout.addLayout(across)
        layout.addStretch(BELOW)
        self.say(title, words)

    def say(self, title: str, words: str) -> None:
        """Say that something else is not there."""
        self.title.setText(title)
        self.words.setText(words)
        for step in self.steps:
            step.setAccessibleDescription(f"{title}. {words}")

    def take_focus(self) -> None:
        """Give the keyboard to the next step, if there is one to be taken here."""
        first = next((step for step in self.steps if not step.isHidden()), None)
        if first is not None:
            first.setFocus(Qt.FocusReason.OtherFocusReason)
