"""Which columns or rows of a tray belong to one variety, so that its name is written over them once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

from greenroom.season.packets import variety_name
from greenroom.season.state import Season
from greenroom.speech import tr

SEVERAL = tr("several varieties")


@dataclass(frozen=True, slots=True)
class Band:
    """Neighbouring columns (or rows) from ``first`` to ``last`` with the varieties in them."""

    first: int
    last: int
    names: tuple[str, ...]

    @property
    def words(self) -> str:
        """What is written over them."""
        return self.names[0] if len(self.names) == 1 else SEVERAL

    @property
    def full_words(self) -> str:
        """Every name."""
        return ", ".join(self.names)


@dataclass(frozen=True, slots=True)
class Bands:
    """Bands over the columns, or beside the rows where only rows are of one variety each."""

    columns: tuple[Band, ...] = ()
    rows: tuple[Band, ...] = ()


def bands_of(season: Season, holder: str) -> Bands:
    """Return the bands of a holder as it stands."""
    made = season.holder(holder)
    names: dict[str, str] = {}
    lines: list[list[str | None]] = [[] for _ in range(made.rows)]
    for spot in season.spots(holder):
        if spot.packet is not None and spot.packet not in names:
            names[spot.packet] = variety_name(season, spot.packet)
        lines[spot.key.row].append(names[spot.packet] if spot.packet is not None else None)
    return bands(lines)


def bands(names: Sequence[Sequence[str | None]]) -> Bands:
    """Return the bands of a grid of names, given row by row; None is a cell without one."""
    across = [_kinds(column) for column in zip(*names, strict=True)]
    down = [_kinds(row) for row in names]
    if any(len(kinds) > 1 for kinds in across) and all(len(kinds) <= 1 for kinds in down):
        return Bands(rows=_merged(down))
    return Bands(columns=_merged(across))


def _kinds(cells: Iterable[str | None]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for name in cells if name is not None))


def _merged(lines: Sequence[tuple[str, ...]]) -> tuple[Band, ...]:
    """Merge neighbours of the same variety, and neighbours of several each."""
    found: list[Band] = []
    keyed = ((lines[place] if len(lines[place]) <= 1 else (SEVERAL,), place) for place in range(len(lines)))
    for kinds, run in groupby(keyed, key=lambda one: one[0]):
        places = [place for _, place in run]
        if kinds:
            names = dict.fromkeys(name for place in places for name in lines[place])
            found.append(Band(places[0], places[-1], tuple(names)))
    return tuple(found)
