"""Which pictures are still needed: those the ledger names, and those any copy of it names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from greenroom.exchange.picture_store import PictureStore
from greenroom.ledger import LedgerError
from greenroom.ledger.facts import PictureKept

if TYPE_CHECKING:
    from greenroom.ledger import Ledger


def sweep_pictures(store: PictureStore, ledger: Ledger, kept: set[str]) -> None:
    """Sweep the files that nothing names: not the ledger, no copy of it, and not ``kept``.

    A copy that cannot be read may name any of them; then all stay.
    """
    from greenroom.desk.keeping.where import backups_of
    from greenroom.ledger.backup_check import picture_files

    named = set(kept)
    for entry in ledger.written(PictureKept.kind):
        if isinstance(entry.fact, PictureKept):
            named.add(entry.fact.file)
    file = ledger.file
    try:
        for copy in () if file is None else backups_of(file).copies():
            named |= picture_files(copy.path)
    except LedgerError:
        return
    store.sweep(named)
