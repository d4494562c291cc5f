"""One session with a ledger on a server that several hands write."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from platformdirs import user_data_path

from greenroom.desk.clock import Clock
from greenroom.desk.instance import Instance
from greenroom.desk.keeper import Keeper
from greenroom.desk.live import Live
from greenroom.exchange.picture_store import folder_beside
from greenroom.ledger import LedgerError
from greenroom.ledger.opening import readable_address
from greenroom.ledger.outbox import Outbox
from greenroom.ledger.server_address import hand_of, outbox_name, place_words
from greenroom.ledger.sharing import SharedLedger
from greenroom.speech import tr


@contextmanager
def shared_ledger(
    address: str,
    *,
    still: bool = False,
    who: str | None = None,
    folder: Path | None = None,
    clock: Clock | None = None,
) -> Iterator[Keeper]:
    """Open a ledger on a server, with what waits on this machine to be sent; ``still`` only looks.

    The hand that writes, the folder for what waits and the clock are by default the usual ones.

    Raises
    ------
    LedgerError, InUseError
        With one sentence, if it cannot be opened.
    """
    readable_address(address)
    with SharedLedger.open(address, who=who or hand_of(address)) as ledger:
        keeper = Keeper(ledger, clock or Clock())
        if still:
            yield keeper
            return
        path = outbox_of(address, folder)
        lock = Instance(path)
        try:
            with closing(Outbox(path)) as outbox:
                keeper.lock = lock
                keeper.live = Live(keeper, ledger, outbox)
                keeper.live.pictures = pictures_of(address, folder)
                keeper.live.where, keeper.live.caution = place_words(address)
                keeper.live.start()
                try:
                    yield keeper
                finally:
                    keeper.live.stop()
        finally:
            lock.release()


def outbox_of(address: str, folder: Path | None = None) -> Path:
    """Return the file that keeps on this machine what waits to be sent to a server."""
    return (folder or _folder()) / outbox_name(address)


def pictures_of(address: str, folder: Path | None = None) -> Path:
    """Return the folder that keeps on this machine the pictures of a ledger on a server."""
    return folder_beside(outbox_of(address, folder))


def _folder() -> Path:
    folder = user_data_path("greenroom", appauthor=False)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise LedgerError(
            tr("The folder for what waits cannot be made: {reason}.", reason=error.strerror)
        ) from error
    return folder
