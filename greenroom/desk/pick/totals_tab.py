"""What a season came to: by variety, and by plant where single plants were told."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QComboBox, QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.nothing_yet import MOST
from greenroom.desk.parts import Card, WhyLink, label, row
from greenroom.desk.pick.empty import no_picks
from greenroom.desk.pick.pick_words import NOT_KNOWN, grams_or_dot, harvest_words, short_day
from greenroom.desk.rows_table import RowsTable
from greenroom.desk.tables import sources
from greenroom.desk.tables.table_button import TableButton
from greenroom.desk.tabs import Part
from greenroom.season.packets import UNNAMED
from greenroom.season.packets import varieties as varieties_of
from greenroom.season.picking import Harvest, PlantPicks, by_plant, harvests, seasons_picked
from greenroom.season.picking_why import harvest_why, weight_words
from greenroom.season.why import Why
from greenroom.speech import figure, tr, trn

HEADER = (tr("Variety"), tr("Fruit"), tr("Weight"), tr("A plant"), tr("A m²"))
PLANT_HEADER = (tr("Plant"), tr("Variety"), tr("Fruit"), tr("Weight"), tr("First", sense="pick"))
NONE = tr("Write picks down on the left; what they come to is told here.")
MOST_PLANT_ROWS = 8


class TotalsTab(Part):
    """A season is chosen above; the row chosen is told below, with its why."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._shown: list[Harvest] = []
        self.season = QComboBox()
        self.season.setObjectName("totals-season")
        words = label(tr("Season"), "quiet")
        words.setBuddy(self.season)
        self.season.setAccessibleName(tr("Season"))
        self.whole = label("", "strong", wrap=True)
        self.table = RowsTable(tr("Harvest by variety"))
        self.told = label("", wrap=True)
        self.why = WhyLink(bench, self._why)
        self.none = no_picks(bench, NONE)
        self.plants = RowsTable(tr("Harvest by plant"))
        self.plant_card = Card(tr("By plant"))
        self.plant_card.aside.setText(tr("where a single plant was told"))
        self.plant_card.body.addWidget(self.plants)
        self.card = Card(tr("By variety"))
        self.card.head.addLayout(row(words, self.season))
        self.card.head.addWidget(TableButton(bench, sources.picks, text=tr("All picks")))
        for part in (self.whole, self.table, self.told):
            self.card.body.addWidget(part)
        self.card.body.addLayout(row(self.why, None))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP + 4)
        for block in (self.none, self.card, self.plant_card):
            layout.addWidget(block)
        layout.setStretchFactor(self.none, MOST)
        layout.addStretch(1)
        self.season.currentIndexChanged.connect(lambda _: self._show())
        self.table.selectionModel().currentRowChanged.connect(lambda *_: self._tell())
        self.refresh()

    def refresh(self) -> None:
        """Show the seasons there are, the latest if none was chosen."""
        keeper = self._bench.keeper
        years = list(reversed(seasons_picked(keeper.season, keeper.today)))
        before = self.season.currentData()
        newest = years and years[0] not in [self.season.itemData(at) for at in range(self.season.count())]
        with QSignalBlocker(self.season):
            self.season.clear()
            for year in years:
                self.season.addItem(str(year), year)
            self.season.setCurrentIndex(0 if newest else max(0, self.season.findData(before)))
        self._show()

    @property
    def harvest(self) -> Harvest | None:
        """The variety chosen in the table."""
        place = self.table.currentIndex().row()
        return self._shown[place] if 0 <= place < len(self._shown) else None

    def _show(self) -> None:
        keeper, year = self._bench.keeper, self.season.currentData()
        found = harvests(keeper.season, keeper.today)
        self._shown = [one for one in found if one.year == year]
        there = bool(self._shown)
        self.none.setVisible(not there)
        self.card.setVisible(there)
        before = max(0, self.table.currentIndex().row())
        self.table.show_rows(HEADER, [_row(one) for one in self._shown])
        self.table.fit(12)
        self.whole.setText(_whole_words(self._shown))
        self._show_plants(year)
        if there:
            self.table.selectRow(min(before, len(self._shown) - 1))
        self._tell()

    def _show_plants(self, year: int | None) -> None:
        keeper = self._bench.keeper
        found = by_plant(keeper.season, year, keeper.today) if year is not None else []
        singles = [one for one in found if one.spot is not None]
        self.plant_card.setVisible(bool(singles))
        self.plants.show_rows(PLANT_HEADER, [self._plant_row(one) for one in singles])
        self.plants.fit(MOST_PLANT_ROWS)

    def _plant_row(self, one: PlantPicks) -> tuple[str, ...]:
        season = self._bench.keeper.season
        variety, bed = varieties_of(season).get(one.variety), season.holder(one.holder).name
        plant = tr("{spot} of {holder}", spot=one.spot.label, holder=bed) if one.spot is not None else bed
        picked, name = one.picked, variety.name if variety else UNNAMED
        weight = grams_or_dot(picked.whole_grams)
        return plant, name, figure(picked.count, ","), weight, short_day(picked.first)

    def _tell(self) -> None:
        one = self.harvest
        told = harvest_words(one) if one is not None else ""
        self.told.setText(f"{tr('{name}: {what}', name=one.name, what=told)}." if one is not None else "")
        self.why.setVisible(one is not None)
        if one is not None:
            self.why.setAccessibleName(tr("why the figures of {name}", name=one.name))

    def _why(self) -> Why | None:
        return harvest_why(self.harvest) if self.harvest is not None else None


def _row(one: Harvest) -> tuple[str, ...]:
    return (
        one.name,
        figure(one.picked.count, ","),
        _weight(one),
        grams_or_dot(one.grams_a_plant),
        grams_or_dot(one.grams_a_m2),
    )


def _weight(one: Harvest) -> str:
    grams = one.picked.whole_grams
    if grams is None:
        return NOT_KNOWN
    return f"{'~ ' if one.picked.estimated else ''}{weight_words(grams)}"


def _whole_words(found: list[Harvest]) -> str:
    """What all the varieties come to; weight only of those that were weighed."""
    if not found:
        return ""
    fruit = sum(one.picked.count for one in found)
    known = [one.picked.whole_grams for one in found if one.picked.whole_grams is not None]
    weight = f", {weight_words(sum(known))}" if known else ""
    short = len(found) - len(known)
    picked = trn(
        "{n:,} fruit of {varieties}", "{n:,} fruit of {varieties}", fruit, varieties=_kinds(len(found))
    )
    unweighed = tr(" ({varieties} never weighed)", varieties=_kinds(short)) if short else ""
    return f"{picked}{weight}{unweighed}"


def _kinds(number: int) -> str:
    return trn("{n} variety", "{n} varieties", number)
