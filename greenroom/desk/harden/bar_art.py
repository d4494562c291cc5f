"""How the days of a ramp are drawn: each kind by fill, pattern and frame, not by colour alone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from greenroom.desk.look import GAP, SMALL_PX, Look, font
from greenroom.desk.sharp import sharp_box
from greenroom.season.ramp_days import DayKind
from greenroom.speech import tr


@dataclass(frozen=True, slots=True)
class Art:
    """Names of colours of the look: ``ground`` under ``pattern`` in ``ink``, framed by ``line``."""

    ink: str
    ground: str | None = None
    pattern: Qt.BrushStyle | None = None
    line: Qt.PenStyle = Qt.PenStyle.SolidLine


ART: Mapping[DayKind, Art] = MappingProxyType(
    {
        DayKind.DONE: Art("leaf", "leaf"),
        DayKind.SHORT: Art("leaf", "card", Qt.BrushStyle.HorPattern),
        DayKind.SHADE: Art("plum", "card", Qt.BrushStyle.VerPattern),
        DayKind.IN: Art("quiet", None, None, Qt.PenStyle.DotLine),
        DayKind.SET_BACK: Art("clay", "clay_wash", Qt.BrushStyle.BDiagPattern),
        DayKind.TODAY: Art("ink", "sun"),
        DayKind.COMING: Art("leaf", "leaf_wash", None, Qt.PenStyle.DashLine),
        DayKind.HOLD: Art("clay", None, None, Qt.PenStyle.DotLine),
    }
)
KEY = (
    (DayKind.DONE, tr("done", sense="a day of hardening")),
    (DayKind.SHORT, tr("too short")),
    (DayKind.SET_BACK, tr("set back")),
    (DayKind.TODAY, tr("today")),
    (DayKind.COMING, tr("to come")),
    (DayKind.IN, tr("asked for")),
    (DayKind.SHADE, tr("in shade")),
    (None, tr("first plan")),
)
BANDS = (("plum", tr("schedules in shade")), ("sun", tr("in sun")))
BAND_INK = 70
SWATCH_PX = 14


class ChartKey(QWidget):
    """What the bars mean, in one line."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._font = font(SMALL_PX)
        self._bands = False
        self.setFixedHeight(18)
        self.setAccessibleName(tr("Key of the chart: {names}", names=", ".join(words for _, words in KEY)))
        look.changed.connect(self.update)

    def show_bands(self, bands: bool) -> None:
        """Say what the bands of the schedules mean, too, or not."""
        self._bands = bands
        self.update()

    def sizeHint(self) -> QSize:
        metrics = QFontMetricsF(self._font)
        wide = sum(SWATCH_PX + 6 + metrics.horizontalAdvance(words) + 2 * GAP for _, words in KEY)
        return QSize(int(wide), 18)

    def minimumSizeHint(self) -> QSize:
        return QSize(0, 18)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(self._font)
        metrics = QFontMetricsF(self._font)
        x = 0.0
        for kind, words in KEY:
            self._paint_swatch(painter, QRectF(x + 0.5, 2.5, SWATCH_PX, 12), kind)
            x = self._paint_words(painter, x, words, metrics)
        for ink, words in BANDS if self._bands else ():
            ground = self._look.colour(ink)
            ground.setAlpha(BAND_INK)
            painter.fillRect(QRectF(x, 2, SWATCH_PX, 13), ground)
            x = self._paint_words(painter, x, words, metrics)

    def _paint_words(self, painter: QPainter, x: float, words: str, metrics: QFontMetricsF) -> float:
        """Write words beside a swatch; return where the next one begins."""
        painter.setPen(self._look.colour("quiet"))
        painter.drawText(QRectF(x + SWATCH_PX + 6, 0, 200, 18), int(Qt.AlignmentFlag.AlignVCenter), words)
        return x + SWATCH_PX + 6 + metrics.horizontalAdvance(words) + 2 * GAP

    def _paint_swatch(self, painter: QPainter, box: QRectF, kind: DayKind | None) -> None:
        if kind is None:
            pen = QPen(self._look.colour("ink"), 1.6, Qt.PenStyle.CustomDashLine)
            pen.setDashPattern([2, 2])
            painter.setPen(pen)
            painter.drawLine(box.bottomLeft(), box.topRight())
            return
        art = ART[kind]
        painter.setPen(QPen(self._look.colour(art.ink), 1.4, art.line))
        painter.setBrush(self._look.colour(art.ground) if art.ground else Qt.BrushStyle.NoBrush)
        box = sharp_box(painter, box)
        painter.drawRect(box)
        if art.pattern is not None:
            painter.fillRect(box, QBrush(self._look.colour(art.ink), art.pattern))
