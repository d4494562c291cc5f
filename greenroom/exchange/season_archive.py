"""Writing a season archive: one zip with every fact as JSON, the schema it follows, and every picture."""

from __future__ import annotations

import json
import os
import uuid
import zipfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import Any

from greenroom import __version__
from greenroom.exchange.errors import BadFileError, Cancel, Progress, go_on
from greenroom.exchange.picture_store import PictureStore
from greenroom.exchange.season_archive_json import FORMAT, VERSION, book_to_json, moment_to_json
from greenroom.ledger import Book
from greenroom.ledger.facts import PictureKept
from greenroom.own_files import resources_folder
from greenroom.speech import tr

DATA = "season.json"
SCHEMA = f"season-archive-{VERSION}.schema.json"
PICTURES = "pictures/"
NOT_BEFORE = (1980, 1, 1, 0, 0, 0)  # the first moment a zip can hold: APPNOTE 4.4.6


@dataclass(frozen=True, slots=True)
class Written:
    """What an archive holds: facts, pictures, and pictures whose files were missing or changed."""

    path: Path
    facts: int
    pictures: int
    lacking: int


def write_archive(
    path: Path,
    book: Book,
    store: PictureStore | None,
    moment: datetime,
    progress: Progress = lambda _share: None,
    cancelled: Cancel = lambda: False,
) -> Written:
    """Write an archive whole, or leave what stood at ``path`` as it was.

    Parameters
    ----------
    path : Path
        Where it is to be; a file that stands there is replaced once the new one is whole.
    book : Book
        What ``Ledger.book`` gives.
    store : PictureStore or None
        The pictures of the ledger.
    moment : datetime
        When it is made.
    progress, cancelled : callable
        Told the share done, 0 to 1; asked whether to stop.

    Raises
    ------
    BadFileError
        With one sentence, if the disk refuses.
    Cancelled
        If ``cancelled`` says so.
    """
    facts = _pictures(book)
    kept: list[dict[str, Any]] = []
    try:
        with _whole(path) as aside, zipfile.ZipFile(aside, "x", zipfile.ZIP_DEFLATED) as out:
            for place, fact in enumerate(facts):
                go_on(cancelled)
                found = store.find(fact).data if store is not None else b""
                if found:
                    out.writestr(_member(PICTURES + fact.file, moment, zipfile.ZIP_STORED), found)
                    kept.append({"file": fact.file, "sha256": fact.sha256, "bytes": len(found)})
                progress(0.8 * (place + 1) / len(facts))
            schema = (resources_folder() / "schema" / SCHEMA).read_text(encoding="utf-8")
            out.writestr(_member(SCHEMA, moment), schema)
            out.writestr(_member(DATA, moment), _text(book, kept, moment))
            progress(0.95)
            go_on(cancelled)
    except OSError as error:
        raise BadFileError(
            tr("The archive cannot be written: {reason}.", reason=error.strerror or error)
        ) from error
    progress(1.0)
    return Written(path, len(book.entries), len(kept), len(facts) - len(kept))


def _text(book: Book, pictures: list[dict[str, Any]], moment: datetime) -> str:
    head = {
        "format": FORMAT,
        "version": VERSION,
        "made": moment_to_json(moment),
        "program": f"greenroom {__version__}",
    }
    return json.dumps(head | book_to_json(book) | {"pictures": pictures}, ensure_ascii=False, allow_nan=False)


def _pictures(book: Book) -> list[PictureKept]:
    """Return one fact a picture file, those struck out too."""
    facts = (entry.fact for entry in book.entries)
    return list({fact.file: fact for fact in facts if isinstance(fact, PictureKept)}.values())


def _member(name: str, moment: datetime, form: int = zipfile.ZIP_DEFLATED) -> zipfile.ZipInfo:
    made = max(NOT_BEFORE, moment.timetuple()[:6])
    member = zipfile.ZipInfo(name, made)
    member.compress_type = form
    member.external_attr = 0o644 << 16
    return member


@contextmanager
def _whole(path: Path) -> Iterator[Path]:
    """Give a path beside the right one; it takes that one's place when all went well."""
    aside = path.with_name(f".{uuid.uuid4().hex}.part")
    try:
        yield aside
        with aside.open("rb+") as stream:
            os.fsync(stream.fileno())
        aside.replace(path)
    finally:
        aside.unlink(missing_ok=True)
