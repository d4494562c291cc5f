"""Laying the sowing into trays: kinds that like the same warmth and come up at one pace share a tray.

Nothing here is written down: it is a proposal, to be altered and then sown.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from greenroom.season.proposal import RefusedError
from greenroom.season.spots import row_label
from greenroom.speech import many, tr

ALIKE_PACE = 1.6
"""Kinds share a tray if the slowest takes no longer than so many times the fastest: a working rule, so that
a tray leaves the mat at once."""

Cell = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Batch:
    """Cells of one packet to be sown: half are up on ``days_up``, it likes ``best_c`` [°C]."""

    packet: str
    name: str
    cells: int
    seeds_a_cell: int = 1
    days_up: float = 10.0
    best_c: tuple[float, float] = (20.0, 30.0)


@dataclass(frozen=True, slots=True)
class Tray:
    """A tray to fill: one in use, empty, or a new one if ``holder`` is None."""

    rows: int
    columns: int
    holder: str | None = None
    name: str = ""
    mix_c: float | None = None

    @property
    def size(self) -> int:
        """How many cells it has."""
        return self.rows * self.columns


@dataclass(frozen=True, slots=True)
class Block:
    """Where one packet goes in one tray: cells (row, column), column by column."""

    packet: str
    name: str
    cells: tuple[Cell, ...]
    seeds_a_cell: int

    @property
    def words(self) -> str:
        """The cells as written on the tray's edge, run by run: A1 to F1, A2 to B2."""
        runs = [_run_words(list(cells)) for _, cells in groupby(self.cells, key=lambda cell: cell[1])]
        return ", ".join(runs)


@dataclass(frozen=True, slots=True)
class FilledTray:
    """A tray with what goes into it, and the warmth that all of it likes [°C]."""

    tray: Tray
    blocks: tuple[Block, ...]
    best_c: tuple[float, float]

    @property
    def free(self) -> int:
        """Cells left over."""
        return self.tray.size - sum(len(block.cells) for block in self.blocks)


def groups_alike(batches: Iterable[Batch]) -> list[list[Batch]]:
    """Return the batches in groups that like one warmth and come up at one pace, the quickest first.

    All of a group like some warmth in common, and its slowest takes at most `ALIKE_PACE` times as long as
    its fastest.
    """
    groups: list[list[Batch]] = []
    for batch in sorted(batches, key=lambda one: (one.days_up, one.best_c, one.name, one.packet)):
        fitting = (group for group in groups if _fits(group, batch))
        group = next(fitting, None)
        if group is None:
            groups.append([batch])
        else:
            group.append(batch)
    return groups


def fill_trays(batches: Sequence[Batch], trays: Sequence[Tray], new: Tray | None) -> list[FilledTray]:
    """Lay batches into trays.

    Parameters
    ----------
    batches : sequence of Batch
        Those of no cells are left out.
    trays : sequence of Tray
        Empty trays in use. A group goes into those whose mix it likes, and into any of unknown warmth.
    new : Tray or None
        The kind of tray that is taken into use when those run out; None if none is to be.

    Returns
    -------
    list of FilledTray
        Every wanted cell once; a packet is parted over trays only if no tray holds it whole. Each packet
        begins a column of its own, with an empty column between neighbours, as far as there is room;
        else they follow each other cell by cell.

    Raises
    ------
    RefusedError
        If the trays run out and no new ones are to be taken.
    """
    waiting = list(trays)
    filled: list[FilledTray] = []
    for group in groups_alike(batch for batch in batches if batch.cells > 0):
        best_c = _common(group)
        for tray, packed in _pack(group, best_c, waiting, new):
            filled.append(FilledTray(tray, tuple(_laid(packed, tray)), best_c))
    return filled


def moved(filled: Sequence[FilledTray], where: tuple[int, int], to: int, first: Cell) -> list[FilledTray]:
    """Return the trays with one block moved: ``where`` is its tray and place in it, ``to`` the new tray.

    Its cells follow on from ``first``, column by column.

    Raises
    ------
    RefusedError
        If it would run over the tray's end or over another block.
    """
    source, place = where
    block = filled[source].blocks[place]
    trays = [one.blocks for one in filled]
    trays[source] = trays[source][:place] + trays[source][place + 1 :]
    target = filled[to].tray
    order = list(_cells_of(target))
    begin = order.index(first) if first in order else len(order)
    cells = tuple(order[begin : begin + len(block.cells)])
    if len(cells) < len(block.cells):
        raise RefusedError(
            tr(
                "{variety} takes {cells} and {left} are left from there on.",
                variety=block.name,
                cells=many(len(block.cells), "cell"),
                left=len(cells),
            )
        )
    _refuse_overlap(block.name, cells, trays[to])
    trays[to] = (*trays[to], replace(block, cells=cells))
    return [replace(one, blocks=blocks) for one, blocks in zip(filled, trays, strict=True)]


