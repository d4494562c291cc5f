"""The facts: what somebody saw, did or decided, each written once and at most struck out.

A fact is a frozen record. Whatever can be worked out from facts (states, counts, steps, dates) is
worked out by ``greenroom.season`` and never stored. Every kind of fact is one class here; its table
is derived from it in ``tables.py``, so a kind is described in one place only.

``day`` is the day it happened, a date without a zone. Moments are aware datetimes, kept in UTC.
Rows and columns count from 0. A thing that many facts speak of (a variety, a packet, a holder, an
outing) has a key of its own, so that a fact about it can be struck out and written anew, corrected.
"""

from __future__ import annotations

from greenroom.ledger.facts.base import LONGEST_TEXT, BadFactError, Fact, new_key
from greenroom.ledger.facts.door import (
    LIGHTS,
    SETBACKS,
    HardeningStarted,
    Held,
    OutingEnded,
    OutingStarted,
    OutingSwitched,
    SetbackSeen,
)
from greenroom.ledger.facts.place import (
    TEMPERATURE_UNITS,
    VOLUME_UNITS,
    PlaceSet,
    UnitsSet,
    WeatherDay,
    WeatherRecord,
)
from greenroom.ledger.facts.seed import Packet, Variety
from greenroom.ledger.facts.shelf import (
    FORMS,
    LARGEST_SIDE,
    HolderMade,
    HolderPlaced,
    HolderRetired,
    LeafStage,
    Lost,
    Moved,
    Note,
    Sown,
    SpotFact,
    Sprouted,
)

KINDS: dict[str, type[Fact]] = {
    cls.kind: cls
    for cls in (
        Variety,
        Packet,
        HolderMade,
        HolderPlaced,
        HolderRetired,
        Sown,
        Sprouted,
        LeafStage,
        Lost,
        Moved,
        HardeningStarted,
        OutingStarted,
        OutingSwitched,
        OutingEnded,
        SetbackSeen,
        Held,
        Note,
        PlaceSet,
        UnitsSet,
        WeatherRecord,
    )
}

__all__ = [
    "FORMS",
    "KINDS",
    "LARGEST_SIDE",
    "LIGHTS",
    "LONGEST_TEXT",
    "SETBACKS",
    "TEMPERATURE_UNITS",
    "VOLUME_UNITS",
    "BadFactError",
    "Fact",
    "HardeningStarted",
    "Held",
    "HolderMade",
    "HolderPlaced",
    "HolderRetired",
    "LeafStage",
    "Lost",
    "Moved",
    "Note",
    "OutingEnded",
    "OutingStarted",
    "OutingSwitched",
    "Packet",
    "PlaceSet",
    "SetbackSeen",
    "Sown",
    "SpotFact",
    "Sprouted",
    "UnitsSet",
    "Variety",
    "WeatherDay",
    "WeatherRecord",
    "new_key",
]
