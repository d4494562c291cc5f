"""What one act did to the ledger, told once, after it is on the disk."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple

from greenroom.ledger.facts import Fact


class Entry(NamedTuple):
    """A fact with its number, which orders facts of the same day, and the act that wrote it."""

    number: int
    act: int
    fact: Fact


@dataclass(frozen=True, slots=True)
class Act:
    """One thing done: ``deed`` is "do", "undo" or "redo"; ``name`` is what the history shows."""

    number: int
    deed: str
    name: str
    written: datetime
    zone: str
    who: str
    reverses: int | None = None


@dataclass(frozen=True, slots=True)
class Change:
    """The facts that came into force and those that went out of it by one act."""

    act: Act
    added: tuple[Entry, ...] = ()
    removed: tuple[Entry, ...] = ()
