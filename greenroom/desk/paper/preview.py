"""The page as it will come out of the printer; a click on it tells where, in millimetres."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QMouseEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.look import BODY_PX, Look, font
from greenroom.desk.paper.press import Sight
from greenroom.exchange.paper.sizes import Box
from greenroom.speech import tr

EDGE_PX = 8
LEAST = QSize(240, 240)


class Preview(QWidget):
    """Paints one page and, over it, the labels of the sheet that are left free.

    ``pressed`` carries a point on the page [mm]; ``resized`` tells that the page would now be shown at
    another size.
    """

    pressed = Signal(QPointF)
    resized = Signal()

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._sight: Sight | None = None
        self._labels: tuple[Box, ...] = ()
        self._first = 0
        self._words = ""
        self.setObjectName("preview")
        self.setMinimumSize(LEAST)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName(tr("preview"))
        self.setAccessibleDescription(tr("no page yet"))
        look.changed.connect(self.update)

    @property
    def sight(self) -> Sight | None:
        """What is shown."""
        return self._sight

    def dots(self) -> tuple[int, int]:
        """Return how many dots of the screen a page may take, across and down."""
        ratio = self.devicePixelRatioF()
        return int((self.width() - 2 * EDGE_PX) * ratio), int((self.height() - 2 * EDGE_PX) * ratio)

    def show_sight(self, sight: Sight, labels: tuple[Box, ...] = (), first: int = 0) -> None:
        """Show a page; ``labels`` are the places of its sheet, those before ``first`` used up."""
        self._sight, self._labels, self._first, self._words = sight, labels, first, ""
        self.setAccessibleDescription(
            tr("page {page} of {pages}", page=sight.page + 1, pages=sight.printed.pages)
        )
        self.update()

    def show_words(self, words: str) -> None:
        """Show why there is no page."""
        self._sight, self._labels, self._words = None, (), words
        self.setAccessibleDescription(words)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        if self._sight is None:
            painter.setPen(self._look.colour("quiet"))
            painter.setFont(font(BODY_PX))
            flags = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
            painter.drawText(self.rect().adjusted(24, 24, -24, -24), flags, self._words)
            return
        page = self._page()
        painter.fillRect(page, Qt.GlobalColor.white)
        painter.drawImage(page, self._sight.image)
        painter.setPen(QPen(self._look.colour("edge"), 1))
        painter.drawRect(page)
        self._paint_labels(painter, page)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if self._sight is None or event.button() != Qt.MouseButton.LeftButton:
            return
        page = self._page()
        scale = self._sight.printed.paper.width_mm / page.width()
        self.pressed.emit((event.position() - page.topLeft()) * scale)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.resized.emit()

    def _page(self) -> QRectF:
        """Return where the page lies: in the middle, as large as there is room."""
        if self._sight is None:
            return QRectF()
        paper = self._sight.printed.paper
        room = QRectF(self.rect()).adjusted(EDGE_PX, EDGE_PX, -EDGE_PX, -EDGE_PX)
        scale = min(room.width() / paper.width_mm, room.height() / paper.height_mm)
        size = QRectF(0, 0, paper.width_mm * scale, paper.height_mm * scale)
        size.moveCenter(room.center())
        return size

    def _paint_labels(self, painter: QPainter, page: QRectF) -> None:
        """Outline the labels, which are cut already on the sheet itself; cross out those used up."""
        if not self._labels or self._sight is None:
            return
        scale = page.width() / self._sight.printed.paper.width_mm
        line = QPen(self._look.colour("sky").darker(120), 1, Qt.PenStyle.DotLine)
        for place, box in enumerate(self._labels):
            cell = QRectF(
                page.left() + box.left * scale,
                page.top() + box.top * scale,
                box.width * scale,
                box.height * scale,
            )
            painter.setPen(line)
            painter.drawRoundedRect(cell, 3, 3)
            if place < self._first:
                painter.setPen(QPen(self._look.colour("edge").darker(130), 1))
                painter.drawLine(cell.topLeft(), cell.bottomRight())
