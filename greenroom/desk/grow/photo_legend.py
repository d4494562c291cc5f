"""What the marks on a photograph mean, and how many there are of each."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.grow.photo_art import paint_mark
from greenroom.desk.grow.photo_state import MARK_WORDS, Mark
from greenroom.desk.look import BODY_PX, Look, font
from greenroom.season.within import in_row

LINE_PX = 26
SYMBOL_PX = 26
GROUND = QColor(96, 88, 80)  # as dark as mix, so that the marks look as they do on it


class PhotoLegend(QWidget):
    """One line a mark; marks there are none of are left out, but for the first three."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._lines: list[tuple[Mark, str]] = []
        self.setFont(font(BODY_PX))
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        look.changed.connect(self.update)

    @property
    def words(self) -> list[str]:
        """The lines as they are read."""
        return [words for _, words in self._lines]

    def show_marks(self, marks: Iterable[Mark]) -> None:
        """Count marks and show them."""
        counts = Counter(marks)
        always = (Mark.NEW, Mark.UNSURE, Mark.BARE) if counts else ()
        self._lines = [
            (mark, f"{counts[mark]} {MARK_WORDS[mark]}") for mark in Mark if counts[mark] or mark in always
        ]
        self.setAccessibleName(in_row(self.words))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        return QSize(180, LINE_PX * len(self._lines))

    def minimumSizeHint(self) -> QSize:
        return QSize(120, LINE_PX * len(self._lines))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for place, (mark, words) in enumerate(self._lines):
            top = place * LINE_PX
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(GROUND)
            painter.drawRoundedRect(QRectF(0, top + 1, SYMBOL_PX, LINE_PX - 2), 4, 4)
            paint_mark(painter, self._look, QPointF(SYMBOL_PX / 2, top + LINE_PX / 2), 8.0, mark)
            painter.setFont(self.font())
            painter.setPen(self._look.colour("ink"))
            room = QRectF(SYMBOL_PX + 8, top, self.width() - SYMBOL_PX - 8, LINE_PX)
            painter.drawText(room, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, words)
        painter.end()
