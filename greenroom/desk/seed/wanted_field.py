"""How many plants of the chosen packet's variety are wanted this season, and the seeds that takes."""

from __future__ import annotations

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QSpinBox, QVBoxLayout, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import label, row
from greenroom.season.coming_up import coming_up
from greenroom.season.deeds_plan import MOST_PLANTS, want
from greenroom.season.germination import Expected
from greenroom.season.packets import packet_view
from greenroom.season.plan_seeds import SeedNeed, seed_need
from greenroom.season.ribbon import season_year
from greenroom.season.sprouting import chance_words
from greenroom.season.wants import rules_of, wanted
from greenroom.speech import many, tr, trn

PAUSE_MS = 600


class WantedField(QWidget):
    """A number that is written once the grower pauses, or leaves it."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self._bench = bench
        self._variety: str | None = None
        self._year = 0
        self.title = label("", "strong")
        self.plants = QSpinBox()
        self.plants.setRange(0, MOST_PLANTS)
        self.plants.setSpecialValueText(tr("none", sense="plants"))
        self.plants.setFixedWidth(84)
        self.note = label("", "quiet", wrap=True)
        self.title.setBuddy(self.plants)
        self._pause = QTimer(self, singleShot=True, interval=PAUSE_MS)
        self._pause.timeout.connect(self.commit)
        self.plants.valueChanged.connect(lambda _value: self._pause.start())
        self.plants.editingFinished.connect(self.commit)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP // 2)
        layout.addLayout(row(self.title, self.plants, None))
        layout.addWidget(self.note)

    def show_packet(self, key: str | None) -> None:
        """Take up the variety of a packet."""
        keeper = self._bench.keeper
        view = packet_view(keeper.season, key) if key else None
        self._variety = view.packet.variety if view else None
        self._year = season_year(keeper.season, keeper.today)
        self.title.setText(tr("Plants wanted in {year}", year=self._year))
        name = self.title.text()
        self.plants.setAccessibleName(
            tr("{title} of {variety}", title=name, variety=view.name) if view else name
        )
        self._show_value()

    def refresh(self, expected: Expected) -> None:
        """Show what is wanted as it stands, and what it takes of the packet."""
        if not self._pause.isActive():
            self._show_value()
        self.note.setText(self._words(expected))

    def commit(self) -> None:
        """Write the number if it differs from what is written."""
        self._pause.stop()
        keeper, variety = self._bench.keeper, self._variety
        if variety is None or self.plants.value() == self._written():
            return
        plants = self.plants.value()
        keeper.do(lambda: want(keeper.season, variety, self._year, plants, keeper.today))

    def _written(self) -> int:
        season = self._bench.keeper.season
        return wanted(season, self._year).get(self._variety or "", 0)

    def _show_value(self) -> None:
        self.plants.blockSignals(True)
        self.plants.setValue(self._written())
        self.plants.blockSignals(False)

    def _words(self, expected: Expected) -> str:
        keeper, plants = self._bench.keeper, self._written()
        if not plants:
            return tr("None wanted: it is not in this season's plan.")
        sure = rules_of(keeper.season).confidence
        found = coming_up(keeper.season, expected.packet, keeper.today)
        mix_c = found.mix_c if found else None
        need = seed_need(keeper.season, expected, plants, sure, mix_c, keeper.today)
        if need is None:
            return tr("Too little of this packet is expected up to count on it.")
        return _need_words(need)


def _need_words(need: SeedNeed) -> str:
    seeds, sure = many(need.seeds, "seed"), chance_words(need.confidence)
    if need.a_cell == 1:
        words = tr("That takes {seeds}, to be {chance} sure.", seeds=seeds, chance=sure)
    else:
        words = tr(
            "That takes {seeds}, {each} a cell, to be {chance} sure.",
            seeds=seeds,
            each=need.a_cell,
            chance=sure,
        )
    if need.enough or need.left is None:
        return words
    left = trn(
        "Only 1 is left: {chance} sure.",
        "Only {n} are left: {chance} sure.",
        need.left,
        chance=chance_words(need.sure),
    )
    return f"{words} {left}"
