"""The drawing of a pest or a sign: by itself, or as the picture of a row."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from greenroom.desk.care.look_over_pests_art import PESTS
from greenroom.desk.care.look_over_signs_art import SIGNS
from greenroom.desk.care.look_over_sketch import Sketch
from greenroom.desk.look import Look
from greenroom.speech import tr

SIDE_PX = 88
ALL = {**PESTS, **SIGNS}


def draw(painter: QPainter, look: Look, picture: str, area: QRectF) -> None:
    """Draw a picture of the guide into a square; a name that has no drawing leaves it empty."""
    if picture in ALL:
        painter.save()
        ALL[picture](Sketch(painter, look, area))
        painter.restore()


class Drawing(QWidget):
    """One drawing."""

    def __init__(self, look: Look, side: int = SIDE_PX) -> None:
        super().__init__()
        self._look = look
        self._picture = ""
        self.setFixedSize(side, side)
        look.changed.connect(self.update)

    def show_picture(self, picture: str, words: str) -> None:
        """Draw another picture; ``words`` tell what is on it."""
        self._picture = picture
        self.setAccessibleName(tr("Drawing: {words}", words=words))
        self.setToolTip(words)
        self.update()

    def sizeHint(self) -> QSize:
        return self.size()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        draw(painter, self._look, self._picture, QRectF(self.rect()))
        painter.end()
