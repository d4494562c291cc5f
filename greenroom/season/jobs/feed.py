"""Jobs of feeding: once a week from the first true leaves on, as strong as the plants' stage asks for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from greenroom.agronomy.containers import pot_litres
from greenroom.guide import Cited, Crop, Span
from greenroom.ledger.facts import Fed, Flowered
from greenroom.season.crops import cite
from greenroom.season.deeds_care import Feed, feed
from greenroom.season.hardening import hardening_since
from greenroom.season.hardening_words import day_words
from greenroom.season.holders import Holder
from greenroom.season.jobs.job import CUSTOM, PLOT, SHELF, Ask, Job, Urgency, Walk, names_of
from greenroom.season.jobs.trays import crop_in
from greenroom.season.proposal import Proposal, together
from greenroom.season.spots import FIRST_TRUE_LEAVES
from greenroom.season.state import Season
from greenroom.season.why import Why

EVERY_DAYS = 7
GROWING_LEAVES = 4
SHARE_OF_MIX = 0.1
"""A feed wets the mix and no more: a tenth of its volume, common practice, no source."""
USUAL_LITRES = 1.0
BALANCED = Feed("balanced feed", 20, 20, 20, 0)
FOR_FRUIT = Feed("feed for fruit", 4, 2, 8, 0)
STAGES = {"seedling": "young seedlings", "growing": "growing away", "potted": "in pots", "fruit": "in flower"}


@dataclass(frozen=True, slots=True)
class _Hunger:
    """What one holder is to be fed, how strong and since when; ``last`` is when it was fed."""

    made: Holder
    stage: str
    ppm_n: float
    litres: float
    due: date
    last: date | None
    source: str


def feed_jobs(walk: Walk) -> Iterator[Job]:
    """Yield one job for all holders that are to be fed alike, and one for each feed to be shifted."""
    hungry: dict[tuple[str, str, float], list[_Hunger]] = defaultdict(list)
    for made in walk.season.holders():
        one = _hunger(walk, made)
        if one is not None and one.due <= walk.today:
            where = PLOT if made.form == "bed" else SHELF
            hungry[where, one.stage, one.ppm_n].append(one)
    for (where, stage, ppm_n), alike in hungry.items():
        yield _feed_job(walk, where, stage, ppm_n, alike)


def _feed_job(walk: Walk, where: str, stage: str, ppm_n: float, alike: Sequence[_Hunger]) -> Job:
    names = names_of([one.made.name for one in alike])
    litres = round(sum(one.litres for one in alike), 1)
    what = _feed_for(walk.season, stage, ppm_n)
    lasts = [one.last for one in alike if one.last is not None]
    ago = f"last fed {day_words(min(lasts))}" if lasts else "not fed yet"
    shift = stage == "fruit" and not lasts
    ago = "more potash than nitrogen from the first flower on" if shift else ago
    why = Why(
        f"{ppm_n:g} ppm N for {names}",
        f"Fed every {EVERY_DAYS} days from the first true leaves on, as strong as the guide asks for plants "
        f"{STAGES[stage]}. From the first flower on the feed holds more potash than nitrogen. Not while "
        "seed leaves last, and not while the guide says none.",
        (
            ("holders", str(len(alike))),
            ("feed", f"{what.name} ({what.n_percent:g}-{what.p2o5_percent:g}-{what.k2o_percent:g})"),
            ("litres", f"{litres:g}"),
        ),
        (*dict.fromkeys(one.source for one in alike), CUSTOM),
    )
    keys = [one.made.key for one in alike]
    return Job(
        where,
        f"Shift the feed of {names} to potash" if shift else f"Feed {names}, {ppm_n:g} ppm N",
        f"{STAGES[stage]}, {ago}",
        key=f"feed {where} {stage}" if len(keys) > 1 else f"feed {keys[0]}",
        urgency=Urgency.THIS_WEEK,
        button="Fed",
        due=min(one.due for one in alike if one.last is not None) if lasts else None,
        ask=Ask("litres in all", max(0.1, litres), 0.1, 10_000, "L", 1),
        why=why,
        doing=lambda value: _feed_all(walk, alike, what, value, litres),
    )


def _feed_all(walk: Walk, alike: Sequence[_Hunger], what: Feed, litres: float, proposed: float) -> Proposal:
    scale = litres / proposed if proposed > 0 else 1.0
    parts = [
        feed(walk.season, one.made.key, walk.today, what, max(0.001, round(one.litres * scale, 3)))
        for one in alike
    ]
    return (
        parts[0] if len(parts) == 1 else together(f"fed {names_of([one.made.name for one in alike])}", parts)
    )


def _hunger(walk: Walk, made: Holder) -> _Hunger | None:
    """Return what a holder is to be fed, or None if nothing in it wants feed by the guide."""
    known = walk.season.holder_memo(made.key, ("hunger", walk.box), lambda: _stage(walk, made))
    if known is None:
        return None
    stage, asked, since = known
    low = asked.value.low
    if low <= 0:
        return None
    told = [entry.fact for entry in walk.season.holder_facts(made.key) if isinstance(entry.fact, Fed)]
    fed = [one.day for one in told if stage != "fruit" or one.k2o_percent > one.n_percent]
    last = max((day for day in fed if day <= walk.today), default=None)
    due = since if last is None else last + timedelta(days=EVERY_DAYS)
    return _Hunger(made, stage, low, _litres(made), due, last, cite(asked))


def _stage(walk: Walk, made: Holder) -> tuple[str, Cited[Span], date] | None:
    """Return the stage of the plants in a holder, what the guide asks for it, and since when."""
    season = walk.season
    grown = [spot for spot in season.spots(made.key) if spot.up > 0 and spot.leaves >= FIRST_TRUE_LEAVES]
    in_pots = [spot for spot in season.spots(made.key) if spot.up > 0 and made.form != "tray"]
    fed = grown or in_pots
    if not fed:
        return None
    since = min(spot.leaves_on or spot.arrived or spot.first_up or date.max for spot in fed)
    crop = next((found for spot in fed if (found := crop_in(season, spot)) is not None), None)
    if crop is None:
        return None
    stage, asked = _asked(season, made, crop, max(spot.leaves for spot in fed))
    return (stage, asked, since) if asked is not None else None


def _asked(season: Season, made: Holder, crop: Crop, leaves: int) -> tuple[str, Cited[Span] | None]:
    if made.form == "bed":
        return ("fruit" if flowers(season, made.key) else "potted"), crop.feed_potted_ppm_n
    if hardening_since(season, made.key) is not None:
        return "growing", crop.feed_hardening_ppm_n
    if flowers(season, made.key):
        return "fruit", crop.feed_potted_ppm_n
    if made.form == "rack":
        return "potted", crop.feed_potted_ppm_n
    if leaves >= GROWING_LEAVES:
        return "growing", crop.feed_growing_ppm_n
    return "seedling", crop.feed_seedling_ppm_n


def flowers(season: Season, holder: str) -> bool:
    """Whether a first flower was seen on any plant of a holder."""
    return any(fact.holder == holder for fact in season.facts(Flowered))


def _feed_for(season: Season, stage: str, ppm_n: float) -> Feed:
    """Return the grower's own latest feed, one with more potash than nitrogen once plants flower."""
    own = [fact for fact in season.facts(Fed) if stage != "fruit" or fact.k2o_percent > fact.n_percent]
    if own:
        last = own[-1]
        return Feed(last.feed, last.n_percent, last.p2o5_percent, last.k2o_percent, ppm_n)
    usual = FOR_FRUIT if stage == "fruit" else BALANCED
    return Feed(usual.name, usual.n_percent, usual.p2o5_percent, usual.k2o_percent, ppm_n)


def _litres(made: Holder) -> float:
    """Return what wets the mix of a holder [L]."""
    if made.cell_ml is not None:
        return max(0.1, round(made.cell_ml * made.spots / 1000 * SHARE_OF_MIX, 2))
    try:
        pot = pot_litres(made.size)
    except ValueError:  # a size in words of the grower's own
        return USUAL_LITRES
    return max(0.1, round(pot * made.spots * SHARE_OF_MIX, 2))
