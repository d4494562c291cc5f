"""A frame round what has the focus and does not show it by itself: what scrolls, and sliders."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QApplication, QScrollArea, QSlider, QWidget

from greenroom.desk.look import Look

WIDE_PX, RADIUS_PX = 2, 6
FRAMED = QScrollArea | QSlider


class FocusFrame(QWidget):
    """Lies over the focused widget, lets the mouse through, and goes where that goes."""

    def __init__(self, look: Look, window: QWidget) -> None:
        super().__init__(window)
        self._look = look
        self._way: list[QWidget] = []
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.hide()
        look.changed.connect(self.update)
        application = QApplication.instance()
        if isinstance(application, QApplication):
            application.focusChanged.connect(self._on_focus)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.Resize, QEvent.Type.Move, QEvent.Type.Hide):
            self._follow()
        return False

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(self._look.colour("focus"), WIDE_PX))
        inset = WIDE_PX // 2
        painter.drawRoundedRect(self.rect().adjusted(inset, inset, -inset, -inset), RADIUS_PX, RADIUS_PX)

    def _on_focus(self, _before: QWidget | None, now: QWidget | None) -> None:
        for one in self._way:
            one.removeEventFilter(self)
        framed = isinstance(now, FRAMED) and now.window() is self.window()
        self._way = list(_up(now)) if framed and now is not None else []
        for one in self._way:
            one.installEventFilter(self)
        self._follow()

    def _follow(self) -> None:
        """Lie over the framed widget, wherever it was scrolled to."""
        framed = self._way[0] if self._way else None
        if framed is not None and framed.isVisible():
            self.setGeometry(QRect(framed.mapTo(self.window(), QPoint(0, 0)), framed.size()))
            self.raise_()
        self.setVisible(framed is not None and framed.isVisible())


def _up(widget: QWidget) -> Iterator[QWidget]:
    """Yield a widget and all it stands in, up to the window."""
    at: QWidget | None = widget
    while at is not None and not at.isWindow():
        yield at
        at = at.parentWidget()
