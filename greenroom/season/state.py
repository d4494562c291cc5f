"""The season: every fact in force, kept where it is asked for, and what follows from it.

A change is taken in by touching only the spots and holders it speaks of: their facts are refolded
from memory, never re-read from the ledger. Folding is always from the facts, in order, so the
season after any number of changes equals the season built anew.
"""

from __future__ import annotations

from bisect import insort
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import TypeVar, cast

from greenroom.ledger import Change, Entry
from greenroom.ledger.facts import (
    Fact,
    HolderMade,
    HolderPlaced,
    HolderRetired,
    Moved,
    Note,
    Packet,
    PlaceSet,
    Sown,
    SpotFact,
    UnitsSet,
    Variety,
    WeatherRecord,
)
from greenroom.season.holders import Counts, Holder, count, fold_holder
from greenroom.season.spots import Spot, SpotKey, fold_spot, keys_of, order_of

T = TypeVar("T")
F = TypeVar("F", bound=Fact)


@dataclass(frozen=True, slots=True)
class Touched:
    """What a change touched: spots, holders (by key) and kinds of fact."""

    spots: frozenset[SpotKey] = frozenset()
    holders: frozenset[str] = frozenset()
    kinds: frozenset[str] = frozenset()


@dataclass(slots=True)
class _Shelf:
    """Entries of one thing, kept in order."""

    entries: list[Entry] = field(default_factory=list)

    def put(self, entry: Entry) -> None:
        insort(self.entries, entry, key=order_of)

    def take_out(self, entry: Entry) -> None:
        self.entries.remove(entry)


