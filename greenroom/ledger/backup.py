"""Copies of a ledger, taken with SQLite's backup API: copying a file in use may copy half an act."""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from greenroom.ledger.errors import DamagedLedgerError, LedgerUnavailableError
from greenroom.ledger.explaining import DAMAGED, IN_USE, explained
from greenroom.ledger.files import make_file
from greenroom.speech import tr

WAITING_S = 10.0  # off the window's thread, where nobody waits for it


def copy_ledger(source: sqlite3.Connection, path: Path) -> None:
    """Copy the ledger on ``source`` to ``path``, where nothing stands; the copy is checked.

    ``source`` must be in a transaction of its own that only reads.
    """
    with explained(path.name):
        # This takes a reader's lock, or is refused in time; the copying itself would wait for ever.
        source.execute("SELECT count(*) FROM sqlite_master").fetchone()
        if os.path.lexists(path) or not make_file(path, lambda aside: _copy(source, aside, path.name)):
            raise LedgerUnavailableError(
                tr("{name} stands there already and is kept; name another file.", name=path.name)
            )


def copy_file(file: Path, aside: Path) -> None:
    """Copy the ledger in ``file``, which may be in use, to an empty file.

    It is read into memory at one stroke, some milliseconds for each ten megabytes, and written from
    there: a mark waits for the reading only, not for the disk, and none can make it begin again.
    """
    with (
        closing(_only_reading(file)) as source,
        closing(sqlite3.connect(":memory:")) as held,
        closing(sqlite3.connect(aside)) as copy,
    ):
        held.execute(f"PRAGMA page_size={source.execute('PRAGMA page_size').fetchone()[0]}")
        source.backup(held, progress=_Patience(file.name))
        held.backup(copy)


@contextmanager
def reader(path: Path) -> Iterator[sqlite3.Connection]:
    """Give a connection of its own on a ledger, in a transaction that only reads."""
    with closing(_only_reading(path)) as connection:
        connection.execute("BEGIN")
        yield connection


def file_of(source: sqlite3.Connection) -> str:
    """Return the file of a ledger; an empty text if it is kept in memory."""
    return str(source.execute("PRAGMA database_list").fetchone()[2])  # number, name, file


def free_name(path: Path, mark: str) -> Path:
    """Return a name beside ``path`` that has ``mark`` in it and is not taken."""
    found = path.with_name(f"{path.stem}.{mark}{path.suffix}")
    count = 1
    while os.path.lexists(found):
        count += 1
        found = path.with_name(f"{path.stem}.{mark}-{count}{path.suffix}")
    return found


def _only_reading(path: Path) -> sqlite3.Connection:
    address = f"{path.absolute().as_uri()}?mode=ro"
    return sqlite3.connect(address, uri=True, timeout=WAITING_S, isolation_level=None)


def _copy(source: sqlite3.Connection, aside: Path, name: str) -> None:
    with closing(sqlite3.connect(aside)) as copy:
        source.backup(copy)
        answer = str(copy.execute("PRAGMA quick_check(1)").fetchone()[0])
    if answer != "ok":
        raise DamagedLedgerError(DAMAGED.format(name=name, detail=answer.splitlines()[-1].rstrip(". ")))


class _Patience:
    """Hears of each try to read a ledger that another program holds, and gives up in time."""

    def __init__(self, name: str) -> None:
        self._name = name
        self._until = time.monotonic() + WAITING_S

    def __call__(self, status: int, _remaining: int, _total: int) -> None:
        held = status in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED)
        if held and time.monotonic() > self._until:
            raise LedgerUnavailableError(IN_USE.format(name=self._name))
