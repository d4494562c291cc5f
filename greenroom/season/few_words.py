"""Words that many acts and pages share: a spot, names in a row, sun or shade, wet or dry, causes of loss."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import reduce

from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.speech import tr

SLOT = "\0"
FORMS = {"tray": tr("tray"), "rack": tr("rack"), "bed": tr("bed")}
IN_LIGHT = {"sun": tr("in the sun"), "shade": tr("in the shade")}
INTO_LIGHT = {"sun": tr("into the sun"), "shade": tr("into the shade")}
WATERED_FROM = {"above": tr("from above"), "below": tr("from below")}
MIX_LEVELS = {
    "wet": tr("wet", sense="of the mix"),
    "moist": tr("moist", sense="of the mix"),
    "dry": tr("dry", sense="of the mix"),
}
THINNED = "thinned"
"""The cause of a loss that is none: seedlings taken out to leave one."""

LOST_BY = {
    "did not come up": tr("did not come up"),
    "damping-off": tr("damping-off"),
    "dried out": tr("dried out"),
    "too wet": tr("too wet"),
    "cold": tr("cold", sense="cause of a loss"),
    "heat or sun": tr("heat or sun"),
    "eaten": tr("eaten"),
    "broken": tr("broken"),
    THINNED: tr("thinned", sense="cause of a loss"),
    "": tr("no cause given"),
}
"""The causes of a loss to choose from, as the ledger keeps them and as the grower reads them."""

RIPE_WORDS = {
    "green": tr("green", sense="of fruit"),
    "turning": tr("turning", sense="of fruit"),
    "ripe": tr("ripe", sense="of fruit"),
}


def next_number(named: Callable[[object], str], used: Iterable[str]) -> int:
    """Return the number after the greatest that a name made by ``named`` bears among those in use."""
    before, after = (re.escape(part.casefold()) for part in named(SLOT).split(SLOT))
    pattern = re.compile(rf"{before}(\d{{1,6}}){after}")
    found = (pattern.fullmatch(name.casefold()) for name in used)
    return max((int(match[1]) for match in found if match), default=0) + 1


def spot_words(season: Season, key: SpotKey) -> str:
    """Return a spot with its holder: B3 of Tray A."""
    return tr("{spot} of {holder}", spot=key.label, holder=season.holder(key.holder).name)


def and_words(names: Iterable[str]) -> str:
    """Return names in a row: Bed 1 and Bed 2 and Bed 3; an empty text for none."""
    found = list(names)
    return (
        reduce(lambda first, last: tr("{first} and {last}", first=first, last=last), found) if found else ""
    )
