"""Holders: trays of cells and racks of pots, and how full they are."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date

from greenroom.ledger import Entry
from greenroom.ledger.facts import HolderMade, HolderPlaced, HolderRetired
from greenroom.season.spots import Spot, SpotKey, Stage


@dataclass(frozen=True, slots=True)
class Holder:
    """A tray or a rack as it stands now; ``mix_c`` is the temperature of its mix [°C]."""

    key: str
    name: str
    form: str
    rows: int
    columns: int
    made_on: date
    cell_ml: float | None = None
    size: str = ""
    place: str = ""
    mix_c: float | None = None
    retired: bool = False

    @property
    def spots(self) -> int:
        """How many cells or pots it has."""
        return self.rows * self.columns

    @property
    def keys(self) -> list[SpotKey]:
        """Its cells or pots, row by row."""
        return [SpotKey(self.key, row, column) for row in range(self.rows) for column in range(self.columns)]


@dataclass(frozen=True, slots=True)
class Counts:
    """How full a holder is.

    ``sown`` and ``up`` count cells that were sown and cells in which something came up, of what each
    was last filled with; ``living`` counts spots that hold a living seedling, ``seedlings`` the
    seedlings themselves.
    """

    spots: int
    stages: dict[Stage, int]
    sown: int
    up: int
    living: int
    seedlings: int
    first_sown: date | None = None
    last_sown: date | None = None


def fold_holder(entries: Iterable[Entry]) -> Holder:
    """Return a holder as its facts leave it; KeyError if it was never made."""
    holder: Holder | None = None
    for entry in entries:
        fact = entry.fact
        if isinstance(fact, HolderMade):
            holder = _made(fact, holder)
        elif holder is not None and isinstance(fact, HolderPlaced):
            holder = replace(holder, place=fact.place, mix_c=fact.mix_c)
        elif holder is not None and isinstance(fact, HolderRetired):
            holder = replace(holder, retired=True)
    if holder is None:
        raise KeyError("no such holder was made")
    return holder


def _made(fact: HolderMade, before: Holder | None) -> Holder:
    place, mix_c = (before.place, before.mix_c) if before else ("", None)
    return Holder(
        fact.holder,
        fact.name,
        fact.form,
        fact.rows,
        fact.columns,
        fact.day,
        fact.cell_ml,
        fact.size,
        place,
        mix_c,
    )


def count(spots: Iterable[Spot]) -> Counts:
    """Return how full the spots are."""
    seen = list(spots)
    stages: dict[Stage, int] = {}
    for spot in seen:
        stages[spot.stage] = stages.get(spot.stage, 0) + 1
    sown_on = [spot.sown_on for spot in seen if spot.sown_on is not None]
    return Counts(
        spots=len(seen),
        stages=stages,
        sown=sum(spot.seeds > 0 for spot in seen),
        up=sum(spot.sprouted > 0 for spot in seen),
        living=sum(spot.up > 0 for spot in seen),
        seedlings=sum(spot.up for spot in seen),
        first_sown=min(sown_on, default=None),
        last_sown=max(sown_on, default=None),
    )
