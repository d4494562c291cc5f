"""What is expected of each packet, worked out a few at a time and only for those that are asked for."""

from __future__ import annotations

from time import perf_counter

from PySide6.QtCore import QObject, QTimer, Signal

from greenroom.desk.keeper import Keeper
from greenroom.season.germination import Expected, germination

AT_ONCE_S = 0.008
"""So long the window may be kept from anything else."""

AFTER_PAINT_MS = 20


class Expectations(QObject):
    """Keeps what is expected of packets; what is asked for and not known yet comes with ``found``.

    Nothing is worked out while it is asked for, so that the first look at the page waits for none of it.
    """

    found = Signal(object)
    all_found = Signal()

    def __init__(self, keeper: Keeper, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._keeper = keeper
        self._known: dict[str, Expected | None] = {}
        self._asked: dict[str, None] = {}
        self._timer = QTimer(self, singleShot=True, interval=AFTER_PAINT_MS)
        self._timer.timeout.connect(self._work)

    def wanted(self, packet: str) -> Expected | None:
        """Return what is expected of a packet, or None until ``found`` tells that it is there."""
        if packet not in self._known and packet not in self._asked:
            self._asked[packet] = None
            self._timer.start()
        return self._known.get(packet)

    def at_once(self, packet: str) -> Expected | None:
        """Return what is expected of a packet, worked out now; None where there is no such packet."""
        if packet not in self._known:
            self._known[packet] = germination(self._keeper.season, packet, self._keeper.today)
            self._asked.pop(packet, None)
        return self._known[packet]

    def forget(self) -> None:
        """Forget everything, as after an act that may have changed it."""
        self._known.clear()
        self._asked.clear()
        self._timer.stop()

    def stop(self) -> None:
        """Work out nothing more."""
        self._asked.clear()
        self._timer.stop()

    def _work(self) -> None:
        until = perf_counter() + AT_ONCE_S
        done: list[str] = []
        while self._asked and (not done or perf_counter() < until):
            packet = next(iter(self._asked))
            self.at_once(packet)
            done.append(packet)
        if done:
            self.found.emit(frozenset(done))
        if self._asked:
            self._timer.start()
        elif done:
            self.all_found.emit()
