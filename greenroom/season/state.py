"""The season: every fact in force, kept where it is asked for, and what follows from it.

A change is taken in by touching only the spots and holders it speaks of: their facts are refolded
from memory, never re-read from the ledger. Folding is always from the facts, in order, so the
season after any number of changes equals the season built anew.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections import Counter, defaultdict
from collections.abc import Callable, Hashable, Iterable, Iterator
from dataclasses import dataclass, field
from datetime import date
from typing import Any, TypeVar, cast

from greenroom.guide import Guide, own_guide
from greenroom.ledger import Change, Entry
from greenroom.ledger.facts import Fact, HolderMade, HolderRetired, Moved, Packet, Sown, Variety
from greenroom.season.filing import ORDERS, number_of, spots_of
from greenroom.season.holders import Counts, Holder, count, fold_holder
from greenroom.season.spots import (
    Spot,
    SpotKey,
    Traveller,
    arrives,
    fold_spot,
    keys_of,
    order_of,
    since_filled,
)

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
    """Entries of one thing, kept in ``order``."""

    order: Callable[[Entry], Any] = order_of
    entries: list[Entry] = field(default_factory=list)

    def put(self, entry: Entry) -> None:
        insort(self.entries, entry, key=self.order)

    def take_out(self, entry: Entry) -> None:
        place = bisect_left(self.entries, self.order(entry), key=self.order)
        if self.entries[place].number != entry.number:
            raise LookupError(f"the fact {entry.fact.id} is not in the season")
        del self.entries[place]


class Season:
    """The facts in force and what follows from them."""

    def __init__(self, entries: Iterable[Entry] = (), guide: Guide | None = None) -> None:
        self._guide = guide
        self._spot_shelves: dict[SpotKey, _Shelf] = defaultdict(_Shelf)
        self._holder_shelves: dict[str, _Shelf] = defaultdict(_Shelf)
        self._kind_shelves = {cls.kind: _Shelf(order) for cls, order in ORDERS.items()}
        self._things: dict[tuple[str, str], _Shelf] = defaultdict(lambda: _Shelf(number_of))
        self._sown: dict[str, dict[str, Counter[SpotKey]]] = defaultdict(lambda: defaultdict(Counter))
        self._seeds_used: Counter[str] = Counter()
        self._of_holder: dict[str, dict[Hashable, object]] = defaultdict(dict)
        self._days: dict[date, dict[int, Entry]] = defaultdict(dict)
        self._spots: dict[SpotKey, Spot] = {}
        self._holders: dict[str, Holder] = {}
        self._counts: dict[str, Counts] = {}
        self._memo: dict[str, tuple[frozenset[str], object]] = {}
        for entry in sorted(entries, key=order_of):
            self._file(entry, put=True)

    @property
    def guide(self) -> Guide:
        """What is known of the crops: the guide handed in, or the one that comes with the program."""
        if self._guide is None:
            self._guide = own_guide()
        return self._guide

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
            spots.update(spots_of(entry.fact))
        spots = self._downstream(spots)
        for key in spots:
            self._spots.pop(key, None)
        holders.update(key.holder for key in spots)
        for holder in holders:
            self._holders.pop(holder, None)
            self._counts.pop(holder, None)
            self._of_holder.pop(holder, None)
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
        return [self.spot(key) for key in self.holder(holder).keys]

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

    def holders(self, form: str | None = None, *, put_away: bool = False) -> list[Holder]:
        """Return the holders in use, or those put away, in the order they were taken into use."""
        keys = self.memo("holders by use", (HolderMade, HolderRetired), self._keys_by_use)[put_away]
        return [one for one in map(self.holder, keys) if form in (None, one.form)]

    def _keys_by_use(self) -> tuple[list[str], list[str]]:
        """Return the keys of the holders in use, and of those put away: of seasons past there are many."""
        keys = dict.fromkeys(fact.holder for fact in self.facts(HolderMade))
        away = {key: self.holder(key).retired for key in keys}
        return [key for key in keys if not away[key]], [key for key in keys if away[key]]

    def holder_facts(self, key: str) -> list[Entry]:
        """Return the facts about a holder as a whole, in order (spots' facts are apart)."""
        return self._holder_shelves[key].entries if key in self._holder_shelves else []

    def spot_facts(self, key: SpotKey) -> list[Entry]:
        """Return the facts about one spot, in order; a move stands at both its ends."""
        return self._spot_shelves[key].entries if key in self._spot_shelves else []

    def facts_in(self, holder: str) -> Iterator[tuple[SpotKey, Entry]]:
        """Yield the facts about the spots of a holder, row by row; a move within it comes twice."""
        for key in self.holder(holder).keys:
            yield from ((key, entry) for entry in self.spot_facts(key))

    def on_day(self, day: date) -> list[Entry]:
        """Return every fact filed under one day, in the order of writing."""
        return [entry for _, entry in sorted(self._days.get(day, {}).items())]

    def entries_of(self, ids: Iterable[str]) -> list[Entry]:
        """Return the facts in force that have one of these ids; every fact is looked through."""
        wanted = frozenset(ids)
        if not wanted:
            return []
        return [entry for day in self._days.values() for entry in day.values() if entry.fact.id in wanted]

    def facts(self, cls: type[F]) -> list[F]:
        """Return the facts of one of the kinds that are kept by kind, in order.

        Things and settings are in the order of writing, the others in that of their days.
        """
        return [cast(F, entry.fact) for entry in self._kind_shelves[cls.kind].entries]

    def numbered(self, cls: type[F]) -> list[tuple[int, F]]:
        """Return the facts of one of the kinds that are kept by kind, each with its number, in order."""
        return [(entry.number, cast(F, entry.fact)) for entry in self._kind_shelves[cls.kind].entries]

    def latest(self, cls: type[F]) -> F | None:
        """Return the last fact of a kind, or None; of a setting that is the last one written."""
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

    def holder_memo(self, holder: str, name: Hashable, make: Callable[[], T]) -> T:
        """Return what ``make`` makes, kept until a fact about the holder or its spots comes or goes."""
        kept = self._of_holder[holder]
        if name not in kept:
            kept[name] = make()
        return cast(T, kept[name])

    def seeds_used(self, packet: str) -> int:
        """Return how many seeds of a packet were sown."""
        return self._seeds_used[packet]

    def holders_sown(self, packet: str) -> list[str]:
        """Return the keys of the holders that seeds of a packet were ever sown in."""
        return [holder for holder, seeds in self._sown.get(packet, {}).items() if seeds]

    def spots_sown(self, packet: str, holder: str | None = None) -> list[SpotKey]:
        """Return the spots that seeds of a packet were ever sown in, of one holder or of all."""
        sown = self._sown.get(packet, {})
        return [key for name, seeds in sown.items() if holder in (None, name) for key in seeds]

    def traveller(self, move: Entry) -> Spot:
        """Return what stood at the start of a move just before it.

        Its past may lead through many spots; they are walked back to the first and then folded
        forward, one after the other, so that a seedling may be moved any number of times.
        """
        links = [move]
        while (earlier := self._filling(links[-1])) is not None:
            links.append(earlier)
        was = Spot(_start_of(links[-1]))
        for link in reversed(links):
            was = fold_spot(_start_of(link), self._before(link), _being(was))
        return was

    def _file(self, entry: Entry, *, put: bool) -> None:
        if put:
            self._days[entry.fact.day][entry.number] = entry
        else:
            del self._days[entry.fact.day][entry.number]
        for shelf in self._shelves(entry.fact):
            if put:
                shelf.put(entry)
            else:
                shelf.take_out(entry)
        if isinstance(entry.fact, Sown):
            self._count_seeds(entry.fact, put=put)

    def _count_seeds(self, fact: Sown, *, put: bool) -> None:
        number = fact.seeds if put else -fact.seeds
        self._seeds_used[fact.packet] += number
        seeds, key = self._sown[fact.packet][fact.holder], keys_of(fact)[0]
        seeds[key] += number
        if not seeds[key]:
            del seeds[key]

    def _shelves(self, fact: Fact) -> Iterator[_Shelf]:
        keys = spots_of(fact)
        yield from (self._spot_shelves[key] for key in keys)
        if not keys and (holder := getattr(fact, "holder", None)) is not None:
            yield self._holder_shelves[holder]
        if fact.kind in self._kind_shelves:
            yield self._kind_shelves[fact.kind]
        if isinstance(fact, Packet):
            yield self._things[fact.kind, fact.packet]
        elif isinstance(fact, Variety):
            yield self._things[fact.kind, fact.variety]

    def _fold(self, key: SpotKey) -> Spot:
        return fold_spot(key, self.spot_facts(key), self.traveller)

    def _filling(self, move: Entry) -> Entry | None:
        """Return the move that brought to its start what a later move took from there."""
        key = _start_of(move)
        present = since_filled(key, self._before(move))
        return present[0] if present and arrives(present[0].fact, key) else None

    def _before(self, move: Entry) -> list[Entry]:
        """Return the facts about the start of a move up to it."""
        entries = self.spot_facts(_start_of(move))
        return entries[: bisect_left(entries, order_of(move), key=order_of)]

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


def _being(was: Spot) -> Traveller:
    return lambda _: was


def _start_of(move: Entry) -> SpotKey:
    if not isinstance(move.fact, Moved):
        raise TypeError(f"fact {move.fact.id} is a {move.fact.words}, not a move")
    return keys_of(move.fact)[0]
