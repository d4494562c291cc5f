"""What can hurt while setting out, in a few lines beside the work."""

from __future__ import annotations

from PySide6.QtWidgets import QFrame, QVBoxLayout

from greenroom.desk.look import GAP
from greenroom.desk.parts import label
from greenroom.speech import tr

CARE = tr(
    "With care: watered pots are heavy, lift with a straight back and clear the way "
    "first. Cover up and drink in the sun. Ask before you dig where pipes or cables may "
    "lie. Local rules and your extension service come first."
)


class CareHint(QFrame):
    """One short text."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("role", "hint")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(GAP + 2, GAP - 2, GAP + 2, GAP - 2)
        layout.addWidget(label(CARE, wrap=True))
