"""What a grower does to cells and pots: sow, mark, take back, lose, move, note."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from greenroom.ledger.facts import Fact, LeafStage, Lost, Moved, Note, Sown, Sprouted
from greenroom.season.packets import seeds_left, variety_name
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import Spot, SpotKey, Stage
from greenroom.season.state import Season

CAUSES = (
    "did not come up",
    "damping-off",
    "dried out",
    "too wet",
    "cold",
    "heat or sun",
    "eaten",
    "broken",
    "thinned",
    "",
)


def sow(season: Season, packet: str, keys: Sequence[SpotKey], day: date, seeds: int = 1) -> Proposal:
    """Sow seeds of a packet into each of the spots."""
    _refuse_future_holder(season, keys, day)
    for key in keys:
        spot = season.spot(key)
        if spot.up > 0:
            raise RefusedError(f"{_at(season, key)} holds a seedling; sow into cells that hold none.")
    needed, left = seeds * len(keys), seeds_left(season, packet)
    if left is not None and needed > left:
        raise RefusedError(
            f"{variety_name(season, packet)} has {left} seeds left and {needed} are needed; "
            f"sow fewer cells or correct the packet."
        )
    facts = [Sown(day=day, **_spot(key), packet=packet, seeds=seeds) for key in keys]
    return Proposal(f"sowed {variety_name(season, packet)} in {_where(season, keys)}", tuple(facts))


def mark_up(season: Season, keys: Sequence[SpotKey], day: date, count: int = 1) -> Proposal:
    """Mark seedlings newly up in each of the spots that still waits for some."""
    waiting = [key for key in keys if season.spot(key).waiting >= count]
    if not waiting:
        raise RefusedError(f"{_where(season, keys)}: no sown seed waits there; sow first, then mark it up.")
    for key in waiting:
        sown_on = season.spot(key).sown_on
        if sown_on is not None and day < sown_on:
            raise RefusedError(
                f"{_at(season, key)} was sown on {sown_on:%d %B}; it cannot have been up on {day:%d %B}."
            )
    facts = [Sprouted(day=day, **_spot(key), count=count) for key in waiting]
    return Proposal(f"marked {_where(season, waiting)} up", tuple(facts))


def take_back_up(season: Season, keys: Sequence[SpotKey]) -> Proposal:
    """Take the latest sprout mark of each spot back."""
    marked = [key for key in keys if season.spot(key).up > 0 and season.spot(key).sprouted > 0]
    struck = [mark for key in marked if (mark := latest_mark(season, key, Sprouted)) is not None]
    if not struck:
        raise RefusedError(f"{_where(season, keys)}: there is no sprout mark to take back.")
    return Proposal(f"took back up in {_where(season, marked)}", strike=tuple(struck))


def click(season: Season, key: SpotKey, day: date) -> Proposal:
    """Do what a click on a cell means: up if a seed waits, else the sprout mark back."""
    spot = season.spot(key)
    if spot.waiting > 0:
        return mark_up(season, [key], day)
    if spot.up > 0 and spot.sprouted > 0:
        return take_back_up(season, [key])
    raise RefusedError(f"{_at(season, key)} is {describe_stage(spot)}; there is nothing to mark up.")


def set_leaves(season: Season, keys: Sequence[SpotKey], day: date, leaves: int) -> Proposal:
    """Note how many true leaves the seedlings show."""
    living = [key for key in keys if season.spot(key).up > 0]
    if not living:
        raise RefusedError(
            f"{_where(season, keys)}: no seedling stands there; leaves are counted on seedlings."
        )
    _refuse_before_up(season, living, day)
    facts = [LeafStage(day=day, **_spot(key), leaves=leaves) for key in living]
    words = "seed leaves only" if leaves == 0 else f"{leaves} true leaves"
    return Proposal(f"{_where(season, living)}: {words}", tuple(facts))


def mark_lost(season: Season, keys: Sequence[SpotKey], day: date, cause: str = "") -> Proposal:
    """Mark what stands or waits in each spot as lost."""
    held = [key for key in keys if not season.spot(key).free]
    if not held:
        raise RefusedError(f"{_where(season, keys)}: nothing stands or waits there that could be lost.")
    _refuse_future_holder(season, held, day)
    facts: list[Fact] = []
    for key in held:
        spot = season.spot(key)
        facts.append(Lost(day=day, **_spot(key), cause=cause, count=spot.up or spot.waiting))
    return Proposal(f"marked {_where(season, held)} lost", tuple(facts))


def move(
    season: Season, sources: Sequence[SpotKey], target: SpotKey, day: date, *, fill: bool = True
) -> Proposal:
    """Move every seedling of the sources into pots, in order, from ``target`` on.

    With ``fill`` the next free spots after the target take the rest; each spot takes one seedling.
    """
    hands = in_hand(season, sources)
    if not hands:
        raise RefusedError(f"{_where(season, sources)}: no seedling stands there to be moved.")
    _refuse_before_up(season, hands, day)
    places = landing(season, len(hands), target, leaving=frozenset(sources))
    if target not in places:
        raise RefusedError(f"{_at(season, target)} is taken; drop on an empty one.")
    if len(places) < len(hands) or (len(hands) > 1 and not fill):
        holder = season.holder(target.holder)
        raise RefusedError(
            f"{holder.name} has room for {len(places)} from {target.label} on and {len(hands)} are in hand; "
            f"drop them further up or take fewer."
        )
    facts = [
        Moved(day=day, **_spot(source), to_holder=place.holder, to_row=place.row, to_column=place.column)
        for source, place in zip(hands, places, strict=False)
    ]
    what = "1 seedling" if len(hands) == 1 else f"{len(hands)} seedlings"
    return Proposal(f"moved {what} to {season.holder(target.holder).name}", tuple(facts))


def in_hand(season: Season, sources: Iterable[SpotKey]) -> list[SpotKey]:
    """Return a source for every seedling that would be lifted: a cell with two gives two."""
    return [key for key in sources for _ in range(season.spot(key).up)]


def landing(
    season: Season, wanted: int, target: SpotKey, leaving: frozenset[SpotKey] = frozenset()
) -> list[SpotKey]:
    """Return the first ``wanted`` free spots from ``target`` on, row by row."""
    found: list[SpotKey] = []
    for spot in season.spots(target.holder):
        after = (spot.key.row, spot.key.column) >= (target.row, target.column)
        if after and spot.free and spot.key not in leaving and len(found) < wanted:
            found.append(spot.key)
    return found


def note(key: SpotKey, text: str, day: date) -> Proposal:
    """Keep words about a spot."""
    if not text.strip():
        raise RefusedError("The note has no words; write some first.")
    fact = Note(day=day, **_spot(key), text=text.strip())
    return Proposal(f"note on {key.label}", (fact,))


def latest_mark(season: Season, key: SpotKey, cls: type[Fact]) -> str | None:
    """Return the id of the latest fact of a kind about a spot."""
    marks = [entry.fact.id for entry in season.spot_facts(key) if isinstance(entry.fact, cls)]
    return marks[-1] if marks else None


def describe_stage(spot: Spot) -> str:
    """Return the words for what a spot shows."""
    words = {
        Stage.BARE: "bare",
        Stage.SOWN: "sown, nothing up yet",
        Stage.UP: "up",
        Stage.LEAVES: f"up with {spot.leaves} true leaves",
        Stage.LOST: f"lost ({spot.cause})" if spot.cause else "lost",
        Stage.MOVED: "moved on",
    }
    return words[spot.stage]


def _spot(key: SpotKey) -> dict[str, Any]:
    """Return the fields that say which spot a fact is about."""
    return {"holder": key.holder, "row": key.row, "column": key.column}


def _at(season: Season, key: SpotKey) -> str:
    return f"{key.label} of {season.holder(key.holder).name}"


def _where(season: Season, keys: Sequence[SpotKey]) -> str:
    if not keys:
        return "No cell is chosen"
    if len(keys) == 1:
        return _at(season, keys[0])
    return f"{len(keys)} cells of {season.holder(keys[0].holder).name}"


def _refuse_future_holder(season: Season, keys: Sequence[SpotKey], day: date) -> None:
    for holder in dict.fromkeys(key.holder for key in keys):
        made = season.holder(holder)
        if day < made.made_on:
            raise RefusedError(
                f"{made.name} is in use since {made.made_on:%d %B}; choose that day or a later one."
            )


def _refuse_before_up(season: Season, keys: Sequence[SpotKey], day: date) -> None:
    for key in keys:
        first_up = season.spot(key).first_up
        if first_up is not None and day < first_up:
            raise RefusedError(
                f"{_at(season, key)} came up on {first_up:%d %B}; choose that day or a later one."
            )
