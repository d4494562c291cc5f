"""Where the pictures of the open ledger are kept."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QObject, QTemporaryDir

from greenroom.desk.keeper import Keeper
from greenroom.exchange.picture_store import PictureStore, folder_beside
from greenroom.speech import tr

ON_A_SERVER = tr(
    "Pictures are kept beside a ledger that is a file; this one is on a server, so none was kept."
)


def room_of(keeper: Keeper) -> PictureRoom:
    """Return the room of a keeper's ledger; it is the same for every panel."""
    found = keeper.findChild(PictureRoom)
    return found if isinstance(found, PictureRoom) else PictureRoom(keeper)


class PictureRoom(QObject):
    """Gives the store beside the ledger; that of a ledger in memory, such as the demo's, goes with it."""

    def __init__(self, keeper: Keeper) -> None:
        super().__init__(keeper)
        self._keeper = keeper
        self._passing: QTemporaryDir | None = None

    @property
    def store(self) -> PictureStore | None:
        """The store, or None where there is no place for one."""
        ledger = self._keeper.ledger
        if ledger.file is not None:
            return PictureStore(folder_beside(ledger.file))
        if not ledger.in_one_file:
            live = self._keeper.live
            return PictureStore(live.pictures) if live is not None and live.pictures is not None else None
        if self._passing is None:
            self._passing = QTemporaryDir()
        return PictureStore(Path(self._passing.path()))
