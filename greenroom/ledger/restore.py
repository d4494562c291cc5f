"""Going back to a copy: what is there is saved first, then the copy takes its place at one stroke."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from greenroom.ledger.backup import copy_file, free_name
from greenroom.ledger.backup_check import Contents, checked_contents
from greenroom.ledger.backups import BEFORE_RESTORING, MOMENT, Backups, Copy
from greenroom.ledger.engines import BUSY_SECONDS
from greenroom.ledger.explaining import explained
from greenroom.ledger.files import check_ledger, exchange_file, journal_of, sync_folder
from greenroom.ledger.journal import require_own_journal


@dataclass(frozen=True, slots=True)
class Restored:
    """What came of a restoring: the copy of what was there (None if that was empty) and what is there now."""

    saved: Copy | None
    contents: Contents


def restore(backups: Backups, copy: Path, moment: datetime) -> Restored:
    """Put a copy in the place of the ledger, which nothing has open.

    What the ledger holds is kept as a copy first, so that restoring that one takes this back.

    Raises
    ------
    LedgerError
        With one sentence; the ledger is then as it was.
    """
    wanted = checked_contents(copy)
    ledger = backups.ledger
    saved = None
    if ledger.exists():
        settle(ledger)
        saved = backups.keep(moment, BEFORE_RESTORING)
    with explained(ledger.name):
        exchange_file(ledger, lambda aside: _fill(copy, aside))
    return Restored(saved.copy if saved is not None and saved.new else None, wanted)


def settle(ledger: Path) -> None:
    """Have SQLite take back an act that broke off, and make sure that no other program writes.

    A journal left beside the ledger would else be played into the copy that takes its place.
    """
    with explained(ledger.name):
        check_ledger(ledger)
        require_own_journal(ledger)
        address = f"{ledger.as_uri()}?mode=rw"
        with closing(sqlite3.connect(address, uri=True, timeout=BUSY_SECONDS, isolation_level=None)) as raw:
            raw.execute("BEGIN EXCLUSIVE")
            raw.execute("ROLLBACK")


def set_aside(ledger: Path, moment: datetime, fill: Callable[[Path], None]) -> Path:
    """Give a damaged ledger another name and put a new one, which ``fill`` makes, in its place.

    Its journal goes with it, before the new one comes: it must never be played into that one. Wherever
    the power goes, both names lead to what was there, or the new one is in place.

    Returns
    -------
    Path
        Where the damaged one is now.
    """
    aside = free_name(ledger, f"damaged-{moment.astimezone(UTC):{MOMENT}}")
    with explained(ledger.name):

        def fill_and_clear(new: Path) -> None:
            fill(new)
            _name_also(ledger, aside)
            if journal_of(ledger).exists():
                _name_also(journal_of(ledger), journal_of(aside))
                journal_of(ledger).unlink()
            sync_folder(ledger.parent)

        exchange_file(ledger, fill_and_clear)
    return aside


def _fill(copy: Path, aside: Path) -> None:
    copy_file(copy, aside)
    checked_contents(aside, copy.name)


def _name_also(path: Path, other: Path) -> None:
    """Let a file have a second name; where the disk knows no links, a second file."""
    try:
        other.hardlink_to(path)
    except FileExistsError:
        raise
    except OSError:
        with other.open("xb") as out:
            out.write(path.read_bytes())
            out.flush()
            os.fsync(out.fileno())
