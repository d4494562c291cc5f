"""The log: what went wrong and where in the program, and nothing of the grower's.

What an error says of itself can hold a name, a place or a path. So of most errors only the kind is kept,
with the lines of the program it went through; of other messages what is quoted and what looks like a path is
cut out.
Nothing here needs Qt until Qt is there.
"""

from __future__ import annotations

import faulthandler
import logging
import os
import re
import sys
import traceback
from collections.abc import Callable
from contextlib import suppress
from logging.handlers import RotatingFileHandler
from pathlib import Path, PurePath
from types import TracebackType
from typing import IO

LOG_NAME = "greenroom.log"
LOG_BYTES, LOGS_BEFORE = 512 * 1024, 2
LEVELS = ("debug", "info", "warning", "error")
CRASH_NAME = "crash-{}.txt"
PROGRAM = "greenroom"
CODE_ONLY = (AttributeError, TypeError, NameError, ImportError)
"""Errors that speak of the program's own names, so that their words may be kept."""

QUOTED = re.compile(r"“[^”]*”|\"[^\"\n]*\"|'[^'\n]*'")
PATH = re.compile(r"(?:\b[a-z]{2,8}://|[A-Za-z]:[\\/]|~?[\\/])[^\n]*[\\/][^\n]*|~[\\/][^\n]*")
"""A path to the end of its line: a folder's name may hold anything, spaces too."""
FRAME = re.compile(r'File "([^"]+)"')

ErrorInfo = tuple[type[BaseException], BaseException, TracebackType | None]


def log_handler(folder: Path) -> RotatingFileHandler:
    """Return what writes to the log in a folder, which is made if need be; three files at most are kept.

    Raises
    ------
    OSError
        If the folder or the file cannot be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    handler = RotatingFileHandler(
        folder / LOG_NAME, maxBytes=LOG_BYTES, backupCount=LOGS_BEFORE, encoding="utf-8"
    )
    handler.setFormatter(PlainFormatter("%(asctime)s %(levelname)s %(name)s: %(message)s"))
    return handler


def impersonal(text: str) -> str:
    """Return a text without what is quoted in it and without paths."""
    return PATH.sub("<path>", QUOTED.sub("“…”", text))


def error_words(error: BaseException) -> str:
    """Return the kind of an error, and what it says where that can only be of the program."""
    kind = type(error).__name__
    return f"{kind}: {impersonal(str(error))}" if isinstance(error, CODE_ONLY) else kind


def frames(trace: TracebackType | None) -> tuple[str, ...]:
    """Return the lines of code a traceback went through, the outermost first, by paths within the program."""
    return tuple(
        f"{short_path(one.filename)}, line {one.lineno}, in {one.name}" for one in traceback.extract_tb(trace)
    )


def error_lines(error: BaseException) -> tuple[str, ...]:
    """Return an error with those that led to it, each with the lines it went through."""
    lines: list[str] = []
    seen: set[int] = set()
    here: BaseException | None = error
    while here is not None and id(here) not in seen:
        seen.add(id(here))
        lines += [error_words(here), *(f"  {line}" for line in frames(here.__traceback__))]
        here = here.__cause__ or (None if here.__suppress_context__ else here.__context__)
    return tuple(lines)


def short_path(path: str) -> str:
    """Return a file's path from the program's or a library's folder on, without where that stands."""
    parts = PurePath(path.replace("\\", "/")).parts
    for mark, step in ((PROGRAM, 0), ("site-packages", 1), ("lib", 1)):
        if mark in parts:
            at = len(parts) - 1 - parts[::-1].index(mark) + step
            return "/".join(parts[at:])
    return parts[-1] if parts else ""


def log_qt() -> Callable[[], object]:
    """Write what Qt says to the log; return what gives Qt's messages back."""
    from PySide6.QtCore import QMessageLogContext, QtMsgType, qInstallMessageHandler

    levels = {
        QtMsgType.QtDebugMsg: logging.DEBUG,
        QtMsgType.QtInfoMsg: logging.INFO,
        QtMsgType.QtWarningMsg: logging.WARNING,
    }
    log = logging.getLogger("qt")

    def take(kind: QtMsgType, _context: QMessageLogContext, words: str | None) -> None:
        log.log(levels.get(kind, logging.ERROR), "%s", words or "")

    before = qInstallMessageHandler(take)
    return lambda: qInstallMessageHandler(before)


class CrashWatch:
    """Has the lines of the program written down when the process dies at once, and finds those of before."""

    def __init__(self, folder: Path) -> None:
        self._path = folder / CRASH_NAME.format(os.getpid())
        self._stream: IO[str] | None = None
        self.before = _told_before(folder)

    def begin(self) -> None:
        """Watch from now on, unless somebody does; where no file can be made, nothing is watched."""
        if faulthandler.is_enabled():
            return
        try:
            self._stream = self._path.open("w", encoding="utf-8")
        except OSError:
            self._stream = None
            return
        faulthandler.enable(self._stream, all_threads=True)

    def end(self) -> None:
        """Watch no more: the process ends as it should."""
        if self._stream is None:
            return
        faulthandler.disable()
        self._stream.close()
        self._stream = None
        with suppress(OSError):
            self._path.unlink(missing_ok=True)


def _told_before(folder: Path) -> tuple[str, ...]:
    """Return the lines of a hard crash of before, and take its file away: it is told once."""
    lines: list[str] = []
    for path in sorted(folder.glob(CRASH_NAME.format("*"))) if folder.is_dir() else ():
        with suppress(OSError):
            text = path.read_text(encoding="utf-8", errors="replace")
            if text:
                lines += [FRAME.sub(lambda found: f'File "{short_path(found[1])}"', text)]
                path.unlink()
    return tuple("\n".join(lines).splitlines())


class PlainFormatter(logging.Formatter):
    """Formats without anything of the grower's: see the module."""

    def format(self, record: logging.LogRecord) -> str:
        line = impersonal(record.getMessage())
        plain = logging.makeLogRecord({**record.__dict__, "msg": line, "args": None, "exc_text": None})
        return super().format(plain)

    def formatException(self, ei: object) -> str:  # noqa: N802 Python's own name
        error = ei[1] if isinstance(ei, tuple) else sys.exception()
        return "\n".join(error_lines(error)) if isinstance(error, BaseException) else ""
