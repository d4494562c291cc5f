"""Bringing in a daily weather file: its units guessed with a reason, read off the window's own thread."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import (
    QButtonGroup,
    QComboBox,
    QFrame,
    QProgressBar,
    QRadioButton,
    QVBoxLayout,
    QWidget,
)

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import button, column, label, row
from greenroom.desk.place.weather_forms import Look, look_into, read_file
from greenroom.desk.place.weather_words import brought_words
from greenroom.desk.seed.file_field import FileField
from greenroom.desk.worker import Worker
from greenroom.exchange.errors import BadFileError
from greenroom.exchange.weather_csv import (
    UNIT_WORDS,
    SeveralStationsError,
    Station,
    WeatherFile,
)
from greenroom.ledger.facts import WeatherRecord
from greenroom.season.deeds_shelf import add_weather

FILTERS = "Weather files (*.csv *.txt *.dly *.epw);;All files (*)"
FORM_WORDS = (
    "A CSV file with the columns DATE, TMIN and TMAX, and PRCP, WSFG or WSF2 if it has them, as in the NOAA "
    "daily summaries; or a raw .dly or an .epw file."
)
ASK_UNITS = "In which units are the numbers?"
FULL = 100


class WeatherImport(QFrame):
    """File, units with the reason for the guess, station, progress, and what came in."""

    brought = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._look: Look | None = None
        self._looker: Worker[Look] = Worker((BadFileError,), self)
        self._reader: Worker[WeatherFile] = Worker((BadFileError,), self)
        self.file = FileField("File", FILTERS)
        self.told = label(FORM_WORDS, "quiet", wrap=True)
        self.trouble = label("", "alert", wrap=True)
        self.reason = label("", wrap=True)
        self.units = QButtonGroup(self)
        self.station = QComboBox()
        self.bar = QProgressBar()
        self.bring = button("Bring the weather in", self.bring_in, "primary", name="bring-in-weather")
        self.cancel = button("Cancel", self.stop, name="cancel-weather")
        self._lay_out()
        self._connect()
        self._show("idle")

    def bring_in(self) -> None:
        """Read the file whole and write it down as one act."""
        look = self._look
        if look is None:
            return
        units = next((one.objectName() for one in self.units.buttons() if one.isChecked()), None)
        station = self.station.currentData() if self.station.count() else None
        self._show("reading")
        self._reader.start(lambda progress, stopped: read_file(look, units, station, progress, stopped))

    def stop(self) -> None:
        """Call the reading off, or put the file aside; nothing is kept."""
        reading = self._reader.running
        self._looker.cancel()
        self._reader.cancel()
        if reading:
            self._show("looked")
            self._say("Called off; nothing was brought in.")
        else:
            self._put_aside(FORM_WORDS)

    def _look_at(self, path: str) -> None:
        self._reader.cancel()
        self._look = None
        file = Path(path).expanduser()
        self._show("idle")
        self._say(FORM_WORDS)
        self._looker.start(lambda _progress, _stopped: look_into(file))

    def _on_look(self, look: Look) -> None:
        self._look = look
        self.reason.setText(look.reason)
        for one in self.units.buttons():
            one.setVisible(look.units is not None)
            one.setChecked(one.objectName() == look.units)
        self._offer(look.stations if len(look.stations) > 1 else ())
        self._say(f"{look.words}. {ASK_UNITS if look.units is not None else ''}".strip())
        self._show("looked")

    def _on_read(self, found: WeatherFile) -> None:
        keeper = self._bench.keeper
        known = keeper.season.facts(WeatherRecord)
        station = " ".join(part for part in (found.station, found.name) if part)
        source = self._look.path.name if self._look else ""
        if keeper.do(lambda: add_weather(source, station, found.days, keeper.today, known=known)):
            self._put_aside(brought_words(found, keeper.place))
            self.brought.emit()
        else:
            self._show("looked")

    def _on_trouble(self, error: BadFileError) -> None:
        if isinstance(error, SeveralStationsError):
            self._offer(error.stations)
            self._show("looked")
        else:
            self._show("looked" if self._look else "idle")
        self._say(trouble=f"{str(error).rstrip('.')}. Nothing was brought in.")

    def _offer(self, stations: tuple[Station, ...]) -> None:
        self.station.clear()
        for one in stations:
            self.station.addItem(" ".join(part for part in one if part), one.station)

    def _put_aside(self, words: str) -> None:
        """Be ready for another file."""
        self._look = None
        self.file.clear()
        self.reason.setText("")
        self._offer(())
        self._say(words)
        self._show("idle")

    def _say(self, told: str = "", trouble: str = "") -> None:
        self.told.setText(told)
        self.told.setVisible(bool(told))
        self.trouble.setText(trouble)
        self.trouble.setVisible(bool(trouble))

    def _show(self, state: str) -> None:
        """Show what belongs to a state: "idle", "looked" or "reading"."""
        looked, reading = state in ("looked", "reading"), state == "reading"
        self.reason.setVisible(bool(self.reason.text()))
        if reading:
            self._say("Reading …")
            self.bar.setValue(0)
        self.choices.setVisible(looked)
        self.choices.setEnabled(not reading)
        self.file.setEnabled(not reading)
        self.station_line.setVisible(self.station.count() > 0)
        self.bar.setVisible(reading)
        self.deeds.setVisible(looked)
        self.bring.setEnabled(not reading)
        if reading:
            self.cancel.setFocus()

    def _connect(self) -> None:
        self.file.chosen.connect(self._look_at)
        self._looker.finished.connect(self._on_look)
        self._looker.failed.connect(self._on_trouble)
        self._reader.progressed.connect(lambda share: self.bar.setValue(int(share * FULL)))
        self._reader.finished.connect(self._on_read)
        self._reader.failed.connect(self._on_trouble)

    def _lay_out(self) -> None:
        self.bar.setRange(0, FULL)
        self.bar.setTextVisible(False)
        self.bar.setAccessibleName("share of the file read")
        self.station.setAccessibleName("Station")
        for unit, words in UNIT_WORDS.items():
            one = QRadioButton(words)
            one.setObjectName(unit)
            self.units.addButton(one)
        caption = label("Station", "quiet")
        caption.setBuddy(self.station)
        self.station_line = QWidget()
        self.station_line.setLayout(row(caption, self.station, None))
        self.choices = QWidget()
        self.choices.setLayout(column(self.reason, *self.units.buttons(), self.station_line, gap=GAP // 2))
        self.deeds = QWidget()
        self.deeds.setLayout(row(self.bring, self.cancel, None))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        for part in (self.file, self.told, self.trouble, self.choices, self.bar):
            layout.addWidget(part)
        layout.addWidget(self.deeds)
