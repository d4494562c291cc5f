"""What a copy of a ledger holds, read from the copy itself: only a copy that was read counts as one."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from pathlib import Path

from greenroom.ledger.backup import reader
from greenroom.ledger.errors import DamagedLedgerError
from greenroom.ledger.explaining import DAMAGED, explained
from greenroom.ledger.facts import KINDS, PictureKept
from greenroom.ledger.files import check_copy
from greenroom.ledger.tables import VERSION_TABLE
from greenroom.speech import tr

VERSION = f"SELECT version_num FROM {VERSION_TABLE}"


@dataclass(frozen=True, slots=True)
class Contents:
    """How much a ledger holds; two states of one ledger that hold as much are the same.

    Rows are only ever added, so any act makes one of these numbers grow.
    """

    version: str
    acts: int
    facts: int
    strikes: int
    last: str  # when the last act was written, as the file has it


def contents(path: Path) -> Contents:
    """Return what a ledger holds, without looking whether all of it can be read.

    Raises
    ------
    LedgerError
        With one sentence, if it cannot be read.
    """
    with explained(path.name):
        check_copy(path)
        with reader(path) as source:
            return _counted(source, path.name)


def checked_contents(path: Path, name: str = "") -> Contents:
    """Return what a ledger holds, after reading every page, row and key of it; it is not written to.

    Raises
    ------
    LedgerError
        With one sentence on ``name`` (by itself, the file's), if anything of it is not sound.
    """
    name = name or path.name
    with explained(name):
        check_copy(path)
        with reader(path) as source:
            check_whole(source, name)
            return _counted(source, name)


def picture_files(path: Path) -> set[str]:
    """Return the names of the picture files that a ledger names; raise LedgerError if it cannot be read."""
    with explained(path.name):
        check_copy(path)
        with reader(path) as source:
            there = source.execute(
                "SELECT 1 FROM sqlite_master WHERE name = ?", (PictureKept.kind,)
            ).fetchone()
            if there is None:  # an older version kept no pictures
                return set()
            return {str(row[0]) for row in source.execute(f"SELECT file FROM {PictureKept.kind}")}


def check_whole(source: sqlite3.Connection, name: str) -> None:
    """Raise DamagedLedgerError unless every page, key and fact of a ledger can be read."""
    answer = str(source.execute("PRAGMA integrity_check(1)").fetchone()[0])
    if answer != "ok":
        raise DamagedLedgerError(DAMAGED.format(name=name, detail=answer.splitlines()[-1].rstrip(". ")))
    broken = source.execute("PRAGMA foreign_key_check").fetchone()
    if broken is not None:
        detail = tr("row {row} of {table} points to nothing", row=broken[1], table=broken[0])
        raise DamagedLedgerError(DAMAGED.format(name=name, detail=detail))
    for kind, wanted in source.execute("SELECT kind, count(*) FROM fact GROUP BY kind").fetchall():
        found = _detailed(source, kind)
        if found != wanted:
            detail = tr(
                "of {wanted:,} facts of the kind {kind} it has {found:,}",
                wanted=wanted,
                kind=kind,
                found=found,
            )
            raise DamagedLedgerError(DAMAGED.format(name=name, detail=detail))


def _detailed(source: sqlite3.Connection, kind: str) -> int:
    """Return how many facts of a kind stand in its table and in the list of all facts."""
    if kind not in KINDS:
        return 0
    query = f"SELECT count(*) FROM fact JOIN {kind} USING (number) WHERE fact.kind = ?"
    return int(source.execute(query, (kind,)).fetchone()[0])


def _counted(source: sqlite3.Connection, name: str) -> Contents:
    version = source.execute(VERSION).fetchone()
    if version is None:
        raise DamagedLedgerError(DAMAGED.format(name=name, detail=tr("it does not say which version it is")))
    acts, facts, strikes = (
        int(source.execute(f"SELECT count(*) FROM {table}").fetchone()[0])
        for table in ("act", "fact", "strike")
    )
    last = source.execute("SELECT written FROM act ORDER BY number DESC LIMIT 1").fetchone()
    return Contents(str(version[0]), acts, facts, strikes, "" if last is None else str(last[0]))