class Season:
    """The facts in force and what follows from them."""

    def __init__(self, entries: Iterable[Entry] = ()) -> None:
        self._spot_shelves: dict[SpotKey, _Shelf] = defaultdict(_Shelf)
        self._holder_shelves: dict[str, _Shelf] = defaultdict(_Shelf)
        self._kind_shelves: dict[str, _Shelf] = defaultdict(_Shelf)
        self._spots: dict[SpotKey, Spot] = {}
        self._holders: dict[str, Holder] = {}
        self._counts: dict[str, Counts] = {}
        self._seeds_used: dict[str, int] = defaultdict(int)
        self._things: dict[tuple[str, str], _Shelf] = defaultdict(_Shelf)
        self._memo: dict[str, tuple[frozenset[str], object]] = {}
        for entry in sorted(entries, key=order_of):
            self._file(entry, put=True)

    def take(self, change: Change) -> Touched:
        """Take one change in and tell what it touched."""
        spots: set[SpotKey] = set()
        holders: set[str] = set()
        changed = [*change.removed, *change.added]
        for place, entry in enumerate(changed):
            self._file(entry, put=place >= len(change.removed))
            holder = getattr(entry.fact, "holder", None)
            if holder is not None:
                holders.add(holder)
            if isinstance(entry.fact, SpotFact):
                spots.update(keys_of(entry.fact))
        spots = self._downstream(spots)
        for key in spots:
            self._spots.pop(key, None)
        holders.update(key.holder for key in spots)
        for holder in holders:
            self._holders.pop(holder, None)
            self._counts.pop(holder, None)
        kinds = frozenset(entry.fact.kind for entry in changed)
        self._memo = {name: held for name, held in self._memo.items() if not held[0] & kinds}
        return Touched(frozenset(spots), frozenset(holders), kinds)

    def spot(self, key: SpotKey) -> Spot:
        """Return what stands in one spot."""
        found = self._spots.get(key)
        if found is None:
            found = self._spots[key] = self._fold(key)
        return found

    def spots(self, holder: str) -> list[Spot]:
        """Return every spot of a holder, row by row."""
        made = self.holder(holder)
        return [
            self.spot(SpotKey(holder, row, column))
            for row in range(made.rows)
            for column in range(made.columns)
        ]

    def holder(self, key: str) -> Holder:
        """Return one holder; KeyError if there is none of that key."""
        found = self._holders.get(key)
        if found is None:
            found = self._holders[key] = fold_holder(self.holder_facts(key))
        return found

    def counts(self, holder: str) -> Counts:
        """Return how full a holder is."""
        found = self._counts.get(holder)
        if found is None:
            found = self._counts[holder] = count(self.spots(holder))
        return found

    def holders(self, form: str | None = None) -> list[Holder]:
        """Return the holders in use, in the order they were taken into use."""
        keys = dict.fromkeys(fact.holder for fact in self.facts(HolderMade))
        found = (self.holder(key) for key in keys)
        return [one for one in found if not one.retired and (form is None or one.form == form)]

    def holder_facts(self, key: str) -> list[Entry]:
        """Return the facts about a holder as a whole, in order (spots' facts are apart)."""
        return self._holder_shelves[key].entries if key in self._holder_shelves else []

    def spot_facts(self, key: SpotKey) -> list[Entry]:
        """Return the facts about one spot, in order; a move stands at both its ends."""
        return self._spot_shelves[key].entries if key in self._spot_shelves else []

    def facts(self, cls: type[F]) -> list[F]:
        """Return the facts of one of the kinds that are kept by kind, in order."""
        return [cast(F, entry.fact) for entry in self._kind_shelves[cls.kind].entries]

    def latest(self, cls: type[F]) -> F | None:
        """Return the latest fact of a kind, or None."""
        entries = self._kind_shelves[cls.kind].entries
        return cast(F, entries[-1].fact) if entries else None

    def thing(self, cls: type[F], key: str) -> F | None:
        """Return a variety or packet as last written, by its key; None if there is none."""
        shelf = self._things.get((cls.kind, key))
        return cast(F, shelf.entries[-1].fact) if shelf and shelf.entries else None

    def memo(self, name: str, kinds: Iterable[type[Fact]], make: Callable[[], T]) -> T:
        """Return what ``make`` makes, kept until a fact of one of ``kinds`` comes or goes."""
        if name not in self._memo:
            self._memo[name] = (frozenset(cls.kind for cls in kinds), make())
        return cast(T, self._memo[name][1])

    def seeds_used(self, packet: str) -> int:
        """Return how many seeds of a packet were sown."""
        return self._seeds_used.get(packet, 0)

    def _file(self, entry: Entry, *, put: bool) -> None:
        for shelf in self._shelves(entry.fact):
            if put:
                shelf.put(entry)
            else:
                shelf.take_out(entry)
        if isinstance(entry.fact, Sown):
            self._seeds_used[entry.fact.packet] += entry.fact.seeds if put else -entry.fact.seeds

    def _shelves(self, fact: Fact) -> Iterator[_Shelf]:
        if isinstance(fact, SpotFact):
            for key in keys_of(fact):
                yield self._spot_shelves[key]
        elif isinstance(fact, Note) and fact.row is not None and fact.column is not None:
            yield self._spot_shelves[SpotKey(fact.holder, fact.row, fact.column)]
        elif (holder := getattr(fact, "holder", None)) is not None:
            yield self._holder_shelves[holder]
        if isinstance(fact, _BY_KIND):
            yield self._kind_shelves[fact.kind]
        if isinstance(fact, Packet):
            yield self._things[fact.kind, fact.packet]
        elif isinstance(fact, Variety):
            yield self._things[fact.kind, fact.variety]

    def _fold(self, key: SpotKey, before: Entry | None = None) -> Spot:
        entries = self.spot_facts(key)
        if before is not None:
            entries = [entry for entry in entries if order_of(entry) < order_of(before)]
        return fold_spot(key, entries, self._traveller)

    def _traveller(self, move: Entry) -> Spot:
        """Return what stood at the start of a move just before it."""
        fact = move.fact
        if not isinstance(fact, Moved):
            raise TypeError(f"fact {fact.id} is a {fact.words}, not a move")
        return self._fold(SpotKey(fact.holder, fact.row, fact.column), before=move)

    def _downstream(self, spots: set[SpotKey]) -> set[SpotKey]:
        """Return the spots and every spot that seedlings moved on to from them."""
        found: set[SpotKey] = set()
        waiting = list(spots)
        while waiting:
            key = waiting.pop()
            if key in found:
                continue
            found.add(key)
            moves = (entry.fact for entry in self.spot_facts(key) if isinstance(entry.fact, Moved))
            waiting.extend(keys_of(fact)[1] for fact in moves)
        return found


_BY_KIND = (
    Variety,
    Packet,
    HolderMade,
    HolderPlaced,
    HolderRetired,
    PlaceSet,
    UnitsSet,
    WeatherRecord,
)
