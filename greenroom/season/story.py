"""The story of what stands in a spot, followed back through every move to its sowing."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from greenroom.ledger import Entry
from greenroom.ledger.facts import Fact, LeafStage, Lost, Moved, Note, Sown, Sprouted
from greenroom.season.care_words import care_words
from greenroom.season.coherence import coherent
from greenroom.season.hardening_words import day_words
from greenroom.season.packets import variety_name
from greenroom.season.proposal import Proposal
from greenroom.season.spots import Spot, SpotKey, Stage, arrives, keys_of, order_of, row_label
from greenroom.season.state import Season

LONGEST_NOTE_IN_A_NAME = 40


@dataclass(frozen=True, slots=True)
class Line:
    """One thing that happened: ``spot`` is where, ``fact`` its id, ``act`` the act that wrote it.

    ``earlier`` marks what belongs to something that stood in the spot before.
    """

    day: date
    words: str
    spot: SpotKey
    fact: str
    act: int
    earlier: bool = False


def story(season: Season, key: SpotKey) -> tuple[Line, ...]:
    """Return what happened to what stands in a spot, in order.

    A seedling's story begins with its sowing, wherever that was, and goes with it from spot to spot.
    What stood in this very spot before it comes first, marked ``earlier``.
    """
    earlier, present = _parted(key, season.spot_facts(key))
    before = [replace(_line(season, key, entry), earlier=True) for entry in earlier]
    parts = [[_line(season, key, entry) for entry in present]]
    while present and arrives(present[0].fact, key):
        move = present[0]
        key = keys_of(present[0].fact)[0]
        _, present = _parted(key, [one for one in season.spot_facts(key) if order_of(one) < order_of(move)])
        parts.append([_line(season, key, entry) for entry in present])
    return tuple(before + [line for part in reversed(parts) for line in part])


def take_back(season: Season, line: Line) -> Proposal:
    """Strike one mark of a story out.

    Raises
    ------
    RefusedError
        If a later mark rests on it.
    """
    proposal = Proposal(f"took back: {_short(line.words)} ({line.spot.label})", strike=(line.fact,))
    return coherent(season, proposal, [line.spot])


def spot_words(season: Season, key: SpotKey) -> str:
    """Return everything about a spot in one line: "B3, Cinder Lantern: up since 14 March, …"."""
    spot = season.spot(key)
    head = key.label if spot.packet is None else f"{key.label}, {variety_name(season, spot.packet)}"
    return f"{head}: {', '.join(_state_words(season, spot))}"


def spoken_words(season: Season, key: SpotKey) -> str:
    """Return the same with the place spelled out, for a reader that speaks: "row B, column 3, …"."""
    words = spot_words(season, key)
    return f"row {row_label(key.row)}, column {key.column + 1}{words[len(key.label) :]}"


def place_words(season: Season, key: SpotKey) -> str:
    """Return a spot with its holder: "B3 of Tray A"."""
    return f"{key.label} of {season.holder(key.holder).name}"


def _parted(key: SpotKey, entries: Sequence[Entry]) -> tuple[list[Entry], list[Entry]]:
    """Return what happened in a spot before it was last filled while it was free, and since then."""
    first = waiting = up = 0
    for place, entry in enumerate(entries):
        fact = entry.fact
        if waiting == 0 and up == 0 and (isinstance(fact, Sown) or arrives(fact, key)):
            first = place
        waiting, up = _walk(waiting, up, fact, came=arrives(fact, key))
    return list(entries[:first]), list(entries[first:])


def _walk(waiting: int, up: int, fact: Fact, *, came: bool) -> tuple[int, int]:
    """Return the seeds that wait and the seedlings that stand after one more fact."""
    match fact:
        case Sown(seeds=seeds):
            return waiting + seeds, up
        case Sprouted(count=count):
            return max(0, waiting - count), up + count
        case Lost(count=count) if up > 0:
            return waiting, max(0, up - count)
        case Lost(count=count):
            return max(0, waiting - count), up
        case Moved():
            return waiting, up + 1 if came else max(0, up - 1)
    return waiting, up


def _line(season: Season, key: SpotKey, entry: Entry) -> Line:
    make = _WORDS.get(type(entry.fact))
    words = make(season, key, entry.fact) if make else care_words(season, entry.fact) or entry.fact.words
    return Line(entry.fact.day, words, key, entry.fact.id, entry.act)


def _sown_words(season: Season, key: SpotKey, fact: Sown) -> str:
    name = variety_name(season, fact.packet)
    return f"sown, {_count(fact.seeds, 'seed')} of {name}, in {place_words(season, key)}"


def _sprouted_words(_season: Season, _key: SpotKey, fact: Sprouted) -> str:
    return "up" if fact.count == 1 else f"{fact.count} up"


def _leaf_words(_season: Season, _key: SpotKey, fact: LeafStage) -> str:
    return "seed leaves only" if fact.leaves == 0 else _leaves(fact.leaves)


def _lost_words(_season: Season, _key: SpotKey, fact: Lost) -> str:
    number = "lost" if fact.count == 1 else f"{fact.count} lost"
    return f"{number}: {fact.cause}" if fact.cause else f"{number}, cause not known"


def _moved_words(season: Season, key: SpotKey, fact: Moved) -> str:
    source, target = (
        SpotKey(fact.holder, fact.row, fact.column),
        SpotKey(fact.to_holder, fact.to_row, fact.to_column),
    )
    if source == key:
        return f"one moved on to {place_words(season, target)}"
    return f"moved to {place_words(season, target)}, from {place_words(season, source)}"


def _note_words(_season: Season, _key: SpotKey, fact: Note) -> str:
    return f"note: {fact.text}"


_WORDS: dict[type, Callable[..., str]] = {
    Sown: _sown_words,
    Sprouted: _sprouted_words,
    LeafStage: _leaf_words,
    Lost: _lost_words,
    Moved: _moved_words,
    Note: _note_words,
}


def _state_words(season: Season, spot: Spot) -> list[str]:
    if spot.stage is Stage.BARE:
        return ["nothing sown"]
    words = [_STATES[spot.stage](spot)]
    if spot.up > 0 and spot.waiting > 0:
        words.append(f"{_count(spot.waiting, 'seed')} still to come")
    if spot.sown_on is not None:
        words.append(f"sown {day_words(spot.sown_on)}")
    if spot.origin is not None:
        words.append(f"from {place_words(season, spot.origin)}")
    return words


def _waiting_words(spot: Spot) -> str:
    return "waiting to come up" if spot.waiting == 1 else f"{spot.waiting} seeds waiting to come up"


def _up_words(spot: Spot) -> str:
    since = f"up since {day_words(spot.first_up)}" if spot.first_up else "up"
    return since if spot.up == 1 else f"{spot.up} {since}"


def _grown_words(spot: Spot) -> str:
    return f"{_up_words(spot)}, {_leaves(spot.leaves)}"


def _gone_words(spot: Spot) -> str:
    return f"lost, {spot.cause}" if spot.cause else "lost, cause not known"


_STATES: dict[Stage, Callable[[Spot], str]] = {
    Stage.SOWN: _waiting_words,
    Stage.UP: _up_words,
    Stage.LEAVES: _grown_words,
    Stage.LOST: _gone_words,
    Stage.MOVED: lambda _spot: "moved on",
}


def _leaves(number: int) -> str:
    return _count(number, "true leaf") if number == 1 else f"{number} true leaves"


def _count(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def _short(words: str) -> str:
    return words if len(words) <= LONGEST_NOTE_IN_A_NAME else f"{words[: LONGEST_NOTE_IN_A_NAME - 1]}…"
