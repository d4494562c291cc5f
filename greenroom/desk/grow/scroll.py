"""A frame in which a tray scrolls when its cells would get too small."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QScrollArea

from greenroom.desk.grow.holder_view import HolderView

LOWEST = 108


class CellScroll(QScrollArea):
    """Scrolls a view; the view itself takes the focus and the keys."""

    def __init__(self, view: HolderView) -> None:
        super().__init__()
        self._view = view
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setMinimumHeight(LOWEST)
        self.setWidget(view)

    def sizeHint(self) -> QSize:
        """Ask for the height that the view's cells have at the width there is."""
        wanted = self._view.height_at(self.viewport().width())
        return QSize(super().sizeHint().width(), max(LOWEST, wanted))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.updateGeometry()
