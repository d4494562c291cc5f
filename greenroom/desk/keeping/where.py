"""Where the copies of a ledger are kept."""

from __future__ import annotations

import hashlib
from pathlib import Path

from platformdirs import user_data_path

from greenroom.ledger.backups import Backups


def backups_of(ledger: Path) -> Backups:
    """Return the copies of a ledger: beside it, or in the user's own folder where they cannot be there."""
    whole = ledger.resolve()
    own = f"{whole.name} {hashlib.sha256(str(whole).encode()).hexdigest()[:12]}"
    return Backups(whole, user_data_path("greenroom", appauthor=False) / "backups" / own)
