"""What an act is called where nobody named it, and whose hand is taken to have written it."""

from __future__ import annotations

import getpass
from collections import Counter
from collections.abc import Sequence

from greenroom.ledger.facts import Fact


def user_name() -> str:
    """Return who is logged in, as far as the system knows."""
    try:
        return getpass.getuser()
    except (OSError, KeyError, ImportError):
        return "unknown"


def act_name(facts: Sequence[Fact]) -> str:
    """Name an act for what it wrote, such as "3 × sowing, note"."""
    counts = Counter(fact.words for fact in facts)
    return ", ".join(words if count == 1 else f"{count} × {words}" for words, count in counts.items())
