"""The facts: what somebody saw, did or decided, each written once and at most struck out.

A fact is a frozen record. Whatever can be worked out from facts (states, counts, steps, dates) is
worked out by ``greenroom.season`` and never stored. Every kind of fact is one class here; its table
is derived from it in ``tables.py``, so a kind is described in one place only.

``day`` is the day it happened, a date without a zone. Moments are aware datetimes, kept in UTC.
Rows and columns count from 0. A thing that many facts speak of (a variety, a packet, a holder, an
outing) has a key of its own, so that a fact about it can be struck out and written anew, corrected.
"""

from __future__ import annotations

from typing import Any

from greenroom.ledger.facts.base import ADDED_LATER, LONGEST_TEXT, BadFactError, Fact, new_key
from greenroom.ledger.facts.door import (
    CAUSES,
    COUNTINGS,
    LIGHTS,
    SETBACKS,
    WATERINGS,
    CoolNight,
    CountingSet,
    HardeningStarted,
    Held,
    OutingEnded,
    OutingStarted,
    OutingSwitched,
    RampSet,
    SetbackSeen,
    SkySeen,
    Watered,
    YardSun,
)
from greenroom.ledger.facts.place import (
    LAMPS,
    TEMPERATURE_UNITS,
    VOLUME_UNITS,
    Forecast,
    FrostDatesGiven,
    HourAhead,
    LampMeasured,
    OnlineChoice,
    PlaceSet,
    PlanRules,
    UnitsSet,
    WeatherDay,
    WeatherRecord,
)
from greenroom.ledger.facts.seed import (
    GerminationCount,
    GerminationTest,
    Packet,
    SowingPlanned,
    Variety,
    Wanted,
)
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
        GerminationTest,
        GerminationCount,
        Wanted,
        SowingPlanned,
        Forecast,
        FrostDatesGiven,
        OnlineChoice,
        PlanRules,
        LampMeasured,
        RampSet,
        CountingSet,
        SkySeen,
        YardSun,
        CoolNight,
        Watered,
    )
}

ROWS: dict[str, type[Any]] = {"weather_day": WeatherDay, "hour_ahead": HourAhead}
"""The named tuples of which a fact may hold many, in a field typed ``tuple[..., ...]``, by their table.

The first field of one orders them and is unique within a fact; a kind has at most one field of each.
"""

__all__ = [
    "ADDED_LATER",
    "CAUSES",
    "COUNTINGS",
    "FORMS",
    "KINDS",
    "LAMPS",
    "LARGEST_SIDE",
    "LIGHTS",
    "LONGEST_TEXT",
    "ROWS",
    "SETBACKS",
    "TEMPERATURE_UNITS",
    "VOLUME_UNITS",
    "WATERINGS",
    "BadFactError",
    "CoolNight",
    "CountingSet",
    "Fact",
    "Forecast",
    "FrostDatesGiven",
    "GerminationCount",
    "GerminationTest",
    "HardeningStarted",
    "Held",
    "HolderMade",
    "HolderPlaced",
    "HolderRetired",
    "HourAhead",
    "LampMeasured",
    "LeafStage",
    "Lost",
    "Moved",
    "Note",
    "OnlineChoice",
    "OutingEnded",
    "OutingStarted",
    "OutingSwitched",
    "Packet",
    "PlaceSet",
    "PlanRules",
    "RampSet",
    "SetbackSeen",
    "SkySeen",
    "SowingPlanned",
    "Sown",
    "SpotFact",
    "Sprouted",
    "UnitsSet",
    "Variety",
    "Wanted",
    "Watered",
    "WeatherDay",
    "WeatherRecord",
    "YardSun",
    "new_key",
]
