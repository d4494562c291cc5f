"""A window smaller than its pages can be, as with text at 200 % on a small screen, scrolls over them."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QApplication, QFrame, QScrollArea, QWidget


class _Sheet(QWidget):
    """What is scrolled: it has its content fill it, and never grows for what the content would like."""

    def __init__(self, content: QWidget, smallest: tuple[int, int]) -> None:
        super().__init__()
        self._content = content
        content.setParent(self)
        self.setMinimumSize(*smallest)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._content.setGeometry(self.rect())


class AtLeast(QScrollArea):
    """Shows its content no smaller than it can be, and what has the focus in sight."""

    def __init__(self, content: QWidget, smallest: tuple[int, int]) -> None:
        super().__init__()
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setWidgetResizable(True)
        self.setWidget(_Sheet(content, smallest))
        self._smallest = QSize(*smallest)
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._on_focus)

    def sizeHint(self) -> QSize:
        return self._smallest

    def _on_focus(self, _before: QWidget | None, now: QWidget | None) -> None:
        """Scroll what has the focus into sight, from the innermost frame outwards, if none of it is seen."""
        if now is None or not self.isAncestorOf(now) or not now.visibleRegion().isEmpty():
            return
        above = now.parentWidget()
        while above is not None and not above.isWindow():
            if isinstance(above, QScrollArea):
                above.ensureWidgetVisible(now)
            above = above.parentWidget()
