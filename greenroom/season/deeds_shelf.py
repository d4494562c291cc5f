"""What a grower does at the shelf and the desk: packets, trays, racks, the place."""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date

from greenroom.ledger.facts import (
    LARGEST_SIDE,
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
from greenroom.season.box import Filing
from greenroom.season.deeds_harden import outing_of
from greenroom.season.few_words import FORMS, and_words, next_number
from greenroom.season.packets import SeedEntry, packets_of
from greenroom.season.proposal import Proposal, RefusedError, not_before
from greenroom.season.spots import row_label
from greenroom.season.state import Season
from greenroom.speech import many, tr, trn

__all__ = [
    "SeedEntry",
    "add_packets",
    "add_weather",
    "correct_packet",
    "make_holder",
    "next_name",
    "place_holder",
    "remove_packet",
    "retire_holder",
    "set_place",
    "set_units",
    "strike_weather",
    "tray_name",
]

GONE = tr("That packet is not in the seed box any more.")


def add_packets(season: Season, entries: Iterable[SeedEntry], day: date) -> Proposal:
    """Add packets; varieties not known by name yet are added with them.

    The guide tells which crops are kin: a packet of another kind of plant under a known name is
    another variety.
    """
    filing = Filing(season, day)
    found = list(entries)
    for entry in found:
        if not any(letter.isalnum() for letter in entry.name):
            raise RefusedError(
                tr("A packet needs the name of its variety, with at least one letter or digit.")
            )
    added = [_packet(new_key(), filing.file(entry), entry, day) for entry in found]
    name = (
        tr("added {variety}", variety=found[0].name.strip())
        if len(found) == 1
        else tr("added {packets}", packets=many(len(found), "packet"))
    )
    return Proposal(name, (*filing.written, *added), strike=filing.struck)


def correct_packet(season: Season, packet: str, entry: SeedEntry) -> Proposal:
    """Write a packet anew as ``entry`` has it; what was written before is struck out.

    A name that another variety bears puts the packet under that variety; any other name renames the
    variety with all its packets. Nothing is written where nothing differs.
    """
    old, variety = _packet_of(season, packet)
    used = season.seeds_used(packet)
    if entry.seeds is not None and entry.seeds < used:
        raise RefusedError(
            trn(
                "{n} seed of {variety} is sown; the packet held at least as many.",
                "{n} seeds of {variety} are sown; the packet held at least as many.",
                used,
                variety=variety.name,
            )
        )
    name = " ".join(entry.name.split()) or variety.name
    other = Filing(season, old.day).find(name, entry.crop)
    if other is not None and other.variety != variety.variety:
        return _put_under(season, old, variety, other, entry)
    anew = replace(variety, name=name, crop=entry.crop, days_to_ripe=entry.days_to_ripe)
    new = _packet(packet, old.variety, entry, old.day)
    pairs: list[tuple[Fact, Fact]] = [(variety, anew), (old, new)]
    changed = [(before, after) for before, after in pairs if not _same(before, after)]
    return Proposal(
        tr("corrected {variety}", variety=name),
        tuple(replace(after, id=new_key()) for _, after in changed),
        strike=tuple(before.id for before, _ in changed),
    )


def remove_packet(season: Season, packet: str) -> Proposal:
    """Strike a packet out, unless seeds of it are sown; with its last packet goes the variety."""
    old, variety = _packet_of(season, packet)
    used = season.seeds_used(packet)
    if used:
        raise RefusedError(
            trn(
                "{n} seed of this {variety} is sown; a packet in use stays in the seed box.",
                "{n} seeds of this {variety} are sown; a packet in use stays in the seed box.",
                used,
                variety=variety.name,
            )
        )
    return Proposal(
        tr("struck out {variety}", variety=variety.name), strike=(old.id, *_forsaken(season, variety))
    )


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
    name = " ".join(name.split()) or next_name(season, form)
    if any(one.name.casefold() == name.casefold() for one in season.holders()):
        raise RefusedError(tr("{name} is in use already; choose another name.", name=name))
    if not (1 <= rows <= LARGEST_SIDE and 1 <= columns <= LARGEST_SIDE):
        raise RefusedError(
            tr(
                "{rows} × {columns} is not a {form}; 1 to {most} rows and columns are allowed.",
                rows=rows,
                columns=columns,
                form=FORMS.get(form, form),
                most=LARGEST_SIDE,
            )
        )
    made = HolderMade(
        day=day,
        holder=new_key(),
        name=name,
        form=form,
        rows=rows,
        columns=columns,
        cell_ml=cell_ml,
        size=size.strip(),
    )
    facts: list[Fact] = [made]
    if place.strip() or mix_c is not None:
        facts.append(HolderPlaced(day=day, holder=made.holder, place=place.strip(), mix_c=mix_c))
    return Proposal(tr("took {holder} into use", holder=name), tuple(facts))


def place_holder(season: Season, holder: str, place: str, mix_c: float | None, day: date) -> Proposal:
    """Note where a holder stands from now on and how warm its mix is."""
    made = season.holder(holder)
    place = place.strip()
    if (place, mix_c) == (made.place, made.mix_c):
        return Proposal(tr("{holder} stands as it did", holder=made.name))
    latest = max((entry.fact.day for entry in season.holder_facts(holder)), default=day)
    fact = HolderPlaced(day=max(day, latest), holder=holder, place=place, mix_c=mix_c)
    return Proposal(f"{made.name}: {place}" if place else tr("{holder} moved", holder=made.name), (fact,))


def retire_holder(season: Season, holder: str, day: date) -> Proposal:
    """Put an emptied holder away."""
    made = season.holder(holder)
    if any(not spot.free for spot in season.spots(holder)):
        raise RefusedError(
            tr(
                "{holder} still holds seeds or seedlings; move them or mark them lost first.",
                holder=made.name,
            )
        )
    if outing_of(season, holder) is not None:
        raise RefusedError(tr("{holder} is out; bring it in first.", holder=made.name))
    return Proposal(
        tr("put {holder} away", holder=made.name), (HolderRetired(day=max(day, made.made_on), holder=holder),)
    )


def next_name(season: Season, form: str) -> str:
    """Return the next free name: Tray A, B, C … or Rack 1, 2, 3 …"""
    used = {one.name.casefold() for one in season.holders()}
    if form == "rack":
        return _rack_name(next_number(_rack_name, used))
    names = (tray_name(number) for number in itertools.count())
    return next(name for name in names if name.casefold() not in used)


def tray_name(number: int) -> str:
    """Return the name proposed for a tray: A for 0, then B, C …"""
    return tr("Tray {letter}", letter=row_label(number))


def set_place(
    name: str,
    latitude: float,
    longitude: float,
    zone: str,
    day: date,
    *,
    before: PlaceSet | None = None,
) -> Proposal:
    """Write where the grower is; nothing is written where nothing differs from ``before``."""
    name, zone = " ".join(name.split()), zone.strip()
    if not name:
        raise RefusedError(tr("The place needs a name, such as the name of your garden."))
    fact = PlaceSet(day=not_before(before, day), name=name, latitude=latitude, longitude=longitude, zone=zone)
    return Proposal(tr("set the place to {name}", name=name), () if _told(before, fact) else (fact,))


def set_units(temperature: str, volume: str, day: date, *, before: UnitsSet | None = None) -> Proposal:
    """Choose the units the window shows; nothing is written where nothing differs from ``before``."""
    fact = UnitsSet(day=not_before(before, day), temperature=temperature, volume=volume)
    units = (f"°{temperature.upper()}", "fl oz" if volume == "floz" else "mL")
    return Proposal(tr("chose {units}", units=and_words(units)), () if _told(before, fact) else (fact,))


def add_weather(
    source: str,
    station: str,
    days: tuple[WeatherDay, ...],
    day: date,
    *,
    known: Sequence[WeatherRecord] = (),
) -> Proposal:
    """Bring a weather record in; the very same days as in one that is ``known`` are refused."""
    for record in known:
        if record.station == station and record.days == days:
            raise RefusedError(tr("These days were brought in already, from {file}.", file=record.source))
    fact = WeatherRecord(
        day=not_before(known[-1] if known else None, day), source=source, station=station, days=days
    )
    name = tr("brought in {days} of weather", days=many(len(days), "day"))
    return Proposal(name, (fact,))


def strike_weather(season: Season, record: str) -> Proposal:
    """Strike a weather record out; ``record`` is the id of the fact."""
    found = [fact for fact in season.facts(WeatherRecord) if fact.id == record]
    if not found:
        raise RefusedError(tr("That weather record is not in the ledger any more."))
    return Proposal(tr("struck out the weather from {file}", file=found[0].source), strike=(record,))


def _rack_name(number: object) -> str:
    return tr("Rack {number}", number=number)


def _packet(key: str, variety: str, entry: SeedEntry, day: date) -> Packet:
    return Packet(
        day=day,
        packet=key,
        variety=variety,
        lot=" ".join(entry.lot.split()),
        packed=entry.packed,
        seeds=entry.seeds,
        germination=entry.germination,
    )


def _packet_of(season: Season, packet: str) -> tuple[Packet, Variety]:
    fact = season.thing(Packet, packet)
    variety = season.thing(Variety, fact.variety) if fact else None
    if fact is None or variety is None:
        raise RefusedError(GONE)
    return fact, variety


def _put_under(season: Season, old: Packet, was: Variety, other: Variety, entry: SeedEntry) -> Proposal:
    """Put a packet under another variety that is known; one left without packets is struck out."""
    new = _packet(old.packet, other.variety, entry, old.day)
    return Proposal(
        tr("put the packet under {variety}", variety=other.name),
        (new,),
        strike=(old.id, *_forsaken(season, was)),
    )


def _forsaken(season: Season, variety: Variety) -> tuple[str, ...]:
    """Return the facts of a variety whose one packet goes."""
    if len(packets_of(season, variety.variety)) > 1:
        return ()
    return tuple(fact.id for fact in season.facts(Variety) if fact.variety == variety.variety)


def _told(before: Fact | None, fact: Fact) -> bool:
    """Whether ``before`` says all that ``fact`` would say."""
    return before is not None and _same(before, replace(fact, day=before.day))


def _same(one: Fact, other: Fact) -> bool:
    """Whether two facts say the same."""
    return replace(one, id=other.id) == other
