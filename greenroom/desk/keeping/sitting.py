"""The window on the ledger, from the first to the last: made anew when the ledger goes back to a copy."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QTimer

from greenroom.desk.keeper import Keeper
from greenroom.desk.look import Look
from greenroom.desk.window import Window

if TYPE_CHECKING:
    from greenroom.desk.keeping.keeping import Keeping

KEEP_MS = 2000
COPIES = "copies"

MakeWindow = Callable[[Keeper, Look | None], Window]


class Sitting(QObject):
    """Shows a window and looks after its ledger; ``make`` makes one and shows it.

    ``lost`` is why the ledger could not be opened again after a restoring, if that happened.
    """

    def __init__(self, keeper: Keeper, make: MakeWindow) -> None:
        super().__init__()
        self._make = make
        self._keepers = [keeper]
        self._keeping: Keeping | None = None
        self.lost: Exception | None = None
        self.window = make(keeper, None)
        self._begin_soon = QTimer(self, singleShot=True, interval=KEEP_MS)
        self._begin_soon.timeout.connect(self._begin)
        self._look_after(keeper)

    def say(self, sentence: str) -> None:
        """Say something in the window that is open now."""
        self.window.bench.say(sentence)

    def end(self) -> None:
        """Let go of every ledger that was opened here; the first is its opener's to close."""
        self._begin_soon.stop()
        if self._keeping is not None:
            self._keeping.stop()
        for keeper in self._keepers[1:]:
            keeper.ledger.close()

    def _look_after(self, keeper: Keeper) -> None:
        if keeper.lock is not None:
            keeper.lock.knocked.connect(self.window.come_forward)
        self._begin_soon.start()

    def _begin(self) -> None:
        """Begin to keep copies: after the first paint, so that the start waits for none."""
        from greenroom.desk.keeping.keeping import keeping_of

        self._keeping = keeping = keeping_of(self._keepers[-1])
        keeping.told.connect(self.say)
        keeping.restoring.connect(self._on_restoring)
        keeping.reopened.connect(self._on_reopened)
        keeping.lost.connect(self._on_lost)
        keeping.begin()

    def _on_restoring(self) -> None:
        for page in self.window.pages.values():
            page.leave()
        self.window.setEnabled(False)

    def _on_reopened(self, keeper: Keeper, words: str) -> None:
        old = self.window
        self._keepers.append(keeper)
        self.window = self._make(keeper, old.bench.look)
        self.window.setGeometry(old.geometry())
        self.window.setWindowState(old.windowState())
        self.window.bench.send("place", COPIES)
        self.window.bench.say(words)
        self._look_after(keeper)
        old.close()
        old.deleteLater()

    def _on_lost(self, error: Exception) -> None:
        self.lost = error
        self.window.close()
