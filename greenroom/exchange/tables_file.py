"""Files written whole or not at all: beside the one they replace first, then put in its place.

A reader sees the old file or the new one, never half of either (POSIX rename; on Windows the same call
replaces). What went wrong is told in one sentence, and nothing is left behind.
"""

from __future__ import annotations

import errno
import os
import secrets
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from greenroom.exchange.errors import BadFileError
from greenroom.exchange.text_lines import clean
from greenroom.speech import tr

LONGEST_SHOWN = 60

SENTENCES = {
    errno.ENOSPC: tr("the disk is full; make room or choose another disk"),
    errno.EDQUOT: tr("the disk is full for this user; make room or choose another disk"),
    errno.EACCES: tr("this folder may not be written to; choose another"),
    errno.EPERM: tr("this folder may not be written to; choose another"),
    errno.EROFS: tr("this disk can only be read; choose another"),
    errno.ENOENT: tr("there is no such folder; choose one that is there"),
    errno.ENOTDIR: tr("a file stands where the folder should be; choose a folder"),
    errno.EISDIR: tr("there is a folder of that name; choose another name"),
    errno.ENOTEMPTY: tr("there is a folder of that name; choose another name"),
    errno.EEXIST: tr("there is a folder of that name; choose another name"),
    errno.ENAMETOOLONG: tr("the name is too long; choose a shorter one"),
    errno.EINVAL: tr("the name holds signs that no file may have; choose another"),
}


def write_text(path: str | Path, text: str) -> Path:
    """Write text as UTF-8, whole or not at all, and return where it is.

    Raises
    ------
    BadFileError
        If it cannot be written; one sentence says why. What was there before stays as it was.
    """
    return write_bytes(path, text.encode("utf-8"))


def write_bytes(path: str | Path, content: bytes) -> Path:
    """Write bytes, whole or not at all; as ``write_text``."""
    with whole_file(path) as file:
        file.write(content)
    return Path(path)


@contextmanager
def whole_file(path: str | Path, *, sync: Callable[[int], None] = os.fsync) -> Iterator[BinaryIO]:
    """Open a file that takes the place of ``path`` once all of it is on the disk.

    Raises
    ------
    BadFileError
        If it cannot be written. An error raised while it is open leaves ``path`` as it was, too.
    """
    wanted = Path(path)
    beside = wanted.with_name(f".{secrets.token_hex(8)}.part")
    try:
        _require_fit(wanted)
        file = beside.open("xb")
    except OSError as error:
        raise BadFileError(refusal(wanted, error)) from error
    try:
        with file:
            yield file
            file.flush()
            sync(file.fileno())
        beside.replace(wanted)
    except OSError as error:
        raise BadFileError(refusal(wanted, error)) from error
    finally:
        beside.unlink(missing_ok=True)


def refusal(path: Path, error: OSError) -> str:
    """Return in one sentence why a file was not written."""
    said = SENTENCES.get(error.errno or 0) or tr(
        "the system says {words}; choose another place", words=error.strerror or type(error).__name__
    )
    return tr("{file} was not written: {reason}.", file=clean(path.name, LONGEST_SHOWN), reason=said)


def _require_fit(path: Path) -> None:
    """Raise OSError if a path cannot be that of a file: looked at first, for the file beside has another."""
    wrong = 0
    if "\0" in str(path):
        wrong = errno.EINVAL
    elif len(path.name.encode()) > _longest_name(path.parent):
        wrong = errno.ENAMETOOLONG
    elif path.is_dir():
        wrong = errno.EISDIR
    if wrong:
        raise OSError(wrong, os.strerror(wrong))


def _longest_name(folder: Path) -> int:
    """Return how many bytes a name in a folder may have."""
    asked = getattr(os, "pathconf", None)
    return int(asked(folder, "PC_NAME_MAX")) if asked is not None else 255
