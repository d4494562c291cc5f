"""The ledger as a file: what is looked at before SQLite touches it, and how a new one is put in place.

A new file is made whole under a name of its own and only then given the right one. So a ledger is
there whole or not at all, even if the power goes while it is made, and an empty file in its place
is always a damaged one.
"""

from __future__ import annotations

import os
import re
import shutil
import stat
import uuid
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from greenroom.ledger.errors import DamagedLedgerError, LedgerUnavailableError, NotALedgerError
from greenroom.speech import tr

APPLICATION_ID = 0x67726E72  # "grnr"
# The database header: https://www.sqlite.org/fileformat.html, section 1.3.
MAGIC = b"SQLite format 3\x00"
HEADER_BYTES = 100
PAGE_SIZE = slice(16, 18)
PAGE_COUNT = slice(28, 32)
APPLICATION = slice(68, 72)
LARGEST_PAGE = 65536  # written as 1, since two bytes cannot hold it
UNDER_WAY = re.compile(r"\.greenroom-[0-9a-f]{12}(\.v\d{4})?\.new(-journal)?")
OLD_ENOUGH_S = 24 * 60 * 60
ANY_WRITE = stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH


def check_ledger(path: Path) -> None:
    """Raise LedgerError if the file cannot be a ledger in use; it is only read."""
    if path.is_dir():
        raise NotALedgerError(tr("{name} is a folder; a ledger is one file.", name=path.name))
    if not path.is_file():
        raise NotALedgerError(tr("{name} is not an ordinary file; a ledger is one.", name=path.name))
    with path.open("rb") as stream:
        head = stream.read(HEADER_BYTES)
    _check_kind(path.name, head)
    if not journal_of(path).exists():  # else the last act broke off, and SQLite takes it back first
        _check_size(path.name, head, path.stat().st_size)
    _check_rights(path)


def check_copy(path: Path) -> None:
    """Raise LedgerError if the file cannot be a whole ledger; it may be one that is only read."""
    if not path.is_file():
        raise NotALedgerError(
            tr("{name} is not there, or is not an ordinary file; a ledger is one.", name=path.name)
        )
    with path.open("rb") as stream:
        head = stream.read(HEADER_BYTES)
    _check_kind(path.name, head)
    if not journal_of(path).exists():
        _check_size(path.name, head, path.stat().st_size)


def make_file(path: Path, fill: Callable[[Path], None]) -> bool:
    """Make a file whole and put it in place; False if another stood there first.

    ``fill`` is given a path beside the right one at which to make it. If it raises, nothing is
    left behind.
    """
    path.parent.mkdir(parents=True, exist_ok=True)
    _check_folder(path)
    with _made_aside(path, fill) as aside:
        return _put_in_place(aside, path)


def exchange_file(path: Path, fill: Callable[[Path], None]) -> None:
    """Make a file whole and put it in the place of the one that stands there, at one stroke.

    ``fill`` is given a path beside the right one at which to make it. If it raises, the file that
    stands there stays. Nothing may have either open.
    """
    with _made_aside(path, fill) as aside:
        if path.exists():
            shutil.copymode(path, aside)
        _sync_file(aside)
        aside.replace(path)
        sync_folder(path.parent)


def sweep(folder: Path, *, now: float) -> None:
    """Take away files that were being made when the program was killed, once they are a day old."""
    if not folder.is_dir():
        return
    for one in folder.iterdir():
        if UNDER_WAY.fullmatch(one.name) and now - one.stat().st_mtime > OLD_ENOUGH_S:
            one.unlink(missing_ok=True)


@contextmanager
def _made_aside(path: Path, fill: Callable[[Path], None]) -> Iterator[Path]:
    aside = path.with_name(f".greenroom-{uuid.uuid4().hex[:12]}.new")
    try:
        aside.touch(exist_ok=False)
        fill(aside)
        yield aside
    finally:
        aside.unlink(missing_ok=True)
        journal_of(aside).unlink(missing_ok=True)


def _sync_file(path: Path) -> None:
    """Have all bytes of a file on the disk."""
    with path.open("rb+") as stream:
        os.fsync(stream.fileno())


def _put_in_place(aside: Path, path: Path) -> bool:
    """Give a file its name, never over another one."""
    try:
        path.hardlink_to(aside)
    except FileExistsError:
        return False
    except OSError:  # a file system without links, such as a memory stick's
        if path.exists():
            return False
        aside.rename(path)
    sync_folder(path.parent)
    return True


def sync_folder(folder: Path) -> None:
    """Have the folder's list of names on the disk; elsewhere than on POSIX the system does it."""
    if os.name != "posix":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def journal_of(path: Path) -> Path:
    """Return where SQLite keeps what it needs to take an act back that broke off."""
    return path.with_name(path.name + "-journal")


def _check_kind(name: str, head: bytes) -> None:
    if not head:
        raise DamagedLedgerError(
            tr(
                "{name} is empty (0 bytes), which no ledger is, and was left untouched; restore it "
                "from a backup or name a file that does not exist yet.",
                name=name,
            )
        )
    if len(head) < HEADER_BYTES or not head.startswith(MAGIC):
        raise NotALedgerError(tr("{name} is not a ledger of greenroom and was left untouched.", name=name))
    if int.from_bytes(head[APPLICATION], "big") != APPLICATION_ID:
        raise NotALedgerError(
            tr("{name} is another program's database, not a ledger, and was left untouched.", name=name)
        )


def _check_size(name: str, head: bytes, size: int) -> None:
    page = int.from_bytes(head[PAGE_SIZE], "big")
    whole = (LARGEST_PAGE if page == 1 else page) * int.from_bytes(head[PAGE_COUNT], "big")
    if size < whole:
        raise DamagedLedgerError(
            tr(
                "{name} is cut off ({size:,} of {whole:,} bytes are there) and was left untouched; "
                "restore it from a backup.",
                name=name,
                size=size,
                whole=whole,
            )
        )


def _check_rights(path: Path) -> None:
    # The mode is looked at too, since a mark that says "read-only" is meant even for root.
    if not path.stat().st_mode & ANY_WRITE or not os.access(path, os.W_OK):
        raise LedgerUnavailableError(
            tr(
                "{name} is read-only, so no mark could be kept; allow writing to it, then open it again.",
                name=path.name,
            )
        )
    _check_folder(path)


def _check_folder(path: Path) -> None:
    """Raise if the folder takes no new file: each act needs a journal beside the ledger."""
    folder = path.parent
    shut = os.name == "posix" and not folder.stat().st_mode & ANY_WRITE
    if shut or not os.access(folder, os.W_OK):
        raise LedgerUnavailableError(
            tr(
                "The folder {folder} of {name} is read-only, so no mark could be kept; allow writing "
                "to the folder, then open the ledger again.",
                folder=folder.name,
                name=path.name,
            )
        )
