"""Bringing in a weather file of any form: looked into first, read and written off the window's own thread."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QFrame, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.file_field import FileField
from greenroom.desk.look import GAP
from greenroom.desk.parts import button, label, row, show_words
from greenroom.desk.place.form_choice import FormChoice
from greenroom.desk.place.plain_panel import PlainPanel
from greenroom.desk.place.weather_words import brought_words, looked_words
from greenroom.desk.share_bar import ShareBar
from greenroom.desk.worker import Worker
from greenroom.exchange.errors import BadFileError, Cancelled
from greenroom.exchange.weather_csv import SeveralStationsError, WeatherFile
from greenroom.exchange.weather_files import WeatherFileLook, look_at_weather, read_weather_file
from greenroom.exchange.weather_plain import PlainLook, look_at_plain
from greenroom.ledger.facts import WeatherRecord
from greenroom.season.deeds_shelf import add_weather
from greenroom.speech import tr

FILTERS = tr("Weather files (*.csv *.txt *.tsv *.dly *.epw);;All files (*)")
FORM_WORDS = tr(
    "Daily summaries as national weather services give them (CSV), raw daily files "
    "(.dly), hourly weather of a typical year (.epw), or any table with a date, a lowest "
    "and a highest temperature in each row."
)
READING = tr("Reading …")
WRITING = tr("Writing it down …")
NOTHING = tr("Nothing was brought in.")


class WeatherImport(QFrame):
    """File, what its form leaves open, progress, and what came in."""

    brought = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._file: Path | None = None
        self._look: WeatherFileLook | None = None
        self._found: WeatherFile | None = None
        self._looker: Worker[WeatherFileLook] = Worker((BadFileError,), self)
        self._relooker: Worker[PlainLook] = Worker((BadFileError,), self)
        self._reader: Worker[WeatherFile] = Worker((BadFileError, Cancelled), self)
        self.file = FileField(tr("File"), FILTERS)
        self.told = label(FORM_WORDS, "quiet", wrap=True)
        self.trouble = label("", "alert", wrap=True)
        self.known = FormChoice()
        self.plain = PlainPanel()
        self.bar = ShareBar(tr("share of the file read"))
        self.bring = button(tr("Bring the weather in"), self.bring_in, "primary", name="bring-in-weather")
        self.cancel = button(tr("Cancel"), self.stop, name="cancel-weather")
        self._lay_out()
        self._connect()
        self._show("idle")

    def bring_in(self) -> None:
        """Read the file whole and write it down as one act."""
        file, look = self._file, self._look
        if file is None or look is None:
            return
        choice = self.plain.choice if look.form == "plain" else self.known.choice
        self._show("reading")
        self._reader.start(lambda progress, stopped: read_weather_file(file, choice, progress, stopped))

    def stop(self) -> None:
        """Call the reading off, or put the file aside; nothing is kept."""
        reading = self._reader.running
        for worker in (self._looker, self._relooker, self._reader):
            worker.cancel()
        if reading:
            self._show("looked")
            self._say(tr("Called off; nothing was brought in."))
        else:
            self._put_aside(FORM_WORDS)

    def _look_at(self, path: str) -> None:
        self._reader.cancel()
        self._look = None
        self._file = file = Path(path).expanduser()
        self._show("idle")
        self._say(FORM_WORDS)
        self._looker.start(lambda _progress, _stopped: look_at_weather(file))

    def _on_look(self, look: WeatherFileLook) -> None:
        self._look = look
        if isinstance(look.detail, PlainLook):
            self.plain.show_look(look.detail)
        else:
            self.known.show_look(look)
        self._say(looked_words(look))
        self._show("looked")
        self._check()

    def _on_rematched(self) -> None:
        """Look again with the columns as they are matched now: units and dates may read otherwise."""
        file, match = self._file, self.plain.match
        self.bring.setEnabled(False)
        if file is not None:
            self._relooker.start(lambda _progress, _stopped: look_at_plain(file, match))

    def _on_relook(self, look: PlainLook) -> None:
        self.plain.show_guesses(look)
        self._check()

    def _check(self) -> None:
        """Let a table be brought in once all that is needed is chosen."""
        lacking = self.plain.lacking if self._look is not None and self._look.form == "plain" else ""
        self.bring.setEnabled(not lacking)
        if self._look is not None:
            self._say(looked_words(self._look), lacking)

    def _on_read(self, found: WeatherFile) -> None:
        keeper = self._bench.keeper
        self._found = found
        known = keeper.season.facts(WeatherRecord)
        station = " ".join(part for part in (found.station, found.name) if part)
        source = self._file.name if self._file else ""
        self._show("writing")
        keeper.do_apart(
            lambda: add_weather(source, station, found.days, keeper.today, known=known), self._on_written
        )

    def _on_written(self, written: bool) -> None:
        found, self._found = self._found, None
        if written and found is not None:
            self._put_aside(brought_words(found, self._bench.keeper.place))
            self.brought.emit()
        else:
            self._show("looked")
            self._say(trouble=NOTHING)

    def _on_trouble(self, error: BadFileError) -> None:
        if isinstance(error, SeveralStationsError):
            self.known.offer(error.stations)
        self._show("looked" if self._look else "idle")
        self._say(trouble=f"{str(error).rstrip('.')}. {NOTHING}")

    def _put_aside(self, words: str) -> None:
        """Be ready for another file."""
        self._file = self._look = None
        self.file.clear()
        self._say(words)
        self._show("idle")

    def _say(self, told: str = "", trouble: str = "") -> None:
        show_words(self.told, told)
        show_words(self.trouble, trouble)

    def _show(self, state: str) -> None:
        """Show what belongs to a state: "idle", "looked", "reading" or "writing"."""
        form = self._look.form if self._look is not None else ""
        busy = state in ("reading", "writing")
        if busy:
            self._say(READING if state == "reading" else WRITING)
        if state == "reading":
            self.bar.setValue(0)
        self.known.setVisible(form not in ("", "plain"))
        self.plain.setVisible(form == "plain")
        for part in (self.known, self.plain, self.file, self.bring):
            part.setEnabled(not busy)
        self.cancel.setEnabled(state != "writing")
        self.bar.setVisible(busy)
        self.deeds.setVisible(state != "idle")
        if state == "reading":
            self.cancel.setFocus()

    def _connect(self) -> None:
        self.file.chosen.connect(self._look_at)
        self._looker.finished.connect(self._on_look)
        self._looker.failed.connect(self._on_trouble)
        self.plain.rematched.connect(self._on_rematched)
        self.plain.changed.connect(self._check)
        self._relooker.finished.connect(self._on_relook)
        self._relooker.failed.connect(self._on_trouble)
        self._reader.progressed.connect(self.bar.show_share)
        self._reader.finished.connect(self._on_read)
        self._reader.failed.connect(self._on_trouble)

    def _lay_out(self) -> None:
        self.deeds = QWidget()
        self.deeds.setLayout(row(self.bring, self.cancel, None))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        for part in (self.file, self.told, self.trouble, self.known, self.plain, self.bar, self.deeds):
            layout.addWidget(part)
