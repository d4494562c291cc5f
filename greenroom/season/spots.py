"""What stands in one spot, worked out from the facts about it."""

from __future__ import annotations

import string
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from datetime import date
from enum import Enum
from typing import NamedTuple, TypeGuard

from greenroom.ledger import Entry
from greenroom.ledger.facts import Fact, LeafStage, Lost, Moved, Sown, SpotFact, Sprouted

FIRST_TRUE_LEAVES = 2  # the first true leaves come as a pair in peppers, tomatoes and most dicots


class SpotKey(NamedTuple):
    """One spot: the holder's key, row and column from 0."""

    holder: str
    row: int
    column: int

    @property
    def label(self) -> str:
        """The spot as written on the tray's edge: B3 is the second row, third column."""
        return f"{row_label(self.row)}{self.column + 1}"


class Stage(Enum):
    """What a spot shows."""

    BARE = "bare"
    SOWN = "sown"
    UP = "up"
    LEAVES = "true leaves"
    LOST = "lost"
    MOVED = "moved on"


@dataclass(frozen=True, slots=True)
class Spot:
    """What stands in one spot, told from when it was last filled while nothing stood or waited there.

    ``seeds`` counts what was sown since then, ``waiting`` those not yet up nor given up, ``sprouted``
    those that came up here, ``up`` living seedlings. ``sown_on`` is the day of the latest sowing;
    ``first_up``, ``leaves`` and ``leaves_on`` are of the seedlings that stand there now, or stood
    there last. ``origin`` is the spot a potted-up seedling came from.
    """

    key: SpotKey
    packet: str | None = None
    sown_on: date | None = None
    seeds: int = 0
    waiting: int = 0
    up: int = 0
    sprouted: int = 0
    first_up: date | None = None
    leaves: int = 0
    leaves_on: date | None = None
    lost: int = 0
    cause: str = ""
    moved_on: int = 0
    origin: SpotKey | None = None
    arrived: date | None = None

    @property
    def stage(self) -> Stage:
        """What the spot shows; a living seedling is shown before anything else."""
        if self.up > 0:
            return Stage.LEAVES if self.leaves >= FIRST_TRUE_LEAVES else Stage.UP
        if self.waiting > 0:
            return Stage.SOWN
        if self.moved_on > 0:
            return Stage.MOVED
        return Stage.LOST if self.lost > 0 else Stage.BARE

    @property
    def free(self) -> bool:
        """Whether seeds or a seedling may go in: nothing living and nothing waiting."""
        return self.up == 0 and self.waiting == 0


Traveller = Callable[[Entry], Spot]


