"""The weather under the days of a chart: cloud, warmth, rain, gusts, and what kept trays in."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QFont, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from greenroom.desk.harden.day_scale import DayScale
from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.parts import told_under
from greenroom.desk.sharp import sharp_box, straight
from greenroom.season.hardening_words import KILOMETRES_PER_HOUR, MILES_PER_HOUR, MILLIMETRES_PER_INCH
from greenroom.season.place import Place
from greenroom.season.temperatures import from_celsius
from greenroom.season.weather_strip import StripDay, strip_words
from greenroom.season.within import in_row
from greenroom.speech import figure, tr

LINE_PX = 18
WARMTH_PX, LOW_WARMTH_PX = 46, 28
ROOM_FOR_NAMES_PX = 90.0
NUMBER_PX = 13
LEAST_FOR_NUMBERS_PX = 22.0
WET_MM, WINDY_MS = 0.5, 7.0
"""What is worth a number: half a millimetre, and the gust from which trays stand sheltered."""
SKY_PX = 5.5


class WeatherStrip(QWidget):
    """A column a day, in the place of that day in the chart above; the pointer asks for a day in words.

    ``low`` leaves the bars, the cloud and the line of what kept it in away, where there is little room.
    """

    def __init__(self, look: Look, *, low: bool = False) -> None:
        super().__init__()
        self._look = look
        self._low = low
        self._warmth_px = LOW_WARMTH_PX if low else WARMTH_PX
        self._days: Sequence[StripDay] = ()
        self._scale: DayScale | None = None
        self._place = Place()
        self._top = 0
        self.setObjectName("weather-strip")
        self.setAccessibleName(tr("Weather by day"))
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setFixedHeight(self._lines * LINE_PX + self._warmth_px)
        look.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(400, self.height())

    def show_days(self, days: Sequence[StripDay], scale: DayScale, place: Place) -> None:
        """Show the weather of the days of a scale."""
        self._days, self._scale, self._place = days, scale, place
        cloudy = not self._low and any(day.cloud is not None for day in days)
        self._top = LINE_PX if cloudy else 0
        self.setFixedHeight(self._lines * LINE_PX + self._warmth_px + self._top)
        self.setAccessibleDescription(in_row(strip_words(day, place) for day in days))
        self.update()

    @property
    def _lines(self) -> int:
        return 2 if self._low else 3

    def day_at(self, x: float) -> StripDay | None:
        """Return the day at a place, or None beside them."""
        if self._scale is None or not self._scale.left <= x < self._scale.right:
            return None
        at = int((x - self._scale.left) // self._scale.wide)
        return self._days[at] if at < len(self._days) else None

    def event(self, event: QEvent) -> bool:
        return told_under(self, event, self._words_at) or super().event(event)

    def paintEvent(self, _event: QPaintEvent) -> None:
        if self._scale is None:
            return
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setFont(font(SMALL_PX))
        self._paint_names(painter)
        to_y = self._warmth()
        for day in self._days:
            column = QRectF(self._scale.x(day.date), 0, self._scale.wide, self.height())
            if day.kept:
                painter.fillRect(column, self._look.colour("clay_wash"))
            if self._top:
                self._paint_cloud(painter, day, column)
            self._paint_warmth(painter, day, column, to_y)
            self._paint_numbers(painter, day, column)

    def _words_at(self, point: QPoint) -> str:
        day = self.day_at(point.x())
        return strip_words(day, self._place) if day else ""

    def _paint_names(self, painter: QPainter) -> None:
        fahrenheit = self._place.temperature == "f"
        warmth, rain, gusts = ("°F", "in", "mph") if fahrenheit else ("°C", "mm", "km/h")
        under, room = self._top + self._warmth_px, self._scale.left if self._scale else 0.0
        names = [
            (tr("low and high, {unit}", unit=warmth), warmth, self._top, self._warmth_px),
            (tr("rain, {unit}", unit=rain), rain, under, LINE_PX),
            (tr("gusts, {unit}", unit=gusts), gusts, under + LINE_PX, LINE_PX),
        ]
        names += [(tr("cloud"), "", 0, self._top)] if self._top else []
        names += [] if self._low else [(tr("kept in"), "", under + 2 * LINE_PX, LINE_PX)]
        painter.setPen(self._look.colour("quiet"))
        for words, short, top, high in names:
            roomy = room >= ROOM_FOR_NAMES_PX
            box = QRectF(12 if roomy else 0, top, room - (20 if roomy else 6), high)
            side = Qt.AlignmentFlag.AlignLeft if roomy else Qt.AlignmentFlag.AlignRight
            painter.drawText(box, int(side | Qt.AlignmentFlag.AlignVCenter), words if roomy else short)

    def _warmth(self) -> Callable[[float], float]:
        """Return what turns a temperature into a height of its row."""
        known = [value for day in self._days for value in (day.low_c, day.high_c) if value is not None]
        low, high = min(known, default=0.0), max(known, default=1.0)
        room = self._warmth_px - 2 * NUMBER_PX
        foot = self._top + self._warmth_px - NUMBER_PX
        return lambda celsius: foot - room * (celsius - low) / max(high - low, 1.0)

    def _paint_cloud(self, painter: QPainter, day: StripDay, column: QRectF) -> None:
        """Draw the sky as a disc, covered as far as there is cloud."""
        if day.cloud is None:
            return
        box = QRectF(0, 0, 2 * SKY_PX, 2 * SKY_PX)
        box.moveCenter(QPointF(column.center().x(), LINE_PX / 2))
        painter.setPen(QPen(self._look.colour("quiet"), 1))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawEllipse(box)
        painter.setBrush(self._look.colour("quiet"))
        painter.drawPie(box, 90 * 16, -round(day.cloud * 360 * 16))

    def _paint_warmth(
        self, painter: QPainter, day: StripDay, column: QRectF, to_y: Callable[[float], float]
    ) -> None:
        if day.low_c is None or day.high_c is None:
            return
        x, low, high = column.center().x(), to_y(day.low_c), to_y(day.high_c)
        if self._low:
            low = high = self._top + self._warmth_px / 2
        ahead = day.told != "measured"
        painter.setPen(QPen(self._look.colour("clay"), 4, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
        straight(painter, QPointF(x, low), QPointF(x, high))
        if ahead:
            inner = QPen(self._look.colour("card"), 2, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap)
            painter.setPen(inner)
            straight(painter, QPointF(x, low - 1), QPointF(x, high + 1))
        if column.width() < LEAST_FOR_NUMBERS_PX:
            return
        unit = self._place.temperature
        painter.setPen(self._look.colour("ink"))
        for value, y in ((day.high_c, high - NUMBER_PX - 1), (day.low_c, low)):
            words = f"{round(from_celsius(value, unit)) + 0}"
            box = QRectF(column.left() - 6, y, column.width() + 12, NUMBER_PX)
            painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), words)

    def _paint_numbers(self, painter: QPainter, day: StripDay, column: QRectF) -> None:
        fahrenheit = self._place.temperature == "f"
        top = float(self._top + self._warmth_px)
        narrow = column.width() < LEAST_FOR_NUMBERS_PX
        if day.rain_mm is not None and day.rain_mm >= WET_MM:
            inches = figure(day.rain_mm / MILLIMETRES_PER_INCH, ".2f").lstrip("0")
            rain = inches if fahrenheit else figure(day.rain_mm, ".0f")
            self._write(painter, "•" if narrow else rain, column, top, "link")
        if day.gust_ms is not None and day.gust_ms >= WINDY_MS:
            gust = day.gust_ms * (MILES_PER_HOUR if fahrenheit else KILOMETRES_PER_HOUR)
            self._write(painter, "•" if narrow else figure(gust, ".0f"), column, top + LINE_PX, "plum_text")
        if day.kept and not self._low:
            box = QRectF(column.left(), top + 2 * LINE_PX, column.width(), LINE_PX).adjusted(2, 4, -2, -4)
            painter.fillRect(box, QBrush(self._look.colour("clay"), Qt.BrushStyle.BDiagPattern))
            painter.setPen(QPen(self._look.colour("clay"), 1))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(sharp_box(painter, box))

    def _write(self, painter: QPainter, words: str, column: QRectF, top: float, colour: str) -> None:
        painter.setPen(self._look.colour(colour))
        painter.setFont(font(SMALL_PX, QFont.Weight.DemiBold))
        box = QRectF(column.left() - 6, top, column.width() + 12, LINE_PX)
        painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), words)
        painter.setFont(font(SMALL_PX))
