"""Why something was kept in, as it is read: what the program writes down, and the grower's own words."""

from __future__ import annotations

from collections.abc import Iterable

from greenroom.agronomy.hardening import REST
from greenroom.season.within import in_row
from greenroom.speech import tr

APART = "; "
REST_DAY = "a day of rest after leaf scorch"
"""What is written down for a day on which the ramp rests."""

REASON_WORDS = {
    "too cold": tr("too cold"),
    "strong gusts": tr("strong gusts"),
    "gusts": tr("gusts"),
    "wind": tr("wind"),
    "heavy rain": tr("heavy rain"),
    "rain": tr("rain"),
    "nobody at home": tr("nobody at home"),
    "plants are tired": tr("plants are tired"),
    REST: tr("rest after leaf scorch"),
    REST_DAY: tr("a day of rest after leaf scorch"),
}


def reason_words(reason: str) -> str:
    """Return a reason to shelter plants or to keep them in, as the grower reads it; own words stay."""
    return REASON_WORDS.get(reason, reason)


def reasons_words(reasons: Iterable[str]) -> str:
    """Return reasons in a row, as the grower reads them."""
    return in_row(map(reason_words, reasons))


def kept_words(written: str) -> str:
    """Return what was written of a day kept in, one reason or several, as the grower reads it."""
    return reasons_words(written.split(APART))
