"""Copies of a ledger, taken with SQLite's backup API: copying a file in use may copy half an act."""

from __future__ import annotations

import os
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from greenroom.ledger.engines import BUSY_SECONDS
from greenroom.ledger.errors import DamagedLedgerError, LedgerUnavailableError
from greenroom.ledger.explaining import DAMAGED, IN_USE, explained
from greenroom.ledger.files import make_file

PAGES_A_STEP = 256  # a megabyte: about a millisecond in which a mark would wait
WAITING_S = 5.0
MOST_STARTS = 50


def copy_ledger(source: sqlite3.Connection, path: Path) -> None:
    """Copy the ledger on ``source`` to ``path``, where nothing stands; the copy is checked.

    ``source`` must be in a transaction of its own that only reads.
    """
    with explained(path.name):
        # This takes a reader's lock, or is refused in time; the copying itself would wait for ever.
        source.execute("SELECT count(*) FROM sqlite_master").fetchone()
        if os.path.lexists(path) or not make_file(path, lambda aside: _copy(source, aside, path.name)):
            raise LedgerUnavailableError(f"{path.name} stands there already and is kept; name another file.")


def copy_file(file: Path, aside: Path) -> None:
    """Copy the ledger in ``file`` to an empty file, a few pages at a time.

    Between the steps other connections may write; SQLite then starts the copying again.
    """
    with closing(_only_reading(file)) as source, closing(sqlite3.connect(aside)) as copy:
        source.backup(copy, pages=PAGES_A_STEP, progress=_Patience(file.name))


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
    return sqlite3.connect(address, uri=True, timeout=BUSY_SECONDS, isolation_level=None)


def _copy(source: sqlite3.Connection, aside: Path, name: str) -> None:
    with closing(sqlite3.connect(aside)) as copy:
        source.backup(copy)
        answer = str(copy.execute("PRAGMA quick_check(1)").fetchone()[0])
    if answer != "ok":
        raise DamagedLedgerError(DAMAGED.format(name=name, detail=answer.splitlines()[-1].rstrip(". ")))


class _Patience:
    """Hears of each step of a copying, and gives it up where it would go on for ever."""

    def __init__(self, name: str) -> None:
        self._name = name
        self._moved = time.monotonic()
        self._left = 0
        self._starts = 0

    def __call__(self, status: int, remaining: int, _total: int) -> None:
        now = time.monotonic()
        if status not in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
            self._moved = now
            self._starts += remaining >= self._left
            self._left = remaining
        if now - self._moved > WAITING_S or self._starts > MOST_STARTS:
            raise LedgerUnavailableError(IN_USE.format(name=self._name))
