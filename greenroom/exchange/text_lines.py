"""The lines of a text file from anywhere: decoded, checked and counted one at a time.

Nothing here trusts the file: its kind, size, encoding, line lengths and line count are all bounded,
so that a wrong file is refused with a sentence before it costs memory or time.
"""

from __future__ import annotations

import codecs
import os
import re
import stat
from collections.abc import Iterator
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO, Self

from greenroom.exchange.errors import BadFileError
from greenroom.speech import tr

LEGACY = "cp1252"
"""What a file that is not UTF-8 is read as, where a file of that kind may be so old."""

CHUNK_BYTES = 1 << 16
LONGEST_LINE_BYTES = 32_768
SHOWN_CHARACTERS = 40
LONGEST_NAME = 100
WORKBOOK_BEGINNINGS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")
UTF_16_MARKS = (codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)
# No text file holds these; tab, line feed and carriage return are the only ones allowed.
CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")


def clean(text: str, longest: int = SHOWN_CHARACTERS) -> str:
    """Return the beginning of ``text``, fit to stand in a sentence however odd or long it is."""
    fit = "".join(letter if letter.isprintable() else "�" for letter in text[: longest + 1])
    return fit if len(fit) <= longest else f"{fit[:longest]}…"


def shown(text: str) -> str:
    """Return the beginning of ``text`` in quotation marks, fit to stand in a sentence."""
    return f"“{clean(text)}”"


def _shown_name(path: Path) -> str:
    """Return the name of a file, without its folder, fit to stand in a sentence."""
    return clean(path.name, LONGEST_NAME) or tr("The file")


def _open_regular(path: Path) -> BinaryIO:
    name = _shown_name(path)
    try:
        if not stat.S_ISREG(path.stat().st_mode):
            raise BadFileError(
                tr("{name} is not a file but a folder or a device; a text file is needed.", name=name)
            )
        return path.open("rb")
    except FileNotFoundError as error:
        raise BadFileError(
            tr("{name} was not found; it may have been moved or renamed.", name=name)
        ) from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or tr("its name is not allowed here")
        raise BadFileError(
            tr("{name} cannot be read ({reason}); a readable text file is needed.", name=name, reason=reason)
        ) from error


def _valid_utf8(raw: bytes) -> bool:
    try:
        raw.decode("utf-8")
    except UnicodeDecodeError:
        return False
    return True


@dataclass(frozen=True, slots=True)
class Limits:
    """How large a file may be; ``meaning`` says what so many lines would be."""

    megabytes: int
    lines: int
    columns: int
    meaning: str


