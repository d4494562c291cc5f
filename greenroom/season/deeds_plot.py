"""What a grower does on the plot: lay beds, note what throws shade, set plants out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from greenroom.ledger.facts import BedLaid, Obstacle, ObstacleGone, new_key
from greenroom.season.deeds_care import in_use
from greenroom.season.deeds_shelf import make_holder, retire_holder
from greenroom.season.deeds_spots import in_hand, move
from greenroom.season.few_words import FORMS, next_number
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.speech import many, tr

BED = "bed"
SIDES_M = (0.05, 500)
FARTHEST_M = 1000
UNTOLD = tr("That is not on the plot any more; choose another.")


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
    return Proposal(
        tr("laid {bed} out", bed=name), (*made.record, _bed_laid(holder, ground, day, pot_litres))
    )


def move_bed(
    season: Season, holder: str, ground: Rectangle, day: date, pot_litres: float | None = None
) -> Proposal:
    """Write where a bed lies anew; nothing is written where nothing differs."""
    made = in_use(season, holder, day)
    if made.form != BED:
        raise RefusedError(
            tr("{holder} is a {form}; only beds lie on the plot.", holder=made.name, form=FORMS[made.form])
        )
    _refuse_ground(made.name, ground)
    _refuse_pots(made.name, pot_litres)
    fact, before = _bed_laid(holder, ground, day, pot_litres), bed_laid(season, holder)
    same = before is not None and replace(before, id=fact.id, day=day) == fact
    return Proposal(tr("moved {name}", name=made.name), () if same else (fact,))


def remove_bed(season: Season, holder: str, day: date) -> Proposal:
    """Take an empty bed off the plot."""
    in_use(season, holder, day)
    return retire_holder(season, holder, day)


def add_obstacle(name: str, ground: Rectangle, height_m: float, day: date) -> Proposal:
    """Note something that throws shade."""
    fact = _obstacle(new_key(), name, ground, height_m, day)
    return Proposal(tr("noted {name} on the plot", name=fact.name), (fact,))


def move_obstacle(
    season: Season, obstacle: str, name: str, ground: Rectangle, height_m: float, day: date
) -> Proposal:
    """Write something that throws shade anew; nothing is written where nothing differs."""
    before = _known_obstacle(season, obstacle)
    fact = _obstacle(obstacle, name, ground, height_m, day)
    same = replace(before, id=fact.id, day=day) == fact
    return Proposal(tr("moved {name}", name=fact.name), () if same else (fact,))


def remove_obstacle(season: Season, obstacle: str, day: date) -> Proposal:
    """Note that something throws shade no more."""
    name = _known_obstacle(season, obstacle).name
    return Proposal(tr("{name} is gone", name=name), (ObstacleGone(day=day, obstacle=obstacle),))


def set_out(season: Season, sources: Sequence[SpotKey], target: SpotKey, day: date) -> Proposal:
    """Set every plant of the sources out into a bed, in order, from ``target`` on."""
    made = in_use(season, target.holder, day)
    if made.form != BED:
        raise RefusedError(
            tr(
                "{holder} is a {form}; plants are set out into a bed.",
                holder=made.name,
                form=FORMS[made.form],
            )
        )
    moved = move(season, sources, target, day)
    plants = many(len(in_hand(season, list(dict.fromkeys(sources)))), "plant")
    return replace(moved, name=tr("set {plants} out into {bed}", plants=plants, bed=made.name))


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
    return _bed_name(next_number(_bed_name, (one.name for one in season.holders())))


def _bed_name(number: object) -> str:
    return tr("Bed {number}", number=number)


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
        raise RefusedError(tr("What throws shade needs a name, such as hedge or house."))
    _refuse_ground(name, ground)
    if not SIDES_M[0] <= height_m <= SIDES_M[1]:
        raise RefusedError(
            tr(
                "{name} of {height_m:g} m height: {least_m:g} to {most_m:g} m is allowed.",
                name=name,
                height_m=height_m,
                least_m=SIDES_M[0],
                most_m=SIDES_M[1],
            )
        )
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
    for what, value in ((tr("width"), ground.width_m), (tr("depth"), ground.depth_m)):
        if not SIDES_M[0] <= value <= SIDES_M[1]:
            raise RefusedError(
                tr(
                    "{name} of {metres:g} m {side}: {least_m:g} to {most_m:g} m is allowed.",
                    name=name,
                    metres=value,
                    side=what,
                    least_m=SIDES_M[0],
                    most_m=SIDES_M[1],
                )
            )
    if not max(abs(ground.x_m), abs(ground.y_m)) <= FARTHEST_M:
        raise RefusedError(
            tr(
                "{name} at {x_m:g}, {y_m:g} m: up to {most_m:,} m from the corner is allowed.",
                name=name,
                x_m=ground.x_m,
                y_m=ground.y_m,
                most_m=FARTHEST_M,
            )
        )


def _refuse_pots(name: str, pot_litres: float | None) -> None:
    if pot_litres is not None and not 0.1 <= pot_litres <= 2000:
        raise RefusedError(
            tr(
                "Pots of {pot_litres:g} L for {name}: 0.1 to 2,000 L is allowed.",
                pot_litres=pot_litres,
                name=name,
            )
        )
