"""The demo's seasons past: one raised and picked plant by plant, one of which only the basket was noted."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from typing import Any

from greenroom.ledger.facts import (
    BedLaid,
    Fact,
    HolderMade,
    HolderPlaced,
    HolderRetired,
    Lost,
    Moved,
    Packet,
    Picked,
    Sown,
    Sprouted,
    Variety,
)

NewId = Callable[[], str]


def past_facts(
    past: Mapping[str, Any],
    new_id: NewId,
    varieties: Mapping[str, str],
    known: Mapping[str, Mapping[str, Any]],
) -> Iterator[Fact]:
    """Yield what was raised and picked in the seasons before.

    Parameters
    ----------
    past : mapping
        The table ``past`` of the demo's file.
    new_id : callable
        Returns a new key each time it is called.
    varieties, known : mapping of str
        The varieties' keys, and what the file says of them, by name.
    """
    tray, bed = new_id(), new_id()
    lots = {told["variety"]: new_id() for told in past["rows"]}
    for name, packet in lots.items():
        yield from _bought(name, packet, past, new_id, varieties[name], known[name])
    yield from _holders(past, tray, bed, new_id)
    place = 0
    for told in past["rows"]:
        yield from _raised(told, lots[told["variety"]], past, (tray, bed), place, new_id)
        yield from _picked(told["picks"], varieties[told["variety"]], bed, new_id)
        place += len(told["up"])
    for told in past["baskets"]:
        yield from _picked(told["picks"], varieties[told["variety"]], None, new_id)


def _bought(
    name: str,
    packet: str,
    past: Mapping[str, Any],
    new_id: NewId,
    variety: str,
    known: Mapping[str, Any],
) -> Iterator[Fact]:
    day, packed = past["bought"], past["packed"]
    crop, ripe = known["crop"], known.get("ripe")
    yield Variety(id=new_id(), day=day, variety=variety, name=name, crop=crop, days_to_ripe=ripe)
    seeds = next(len(told["up"]) + told["bare"] for told in past["rows"] if told["variety"] == name)
    yield Packet(
        id=new_id(),
        day=day,
        packet=packet,
        variety=variety,
        lot=f"P{packed % 100}-{seeds:02d}",
        packed=packed,
        seeds=seeds,
        germination=known["germination"],
    )


def _holders(past: Mapping[str, Any], tray: str, bed: str, new_id: NewId) -> Iterator[Fact]:
    for key, form in ((tray, "tray"), (bed, "bed")):
        told = past[form]
        size = {"rows": told["rows"], "columns": told["columns"], "cell_ml": told.get("cell_ml")}
        yield HolderMade(id=new_id(), day=told["made"], holder=key, name=told["name"], form=form, **size)
        yield HolderRetired(id=new_id(), day=told["away"], holder=key)
    place = past["tray"]["place"]
    yield HolderPlaced(
        id=new_id(), day=past["tray"]["made"], holder=tray, place=place, mix_c=past["tray"]["mix_c"]
    )
    lies = {name: past["bed"][name] for name in ("x_m", "y_m", "width_m", "depth_m")}
    yield BedLaid(id=new_id(), day=past["bed"]["made"], holder=bed, **lies)


def _raised(
    told: Mapping[str, Any],
    packet: str,
    past: Mapping[str, Any],
    holders: tuple[str, str],
    place: int,
    new_id: NewId,
) -> Iterator[Fact]:
    """Yield sowing to frost of one variety: ``up`` are days to come up, ``bare`` cells that stayed so."""
    tray, bed = holders
    sown, row = past["tray"]["made"], past["rows"].index(told)
    for column in range(len(told["up"]) + told["bare"]):
        cell: dict[str, Any] = {"holder": tray, "row": row, "column": column}
        yield Sown(id=new_id(), day=sown, packet=packet, **cell)
        if column >= len(told["up"]):
            yield Lost(id=new_id(), day=past["given_up"], cause="did not come up", **cell)
            continue
        yield Sprouted(id=new_id(), day=sown + timedelta(days=told["up"][column]), **cell)
        down, across = divmod(place + column, past["bed"]["columns"])
        where = {"to_holder": bed, "to_row": down, "to_column": across}
        yield Moved(id=new_id(), day=past["set_out"], **cell, **where)
        spot = {"holder": bed, "row": down, "column": across}
        yield Lost(id=new_id(), day=past["frost"], cause="cold", **spot)


def _picked(
    picks: Sequence[tuple[date, int, float | None, str]], variety: str, bed: str | None, new_id: NewId
) -> Iterator[Fact]:
    for day, count, grams, ripeness in picks:
        fruit: dict[str, Any] = {"count": count, "grams": grams, "ripeness": ripeness}
        yield Picked(id=new_id(), day=day, holder=bed, variety=variety, **fruit)