class TextLines:
    """Iterate over the lines of one text file, without their line ends; use it as a context manager.

    ``number`` is the line last given, from 1. ``unended`` turns true when the last line has no line
    end. With ``legacy`` a file that is not UTF-8 at all is read in that encoding instead.
    """

    def __init__(self, path: str | Path, limits: Limits, legacy: str | None = None) -> None:
        """Open the file and settle its encoding; raise BadFileError if it is no such text file."""
        place = Path(path)
        self.name = _shown_name(place)
        self.limits = limits
        self.encoding = "utf-8"
        self.number = 0
        self.unended = False
        self._stream = _open_regular(place)
        with ExitStack() as undo:
            undo.callback(self._stream.close)
            self._prepare(legacy)
            undo.pop_all()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *problem: object) -> None:
        self._stream.close()

    def __iter__(self) -> Iterator[str]:
        for raw in self._raw_lines():
            self.number += 1
            if self.number > self.limits.lines:
                raise self.refusal(
                    tr(
                        "there are more than {lines:,} lines; up to that many ({meaning}) are allowed",
                        lines=self.limits.lines,
                        meaning=self.limits.meaning,
                    )
                )
            yield self._text(raw)

    def refusal(self, sentence: str, line: int | None = None, column: str | None = None) -> BadFileError:
        """Return the error that says where in this file what is wrong."""
        where = [self.name]
        if line is not None:
            where.append(tr("line {line}", line=line))
        if column is not None:
            where.append(tr("column {column}", column=column))
        return BadFileError(tr("{where}: {sentence}.", where=", ".join(where), sentence=sentence))

    def share_done(self) -> float:
        """Return how much of the file has been read, 0 to 1."""
        return min(1.0, self._stream.tell() / self._bytes)

    def head(self) -> list[str]:
        """Return the first whole lines, leniently decoded, to judge the layout by."""
        text = self._head.decode(self.encoding, "replace")
        lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
        whole = lines if len(self._head) == self._bytes - self._start else lines[:-1]
        return [line for line in whole if line.strip()]

    def _prepare(self, legacy: str | None) -> None:
        self._bytes = os.fstat(self._stream.fileno()).st_size
        self._start = 0
        allowed = self.limits.megabytes * 1_000_000
        if self._bytes == 0:
            raise self.refusal(tr("the file is empty; a header line and rows below it are needed"))
        if self._bytes > allowed:
            raise self.refusal(
                tr(
                    "the file is too large, {size:,.0f} MB; up to {most} MB ({meaning}) is allowed",
                    size=self._bytes / 1e6,
                    most=self.limits.megabytes,
                    meaning=self.limits.meaning,
                )
            )
        self._head = self._read(CHUNK_BYTES)
        self._refuse_other_kinds()
        if self._head.startswith(codecs.BOM_UTF8):
            self._start = len(codecs.BOM_UTF8)
            self._head = self._head[self._start :]
        elif legacy is not None:
            self._settle_encoding(legacy)
        self._end = b"\r" if b"\r" in self._head and b"\n" not in self._head else b"\n"
        self._stream.seek(self._start)

    def _refuse_other_kinds(self) -> None:
        if self._head.startswith(WORKBOOK_BEGINNINGS):
            raise self.refusal(tr("this is a workbook or an archive; save the sheet as CSV, which is text"))
        if self._head.startswith(UTF_16_MARKS):
            raise self.refusal(tr("the text is in UTF-16; save it as CSV in UTF-8"))
        if b"\x00" in self._head:
            raise self.refusal(tr("this is not a text file; a CSV file in UTF-8 is needed"))

    def _settle_encoding(self, legacy: str) -> None:
        """Choose ``legacy`` if no UTF-8 is in the file; a file with some is damaged UTF-8."""
        data = self._head + self._read(self._bytes)
        if not _valid_utf8(data) and data.decode("utf-8", "ignore").isascii():
            self.encoding = legacy

    def _read(self, count: int) -> bytes:
        try:
            return self._stream.read(count)
        except OSError as error:
            raise self.refusal(
                tr("reading stopped ({reason}); a readable file is needed", reason=error.strerror)
            ) from error

    def _raw_lines(self) -> Iterator[bytes]:
        rest = b""
        while chunk := self._read(CHUNK_BYTES):
            lines = (rest + chunk).split(self._end)
            rest = lines.pop()
            yield from lines
            if len(rest) > LONGEST_LINE_BYTES:
                break
        if rest:
            self.unended = True
            yield rest

    def _text(self, raw: bytes) -> str:
        if len(raw) > LONGEST_LINE_BYTES:
            raise self.refusal(
                tr(
                    "the line is too long; up to {most:,} bytes a line are allowed",
                    most=LONGEST_LINE_BYTES,
                ),
                self.number,
            )
        try:
            text = raw.decode(self.encoding)
        except UnicodeDecodeError as error:
            raise self.refusal(
                tr("byte {place} is not text in UTF-8; save the file as CSV in UTF-8", place=error.start + 1),
                self.number,
            ) from error
        text = text.removesuffix("\r")
        if CONTROL.search(text):
            raise self.refusal(tr("this is not plain text; a CSV file in UTF-8 is needed"), self.number)
        return text
