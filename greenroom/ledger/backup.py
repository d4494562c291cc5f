"""Copies of a ledger, taken with SQLite's backup API: copying a file in use may copy half an act."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from greenroom.ledger.engines import BUSY_SECONDS
from greenroom.ledger.errors import DamagedLedgerError, LedgerUnavailableError
from greenroom.ledger.explaining import DAMAGED, explained
from greenroom.ledger.files import make_file


def copy_ledger(source: sqlite3.Connection, path: Path) -> None:
    """Copy the ledger on ``source`` to ``path``, where nothing stands; the copy is checked.

    ``source`` must be in a transaction of its own that only reads.
    """
    with explained(path.name):
        # This takes a reader's lock, or is refused in time; the copying itself would wait for ever.
        source.execute("SELECT count(*) FROM sqlite_master").fetchone()
        if os.path.lexists(path) or not make_file(path, lambda aside: _copy(source, aside, path.name)):
            raise LedgerUnavailableError(f"{path.name} stands there already and is kept; name another file.")


@contextmanager
def reader(path: Path) -> Iterator[sqlite3.Connection]:
    """Give a connection of its own on a ledger, in a transaction that only reads."""
    address = f"{path.as_uri()}?mode=ro"
    with closing(
        sqlite3.connect(address, uri=True, timeout=BUSY_SECONDS, isolation_level=None)
    ) as connection:
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


def _copy(source: sqlite3.Connection, aside: Path, name: str) -> None:
    with closing(sqlite3.connect(aside)) as copy:
        source.backup(copy)
        answer = str(copy.execute("PRAGMA quick_check(1)").fetchone()[0])
    if answer != "ok":
        raise DamagedLedgerError(DAMAGED.format(name=name, detail=answer.splitlines()[-1].rstrip(". ")))