def row_label(row: int) -> str:
    """Return the letter of a row: A to Z, then AA, AB and so on."""
    letters = string.ascii_uppercase
    return letters[row] if row < len(letters) else row_label(row // 26 - 1) + letters[row % 26]


def keys_of(fact: SpotFact) -> tuple[SpotKey, ...]:
    """Return the spots a fact speaks of: one, or both ends of a move."""
    here = SpotKey(fact.holder, fact.row, fact.column)
    if isinstance(fact, Moved):
        return here, SpotKey(fact.to_holder, fact.to_row, fact.to_column)
    return (here,)


def order_of(entry: Entry) -> tuple[date, int]:
    """Return what orders facts: the day it happened, then the order of writing."""
    return entry.fact.day, entry.number


def fold_spot(key: SpotKey, entries: Iterable[Entry], traveller: Traveller) -> Spot:
    """Return what stands in ``key`` after ``entries`` (in order).

    ``traveller`` tells, for a move into this spot, what the seedling was where it came from. It is
    asked only where the answer shows: of the move that last filled the spot.
    """
    told = list(entries)
    if any(arrives(entry.fact, key) for entry in told):
        told = since_filled(key, told)
    spot = Spot(key)
    for entry in told:
        spot = _step(spot, entry, traveller)
    return spot


def since_filled(key: SpotKey, entries: Iterable[Entry]) -> list[Entry]:
    """Return the facts (in order) from the one that last filled the spot while it was free."""
    return (fillings(key, entries) or [[]])[-1]


def fillings(key: SpotKey, entries: Iterable[Entry]) -> list[list[Entry]]:
    """Return the facts about a spot (in order), parted where it was filled while it was free."""
    parts: list[list[Entry]] = []
    waiting = up = 0
    for entry in entries:
        fact = entry.fact
        filled = waiting == 0 and up == 0 and (isinstance(fact, Sown) or arrives(fact, key))
        if filled or not parts:
            parts.append([])
        parts[-1].append(entry)
        waiting, up = left_after(waiting, up, fact, came=arrives(fact, key))
    return parts


def emptied(key: SpotKey, entries: Iterable[Entry]) -> Entry | None:
    """Return the fact by which nothing stood or waited in a spot any more; None while something does."""
    waiting = up = 0
    last: Entry | None = None
    for entry in entries:
        before = waiting + up
        waiting, up = left_after(waiting, up, entry.fact, came=arrives(entry.fact, key))
        if before and not waiting + up:
            last = entry
        elif waiting + up:
            last = None
    return last


def arrives(fact: Fact, key: SpotKey) -> TypeGuard[Moved]:
    """Whether a fact is a move into a spot."""
    return isinstance(fact, Moved) and SpotKey(fact.to_holder, fact.to_row, fact.to_column) == key


def left_after(waiting: int, up: int, fact: Fact, *, came: bool) -> tuple[int, int]:
    """Return the seeds that wait and the seedlings that stand after one more fact."""
    match fact:
        case Sown(seeds=seeds):
            return waiting + seeds, up
        case Sprouted(count=count):
            return max(0, waiting - count), up + count
        case Lost(count=count) if up > 0:
            return waiting, max(0, up - count)
        case Lost(count=count):
            return max(0, waiting - count), up
        case Moved():
            return waiting, up + 1 if came else max(0, up - 1)
    return waiting, up


def _step(spot: Spot, entry: Entry, traveller: Traveller) -> Spot:
    fact = entry.fact
    if arrives(fact, spot.key):
        return _arrive(spot, fact, traveller(entry)) if spot.free else replace(spot, up=spot.up + 1)
    step = _STEPS.get(type(fact))
    return step(spot, fact) if step is not None else spot


def _sow(spot: Spot, fact: Sown) -> Spot:
    if spot.free:
        return Spot(spot.key, fact.packet, fact.day, seeds=fact.seeds, waiting=fact.seeds)
    return replace(
        spot,
        packet=fact.packet,
        sown_on=fact.day,
        seeds=spot.seeds + fact.seeds,
        waiting=spot.waiting + fact.seeds,
    )


def _sprout(spot: Spot, fact: Sprouted) -> Spot:
    others = spot.up > 0
    return replace(
        spot,
        waiting=max(0, spot.waiting - fact.count),
        up=spot.up + fact.count,
        sprouted=spot.sprouted + fact.count,
        first_up=spot.first_up if others else fact.day,
        leaves=spot.leaves if others else 0,
        leaves_on=spot.leaves_on if others else None,
    )


def _leaf(spot: Spot, fact: LeafStage) -> Spot:
    return replace(spot, leaves=fact.leaves, leaves_on=fact.day)


def _lose(spot: Spot, fact: Lost) -> Spot:
    lost = spot.lost + fact.count
    if spot.up > 0:
        return replace(spot, up=max(0, spot.up - fact.count), lost=lost, cause=fact.cause)
    return replace(spot, waiting=max(0, spot.waiting - fact.count), lost=lost, cause=fact.cause)


def _leave(spot: Spot, fact: Moved) -> Spot:  # noqa: ARG001 every step takes the fact
    return replace(spot, up=max(0, spot.up - 1), moved_on=spot.moved_on + 1)


def _arrive(spot: Spot, fact: Moved, was: Spot) -> Spot:
    return Spot(
        spot.key,
        was.packet,
        was.sown_on,
        up=1,
        first_up=was.first_up,
        leaves=was.leaves,
        leaves_on=was.leaves_on,
        origin=was.key,
        arrived=fact.day,
    )


_STEPS: dict[type, Callable[..., Spot]] = {
    Sown: _sow,
    Sprouted: _sprout,
    LeafStage: _leaf,
    Lost: _lose,
    Moved: _leave,
}
