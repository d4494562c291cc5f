"""The weather record: how many years, what is missing, the last frost, and the files it came from."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, WhyLink, button, label, row
from greenroom.desk.place.weather_import import WeatherImport
from greenroom.desk.place.weather_words import NO_RECORD, few_words, frost_words, record_words
from greenroom.desk.units import temperature
from greenroom.ledger.facts import WeatherRecord
from greenroom.season.deeds_shelf import strike_weather
from greenroom.season.weather_summary import LastFrost, last_frost, record_summary
from greenroom.season.why import Why


class WeatherCard(Card):
    """Shows the record; files come in and are struck out here."""

    def __init__(self, bench: Bench) -> None:
        super().__init__("Weather record")
        self._bench = bench
        self._frost: LastFrost | None = None
        self.record = label("", wrap=True)
        self.few = label("", "alert", wrap=True)
        self.frost = label("")
        self.caption, self.frost_caption = label("Holds", "quiet"), label("", "quiet")
        self.why = WhyLink(bench, self._why)
        self.files = QWidget()
        self._grid = QGridLayout(self.files)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setColumnStretch(0, 1)
        self.importing = WeatherImport(bench)
        self._lay_out_figures()
        self.body.addWidget(self.few)
        self.body.addWidget(self.files)
        self.body.addWidget(label("Bring in a file", "strong"))
        self.body.addWidget(self.importing)
        self.refresh()

    def refresh(self) -> None:
        """Show the record as it stands."""
        season, place = self._bench.keeper.season, self._bench.keeper.place
        summary = record_summary(season)
        self._frost = last_frost(season, lambda celsius: temperature(celsius, place.temperature))
        self.record.setText(record_words(summary) if summary else NO_RECORD)
        self.few.setText(few_words(summary) if summary else "")
        self.few.setVisible(bool(self.few.text()))
        self.frost.setText(frost_words(self._frost) if self._frost and summary else "")
        self.frost_caption.setText(f"Last frost ({temperature(0.0, place.temperature)})")
        for part in (self.frost, self.frost_caption, self.why):
            part.setVisible(bool(self.frost.text()))
        self.caption.setVisible(summary is not None)
        self._show_files()

    def _lay_out_figures(self) -> None:
        grid = QGridLayout()
        grid.setHorizontalSpacing(2 * GAP)
        grid.setVerticalSpacing(GAP // 2)
        grid.setColumnStretch(1, 1)
        grid.addWidget(self.caption, 0, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(self.record, 0, 1)
        grid.addWidget(self.frost_caption, 1, 0)
        grid.addLayout(row(self.frost, self.why, None), 1, 1)
        self.body.addLayout(grid)

    def _why(self) -> Why | None:
        return self._frost.why if self._frost else None

    def _show_files(self) -> None:
        while (item := self._grid.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        records = self._bench.keeper.season.facts(WeatherRecord)
        for place, fact in enumerate(records):
            self._grid.addWidget(label(_file_words(fact), "quiet", wrap=True), place, 0)
            strike = button("Strike out", self._striker(fact.id), "link", name=f"strike-weather-{place}")
            strike.setAccessibleName(f"Strike out {fact.source}")
            self._grid.addWidget(strike, place, 1, Qt.AlignmentFlag.AlignTop)
        self.files.setVisible(bool(records))
        self._grid.setVerticalSpacing(GAP // 2)

    def _striker(self, record: str) -> Callable[[], bool]:
        keeper = self._bench.keeper
        return lambda: keeper.do(lambda: strike_weather(keeper.season, record))


def _file_words(fact: WeatherRecord) -> str:
    station = f", {fact.station}" if fact.station else ""
    span = f"{fact.days[0].day.isoformat()} to {fact.days[-1].day.isoformat()}"
    return f"{fact.source}{station}: {len(fact.days):,} days, {span}"
