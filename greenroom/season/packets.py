"""Packets and varieties as they stand: what is in the seed box."""

from __future__ import annotations

from dataclasses import dataclass

from greenroom.ledger.facts import Packet, Variety
from greenroom.season.state import Season

UNNAMED = "an unnamed variety"


@dataclass(frozen=True, slots=True)
class PacketView:
    """One packet with its variety; ``left`` is None where nobody counted the seeds."""

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


def varieties(season: Season) -> dict[str, Variety]:
    """Return the varieties by key, as last written."""
    return {fact.variety: fact for fact in season.facts(Variety)}


def packets(season: Season) -> list[PacketView]:
    """Return the packets, by variety name and lot."""
    keys = dict.fromkeys(fact.packet for fact in season.facts(Packet))
    found = [view for key in keys if (view := packet_view(season, key)) is not None]
    return sorted(found, key=lambda view: (view.name.casefold(), view.packet.lot))


def packet_view(season: Season, key: str) -> PacketView | None:
    """Return one packet, or None if there is none of that key."""
    fact = season.thing(Packet, key)
    if fact is None:
        return None
    variety = season.thing(Variety, fact.variety)
    used = season.seeds_used(key)
    left = None if fact.seeds is None else max(0, fact.seeds - used)
    if variety is None:
        return PacketView(fact, UNNAMED, None, None, used, left)
    return PacketView(fact, variety.name, variety.crop, variety.days_to_ripe, used, left)


def seeds_left(season: Season, key: str) -> int | None:
    """Return the seeds left in a packet, or None where nobody counted them."""
    view = packet_view(season, key)
    return view.left if view else None


def variety_name(season: Season, packet: str | None) -> str:
    """Return the name of the variety in a packet."""
    view = packet_view(season, packet) if packet else None
    return view.name if view else UNNAMED
