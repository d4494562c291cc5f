"""The tab of water: when a holder wants it, what was done, what it weighs and how its mix feels."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.care.part import CarePart, Day
from greenroom.desk.look import GAP
from greenroom.desk.parts import Card, button, row
from greenroom.season import deeds_care


class WaterPart(CarePart):
    """Acts, and what followed from them."""

    def __init__(self, bench: Bench, day: Day) -> None:
        super().__init__(bench, day)
        self.acts = Card("Water")
        below = button("Watered from below", lambda: self._water("below"), "primary", name="water-below")
        above = button("Watered from above", lambda: self._water("above"), name="water-above")
        basin = button("Basin emptied", self._empty, name="basin-emptied")
        self.acts.body.addLayout(row(below, above, basin, None))
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.acts)
        layout.addStretch(1)

    def _water(self, how: str) -> None:
        keeper, holder = self.bench.keeper, self.holder
        if holder is not None:
            keeper.do(lambda: deeds_care.water(keeper.season, holder, self.day(), how))

    def _empty(self) -> None:
        keeper, holder = self.bench.keeper, self.holder
        if holder is not None:
            keeper.do(lambda: deeds_care.empty_basin(keeper.season, holder, self.day()))
