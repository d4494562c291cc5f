"""What happened: facts, written once and struck out, never changed.

``Ledger`` is loaded when it is first asked for: facts alone need no database.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from greenroom.ledger.book import Book
from greenroom.ledger.change import Act, Change, Entry
from greenroom.ledger.errors import LedgerError
from greenroom.ledger.facts import BadFactError

if TYPE_CHECKING:
    from greenroom.ledger.store import Ledger

__all__ = ["Act", "BadFactError", "Book", "Change", "Entry", "Ledger", "LedgerError"]


def __getattr__(name: str) -> type[Ledger]:
    if name != "Ledger":
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from greenroom.ledger.store import Ledger

    return Ledger
