"""The ramp as a chart: minutes in sun and shade, asked and done, or the light; setbacks, holds, schedules.

This module brings pyqtgraph in; it is imported when the first chart is drawn, not before.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import date

import pyqtgraph as pg
from PySide6.QtCore import QEvent, QPoint, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QFontMetricsF, QPen

from greenroom.desk.harden.bar_art import ART, BAND_INK, Art
from greenroom.desk.look import SMALL_PX, Look, font
from greenroom.desk.parts import told_under
from greenroom.desk.sharp import steady_pen
from greenroom.season.clock_faces import worth_shade
from greenroom.season.counted import SUN as DIRECT_CAUSE
from greenroom.season.hardening_words import short_day_words, whole_minutes
from greenroom.season.ramp_days import DayKind, RampDay
from greenroom.season.schedules import SHADE, envelope
from greenroom.season.schedules import SUN as DIRECT
from greenroom.speech import figure, tr

BAR_WIDTH = 0.68
HOUR = 60
HOUR_STEPS = (1, 2, 4, 8)
LIGHT_STEPS = (1, 2, 5, 10, 20, 40)
LEAST_TICK_PX = 22
LEAST_HEIGHT_PX = 60
OVER_PX = 22
OVER_SET_BACK_PX = 38
SHORT_NOTES = {
    "droop": tr("droop", sense="over a bar"),
    "wilt": tr("wilt", sense="over a bar"),
    "scorch": tr("scorch", sense="over a bar"),
}
SHORT_CAUSES = {
    "sun": tr("sun", sense="over a bar"),
    "wind": tr("wind", sense="over a bar"),
    "thirst": tr("thirst", sense="over a bar"),
}
LIES_OVER = (0.5, 1.08)
"""The middle of the foot of the words over a bar, just so far over it that its line stays whole."""
BACK_OVER, IN_OVER = tr("back", sense="over a bar"), tr("in", sense="over a bar")
HELD_OVER, SHADE_OVER = tr("hold", sense="over a bar"), tr("shade", sense="over a bar")


class HoursAxis(pg.AxisItem):
    """Minutes told in hours, on whole ones; or light, in mol/m²."""

    def __init__(self, side: str) -> None:
        super().__init__(side)
        self._light = False

    def show_light(self, light: bool) -> None:
        """Tell light instead of hours, or hours again."""
        self._light = light
        self.picture = None

    def tickValues(self, _low: float, high: float, size: float) -> list[tuple[float, list[float]]]:
        steps = LIGHT_STEPS if self._light else tuple(hours * HOUR for hours in HOUR_STEPS)
        step = next((one for one in steps if one * size >= LEAST_TICK_PX * high), steps[-1])
        return [(step, [float(value) for value in range(0, int(high) + 1, step)])]

    def tickStrings(self, values: Sequence[float], _scale: float, _spacing: float) -> list[str]:
        return [
            tr("{light:.0f} mol", light=value) if self._light else tr("{hours:.0f} h", hours=value / HOUR)
            for value in values
        ]


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
        self._light = self._schedules = False
        self._coming: Mapping[date, float] = {}
        self.told: Callable[[RampDay], str] = lambda day: f"{day.date}"
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

    @property
    def light(self) -> bool:
        """Whether it shows the light in place of the minutes."""
        return self._light

    def show_days(
        self,
        days: list[RampDay],
        *,
        light: bool = False,
        schedules: bool = False,
        coming: Mapping[date, float] | None = None,
    ) -> None:
        """Draw the days of a ramp: minutes, or the light in the sun; ``schedules`` as bands behind them.

        ``coming`` is the light of days to come, as far as it is worked out [mol m-2].
        """
        self._days, self._light, self._schedules = days, light, schedules and not light
        self._coming = coming or {}
        self._left.show_light(light)
        self._first = [
            (place, day.first_plan) for place, day in enumerate(days) if day.first_plan is not None
        ]
        self._bottom.show_days([short_day_words(day.date) for day in days])
        self.draw()

    def draw(self) -> None:
        """Draw everything anew, in the colours of the theme."""
        self.clear()
        self._dress_axes()
        if not self._days:
            return
        self._fit()
        if self._schedules:
            self._bands()
        self._bars(self._planned, lambda day: ART[_asked(day)])
        self._bars(self._done, lambda day: ART[day.kind])
        if not self._light:
            self._bars(lambda day: day.shade, lambda _day: ART[DayKind.SHADE], foot=lambda day: day.done)
            self._outdoors()
            self._first_plan()
        self._labels()

    def day_at(self, point: QPoint) -> RampDay | None:
        """Return the day at a point, or None beside the days."""
        box = self.getPlotItem().getViewBox()
        place = round(box.mapSceneToView(self.mapToScene(point)).x())
        return self._days[place] if 0 <= place < len(self._days) else None

    def event(self, event: QEvent) -> bool:
        if event.type() is QEvent.Type.DevicePixelRatioChange:
            self.draw()
        return told_under(self, event, self._words_at) or bool(super().event(event))

    def _words_at(self, point: QPoint) -> str:
        day = self.day_at(point)
        return self.told(day) if day is not None else ""

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
            first = 0.0 if self._light else day.first_plan or 0.0
            top = max(top, self._top(day) / (1 - share), first)
        self.setXRange(-0.6, len(self._days) - 0.4, padding=0)
        self.setYRange(0, top or 1.0, padding=0)

    def _dress_axes(self) -> None:
        for axis in (self._left, self._bottom):
            axis.setPen(QPen(self._look.colour("edge"), 1))
            axis.setTextPen(self._look.colour("quiet"))
        self.setBackground(self._look.colour("card"))
        self._left.setGrid(70)

    def _planned(self, day: RampDay) -> float:
        return self._coming.get(day.date, 0.0) if self._light else day.planned

    def _done(self, day: RampDay) -> float:
        return (day.light_mol_m2 or 0.0) if self._light else day.done

    def _top(self, day: RampDay) -> float:
        """Return how high a day reaches, its shade included."""
        if self._light:
            return max(self._planned(day), self._done(day))
        return max(_label_at(day), day.planned)

    def _bands(self) -> None:
        """Lay what all published schedules ask for behind the days, each light by itself."""
        for light, ink in ((SHADE, "plum"), (DIRECT, "sun")):
            bands = [envelope(number, light) for number in range(1, len(self._days) + 1)]
            known = [(place, band) for place, band in enumerate(bands) if band is not None]
            ground = self._look.colour(ink)
            ground.setAlpha(BAND_INK)
            self.addItem(
                pg.BarGraphItem(
                    x=[place for place, _ in known],
                    y0=[band.low for _, band in known],
                    height=[max(band.high - band.low, HOUR / 12) for _, band in known],
                    width=1.0,
                    brush=QBrush(ground),
                    pen=QPen(Qt.PenStyle.NoPen),
                )
            )

    def _outdoors(self) -> None:
        """Mark how long each day asks for outdoors, sun and shade together, as a line across it."""
        places = [place for place, day in enumerate(self._days) if worth_shade(_shade_asked(day))]
        x = [place + side * BAR_WIDTH / 2 for place in places for side in (-1, 1)]
        y = [self._days[place].outdoors_planned for place in places for _ in (-1, 1)]
        pen = steady_pen(self, self._look.colour("plum"), 1.6)
        self.plot(x, y, pen=pen, connect="pairs")

    def _bars(
        self,
        height: Callable[[RampDay], float],
        art: Callable[[RampDay], Art],
        foot: Callable[[RampDay], float] = lambda _day: 0.0,
    ) -> None:
        places = [place for place, day in enumerate(self._days) if height(day) > 0]
        if not places:
            return
        days = [self._days[place] for place in places]
        heights = [height(day) for day in days]
        for layer in (0, 1):
            bars = pg.BarGraphItem(
                x=places,
                y0=[foot(day) for day in days],
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
        return steady_pen(self, self._look.colour(art.ink), 1.4, art.line)

    def _first_plan(self) -> None:
        pen = steady_pen(self, self._look.colour("ink"), 1.6, Qt.PenStyle.CustomDashLine)
        pen.setDashPattern([3, 3])
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
                self._write(place, self._top(day) if self._light else _label_at(day), words, day)

    def _over(self, day: RampDay) -> list[str]:
        """Return the lines over a bar."""
        if self._light:
            found = max(self._planned(day), self._done(day))
            return [figure(found, ".1f")] if found else []
        if day.kind is DayKind.SET_BACK:
            cause = "" if day.cause in ("", DIRECT_CAUSE) else f", {SHORT_CAUSES.get(day.cause, day.cause)}"
            return [f"{SHORT_NOTES.get(day.note, BACK_OVER)}{cause}", str(whole_minutes(day.done))]
        if day.kind in (DayKind.COMING, DayKind.TODAY):
            most = max(day.planned, day.done)
            return [str(whole_minutes(most))] if most else [IN_OVER]
        if day.kind in (DayKind.HOLD, DayKind.IN):
            return [HELD_OVER if day.kind is DayKind.HOLD else IN_OVER]
        return [SHADE_OVER] if day.kind is DayKind.SHADE else [str(whole_minutes(day.done))]

    def _write(self, place: int, height: float, words: list[str], day: RampDay) -> None:
        alert = day.kind in (DayKind.SET_BACK, DayKind.HOLD)
        text = pg.TextItem(
            "\n".join(words), self._text_colour(alert), anchor=LIES_OVER, fill=self._look.colour("card")
        )
        weight = QFont.Weight.DemiBold if alert else QFont.Weight.Normal
        text.setFont(font(SMALL_PX, weight))
        text.setPos(place, height)
        self.addItem(text, ignoreBounds=True)

    def _text_colour(self, alert: bool) -> QColor:
        return self._look.colour("clay_text" if alert else "quiet")

    def sizeHint(self) -> QSize:
        return QSize(320, 100)


def _shade_asked(day: RampDay) -> int:
    return int(day.outdoors_planned - day.planned)


def _label_at(day: RampDay) -> float:
    """Return the height of the words over a day: over its bars and its line."""
    line = day.outdoors_planned if worth_shade(_shade_asked(day)) else 0.0
    return max(day.done + day.shade, line, day.planned if not day.settled else 0.0)


def _asked(day: RampDay) -> DayKind:
    """Return the art of the minutes a day asks for: what is past or today is only framed."""
    return DayKind.COMING if day.kind is DayKind.COMING else DayKind.IN


def _width(words: Iterable[str]) -> float:
    metrics = QFontMetricsF(font(SMALL_PX))
    return max(metrics.horizontalAdvance(line) for line in words) + 2
