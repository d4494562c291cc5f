"""What a grower does on the plot: lay beds, note what throws shade, set plants out."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from greenroom.ledger.facts import BedLaid, Obstacle, ObstacleGone, new_key
from greenroom.season.deeds_care import in_use
from greenroom.season.deeds_shelf import make_holder, retire_holder
from greenroom.season.deeds_spots import in_hand, move
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.speech import many

BED = "bed"
SIDES_M = (0.05, 500)
FARTHEST_M = 1000
UNTOLD = "That is not on the plot any more; choose another."


@dataclass(frozen=True, slots=True)
class Rectangle:
    """Ground taken up [m]: the south-west corner, the sides, and the turn about that corner [°]."""

    x_m: float
    y_m: float
    width_m: float
    depth_m: float
    turned_deg: float = 0.0


def lay_bed(
    season: Season,
    name: str,
    rows: int,
    columns: int,
    ground: Rectangle,
    day: date,
    pot_litres: float | None = None,
) -> Proposal:
    """Take a bed, or a group of big pots, into use and lay it on the plot."""
    name = " ".join(name.split()) or next_bed_name(season)
    _refuse_ground(name, ground)
    _refuse_pots(name, pot_litres)
    made = make_holder(season, name=name, form=BED, rows=rows, columns=columns, day=day)
    holder = getattr(made.record[0], "holder", "")
    return Proposal(f"laid {name} out", (*made.record, _bed_laid(holder, ground, day, pot_litres)))


def move_bed(
    season: Season, holder: str, ground: Rectangle, day: date, pot_litres: float | None = None
) -> Proposal:
    """Write where a bed lies anew; nothing is written where nothing differs."""
    made = in_use(season, holder, day)
    if made.form != BED:
        raise RefusedError(f"{made.name} is a {made.form}; only beds lie on the plot.")
    _refuse_ground(made.name, ground)
    _refuse_pots(made.name, pot_litres)
    fact, before = _bed_laid(holder, ground, day, pot_litres), bed_laid(season, holder)
    same = before is not None and replace(before, id=fact.id, day=day) == fact
    return Proposal(f"moved {made.name}", () if same else (fact,))


def remove_bed(season: Season, holder: str, day: date) -> Proposal:
    """Take an empty bed off the plot."""
    in_use(season, holder, day)
    return retire_holder(season, holder, day)


def add_obstacle(name: str, ground: Rectangle, height_m: float, day: date) -> Proposal:
    """Note something that throws shade."""
    fact = _obstacle(new_key(), name, ground, height_m, day)
    return Proposal(f"noted {fact.name} on the plot", (fact,))


def move_obstacle(
    season: Season, obstacle: str, name: str, ground: Rectangle, height_m: float, day: date
) -> Proposal:
    """Write something that throws shade anew; nothing is written where nothing differs."""
    before = _known_obstacle(season, obstacle)
    fact = _obstacle(obstacle, name, ground, height_m, day)
    same = replace(before, id=fact.id, day=day) == fact
    return Proposal(f"moved {fact.name}", () if same else (fact,))


def remove_obstacle(season: Season, obstacle: str, day: date) -> Proposal:
    """Note that something throws shade no more."""
    name = _known_obstacle(season, obstacle).name
    return Proposal(f"{name} is gone", (ObstacleGone(day=day, obstacle=obstacle),))


def set_out(season: Season, sources: Sequence[SpotKey], target: SpotKey, day: date) -> Proposal:
    """Set every plant of the sources out into a bed, in order, from ``target`` on."""
    made = in_use(season, target.holder, day)
    if made.form != BED:
        raise RefusedError(f"{made.name} is a {made.form}; plants are set out into a bed.")
    moved = move(season, sources, target, day)
    plants = many(len(in_hand(season, list(dict.fromkeys(sources)))), "plant")
    return replace(moved, name=f"set {plants} out into {made.name}")


def bed_laid(season: Season, holder: str) -> BedLaid | None:
    """Return where a bed lies by the last word, or None if it was never laid."""
    found = [fact for fact in season.facts(BedLaid) if fact.holder == holder]
    return found[-1] if found else None


def obstacles(season: Season) -> list[Obstacle]:
    """Return what throws shade, each as last written, in the order they were first noted."""
    latest: dict[str, tuple[int, Obstacle]] = {}
    for number, fact in season.numbered(Obstacle):
        latest[fact.obstacle] = (number, fact)
    gone = {fact.obstacle: number for number, fact in season.numbered(ObstacleGone)}
    return [fact for key, (number, fact) in latest.items() if number > gone.get(key, 0)]


def next_bed_name(season: Season) -> str:
    """Return the next free name: Bed 1, 2, 3 …"""
    names = (one.name.casefold() for one in season.holders())
    taken = [int(found[1]) for name in names if (found := re.fullmatch(r"bed (\d{1,6})", name))]
    return f"Bed {max(taken, default=0) + 1}"


def _bed_laid(holder: str, ground: Rectangle, day: date, pot_litres: float | None) -> BedLaid:
    return BedLaid(
        day=day,
        holder=holder,
        x_m=ground.x_m,
        y_m=ground.y_m,
        width_m=ground.width_m,
        depth_m=ground.depth_m,
        turned_deg=ground.turned_deg,
        pot_litres=pot_litres,
    )


def _obstacle(key: str, name: str, ground: Rectangle, height_m: float, day: date) -> Obstacle:
    name = " ".join(name.split())
    if not name:
        raise RefusedError("What throws shade needs a name, such as hedge or house.")
    _refuse_ground(name, ground)
    if not SIDES_M[0] <= height_m <= SIDES_M[1]:
        raise RefusedError(f"{name} of {height_m:g} m height: {SIDES_M[0]} to {SIDES_M[1]} m is allowed.")
    return Obstacle(
        day=day,
        obstacle=key,
        name=name,
        x_m=ground.x_m,
        y_m=ground.y_m,
        width_m=ground.width_m,
        depth_m=ground.depth_m,
        height_m=height_m,
    )


def _known_obstacle(season: Season, key: str) -> Obstacle:
    found = next((one for one in obstacles(season) if one.obstacle == key), None)
    if found is None:
        raise RefusedError(UNTOLD)
    return found


def _refuse_ground(name: str, ground: Rectangle) -> None:
    for what, value in (("width", ground.width_m), ("depth", ground.depth_m)):
        if not SIDES_M[0] <= value <= SIDES_M[1]:
            raise RefusedError(f"{name} of {value:g} m {what}: {SIDES_M[0]} to {SIDES_M[1]} m is allowed.")
    if not max(abs(ground.x_m), abs(ground.y_m)) <= FARTHEST_M:
        raise RefusedError(
            f"{name} at {ground.x_m:g}, {ground.y_m:g} m: up to {FARTHEST_M:,} m from the corner is allowed."
        )


def _refuse_pots(name: str, pot_litres: float | None) -> None:
    if pot_litres is not None and not 0.1 <= pot_litres <= 2000:
        raise RefusedError(f"Pots of {pot_litres:g} L for {name}: 0.1 to 2,000 L is allowed.")
