"""Losses by cause as bars, each split by the stage that was reached: told by pattern as well as by colour."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.look import GAP, SMALL_PX, Look, font
from greenroom.desk.parts import told_under
from greenroom.desk.sharp import sharp_box
from greenroom.season.losses import (
    BEFORE_UP,
    SEED_LEAVES,
    SET_OUT,
    STAGES,
    TRUE_LEAVES,
    Losses,
    Part,
    stage_words,
)
from greenroom.season.within import in_row
from greenroom.speech import tr

ROW_PX, BAR_PX, KEY_PX, NAME_PX, END_PX, SWATCH_PX = 26, 14, 26, 132, 76, 14
PATTERNS = {
    BEFORE_UP: ("soil_edge", Qt.BrushStyle.Dense4Pattern),
    SEED_LEAVES: ("seedling", Qt.BrushStyle.SolidPattern),
    TRUE_LEAVES: ("leaf", Qt.BrushStyle.BDiagPattern),
    SET_OUT: ("clay", Qt.BrushStyle.HorPattern),
}
SHORT = {BEFORE_UP: tr("not up")}


def part_words(part: Part) -> str:
    """Return the losses of a cause or a variety, and at which stages they were."""
    whole = tr("{name} {count}, {share:.0f}%", name=part.name, count=part.count, share=part.share * 100)
    return tr("{name}: {what}", name=whole, what=stages_words(part))


def count_words(part: Part) -> str:
    """Return how many were lost, and how large a share that is."""
    return tr("{count:,} · {share:.0f}%", count=part.count, share=part.share * 100)


def stages_words(part: Part) -> str:
    """Return how many were lost at each stage."""
    return ", ".join(f"{count} {SHORT.get(stage, stage_words(stage))}" for stage, count in part.stages)


class LossChart(QWidget):
    """One bar a cause, the greatest first."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._parts: tuple[Part, ...] = ()
        self._face = font(SMALL_PX)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        look.changed.connect(self.update)

    def show_losses(self, losses: Losses) -> None:
        """Show other losses."""
        self._parts = losses.by_cause
        self.setAccessibleName(tr("Losses by cause"))
        self.setAccessibleDescription(in_row(map(part_words, self._parts)) or tr("nothing lost"))
        self.setFixedHeight(self.sizeHint().height())
        self.update()

    def words_at(self, point: QPoint) -> str:
        """Return the losses of the bar at a point: how many by which stage; empty beside the bars."""
        place = (point.y() - KEY_PX) // ROW_PX
        return part_words(self._parts[place]) if 0 <= place < len(self._parts) else ""

    def event(self, event: QEvent) -> bool:
        return told_under(self, event, self.words_at) or super().event(event)

    def sizeHint(self) -> QSize:
        return QSize(320, KEY_PX + ROW_PX * max(1, len(self._parts)))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setFont(self._face)
        self._paint_key(painter)
        for place, part in enumerate(self._parts):
            self._paint_part(painter, part, KEY_PX + place * ROW_PX)
        painter.end()

    def _paint_key(self, painter: QPainter) -> None:
        left = 0.0
        metrics = QFontMetricsF(self._face)
        for stage in STAGES:
            self._block(painter, QRectF(left, (KEY_PX - SWATCH_PX) / 2, SWATCH_PX, SWATCH_PX), stage)
            left += SWATCH_PX + GAP / 2
            wide = metrics.horizontalAdvance(stage_words(stage))
            self._write(painter, QRectF(left, 0, wide + 2, KEY_PX), stage_words(stage), "quiet")
            left += wide + 2 * GAP

    def _paint_part(self, painter: QPainter, part: Part, top: float) -> None:
        names = QRectF(0, top, NAME_PX - GAP, ROW_PX)
        name = QFontMetricsF(self._face).elidedText(part.name, Qt.TextElideMode.ElideRight, names.width())
        self._write(painter, names, name, "ink")
        room = max(40.0, self.width() - NAME_PX - END_PX)
        unit = room * part.share / part.count
        if self._parts[0].share > 0:
            unit /= self._parts[0].share  # the longest bar takes all the room
        left = float(NAME_PX)
        for stage, count in part.stages:
            self._block(painter, QRectF(left, top + (ROW_PX - BAR_PX) / 2, unit * count, BAR_PX), stage)
            left += unit * count
        end = QRectF(left + GAP / 2, top, END_PX, ROW_PX)
        self._write(painter, end, count_words(part), "ink")

    def _block(self, painter: QPainter, area: QRectF, stage: str) -> None:
        colour, pattern = PATTERNS[stage]
        painter.setPen(QPen(self._look.colour("ink"), 1))
        area = sharp_box(painter, area)
        painter.fillRect(area, self._look.colour("card"))
        painter.setBrush(QBrush(self._look.colour(colour), pattern))
        painter.drawRect(area)

    def _write(self, painter: QPainter, area: QRectF, text: str, colour: str) -> None:
        painter.setPen(self._look.colour(colour))
        painter.drawText(area, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, text)
