"""A bar that fills as a piece of work goes on, without a figure on it."""

from __future__ import annotations

from PySide6.QtWidgets import QProgressBar

FULL = 1000


class ShareBar(QProgressBar):
    """Shows a share from 0 to 1; ``of`` says for a reader of the screen what it is a share of."""

    def __init__(self, of: str) -> None:
        super().__init__()
        self.setRange(0, FULL)
        self.setTextVisible(False)
        self.setAccessibleName(of)

    def show_share(self, share: float) -> None:
        """Show how much is done."""
        self.setValue(int(share * FULL))
