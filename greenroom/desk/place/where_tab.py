"""Where the grower is: the place, units, the usual frosts, and what is known of its weather."""

from __future__ import annotations

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout

from greenroom.desk.bench import Bench
from greenroom.desk.look import GAP
from greenroom.desk.parts import column
from greenroom.desk.place.frost_card import FrostCard
from greenroom.desk.place.known_card import KnownCard
from greenroom.desk.place.where_card import UnitsCard, WhereCard
from greenroom.desk.tabs import Part

WHERE_PX = 400


class WhereTab(Part):
    """Four cards; ``wanted`` names the part that a button leads to."""

    wanted = Signal(str)

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.where = WhereCard(bench)
        self.units = UnitsCard(bench)
        self.known = KnownCard(bench)
        self.frosts = FrostCard(bench)
        self.known.wanted.connect(self.wanted)
        for card in (self.where, self.units):
            card.setFixedWidth(WHERE_PX)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(GAP + 4)
        layout.addLayout(column(self.where, self.units, None, gap=GAP + 4))
        layout.addLayout(column(self.known, self.frosts, None, gap=GAP + 4), 1)

    def refresh(self) -> None:
        """Show everything as it stands."""
        for card in (self.where, self.units, self.known, self.frosts):
            card.refresh()
