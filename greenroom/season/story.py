"""The story of what stands in a spot, followed back through every move to its sowing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from greenroom.ledger import Entry
from greenroom.ledger.facts import PictureKept
from greenroom.season.coherence import coherent
from greenroom.season.few_words import spot_words
from greenroom.season.hardening_words import day_words
from greenroom.season.losses import cause_words
from greenroom.season.packets import variety_name
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import (
    Spot,
    SpotKey,
    Stage,
    arrives,
    fillings,
    keys_of,
    order_of,
    row_label,
    since_filled,
)
from greenroom.season.state import Season
from greenroom.season.story_words import leaves_words, spot_fact_words
from greenroom.speech import tr, trn

LONGEST_NOTE_IN_A_NAME = 40


@dataclass(frozen=True, slots=True)
class Line:
    """One thing that happened: ``spot`` is where, ``fact`` its id, ``act`` the act that wrote it.

    ``earlier`` marks what belongs to something that stood in the spot before, ``whole`` what was done
    to all that stands in ``of``, a tray, rack or bed. A line that tells of several facts names the
    ``others`` too. ``fixed`` lines are not taken back where they are told.
    """

    day: date
    words: str
    spot: SpotKey | None
    fact: str
    act: int
    earlier: bool = False
    of: str = ""
    whole: bool = False
    others: tuple[str, ...] = ()
    fixed: bool = False
    picture: PictureKept | None = None

    @property
    def facts(self) -> tuple[str, ...]:
        """The ids of all facts it tells of."""
        return (self.fact, *self.others)


def way(season: Season, key: SpotKey) -> tuple[list[Entry], list[tuple[SpotKey, list[Entry]]]]:
    """Return what happened in a spot before it was last filled, and the way of what stands there.

    The way is the spots it stood in, from its sowing to this one, each with what happened in it.
    """
    *before, present = fillings(key, season.spot_facts(key)) or [[]]
    stays = [(key, present)]
    while present and arrives(move := present[0].fact, key):
        came = order_of(present[0])
        key = keys_of(move)[0]
        past = [one for one in season.spot_facts(key) if order_of(one) < came]
        present = since_filled(key, past)
        stays.append((key, present))
    return [entry for part in before for entry in part], stays[::-1]


def spot_line(season: Season, key: SpotKey, entry: Entry) -> Line:
    """Return the line of one fact about a spot."""
    fact = entry.fact
    picture = fact if isinstance(fact, PictureKept) else None
    words = spot_fact_words(season, key, fact)
    return Line(fact.day, words, key, fact.id, entry.act, of=key.holder, picture=picture)


def take_back(season: Season, line: Line) -> Proposal:
    """Strike one mark of a story out.

    Raises
    ------
    RefusedError
        If a later mark rests on it, or it is none that is taken back on its own.
    """
    if line.fixed or line.others:
        raise RefusedError(tr("This is not taken back from here; take it back where it was done."))
    at = f" ({_about(season, line)})" if line.spot or line.of else ""
    proposal = Proposal(tr("took back: {what}", what=f"{_short(line.words)}{at}"), strike=(line.fact,))
    return coherent(season, proposal, [line.spot] if line.spot is not None else [])


def glance_words(season: Season, key: SpotKey) -> str:
    """Return everything about a spot in one line: "B3, Cinder Lantern: up since 14 March, …"."""
    return _head_and_state(season, key, key.label)


def spoken_words(season: Season, key: SpotKey) -> str:
    """Return the same with the place spelled out, for a reader that speaks: "row B, column 3, …"."""
    at = tr("row {row}, column {column}", row=row_label(key.row), column=key.column + 1)
    return _head_and_state(season, key, at)


def state_words(season: Season, key: SpotKey) -> str:
    """Return how what stands in a spot is doing, without its place and name: "up since 14 March, …"."""
    return ", ".join(_state_parts(season, season.spot(key)))


def _head_and_state(season: Season, key: SpotKey, at: str) -> str:
    spot = season.spot(key)
    head = at if spot.packet is None else f"{at}, {variety_name(season, spot.packet)}"
    return tr("{name}: {what}", name=head, what=state_words(season, key))


def _state_parts(season: Season, spot: Spot) -> list[str]:
    if spot.stage is Stage.BARE:
        return [tr("nothing sown")]
    words = [_STATES[spot.stage](spot)]
    if spot.up > 0 and spot.waiting > 0:
        words.append(trn("{n:,} seed still to come", "{n:,} seeds still to come", spot.waiting))
    if spot.sown_on is not None:
        words.append(tr("sown {day}", day=day_words(spot.sown_on)))
    if spot.origin is not None:
        words.append(tr("from {place}", place=spot_words(season, spot.origin)))
    return words


def _waiting_words(spot: Spot) -> str:
    return trn("waiting to come up", "{n} seeds waiting to come up", spot.waiting)


def _up_words(spot: Spot) -> str:
    if spot.first_up is None:
        return trn("up", "{n} up", spot.up, sense="seedlings of one spot")
    return trn("up since {day}", "{n} up since {day}", spot.up, day=day_words(spot.first_up))


def _grown_words(spot: Spot) -> str:
    return f"{_up_words(spot)}, {leaves_words(spot.leaves)}"


def _gone_words(spot: Spot) -> str:
    return tr("lost, {cause}", cause=cause_words(spot.cause)) if spot.cause else tr("lost, cause not known")


_STATES: dict[Stage, Callable[[Spot], str]] = {
    Stage.SOWN: _waiting_words,
    Stage.UP: _up_words,
    Stage.LEAVES: _grown_words,
    Stage.LOST: _gone_words,
    Stage.MOVED: lambda _spot: tr("moved on"),
}


def _about(season: Season, line: Line) -> str:
    return line.spot.label if line.spot is not None else season.holder(line.of).name


def _short(words: str) -> str:
    return words if len(words) <= LONGEST_NOTE_IN_A_NAME else f"{words[: LONGEST_NOTE_IN_A_NAME - 1]}…"
