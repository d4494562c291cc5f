"""Copies, restoring and mending, in words."""

from __future__ import annotations

from datetime import datetime, tzinfo
from typing import NamedTuple

from greenroom.exchange.mending import Mended
from greenroom.ledger.backup_check import Contents
from greenroom.ledger.backups import BEFORE_RESTORING, Copy
from greenroom.ledger.restore import Restored
from greenroom.season.weekdays import dated_words
from greenroom.speech import figure, many, tr, trn

HEADER = (
    tr("Taken", sense="a copy, when"),
    tr("Why", sense="a copy was taken"),
    tr("Facts"),
    tr("Acts"),
    tr("Size"),
    tr("Checked", sense="a copy"),
)
BY_ITSELF = tr("by itself", sense="a copy was taken")
ASKED_FOR = "asked for"
MARKS = {ASKED_FOR: tr("asked for", sense="a copy"), BEFORE_RESTORING: tr("before restoring")}
KILOBYTE = 1000
UNDO_WORDS = tr("What was there before is kept as a copy too; restoring that one takes this back.")


class Look(NamedTuple):
    """A copy, and what was found in it: what it holds, or what is wrong with it."""

    copy: Copy
    contents: Contents | None = None
    trouble: str = ""


def when_words(moment: datetime, zone: tzinfo) -> str:
    """Return a moment as 14 May 2027, 9:54."""
    local = moment.astimezone(zone)
    return f"{dated_words(local.date())}, {local.hour}:{local.minute:02d}"


def size_words(size: int) -> str:
    """Return a number of bytes as kB or MB."""
    kilobytes = size / KILOBYTE
    return (
        tr("{kilobytes:,.0f} kB", kilobytes=kilobytes)
        if kilobytes < KILOBYTE
        else tr("{kilobytes:,.1f} MB", kilobytes=kilobytes / KILOBYTE)
    )


def row_of(look: Look, zone: tzinfo) -> tuple[str, ...]:
    """Return a copy as a row under HEADER."""
    facts = "" if look.contents is None else figure(look.contents.facts, ",")
    acts = "" if look.contents is None else figure(look.contents.acts, ",")
    checked = (
        tr("sound", sense="a copy")
        if look.contents is not None
        else tr("not sound", sense="a copy")
        if look.trouble
        else tr("being read …")
    )
    copy = look.copy
    return (
        when_words(copy.moment, zone),
        MARKS.get(copy.mark, copy.mark) or BY_ITSELF,
        facts,
        acts,
        size_words(copy.size),
        checked,
    )


def restored_words(copy: Copy, restored: Restored, zone: tzinfo) -> str:
    """Return what came of a restoring."""
    words = tr(
        "The ledger is as it was on {moment}, with {facts}.",
        moment=when_words(copy.moment, zone),
        facts=many(restored.contents.facts, "fact"),
    )
    return f"{words} {UNDO_WORDS}" if restored.saved is not None else words


def mended_words(mended: Mended) -> tuple[str, ...]:
    """Return what a ledger was mended with, a sentence a line, in numbers."""
    return (
        *(_added_to_copy(mended) if mended.copied else _added_alone(mended)),
        *_lost_words(mended.lost),
        tr("The damaged ledger is kept as {name}; nothing was written to it.", name=mended.aside.name),
    )


def _added_to_copy(mended: Mended) -> tuple[str, ...]:
    held = trn("The copy holds {n:,} fact.", "The copy holds {n:,} facts.", mended.copied)
    if not mended.added:
        return held, tr("All that could be read of the damaged ledger is in it.")
    return held, trn(
        "{n:,} fact more could be read of the damaged ledger and came in as one act, "
        "which one undo takes back.",
        "{n:,} facts more could be read of the damaged ledger and came in as one act, "
        "which one undo takes back.",
        mended.added,
    )


def _added_alone(mended: Mended) -> tuple[str, ...]:
    return (
        trn(
            "{n:,} fact could be read of the damaged ledger.",
            "{n:,} facts could be read of the damaged ledger.",
            mended.added,
        ),
    )


def _lost_words(lost: int) -> tuple[str, ...]:
    if not lost:
        return ()
    return (
        trn(
            "{n:,} fact could not be read and is lost.",
            "{n:,} facts could not be read and are lost.",
            lost,
        ),
    )