def _refuse_overlap(name: str, cells: Sequence[Cell], blocks: Iterable[Block]) -> None:
    for other in blocks:
        shared = sorted(set(cells) & set(other.cells))
        if shared:
            raise RefusedError(
                tr(
                    "{cell} is {other}'s; choose other cells for {variety}.",
                    cell=_label(shared[0]),
                    other=other.name,
                    variety=name,
                )
            )


def _fits(group: Sequence[Batch], batch: Batch) -> bool:
    low, high = _common([*group, batch])
    days = [one.days_up for one in (*group, batch)]
    return low <= high and max(days) <= ALIKE_PACE * min(days)


def _common(group: Sequence[Batch]) -> tuple[float, float]:
    """Return the warmth that all of a group like; its first end is the greater where they have none."""
    return max(one.best_c[0] for one in group), min(one.best_c[1] for one in group)


def _pack(
    group: Sequence[Batch], best_c: tuple[float, float], waiting: list[Tray], new: Tray | None
) -> Iterator[tuple[Tray, list[Batch]]]:
    """Yield trays with what goes into each: the largest batch first, into the first tray with room."""
    open_trays: list[tuple[Tray, list[Batch]]] = []
    for batch in sorted(group, key=lambda one: -one.cells):
        left = batch
        while left.cells > 0:
            tray, packed = _room_for(left, open_trays, best_c, waiting, new)
            room = min(left.cells, tray.size - sum(one.cells for one in packed))
            packed.append(replace(left, cells=room))
            left = replace(left, cells=left.cells - room)
    order = {batch.packet: place for place, batch in enumerate(group)}
    for tray, packed in open_trays:
        yield tray, sorted(packed, key=lambda one: order[one.packet])


def _room_for(
    batch: Batch,
    open_trays: list[tuple[Tray, list[Batch]]],
    best_c: tuple[float, float],
    waiting: list[Tray],
    new: Tray | None,
) -> tuple[Tray, list[Batch]]:
    """Return an open tray that holds the whole batch, or one more, taken from those waiting or new."""
    for tray, packed in open_trays:
        if sum(one.cells for one in packed) + batch.cells <= tray.size:
            return tray, packed
    liked = [tray for tray in waiting if tray.mix_c is None or best_c[0] <= tray.mix_c <= best_c[1]]
    chosen = _best_tray(batch, liked, new)
    if chosen is None:
        raise RefusedError(
            tr(
                "The trays are full and {variety} still needs {cells}; take another into use.",
                variety=batch.name,
                cells=many(batch.cells, "cell"),
            )
        )
    if chosen is not new:
        waiting.remove(chosen)
    open_trays.append((chosen, []))
    return open_trays[-1]


def _best_tray(batch: Batch, liked: Sequence[Tray], new: Tray | None) -> Tray | None:
    """Return the smallest tray in use that holds a batch, else a new one that does, else the largest."""
    large = [tray for tray in liked if tray.size >= batch.cells]
    if large:
        return min(large, key=_size)
    if new is not None and new.size >= batch.cells:
        return new
    return max([*liked, *([new] if new is not None else [])], key=_size, default=None)


def _size(tray: Tray) -> int:
    return tray.size


def _laid(packed: Sequence[Batch], tray: Tray) -> Iterator[Block]:
    """Yield the blocks of one tray: in columns of their own if there is room, else cell after cell."""
    columns = [-(-batch.cells // tray.rows) for batch in packed]
    spare = tray.columns - sum(columns)
    order = list(_cells_of(tray))
    begin = 0
    for place, (batch, wide) in enumerate(zip(packed, columns, strict=True)):
        cells = tuple(order[begin : begin + batch.cells])
        yield Block(batch.packet, batch.name, cells, batch.seeds_a_cell)
        if spare < 0:
            begin += batch.cells
        else:
            begin += (wide + (spare > place)) * tray.rows


def _cells_of(tray: Tray) -> Iterator[Cell]:
    """Yield the cells of a tray, column by column."""
    return ((row, column) for column in range(tray.columns) for row in range(tray.rows))


def _run_words(cells: Sequence[Cell]) -> str:
    first, last = _label(cells[0]), _label(cells[-1])
    return first if first == last else tr("{first} to {last}", sense="cells", first=first, last=last)


def _label(cell: Cell) -> str:
    return f"{row_label(cell[0])}{cell[1] + 1}"
