"""What to grow again: the marks, the weights the grower gives them, and the way into the plan."""

from __future__ import annotations

from PySide6.QtWidgets import QSpinBox, QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.nothing_yet import MOST
from greenroom.desk.parts import Card, WhyLink, button, label, row
from greenroom.desk.pick.empty import no_picks
from greenroom.desk.rows_table import RowsTable
from greenroom.desk.tabs import Part
from greenroom.season.deeds_plan import MOST_PLANTS, want
from greenroom.season.picking_again import MARK_WORDS, WEIGHTS, Again, again, next_season, ranked, sum_words
from greenroom.season.why import Why
from greenroom.season.within import in_row
from greenroom.speech import figure, tr

NONE = tr("What to grow again is weighed here once picks are written down.")
ABOUT = tr(
    "Marks of 0 to 10, each a share of the best; set how much each counts. The sum "
    "decides nothing, and taste is not in it: you choose what goes into the plan."
)
HEADINGS = {
    "yield": tr("Yield"),
    "earliness": tr("Early"),
    "germination": tr("Comes up"),
    "losses": tr("Lives"),
}
WEIGHT_NAMES = {
    "yield": tr("Yield"),
    "earliness": tr("Earliness"),
    "germination": tr("Germination"),
    "losses": tr("Losses"),
}
NARROWEST_PX = 48
MOST_WEIGHT = 9
USUAL_PLANTS = 4


class AgainTab(Part):
    """The varieties by their sums; the one chosen is told below, and can be wanted again."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._rows: list[Again] = []
        self._year = 0
        self.weights = {name: self._weight(name, usual) for name, usual in WEIGHTS.items()}
        self.table = RowsTable(tr("Varieties by what speaks for them"))
        self.table.horizontalHeader().setMinimumSectionSize(NARROWEST_PX)
        self.told = label("", wrap=True)
        self.why = WhyLink(bench, self._why)
        self.plants = QSpinBox()
        self.plants.setRange(0, MOST_PLANTS)
        self.plants.setObjectName("again-plants")
        self.want = button(tr("Into the plan"), self._want, "primary", name="want-again")
        self.none = no_picks(bench, NONE)
        self.card = Card(tr("Grow again"))
        self._lay_out()
        self.table.selectionModel().currentRowChanged.connect(lambda *_: self._tell())
        self.refresh()

    def refresh(self) -> None:
        """Weigh everything anew."""
        keeper = self._bench.keeper
        self._year = next_season(keeper.season, keeper.today)
        chosen = self.chosen.variety if self.chosen else None
        found = again(keeper.season, self._year, keeper.today)
        self._rows = ranked(found, self._told_weights())
        self.none.setVisible(not found)
        self.card.setVisible(bool(found))
        self.card.aside.setText(tr("for {year}", year=self._year))
        header = (tr("Variety"), tr("Sum"), *(HEADINGS[name] for name in WEIGHTS))
        weights = self._told_weights()
        self.table.show_rows(header, [_row(one, weights) for one in self._rows])
        self.table.fit(12)
        places = [place for place, one in enumerate(self._rows) if one.variety == chosen]
        if self._rows:
            self.table.selectRow(places[0] if places else 0)
        self._tell()

    @property
    def chosen(self) -> Again | None:
        """The variety chosen."""
        place = self.table.currentIndex().row()
        return self._rows[place] if 0 <= place < len(self._rows) else None

    def _told_weights(self) -> dict[str, int]:
        return {name: field.value() for name, field in self.weights.items()}

    def _tell(self) -> None:
        one = self.chosen
        if one is None:
            return
        marks = in_row(mark.words for mark in one.marks.values())
        name = f"{one.name}, {sum_words(one.sum(self._told_weights()))}"
        self.told.setText(f"{tr('{name}: {what}', name=name, what=marks)}.")
        self.plants.setValue(one.wanted or one.grown or USUAL_PLANTS)
        self.plants.setAccessibleName(tr("plants of {name} for {year}", name=one.name, year=self._year))
        self.want.setText(
            tr("Change the {year} plan", year=self._year)
            if one.wanted
            else tr("Into the {year} plan", year=self._year)
        )
        self.why.setAccessibleName(tr("why {name} has this sum", name=one.name))

    def _want(self) -> None:
        self.plants.interpretText()
        one, keeper = self.chosen, self._bench.keeper
        if one is not None:
            plants, year = self.plants.value(), self._year
            keeper.do(lambda: want(keeper.season, one.variety, year, plants, keeper.today))

    def _why(self) -> Why | None:
        one = self.chosen
        return one.why(self._told_weights()) if one is not None else None

    def _weight(self, name: str, usual: int) -> QSpinBox:
        made = QSpinBox()
        made.setRange(0, MOST_WEIGHT)
        made.setValue(usual)
        made.setMinimumWidth(56)
        made.setObjectName(f"weight-{name}")
        made.setAccessibleName(tr("how much {mark} counts", mark=MARK_WORDS[name]))
        made.valueChanged.connect(lambda _: self.refresh())
        return made

    def _lay_out(self) -> None:
        self.card.body.addWidget(label(ABOUT, "quiet", wrap=True))
        pairs = []
        for name, field in self.weights.items():
            words = label(WEIGHT_NAMES[name], "quiet")
            words.setBuddy(field)
            pairs.append((words, field))
        for first, second in (pairs[:2], pairs[2:]):
            self.card.body.addLayout(row(*first, *second, None))
        self.card.body.addWidget(self.table)
        self.card.body.addWidget(self.told)
        words = label(tr("Plants"), "quiet")
        words.setBuddy(self.plants)
        self.card.body.addLayout(row(self.why, None, words, self.plants, self.want))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP + 4)
        layout.addWidget(self.none, MOST)
        layout.addWidget(self.card)
        layout.addStretch(1)


def _row(one: Again, weights: dict[str, int]) -> tuple[str, ...]:
    total = one.sum(weights)
    shown = "·" if total is None else figure(total * 10, ".1f")
    return (one.name, shown, *(mark.shown for mark in one.marks.values()))
