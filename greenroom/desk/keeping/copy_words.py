"""Copies, restoring and mending, in words."""

from __future__ import annotations

from datetime import datetime, tzinfo
from typing import NamedTuple

from greenroom.exchange.mending import Mended
from greenroom.ledger.backup_check import Contents
from greenroom.ledger.backups import Copy
from greenroom.ledger.restore import Restored
from greenroom.season.hardening_words import day_words
from greenroom.speech import many

HEADER = ("Taken", "Why", "Facts", "Acts", "Size", "Checked")
BY_ITSELF = "by itself"
KILOBYTE = 1000
UNDO_WORDS = "What was there before is kept as a copy too; restoring that one takes this back."


class Look(NamedTuple):
    """A copy, and what was found in it: what it holds, or what is wrong with it."""

    copy: Copy
    contents: Contents | None = None
    trouble: str = ""


def when_words(moment: datetime, zone: tzinfo) -> str:
    """Return a moment as 14 May 2027, 9:54."""
    local = moment.astimezone(zone)
    return f"{day_words(local.date())} {local.year}, {local.hour}:{local.minute:02d}"


def size_words(size: int) -> str:
    """Return a number of bytes as kB or MB."""
    kilobytes = size / KILOBYTE
    return f"{kilobytes:,.0f} kB" if kilobytes < KILOBYTE else f"{kilobytes / KILOBYTE:,.1f} MB"


def row_of(look: Look, zone: tzinfo) -> tuple[str, ...]:
    """Return a copy as a row under HEADER."""
    facts = "" if look.contents is None else f"{look.contents.facts:,}"
    acts = "" if look.contents is None else f"{look.contents.acts:,}"
    checked = "sound" if look.contents is not None else "not sound" if look.trouble else "being read …"
    copy = look.copy
    return (
        when_words(copy.moment, zone),
        copy.mark or BY_ITSELF,
        facts,
        acts,
        size_words(copy.size),
        checked,
    )


def restored_words(copy: Copy, restored: Restored, zone: tzinfo) -> str:
    """Return what came of a restoring."""
    words = (
        f"The ledger is as it was on {when_words(copy.moment, zone)}, "
        f"with {many(restored.contents.facts, 'fact')}."
    )
    return f"{words} {UNDO_WORDS}" if restored.saved is not None else words


def mended_words(mended: Mended) -> tuple[str, ...]:
    """Return what a ledger was mended with, a sentence a line, in numbers."""
    lines = []
    if mended.copied:
        lines.append(f"The copy holds {many(mended.copied, 'fact')}.")
        lines.append(
            f"{many(mended.added, 'fact')} more could be read of the damaged ledger and came in as one act, "
            f"which one undo takes back."
            if mended.added
            else "All that could be read of the damaged ledger is in it."
        )
    else:
        lines.append(f"{many(mended.added, 'fact')} could be read of the damaged ledger.")
    if mended.lost:
        lines.append(f"{many(mended.lost, 'fact')} could not be read and {_are(mended.lost)} lost.")
    lines.append(f"The damaged ledger is kept as {mended.aside.name}; nothing was written to it.")
    return tuple(lines)


def _are(number: int) -> str:
    return "is" if number == 1 else "are"
