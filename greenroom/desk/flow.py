"""Widgets side by side that go on in a next line where there is no room, as words do."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QRect, QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.look import GAP


class Flow(QWidget):
    """Holds widgets from left to right, line by line; each line is as high as its highest.

    A widget and no layout: the binding to Qt loses hold of the items of a layout made in Python.
    """

    def __init__(self, *widgets: QWidget, gap: int = GAP) -> None:
        super().__init__()
        self._parts = widgets
        self._gap = gap
        for widget in widgets:
            widget.setParent(self)
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def heightForWidth(self, width: int) -> int:
        lines = self._lines(width)
        return sum(_height(line) for line in lines) + self._gap * max(0, len(lines) - 1)

    def sizeHint(self) -> QSize:
        sizes = [_wanted(part) for part in self._shown()]
        wide = sum(size.width() for size in sizes) + self._gap * max(0, len(sizes) - 1)
        return QSize(wide, max((size.height() for size in sizes), default=0))

    def minimumSizeHint(self) -> QSize:
        least = [part.minimumSizeHint().expandedTo(part.minimumSize()) for part in self._shown()]
        return QSize(
            max((size.width() for size in least), default=0),
            max((size.height() for size in least), default=0),
        )

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.LayoutRequest:  # a part changed its words, came or went
            self.updateGeometry()
            self._arrange()
        return super().event(event)

    def _shown(self) -> list[QWidget]:
        return [part for part in self._parts if not part.isHidden()]

    def _arrange(self) -> None:
        y = 0
        for line in self._lines(self.width()):
            x, high = 0, _height(line)
            for part, size in line:
                part.setGeometry(QRect(QPoint(x, y + (high - size.height()) // 2), size))
                x += size.width() + self._gap
            y += high + self._gap

    def _lines(self, room: int) -> list[list[tuple[QWidget, QSize]]]:
        """Return what stands in each line, with its size."""
        lines: list[list[tuple[QWidget, QSize]]] = []
        taken = room
        for part in self._shown():
            size = _wanted(part)
            size.setWidth(min(size.width(), room))
            if not lines or taken + self._gap + size.width() > room:
                lines.append([])
                taken = -self._gap
            lines[-1].append((part, size))
            taken += self._gap + size.width()
        return lines


def _wanted(part: QWidget) -> QSize:
    """Return the size a widget asks for, within its bounds."""
    hint = part.sizeHint().expandedTo(part.minimumSizeHint())
    return hint.boundedTo(part.maximumSize()).expandedTo(part.minimumSize())


def _height(line: list[tuple[QWidget, QSize]]) -> int:
    return max(size.height() for _, size in line)
