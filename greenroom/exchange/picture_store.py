"""The pictures beside the ledger: each a file named by its own digest, written whole or not at all.

A file is written before the fact that names it. So a machine that stops in between leaves a file without
a fact, which is swept later, and never a fact without its file.
"""

from __future__ import annotations

import hashlib
import os
import re
import time
import uuid
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

from greenroom.exchange.errors import BadFileError
from greenroom.ledger.facts import PictureKept
from greenroom.season.story_deeds import PictureFile
from greenroom.speech import tr

FOLDER_ENDING = " pictures"
ENDING = ".jpg"
UNDER_WAY = ".part"
LARGEST_BYTES = 32 * 1024 * 1024
OLD_ENOUGH_S = 24 * 60 * 60
OWN_NAME = re.compile(r"[0-9a-f]{64}\.jpg|\.[0-9a-f]{32}\.part")
ODD = frozenset('/\\:*?"<>|') | {chr(code) for code in range(32)}
LONGEST_NAME, LONGEST_SAID = 200, 60

MISSING = tr("The file of this picture is missing; put {name} back into the folder of pictures.")
CHANGED = tr("The file of this picture was changed or is damaged; bring it back from a backup.")
ODD_NAME = tr("The file of this picture has a name that no picture kept here can have; it is not opened.")


def folder_beside(ledger: Path) -> Path:
    """Return the folder of pictures of a ledger."""
    return ledger.with_name(ledger.name + FOLDER_ENDING)


def plain_name(name: str) -> bool:
    """Whether a file's name stays within its folder on every system."""
    return bool(name) and len(name) <= LONGEST_NAME and name[0] != "." and not ODD & set(name)


def short_name(name: str) -> str:
    """Return a file's name as a sentence can hold it."""
    plain = "".join(one if one.isprintable() else "?" for one in name)
    return plain if len(plain) <= LONGEST_SAID else f"{plain[: LONGEST_SAID - 1]}…"


@dataclass(frozen=True, slots=True)
class Found:
    """What is found of a picture: its bytes, or what is wrong with its file in one sentence."""

    data: bytes = b""
    trouble: str = ""


class PictureStore:
    """The folder of pictures; it is made when the first is kept."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def keep(self, data: bytes, width: int, height: int) -> PictureFile:
        """Put a picture's file into the folder, durably; one that stands there already stays.

        Raises
        ------
        BadFileError
            With one sentence, if the disk refuses; nothing half written is left.
        """
        digest = hashlib.sha256(data).hexdigest()
        kept = PictureFile(digest + ENDING, digest, width, height)
        self.put(kept.file, data)
        return kept

    def put(self, file: str, data: bytes) -> None:
        """Write a file of the folder whole, unless the same stands there."""
        path = self.folder / file
        try:
            if path.is_file() and not path.is_symlink() and path.read_bytes() == data:
                return
            self.folder.mkdir(parents=True, exist_ok=True)
            _write_whole(path, data)
        except OSError as error:
            raise BadFileError(
                tr(
                    "The picture cannot be kept in {name}: {reason}.",
                    name=self.folder.name,
                    reason=error.strerror or error,
                )
            ) from error

    def find(self, fact: PictureKept) -> Found:
        """Return the picture of a fact, if its file is there and is the one that was kept."""
        if not plain_name(fact.file):
            return Found(trouble=ODD_NAME)
        path = self.folder / fact.file
        try:
            if path.is_symlink() or not path.is_file():
                return Found(trouble=MISSING.format(name=fact.file))
            if path.stat().st_size > LARGEST_BYTES:
                return Found(trouble=CHANGED)
            data = path.read_bytes()
        except OSError as error:
            return Found(
                trouble=tr(
                    "The file of this picture cannot be read: {reason}.", reason=error.strerror or error
                )
            )
        if hashlib.sha256(data).hexdigest() != fact.sha256:
            return Found(trouble=CHANGED)
        return Found(data)

    def sweep(self, named: Collection[str], *, now: float | None = None) -> list[str]:
        """Take away files of the store's own making that no fact names, and return their names.

        Files younger than a day stay: their fact may still be on its way. Files with other names are
        not the store's to take.
        """
        moment = time.time() if now is None else now
        swept: list[str] = []
        if not self.folder.is_dir():
            return swept
        for path in sorted(self.folder.iterdir()):
            if path.name in named or not OWN_NAME.fullmatch(path.name) or not path.is_file():
                continue
            if moment - path.stat().st_mtime > OLD_ENOUGH_S:
                path.unlink(missing_ok=True)
                swept.append(path.name)
        return swept


def _write_whole(path: Path, data: bytes) -> None:
    """Write a file so that it stands there whole or not at all, whatever happens meanwhile."""
    aside = path.with_name(f".{uuid.uuid4().hex}{UNDER_WAY}")
    try:
        with aside.open("xb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        aside.replace(path)
    finally:
        aside.unlink(missing_ok=True)
    if os.name == "posix":
        handle = os.open(path.parent, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
