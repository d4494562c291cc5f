"""The message strip: one sentence at the foot of the window, with undo beside what can be undone."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QFrame, QHBoxLayout

from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.parts import button, label, restyle
from greenroom.season.within import opening
from greenroom.speech import tr

READING_MS = 9000


class MessageStrip(QFrame):
    """Shows what was done, or why not. What was done goes away by itself; a refusal stays until closed."""

    def __init__(self, undo: Callable[[], object], redo: Callable[[], object]) -> None:
        super().__init__()
        self.setObjectName("messages")
        self.setProperty("role", "hint")
        self.text = label("", wrap=True)
        self.undo = button(tr("Undo"), undo, "link", name="message-undo")
        self.redo = button(tr("Do again"), redo, "link", name="message-redo")
        self.close_button = button(tr("Close"), self.clear, "link", name="message-close")
        layout = QHBoxLayout(self)
        layout.setContentsMargins(PAGE_MARGIN, GAP // 2, PAGE_MARGIN, GAP // 2)
        layout.addWidget(self.text, 1)
        layout.addWidget(self.undo)
        layout.addWidget(self.redo)
        layout.addWidget(self.close_button)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self.clear)
        self.hide()

    def did(self, words: str) -> None:
        """Say what was done."""
        self._show(f"{opening(words)}." if words else "", role="hint", undo=True)
        self._timer.start(READING_MS)

    def offer_redo(self) -> None:
        """Offer to do again what was just undone, where undo would take back one act more."""
        self.undo.hide()
        self.redo.show()

    def say(self, sentence: str) -> None:
        """Say something that the grower must know; it stays until closed."""
        self._timer.stop()
        self._show(sentence, role="notice", undo=False)

    def clear(self) -> None:
        """Say nothing more."""
        self._timer.stop()
        self.text.setText("")
        self.hide()

    def _show(self, words: str, *, role: str, undo: bool) -> None:
        self.text.setText(words)
        self.text.setAccessibleName(words)
        self.undo.setVisible(undo)
        self.redo.hide()
        restyle(self, "role", role)
        self.show()
