"""Reading a season archive: nothing is unpacked by its name, and nothing larger than it may be.

Every file of the zip must be one that an archive has; each is read up to a bound, whatever the zip says
of its size, and held against its digest.
"""

from __future__ import annotations

import hashlib
import json
import struct
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from greenroom.exchange.errors import BadFileError, Cancel, Progress, go_on
from greenroom.exchange.picture_store import LARGEST_BYTES as LARGEST_PICTURE
from greenroom.exchange.picture_store import PictureStore, plain_name, short_name
from greenroom.exchange.season_archive import DATA, PICTURES, SCHEMA
from greenroom.exchange.season_archive_json import FORMAT, HEAD, VERSION, book_from_json, moment_from_json
from greenroom.ledger import BadFactError, Book
from greenroom.ledger.book import checked
from greenroom.ledger.facts import PictureKept
from greenroom.speech import tr

LARGEST_DATA = 256 * 1024 * 1024
MOST_FILES = 50_000
CHUNK = 1 << 20
ENCRYPTED = 0x1  # APPNOTE 4.4.4, bit 0
FORMS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
BROKEN = (
    zipfile.BadZipFile,
    zlib.error,
    EOFError,
    struct.error,
    ValueError,
    NotImplementedError,
    RuntimeError,
    OverflowError,
    IndexError,
    KeyError,
    MemoryError,
)
"""What the zip reader raises on files that are cut, mutated or made to harm."""


@dataclass(frozen=True, slots=True)
class Archive:
    """What an archive holds; its pictures by their file names, with their digests."""

    path: Path
    made: datetime
    program: str
    book: Book
    pictures: dict[str, str]


def read_archive(
    path: Path,
    progress: Progress = lambda _share: None,
    cancelled: Cancel = lambda: False,
) -> Archive:
    """Read an archive and check all of it, its pictures too; nothing is written.

    Raises
    ------
    BadFileError
        With one sentence, if it is no archive, is not whole, or is of a later version.
    Cancelled
        If ``cancelled`` says so.
    """
    with _opened(path) as (archive, members):
        table = _data(archive, members, path)
        progress(0.4)
        go_on(cancelled)
        _check_head(table)
        pictures = _pictures(table, members)
        book = _book(table)
        _check_named(book, pictures)
        progress(0.6)
        for place, (file, digest) in enumerate(pictures.items()):
            go_on(cancelled)
            _picture(archive, members, file, digest)
            progress(0.6 + 0.4 * (place + 1) / len(pictures))
        made = moment_from_json(table["made"], tr("The date"))
    progress(1.0)
    return Archive(path, made, str(table["program"]), book, pictures)


def unpack_pictures(
    found: Archive,
    store: PictureStore,
    progress: Progress = lambda _share: None,
    cancelled: Cancel = lambda: False,
) -> int:
    """Put the pictures of an archive that are not here yet beside the ledger, and return how many.

    Raises
    ------
    BadFileError
        With one sentence, if one would take the place of another picture, or the disk refuses.
    """
    brought = 0
    with _opened(found.path) as (archive, members):
        for place, (file, digest) in enumerate(found.pictures.items()):
            go_on(cancelled)
            brought += _unpack(_picture(archive, members, file, digest), file, digest, store)
            progress((place + 1) / len(found.pictures))
    return brought


def _unpack(data: bytes, file: str, digest: str, store: PictureStore) -> bool:
    path = store.folder / file
    if path.is_symlink() or path.exists():
        if not path.is_symlink() and path.is_file() and path.read_bytes() == data:
            return False
        if not file.startswith(digest):
            raise BadFileError(
                tr(
                    "Another picture stands beside the ledger as {file}; it is kept, and nothing "
                    "was brought in.",
                    file=short_name(file),
                )
            )
    store.put(file, data)
    return True


@contextmanager
def _opened(path: Path) -> Iterator[tuple[zipfile.ZipFile, dict[str, zipfile.ZipInfo]]]:
    """Give an archive and its files by name, each of which it may have."""
    name = short_name(path.name)
    try:
        with zipfile.ZipFile(path) as archive:
            yield archive, _members(archive)
    except OSError as error:
        raise BadFileError(
            tr("{name} cannot be read: {reason}.", name=name, reason=error.strerror or error)
        ) from error
    except BROKEN as error:
        raise BadFileError(
            tr(
                "{name} is no season archive, or is cut off or damaged; one that greenroom wrote is needed.",
                name=name,
            )
        ) from error


def _members(archive: zipfile.ZipFile) -> dict[str, zipfile.ZipInfo]:
    told = archive.infolist()
    if len(told) > MOST_FILES:
        raise BadFileError(
            tr(
                "The archive holds {count:,} files; up to {most:,} are taken.",
                count=len(told),
                most=MOST_FILES,
            )
        )
    found: dict[str, zipfile.ZipInfo] = {}
    for one in told:
        name = one.filename
        picture = name.startswith(PICTURES) and plain_name(name.removeprefix(PICTURES))
        if name not in (DATA, SCHEMA) and not picture:
            raise BadFileError(
                tr(
                    "The archive holds a file {file!r}, which no season archive has.",
                    file=short_name(name),
                )
            )
        if name in found:
            raise BadFileError(tr("The archive holds {file!r} twice.", file=short_name(name)))
        if one.flag_bits & ENCRYPTED or one.compress_type not in FORMS:
            raise BadFileError(
                tr(
                    "The archive's {file!r} is locked or packed in a way not taken.",
                    file=short_name(name),
                )
            )
        found[name] = one
    return found


