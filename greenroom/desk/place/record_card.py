"""The weather record at a glance: how many years, what is missing, and where it came from."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, label, row, show_words
from greenroom.desk.place.weather_words import NO_RECORD, few_words, file_words, gap_rows, record_words
from greenroom.desk.rows_table import RowsTable
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.ledger.facts import WeatherRecord
from greenroom.season.deeds_shelf import strike_weather
from greenroom.season.record_page import RecordPage
from greenroom.season.weather_summary import RecordSummary
from greenroom.speech import tr

GAPS_SHOWN = 6


class RecordCard(Card):
    """What the record holds, its gaps, its files; ``wanted`` names the part that a button leads to."""

    wanted = Signal(str)

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Weather record"))
        self._bench = bench
        self.aside.hide()
        self.holds = label("", wrap=True)
        self.few = label("", "alert", wrap=True)
        self.gaps = RowsTable(tr("Gaps of the record"))
        self.list_gaps = button(tr("List the gaps"), self.turn_gaps, "link", name="list-gaps")
        self.files = QWidget()
        self._grid = QGridLayout(self.files)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setColumnStretch(0, 1)
        self._grid.setVerticalSpacing(0)
        self.more = button(tr("Bring in a file"), lambda: self.wanted.emit("import"), name="more-weather")
        self.ask = button(
            tr("Ask a weather service"), lambda: self.wanted.emit("service"), name="ask-weather"
        )
        self.frosts = button(tr("Give frost dates instead"), lambda: self.wanted.emit("where"), name="frosts")
        self.credit = label("", "quiet", wrap=True)
        self._lay_out()

    def show_record(self, summary: RecordSummary | None, page: RecordPage | None, credit: str) -> None:
        """Show the record as it stands; ``credit`` is the line its sources ask for."""
        self.holds.setText(record_words(summary) if summary else NO_RECORD)
        show_words(self.few, few_words(summary) if summary else "")
        gaps = page.gaps if page else ()
        self.list_gaps.setVisible(bool(gaps))
        self.gaps.show_rows((tr("From"), tr("To"), tr("Days")), gap_rows(gaps))
        self.gaps.fit(GAPS_SHOWN)
        if not gaps:
            self.gaps.hide()
        self.more.setVisible(summary is not None)
        for one in (self.ask, self.frosts):
            one.setVisible(summary is None)
        show_words(self.credit, credit)
        self._show_files()

    def turn_gaps(self) -> None:
        """List the gaps, or put the list away."""
        self.gaps.setVisible(self.gaps.isHidden())
        self.list_gaps.setText(tr("List the gaps") if self.gaps.isHidden() else tr("Put the list away"))

    def _show_files(self) -> None:
        while (item := self._grid.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        records = self._bench.keeper.season.facts(WeatherRecord)
        for place, fact in enumerate(records):
            self._grid.addWidget(label(file_words(fact), "quiet", wrap=True), place, 0)
            strike = button(tr("Strike out"), self._striker(fact.id), "link", name=f"strike-weather-{place}")
            strike.setAccessibleName(tr("Strike out {source}", source=fact.source))
            self._grid.addWidget(strike, place, 1, Qt.AlignmentFlag.AlignTop)
        self.files.setVisible(bool(records))

    def _striker(self, record: str) -> Callable[[], bool]:
        keeper = self._bench.keeper
        return lambda: keeper.do(lambda: strike_weather(keeper.season, record))

    def _lay_out(self) -> None:
        self.head.addStretch(1)
        self.head.addWidget(TableButton(self._bench, sources.record))
        self.head.addWidget(self.more)
        self.gaps.hide()
        holds = row(gap=GAP)
        holds.addWidget(self.holds, 1)
        holds.addWidget(self.list_gaps, 0, Qt.AlignmentFlag.AlignTop)
        self.body.addLayout(holds)
        for part in (self.few, self.gaps, self.files, self.credit):
            self.body.addWidget(part)
        self.body.addLayout(row(self.ask, self.frosts, None))
