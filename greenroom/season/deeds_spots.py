"""What a grower does to cells and pots: sow, mark, take back, lose, move, note."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from greenroom.ledger.facts import Fact, LeafStage, Lost, Moved, Note, Sown, Sprouted
from greenroom.season.coherence import coherent
from greenroom.season.hardening_words import day_words
from greenroom.season.holders import Holder
from greenroom.season.packets import packet_view, seeds_left, variety_name
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import Spot, SpotKey, Stage, since_filled
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
    """Sow seeds of a packet into each of the spots; cells in which seed waits get more of it.

    Raises
    ------
    RefusedError
        If there is no such packet, it holds too few seeds, a seedling stands in a cell, or what
        happened in a cell later would not fit.
    """
    keys = _chosen(season, keys)
    _refuse_unusable(season, keys, day)
    name = _packet_name(season, packet)
    for key in keys:
        if season.spot(key).up > 0:
            raise RefusedError(f"{_at(season, key)} holds a seedling; sow into cells that hold none.")
    needed, left = seeds * len(keys), seeds_left(season, packet)
    if left is not None and needed > left:
        raise RefusedError(
            f"{name} has {_many(left, 'seed')} left and {_are(needed)} needed; "
            f"sow fewer cells or correct the packet."
        )
    facts = [Sown(day=day, **_spot(key), packet=packet, seeds=seeds) for key in keys]
    return coherent(season, Proposal(f"sowed {name} in {_where(season, keys)}", tuple(facts)))


def mark_up(season: Season, keys: Sequence[SpotKey], day: date, count: int = 1) -> Proposal:
    """Mark seedlings newly up in each of the spots that still waits for some.

    Raises
    ------
    RefusedError
        If none waits for so many, or one was not sown yet on that day.
    """
    keys = _chosen(season, keys)
    waiting = [key for key in keys if season.spot(key).waiting >= count]
    if not waiting:
        raise RefusedError(_nothing_waits(season, keys, count))
    for key in waiting:
        first = min(_sowing_days(season, key))
        if day < first:
            raise RefusedError(
                f"{_at(season, key)} was sown on {day_words(first)}; "
                f"it cannot have been up on {day_words(day)}."
            )
    facts = [Sprouted(day=day, **_spot(key), count=count) for key in waiting]
    return coherent(season, Proposal(f"marked {_where(season, waiting)} up", tuple(facts)))


def take_back_up(season: Season, keys: Sequence[SpotKey]) -> Proposal:
    """Take the latest sprout mark of each spot back, of the seedlings that stand there now."""
    keys = _chosen(season, keys)
    marked = [key for key in keys if season.spot(key).up > 0 and season.spot(key).sprouted > 0]
    struck = [mark for key in marked if (mark := latest_mark(season, key, Sprouted)) is not None]
    if not struck:
        raise RefusedError(f"{_where(season, keys)}: there is no sprout mark to take back.")
    proposal = Proposal(f"took back up in {_where(season, marked)}", strike=tuple(struck))
    return coherent(season, proposal, marked)


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
    keys = _chosen(season, keys)
    living = [key for key in keys if season.spot(key).up > 0]
    if not living:
        raise RefusedError(
            f"{_where(season, keys)}: no seedling stands there; leaves are counted on seedlings."
        )
    _refuse_before_up(season, living, day)
    facts = [LeafStage(day=day, **_spot(key), leaves=leaves) for key in living]
    words = "seed leaves only" if leaves == 0 else _many(leaves, "true leaf", "true leaves")
    return Proposal(f"{_where(season, living)}: {words}", tuple(facts))


def mark_lost(season: Season, keys: Sequence[SpotKey], day: date, cause: str = "") -> Proposal:
    """Mark the seedlings that stand in each spot as lost, or the seed that waits where none does.

    A cell with a seedling and a seed still to come loses the seedling first; the seed may yet come up.
    """
    keys = _chosen(season, keys)
    held = [key for key in keys if not season.spot(key).free]
    if not held:
        raise RefusedError(f"{_where(season, keys)}: nothing stands or waits there that could be lost.")
    facts: list[Fact] = []
    for key in held:
        spot = season.spot(key)
        facts.append(Lost(day=day, **_spot(key), cause=cause, count=spot.up or spot.waiting))
    return coherent(season, Proposal(f"marked {_where(season, held)} lost", tuple(facts)))


def move(season: Season, sources: Sequence[SpotKey], target: SpotKey, day: date) -> Proposal:
    """Move every seedling of the sources into pots, in order, from ``target`` on.

    The next free spots after the target take the rest; each spot takes one seedling.

    Raises
    ------
    RefusedError
        If no seedling stands at the sources, the target is taken, there is not room for all, or the
        day does not fit with what else happened at either end.
    """
    sources = _chosen(season, sources)
    hands = in_hand(season, sources)
    if not hands:
        raise RefusedError(f"{_where(season, sources)}: no seedling stands there to be moved.")
    _refuse_before_up(season, hands, day)
    _refuse_unusable(season, [target], day)
    places = landing(season, len(hands), target, leaving=frozenset(sources))
    if target not in places:
        raise RefusedError(f"{_at(season, target)} is taken; drop on an empty one.")
    name = season.holder(target.holder).name
    if len(places) < len(hands):
        raise RefusedError(
            f"{name} has room for {len(places)} from {target.label} on and {_are(len(hands))} in hand; "
            f"drop them further up or take fewer."
        )
    facts = [
        Moved(day=day, **_spot(source), to_holder=place.holder, to_row=place.row, to_column=place.column)
        for source, place in zip(hands, places, strict=True)
    ]
    return coherent(season, Proposal(f"moved {_many(len(hands), 'seedling')} to {name}", tuple(facts)))


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


def _chosen(season: Season, keys: Sequence[SpotKey]) -> list[SpotKey]:
    """Return the spots, each once; refused if there are none or their holder is gone."""
    if not keys:
        raise RefusedError("No cell is chosen; choose one or more first.")
    for holder in {key.holder for key in keys}:
        _holder(season, holder)
    return list(dict.fromkeys(keys))


def _holder(season: Season, key: str) -> Holder:
    try:
        return season.holder(key)
    except KeyError as error:
        raise RefusedError("That tray or rack is not there any more; choose another.") from error


def _packet_name(season: Season, packet: str) -> str:
    if packet_view(season, packet) is None:
        raise RefusedError("That packet is not in the seed box any more; choose another.")
    return variety_name(season, packet)


def _sowing_days(season: Season, key: SpotKey) -> list[date]:
    """Return the days a spot was sown on since it was last free."""
    present = since_filled(key, season.spot_facts(key))
    return [entry.fact.day for entry in present if isinstance(entry.fact, Sown)]


def _at(season: Season, key: SpotKey) -> str:
    return f"{key.label} of {season.holder(key.holder).name}"


def _where(season: Season, keys: Sequence[SpotKey]) -> str:
    if len(keys) == 1:
        return _at(season, keys[0])
    names = dict.fromkeys(season.holder(key.holder).name for key in keys)
    return f"{len(keys)} cells of {' and '.join(names)}"


def _nothing_waits(season: Season, keys: Sequence[SpotKey], count: int) -> str:
    most = max(season.spot(key).waiting for key in keys)
    if most:
        return (
            f"{_where(season, keys)}: {_many(most, 'seed')} still waits there; {count} cannot have come up."
        )
    return f"{_where(season, keys)}: no sown seed waits there; sow first, then mark it up."


def _refuse_unusable(season: Season, keys: Sequence[SpotKey], day: date) -> None:
    """Refuse what goes into a holder before it was in use, after it was put away, or beside it."""
    for holder in dict.fromkeys(key.holder for key in keys):
        made = _holder(season, holder)
        if made.retired:
            raise RefusedError(f"{made.name} was put away; choose one that is in use.")
        if day < made.made_on:
            raise RefusedError(
                f"{made.name} is in use since {day_words(made.made_on)}; choose that day or a later one."
            )
    for key in keys:
        made = season.holder(key.holder)
        if not (0 <= key.row < made.rows and 0 <= key.column < made.columns):
            raise RefusedError(f"{made.name} has no {key.label}; it has {made.rows} × {made.columns} spots.")


def _refuse_before_up(season: Season, keys: Sequence[SpotKey], day: date) -> None:
    for key in keys:
        spot = season.spot(key)
        here_since = max((one for one in (spot.first_up, spot.arrived) if one is not None), default=None)
        if here_since is not None and day < here_since:
            came = "was moved there" if here_since == spot.arrived else "came up"
            raise RefusedError(
                f"{_at(season, key)} {came} on {day_words(here_since)}; choose that day or a later one."
            )


def _many(number: int, what: str, several: str = "") -> str:
    return f"{number} {what}" if number == 1 else f"{number} {several or what + 's'}"


def _are(number: int) -> str:
    return f"{number} is" if number == 1 else f"{number} are"
