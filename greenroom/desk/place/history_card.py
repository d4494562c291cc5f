"""Past years of daily weather from the service, brought in as a record of the place."""

from __future__ import annotations

from datetime import date, timedelta

from PySide6.QtWidgets import QSpinBox, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.parts import Card, button, label, row, short_label, show_words
from greenroom.desk.place.service_door import FIRST_YEAR, ServiceDoor, Spot, spot_of
from greenroom.desk.place.weather_words import fetched_words
from greenroom.desk.share_bar import ShareBar
from greenroom.desk.worker import Worker
from greenroom.exchange.errors import Cancelled
from greenroom.exchange.weather_service import ServiceError
from greenroom.ledger.facts import WeatherDay
from greenroom.season.deeds_place import fetch_weather
from greenroom.season.place import online_allowed
from greenroom.speech import tr

USUAL_YEARS = 30
OFF = tr("It must be allowed first.")
NO_PLACE = tr("Set the place first; the weather is asked for by its coordinates.")
ABOUT = tr(
    "Such a record is reckoned on a grid of some 9 to 25 km, so it may miss a frost "
    "hollow or a warm wall that a thermometer of your own would tell. The last days come "
    "in about five days late."
)
NOTHING = tr("Nothing was brought in.")


class HistoryCard(Card):
    """Years from and to, progress, cancel; what came is written down as one act."""

    def __init__(self, bench: Bench, door: ServiceDoor) -> None:
        super().__init__(tr("Daily weather of past years"))
        self._bench = bench
        self._door = door
        self._came: tuple[WeatherDay, ...] = ()
        self._spot = Spot(0.0, 0.0)
        self.bar = ShareBar(tr("share of the years fetched"))
        self._worker: Worker[tuple[WeatherDay, ...]] = Worker((ServiceError, Cancelled), self)
        self._worker.progressed.connect(self.bar.show_share)
        self._worker.finished.connect(self._on_days)
        self._worker.failed.connect(lambda error: self._stopped(f"{str(error).rstrip('.')}. {NOTHING}"))
        self.first, self.last = _year(tr("From year")), _year(tr("To year"))
        self.fetch = button(tr("Fetch these years"), self.start, "primary", name="fetch-history")
        self.cancel = button(tr("Cancel"), self.stop, name="cancel-history")
        self.told = label("", wrap=True)
        self.trouble = label("", "alert", wrap=True)
        self._lay_out()
        self._set_years()
        self.refresh()

    @property
    def fetching(self) -> bool:
        """Whether years are on their way."""
        return self._worker.running

    def refresh(self) -> None:
        """Show what can be done as things stand."""
        keeper = self._bench.keeper
        allowed = online_allowed(keeper.season)
        self.fetch.setEnabled(allowed and keeper.place.known and not self.fetching)
        self.aside.setText("" if allowed and keeper.place.known else NO_PLACE if allowed else OFF)

    def start(self) -> None:
        """Ask for the years."""
        spot = spot_of(self._bench.keeper.place)
        if spot is None or not online_allowed(self._bench.keeper.season):
            self.refresh()
            return
        first, last = date(self.first.value(), 1, 1), self._last_day()
        if first > last:
            self._say(
                trouble=tr(
                    "The years {first} to {last} hold no day that is over yet.",
                    first=first.year,
                    last=self.last.value(),
                )
            )
            return
        self._spot, door = spot, self._door
        self.bar.setValue(0)
        self._say(
            tr("Asking {name} for {first} to {last} …", name=door.name, first=first.year, last=last.year)
        )
        self._worker.start(
            lambda progress, stopped: door.service().history(*spot, first, last, progress, stopped)
        )
        self._show_busy(busy=True)
        self.cancel.setFocus()

    def stop(self) -> None:
        """Call the asking off; nothing is kept."""
        if self.fetching:
            self._worker.cancel()
            self._stopped("")
            self._say(tr("Called off. {outcome}", outcome=NOTHING))

    def _on_days(self, days: tuple[WeatherDay, ...]) -> None:
        if not days:
            self._stopped(
                tr("{name} knows no day of those years. {outcome}", name=self._door.name, outcome=NOTHING)
            )
            return
        keeper, name, words = self._bench.keeper, self._door.name, self._spot.words
        self._came = days
        self.cancel.setEnabled(False)
        keeper.do_apart(
            lambda: fetch_weather(keeper.season, name, words, days, keeper.today), self._on_written
        )

    def _on_written(self, written: bool) -> None:
        came, self._came = self._came, ()
        self._stopped("" if written else NOTHING)
        if written:
            self._say(fetched_words(came, self._bench.keeper.place, self._door.name))

    def _stopped(self, trouble: str) -> None:
        self._show_busy(busy=False)
        self._say(trouble=trouble)

    def _show_busy(self, *, busy: bool) -> None:
        for part in (self.first, self.last):
            part.setEnabled(not busy)
        self.bar.setVisible(busy)
        self.cancel.setVisible(busy)
        self.cancel.setEnabled(True)
        self.fetch.setVisible(not busy)
        self.refresh()

    def _say(self, told: str = "", trouble: str = "") -> None:
        show_words(self.told, told)
        show_words(self.trouble, trouble)

    def _last_day(self) -> date:
        """Return the last day to ask for: no later than yesterday."""
        yesterday = self._bench.keeper.today - timedelta(days=1)
        return min(date(self.last.value(), 12, 31), yesterday)

    def _set_years(self) -> None:
        year = self._bench.keeper.today.year
        for field, value in ((self.first, year - USUAL_YEARS), (self.last, year)):
            field.setRange(FIRST_YEAR, year)
            field.setValue(value)
        self.first.valueChanged.connect(lambda value: self.last.setMinimum(value))

    def _lay_out(self) -> None:
        captions = [
            short_label(words, "quiet")
            for words in (
                tr("From", sense="of a span of years"),
                tr("to", sense="of a span of years"),
            )
        ]
        for caption, field in zip(captions, (self.first, self.last), strict=True):
            caption.setBuddy(field)
        self.body.addLayout(
            row(captions[0], self.first, captions[1], self.last, self.fetch, self.cancel, None)
        )
        for part in (self.bar, self.told, self.trouble, label(ABOUT, "quiet", wrap=True)):
            self.body.addWidget(part)
        hidden: tuple[QWidget, ...] = (self.bar, self.cancel, self.told, self.trouble)
        for one in hidden:
            one.hide()


def _year(name: str) -> QSpinBox:
    made = QSpinBox()
    made.setAccessibleName(name)
    made.setGroupSeparatorShown(False)
    return made
