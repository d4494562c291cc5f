"""Moving the whole ledger with its pictures, from a file to a server or back: ``greenroom --move-to``."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import ExitStack
from pathlib import Path

from PySide6.QtCore import QCoreApplication

from greenroom.desk.instance import Instance
from greenroom.desk.live_session import outbox_of, pictures_of
from greenroom.desk.session import file_of, on_server
from greenroom.exchange.picture_store import PictureStore, folder_beside
from greenroom.ledger import LedgerError
from greenroom.ledger.facts import PictureKept
from greenroom.ledger.moving import move
from greenroom.speech import tr, trn


def move_ledger(source: str, target: str) -> str:
    """Move a ledger; return what was done. The ledger moved from is left as it is.

    Raises
    ------
    LedgerError, InUseError, BadFileError
        With one sentence, if it cannot be done.
    """
    _require_one_there(source)
    _ = QCoreApplication.instance() or QCoreApplication([])
    with ExitStack() as stack:
        for place in (source, target):
            lock = Instance(_own_file(place))
            stack.callback(lock.release)
        _require_all_sent(source)
        book = move(source, target)
    old, new = _store(source), _store(target)
    missing = 0
    for entry in book.entries:
        if isinstance(entry.fact, PictureKept):
            found = old.find(entry.fact)
            if found.trouble:
                missing += 1
            else:
                new.put(entry.fact.file, found.data)
    return " ".join(_moved_words(len(book.entries), len(book.acts), missing))


def _moved_words(facts: int, acts: int, missing: int) -> Iterator[str]:
    yield tr(
        "Moved {facts:,} facts of {acts:,} acts; the ledger they came from is as it was.",
        facts=facts,
        acts=acts,
    )
    if missing:
        yield trn(
            "{n} of its pictures could not be found and are not moved.",
            "{n} of its pictures could not be found and are not moved.",
            missing,
        )


def _require_one_there(source: str) -> None:
    """Raise where there is no file to move, which opening would make."""
    file = file_of(source)
    if file is not None and not file.exists():
        raise LedgerError(tr("There is no ledger {name} to move; name the file of one.", name=file.name))


def _require_all_sent(source: str) -> None:
    if on_server(source) and outbox_of(source).exists():
        from contextlib import closing

        from greenroom.ledger.outbox import Outbox

        with closing(Outbox(outbox_of(source))) as outbox:
            if outbox.waiting() or outbox.held():
                raise LedgerError(
                    tr("Some acts still wait on this machine; open the ledger, send them, then move it.")
                )


def _own_file(place: str) -> Path:
    """Return the file that stands for a ledger on this machine, under which it is locked."""
    if on_server(place):
        return outbox_of(place)
    file = file_of(place)
    if file is None:
        raise LedgerError(
            tr("A ledger in memory cannot be moved; a file or postgresql://user@host/name is needed.")
        )
    file.parent.mkdir(parents=True, exist_ok=True)
    return file


def _store(place: str) -> PictureStore:
    return PictureStore(pictures_of(place) if on_server(place) else folder_beside(_own_file(place)))
