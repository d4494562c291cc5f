"""Two lines of words in a row of a list, one at its top, one at its foot."""

from __future__ import annotations

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QFont, QFontMetrics, QPainter

from greenroom.desk.look import Look


def draw_line(
    painter: QPainter, look: Look, rect: QRect, text: str, letters: QFont, colour: str, *, top: bool
) -> None:
    """Draw one of the two lines; what has no room ends in dots."""
    painter.setFont(letters)
    painter.setPen(look.colour(colour))
    words = QFontMetrics(letters).elidedText(text, Qt.TextElideMode.ElideRight, rect.width())
    upright = Qt.AlignmentFlag.AlignTop if top else Qt.AlignmentFlag.AlignBottom
    painter.drawText(rect, Qt.AlignmentFlag.AlignLeft | upright, words)
