"""Varieties and seasons side by side, and what own picks make of the stated heat to ripe."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtWidgets import QComboBox, QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.nothing_yet import MOST
from greenroom.desk.parts import Card, WhyLink, label, row
from greenroom.desk.pick import pick_tables
from greenroom.desk.pick.empty import no_picks
from greenroom.desk.pick.pick_words import NOT_KNOWN, days_words, harvest_words
from greenroom.desk.rows_table import RowsTable
from greenroom.desk.tables.table_button import TableButton
from greenroom.desk.tabs import Part
from greenroom.season.hardening_words import day_words
from greenroom.season.picking import Harvest, harvests
from greenroom.season.picking_ahead import ripe_ahead
from greenroom.season.picking_why import learned_why, weight_words
from greenroom.season.ripe_learning import Ripening, ripening_of
from greenroom.season.why import Why
from greenroom.speech import figure, tr

if TYPE_CHECKING:
    from greenroom.desk.pick.yield_chart import YieldChart

RIPE_HEADER = (tr("Variety"), tr("Stated"), tr("Yours"), tr("In the plan"))
NONE = tr("Varieties and seasons stand here side by side once picks are written down.")
LEARNED = tr(
    "Heat from setting out to the first ripe fruit, in °C·d. It flows back to next "
    "year's plan by itself; days from setting out and from sowing stand beside it."
)


class Measure(NamedTuple):
    """What is compared: its name, the unit at the axis, how it is read and said."""

    words: str
    unit: str
    of: Callable[[Harvest], float | None]
    say: Callable[[float], str]


def _whole(value: float) -> str:
    return figure(value, ",.0f")


MEASURES: Mapping[str, Measure] = {
    "plant": Measure(tr("Weight a plant"), tr("g a plant"), lambda one: one.grams_a_plant, weight_words),
    "m2": Measure(tr("Weight a square metre"), tr("g a m²"), lambda one: one.grams_a_m2, weight_words),
    "weight": Measure(tr("Weight in all"), "g", lambda one: one.picked.whole_grams, weight_words),
    "fruit": Measure(
        tr("Fruit in all"), tr("fruit", sense="a unit"), lambda one: float(one.picked.count), _whole
    ),
    "each": Measure(
        tr("Weight of a fruit"), tr("g a fruit"), lambda one: one.picked.grams_each, weight_words
    ),
    "days": Measure(tr("Days to ripe"), tr("days from setting out"), lambda one: one.days_to_ripe, _whole),
    "sown": Measure(tr("Days from sowing"), tr("days from sowing"), lambda one: one.days_from_sowing, _whole),
    "heat": Measure(tr("Heat to ripe"), tr("°C·d from setting out"), lambda one: one.heat_to_ripe, _whole),
}


class CompareTab(Part):
    """A chart, its table behind it, and the table of what was learned of ripening."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._chart: YieldChart | None = None
        self._ripenings: list[tuple[str, Ripening]] = []
        self.measure = QComboBox()
        self.measure.setObjectName("measure")
        self.measure.setAccessibleName(tr("What is compared"))
        for key, one in MEASURES.items():
            self.measure.addItem(one.words, key)
        self.as_table = TableButton(bench, pick_tables.harvests, lambda: self._chart)
        self.unknown = label("", "quiet", wrap=True)
        self.none = no_picks(bench, NONE)
        self.card = Card(tr("Compared"))
        self.card.aside.hide()
        self.card.head.addStretch(1)
        self.card.head.addLayout(row(self.measure, self.as_table))
        self.card.body.addWidget(self.unknown)
        self.learned = RowsTable(tr("Heat to ripe, stated and own"))
        self.why = WhyLink(bench, self._why)
        self.learned_card = Card(tr("Ripening against the plan"))
        self.learned_card.aside.hide()
        self.days = label("", wrap=True)
        for part in (label(LEARNED, "quiet", wrap=True), self.learned, self.days):
            self.learned_card.body.addWidget(part)
        self.learned_card.body.addLayout(row(self.why, None))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP + 4)
        for block in (self.none, self.card, self.learned_card):
            layout.addWidget(block)
        layout.setStretchFactor(self.none, MOST)
        layout.addStretch(1)
        self.measure.currentIndexChanged.connect(lambda _: self._compare())
        self.learned.selectionModel().currentRowChanged.connect(lambda *_: self._tell())
        self.refresh()

    @property
    def chart(self) -> YieldChart | None:
        """The chart, once it was drawn."""
        return self._chart

    def refresh(self) -> None:
        """Show all harvests as they stand."""
        keeper = self._bench.keeper
        found = harvests(keeper.season, keeper.today)
        self.none.setVisible(not found)
        self.card.setVisible(bool(found))
        names = {one.variety: one.name for one in sorted(found, key=lambda one: one.name.casefold())}
        told = ((name, ripening_of(keeper.season, key, keeper.today)) for key, name in names.items())
        self._ripenings = [(name, ripening) for name, ripening in told if ripening is not None]
        self.learned_card.setVisible(bool(self._ripenings))
        before = max(0, self.learned.currentIndex().row())
        self.learned.show_rows(RIPE_HEADER, [_learned_row(*one) for one in self._ripenings])
        self.learned.fit(10)
        if self._ripenings:
            self.learned.selectRow(min(before, len(self._ripenings) - 1))
        self._tell()
        self._compare()

    def _compare(self) -> None:
        keeper = self._bench.keeper
        measure = MEASURES[self.measure.currentData()]
        found = sorted(
            harvests(keeper.season, keeper.today), key=lambda one: (one.name.casefold(), -one.year)
        )
        values = [(one, measure.of(one)) for one in found]
        known = [(one, value) for one, value in values if value is not None]
        missing = [f"{one.name} {one.year}" for one, value in values if value is None]
        self.unknown.setText(tr("Not known: {missing}.", missing=", ".join(missing)) if missing else "")
        self.unknown.setVisible(bool(missing))
        if found:
            self._draw(known, measure)

    def _draw(self, known: list[tuple[Harvest, float]], measure: Measure) -> None:
        from greenroom.desk.pick.yield_chart import Bar, YieldChart  # brings pyqtgraph in

        if self._chart is None:
            self._chart = YieldChart(self._bench.look)
            self.card.body.insertWidget(1, self._chart)
        self._chart.setAccessibleName(tr("{measure} by variety and season", measure=measure.words))
        bars = [
            Bar(one.name, one.year, value, measure.say(value), harvest_words(one)) for one, value in known
        ]
        self._chart.show_bars(bars, measure.unit)

    def _tell(self) -> None:
        chosen = self._chosen()
        self.why.setVisible(chosen is not None)
        self.days.setVisible(chosen is not None)
        if chosen is None:
            return
        keeper, (name, ripening) = self._bench.keeper, chosen
        stated = ripening.learned.guide / ripening.heat.a_day
        own = [
            _days_in(one)
            for one in harvests(keeper.season, keeper.today)
            if one.name == name and one.days_to_ripe is not None
        ]
        took = tr(
            "{name}: {stated:.0f} days stated from setting out; took {days}.",
            name=name,
            stated=stated,
            days=", ".join(own),
        )
        none = tr(
            "{name}: {stated:.0f} days stated from setting out; no first ripe pick in a bed was told.",
            name=name,
            stated=stated,
        )
        self.days.setText(f"{took if own else none} {self._planned(name)}".rstrip())

    def _planned(self, name: str) -> str:
        """When this season's is expected, as the list beside it says."""
        keeper = self._bench.keeper
        found = [one for one in ripe_ahead(keeper.season, keeper.today) if one.name == name and one.days]
        day = next((one.days.usual for one in found if one.days and not one.first_ripe), None)
        return tr("This season's is expected about {day}.", day=day_words(day)) if day is not None else ""

    def _chosen(self) -> tuple[str, Ripening] | None:
        place = self.learned.currentIndex().row()
        return self._ripenings[place] if 0 <= place < len(self._ripenings) else None

    def _why(self) -> Why | None:
        chosen = self._chosen()
        return learned_why(*chosen) if chosen is not None else None


def _days_in(one: Harvest) -> str:
    """Return the days a harvest took from setting out, and from sowing where that is known."""
    days, sown = days_words(one), one.days_from_sowing
    if sown is None:
        return tr("{days} in {year}", days=days, year=one.year)
    return tr("{days} in {year} ({sown} from sowing)", days=days, year=one.year, sown=sown)


def _learned_row(name: str, ripening: Ripening) -> tuple[str, ...]:
    learned = ripening.learned
    own = NOT_KNOWN if learned.own is None else figure(learned.own, ".0f")
    return name, figure(learned.guide, ".0f"), own, figure(learned.figure, ".0f")
