"""A table of days in nobody's own form: which column holds what, how its dates read, in which units."""

from __future__ import annotations

from collections.abc import Mapping
from functools import reduce

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QGridLayout, QVBoxLayout, QWidget

from greenroom.desk.look import GAP, TARGET_PX
from greenroom.desk.parts import label
from greenroom.desk.seed.preview_model import PreviewModel
from greenroom.desk.seed.preview_table import CHOOSER_PX, ROW_PX, PreviewTable
from greenroom.exchange.weather_files import WeatherChoice
from greenroom.exchange.weather_plain import (
    FIELD_WORDS,
    GUST_UNITS,
    ORDER_WORDS,
    RAIN_UNITS,
    TEMPERATURE_UNITS,
    DateGuess,
    PlainLook,
    PlainMatch,
    PlainUnits,
)
from greenroom.exchange.weather_units import UnitGuess
from greenroom.speech import tr

CHECK_MATCH = tr(
    "Each column is taken for what the chooser over it says; choose another where that is wrong."
)
CHOOSE_ORDER = tr("choose how they are written")
NEEDED = ("tmin", "tmax")
ROWS_SHOWN = 4
COLUMN_PX = 170


class PlainPanel(QWidget):
    """``rematched`` tells that a column was taken for something else, ``changed`` that a choice was made."""

    rematched = Signal()
    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.preview = PreviewModel(PlainMatch(), FIELD_WORDS, self)
        self.table = PreviewTable(self.preview, tr("The first rows of the weather table"))
        self.table.setFixedHeight(CHOOSER_PX + (ROWS_SHOWN + 1) * ROW_PX + 2 * GAP)
        self.table.horizontalHeader().setDefaultSectionSize(COLUMN_PX)
        self.order = Chooser(tr("How the dates are written"), {"": CHOOSE_ORDER, **ORDER_WORDS})
        self.temperature = Chooser(tr("Unit of the temperatures"), _words(TEMPERATURE_UNITS))
        self.rain = Chooser(tr("Unit of the rain"), _words(RAIN_UNITS))
        self.gust = Chooser(tr("Unit of the gusts"), _words(GUST_UNITS))
        self._lay_out()
        self.preview.rematched.connect(self.rematched)
        for chooser in (self.order, self.temperature, self.rain, self.gust):
            chooser.activated.connect(lambda _place: self.changed.emit())

    @property
    def match(self) -> PlainMatch:
        """Which column holds what."""
        return self.preview.matching

    @property
    def choice(self) -> WeatherChoice:
        """What is chosen."""
        units = PlainUnits(self.temperature.chosen, self.rain.chosen or "mm", self.gust.chosen or "ms")
        return WeatherChoice(match=self.match, order=self.order.chosen or None, plain_units=units)

    @property
    def lacking(self) -> str:
        """What is to be chosen before the table can be read, in one sentence; empty if nothing is."""
        used = self.match.used()
        lacking = [FIELD_WORDS[name] for name in NEEDED if name not in used]
        if self.match.date_columns is None:
            lacking.insert(0, FIELD_WORDS["day"])
        if lacking:
            fields = reduce(
                lambda first, last: tr("{first} and {last}", first=first, last=last),
                (tr("the {field}", sense="what a column holds", field=one) for one in lacking),
            )
            return tr("No column is chosen for {fields}; choose above the rows.", fields=fields)
        if self.order.asks and not self.order.chosen:
            return tr("The dates can be read in two ways; choose how they are written.")
        return ""

    def show_look(self, look: PlainLook) -> None:
        """Show another table, everything as it seems to be."""
        for chooser in (self.order, self.temperature, self.rain, self.gust):
            chooser.forget()
        self.preview.show_look(look)
        self.show_guesses(look)

    def show_guesses(self, look: PlainLook) -> None:
        """Show what order and units seem to be with the columns as matched; what was chosen stays."""
        dates = look.dates
        self.order.offer(dates is not None, dates.order if dates and dates.sure else "", _reason(dates))
        for chooser, guess in (
            (self.temperature, look.temperature),
            (self.rain, look.rain),
            (self.gust, look.gust),
        ):
            chooser.offer(guess is not None, guess.units if guess else "", _reason(guess))

    def _lay_out(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(label(CHECK_MATCH, "quiet", wrap=True))
        layout.addWidget(self.table)
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP + 4)
        grid.setVerticalSpacing(GAP // 2)
        grid.setColumnStretch(2, 1)
        lines = (
            (tr("Dates"), self.order),
            (tr("Temperatures in"), self.temperature),
            (tr("Rain in"), self.rain),
            (tr("Gusts in"), self.gust),
        )
        for place, (words, chooser) in enumerate(lines):
            chooser.caption.setText(words)
            grid.addWidget(chooser.caption, place, 0)
            grid.addWidget(chooser, place, 1)
            grid.addWidget(chooser.reason, place, 2)
        layout.addLayout(grid)


def _words(units: Mapping[str, tuple[str, object]]) -> dict[str, str]:
    return {key: words for key, (words, _) in units.items()}


def _reason(guess: DateGuess | UnitGuess | None) -> str:
    return guess.reason if guess is not None else ""


class Chooser(QComboBox):
    """A choice with the reason for the guess; what the grower chose outlives a new guess."""

    def __init__(self, name: str, words: Mapping[str, str]) -> None:
        super().__init__()
        self.asks = False
        self._touched = False
        self.caption = label("", "quiet")
        self.caption.setBuddy(self)
        self.reason = label("", "quiet", wrap=True)
        self.setAccessibleName(name)
        self.setMinimumHeight(TARGET_PX)
        for key, text in words.items():
            self.addItem(text, key)
        self.activated.connect(self._on_activated)

    @property
    def chosen(self) -> str:
        """The key of what is chosen; empty if nothing is."""
        return str(self.currentData() or "")

    def forget(self) -> None:
        """Be ready for another file."""
        self._touched = False

    def offer(self, asks: bool, guess: str, reason: str) -> None:
        """Show a guess and its reason, or nothing where there is nothing to choose."""
        self.asks = asks
        for part in (self, self.caption, self.reason):
            part.setVisible(asks)
        if not self._touched:
            self.setCurrentIndex(self.findData(guess))
        self.reason.setText(reason)

    def _on_activated(self, _place: int) -> None:
        self._touched = True
