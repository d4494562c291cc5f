"""The ramp as a chart: minutes asked, done, set back and to come, and the first plan as a line.

This module brings pyqtgraph in; it is imported when the first chart is drawn, not before.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

import pyqtgraph as pg
from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QFontMetricsF, QPen

from greenroom.desk.harden.bar_art import ART, Art
from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.season.hardening_words import MONTHS, whole_minutes
from greenroom.season.ramp_days import DayKind, RampDay

BAR_WIDTH = 0.68
HOUR = 60
HOUR_STEPS = (1, 2, 4, 8)
LEAST_TICK_PX = 22
LEAST_HEIGHT_PX = 60
OVER_PX = 22
OVER_SET_BACK_PX = 38
SHORT_NOTES = {"droop": "droop", "wilt": "wilt", "scorch": "scorch"}


class HoursAxis(pg.AxisItem):
    """Minutes told in hours, on whole ones."""

    def tickValues(self, _low: float, high: float, size: float) -> list[tuple[float, list[float]]]:
        steps = (hours * HOUR for hours in HOUR_STEPS)
        step = next((one for one in steps if one * size >= LEAST_TICK_PX * high), HOUR * HOUR_STEPS[-1])
        return [(step, [float(value) for value in range(0, int(high) + 1, step)])]

    def tickStrings(self, values: Sequence[float], _scale: float, _spacing: float) -> list[str]:
        return [f"{value / HOUR:.0f} h" for value in values]


class DaysAxis(pg.AxisItem):
    """Days below the bars, as many as have room."""

    def __init__(self) -> None:
        super().__init__("bottom")
        self._days: list[str] = []

    def show_days(self, days: list[str]) -> None:
        """Name the days from the left."""
        self._days = days

    def tickValues(self, low: float, high: float, size: float) -> list[tuple[float, list[float]]]:
        widest = max((len(day) for day in self._days), default=1) * SMALL_PX * 0.62 + 10
        every = max(1, int(-(-widest * (high - low) // max(size, 1.0))))
        return [(every, [float(place) for place in range(0, len(self._days), every)])]

    def tickStrings(self, values: Sequence[float], _scale: float, _spacing: float) -> list[str]:
        return [self._days[int(value)] for value in values if 0 <= value < len(self._days)]


class RampChart(pg.PlotWidget):
    """Bars a day; nothing is dragged or zoomed, so that the wheel and the arrows stay the page's."""

    def __init__(self, look: Look) -> None:
        self._bottom = DaysAxis()
        self._left = HoursAxis("left")
        super().__init__(background=None, axisItems={"left": self._left, "bottom": self._bottom})
        self._look = look
        self._days: list[RampDay] = []
        self._first: list[tuple[float, float]] = []
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setMenuEnabled(False)
        self.setMouseEnabled(x=False, y=False)
        self.hideButtons()
        self.setFrameShape(pg.QtWidgets.QFrame.Shape.NoFrame)
        self.viewport().setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        for axis in (self._left, self._bottom):
            axis.setStyle(tickFont=font(SMALL_PX), tickLength=0)
        self._left.setWidth(44)
        self.getPlotItem().getViewBox().setDefaultPadding(0.0)
        self.getPlotItem().getViewBox().sigResized.connect(self._refit)
        look.changed.connect(self.draw)

    @property
    def days(self) -> list[RampDay]:
        """The days that are drawn."""
        return self._days

    def show_days(self, days: list[RampDay]) -> None:
        """Draw the days of a ramp."""
        self._days = days
        self._first = [
            (place, day.first_plan) for place, day in enumerate(days) if day.first_plan is not None
        ]
        self._bottom.show_days([f"{day.date.day} {MONTHS[day.date.month - 1][:3]}" for day in days])
        self.draw()

    def draw(self) -> None:
        """Draw everything anew, in the colours of the theme."""
        self.clear()
        self._dress_axes()
        if not self._days:
            return
        self._fit()
        self._bars(lambda day: day.planned, lambda day: ART[_asked(day)])
        self._bars(lambda day: day.done, lambda day: ART[day.kind])
        self._first_plan()
        self._labels()

    def _refit(self) -> None:
        """Fit axes and words to a new size, once the box of the bars has taken it."""
        if self._days:
            self._fit()
            self._labels()

    def _fit(self) -> None:
        """Fit the axes to the days, with room for the words over the highest bar."""
        high = self.getPlotItem().getViewBox().height()
        labelled = high >= LEAST_HEIGHT_PX
        top = 0.0
        for day in self._days:
            over = OVER_SET_BACK_PX if day.kind is DayKind.SET_BACK else OVER_PX
            share = over / high if labelled else 0.0
            top = max(top, max(day.planned, day.done) / (1 - share), day.first_plan or 0.0)
        self.setXRange(-0.6, len(self._days) - 0.4, padding=0)
        self.setYRange(0, top, padding=0)

    def _dress_axes(self) -> None:
        for axis in (self._left, self._bottom):
            axis.setPen(QPen(self._look.colour("edge"), 1))
            axis.setTextPen(self._look.colour("quiet"))
        self.setBackground(self._look.colour("card"))
        self._left.setGrid(70)

    def _bars(self, height: Callable[[RampDay], float], art: Callable[[RampDay], Art]) -> None:
        places = [place for place, day in enumerate(self._days) if height(day) > 0]
        if not places:
            return
        days = [self._days[place] for place in places]
        heights = [height(day) for day in days]
        for layer in (0, 1):
            bars = pg.BarGraphItem(
                x=places,
                height=heights,
                width=BAR_WIDTH,
                brushes=[self._brush(art(day), layer) for day in days],
                pens=[self._pen(art(day)) for day in days],
            )
            self.addItem(bars)

    def _brush(self, art: Art, layer: int) -> QBrush:
        """Return the plain ground of a bar, or the pattern that lies on it."""
        if layer == 0:
            return QBrush(self._look.colour(art.ground)) if art.ground else QBrush(Qt.BrushStyle.NoBrush)
        return (
            QBrush(self._look.colour(art.ink), art.pattern) if art.pattern else QBrush(Qt.BrushStyle.NoBrush)
        )

    def _pen(self, art: Art) -> QPen:
        pen = QPen(self._look.colour(art.ink), 1.4, art.line)
        pen.setCosmetic(True)
        return pen

    def _first_plan(self) -> None:
        pen = QPen(self._look.colour("ink"), 1.6, Qt.PenStyle.CustomDashLine)
        pen.setDashPattern([3, 3])
        pen.setCosmetic(True)
        self.plot([x for x, _ in self._first], [y for _, y in self._first], pen=pen, antialias=True)

    def _labels(self) -> None:
        """Write minutes over the bars and what happened, as far as the bars are wide enough."""
        for item in [one for one in self.getPlotItem().items if isinstance(one, pg.TextItem)]:
            self.removeItem(item)
        box = self.getPlotItem().getViewBox()
        if box.height() < LEAST_HEIGHT_PX:
            return
        room = box.width() / max(len(self._days), 1)
        for place, day in enumerate(self._days):
            words = self._over(day)
            spare = 2.0 if day.kind is DayKind.SET_BACK else 1.0  # its note stands above the neighbours'
            if words and _width(words) <= spare * room:
                self._write(place, max(day.done, day.planned if not day.settled else 0.0), words, day)

    def _over(self, day: RampDay) -> list[str]:
        """Return the lines over a bar."""
        if day.kind is DayKind.SET_BACK:
            return [SHORT_NOTES.get(day.note, "back"), str(whole_minutes(day.done))]
        if day.kind in (DayKind.COMING, DayKind.TODAY):
            most = max(day.planned, day.done)
            return [str(whole_minutes(most))] if most else ["in"]
        if day.kind in (DayKind.HOLD, DayKind.IN):
            return ["hold" if day.kind is DayKind.HOLD else "in"]
        return ["shade"] if day.kind is DayKind.SHADE else [str(whole_minutes(day.done))]

    def _write(self, place: int, height: float, words: list[str], day: RampDay) -> None:
        alert = day.kind in (DayKind.SET_BACK, DayKind.HOLD)
        text = pg.TextItem(
            "\n".join(words), self._text_colour(alert), anchor=(0.5, 1.0), fill=self._look.colour("card")
        )
        weight = QFont.Weight.DemiBold if alert else QFont.Weight.Normal
        text.setFont(font(SMALL_PX, weight))
        text.setPos(place, height)
        self.addItem(text, ignoreBounds=True)

    def _text_colour(self, alert: bool) -> QColor:
        return self._look.colour("clay_text" if alert else "quiet")

    def sizeHint(self) -> QSize:
        return QSize(320, 100)


def _asked(day: RampDay) -> DayKind:
    """Return the art of the minutes a day asks for: what is past or today is only framed."""
    return DayKind.COMING if day.kind is DayKind.COMING else DayKind.IN


def _width(words: Iterable[str]) -> float:
    metrics = QFontMetricsF(font(SMALL_PX))
    return max(metrics.horizontalAdvance(line) for line in words) + 2
