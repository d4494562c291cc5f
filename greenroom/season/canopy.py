"""The leaf cover of a tray over the days, as photographs of it were read."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from statistics import median

from greenroom.ledger.facts import CanopySeen, CellCover
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.speech import tr


@dataclass(frozen=True, slots=True)
class CanopyDay:
    """The leaf cover of a tray on one day: of each cell that was read, and the middle of those with leaf."""

    day: date
    cover: dict[SpotKey, float]
    middle: float
    leafy: int


def canopy_days(season: Season, holder: str) -> tuple[CanopyDay, ...]:
    """Return the leaf cover of a tray day by day; of several readings of a day the last counts."""
    found: dict[date, CanopySeen] = {}
    for fact in season.facts(CanopySeen):
        if fact.holder == holder:
            found[fact.day] = fact
    return tuple(_day(fact) for fact in found.values())


def middle_cover(cells: Iterable[CellCover]) -> tuple[float, int]:
    """Return the median cover of the cells that show leaf, and how many those are; 0 where none does."""
    leafy = [cell.cover for cell in cells if cell.cover > 0]
    return (median(leafy) if leafy else 0.0), len(leafy)


def cover_words(share: float) -> str:
    """Return a leaf cover as it is read: "25 %", "1.2 %"."""
    percent = share * 100
    return (
        tr("{percent:.0f} %", percent=percent)
        if percent == 0 or percent >= 10
        else tr("{percent:.1f} %", percent=percent)
    )


def _day(fact: CanopySeen) -> CanopyDay:
    cover = {SpotKey(fact.holder, cell.row, cell.column): cell.cover for cell in fact.cells}
    return CanopyDay(fact.day, cover, *middle_cover(fact.cells))
