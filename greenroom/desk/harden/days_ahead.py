"""The days ahead of one holder: minutes, what the weather says, and how cold the night."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from datetime import date

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QFrame, QGridLayout, QScrollArea, QWidget

from greenroom.agronomy.hardening import DayWeather
from greenroom.agronomy.two_clocks import PlannedBoth
from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP, Look
from greenroom.desk.parts import Card, WhyLink, label, row, show_words
from greenroom.season.clock_faces import TwoClocks, worth_shade
from greenroom.season.days_out import sheltered
from greenroom.season.hardening_why import move_words
from greenroom.season.hardening_words import (
    WEEKDAYS,
    gust_words,
    rain_words,
    temperature_words,
    time_words,
    whole_minutes,
)
from greenroom.season.outing_windows import Window
from greenroom.season.place import Place
from greenroom.season.reasons import reason_words
from greenroom.season.why import Why
from greenroom.season.within import in_row
from greenroom.speech import tr

SHOWN = 7
WIDTH_PX = 268
COLD_NIGHT_C = 10.0
GLYPH_PX = 16
VERDICT_WORDS = {
    "out": tr("out", sense="outdoors"),
    "sheltered": tr("sheltered"),
    "hold": tr("keep in"),
}


@dataclass(frozen=True, slots=True)
class DayLine:
    """One day ahead in words; ``verdict`` chooses its glyph."""

    day: str
    verdict: str
    minutes: str
    reason: str
    low: str
    cold: bool
    best: str = ""


class VerdictGlyph(QWidget):
    """A ring for a day out, a ring under a roof for a sheltered one, two bars for a day to hold."""

    def __init__(self, look: Look, verdict: str) -> None:
        super().__init__()
        self._look = look
        self._verdict = verdict
        self.setAccessibleName(VERDICT_WORDS[verdict])
        self.setFixedSize(GLYPH_PX, GLYPH_PX)
        look.changed.connect(self.update)

    def sizeHint(self) -> QSize:
        return QSize(GLYPH_PX, GLYPH_PX)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        box = QRectF(self.rect()).adjusted(2, 2, -2, -2)
        if self._verdict == "hold":
            painter.setPen(QPen(self._look.colour("clay"), 3, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
            for x in (box.left() + 3, box.right() - 3):
                painter.drawLine(int(x), int(box.top() + 1), int(x), int(box.bottom() - 1))
            return
        painter.setPen(QPen(self._look.colour("leaf"), 2))
        if self._verdict == "sheltered":
            painter.drawPolyline([box.bottomLeft(), box.topLeft(), box.topRight(), box.bottomRight()])
            painter.drawEllipse(box.center() + QPointF(0, 1.5), 2.5, 2.5)
            return
        painter.setBrush(self._look.colour("leaf_soft"))
        painter.drawEllipse(box.adjusted(1, 1, -1, -1))


class DaysAhead(Card):
    """Today and the days after it; a day past the forecast says so by having no night's low."""

    def __init__(self, bench: Bench, why: Callable[[], Why | None]) -> None:
        super().__init__(tr("The days ahead"))
        self._bench = bench
        self.setFixedWidth(WIDTH_PX)
        self.why = WhyLink(bench, why)
        self.why.setAccessibleName(tr("why these days"))
        self.head.addWidget(self.why)
        self.note = label("", "quiet", wrap=True)
        self._sheet = QWidget()
        self._sheet.setObjectName("ground")
        self.grid = QGridLayout(self._sheet)
        self.grid.setContentsMargins(0, 0, 0, 0)
        self.grid.setHorizontalSpacing(GAP)
        self.grid.setVerticalSpacing(0)
        self.grid.setColumnStretch(1, 1)
        area = QScrollArea()
        area.setWidgetResizable(True)
        area.setFrameShape(QFrame.Shape.NoFrame)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        area.setWidget(self._sheet)
        area.setAccessibleName(tr("The days ahead"))
        self.body.addWidget(area, 1)
        self.body.addLayout(row(self.note))
        self.lines: list[DayLine] = []
        self._days: list[date] = []
        self._plain: list[DayLine] = []
        self._best: Mapping[date, Window | None] = {}

    def show_plan(self, stand: TwoClocks, forecast: dict[date, DayWeather]) -> None:
        """Show the plan of a holder."""
        place = self._bench.keeper.place
        ahead = [day for day in stand.ahead if day.date > stand.today or stand.sun.settled is None]
        self._days = [day.date for day in ahead[:SHOWN]]
        lines = [day_line(day, stand, forecast.get(day.date), place) for day in ahead[:SHOWN]]
        if stand.sun.settled is not None:
            self._days.insert(0, stand.today)
            lines.insert(0, _today_line(stand, forecast.get(stand.today), place))
        show_words(self.note, _note(stand, forecast))
        self._plain = lines
        self._show_lines()

    def show_best(self, best: Mapping[date, Window | None]) -> None:
        """Show the best hours of the days for which they are known."""
        if best != self._best:
            self._best = best
            self._show_lines()

    def _show_lines(self) -> None:
        place = self._bench.keeper.place
        lines = [
            replace(line, best=_best_line(line, self._best[day], place)) if day in self._best else line
            for day, line in zip(self._days, self._plain, strict=True)
        ]
        if lines != self.lines:
            self.lines = lines
            self._fill()

    def _fill(self) -> None:
        while (item := self.grid.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for place, line in enumerate(self.lines):
            self._add(3 * place, line)
        for row_number in range(self.grid.rowCount()):
            self.grid.setRowStretch(row_number, 0)
        self.grid.setRowStretch(3 * len(self.lines), 1)

    def _add(self, at: int, line: DayLine) -> None:
        glyph = VerdictGlyph(self._bench.look, line.verdict)
        self.grid.addWidget(glyph, at, 0, Qt.AlignmentFlag.AlignVCenter)
        reason = label(line.reason.replace("/", "/\u2060"), "quiet", wrap=True)  # km/h stays whole
        (best := label(line.best, wrap=True)).setContentsMargins(0, 0, 0, GAP)
        reason.setContentsMargins(0, 0, 0, 0 if line.best else GAP)
        self.grid.addWidget(label(f"{line.day}  {line.minutes}", "strong"), at, 1)
        self.grid.addWidget(
            label(line.low, "alert" if line.cold else "quiet"), at, 2, Qt.AlignmentFlag.AlignRight
        )
        self.grid.addWidget(reason, at + 1, 1, 1, 2)
        if line.best:
            self.grid.addWidget(best, at + 2, 1, 1, 2)


def day_line(planned: PlannedBoth, stand: TwoClocks, weather: DayWeather | None, place: Place) -> DayLine:
    """Return one planned day in words, with the numbers of the weather that hold or shelter it."""
    day = planned.date
    name = (
        tr("Today")
        if day == stand.today
        else tr("{weekday} {day}", sense="day of the month", weekday=WEEKDAYS[day.weekday()], day=day.day)
    )
    return DayLine(
        name, planned.verdict, _minutes(planned), _told(planned, stand, weather, place), *_low(weather, place)
    )


def _minutes(planned: PlannedBoth) -> str:
    """Return the minutes of a day in the sun."""
    return (
        tr("{minutes} min", minutes=planned.sun_minutes) if planned.air_minutes else tr("in", sense="indoors")
    )


def _told(planned: PlannedBoth, stand: TwoClocks, weather: DayWeather | None, place: Place) -> str:
    """Return the shade of a day and its weather; a tender holder is sheltered on its first steps."""
    words = _reason(planned, weather, place)
    if planned.verdict == "out" and sheltered(stand, planned):
        words = tr("sheltered: {weather}", weather=words)
    shade = worth_shade(planned.shade_minutes)
    return tr("and {shade} of shade; {weather}", shade=shade, weather=words) if shade else words


def _today_line(stand: TwoClocks, weather: DayWeather | None, place: Place) -> DayLine:
    """Return today once its sun is settled: what it gave, the step it led to, and the shade still open."""
    settled = stand.sun.settled
    if settled is None:
        raise LookupError("today is not settled")
    words = move_words(settled.after - settled.before)
    verdict = "out" if settled.after > settled.before else "hold"
    done = tr("{minutes} done: {step}", minutes=whole_minutes(settled.day.minutes), step=words)
    if stand.shade_target and stand.shade_left and not stand.over:
        left = tr("{minutes} of shade left", minutes=whole_minutes(stand.shade_left))
        done = in_row((done, left))
    return DayLine(
        tr("Today"), verdict, tr("{minutes} min", minutes=stand.target), done, *_low(weather, place)
    )


def _low(weather: DayWeather | None, place: Place) -> tuple[str, bool]:
    """Return the night's low in words, and whether it asks for bringing in before dusk."""
    if weather is None or weather.tmin is None:
        return "", False
    return tr("low {temperature}", temperature=temperature_words(weather.tmin, place)), round(
        weather.tmin
    ) < COLD_NIGHT_C


def _reason(planned: PlannedBoth, weather: DayWeather | None, place: Place) -> str:
    told = [measured(reason, weather, place) for reason in planned.reasons]
    if planned.verdict == "hold":
        return tr("keep in: {reasons}", reasons=", ".join(told))
    if planned.verdict == "sheltered":
        return tr("sheltered spot: {reasons}", reasons=", ".join(told))
    return _weather_words(weather, place)


def _weather_words(weather: DayWeather | None, place: Place) -> str:
    """Return the weather of a day that lets out, as far as it is known."""
    if weather is None:
        return tr("no forecast")
    parts = (
        []
        if weather.tmax is None
        else [tr("up to {temperature}", temperature=temperature_words(weather.tmax, place))]
    )
    parts += [] if weather.gust is None else [tr("gusts {gust}", gust=gust_words(weather.gust, place))]
    return ", ".join(parts) or VERDICT_WORDS["out"]


def span_words(window: Window | None, place: Place, *, held: bool = False) -> str:
    """Return from when to when the best hours of a day are; those of a held day are fit all the same."""
    if window is None:
        return tr("no hour is fit for sun")
    first, last = time_words(window.start, place), time_words(window.end, place)
    if not window.whole:
        return tr("longest {first} to {last}", first=first, last=last)
    if held:
        return tr("fit all the same {first} to {last}", first=first, last=last)
    return tr("best {first} to {last}", first=first, last=last)


def _best_line(line: DayLine, window: Window | None, place: Place) -> str:
    """Return the best hours of a day with their light; those of a held day are fit all the same."""
    words = span_words(window, place, held=line.verdict == "hold")
    if window is None:
        return words
    words = f"{words}, {window.part.value}"
    if window.light_mol_m2 is None:
        return words
    return tr("{hours}, {light:.1f}\xa0mol/m²", hours=words, light=window.light_mol_m2)


def measured(reason: str, weather: DayWeather | None, place: Place) -> str:
    """Return a reason with the figure behind it."""
    if weather is None:
        return reason_words(reason)
    figures = {
        "too cold": temperature_words(weather.tmax, place),
        "strong gusts": gust_words(weather.gust, place),
        "gusts": gust_words(weather.gust, place),
        "heavy rain": rain_words(weather.rain, place),
        "rain": rain_words(weather.rain, place),
    }
    return f"{reason_words(reason)}, {figures[reason]}" if reason in figures else reason_words(reason)


def _note(stand: TwoClocks, forecast: dict[date, DayWeather]) -> str:
    if stand.hardened:
        return tr("The ramp is done. Days in running undo it, a step a day.")
    if not forecast:
        return tr("No weather is known for these days; bring a forecast in on The place.")
    return ""
