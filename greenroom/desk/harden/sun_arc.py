"""The sun's path over the day, painted: where the sun stands, and when the plants stood in sun and shade."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPainterPath, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from greenroom.desk.harden.arc_hours import NO_HOURS, ArcHours
from greenroom.desk.harden.arc_words import high_words
from greenroom.desk.look import COUNTER_PX, SMALL_PX, Look, font
from greenroom.desk.parts import told_under
from greenroom.desk.sharp import straight
from greenroom.season.hardening_words import time_words
from greenroom.season.outings import Stretch
from greenroom.season.place import Place
from greenroom.season.sun_day import SunDay
from greenroom.speech import tr

TRACK_PX = 12
DISC_PX = 13
TOP_PX = 34
FOOT_PX = 26
SIDE_PX = 34
SMALLEST_COUNTER_PX = 36
LABEL_ROOM_PX = 46
COMPASS_ROOM_PX = 30
BAND_PX = 5
SHADED_PX = 4
CORNER_PX = 132


@dataclass(frozen=True, slots=True)
class ArcScene:
    """What the arc shows: the path, the stretches of today up to now, and when the sun minutes are full."""

    sun: SunDay | None
    place: Place
    now: datetime
    stretches: tuple[Stretch, ...] = ()
    due: datetime | None = None
    counter: str = ""
    hours: ArcHours = NO_HOURS


class SunArc(QWidget):
    """Sun stretches are solid, shade stretches barred, and what is to come to the planned minutes dotted.

    The best hours are edged; where the step lies in shade the path is thin. ``corner`` is laid out at the
    top left.

    ``lines`` is laid out at the foot, under the path; the counter is painted above it, as large as fits.
    """

    def __init__(self, look: Look, lines: QWidget, corner: QWidget | None = None) -> None:
        super().__init__()
        self._look = look
        self._lines = lines
        self._corner = corner
        self._scene: ArcScene | None = None
        self._taken: list[QRectF] = []
        if corner is not None:
            corner.setParent(self)
            corner.move(0, 0)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(SIDE_PX, TOP_PX, SIDE_PX, FOOT_PX)
        layout.addStretch(1)
        layout.addWidget(lines, 0, Qt.AlignmentFlag.AlignHCenter)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(178)
        look.changed.connect(self.update)

    @property
    def scene(self) -> ArcScene | None:
        """What is shown."""
        return self._scene

    def show_scene(self, scene: ArcScene, description: str) -> None:
        """Show a scene; ``description`` says the same in words."""
        if scene != self._scene:
            self._scene = scene
            self.update()
        if self.accessibleDescription() != description:
            self.setAccessibleName(tr("{counter} minutes of sun", counter=scene.counter))
            self.setAccessibleDescription(description)

    def point(self, moment: datetime) -> QPointF:
        """Return where the path is at a moment."""
        scene, frame = self._scene, self._frame()
        if scene is None or scene.sun is None:
            return frame.bottomLeft()
        x = frame.left() + frame.width() * scene.sun.share(moment)
        return QPointF(x, frame.bottom() - frame.height() * scene.sun.height(moment))

    def words_at(self, point: QPoint) -> str:
        """Return when the sun passes over a point and how high it then is; empty where it is not up."""
        scene, frame = self._scene, self._frame()
        if scene is None or scene.sun is None or not frame.left() <= point.x() <= frame.right():
            return ""
        moment = scene.sun.moment_at((point.x() - frame.left()) / frame.width())
        height, _ = scene.sun.position(moment)
        return high_words(moment, height, scene.place) if height > 0 else ""

    def event(self, event: QEvent) -> bool:
        return told_under(self, event, self.words_at) or super().event(event)

    def sizeHint(self) -> QSize:
        return QSize(480, 190)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        scene = self._scene
        if scene is None:
            return
        if scene.sun is not None:
            self._paint_horizon(painter, scene, scene.sun)
            if scene.sun.up:
                self._paint_path(painter, scene, scene.sun)
        self._paint_counter(painter, scene)

    def _frame(self) -> QRectF:
        """Return the box of the path: its foot is the horizon."""
        return QRectF(self.rect()).adjusted(SIDE_PX, TOP_PX, -SIDE_PX, -FOOT_PX)

    def _paint_horizon(self, painter: QPainter, scene: ArcScene, sun: SunDay) -> None:
        frame = self._frame()
        painter.setPen(QPen(self._look.colour("rim"), 1.5))
        straight(painter, QPointF(4, frame.bottom()), QPointF(self.width() - 4.0, frame.bottom()))
        foot = frame.bottom() + 18
        if not sun.up:
            self._write(painter, tr("the sun does not rise today"), QPointF(frame.center().x(), foot))
            return
        if sun.rise is None or sun.fall is None:
            self._write(painter, tr("the sun does not set today"), QPointF(frame.center().x(), foot))
            return
        for moment in (sun.rise, sun.fall):
            self._write(painter, time_words(moment, scene.place), QPointF(self.point(moment).x(), foot))
        for share, name in sun.points():
            x = frame.left() + frame.width() * share
            if min(x - frame.left(), frame.right() - x) > COMPASS_ROOM_PX:
                self._write(painter, name, QPointF(x, foot))

    def _paint_path(self, painter: QPainter, scene: ArcScene, sun: SunDay) -> None:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        self._taken = []
        self._paint_track(painter, scene.hours, sun.rise or sun.start, sun.fall or sun.end)
        top = self.point(sun.noon)
        noon = high_words(sun.noon, sun.noon_degrees, scene.place)
        self._write(painter, noon, top - QPointF(0, TRACK_PX + 6))
        if scene.due is not None and scene.due > scene.now:
            pen = self._pen("on_sun" if not self._look.dark else "sun", 3, Qt.PenCapStyle.RoundCap)
            pen.setDashPattern([0.01, 2.2])
            painter.setPen(pen)
            painter.drawPath(self._piece(scene.now, scene.due))
        for stretch in scene.stretches:
            self._paint_stretch(painter, stretch, scene.now)
        self._paint_yard(painter, scene)
        self._paint_labels(painter, scene, top)
        self._paint_warmth(painter, scene, top)
        self._paint_disc(painter, scene, sun)

    def _paint_track(self, painter: QPainter, hours: ArcHours, rise: datetime, fall: datetime) -> None:
        """Paint the whole path, thin where the step lies in shade, and the edges of the best hours."""
        first, last = hours.yard or (rise, fall)
        if first > rise or last < fall:
            painter.setPen(self._pen("rim", SHADED_PX, Qt.PenCapStyle.RoundCap))
            painter.drawPath(self._piece(rise, fall))
        whole = first <= rise and last >= fall
        if hours.best is not None:
            painter.setPen(self._pen("leaf", TRACK_PX + BAND_PX, Qt.PenCapStyle.FlatCap))
            painter.drawPath(self._piece(hours.best.start, hours.best.end))
        cap = Qt.PenCapStyle.RoundCap if whole else Qt.PenCapStyle.FlatCap
        if hours.best is None:
            painter.setPen(self._pen("rim", TRACK_PX + 2, cap))
            painter.drawPath(self._piece(max(first, rise), min(last, fall)))
        painter.setPen(self._pen("edge", TRACK_PX, cap))
        painter.drawPath(self._piece(max(first, rise), min(last, fall)))
        if hours.best is not None:
            painter.setPen(self._pen("leaf_soft", TRACK_PX, Qt.PenCapStyle.FlatCap))
            painter.drawPath(self._piece(hours.best.start, hours.best.end))

    def _paint_warmth(self, painter: QPainter, scene: ArcScene, top: QPointF) -> None:
        """Write the temperature outside the path, where nothing else is written."""
        for moment, words in scene.hours.warmth:
            if scene.sun is None or scene.sun.height(moment) <= 0:
                continue
            at, away = self.point(moment), TRACK_PX + 12
            side = -1 if at.x() < top.x() else 1
            self._write(painter, words, at + QPointF(side * away, -away / 2), only_if_free=True)

    def _paint_stretch(self, painter: QPainter, stretch: Stretch, now: datetime) -> None:
        piece = self._piece(stretch.start, stretch.end or now)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        if stretch.light == "sun":
            for ink, wide in (("on_sun", TRACK_PX + 2), ("sun", TRACK_PX)):
                painter.setPen(self._pen(ink, wide, Qt.PenCapStyle.FlatCap))
                painter.drawPath(piece)
            return
        painter.setPen(self._pen("card", TRACK_PX, Qt.PenCapStyle.FlatCap))
        painter.drawPath(piece)
        bars = self._pen("plum", TRACK_PX, Qt.PenCapStyle.FlatCap)
        bars.setDashPattern([2.0 / TRACK_PX, 3.0 / TRACK_PX])
        painter.setPen(bars)
        painter.drawPath(piece)

    def _paint_labels(self, painter: QPainter, scene: ArcScene, top: QPointF) -> None:
        """Write the time now, when stretches began, and when it is due, outside the path if there is room."""
        taken = [top]
        moments = [scene.now, *(stretch.start for stretch in scene.stretches), scene.due]
        for moment in moments:
            if moment is None or scene.sun is None or scene.sun.height(moment) <= 0:
                continue
            at = self.point(moment)
            if all(abs(at.x() - other.x()) > LABEL_ROOM_PX for other in taken):
                side = -1 if at.x() < top.x() else 1
                away = DISC_PX + 16 if moment == scene.now else TRACK_PX + 14
                self._write(painter, time_words(moment, scene.place), at + QPointF(side * away, -away / 2))
                taken.append(at)

    def _paint_yard(self, painter: QPainter, scene: ArcScene) -> None:
        """Say at the top right when the sun is on the step, if that is not all day."""
        if scene.hours.yard is None or scene.sun is None:
            return
        first, last = (time_words(moment, scene.place) for moment in scene.hours.yard)
        x = self.width() - CORNER_PX / 2
        self._write(painter, tr("sun on the step"), QPointF(x, 8))
        self._write(painter, tr("{first} to {last}", first=first, last=last), QPointF(x, 25))

    def _paint_disc(self, painter: QPainter, scene: ArcScene, sun: SunDay) -> None:
        if sun.height(scene.now) <= 0:
            return
        painter.setPen(QPen(self._look.colour("card"), 3))
        painter.setBrush(self._look.colour("sun"))
        painter.drawEllipse(self.point(scene.now), DISC_PX, DISC_PX)
        painter.setPen(QPen(self._look.colour("on_sun"), 1.2))
        painter.drawEllipse(self.point(scene.now), DISC_PX - 1.5, DISC_PX - 1.5)

    def _paint_counter(self, painter: QPainter, scene: ArcScene) -> None:
        foot = float(self._lines.geometry().top())
        middle = self.width() / 2
        for pixels in range(COUNTER_PX, SMALLEST_COUNTER_PX - 1, -4):
            made = font(pixels, QFont.Weight.Bold)
            metrics = QFontMetricsF(made)
            wide, high = metrics.horizontalAdvance(scene.counter), metrics.capHeight()
            if self._room_over(middle - wide / 2, middle + wide / 2) <= foot - high - 6:
                break
        painter.setFont(made)
        painter.setPen(self._look.colour("ink"))
        painter.drawText(QPointF(middle - wide / 2, foot - 6), scene.counter)

    def _room_over(self, left: float, right: float) -> float:
        """Return how far down the path reaches between two places, its own breadth included."""
        scene, frame = self._scene, self._frame()
        if scene is None or scene.sun is None or not scene.sun.up:
            return 8.0
        lowest = frame.top()
        for x in (left - 8, right + 8):
            share = min(1.0, max(0.0, (x - frame.left()) / frame.width()))
            lowest = max(lowest, frame.bottom() - frame.height() * scene.sun.height_at(share))
        return lowest + TRACK_PX / 2 + 4

    def _piece(self, start: datetime, end: datetime) -> QPainterPath:
        """Return the path from one moment to another."""
        scene, frame, path = self._scene, self._frame(), QPainterPath()
        if scene is None or scene.sun is None:
            return path
        shares, heights = scene.sun.piece(start, end)
        across = frame.left() + frame.width() * shares
        down = frame.bottom() - frame.height() * heights
        path.addPolygon(QPolygonF([QPointF(x, y) for x, y in zip(across, down, strict=True)]))
        return path

    def _pen(self, colour: str, wide: float, cap: Qt.PenCapStyle) -> QPen:
        return QPen(self._look.colour(colour), wide, Qt.PenStyle.SolidLine, cap, Qt.PenJoinStyle.RoundJoin)

    def _write(self, painter: QPainter, text: str, middle: QPointF, *, only_if_free: bool = False) -> None:
        """Write small text with its middle at a place, inside the widget."""
        made = font(SMALL_PX)
        wide = QFontMetricsF(made).horizontalAdvance(text)
        x = min(max(2.0, middle.x() - wide / 2), self.width() - wide - 2)
        box = QRectF(x - 3, middle.y() - 9, wide + 6, 18)
        if only_if_free and not self._free(box):
            return
        self._taken.append(box)
        painter.setFont(made)
        painter.setPen(self._look.colour("quiet"))
        painter.drawText(QPointF(x, middle.y() + 4), text)

    def _free(self, box: QRectF) -> bool:
        """Whether nothing is written in a box yet, and no part of it lies under the corner."""
        if (
            self._corner is not None
            and self._corner.isVisible()
            and box.intersects(QRectF(self._corner.geometry()))
        ):
            return False
        return not any(box.intersects(other) for other in self._taken)
