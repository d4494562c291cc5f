"""How many things are still to do, counted a few trays at a time so that the window never waits for it."""

from __future__ import annotations

from collections.abc import Iterator

from PySide6.QtCore import QElapsedTimer, QObject, QTimer, Signal

from greenroom.desk.keeper import Keeper
from greenroom.season.holders import Holder

QUIET_MS = 150
SLICE_MS = 6


class RoundCount(QObject):
    """``counted`` carries the number, a while after the last ``start``."""

    counted = Signal(int)

    def __init__(self, keeper: Keeper, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._keeper = keeper
        self._left: Iterator[Holder] | None = None
        self._timer = QTimer(self, singleShot=True)
        self._timer.timeout.connect(self._go_on)

    def start(self) -> None:
        """Count anew, once nothing was asked for a moment."""
        self._left = None
        self._timer.start(QUIET_MS)

    def stop(self) -> None:
        """Count no more."""
        self._timer.stop()

    def _go_on(self) -> None:
        # Here, not at the top: the round asks everything there is, and the first window need not wait for it.
        from greenroom.season.jobs.job import Walk
        from greenroom.season.round import jobs_of_tray, the_round

        keeper = self._keeper
        if self._left is None:
            self._left = iter(keeper.season.holders("tray"))
        walk, spent = Walk.of(keeper.season, keeper.today, keeper.now), QElapsedTimer()
        spent.start()
        for tray in self._left:
            jobs_of_tray(walk, tray)
            if spent.elapsed() >= SLICE_MS:
                self._timer.start(0)
                return
        self.counted.emit(len(the_round(keeper.season, keeper.today, keeper.now).jobs))
