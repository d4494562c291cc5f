"""The picture of what is in hand, beside the pointer."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.grow.cell_art import CellArt
from greenroom.desk.grow.hand import Hand
from greenroom.desk.look import SMALL_PX, font
from greenroom.season.spots import Stage

SIZE = QSize(104, 58)
BESIDE = QPoint(14, 10)
MOST_DRAWN = 3
PLANT_PX = 40
SPREAD = 15
SIGN_PX = 22


class InHand(QWidget):
    """Seedlings with their number, and a tick or a cross where a target is under the pointer."""

    def __init__(self, bench: Bench, hand: Hand, art: CellArt, parent: QWidget) -> None:
        super().__init__(parent)
        self._page = parent
        self._hand = hand
        self._art = art
        self._look = bench.look
        self._keeper = bench.keeper
        self.setObjectName("in-hand")
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFixedSize(SIZE)
        hand.changed.connect(self._on_hand)
        self.hide()

    def go_to(self, pointer: QPoint) -> None:
        """Follow the pointer, given in the page's coordinates; stay inside the page."""
        page = self._page.rect()
        corner = pointer + BESIDE
        x = min(corner.x(), page.right() - self.width())
        y = min(corner.y(), page.bottom() - self.height())
        self.move(x, y)
        if self.isHidden():
            self.show()
            self.raise_()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_plate(painter)
        stages = [self._keeper.season.spot(key).stage for key in self._hand.sources][:MOST_DRAWN]
        for place, stage in enumerate(stages):
            left = 7 + place * SPREAD + (MOST_DRAWN - len(stages)) * SPREAD / 2
            spot = QRectF(left, (self.height() - PLANT_PX) / 2, PLANT_PX, PLANT_PX)
            self._art.seedling(painter, spot, leaves=stage is Stage.LEAVES)
        self._paint_number(painter)
        if self._hand.target is not None:
            self._paint_verdict(painter, takes=self._hand.takes)
        painter.end()

    def _on_hand(self) -> None:
        if not self._hand.active:
            self.hide()
        self.update()

    def _paint_plate(self, painter: QPainter) -> None:
        edge = "quiet"
        if self._hand.target is not None:
            edge = "leaf" if self._hand.takes else "clay"
        painter.setBrush(self._look.colour("soil"))
        painter.setPen(QPen(self._look.colour(edge), 2.5))
        painter.drawRoundedRect(QRectF(self.rect()).adjusted(2, 2, -2, -2), 10, 10)

    def _paint_number(self, painter: QPainter) -> None:
        plate = QRectF(self.width() - SIGN_PX - 6, 6, SIGN_PX, SIGN_PX)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._look.colour("card"))
        painter.drawEllipse(plate)
        painter.setPen(self._look.colour("ink"))
        painter.setFont(font(SMALL_PX, QFont.Weight.Bold))
        painter.drawText(plate, Qt.AlignmentFlag.AlignCenter, str(self._hand.count))

    def _paint_verdict(self, painter: QPainter, *, takes: bool) -> None:
        plate = QRectF(self.width() - SIGN_PX - 6, self.height() - SIGN_PX - 6, SIGN_PX, SIGN_PX)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(self._look.colour("leaf" if takes else "clay"))
        painter.drawEllipse(plate)
        ink = self._look.colour("on_leaf" if takes else "on_clay")
        painter.setPen(QPen(ink, 2.2, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
        middle = plate.center().toPoint()
        if takes:
            painter.drawPolyline([middle + QPoint(-5, 0), middle + QPoint(-1, 4), middle + QPoint(5, -4)])
        else:
            painter.drawLine(middle + QPoint(-4, -4), middle + QPoint(4, 4))
            painter.drawLine(middle + QPoint(-4, 4), middle + QPoint(4, -4))
