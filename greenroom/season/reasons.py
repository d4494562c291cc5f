"""Why something was kept in, as it is read: what the program writes down, and the grower's own words."""

from __future__ import annotations

from collections.abc import Iterable

from greenroom.season.hardening_words import reason_words
from greenroom.season.within import in_row
from greenroom.speech import tr

APART = "; "
REST_DAY = "a day of rest after leaf scorch"
"""What is written down for a day on which the ramp rests."""


def kept_words(written: str) -> str:
    """Return what was written of a day kept in, one reason or several, as the grower reads it."""
    return reasons_words(written.split(APART))


def reasons_words(reasons: Iterable[str]) -> str:
    """Return reasons in a row, as the grower reads them."""
    return in_row(_words(one) for one in reasons)


def _words(reason: str) -> str:
    return tr("a day of rest after leaf scorch") if reason == REST_DAY else reason_words(reason)
