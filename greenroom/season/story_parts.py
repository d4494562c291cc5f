"""A spot's facts parted into what stood there one after the other."""

from __future__ import annotations

from collections.abc import Sequence

from greenroom.ledger import Entry
from greenroom.ledger.facts import Fact, Lost, Moved, Sown, Sprouted
from greenroom.season.spots import SpotKey, arrives


def fillings(key: SpotKey, entries: Sequence[Entry]) -> list[list[Entry]]:
    """Return the facts about a spot (in order), parted where it was filled while it was free."""
    parts: list[list[Entry]] = []
    waiting = up = 0
    for entry in entries:
        fact = entry.fact
        filled = waiting == 0 and up == 0 and (isinstance(fact, Sown) or arrives(fact, key))
        if filled or not parts:
            parts.append([])
        parts[-1].append(entry)
        waiting, up = walk(waiting, up, fact, came=arrives(fact, key))
    return parts


def emptied(key: SpotKey, entries: Sequence[Entry]) -> Entry | None:
    """Return the fact by which nothing stood or waited in a spot any more; None while something does."""
    waiting = up = 0
    last: Entry | None = None
    for entry in entries:
        before = waiting + up
        waiting, up = walk(waiting, up, entry.fact, came=arrives(entry.fact, key))
        if before and not waiting + up:
            last = entry
        elif waiting + up:
            last = None
    return last


def walk(waiting: int, up: int, fact: Fact, *, came: bool) -> tuple[int, int]:
    """Return the seeds that wait and the seedlings that stand after one more fact."""
    match fact:
        case Sown(seeds=seeds):
            return waiting + seeds, up
        case Sprouted(count=count):
            return max(0, waiting - count), up + count
        case Lost(count=count) if up > 0:
            return waiting, max(0, up - count)
        case Lost(count=count):
            return max(0, waiting - count), up
        case Moved():
            return waiting, up + 1 if came else max(0, up - 1)
    return waiting, up