def _bytes(archive: zipfile.ZipFile, member: zipfile.ZipInfo, most: int) -> bytes:
    """Return a file of the archive, read no further than ``most``, whatever it says of its size."""
    parts: list[bytes] = []
    size = 0
    with archive.open(member) as stream:
        while part := stream.read(CHUNK):
            size += len(part)
            if size > most:
                raise BadFileError(
                    tr(
                        "The archive's {file!r} is larger than the {most} MB that are taken.",
                        file=short_name(member.filename),
                        most=most // 2**20,
                    )
                )
            parts.append(part)
    return b"".join(parts)


def _data(archive: zipfile.ZipFile, members: dict[str, zipfile.ZipInfo], path: Path) -> dict[str, Any]:
    if DATA not in members:
        raise BadFileError(
            tr(
                "{file} is no season archive: it holds no {data}.",
                file=short_name(path.name),
                data=DATA,
            )
        )
    text = _bytes(archive, members[DATA], LARGEST_DATA)
    try:
        table = json.loads(text, parse_constant=_refuse_constant)
    except (ValueError, RecursionError) as error:
        raise BadFileError(tr("The archive's {data} is no JSON that can be read.", data=DATA)) from error
    if not isinstance(table, dict):
        raise BadFileError(tr("The archive's {data} is no JSON object.", data=DATA))
    return table


def _refuse_constant(word: str) -> float:
    raise ValueError(f"{word} is no number of JSON")


def _check_head(table: dict[str, Any]) -> None:
    if table.get("format") != FORMAT:
        raise BadFileError(
            tr("The file is a zip with a {data}, but no season archive of greenroom.", data=DATA)
        )
    version = table.get("version")
    if not isinstance(version, int) or isinstance(version, bool) or version < 1:
        raise BadFileError(
            tr(
                "The archive says it is of the version {found}; {version} is known.",
                found=repr(version)[:40],
                version=VERSION,
            )
        )
    if version > VERSION:
        raise BadFileError(
            tr(
                "The archive is of version {version}; up to {known} is known here, a later "
                "greenroom opens it.",
                version=version,
                known=VERSION,
            )
        )
    lacking = [name for name in HEAD if name not in table]
    odd = [name for name in table if name not in HEAD]
    if lacking or odd:
        if lacking:
            raise BadFileError(tr("The archive has no {lacking}.", lacking=lacking[0]))
        raise BadFileError(tr("The archive has {odd!r}, which is not known.", odd=odd[0][:60]))


def _pictures(table: dict[str, Any], members: dict[str, zipfile.ZipInfo]) -> dict[str, str]:
    """Return the digests of the pictures that the archive says it has, and has."""
    found: dict[str, str] = {}
    told = table["pictures"]
    for one in told if isinstance(told, list) else [None]:
        file, digest = (one.get("file"), one.get("sha256")) if isinstance(one, dict) else (None, None)
        if not isinstance(file, str) or not isinstance(digest, str) or not plain_name(file):
            raise BadFileError(tr("The archive's list of pictures cannot be read."))
        if PICTURES + file not in members:
            raise BadFileError(
                tr(
                    "The archive lacks its picture {file!r}; it was cut or changed.",
                    file=short_name(file),
                )
            )
        found[file] = digest
    strays = {name for name in members if name.startswith(PICTURES)} - {PICTURES + file for file in found}
    if strays:
        raise BadFileError(
            tr(
                "The archive holds {file!r}, which is not in its list.",
                file=short_name(min(strays)),
            )
        )
    return found


def _book(table: dict[str, Any]) -> Book:
    try:
        return checked(book_from_json(table))
    except BadFactError as error:
        raise BadFileError(
            tr("The archive holds what cannot be true: {error}.", error=str(error)[:300])
        ) from error


def _check_named(book: Book, pictures: dict[str, str]) -> None:
    facts = (entry.fact for entry in book.entries)
    named = {(fact.file, fact.sha256) for fact in facts if isinstance(fact, PictureKept)}
    for file, digest in pictures.items():
        if (file, digest) not in named:
            raise BadFileError(
                tr("The archive's picture {file!r} is of no fact in it.", file=short_name(file))
            )


def _picture(archive: zipfile.ZipFile, members: dict[str, zipfile.ZipInfo], file: str, digest: str) -> bytes:
    data = _bytes(archive, members[PICTURES + file], LARGEST_PICTURE)
    if hashlib.sha256(data).hexdigest() != digest:
        raise BadFileError(
            tr("The archive's picture {file!r} was changed or is damaged.", file=short_name(file))
        )
    return data
