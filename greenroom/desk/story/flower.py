"""The first open flower of a plant, or of all plants of a rack or bed: noted where their story is told."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtWidgets import QPushButton

from greenroom.desk.bench import Bench
from greenroom.season.deeds_plants import mark_flower, without_flower
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.season.story_deeds import About
from greenroom.speech import tr, trn

GROWN_IN = ("rack", "bed")
"""Where plants come to flower; a tray is left long before."""


class FlowerButton(QPushButton):
    """Shown while a plant stands there whose first flower is not noted; ``day`` tells when it was seen."""

    def __init__(self, bench: Bench, day: Callable[[], date]) -> None:
        super().__init__()
        self._bench = bench
        self._day = day
        self._keys: list[SpotKey] = []
        self.setAutoDefault(False)
        self.setObjectName("first-flower")
        self.setProperty("tight", "yes")
        self.setToolTip(tr("From the first open flower feed and ripening are counted"))
        self.clicked.connect(self._note)

    @property
    def wanted(self) -> bool:
        """Whether there is a first flower to be noted."""
        return bool(self._keys)

    def stand_for(self, about: About) -> None:
        """Stand for the plants whose story is told."""
        season = self._bench.keeper.season
        self._keys = without_flower(season, _spots(season, about))
        self.setText(
            tr("First flower is open")
            if about.spot is not None
            else trn("First flower is open on 1 plant", "First flower is open on {n} plants", len(self._keys))
        )

    def _note(self) -> None:
        keeper, keys = self._bench.keeper, tuple(self._keys)
        keeper.do(lambda: mark_flower(keeper.season, keys, self._day()))


def _spots(season: Season, about: About) -> list[SpotKey]:
    key = about.spot.holder if about.spot is not None else about.holder
    if key is None:
        return []
    holder = season.holder(key)
    if holder.form not in GROWN_IN:
        return []
    return [about.spot] if about.spot is not None else list(holder.keys)
