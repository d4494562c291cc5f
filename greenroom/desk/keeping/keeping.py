"""Copies while the window is open: one soon after opening, one a day, and going back to any of them."""

from __future__ import annotations

from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QObject, QTimer, Signal

from greenroom.desk.clock import system_now
from greenroom.desk.keeper import Keeper
from greenroom.desk.keeping.copy_words import restored_words
from greenroom.desk.keeping.where import backups_of
from greenroom.desk.worker import Worker
from greenroom.ledger import LedgerError
from greenroom.ledger.backups import Backups, Copy, Kept
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.ledger import Ledger
    from greenroom.ledger.restore import Restored

LOOK_MS = 60 * 60 * 1000
A_DAY = timedelta(days=1)
RESTORING = tr("The ledger is going back to a copy; try again in a moment.")


class Opened(NamedTuple):
    """A ledger opened again, and what came of the restoring before: the copy's, or a sentence."""

    ledger: Ledger
    restored: Restored | None
    trouble: str = ""


def keeping_of(keeper: Keeper) -> Keeping:
    """Return the keeping of a keeper's ledger; it is the same for every panel."""
    found = keeper.findChild(Keeping)
    return found if isinstance(found, Keeping) else Keeping(keeper)


class Keeping(QObject):
    """Takes copies of the keeper's ledger, off the window's thread, and goes back to one.

    ``kept`` carries what came of each copying, ``told`` a sentence the grower must read. ``reopened``
    carries a keeper on the ledger after a restoring, and a sentence; the keeper before it is then done
    with. ``lost`` carries the error, where the ledger could not be opened again.
    """

    kept = Signal(object)
    told = Signal(str)
    restoring = Signal()
    reopened = Signal(object, str)
    lost = Signal(object)

    def __init__(self, keeper: Keeper) -> None:
        super().__init__(keeper)
        self._keeper = keeper
        self.backups = _backups_of(keeper)
        self.news = ""  # what came of the restoring that brought this ledger back
        self._last: datetime | None = None
        self._copier: Worker[Kept] = Worker((LedgerError,), self)
        self._copier.finished.connect(self._on_kept)
        self._copier.failed.connect(lambda error: self.told.emit(str(error)))
        self._restorer: Worker[Opened] = Worker((LedgerError,), self)
        self._restorer.failed.connect(self.lost.emit)
        self._timer = QTimer(self, interval=LOOK_MS)
        self._timer.timeout.connect(self.look)

    @property
    def busy(self) -> bool:
        """Whether a copy is being taken or brought back."""
        return self._copier.running or self._restorer.running

    def begin(self) -> None:
        """Take a copy if anything changed since the last one, and from now on every day."""
        if self.backups is not None:
            self._timer.start()
            self.take()

    def look(self) -> None:
        """Take a copy if the last was a day ago; or if the clock was set back, which tells nothing."""
        now = system_now()
        if self._last is None or not timedelta() <= now - self._last < A_DAY:
            self.take()

    def take(self, mark: str = "") -> None:
        """Take a copy now, if anything changed since the last one; with a ``mark`` in any case."""
        backups = self.backups
        if backups is None or self.busy:
            return
        self._last = now = system_now()
        self._copier.start(lambda _progress, _stopped: backups.keep(now, mark))

    def restore(self, copy: Copy) -> None:
        """Go back to a copy; what is there is kept as a copy first."""
        backups, ledger, file = self.backups, self._keeper.ledger, self._keeper.ledger.file
        if backups is None or file is None or self.busy or self._keeper.writing:
            self.told.emit(RESTORING)
            return
        self.restoring.emit()  # what is being edited is written before it is saved
        now = system_now()

        def work(_progress: object, _stopped: object) -> Opened:
            ledger.close()
            return _go_back(backups, copy.path, file, now)

        self._restorer.finished.connect(lambda opened: self._on_opened(copy, opened))
        self._restorer.start(work)

    def stop(self) -> None:
        """Look after the ledger no more; what was begun goes on to its end."""
        self._timer.stop()

    def _on_kept(self, kept: Kept) -> None:
        if kept.notice:
            self.told.emit(kept.notice)
        self.kept.emit(kept)

    def _on_opened(self, copy: Copy, opened: Opened) -> None:
        self.stop()
        try:
            keeper = Keeper(opened.ledger, self._keeper.clock)
        except LedgerError as error:
            opened.ledger.close()
            self.lost.emit(error)
            return
        keeper.lock = self._keeper.lock
        words = opened.trouble
        if opened.restored is not None:
            words = restored_words(copy, opened.restored, keeper.place.zone)
        keeping_of(keeper).news = words
        self.reopened.emit(keeper, words)


def _backups_of(keeper: Keeper) -> Backups | None:
    file = keeper.ledger.file
    return None if file is None else backups_of(file)


def _go_back(backups: Backups, copy: Path, file: Path, now: datetime) -> Opened:
    """Restore a copy and open the ledger; where the first fails it is opened as it was."""
    from greenroom.ledger import Ledger
    from greenroom.ledger.restore import restore

    try:
        restored = restore(backups, copy, now)
    except LedgerError as error:
        return Opened(Ledger.open(file), None, str(error))
    return Opened(Ledger.open(file), restored)
