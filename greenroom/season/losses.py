"""What was lost: by cause, by stage and by variety."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from greenroom.ledger.facts import Lost
from greenroom.season.few_words import LOST_BY, THINNED
from greenroom.season.hardening_words import day_words
from greenroom.season.packets import variety_name
from greenroom.season.spots import FIRST_TRUE_LEAVES, Spot, SpotKey, fold_spot
from greenroom.season.state import Season
from greenroom.season.why import Why
from greenroom.speech import figure, tr, trn

BEFORE_UP, SEED_LEAVES, TRUE_LEAVES, SET_OUT = "before coming up", "seed leaves", "true leaves", "set out"
STAGES = (BEFORE_UP, SEED_LEAVES, TRUE_LEAVES, SET_OUT)
STAGE_WORDS = {
    BEFORE_UP: tr("before coming up"),
    SEED_LEAVES: tr("seed leaves"),
    TRUE_LEAVES: tr("true leaves"),
    SET_OUT: tr("set out", sense="stage of a plant"),
}


@dataclass(frozen=True, slots=True)
class Loss:
    """One loss: where, what took it, at which stage and out of which packet."""

    day: date
    key: SpotKey
    count: int
    cause: str
    stage: str
    packet: str | None


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the losses, and its share of all of them, 0 to 1.

    ``name`` is a cause as the grower reads it, or a variety; ``stages`` splits its count.
    """

    name: str
    count: int
    share: float
    stages: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Losses:
    """Losses of some days, the greatest part first; seedlings thinned out are counted apart."""

    first: date
    last: date
    total: int
    thinned: int
    by_cause: tuple[Part, ...]
    by_variety: tuple[Part, ...]

    @property
    def words(self) -> str:
        """The losses in a sentence."""
        apart = tr("; {thinned:,} thinned out besides", thinned=self.thinned) if self.thinned else ""
        if not self.total:
            return tr("Nothing lost{apart}.", apart=apart)
        top = self.by_cause[0]
        return tr(
            "{total:,} lost, {share:.0f}% of them: {cause}{apart}.",
            total=self.total,
            share=top.share * 100,
            cause=top.name,
            apart=apart,
        )


def losses_of(season: Season, holders: Iterable[str], first: date, last: date) -> Losses:
    """Return the losses of some holders from one day to another, both included."""
    told = [one for holder in holders for one in holder_losses(season, holder) if first <= one.day <= last]
    lost = [one for one in told if one.cause != THINNED]
    return Losses(
        first,
        last,
        sum(one.count for one in lost),
        sum(one.count for one in told if one.cause == THINNED),
        _parts((cause_words(one.cause), one) for one in lost),
        _parts((variety_name(season, one.packet), one) for one in lost),
    )


def cause_words(cause: str) -> str:
    """Return the cause of a loss as the grower reads it; own words stay."""
    return LOST_BY.get(cause, cause)


def stage_words(stage: str) -> str:
    """Return the stage at which something was lost as the grower reads it."""
    return STAGE_WORDS.get(stage, stage)


def every_holder(season: Season) -> list[str]:
    """Return the keys of all holders, those put away too."""
    return [one.key for away in (False, True) for one in season.holders(put_away=away)]


def holder_losses(season: Season, holder: str) -> tuple[Loss, ...]:
    """Return every loss of one holder, spot by spot."""
    name: Hashable = "losses"
    return season.holder_memo(holder, name, lambda: tuple(_losses(season, holder)))


def losses_why(losses: Losses) -> Why:
    """Return how the losses were counted."""
    rule = tr(
        "Seeds and seedlings marked lost are counted by the cause that was given, the stage "
        "they had reached and their variety. A share is of all that were lost; thinned ones "
        "are left out."
    )
    inputs = (
        (tr("days"), tr("{first} to {last}", first=day_words(losses.first), last=day_words(losses.last))),
        (tr("lost"), figure(losses.total, ",")),
        (tr("thinned, left out"), figure(losses.thinned, ",")),
        *(
            (
                part.name,
                tr(
                    "{count:,} of {total:,}, {share:.0f}%",
                    count=part.count,
                    total=losses.total,
                    share=part.share * 100,
                ),
            )
            for part in losses.by_cause
        ),
    )
    return Why(trn("{n:,} loss", "{n:,} losses", losses.total), rule, inputs)


def _losses(season: Season, holder: str) -> Iterator[Loss]:
    made = season.holder(holder)
    for key in made.keys:
        yield from _of_spot(season, key, outdoors=made.form == "bed")


def _of_spot(season: Season, key: SpotKey, *, outdoors: bool) -> Iterator[Loss]:
    entries = season.spot_facts(key)
    for place, entry in enumerate(entries):
        fact = entry.fact
        if isinstance(fact, Lost):
            was = fold_spot(key, entries[:place], season.traveller)
            stage = SET_OUT if outdoors and was.up > 0 else _stage(was)
            yield Loss(fact.day, key, fact.count, fact.cause, stage, was.packet)


def _stage(spot: Spot) -> str:
    if spot.up == 0:
        return BEFORE_UP
    return TRUE_LEAVES if spot.leaves >= FIRST_TRUE_LEAVES else SEED_LEAVES


def _parts(named: Iterable[tuple[str, Loss]]) -> tuple[Part, ...]:
    """Return the parts by name, the greatest first, those of the same size by name."""
    counts: Counter[str] = Counter()
    stages: dict[str, Counter[str]] = {}
    for name, loss in named:
        counts[name] += loss.count
        stages.setdefault(name, Counter())[loss.stage] += loss.count
    total = counts.total()
    order = sorted(counts, key=lambda name: (-counts[name], name))
    return tuple(
        Part(
            name,
            counts[name],
            counts[name] / total,
            tuple((one, stages[name][one]) for one in STAGES if stages[name][one]),
        )
        for name in order
    )
