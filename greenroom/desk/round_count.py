"""How many things are still to do, counted a few trays at a time so that the window never waits for it."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QObject, Signal

from greenroom.desk.keeper import Keeper
from greenroom.desk.slices import Slices

QUIET_MS = 150


def look_ahead(keeper: Keeper) -> Iterator[object]:
    """Work out piece by piece what the round rests on, so that it is there already when it is asked for."""
    # Here, not at the top: the round asks everything there is, and the first window need not wait for it.
    from greenroom.season.round import worked_out

    yield from worked_out(keeper.season, keeper.today, keeper.now)


class RoundCount(QObject):
    """``counted`` carries the number, a while after the last ``start``."""

    counted = Signal(int)

    def __init__(self, keeper: Keeper, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._keeper = keeper
        self._slices = Slices(self)
        self._slices.ended.connect(self._count)

    def start(self) -> None:
        """Count anew, once nothing was asked for a moment."""
        self._slices.start(look_ahead(self._keeper), QUIET_MS)

    def stop(self) -> None:
        """Count no more."""
        self._slices.stop()

    def _count(self) -> None:
        from greenroom.season.round import the_round

        keeper = self._keeper
        self.counted.emit(len(the_round(keeper.season, keeper.today, keeper.now).jobs))
