"""The best places still free, most sun first."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QListWidget, QListWidgetItem

from greenroom.desk.bench import Bench
from greenroom.desk.parts import Card, WhyLink, label
from greenroom.desk.set_out.plan_words import HALF_WORDS
from greenroom.season.hardening_words import day_words
from greenroom.season.plot import Plot
from greenroom.season.plot_sun import FULL_SUN_H, SUN_WORDS_FROM, PlaceSun, sun_word
from greenroom.season.spots import SpotKey
from greenroom.season.why import Why
from greenroom.speech import tr

RAYS_FROM = "Kay, T. L. and Kajiya, J. T. 1986. Ray tracing complex scenes. SIGGRAPH 20(4):269-278."
SUN_FROM = (
    "Reda, I. and Andreas, A. 2004. Solar position algorithm for solar radiation applications. Solar Energy "
    "76:577-589."
)
RULE = tr(
    "The sun is followed through the day in steps of ten minutes. A place counts as lit "
    "while no building, tree or fence stands between it and the sun; each counts as a "
    "box of its height. Sky without cloud, level ground; light through leaves counts as "
    "shade. Of places with as much sun, the first in the bed comes first."
)


class PlacesCard(Card):
    """A list of positions; choosing one makes it current on the plan."""

    chosen = Signal(object)

    def __init__(self, bench: Bench) -> None:
        super().__init__(tr("Best places free"))
        self.setObjectName("best-places")
        self._why: Why | None = None
        self.list = QListWidget()
        self.list.setObjectName("places")
        self.list.setAccessibleName(tr("best places that are free"))
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setMinimumHeight(60)
        self.why = WhyLink(bench, lambda: self._why)
        self.why.setAccessibleName(tr("why these places"))
        self.head.addWidget(self.why)
        self.none = label("", "quiet", wrap=True)
        self.body.addWidget(self.none)
        self.body.addWidget(self.list, 1)
        self.list.itemActivated.connect(self._on_item)
        self.list.itemClicked.connect(self._on_item)

    def show_places(self, plot: Plot, places: list[PlaceSun], half: str, day: date | None) -> None:
        """Show positions in their order."""
        self.list.clear()
        for place, one in enumerate(places, start=1):
            bed = plot.bed(one.spot.holder)
            name = bed.name if bed is not None else ""
            hours = one.hours.of(half)
            word = f" · {sun_word(hours)}" if half == "day" and hours < FULL_SUN_H else ""
            item = QListWidgetItem(
                tr(
                    "{rank}  {bed} {spot} · {hours:.1f} h",
                    rank=place,
                    bed=name,
                    spot=one.spot.label,
                    hours=hours,
                )
                + word
            )
            item.setData(Qt.ItemDataRole.UserRole, one.spot)
            self.list.addItem(item)
        self.list.setVisible(bool(places))
        self.none.setVisible(not places)
        self.none.setText(tr("No place is free; lay another bed.") if plot.beds else tr("Lay a bed first."))
        self._why = places_why(places, half, day) if places and day is not None else None
        self.why.setVisible(self._why is not None)

    def _on_item(self, item: QListWidgetItem) -> None:
        spot: SpotKey = SpotKey(*item.data(Qt.ItemDataRole.UserRole))
        self.chosen.emit(spot)


def places_why(places: list[PlaceSun], half: str, day: date) -> Why:
    """Return why the first place is the best."""
    best = places[0]
    inputs = (
        (tr("day"), day_words(day)),
        (tr("ranked by"), HALF_WORDS[half]),
        (
            tr("morning and afternoon"),
            tr(
                "{morning:.1f} h and {afternoon:.1f} h",
                morning=best.hours.morning,
                afternoon=best.hours.afternoon,
            ),
        ),
    )
    figure = tr("{hours:.1f} h of direct sun at {spot}", hours=best.hours.of(half), spot=best.spot.label)
    return Why(figure, RULE, inputs, (RAYS_FROM, SUN_FROM, SUN_WORDS_FROM))
