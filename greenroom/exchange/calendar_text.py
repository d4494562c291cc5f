"""Calendars as text by RFC 5545 (Desruisseaux 2009): properties, folding, escaping, dates and moments.

Section 3.1: lines end with CRLF and hold at most 75 octets, longer ones are folded. Section 3.3.11: a
backslash goes before backslash, comma and semicolon in text, and a line end is written as ``\\n``.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime, timedelta

LINE_END = "\r\n"
LONGEST_OCTETS = 75
FORBIDDEN = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]")
"""Control signs that section 3.1 keeps out of values (CONTROL but the tab)."""


def folded(line: str) -> str:
    """Return a line with its end, folded between characters so that no piece has over 75 octets."""
    pieces, piece, room = [], "", LONGEST_OCTETS
    for letter in line:
        octets = len(letter.encode("utf-8"))
        if octets > room:
            pieces.append(piece)
            piece, room = "", LONGEST_OCTETS - 1  # the space that begins a folded line counts
        piece += letter
        room -= octets
    return f"{LINE_END} ".join([*pieces, piece]) + LINE_END


def unfolded(text: str) -> Iterator[str]:
    """Yield the lines of a calendar as they were before they were folded."""
    whole = ""
    for line in text.replace("\r\n", "\n").split("\n"):
        if line[:1] in (" ", "\t"):
            whole += line[1:]
            continue
        if whole:
            yield whole
        whole = line
    if whole:
        yield whole


def escaped(text: str) -> str:
    """Return text as it stands in a calendar."""
    plain = FORBIDDEN.sub(" ", text).replace("\r\n", "\n").replace("\r", "\n")
    for sign in ("\\", ";", ","):
        plain = plain.replace(sign, f"\\{sign}")
    return plain.replace("\n", "\\n")


def unescaped(text: str) -> str:
    """Return text as it was before it was escaped."""
    return re.sub(r"\\(.)", lambda found: "\n" if found[1] in "nN" else found[1], text)


def text_property(name: str, text: str) -> str:
    """Return a property whose value is text."""
    return folded(f"{name}:{escaped(text)}")


def plain_property(name: str, value: str, parameters: Mapping[str, str] | None = None) -> str:
    """Return a property whose value is of another kind, with its parameters."""
    told = "".join(f";{key}={worth}" for key, worth in (parameters or {}).items())
    return folded(f"{name}{told}:{value}")


def date_value(day: date) -> str:
    """Return a date by section 3.3.4."""
    return f"{day:%Y%m%d}" if day.year >= 1000 else f"{day.year:04}{day:%m%d}"


def utc_value(moment: datetime) -> str:
    """Return a moment in UTC by section 3.3.5, form 2."""
    return f"{moment.astimezone(UTC):%Y%m%dT%H%M%S}Z"


def local_value(moment: datetime) -> str:
    """Return the local time of a moment by section 3.3.5, forms 1 and 3."""
    return f"{moment:%Y%m%dT%H%M%S}"


def offset_value(offset: timedelta) -> str:
    """Return an offset from UTC by section 3.3.14."""
    seconds = round(abs(offset).total_seconds())
    sign = "-" if offset < timedelta(0) else "+"
    told = f"{sign}{seconds // 3600:02}{seconds // 60 % 60:02}"
    return f"{told}{seconds % 60:02}" if seconds % 60 else told


def duration_value(length: timedelta) -> str:
    """Return a whole number of minutes as a duration by section 3.3.6."""
    minutes = round(length.total_seconds() / 60)
    sign = "-" if minutes < 0 else ""
    hours, rest = divmod(abs(minutes), 60)
    if rest == 0 and hours:
        return f"{sign}PT{hours}H"
    return f"{sign}PT{hours}H{rest}M" if hours else f"{sign}PT{rest}M"
