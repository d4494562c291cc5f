"""The tab of cool nights: the next evening, the night written down with its low, and those before."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.care.part import CarePart, Day
from greenroom.desk.harden.cool_nights import CoolNights
from greenroom.desk.look import GAP


class CoolPart(CarePart):
    """One card; what it writes is filed under the day that acts are written for."""

    kinds = CarePart.kinds | {"variety", "packet"}

    def __init__(self, bench: Bench, day: Day) -> None:
        super().__init__(bench, day)
        self.card = CoolNights(bench)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP)
        layout.addWidget(self.card)
        layout.addStretch(1)

    def refresh(self) -> None:
        """Show the holder as it is."""
        if self.holder is not None:
            self.card.show_holder(self.holder, self.day())
