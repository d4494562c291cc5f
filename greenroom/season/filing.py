"""Under what each fact is filed in a season: the spots it speaks of, and its kind, in which order."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from greenroom.ledger import Entry
from greenroom.ledger.facts import (
    AnywhereFact,
    BasinEmptied,
    BedLaid,
    CanopySeen,
    Covered,
    Fact,
    Fed,
    Finding,
    Flowered,
    Forecast,
    FrostDatesGiven,
    GerminationCount,
    GerminationTest,
    HolderMade,
    HolderPlaced,
    HolderRetired,
    JobPutOff,
    JobStruck,
    LampMeasured,
    LampsSet,
    LookedOver,
    MixFelt,
    Mulched,
    Note,
    Obstacle,
    ObstacleGone,
    OnlineChoice,
    Packet,
    Picked,
    PictureKept,
    PlaceSet,
    PlanRules,
    Pruned,
    RampSet,
    SeedSaved,
    SkySeen,
    SoilFelt,
    SowingPlanned,
    SpotFact,
    Staked,
    UnitsSet,
    Variety,
    Wanted,
    WeatherRecord,
    Weighed,
    WithinFact,
    YardSun,
)
from greenroom.season.spots import SpotKey, keys_of, order_of


def number_of(entry: Entry) -> int:
    """Return what orders facts by their writing."""
    return entry.number


def spots_of(fact: Fact) -> tuple[SpotKey, ...]:
    """Return the spots a fact speaks of: one, both ends of a move, or none."""
    if isinstance(fact, SpotFact):
        return keys_of(fact)
    if isinstance(fact, Note | WithinFact | AnywhereFact):
        holder, row, column = fact.holder, fact.row, fact.column
        if holder is not None and row is not None and column is not None:
            return (SpotKey(holder, row, column),)
    return ()


_BY_DAY = (
    HolderMade,
    HolderPlaced,
    HolderRetired,
    GerminationTest,
    GerminationCount,
    LampMeasured,
    SkySeen,
    Weighed,
    BasinEmptied,
    MixFelt,
    Fed,
    LampsSet,
    LookedOver,
    Finding,
    Pruned,
    Staked,
    Mulched,
    Flowered,
    Picked,
    SeedSaved,
    Covered,
    SoilFelt,
    PictureKept,
    CanopySeen,
)

# Of these the last one written counts, whatever day it is filed under.
_BY_NUMBER = (
    Variety,
    Packet,
    PlaceSet,
    UnitsSet,
    WeatherRecord,
    Wanted,
    SowingPlanned,
    Forecast,
    FrostDatesGiven,
    OnlineChoice,
    PlanRules,
    RampSet,
    YardSun,
    BedLaid,
    Obstacle,
    ObstacleGone,
    JobPutOff,
    JobStruck,
)

ORDERS: dict[type[Fact], Callable[[Entry], Any]] = {
    **dict.fromkeys(_BY_DAY, order_of),
    **dict.fromkeys(_BY_NUMBER, number_of),
}
"""The kinds that are kept by kind, and what orders each."""
