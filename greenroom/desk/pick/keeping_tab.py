"""Drying and freezing by weight, and what to mind in the kitchen."""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import QComboBox, QDoubleSpinBox, QGridLayout, QLabel, QSpinBox, QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, WhyLink, label, row
from greenroom.desk.tabs import Part
from greenroom.season.packets import varieties
from greenroom.season.picking import harvests
from greenroom.season.picking_keeping import CAUTIONS, DRY_WATER, Kept, keep, water_in
from greenroom.season.picking_why import weight_words
from greenroom.season.why import Why
from greenroom.speech import tr

UNKNOWN = tr("No published water content of this crop is known here, so nothing is reckoned.")
NO_SEED = tr("There is no variety in the seed box yet.")
PACK_G, AWAY_PERCENT, MOST_AWAY_PERCENT = 250, 10, 80
DRIEST_PERCENT, WETTEST_PERCENT = 4, 30
USUAL_FRESH_G = 500.0

Field = QComboBox | QSpinBox | QDoubleSpinBox


class KeepingTab(Part):
    """Fresh weight in, dried weight and packs out; it starts with what was picked of a variety."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self.variety = QComboBox()
        self.variety.setObjectName("keep-variety")
        self.fresh = QDoubleSpinBox()
        self.fresh.setRange(0, 1_000_000)
        self.fresh.setDecimals(0)
        self.fresh.setSuffix(" g")
        self.away = _spin(0, MOST_AWAY_PERCENT, AWAY_PERCENT, " %")
        self.dry = _spin(DRIEST_PERCENT, WETTEST_PERCENT, round(DRY_WATER * 100), " %")
        self.pack = _spin(20, 5000, PACK_G, " g")
        self.result = label("", "strong", wrap=True)
        self.result.setObjectName("kept")
        self.why = WhyLink(bench, self._why)
        self.why.setAccessibleName(tr("why it comes to that"))
        self._lay_out()
        self.variety.currentIndexChanged.connect(lambda _: self._on_variety())
        for field in (self.fresh, self.away, self.dry, self.pack):
            field.valueChanged.connect(lambda _: self._reckon())
        self.refresh()

    def refresh(self) -> None:
        """Show the varieties there are, those picked first."""
        keeper = self._bench.keeper
        picked = dict.fromkeys(one.variety for one in harvests(keeper.season, keeper.today))
        named = varieties(keeper.season)
        others = sorted(
            (key for key in named if key not in picked), key=lambda key: named[key].name.casefold()
        )
        before = self.variety.currentData()
        with QSignalBlocker(self.variety):
            self.variety.clear()
            for key in (*picked, *others):
                self.variety.addItem(named[key].name, key)
            self.variety.setCurrentIndex(max(0, self.variety.findData(before)))
        if before is None or self.variety.currentData() != before:
            self._on_variety()
        self._reckon()

    @property
    def kept(self) -> Kept | None:
        """What the weights come to, or None where the water is not known."""
        key = self.variety.currentData()
        water = water_in(self._bench.keeper.season, key) if key is not None else None
        if water is None:
            return None
        away, dry_water = self.away.value() / 100, self.dry.value() / 100
        return keep(self.fresh.value(), water, away=away, dry_water=dry_water, pack=self.pack.value())

    def _on_variety(self) -> None:
        """Start with what was picked of the variety in its latest season."""
        keeper, key = self._bench.keeper, self.variety.currentData()
        found = [one for one in harvests(keeper.season, keeper.today) if one.variety == key]
        grams = found[0].picked.whole_grams if found else None
        self.fresh.setValue(round(grams) if grams is not None else USUAL_FRESH_G)
        self._reckon()

    def _reckon(self) -> None:
        kept = self.kept
        none = NO_SEED if self.variety.currentData() is None else UNKNOWN
        words = (
            tr("{weight} fresh: {kept}", weight=weight_words(kept.fresh), kept=kept.words)
            if kept is not None
            else none
        )
        self.result.setText(words)
        self.why.setVisible(kept is not None)

    def _why(self) -> Why | None:
        return self.kept.why if self.kept is not None else None

    def _lay_out(self) -> None:
        card = Card(tr("Dried and frozen, by weight"))
        card.aside.hide()
        grid = QGridLayout()
        grid.setHorizontalSpacing(GAP)
        grid.setVerticalSpacing(GAP)
        fields: tuple[tuple[str, Field], ...] = (
            (tr("Variety"), self.variety),
            (tr("Fresh"), self.fresh),
            (tr("Trimmed away"), self.away),
            (tr("Water left when dry"), self.dry),
            (tr("A freezer pack"), self.pack),
        )
        for place, (text, field) in enumerate(fields):
            grid.addWidget(_named(text, field), place, 0)
            grid.addWidget(field, place, 1)
        grid.setColumnStretch(1, 1)
        card.body.addLayout(grid)
        card.body.addWidget(self.result)
        card.body.addLayout(row(self.why, None))
        cautions = Card(tr("With care"))
        cautions.aside.hide()
        for one in CAUTIONS:
            cautions.body.addWidget(label(one.words, wrap=True))
            cautions.body.addWidget(label(one.source, "quiet", wrap=True))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP + 4)
        layout.addWidget(card)
        layout.addWidget(cautions)
        layout.addStretch(1)


def _spin(least: int, most: int, value: int, suffix: str) -> QSpinBox:
    made = QSpinBox()
    made.setRange(least, most)
    made.setValue(value)
    made.setSuffix(suffix)
    return made


def _named(text: str, field: Field) -> QLabel:
    made = label(text, "quiet")
    made.setBuddy(field)
    field.setAccessibleName(text)
    return made
