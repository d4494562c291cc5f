"""A ramp as curves, before and after a change, over what published schedules ask for on each day."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from math import log

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFontMetricsF, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.parts import told_under
from greenroom.desk.sharp import straight
from greenroom.season.ramp_rules import RampRules
from greenroom.season.schedules import LONGEST_DAYS, OUTDOORS, SCHEDULES, SHADE, SUN, Band, Schedule, envelope
from greenroom.season.within import in_row
from greenroom.speech import many, tr

LEFT_PX, RIGHT_PX, TOP_PX, FOOT_PX = 46, 66, 8, 22
LOWEST, HIGHEST = 10.0, 1440.0
TICKS = (
    (15, tr("15 min")),
    (30, tr("30 min")),
    (60, "1 h"),
    (120, "2 h"),
    (240, "4 h"),
    (480, "8 h"),
    (960, "16 h"),
)
HALF_DAY = 0.5
OUTING = tr("outing", sense="under the chart")
SUN_MINUTES, OUTDOOR_MINUTES = tr("sun", sense="minutes"), tr("outdoors", sense="minutes")
GROUNDS = {SHADE: ("sky", 130), SUN: ("sun", 90), OUTDOORS: ("plum", 60)}
"""The colour and thickness (0 to 255) of a band by the light its schedule counts."""


class RampCurve(QWidget):
    """Days run to the right and minutes upwards, each doubling as high as the last: a ramp that grows by
    the same share is a straight line."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._before: RampRules | None = None
        self._after: RampRules | None = None
        self._marked: Schedule | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(150)
        self.setAccessibleName(tr("The ramp beside published schedules"))
        look.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(420, 220)

    def show_ramps(self, before: RampRules, after: RampRules) -> None:
        """Draw a ramp as it would be, and as it is where that differs."""
        self._before, self._after = before, after
        self.setAccessibleDescription(described(before, after))
        self.update()

    @property
    def rules(self) -> RampRules | None:
        """The ramp that is drawn, as it would be."""
        return self._after

    def words_at(self, point: QPoint) -> str:
        """Return the minutes of the outing at a point, and what the schedules ask for on such a day."""
        frame = QRectF(self.rect()).adjusted(LEFT_PX, 0, -RIGHT_PX, 0)
        if self._after is None or not frame.left() <= point.x() < frame.right():
            return ""
        outing = 1 + int((point.x() - frame.left()) / frame.width() * self._days())
        return outing_words(self._after, outing)

    def event(self, event: QEvent) -> bool:
        return told_under(self, event, self.words_at) or super().event(event)

    def mark(self, schedule: Schedule | None) -> None:
        """Let one schedule stand out."""
        self._marked = schedule
        self.update()

    def point(self, outing: float, minutes: float) -> QPointF:
        """Return where so many minutes stand on an outing, from 1."""
        frame = QRectF(self.rect()).adjusted(LEFT_PX, TOP_PX, -RIGHT_PX, -FOOT_PX)
        x = frame.left() + frame.width() * (outing - 0.5) / self._days()
        high = log(max(minutes, LOWEST) / LOWEST) / log(HIGHEST / LOWEST)
        return QPointF(x, frame.bottom() - frame.height() * high)

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._before is None or self._after is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(font(SMALL_PX))
        for schedule in SCHEDULES:
            if schedule is not self._marked:
                self._paint_bands(painter, schedule)
        if self._marked is not None:
            self._paint_bands(painter, self._marked)
        self._paint_axes(painter)
        if self._before.ramp != self._after.ramp:
            self._paint_line(painter, self._before.ramp.doses, "quiet", 1.6, Qt.PenStyle.DashLine)
        self._paint_line(painter, self._after.air.doses, "link", 1.6, Qt.PenStyle.DotLine)
        self._paint_line(painter, self._after.ramp.doses, "leaf_text", 2.6, Qt.PenStyle.SolidLine)
        self._paint_names(painter)

    def _days(self) -> int:
        known = [rules.ramp.outings for rules in (self._before, self._after) if rules is not None]
        return max(LONGEST_DAYS, *known)

    def _paint_bands(self, painter: QPainter, schedule: Schedule) -> None:
        name, thick = GROUNDS[schedule.light]
        marked = schedule is self._marked
        fill = QColor(self._look.colour(name))
        fill.setAlpha(min(255, thick * (2 if marked else 1)))
        painter.setBrush(fill)
        painter.setPen(QPen(self._look.colour("ink"), 1.6) if marked else Qt.PenStyle.NoPen)
        for run in _runs(schedule.bands()):
            edges = [(day + side * HALF_DAY, band) for day, band in run for side in (-1, 1)]
            low = [self.point(at, band.low) for at, band in edges]
            high = [self.point(at, band.high) for at, band in reversed(edges)]
            thin = 1.5 if all(band.low == band.high for _, band in run) else 0.0
            painter.drawPolygon(
                QPolygonF([*(p + QPointF(0, thin) for p in low), *(p - QPointF(0, thin) for p in high)])
            )

    def _paint_axes(self, painter: QPainter) -> None:
        last = self._days()
        for minutes, words in TICKS:
            left, right = self.point(0.5, minutes), self.point(last + 0.5, minutes)
            painter.setPen(QPen(self._look.colour("line"), 1))
            straight(painter, left, right)
            painter.setPen(self._look.colour("quiet"))
            box = QRectF(0, left.y() - 9, LEFT_PX - 6, 18)
            painter.drawText(box, int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter), words)
        foot = self.height() - FOOT_PX + 3
        step = 1 if self.width() > 26 * last else 2
        for day in range(1, last + 1, step):
            box = QRectF(self.point(day, LOWEST).x() - 14, foot, 28, 18)
            painter.drawText(box, int(Qt.AlignmentFlag.AlignHCenter), str(day))
        box = QRectF(self.width() - RIGHT_PX + 4, foot, RIGHT_PX - 4, 18)
        painter.drawText(box, int(Qt.AlignmentFlag.AlignLeft), OUTING)

    def _paint_line(
        self, painter: QPainter, doses: Sequence[int], colour: str, width: float, style: Qt.PenStyle
    ) -> None:
        painter.setPen(QPen(self._look.colour(colour), width, style))
        points = [self.point(outing, minutes) for outing, minutes in enumerate(doses, start=1)]
        painter.drawPolyline(QPolygonF(points))
        if style is Qt.PenStyle.SolidLine:
            painter.setBrush(self._look.colour(colour))
            for point in points:
                painter.drawEllipse(point, 2.4, 2.4)

    def _paint_names(self, painter: QPainter) -> None:
        """Name the lines at their right ends, the upper above the lower."""
        if self._after is None:
            return
        ends = [
            (OUTDOOR_MINUTES, "link", self._after.air.doses),
            (SUN_MINUTES, "leaf_text", self._after.ramp.doses),
        ]
        high = QFontMetricsF(painter.font()).height()
        x, lowest = self.width() - RIGHT_PX + 4.0, float("-inf")
        for words, colour, doses in ends:
            y = max(self.point(len(doses), doses[-1]).y() - high / 2, lowest)
            lowest = y + high
            painter.setPen(self._look.colour(colour))
            painter.drawText(QRectF(x, y, RIGHT_PX - 4, high), 0, words)


