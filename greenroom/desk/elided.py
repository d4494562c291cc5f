"""A line of text that is shortened where there is no room, with the whole in its tool tip."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.look import BODY_PX, Look, font
from greenroom.desk.parts import plain_tip


class Elided(QWidget):
    """One line in the room that is left over.

    It asks for no width of its own, unlike a short label: a new text costs no new layout, so a foot may
    follow the pointer.
    """

    def __init__(self, look: Look, colour: str = "quiet", pixels: int = BODY_PX) -> None:
        super().__init__()
        self._look = look
        self._colour = colour
        self._text = ""
        self.setFont(font(pixels))
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        look.changed.connect(self.update)

    @property
    def text(self) -> str:
        """The whole text."""
        return self._text

    def show_text(self, text: str, colour: str = "") -> None:
        """Show another text, in another colour if one is named."""
        colour = colour or self._colour
        if text == self._text and colour == self._colour:
            return
        self._text, self._colour = text, colour
        self.setToolTip(plain_tip(text))
        self.setAccessibleName(text)
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(40, self.fontMetrics().height() + 4)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(self._look.colour(self._colour))
        words = self.fontMetrics().elidedText(self._text, Qt.TextElideMode.ElideRight, self.width())
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, words)
        painter.end()
