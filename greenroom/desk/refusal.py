"""What is shown instead of the window when the ledger cannot be opened."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtWidgets import QVBoxLayout, QWidget

from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.parts import button, label, row
from greenroom.speech import tr

WIDTH_PX = 520


class Refusal(QWidget):
    """One sentence, a way out, and the demo."""

    def __init__(self, sentence: str, open_demo: Callable[[], None]) -> None:
        super().__init__()
        self.setObjectName("page")
        self.setWindowTitle("greenroom")
        self.setFixedWidth(WIDTH_PX)
        self.sentence = label(sentence, wrap=True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(2 * PAGE_MARGIN, 2 * PAGE_MARGIN, 2 * PAGE_MARGIN, 2 * PAGE_MARGIN)
        layout.setSpacing(2 * GAP)
        layout.addWidget(label(tr("The ledger was not opened"), "page-title"))
        layout.addWidget(self.sentence)
        layout.addWidget(label(tr("Nothing was changed."), "quiet"))
        layout.addLayout(
            row(None, button(tr("Look at the demo"), open_demo), button(tr("Close"), self.close, "primary"))
        )
