"""What a grower does to cells and pots: sow, mark, take back, lose, move, note."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from greenroom.ledger.facts import Fact, LeafStage, Lost, Moved, Sown, Sprouted
from greenroom.season.coherence import coherent
from greenroom.season.deeds_care import in_use, refuse_beside
from greenroom.season.few_words import and_words, spot_words
from greenroom.season.hardening_words import day_words
from greenroom.season.holders import Holder
from greenroom.season.losses import cause_words
from greenroom.season.packets import packet_view, seeds_left, variety_name
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import Spot, SpotKey, Stage, since_filled
from greenroom.season.state import Season
from greenroom.speech import many, tr, trn


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
            raise RefusedError(
                tr("{cell} holds a seedling; sow into cells that hold none.", cell=spot_words(season, key))
            )
    needed, left = seeds * len(keys), seeds_left(season, packet)
    if left is not None and needed > left:
        raise RefusedError(
            trn(
                "{variety} has {left} left and {n} is needed; sow fewer cells or correct the packet.",
                "{variety} has {left} left and {n} are needed; sow fewer cells or correct the packet.",
                needed,
                variety=name,
                left=many(left, "seed"),
            )
        )
    facts = [Sown(day=day, **key._asdict(), packet=packet, seeds=seeds) for key in keys]
    return coherent(
        season,
        Proposal(tr("sowed {variety} in {cells}", variety=name, cells=_where(season, keys)), tuple(facts)),
    )


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
                tr(
                    "{cell} was sown on {sown}; it cannot have been up on {day}.",
                    cell=spot_words(season, key),
                    sown=day_words(first),
                    day=day_words(day),
                )
            )
    facts = [Sprouted(day=day, **key._asdict(), count=count) for key in waiting]
    return coherent(season, Proposal(tr("marked {cells} up", cells=_where(season, waiting)), tuple(facts)))


def take_back_up(season: Season, keys: Sequence[SpotKey]) -> Proposal:
    """Take the latest sprout mark of each spot back, of the seedlings that stand there now."""
    keys = _chosen(season, keys)
    marked = [key for key in keys if season.spot(key).up > 0 and season.spot(key).sprouted > 0]
    struck = [mark for key in marked if (mark := latest_mark(season, key, Sprouted)) is not None]
    if not struck:
        raise RefusedError(tr("{cells}: there is no sprout mark to take back.", cells=_where(season, keys)))
    proposal = Proposal(tr("took back up in {cells}", cells=_where(season, marked)), strike=tuple(struck))
    return coherent(season, proposal, marked)


def click(season: Season, key: SpotKey, day: date) -> Proposal:
    """Do what a click on a cell means: up if a seed waits, else the sprout mark back."""
    spot = season.spot(key)
    if spot.waiting > 0:
        return mark_up(season, [key], day)
    if spot.up > 0 and spot.sprouted > 0:
        return take_back_up(season, [key])
    raise RefusedError(
        tr(
            "{cell} is {stage}; there is nothing to mark up.",
            cell=spot_words(season, key),
            stage=describe_stage(spot),
        )
    )


def set_leaves(season: Season, keys: Sequence[SpotKey], day: date, leaves: int) -> Proposal:
    """Note how many true leaves the seedlings show."""
    keys = _chosen(season, keys)
    living = [key for key in keys if season.spot(key).up > 0]
    if not living:
        raise RefusedError(
            tr(
                "{cells}: no seedling stands there; leaves are counted on seedlings.",
                cells=_where(season, keys),
            )
        )
    _refuse_before_up(season, living, day)
    facts = [LeafStage(day=day, **key._asdict(), leaves=leaves) for key in living]
    words = tr("seed leaves only") if leaves == 0 else trn("{n} true leaf", "{n} true leaves", leaves)
    return Proposal(tr("{name}: {what}", name=_where(season, living), what=words), tuple(facts))


def mark_lost(season: Season, keys: Sequence[SpotKey], day: date, cause: str = "") -> Proposal:
    """Mark the seedlings that stand in each spot as lost, or the seed that waits where none does.

    A cell with a seedling and a seed still to come loses the seedling first; the seed may yet come up.
    """
    keys = _chosen(season, keys)
    held = [key for key in keys if not season.spot(key).free]
    if not held:
        raise RefusedError(
            tr("{cells}: nothing stands or waits there that could be lost.", cells=_where(season, keys))
        )
    facts: list[Fact] = []
    for key in held:
        spot = season.spot(key)
        facts.append(Lost(day=day, **key._asdict(), cause=cause, count=spot.up or spot.waiting))
    return coherent(season, Proposal(tr("marked {cells} lost", cells=_where(season, held)), tuple(facts)))


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
        raise RefusedError(
            tr("{cells}: no seedling stands there to be moved.", cells=_where(season, sources))
        )
    _refuse_before_up(season, hands, day)
    _refuse_unusable(season, [target], day)
    places = landing(season, len(hands), target, leaving=frozenset(sources))
    if target not in places:
        raise RefusedError(tr("{spot} is taken; drop on an empty one.", spot=spot_words(season, target)))
    name = season.holder(target.holder).name
    if len(places) < len(hands):
        raise RefusedError(
            trn(
                "{holder} has room for {places} from {spot} on and {n} is in hand; drop them further up or "
                "take fewer.",
                "{holder} has room for {places} from {spot} on and {n} are in hand; drop them further up or "
                "take fewer.",
                len(hands),
                holder=name,
                places=len(places),
                spot=target.label,
            )
        )
    facts = [
        Moved(day=day, **source._asdict(), to_holder=place.holder, to_row=place.row, to_column=place.column)
        for source, place in zip(hands, places, strict=True)
    ]
    return coherent(
        season,
        Proposal(
            tr("moved {seedlings} to {holder}", seedlings=many(len(hands), "seedling"), holder=name),
            tuple(facts),
        ),
    )


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


def latest_mark(season: Season, key: SpotKey, cls: type[Fact]) -> str | None:
    """Return the id of the latest fact of a kind about a spot."""
    marks = [entry.fact.id for entry in season.spot_facts(key) if isinstance(entry.fact, cls)]
    return marks[-1] if marks else None


def describe_stage(spot: Spot) -> str:
    """Return the words for what a spot shows."""
    words = {
        Stage.BARE: tr("bare", sense="of a cell"),
        Stage.SOWN: tr("sown, nothing up yet"),
        Stage.UP: tr("up", sense="of a cell"),
        Stage.LEAVES: trn("up with {n} true leaf", "up with {n} true leaves", spot.leaves),
        Stage.LOST: tr("lost ({cause})", cause=cause_words(spot.cause)) if spot.cause else tr("lost"),
        Stage.MOVED: tr("moved on"),
    }
    return words[spot.stage]


def _chosen(season: Season, keys: Sequence[SpotKey]) -> list[SpotKey]:
    """Return the spots, each once; refused if there are none or their holder is gone."""
    if not keys:
        raise RefusedError(tr("No cell is chosen; choose one or more first."))
    for holder in {key.holder for key in keys}:
        _holder(season, holder)
    return list(dict.fromkeys(keys))


def _holder(season: Season, key: str) -> Holder:
    try:
        return season.holder(key)
    except KeyError as error:
        raise RefusedError(tr("That tray or rack is not there any more; choose another.")) from error


def _packet_name(season: Season, packet: str) -> str:
    if packet_view(season, packet) is None:
        raise RefusedError(tr("That packet is not in the seed box any more; choose another."))
    return variety_name(season, packet)


def _sowing_days(season: Season, key: SpotKey) -> list[date]:
    """Return the days a spot was sown on since it was last free."""
    present = since_filled(key, season.spot_facts(key))
    return [entry.fact.day for entry in present if isinstance(entry.fact, Sown)]


def _where(season: Season, keys: Sequence[SpotKey]) -> str:
    if len(keys) == 1:
        return spot_words(season, keys[0])
    names = dict.fromkeys(season.holder(key.holder).name for key in keys)
    return tr("{cells} of {holders}", cells=many(len(keys), "cell"), holders=and_words(names))


def _nothing_waits(season: Season, keys: Sequence[SpotKey], count: int) -> str:
    most = max(season.spot(key).waiting for key in keys)
    if most:
        return tr(
            "{cells}: {seeds} still waits there; {count} cannot have come up.",
            cells=_where(season, keys),
            seeds=many(most, "seed"),
            count=count,
        )
    return tr("{cells}: no sown seed waits there; sow first, then mark it up.", cells=_where(season, keys))


def _refuse_unusable(season: Season, keys: Sequence[SpotKey], day: date) -> None:
    """Refuse what goes into a holder before it was in use, after it was put away, or beside it."""
    for holder in dict.fromkeys(key.holder for key in keys):
        _holder(season, holder)
        in_use(season, holder, day)
    for key in keys:
        refuse_beside(season.holder(key.holder), key)


def _refuse_before_up(season: Season, keys: Sequence[SpotKey], day: date) -> None:
    for key in keys:
        spot = season.spot(key)
        here_since = max((one for one in (spot.first_up, spot.arrived) if one is not None), default=None)
        if here_since is not None and day < here_since:
            at, since = spot_words(season, key), day_words(here_since)
            if here_since == spot.arrived:
                raise RefusedError(
                    tr("{spot} was moved there on {day}; choose that day or a later one.", spot=at, day=since)
                )
            raise RefusedError(
                tr("{spot} came up on {day}; choose that day or a later one.", spot=at, day=since)
            )
