"""What a grower does at the shelf and the desk: packets, trays, racks, the place."""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from greenroom.ledger.facts import (
    Fact,
    HolderMade,
    HolderPlaced,
    HolderRetired,
    Packet,
    PlaceSet,
    UnitsSet,
    Variety,
    WeatherDay,
    WeatherRecord,
    new_key,
)
from greenroom.season.deeds_harden import outing_of
from greenroom.season.packets import varieties
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import row_label
from greenroom.season.state import Season


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


def add_packets(season: Season, entries: Iterable[SeedEntry], day: date) -> Proposal:
    """Add packets; varieties not known by name yet are added with them."""
    known = {fact.name.casefold(): fact.variety for fact in varieties(season).values()}
    facts: list[Fact] = []
    added = 0
    for entry in entries:
        name = entry.name.strip()
        if not name:
            raise RefusedError("A packet needs the name of its variety.")
        if name.casefold() not in known:
            known[name.casefold()] = key = new_key()
            facts.append(
                Variety(day=day, variety=key, name=name, crop=entry.crop, days_to_ripe=entry.days_to_ripe)
            )
        facts.append(
            Packet(
                day=day,
                packet=new_key(),
                variety=known[name.casefold()],
                lot=entry.lot.strip(),
                packed=entry.packed,
                seeds=entry.seeds,
                germination=entry.germination,
            )
        )
        added += 1
    return Proposal("added 1 packet" if added == 1 else f"added {added} packets", tuple(facts))


def correct_packet(season: Season, packet: str, entry: SeedEntry) -> Proposal:
    """Write a packet anew; what was written before is struck out."""
    old = season.thing(Packet, packet)
    variety = season.thing(Variety, old.variety) if old else None
    if old is None or variety is None:
        raise RefusedError("That packet is not in the seed box any more.")
    used = season.seeds_used(packet)
    if entry.seeds is not None and entry.seeds < used:
        raise RefusedError(f"{used} seeds of {variety.name} are sown; the packet held at least as many.")
    new = Packet(
        day=old.day,
        packet=packet,
        variety=old.variety,
        lot=entry.lot.strip(),
        packed=entry.packed,
        seeds=entry.seeds,
        germination=entry.germination,
    )
    anew = Variety(
        day=variety.day,
        variety=variety.variety,
        name=entry.name.strip() or variety.name,
        crop=entry.crop,
        days_to_ripe=entry.days_to_ripe,
    )
    return Proposal(f"corrected {anew.name}", (anew, new), strike=(variety.id, old.id))


def remove_packet(season: Season, packet: str) -> Proposal:
    """Strike a packet out, unless seeds of it are sown."""
    old = season.thing(Packet, packet)
    if old is None:
        raise RefusedError("That packet is not in the seed box any more.")
    if season.seeds_used(packet):
        raise RefusedError("Seeds of that packet are sown; a packet in use stays in the seed box.")
    return Proposal("struck out a packet", strike=(old.id,))


def make_holder(
    season: Season,
    *,
    name: str,
    form: str,
    rows: int,
    columns: int,
    day: date,
    cell_ml: float | None = None,
    size: str = "",
    place: str = "",
    mix_c: float | None = None,
) -> Proposal:
    """Take a tray or rack into use; its name must not be in use."""
    name = name.strip() or next_name(season, form)
    if any(one.name.casefold() == name.casefold() for one in season.holders()):
        raise RefusedError(f"{name} is in use already; choose another name.")
    if not (1 <= rows <= 100 and 1 <= columns <= 100):
        raise RefusedError(f"{rows} × {columns} is not a tray; 1 to 100 rows and columns are allowed.")
    made = HolderMade(
        day=day,
        holder=new_key(),
        name=name,
        form=form,
        rows=rows,
        columns=columns,
        cell_ml=cell_ml,
        size=size,
    )
    facts: list[Fact] = [made]
    if place.strip() or mix_c is not None:
        facts.append(HolderPlaced(day=day, holder=made.holder, place=place.strip(), mix_c=mix_c))
    return Proposal(f"took {name} into use", tuple(facts))


def place_holder(season: Season, holder: str, place: str, mix_c: float | None, day: date) -> Proposal:
    """Note where a holder stands from now on and how warm its mix is."""
    made = season.holder(holder)
    fact = HolderPlaced(day=max(day, made.made_on), holder=holder, place=place.strip(), mix_c=mix_c)
    return Proposal(f"{made.name} stands {place.strip() or 'elsewhere'}", (fact,))


def retire_holder(season: Season, holder: str, day: date) -> Proposal:
    """Put an emptied holder away."""
    made = season.holder(holder)
    if any(not spot.free for spot in season.spots(holder)):
        raise RefusedError(f"{made.name} still holds seeds or seedlings; move them or mark them lost first.")
    if outing_of(season, holder) is not None:
        raise RefusedError(f"{made.name} is out; bring it in first.")
    return Proposal(f"put {made.name} away", (HolderRetired(day=day, holder=holder),))


def next_name(season: Season, form: str) -> str:
    """Return the next free name: Tray A, B, C … or Rack 1, 2, 3 …"""
    used = {one.name.casefold() for one in season.holders()}
    if form == "rack":
        taken = [int(found[1]) for name in used if (found := re.fullmatch(r"rack (\d{1,6})", name))]
        return f"Rack {max(taken, default=0) + 1}"
    names = (f"Tray {row_label(number)}" for number in itertools.count())
    return next(name for name in names if name.casefold() not in used)


def set_place(name: str, latitude: float, longitude: float, zone: str, day: date) -> Proposal:
    """Write where the grower is."""
    fact = PlaceSet(day=day, name=name.strip(), latitude=latitude, longitude=longitude, zone=zone.strip())
    return Proposal(f"set the place to {fact.name}", (fact,))


def set_units(temperature: str, volume: str, day: date) -> Proposal:
    """Choose the units the window shows."""
    return Proposal("chose units", (UnitsSet(day=day, temperature=temperature, volume=volume),))


def add_weather(source: str, station: str, days: tuple[WeatherDay, ...], day: date) -> Proposal:
    """Bring a weather record in."""
    fact = WeatherRecord(day=day, source=source, station=station, days=days)
    return Proposal(f"imported {len(days):,} days of weather", (fact,))
