"""Beside the table: a new packet's fields, or all there is to know of the chosen one, behind tabs."""

from __future__ import annotations

from PySide6.QtWidgets import QFrame, QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.parts import column, label, show_words
from greenroom.desk.seed.crop_words import kind_words, species_words
from greenroom.desk.seed.expect_part import ExpectPart
from greenroom.desk.seed.expectations import Expectations
from greenroom.desk.seed.guide_part import GuidePart
from greenroom.desk.seed.home_tests_part import HomeTestsPart
from greenroom.desk.seed.packet_card import PacketCard
from greenroom.desk.seed.story_part import StoryPart
from greenroom.desk.tabs import Tab, Tabs
from greenroom.season.packets import packet_view
from greenroom.speech import tr

NEW = tr("A new packet")
FIELDS = "packet"


class PacketPanel(QFrame):
    """One tab at a time is kept up to date; the tab the grower chose stays from packet to packet."""

    def __init__(self, bench: Bench, expectations: Expectations) -> None:
        super().__init__()
        self._bench = bench
        self._chosen = "expect"
        self._key: str | None = None
        self.setProperty("role", "card")
        self.card = PacketCard(bench)
        self.title = label(NEW, "title", wrap=True)
        self.kind = label("", "quiet", wrap=True)
        self.tabs = Tabs(
            bench.look,
            tr("Parts of the packet"),
            {
                "expect": Tab(tr("Expect", sense="tab of a packet"), lambda: ExpectPart(bench, expectations)),
                "tests": Tab(tr("Tests", sense="tab of a packet"), lambda: HomeTestsPart(bench)),
                FIELDS: Tab(tr("Packet", sense="tab of a packet"), lambda: self.card),
                "guide": Tab(tr("Guide", sense="tab of a packet"), lambda: GuidePart(bench)),
                "story": Tab(tr("Story", sense="tab of a packet"), lambda: StoryPart(bench)),
            },
        )
        self.tabs.open_tab(FIELDS)
        self._lay_out()
        self._follow()
        self.card.shows.connect(self._follow)
        self.tabs.bar.currentChanged.connect(self._on_tab)

    def open_tab(self, key: str) -> None:
        """Bring a part of the chosen packet to the front."""
        self.tabs.open_tab(key)

    def open_fields(self) -> None:
        """Go to the packet's own fields."""
        self.open_tab(FIELDS)
        self.card.form.focus_first()

    def refresh(self) -> None:
        """Show everything as it stands."""
        self.card.refresh()
        self._show_head()
        self._show_part()

    def commit(self) -> None:
        """Write what is being edited, on any tab."""
        self.card.commit()
        for part in self.tabs.made.values():
            if isinstance(part, ExpectPart | HomeTestsPart):
                part.commit()

    def closing(self) -> None:
        """Stop what still runs."""
        self.tabs.closing()

    def _follow(self) -> None:
        """Show the packet that the card shows, or its empty form without tabs."""
        self.tabs.bar.setVisible(self.card.key is not None)
        if self.card.key == self._key:
            self._show_head()
            return
        self._key, chosen = self.card.key, self._chosen
        self.tabs.open_tab(chosen if self._key else FIELDS)
        self._chosen = chosen
        self._show_head()
        self._show_part()

    def _on_tab(self, _place: int) -> None:
        if self._key is not None:
            self._chosen = self.tabs.current
        self._show_part()

    def _show_part(self) -> None:
        part = self.tabs.part(self.tabs.current)
        if isinstance(part, ExpectPart | HomeTestsPart | GuidePart | StoryPart):
            if part.key != self._key:
                part.show_packet(self._key)
            part.refresh()

    def _show_head(self) -> None:
        season = self._bench.keeper.season
        view = packet_view(season, self._key) if self._key else None
        self.title.setText(view.name if view else NEW)
        words = (kind_words(season.guide, view.crop), species_words(season.guide, view.crop)) if view else ()
        show_words(self.kind, " · ".join(one for one in words if one))

    def _lay_out(self) -> None:
        head = column(self.title, self.kind, gap=2)
        head.setContentsMargins(PAGE_MARGIN, PAGE_MARGIN - 4, PAGE_MARGIN, 0)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(1, 0, 1, 1)
        layout.setSpacing(GAP // 2)
        layout.addLayout(head)
        bar = column(self.tabs.bar)
        bar.setContentsMargins(PAGE_MARGIN - 10, 0, 0, 0)
        layout.addLayout(bar)
        layout.addWidget(self.tabs, 1)
