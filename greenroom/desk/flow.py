"""Widgets side by side that go on in a next line where there is no room, as words do."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget, QWidgetItem
from shiboken6 import isValid

from greenroom.desk.look import GAP


class Flow(QLayout):
    """Lays out from left to right, line by line; each line is as high as its highest."""

    def __init__(self, *widgets: QWidget, gap: int = GAP) -> None:
        super().__init__()
        self._items: list[QLayoutItem] = []
        self._widgets: list[QWidget | None] = []
        self._taken: list[QLayoutItem] = []  # Qt deletes them, not Python
        self._gap = gap
        self.setContentsMargins(0, 0, 0, 0)
        for widget in widgets:
            self.addWidget(widget)

    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)
        self._widgets.append(item.widget())

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._sound(index) if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        if not 0 <= index < len(self._items):
            return None
        self._taken.append(self._sound(index))
        del self._items[index], self._widgets[index]
        return self._taken[-1]

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return self._place(QRect(0, 0, width, 0), move=False)

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        self._place(rect, move=True)

    def sizeHint(self) -> QSize:
        sizes = [item.sizeHint() for item in self._shown()]
        wide = sum(size.width() for size in sizes) + self._gap * max(0, len(sizes) - 1)
        return QSize(wide, max((size.height() for size in sizes), default=0))

    def minimumSize(self) -> QSize:
        sizes = [item.minimumSize() for item in self._shown()]
        return QSize(
            max((size.width() for size in sizes), default=0),
            max((size.height() for size in sizes), default=0),
        )

    def _shown(self) -> list[QLayoutItem]:
        items = [self._sound(place) for place in range(len(self._items))]
        return [item for item in items if not item.isEmpty()]

    def _sound(self, place: int) -> QLayoutItem:
        """Return an item, made anew where the binding lost hold of it: asked of a lost one, Qt crashes."""
        widget = self._widgets[place]
        if widget is not None and not isValid(self._items[place]):
            self._items[place] = QWidgetItem(widget)
        return self._items[place]

    def _place(self, rect: QRect, *, move: bool) -> int:
        """Give each its place, if asked to; return the height they take."""
        y = rect.y()
        for line in self._lines(rect.width()):
            high = max(size.height() for _, size in line)
            x = rect.x()
            for item, size in line if move else ():
                item.setGeometry(QRect(QPoint(x, y + (high - size.height()) // 2), size))
                x += size.width() + self._gap
            y += high + self._gap
        return max(0, y - self._gap - rect.y())

    def _lines(self, room: int) -> list[list[tuple[QLayoutItem, QSize]]]:
        """Return what stands in each line, with its size."""
        lines: list[list[tuple[QLayoutItem, QSize]]] = []
        taken = room
        for item in self._shown():
            size = item.sizeHint()
            size.setWidth(min(size.width(), room))
            if not lines or taken + self._gap + size.width() > room:
                lines.append([])
                taken = -self._gap
            lines[-1].append((item, size))
            taken += self._gap + size.width()
        return lines
