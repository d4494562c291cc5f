"""Over the plan: plant or draw, which part is seen, and the day and hour whose sun is shown."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import (
    QButtonGroup,
    QCheckBox,
    QComboBox,
    QPushButton,
    QSizePolicy,
    QSlider,
    QVBoxLayout,
    QWidget,
)

from greenroom.desk.bench import Bench
from greenroom.desk.flow import Flow
from greenroom.desk.look import GAP
from greenroom.desk.parts import button, label, row
from greenroom.desk.set_out.plan_state import DRAW, PLANT
from greenroom.desk.set_out.plan_words import HALF_WORDS
from greenroom.season.hardening import sun_of
from greenroom.season.hardening_words import day_words, time_words
from greenroom.season.outings import midnight
from greenroom.season.plot import Plot
from greenroom.season.within import opening
from greenroom.speech import tr

SEASON_NORTH = ((3, 1), (10, 31))
SEASON_SOUTH = ((9, 1), (4, 30))
MINUTES_STEP = 10
DAY_MINUTES = 24 * 60
DAY_PX, HOUR_PX = 92, 40  # room for 30 September and 20:50


class SunBar(QWidget):
    """Signals tell which part of what is shown has changed."""

    mode_changed = Signal(str)
    seen_changed = Signal()
    half_changed = Signal(str)
    day_changed = Signal()
    hour_changed = Signal()
    table_asked = Signal(bool)

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._first = bench.keeper.today
        self.plant = self._check(
            tr("Plant", sense="to plant"), "mode-plant", tr("Carry plants from racks into the beds")
        )
        self.draw = self._check(
            tr("Draw", sense="beds and shade"), "mode-draw", tr("Lay beds and what throws shade")
        )
        self.seen = QComboBox()
        self.seen.setObjectName("seen-part")
        self.seen.setAccessibleName(tr("part of the plot that is seen"))
        self.seen.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.seen.setMinimumWidth(90)
        self.table = self._check(tr("Table"), "as-table", tr("The same as a table"))
        self.halves = {
            half: self._check(opening(words), f"half-{half}") for half, words in HALF_WORDS.items()
        }
        self.grown = QCheckBox(tr("plants full grown"))
        self.grown.setObjectName("grown")
        self.grown.setToolTip(tr("Let the plants throw shade at the height they grow to"))
        self.day_slider = self._slider("sun-day", tr("day whose sun is shown"))
        self.day_words = label("", "strong")
        self.today = button(tr("Today"), self.to_today, "link", name="sun-today")
        self.shadows = QCheckBox(tr("Shadows"))
        self.shadows.setObjectName("shadows")
        self.shadows.setToolTip(tr("Where the shadows lie at one hour"))
        self.hour_slider = self._slider("sun-hour", tr("hour whose shadows are shown"))
        self.hour_words = label("")
        self._group()
        self._lay_out()
        self._set_season()
        self.to_today()

    @property
    def day(self) -> date:
        """The day whose sun is shown."""
        return self._first + timedelta(days=self.day_slider.value())

    @property
    def half(self) -> str:
        """The half of the day that is shown."""
        return next((half for half, one in self.halves.items() if one.isChecked()), "day")

    @property
    def moment(self) -> datetime | None:
        """The moment whose shadows are shown, or None while they are not."""
        return self._moment() if self.shadows.isChecked() else None

    @property
    def part(self) -> str | None:
        """The key of the bed that fills the plan, or None for the whole plot."""
        return self.seen.currentData()

    def to_today(self) -> None:
        """Show the sun of today, or of the day of the season nearest to it."""
        self.show_day(self._bench.keeper.today)
        self._on_day()

    def show_day(self, day: date) -> None:
        """Show the sun of a day, or of the day of the season nearest to it."""
        self.day_slider.setValue((day - self._first).days)

    def show_plot(self, plot: Plot) -> None:
        """List the beds that may be seen by themselves."""
        part = self.part
        with QSignalBlocker(self.seen):
            self.seen.clear()
            self.seen.addItem(tr("Whole plot"), None)
            for bed in plot.beds:
                self.seen.addItem(bed.name, bed.key)
            self.seen.setCurrentIndex(max(0, self.seen.findData(part)))
        if self.part != part:
            self.seen_changed.emit()

    def _moment(self) -> datetime:
        start = midnight(self.day, self._bench.keeper.place.zone)
        return (start + timedelta(minutes=self.hour_slider.value())).astimezone(UTC)

    def _set_season(self) -> None:
        """Let the slider run over the season that today is in, or the next."""
        place, today = self._bench.keeper.place, self._bench.keeper.today
        first, last = SEASON_SOUTH if place.southern else SEASON_NORTH
        later = last < first
        year = next(
            year
            for year in (today.year - 1, today.year, today.year + 1)
            if today <= date(year + later, *last)
        )
        self._first = date(year, *first)
        self.day_slider.setRange(0, (date(year + later, *last) - self._first).days)

    def _on_day(self) -> None:
        self.day_words.setText(day_words(self.day))
        keeper = self._bench.keeper
        sun = sun_of(keeper.season, self.day)
        start = midnight(self.day, keeper.place.zone)
        first, last = (
            (0, DAY_MINUTES) if sun is None else (int((one - start).total_seconds() // 60) for one in sun)
        )
        with QSignalBlocker(self.hour_slider):
            self.hour_slider.setRange(-(-first // MINUTES_STEP) * MINUTES_STEP, last)
            if not self.shadows.isChecked():
                self.hour_slider.setValue((first + last) // 2 // MINUTES_STEP * MINUTES_STEP)
        self._on_hour(tell=False)
        self.day_changed.emit()

    def _on_hour(self, *, tell: bool = True) -> None:
        self.hour_words.setText(time_words(self._moment(), self._bench.keeper.place))
        self.hour_slider.setEnabled(self.shadows.isChecked())
        if tell:
            self.hour_changed.emit()

    def _group(self) -> None:
        for group in ((self.plant, self.draw), tuple(self.halves.values())):
            buttons = QButtonGroup(self)
            for one in group:
                buttons.addButton(one)
            group[0].setChecked(True)
        self.plant.toggled.connect(lambda on: self.mode_changed.emit(PLANT if on else DRAW))
        for half, one in self.halves.items():
            one.toggled.connect(lambda on, half=half: self.half_changed.emit(half) if on else None)
        self.seen.currentIndexChanged.connect(lambda _: self.seen_changed.emit())
        self.table.toggled.connect(self.table_asked.emit)
        self.grown.toggled.connect(lambda _: self.day_changed.emit())
        self.day_slider.valueChanged.connect(lambda _: self._on_day())
        self.hour_slider.valueChanged.connect(lambda _: self._on_hour())
        self.shadows.toggled.connect(lambda _: self._on_hour())

    def _lay_out(self) -> None:
        for words, slider, least in (
            (self.day_words, self.day_slider, DAY_PX),
            (self.hour_words, self.hour_slider, HOUR_PX),
        ):
            words.setMinimumWidth(least)
            words.setBuddy(slider)
        see = label(tr("See", sense="part of the plot"), "quiet")
        see.setBuddy(self.seen)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP - 2)
        layout.addLayout(row(self.plant, self.draw, see, self.seen, self.table, gap=GAP - 2))
        layout.addWidget(Flow(*self.halves.values(), self.grown, gap=GAP - 2))
        across = row(self.day_slider, self.day_words, self.today, gap=GAP - 2)
        for part in (self.shadows, self.hour_slider, self.hour_words):
            across.addWidget(part)
        layout.addLayout(across)

    @staticmethod
    def _check(words: str, name: str, tip: str = "") -> QPushButton:
        made = QPushButton(words)
        made.setCheckable(True)
        made.setAutoDefault(False)
        made.setObjectName(name)
        made.setProperty("tight", "yes")
        made.setToolTip(tip)
        return made

    @staticmethod
    def _slider(name: str, spoken: str) -> QSlider:
        made = QSlider(Qt.Orientation.Horizontal)
        made.setObjectName(name)
        made.setAccessibleName(spoken)
        made.setMinimumHeight(24)
        made.setMinimumWidth(48)
        if name == "sun-hour":
            made.setSingleStep(MINUTES_STEP)
            made.setPageStep(60)
        else:
            made.setPageStep(7)
        return made
