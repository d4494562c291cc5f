"""The copies kept beside a ledger: taken while it is in use, checked before they count, thinned out.

A copy is named for the ledger, its running number and the moment in UTC, such as
``season 0042 20270514T095412Z.greenroom``. The numbers tell which is newer, whatever the clock did.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from greenroom.ledger.backup import copy_file
from greenroom.ledger.backup_check import Contents, checked_contents, contents
from greenroom.ledger.backup_schedule import Taken, to_drop
from greenroom.ledger.errors import LedgerError, LedgerUnavailableError
from greenroom.ledger.explaining import explained
from greenroom.ledger.files import make_file, sweep
from greenroom.speech import tr

FOLDER_ENDING = " backups"
BEFORE_RESTORING = "before restoring"
MOMENT = "%Y%m%dT%H%M%SZ"  # ISO 8601, basic format: no system forbids one of its letters in a name
NAMED = re.compile(r" (\d{4,9}) (\d{8}T\d{6}Z)( [a-z ]+)?")
OF_AN_UPGRADE = re.compile(r"\.v(\d{4})(-\d+)?")
OLDER_FILE = tr(
    "{name} holds less than the newest copy of it, as if a sync service had put an older "
    "file in its place; look at the copies before you go on."
)


@dataclass(frozen=True, slots=True)
class Copy:
    """A copy: its file, running number, moment (UTC), why it was taken if not by itself, and bytes."""

    path: Path
    number: int
    moment: datetime
    mark: str
    size: int


@dataclass(frozen=True, slots=True)
class Kept:
    """What came of keeping a copy: the newest one, whether it is new, and what the grower should know."""

    copy: Copy | None
    new: bool = False
    notice: str = ""


class Backups:
    """The copies of one ledger.

    Parameters
    ----------
    ledger : Path
        The ledger's file.
    elsewhere : Path or None
        A folder to use where none beside the ledger can be written to.
    """

    def __init__(self, ledger: Path, elsewhere: Path | None = None) -> None:
        self.ledger = Path(os.path.realpath(ledger))
        self.folder = self.ledger.with_name(self.ledger.name + FOLDER_ENDING)
        self._elsewhere = elsewhere

    @property
    def folders(self) -> tuple[Path, ...]:
        """Where copies may be: beside the ledger, then elsewhere."""
        return (self.folder,) if self._elsewhere is None else (self.folder, self._elsewhere)

    def copies(self) -> list[Copy]:
        """Return every copy, the newest first; those taken before an upgrade come last."""
        found = [copy for folder in self.folders for copy in self._in(folder)]
        found.sort(key=lambda one: -one.number)
        return found + sorted(self._of_upgrades(), key=lambda one: one.path.name, reverse=True)

    def keep(self, moment: datetime, mark: str = "") -> Kept:
        """Take a copy, unless the ledger is empty or the newest copy holds the same; then thin out.

        With a ``mark`` one is taken in any case.

        Raises
        ------
        LedgerError
            With one sentence, if none can be taken; nothing half written is left.
        """
        now = contents(self.ledger)
        newest = next((one for one in self.copies() if one.number), None)
        before = None if newest is None else _contents_if_sound(newest.path)
        if not now.acts or (now == before and not mark):
            return Kept(newest)
        behind = before is not None and before.acts > now.acts and not _went_back(newest)
        copy, notice = self._take(moment, mark)
        self._thin(moment)
        return Kept(copy, new=True, notice=OLDER_FILE.format(name=self.ledger.name) if behind else notice)

    def _take(self, moment: datetime, mark: str) -> tuple[Copy, str]:
        """Take a copy beside the ledger, else elsewhere; return it and why it is not beside."""
        try:
            return self._take_in(self.folder, moment, mark), ""
        except LedgerError as error:
            if self._elsewhere is None:
                raise
            why = str(error)
        try:
            copy = self._take_in(self._elsewhere, moment, mark)
        except LedgerError as error:
            raise LedgerUnavailableError(
                tr("No copy of {name} was kept: {reason}.", name=self.ledger.name, reason=_inside(why))
            ) from error
        return copy, tr(
            "Copies of {name} are now kept in {folder}: {reason}.",
            name=self.ledger.name,
            folder=self._elsewhere,
            reason=_inside(why),
        )

    def _take_in(self, folder: Path, moment: datetime, mark: str) -> Copy:
        with explained(folder.name):
            folder.mkdir(parents=True, exist_ok=True)
        number = max((one.number for one in self.copies()), default=0)
        path, made = folder, False
        while not made:  # another program may take the same number
            number += 1
            path = folder / self._name(number, moment, mark)
            with explained(path.name):
                made = make_file(path, self._fill)
        return _copy_at(path, number, moment, mark)

    def _fill(self, aside: Path) -> None:
        """Copy the ledger, and read the copy: only then does it get a name."""
        with explained(self.ledger.name):
            copy_file(self.ledger, aside)
            checked_contents(aside, self.ledger.name)

    def _thin(self, moment: datetime) -> None:
        """Drop what need not stay; copies somebody asked for and those of an upgrade stay."""
        for folder in self.folders:
            mine = [copy for copy in self._in(folder) if not copy.mark]
            dropped = to_drop([Taken(one.number, one.moment) for one in mine], moment)
            with explained(folder.name):
                for copy in mine:
                    if copy.number in dropped:
                        copy.path.unlink(missing_ok=True)
                sweep(folder, now=moment.timestamp())
        with explained(self.ledger.parent.name):
            sweep(self.ledger.parent, now=moment.timestamp())

    def _name(self, number: int, moment: datetime, mark: str) -> str:
        words = f"{self.ledger.stem} {number:04d} {moment.astimezone(UTC):{MOMENT}}"
        return f"{words} {mark}{self.ledger.suffix}" if mark else f"{words}{self.ledger.suffix}"

    def _in(self, folder: Path) -> Iterator[Copy]:
        for path, words in self._files(folder):
            named = NAMED.fullmatch(words)
            moment = None if named is None else _moment(named[2])
            if named is not None and moment is not None:
                yield _copy_at(path, int(named[1]), moment, (named[3] or "").strip())

    def _of_upgrades(self) -> Iterator[Copy]:
        for path, words in self._files(self.ledger.parent):
            named = OF_AN_UPGRADE.fullmatch(words)
            if named is not None:
                written = datetime.fromtimestamp(path.stat().st_mtime, UTC)
                yield _copy_at(
                    path, 0, written, tr("before the upgrade from version {version}", version=named[1])
                )

    def _files(self, folder: Path) -> Iterator[tuple[Path, str]]:
        """Yield the files of a folder named for the ledger, with what their names say beyond it."""
        if not folder.is_dir():
            return
        stem, suffix = self.ledger.stem, self.ledger.suffix
        for path in folder.iterdir():
            if path.name.startswith(stem) and path.name.endswith(suffix) and path.is_file():
                yield path, path.name[len(stem) : len(path.name) - len(suffix)]


def _copy_at(path: Path, number: int, moment: datetime, mark: str) -> Copy:
    return Copy(path, number, moment, mark, path.stat().st_size)


def _went_back(newest: Copy | None) -> bool:
    """Whether the grower went back to an older copy since, so that the ledger may hold less."""
    return newest is not None and newest.mark == BEFORE_RESTORING


def _contents_if_sound(path: Path) -> Contents | None:
    try:
        return checked_contents(path)
    except LedgerError:
        return None


def _moment(text: str) -> datetime | None:
    try:
        return datetime.strptime(text, MOMENT).replace(tzinfo=UTC)
    except ValueError:
        return None


def _inside(sentence: str) -> str:
    """Return a sentence as part of another one."""
    return sentence.rstrip(".")
