"""What happened: facts, written once and struck out, never changed."""

from greenroom.ledger.change import Act, Change, Entry
from greenroom.ledger.errors import LedgerError
from greenroom.ledger.facts import BadFactError
from greenroom.ledger.store import Ledger

__all__ = ["Act", "BadFactError", "Change", "Entry", "Ledger", "LedgerError"]
