"""One tray among the others, painted: its name, its days as bars, what set it back, and when it is ready."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QFont, QFontMetricsF, QPainter, QPen, QPolygonF

from greenroom.desk.harden.bar_art import ART
from greenroom.desk.harden.day_scale import DayScale
from greenroom.desk.look import BODY_PX, SMALL_PX, Look, font
from greenroom.desk.sharp import sharp_box, straight
from greenroom.season.hardening_words import day_words
from greenroom.season.ramp_days import DayKind, RampDay
from greenroom.season.side_by_side import TrayLine, step_words
from greenroom.speech import tr

ROW_PX, HIGHEST_ROW_PX, GUTTER_PX = 64, 128, 168
BESIDE_BARS_PX = 20
LEAST_BAR_PX = 2.0
MARK_PX = 5.0
HOUR = 60
MEASURES_H = (1, 2, 4, 8)


class TrayRow:
    """Bars are as high as minutes of sun, those in shade upon them, against the ``longest`` of all trays.

    ``high`` is the height of a row [px].
    """

    def __init__(self, look: Look, scale: DayScale, longest: float, high: float) -> None:
        self._look = look
        self._scale = scale
        self._longest = longest
        self._bars = high - BESIDE_BARS_PX

    def paint(self, painter: QPainter, box: QRectF, line: TrayLine) -> None:
        """Paint the row of a tray."""
        scale = self._scale
        painter.fillRect(box.adjusted(1, 1, -1, -1), self._look.colour("card"))
        self._paint_words(painter, box, line)
        foot = box.bottom() - 6
        painter.setPen(QPen(self._look.colour("edge"), 1))
        straight(painter, QPointF(scale.left, foot), QPointF(scale.right, foot))
        self._paint_measure(painter, foot)
        for day in line.days:
            if scale.span.first <= day.date <= scale.span.last:
                self._paint_day(painter, day, foot)
        self._paint_first_plan(painter, line, foot)
        self._paint_today(painter, box, line.today)
        self._paint_ready(painter, line, foot)

    def _paint_words(self, painter: QPainter, box: QRectF, line: TrayLine) -> None:
        room = GUTTER_PX - 22
        if line.hardened:
            ready = tr("hardened off")
        elif line.ready_on is None:
            ready = tr("not within 60 days")
        else:
            ready = tr("ready {day}", day=day_words(line.ready_on))
        lines = (
            (line.name, BODY_PX, QFont.Weight.DemiBold, "ink"),
            (tr("sun {steps}", steps=step_words(line.sun)), SMALL_PX, QFont.Weight.Normal, "quiet"),
            (ready, SMALL_PX, QFont.Weight.Normal, "clay_text" if line.ready_on is None else "leaf_text"),
        )
        for place, (words, pixels, weight, colour) in enumerate(lines):
            made = font(pixels, weight)
            painter.setFont(made)
            painter.setPen(self._look.colour(colour))
            shown = QFontMetricsF(made).elidedText(words, Qt.TextElideMode.ElideRight, room)
            spot = QRectF(box.left() + 12, box.top() + 5 + 18 * place, room, 18)
            painter.drawText(spot, int(Qt.AlignmentFlag.AlignVCenter), shown)

    def _paint_measure(self, painter: QPainter, foot: float) -> None:
        """Rule off a round number of hours across the days, so that the bars can be read."""
        hours = max((one for one in MEASURES_H if one * HOUR <= self._longest), default=MEASURES_H[0])
        left, y = self._scale.left, foot - self._height(hours * HOUR)
        painter.setPen(QPen(self._look.colour("line"), 1))
        straight(painter, QPointF(left, y), QPointF(self._scale.right, y))
        painter.setFont(font(SMALL_PX))
        painter.setPen(self._look.colour("quiet"))
        words = tr("{hours:.0f} h", hours=hours)
        painter.drawText(QRectF(left + 2, y - 17, 60, 16), int(Qt.AlignmentFlag.AlignBottom), words)

    def _height(self, minutes: float) -> float:
        """Return how high so many minutes stand, against the longest of all trays."""
        return max(LEAST_BAR_PX, self._bars * minutes / self._longest)

    def _paint_day(self, painter: QPainter, day: RampDay, foot: float) -> None:
        x, wide = self._scale.x(day.date), self._scale.wide
        thick = max(1.0, wide * 0.7)
        if day.kind is DayKind.HOLD:
            column = QRectF(x, foot - self._bars, wide, self._bars)
            painter.fillRect(column, QBrush(self._look.colour("clay"), Qt.BrushStyle.BDiagPattern))
        asked = DayKind.COMING if day.kind is DayKind.COMING else DayKind.IN
        for foot_minutes, minutes, kind in (
            (0.0, day.planned, asked),
            (0.0, day.done, day.kind),
            (day.done, day.shade, DayKind.SHADE),
        ):
            if minutes > 0:
                low = self._height(foot_minutes) if foot_minutes else 0.0
                high = self._height(foot_minutes + minutes) - low
                self._paint_bar(painter, QRectF(x + (wide - thick) / 2, foot - low - high, thick, high), kind)
        self._paint_mark(painter, day, QPointF(x + wide / 2, foot))

    def _paint_bar(self, painter: QPainter, bar: QRectF, kind: DayKind) -> None:
        art = ART[kind]
        painter.setPen(QPen(self._look.colour(art.ink), 1, art.line))
        painter.setBrush(self._look.colour(art.ground) if art.ground else Qt.BrushStyle.NoBrush)
        bar = sharp_box(painter, bar)
        painter.drawRect(bar)
        if art.pattern is not None:
            painter.fillRect(bar, QBrush(self._look.colour(art.ink), art.pattern))

    def _paint_mark(self, painter: QPainter, day: RampDay, at: QPointF) -> None:
        """Mark a setback by a triangle that points down, and a day in by a cross."""
        painter.setPen(QPen(self._look.colour("clay_text"), 1.6))
        if day.kind is DayKind.SET_BACK:
            tip = at - QPointF(0, min(self._height(max(day.done + day.shade, day.planned)) + 3, self._bars))
            side = QPointF(MARK_PX, 0)
            up = QPointF(0, 1.6 * MARK_PX)
            painter.setBrush(self._look.colour("clay"))
            painter.drawPolygon(QPolygonF([tip, tip - up - side, tip - up + side]))
        elif day.kind is DayKind.IN and day.settled:
            middle = at - QPointF(0, MARK_PX + 3)
            for turn in (1, -1):
                arm = QPointF(MARK_PX * 0.7, turn * MARK_PX * 0.7)
                painter.drawLine(middle - arm, middle + arm)

    def _paint_first_plan(self, painter: QPainter, line: TrayLine, foot: float) -> None:
        scale = self._scale
        planned = [
            (scale.middle(day.date), day.first_plan)
            for day in line.days
            if day.first_plan is not None and scale.span.first <= day.date <= scale.span.last
        ]
        painter.setPen(QPen(self._look.colour("ink"), 1.2, Qt.PenStyle.DashLine))
        painter.drawPolyline(QPolygonF([QPointF(x, foot - self._height(minutes)) for x, minutes in planned]))

    def _paint_today(self, painter: QPainter, box: QRectF, today: date) -> None:
        x = self._scale.x(today)
        painter.setPen(QPen(self._look.colour("ink"), 1, Qt.PenStyle.DotLine))
        straight(painter, QPointF(x, box.top()), QPointF(x, box.bottom()))

    def _paint_ready(self, painter: QPainter, line: TrayLine, foot: float) -> None:
        """Mark the day ready by a diamond, on a bar from one year in ten to nine in ten."""
        y, scale = foot - self._bars - 4, self._scale
        painter.setPen(QPen(self._look.colour("leaf_text"), 3))
        spread = line.spread
        if spread is not None and spread.early is not None:
            late = min(spread.late or scale.span.last, scale.span.last)
            straight(painter, QPointF(scale.x(spread.early), y), QPointF(scale.x(late) + scale.wide, y))
        if line.ready_on is None or line.ready_on > scale.span.last:
            return
        x = scale.middle(line.ready_on)
        painter.setPen(QPen(self._look.colour("card"), 1))
        painter.setBrush(self._look.colour("leaf_text"))
        half, at = MARK_PX + 1, QPointF(x, y)
        across, down = QPointF(half, 0), QPointF(0, half)
        painter.drawPolygon(QPolygonF([at - across, at - down, at + across, at + down]))
