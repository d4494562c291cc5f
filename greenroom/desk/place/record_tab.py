"""The record's own page: what it holds, what it says of the seasons, and bringing more of it in."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QTimer, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QGridLayout, QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, label
from greenroom.desk.place.figure_card import FigureCard
from greenroom.desk.place.figures import figures
from greenroom.desk.place.record_card import RecordCard
from greenroom.desk.place.service_door import ServiceDoor
from greenroom.desk.place.weather_import import WeatherImport
from greenroom.desk.tabs import Part
from greenroom.ledger.facts import WeatherRecord
from greenroom.season.record_page import RecordPage, record_page
from greenroom.season.record_why import frosts_why, heat_why, length_why, warm_why
from greenroom.season.ribbon import season_year
from greenroom.season.temperatures import said_at
from greenroom.season.wants import rules_of
from greenroom.season.weather_summary import record_summary
from greenroom.season.why import Why
from greenroom.speech import tr

KEYS = ("last", "first", "length", "warm", "heat")
WIDE_PX = 1300
BETWEEN_MS = 25
TOO_SHORT = tr(
    "Frosts, warm nights and heat are told once the record holds most of a half year: a "
    "spring, an autumn, or a whole year for heat."
)


class RecordTab(Part):
    """The card of the record, the import, and five figures side by side as far as there is room."""

    wanted = Signal(str)

    def __init__(self, bench: Bench, door: ServiceDoor) -> None:
        super().__init__()
        self._bench = bench
        self._door = door
        self._page: RecordPage | None = None
        self.card = RecordCard(bench)
        self.importing = WeatherImport(bench)
        self.import_card = Card(tr("Bring in a file"))
        self.import_card.aside.hide()
        self.import_card.body.addWidget(self.importing)
        self.figures = {key: FigureCard(bench, self._why(key)) for key in KEYS}
        self.short = label(TOO_SHORT, "quiet", wrap=True)
        self._columns = 0
        self._unmade = True
        self._drawer = QTimer(self, interval=BETWEEN_MS)
        self._drawer.timeout.connect(self._draw_next)
        self._lay_out()
        self.card.wanted.connect(self._on_wanted)
        self.refresh()

    def refresh(self) -> None:
        """Show what the record holds as it stands; its figures follow one by one."""
        keeper = self._bench.keeper
        season = keeper.season
        summary = record_summary(season)
        self._page = record_page(season, season_year(season, keeper.today)) if summary else None
        self.card.show_record(summary, self._page, self._credit())
        self.import_card.setVisible(summary is None or not self.import_card.isHidden())
        self._unmade = True
        if self._page is None:
            self._make_figures()
        else:
            self._drawer.start()

    def closing(self) -> None:
        """Stop what is being read and drawn."""
        self.importing.stop()
        self._drawer.stop()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._arrange()

    def _make_figures(self) -> None:
        """Put the figures into words; what is not known is left out."""
        self._unmade = False
        keeper = self._bench.keeper
        made = figures(self._page, keeper.place, rules_of(keeper.season)) if self._page else {}
        for key, card in self.figures.items():
            card.setVisible(key in made)
            if key in made:
                card.show_figure(made[key])
        self.short.setVisible(self._page is not None and not made)
        self._arrange(force=True)

    def _draw_next(self) -> None:
        """Make the figures, or draw one chart: what the grower does meanwhile waits for one step at most."""
        if self._unmade:
            self._make_figures()
            return
        waiting = [card for card in self.figures.values() if card.stale and card.isVisible()]
        if waiting:
            waiting[0].draw()
        else:
            self._drawer.stop()

    def _on_wanted(self, part: str) -> None:
        if part != "import":
            self.wanted.emit(part)
            return
        self.import_card.setVisible(self.import_card.isHidden())
        if not self.import_card.isHidden():
            self.importing.file.path.setFocus()

    def _credit(self) -> str:
        """Return the line that the service asks for, if any of the record is its own."""
        sources = {fact.source for fact in self._bench.keeper.season.facts(WeatherRecord)}
        return self._door.credit if self._door.name in sources else ""

    def _why(self, key: str) -> Callable[[], Why | None]:
        return lambda: self._why_of(key)

    def _why_of(self, key: str) -> Why | None:
        keeper, page = self._bench.keeper, self._page
        if page is None:
            return None
        say_c = said_at(keeper.place)
        if key == "length":
            return length_why(page, say_c)
        if key == "warm":
            return warm_why(page, rules_of(keeper.season), say_c)
        return heat_why(page, say_c) if key == "heat" else frosts_why(page, say_c)

    def _arrange(self, *, force: bool = False) -> None:
        """Lay the figures in as many columns as have room; the heat, which is last, takes what is left."""
        columns = 3 if self.width() >= WIDE_PX else 2
        if columns == self._columns and not force:
            return
        self._columns = columns
        for card in self.figures.values():
            self._grid.removeWidget(card)
        shown = [card for card in self.figures.values() if not card.isHidden()]
        for place, card in enumerate(shown):
            line, column = divmod(place, columns)
            last = place == len(shown) - 1
            self._grid.addWidget(card, line, column, 1, columns - column if last else 1)
        for column in range(3):
            self._grid.setColumnStretch(column, 1 if column < columns else 0)

    def _lay_out(self) -> None:
        self.import_card.hide()
        self._grid = QGridLayout()
        self._grid.setSpacing(GAP + 4)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP + 4)
        self.short.hide()
        for part in (self.card, self.import_card, self.short):
            layout.addWidget(part)
        for card in self.figures.values():
            card.waiting.connect(self._drawer.start)
            card.setParent(self)  # one that is shown without a parent would be a window of its own
            card.hide()
        layout.addLayout(self._grid)
        layout.addStretch(1)
