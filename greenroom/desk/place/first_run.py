"""The first run: asks for nothing but a place, and offers the demo."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QLocale
from PySide6.QtWidgets import QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.flow import Flow
from greenroom.desk.language_field import LanguageField
from greenroom.desk.look import GAP, PAGE_MARGIN
from greenroom.desk.page import Page
from greenroom.desk.parts import Card, button, label, row, scrolled
from greenroom.desk.place.coordinates import CoordinateError
from greenroom.desk.place.place_fields import PlaceEntry, PlaceFields
from greenroom.ledger.facts import PlaceSet
from greenroom.season.deeds_shelf import set_place, set_units
from greenroom.season.proposal import Proposal
from greenroom.season.state import Touched
from greenroom.speech import tr

WELCOME = tr(
    "It carries every seedling from packet to ripe pod: what you sowed, what came up, "
    "how long each tray goes out today, and why."
)
ASK = tr(
    "To begin it needs to know where you grow, for the sun and the clock. The next town "
    "is near enough, and everything can be put right later. Nothing leaves this computer."
)
DEMO_WORDS = tr(
    "The demo opens in a window of its own, with an invented season. It touches none of your records."
)
ARCHIVE = tr("Bring in an archive from another computer")
CARD_PX = 640


class FirstRun(Page):
    """One card in the middle: the place, Begin, and the demo."""

    key = "first"

    def __init__(self, bench: Bench, open_demo: Callable[[], None]) -> None:
        super().__init__(bench)
        self.fields = PlaceFields(lambda: bench.keeper.now)
        self.begin = button(tr("Begin"), self.begin_here, "primary", name="begin")
        self.demo = button(tr("Look at the demo first"), open_demo, name="open-demo")
        self.walk = button(tr("Walk through the demo"), lambda: bench.walk(), name="open-walk")
        self.archive = button(ARCHIVE, lambda: bench.send("place", "archive"), "link", name="open-archive")
        self.language = LanguageField()
        card = Card()
        card.aside.hide()
        card.setFixedWidth(CARD_PX)
        card.body.setContentsMargins(2 * PAGE_MARGIN, PAGE_MARGIN, 2 * PAGE_MARGIN, PAGE_MARGIN + GAP)
        card.body.setSpacing(GAP + 4)
        card.body.addWidget(label(tr("Welcome to greenroom"), "page-title"))
        card.body.addWidget(label(WELCOME, wrap=True))
        card.body.addWidget(label(ASK, "quiet", wrap=True))
        card.body.addWidget(self.fields)
        card.body.addWidget(Flow(self.begin, self.demo, self.walk))
        card.body.addWidget(label(DEMO_WORDS, "quiet", wrap=True))
        card.body.addLayout(row(self.archive, None))
        card.body.addWidget(self.language)
        ground = QWidget()
        ground.setObjectName("ground")
        middle = QVBoxLayout(ground)
        middle.addStretch(1)
        middle.addLayout(row(None, card, None))
        middle.addStretch(2)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(scrolled(ground))
        for field in (self.fields.name, self.fields.latitude, self.fields.longitude):
            field.returnPressed.connect(self._on_return)

    def entered(self) -> None:
        self.fields.town.setFocus()

    def take(self, touched: Touched) -> None:
        if "place_set" in touched.kinds:
            self.fields.show_place(self.bench.keeper.season.latest(PlaceSet))

    def leave(self) -> None:
        if self.fields.filled and self.fields.changed:
            self._write()

    def begin_here(self) -> None:
        """Write the place down and go to the seed box."""
        if self._write() or (self.bench.keeper.place.known and not self.fields.changed):
            self.bench.show_page("seed")

    def _on_return(self) -> None:
        """Enter goes on to the next empty field, and begins once all are filled."""
        empty = [
            field
            for field in (self.fields.name, self.fields.latitude, self.fields.longitude)
            if not field.text().strip()
        ]
        if empty:
            empty[0].setFocus()
        else:
            self.begin_here()

    def _write(self) -> bool:
        try:
            entry = self.fields.entry()
        except CoordinateError as error:
            self.bench.say(str(error))
            return False
        return self.bench.keeper.do(lambda: self._proposal(entry))

    def _proposal(self, entry: PlaceEntry) -> Proposal:
        """Return the place as an act, with the units that are usual where this machine is set up for."""
        keeper = self.bench.keeper
        before = keeper.season.latest(PlaceSet)
        place = set_place(
            entry.name, entry.latitude, entry.longitude, entry.zone, keeper.today, before=before
        )
        us = QLocale.system().measurementSystem() == QLocale.MeasurementSystem.ImperialUSSystem
        if place.empty or not us:
            return place
        return Proposal(place.name, (*place.record, *set_units("f", "floz", keeper.today).record))
