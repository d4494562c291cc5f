"""Packets and varieties as they stand: what is in the seed box."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from greenroom.guide import Guide, Rank
from greenroom.ledger.facts import GerminationTest, Packet, Variety
from greenroom.season.state import Season
from greenroom.speech import tr

UNNAMED = tr("an unnamed variety")


@dataclass(frozen=True, slots=True)
class SeedEntry:
    """One packet as the grower or a seed list gives it; ``germination`` is a share, 0 to 1."""

    name: str
    crop: str | None = None
    lot: str = ""
    packed: int | None = None
    seeds: int | None = None
    germination: float | None = None
    days_to_ripe: int | None = None


@dataclass(frozen=True, slots=True)
class PacketView:
    """One packet with its variety.

    ``used`` seeds of it were sown; ``left`` are those neither sown nor set in a germination test, None
    where nobody counted.
    """

    packet: Packet
    name: str
    crop: str | None
    days_to_ripe: int | None
    used: int
    left: int | None

    @property
    def key(self) -> str:
        """The packet's key."""
        return self.packet.packet

    @property
    def entry(self) -> SeedEntry:
        """The packet as it would be entered anew."""
        fact = self.packet
        return SeedEntry(
            self.name, self.crop, fact.lot, fact.packed, fact.seeds, fact.germination, self.days_to_ripe
        )


def varieties(season: Season) -> dict[str, Variety]:
    """Return the varieties by key, as last written."""
    return {fact.variety: fact for fact in season.facts(Variety)}


def packets(season: Season) -> list[PacketView]:
    """Return the packets, by variety name and lot."""
    keys = dict.fromkeys(fact.packet for fact in season.facts(Packet))
    found = [view for key in keys if (view := packet_view(season, key)) is not None]
    return sorted(found, key=lambda view: (view.name.casefold(), view.packet.lot.casefold(), view.key))


def packet_view(season: Season, key: str) -> PacketView | None:
    """Return one packet, or None if there is none of that key."""
    fact = season.thing(Packet, key)
    if fact is None:
        return None
    variety = season.thing(Variety, fact.variety)
    used = season.seeds_used(key)
    left = None if fact.seeds is None else max(0, fact.seeds - used - seeds_tested(season, key))
    if variety is None:
        return PacketView(fact, UNNAMED, None, None, used, left)
    return PacketView(fact, variety.name, variety.crop, variety.days_to_ripe, used, left)


def packets_of(season: Season, variety: str) -> list[str]:
    """Return the keys of the packets of one variety."""
    keys = dict.fromkeys(fact.packet for fact in season.facts(Packet))
    facts = ((key, season.thing(Packet, key)) for key in keys)
    return [key for key, fact in facts if fact is not None and fact.variety == variety]


def seeds_left(season: Season, key: str) -> int | None:
    """Return the seeds left in a packet, or None where nobody counted them."""
    view = packet_view(season, key)
    return view.left if view else None


def seeds_tested(season: Season, key: str) -> int:
    """Return how many seeds of a packet were set in germination tests."""
    return season.memo("seeds tested", (GerminationTest,), lambda: _tested(season))[key]


def variety_name(season: Season, packet: str | None) -> str:
    """Return the name of the variety in a packet."""
    view = packet_view(season, packet) if packet else None
    return view.name if view else UNNAMED


def already_there(season: Season, entries: Iterable[SeedEntry]) -> list[bool]:
    """Tell of each entry whether it is in the seed box already.

    Two packets are the same if variety and lot are; without a lot, if the year is the same too. One
    in the box stands for one among the entries, so a list brought in twice is known row by row.
    """
    seen = Counter(_mark(view.entry) for view in packets(season))
    told: list[bool] = []
    for entry in entries:
        mark = _mark(entry)
        told.append(seen[mark] > 0)
        seen[mark] -= seen[mark] > 0
    return told


def folded(text: str) -> str:
    """Return a name or lot as it is compared: whatever its capitals and spaces."""
    return " ".join(text.split()).casefold()


def kin(guide: Guide, one: str | None, other: str | None) -> bool:
    """Whether two crops may be the same kind of plant: equal, of one line in the guide, or unknown."""
    if one is None or other is None or one == other:
        return True
    return bool(_line(guide, one) & _line(guide, other))


def _line(guide: Guide, crop: str) -> set[str]:
    if crop not in guide.entries:
        return set()
    return {key for key in guide.lineage(crop) if guide.entries[key].rank is not Rank.COMMON}


def _tested(season: Season) -> Counter[str]:
    counts: Counter[str] = Counter()
    for fact in season.facts(GerminationTest):
        counts[fact.packet] += fact.seeds
    return counts


def _mark(entry: SeedEntry) -> tuple[str, str, int | None]:
    lot = folded(entry.lot)
    return folded(entry.name), lot, None if lot else entry.packed
