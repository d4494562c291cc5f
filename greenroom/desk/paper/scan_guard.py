"""Leads a scanned code to its field whatever has the focus: typed at a tray, it would act on cells."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QKeyEvent, QWindow
from PySide6.QtWidgets import QApplication

if TYPE_CHECKING:
    from greenroom.desk.paper.code_field import CodeField

BEGINS = "gre"
"""How a code begins; so much of it is held back until it is told whether a scanner typed it."""

BETWEEN_MS = 50
"""Scanners type a key every few milliseconds, people hardly two in fifty: common practice, no source."""


class ScanGuard(QObject):
    """Holds the first keys of a code back; what was no code is typed a moment later where it belongs."""

    def __init__(self, field: CodeField) -> None:
        super().__init__(field)
        self._field = field
        self._window: QWindow | None = None
        self._held: list[QKeyEvent] = []
        self._letting_go = False
        self._timer = QTimer(self, singleShot=True, interval=BETWEEN_MS)
        self._timer.timeout.connect(self.let_go)

    def watch(self, window: QWindow | None) -> None:
        """Watch the keys typed in a window."""
        if window is not None and window is not self._window:
            self._window = window
            window.installEventFilter(self)

    def let_go(self) -> None:
        """Type what was held back after all."""
        self._timer.stop()
        held, self._held = self._held, []
        self._letting_go = True
        for event in held:
            if self._window is not None:
                QCoreApplication.sendEvent(self._window, event)
        self._letting_go = False

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        if event.type() != QEvent.Type.KeyPress or self._letting_go or not isinstance(event, QKeyEvent):
            return False
        begun = "".join(held.text() for held in self._held) + event.text()
        if _takes_text() or not event.text() or not BEGINS.startswith(begun.casefold()):
            self.let_go()
            return False
        self._held.append(event.clone())
        self._timer.start()
        if len(self._held) == len(BEGINS):
            self._timer.stop()
            self._held = []
            self._field.take_focus()
            self._field.setText(begun)
        return True


def _takes_text() -> bool:
    """Whether what has the focus is a field that letters are typed into."""
    focus = QApplication.focusWidget()
    return focus is not None and focus.testAttribute(Qt.WidgetAttribute.WA_InputMethodEnabled)