def described(before: RampRules, after: RampRules) -> str:
    """Return the curves in words."""
    sun, air = ", ".join(map(str, after.ramp.doses)), ", ".join(map(str, after.air.doses))
    now = tr("Now it is {minutes}.", minutes=", ".join(map(str, before.ramp.doses)))
    parts = [
        tr("Minutes of sun by outing {minutes}.", minutes=sun),
        *([] if before.ramp == after.ramp else [now]),
        tr("Minutes outdoors {minutes}.", minutes=air),
        tr("Beside them {schedules}, listed below.", schedules=many(len(SCHEDULES), "published schedule")),
    ]
    return " ".join(parts)


def outing_words(rules: RampRules, outing: int) -> str:
    """Return an outing of a ramp in a line, and what published schedules ask for that day in another."""
    doses = ((SUN_MINUTES, rules.ramp.doses), (OUTDOOR_MINUTES, rules.air.doses))
    asked = in_row(
        f"{words} {minutes_words(minutes[outing - 1], minutes[outing - 1])}"
        for words, minutes in doses
        if outing <= len(minutes)
    )
    bands = ((light, envelope(outing, light)) for light in GROUNDS)
    told = [f"{light} {minutes_words(band.low, band.high)}" for light, band in bands if band is not None]
    lines = [tr("{name}: {what}", name=f"{OUTING} {outing}", what=asked)] if asked else []
    if told:
        lines.append(tr("{name}: {what}", name=tr("Published schedules"), what=in_row(told)))
    return "\n".join(lines)


def minutes_words(low: float, high: float) -> str:
    """Return so many minutes, or from the one to the other."""
    if low == high:
        return tr("{minutes:.0f} min", minutes=low)
    return tr("{low:.0f} to {high:.0f} min", low=low, high=high)


def _runs(bands: Sequence[Band | None]) -> Iterator[list[tuple[int, Band]]]:
    """Yield the stretches of days of which a schedule says something, each day from 1 with its band."""
    days = enumerate(bands, start=1)
    for known, run in groupby(days, key=lambda pair: pair[1] is not None):
        if known:
            yield [(day, band) for day, band in run if band is not None]
