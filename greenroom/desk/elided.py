"""A line of text, or two, that is shortened where there is no room, with the whole in its tool tip."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.look import BODY_PX, Look, font
from greenroom.desk.parts import plain_tip


def broken(text: str, metrics: QFontMetrics, width: int, lines: int) -> list[str]:
    """Return a text in no more than so many lines, broken at its spaces; what has no room ends in dots."""
    if metrics.horizontalAdvance(text) <= width:
        return [text]  # as it is: eliding rounds otherwise, and may cut what fits
    if lines == 1:
        return [metrics.elidedText(text, Qt.TextElideMode.ElideRight, width)]
    words = text.split(" ")
    taken = 1
    while taken < len(words) and metrics.horizontalAdvance(" ".join(words[: taken + 1])) <= width:
        taken += 1
    rest = broken(" ".join(words[taken:]), metrics, width, lines - 1) if taken < len(words) else []
    return [*broken(" ".join(words[:taken]), metrics, width, 1), *rest]


class Elided(QWidget):
    """One line in the room that is left over, or two where there is room for them.

    It asks for no width of its own, unlike a short label: a new text costs no new layout, so a foot may
    follow the pointer.
    """

    def __init__(self, look: Look, colour: str = "quiet", pixels: int = BODY_PX, lines: int = 1) -> None:
        super().__init__()
        self._look = look
        self._colour = colour
        self._text = ""
        self._font = font(pixels)  # a font set on the widget gives way to the style sheet
        self._lines = lines
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
        return QSize(40, self._lines * QFontMetrics(self._font).height() + 4)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setPen(self._look.colour(self._colour))
        painter.setFont(self._font)
        words = "\n".join(broken(self._text, painter.fontMetrics(), self.width(), self._lines))
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, words)
        painter.end()
