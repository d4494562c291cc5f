"""The place: where the grower is, what its weather record says, the weather service, and care."""

from __future__ import annotations

from datetime import datetime

from PySide6.QtWidgets import QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.help.panel import ABOUT, HelpPanel
from greenroom.desk.keeping.copies_tab import CopiesTab
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.page import Page
from greenroom.desk.parts import button, column, label, row
from greenroom.desk.place.archive_tab import ArchiveTab
from greenroom.desk.place.cautions import Cautions
from greenroom.desk.place.forecaster import Forecaster
from greenroom.desk.place.record_tab import RecordTab
from greenroom.desk.place.service_door import ServiceDoor
from greenroom.desk.place.service_tab import ServiceTab
from greenroom.desk.place.sharing_tab import SharingTab
from greenroom.desk.place.where_tab import WhereTab
from greenroom.desk.tables.files_tab import FilesTab
from greenroom.desk.tabs import Part, Tab, Tabs
from greenroom.exchange.weather_service import WeatherService
from greenroom.season.place import online_allowed
from greenroom.season.state import Touched
from greenroom.speech import tr

# Which kinds of fact each part shows.
KINDS = {
    "where": frozenset(
        ("place_set", "units_set", "weather_record", "forecast", "frost_dates_given", "online_choice")
    ),
    "record": frozenset(("place_set", "units_set", "weather_record", "plan_rules")),
    "service": frozenset(("place_set", "units_set", "weather_record", "forecast", "online_choice")),
}


AGING = ("where", "service", "sharing")
"""The parts that tell what grows old by itself: a forecast, or who is on the ledger."""


def _keeping(bench: Bench) -> dict[str, Tab]:
    """Return the part on keeping the ledger safe: copies of a file, or who is on a server."""
    live = bench.keeper.live
    if live is not None:
        return {"sharing": Tab(tr("Sharing"), lambda: SharingTab(bench, live))}
    return {"copies": Tab(tr("Copies"), lambda: CopiesTab(bench))}


class CareTab(Part):
    """The cautions."""

    def __init__(self) -> None:
        super().__init__()
        self.cautions = Cautions()
        layout = column(self.cautions, None)
        layout.setContentsMargins(0, 0, 0, 0)
        self.setLayout(layout)


class PlacePage(Page):
    """Four parts behind tabs. ``service`` is asked for weather; by default the one the program knows."""

    key = "place"

    def __init__(self, bench: Bench, service: WeatherService | None = None) -> None:
        super().__init__(bench)
        self._stale: set[str] = {"sharing"}
        self._minute: datetime | None = None
        self._door = ServiceDoor(service)
        self.forecaster = Forecaster(bench.keeper, self._door, self)
        self.where = WhereTab(bench)
        self.where.wanted.connect(self.open_part)
        tabs = {
            "where": Tab(tr("Where"), lambda: self.where),
            "record": Tab(tr("Weather record", sense="tab of the place"), self._make_record),
            "service": Tab(
                tr("Weather service", sense="tab of the place"),
                lambda: ServiceTab(bench, self._door, self.forecaster),
            ),
            "files": Tab(tr("Files"), lambda: FilesTab(bench)),
            "archive": Tab(tr("Archive"), lambda: ArchiveTab(bench)),
            **_keeping(bench),
            "care": Tab(tr("With care"), CareTab),
        }
        self.tabs = Tabs(bench.look, tr("Parts of the place"), tabs)
        self.tabs.shown.connect(lambda _key: self._refresh())
        self._lay_out()
        self.tabs.open_tab("where")

    def open_part(self, key: str) -> None:
        """Bring one part to the front, with the keyboard in it."""
        self.tabs.open_tab(key)
        self.tabs.bar.setFocus()

    def watch_weather(self) -> None:
        """Keep the forecast fresh from now on, as far as the grower lets it."""
        self.forecaster.watch()

    def take(self, touched: Touched) -> None:
        self._stale.update(key for key, kinds in KINDS.items() if touched.kinds & kinds)
        if "online_choice" in touched.kinds and not online_allowed(self.bench.keeper.season):
            self._call_off()
        if self.isVisible():
            self._refresh()

    def tick(self, now: datetime) -> None:
        minute = now.replace(second=0, microsecond=0)
        if minute != self._minute:
            self._minute = minute
            self._stale.update(AGING)
            if self.isVisible():
                self._refresh()

    def entered(self) -> None:
        part = self.bench.errand(self.key)
        if isinstance(part, str):
            self.open_part(part)
        self._refresh()

    def leave(self) -> None:
        self.where.where.commit()

    def closing(self) -> None:
        self.forecaster.stop()
        self.tabs.closing()

    def _refresh(self) -> None:
        """Show the part in front as it stands, if anything in it changed."""
        key = self.tabs.current
        if key in self._stale:
            self._stale.discard(key)
            self.tabs.part(key).refresh()

    def _call_off(self) -> None:
        """Stop what is being asked: the grower's word on it was taken back."""
        self.forecaster.cancel()
        service = self.tabs.made.get("service")
        if service is not None:
            service.closing()

    def _make_record(self) -> RecordTab:
        made = RecordTab(self.bench, self._door)
        made.wanted.connect(self.open_part)
        return made

    def _open_about(self) -> None:
        HelpPanel(self.bench, self).open_over(self.window(), ABOUT)

    def _lay_out(self) -> None:
        walk = button(tr("Walk through the demo"), lambda: self.bench.walk(), "link", name="place-walk")
        about = button(tr("About"), self._open_about, "link", name="place-about")
        head = row(label(tr("The place"), "page-title"), self.tabs.bar, None, walk, about, gap=2 * GAP)
        head.setContentsMargins(PAGE_MARGIN, 0, PAGE_MARGIN, 0)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, PAGE_MARGIN - 8, 0, 0)
        page.setSpacing(GAP // 2)
        page.addLayout(head)
        page.addWidget(self.tabs, 1)
