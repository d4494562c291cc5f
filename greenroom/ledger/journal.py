"""Whether the journal beside a ledger is its own, looked at before SQLite plays it back.

A journal holds pages as they were before an act that broke off. SQLite plays it back into whatever file
has the right name: if a sync service has put an older file there, it would be torn. The journal's first
page tells at which change the act began, and the ledger must be at that change or the next.
"""

from __future__ import annotations

import time
from pathlib import Path
from typing import BinaryIO, NamedTuple

from greenroom.ledger.errors import DamagedLedgerError
from greenroom.ledger.files import journal_of
from greenroom.speech import tr

# https://www.sqlite.org/fileformat.html, 1.3 (the database header) and 3 (the rollback journal).
JOURNAL_MAGIC = bytes.fromhex("d9d505f920a163d7")
HEADER_BYTES = 28
RECORDS = slice(8, 12)
FIRST_PAGES = slice(16, 20)
SECTOR = slice(20, 24)
PAGE = slice(24, 28)
CHANGES = slice(24, 28)
PAGE_COUNT = slice(28, 32)
VALID_FOR = slice(92, 96)
DATABASE_HEADER_BYTES = 100
PAGE_NUMBER_BYTES = CHECKSUM_BYTES = 4
TRIES = 5
WAIT_S = 0.02
FOREIGN = tr(
    "{name} was replaced while an act was being written, and what was kept to take that "
    "act back does not belong to it; it was left as it is, restore it from a backup."
)


class Began(NamedTuple):
    """What a journal tells of the ledger when its act began: pages, and the change if it is known."""

    pages: int
    changes: int | None


def require_own_journal(ledger: Path) -> None:
    """Raise DamagedLedgerError if the journal beside a ledger belongs to another state of it."""
    for _ in range(TRIES):
        began = _began(journal_of(ledger))
        if began is None or _fits(ledger, began):
            return
        time.sleep(WAIT_S)  # a program at work may have ended one act and begun the next in between
    raise DamagedLedgerError(FOREIGN.format(name=ledger.name))


def _began(journal: Path) -> Began | None:
    """Return what a journal says; None if there is none, or it is not one to play back."""
    try:
        stream = journal.open("rb")
    except FileNotFoundError:
        return None
    with stream:
        head = stream.read(HEADER_BYTES)
        if not _plays_back(head):
            return None
        return Began(_number(head[FIRST_PAGES]), _changes(stream, head))


def _plays_back(head: bytes) -> bool:
    return len(head) == HEADER_BYTES and head.startswith(JOURNAL_MAGIC) and _number(head[RECORDS]) > 0


def _changes(stream: BinaryIO, head: bytes) -> int | None:
    """Return the count of changes on the first page as the journal holds it, if it does.

    A journal has a part, each with a header on a sector of its own, for each time it went to the disk.
    """
    sector, size = _number(head[SECTOR]), _number(head[PAGE])
    place = 0
    while _plays_back(head):
        place += sector
        for _ in range(_number(head[RECORDS])):
            stream.seek(place)
            record = stream.read(PAGE_NUMBER_BYTES + DATABASE_HEADER_BYTES)
            if len(record) < PAGE_NUMBER_BYTES + DATABASE_HEADER_BYTES:
                return None
            if _number(record[:PAGE_NUMBER_BYTES]) == 1:
                return _number(record[PAGE_NUMBER_BYTES:][CHANGES])
            place += PAGE_NUMBER_BYTES + size + CHECKSUM_BYTES
        place = -(-place // sector) * sector if sector else place
        stream.seek(place)
        head = stream.read(HEADER_BYTES)
    return None


def _fits(ledger: Path, began: Began) -> bool:
    with ledger.open("rb") as stream:
        head = stream.read(DATABASE_HEADER_BYTES)
    changes = _number(head[CHANGES])
    if began.changes is not None:
        return changes in (began.changes, began.changes + 1)
    # The first page was not written yet, so its count of pages is still that of before the act.
    return changes != _number(head[VALID_FOR]) or _number(head[PAGE_COUNT]) == began.pages


def _number(data: bytes) -> int:
    return int.from_bytes(data, "big")
