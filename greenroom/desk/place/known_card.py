"""What is known of the weather at the place, in two lines, and the ways to know more."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, label
from greenroom.desk.place.weather_words import age_words, record_words
from greenroom.season.place import latest_forecast, online_allowed
from greenroom.season.weather_summary import record_summary
from greenroom.speech import tr

NO_RECORD = tr("none yet: frost dates and odds need one")
OFF = tr("off: no weather service may be asked")
NO_FORECAST = tr("none yet")


class KnownCard(Card):
    """The record and the forecast; ``wanted`` names the part that a button leads to."""

    wanted = Signal(str)

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("What is known of its weather"))
        self._bench = bench
        self.record, self.forecast = label("", wrap=True), label("", wrap=True)
        self.to_record = button(tr("Open"), lambda: self.wanted.emit("record"), name="to-record")
        self.to_service = button(tr("Open"), lambda: self.wanted.emit("service"), name="to-service")
        self.to_record.setAccessibleName(tr("Open: weather record"))
        self.to_service.setAccessibleName(tr("Open: forecast"))
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP + 4)
        grid.setVerticalSpacing(GAP)
        grid.setColumnStretch(1, 1)
        lines = (
            (tr("Weather record"), self.record, self.to_record),
            (tr("Forecast"), self.forecast, self.to_service),
        )
        for place, (words, told, open_it) in enumerate(lines):
            for number, widget in enumerate((label(words, "quiet"), told, open_it)):
                grid.addWidget(widget, place, number)
        self.body.addLayout(grid)
        self.refresh()

    def refresh(self) -> None:
        """Show what is known as it stands."""
        keeper = self._bench.keeper
        summary, told = record_summary(keeper.season), latest_forecast(keeper.season)
        self.record.setText(record_words(summary) if summary else NO_RECORD)
        if told is not None:
            self.forecast.setText(f"{told.source}, {age_words(told.taken, keeper.now)}")
        else:
            self.forecast.setText(NO_FORECAST if online_allowed(keeper.season) else OFF)
