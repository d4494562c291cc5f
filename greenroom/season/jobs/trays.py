"""Jobs in trays: look for what comes up, sow again, thin, pot up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from datetime import date

from greenroom.ledger.facts import LookedOver, Lost
from greenroom.season.coherence import coherent
from greenroom.season.crops import cite
from greenroom.season.deeds_care import look_over
from greenroom.season.deeds_resow import sow_again
from greenroom.season.few_words import THINNED
from greenroom.season.holders import Holder
from greenroom.season.jobs.job import SHELF, Job, Urgency, Walk
from greenroom.season.lots import due_days
from greenroom.season.packets import variety_name
from greenroom.season.plot_plants import crop_at
from greenroom.season.proposal import Proposal
from greenroom.season.resow import Resow, resow_advice
from greenroom.season.spots import FIRST_TRUE_LEAVES, Spot
from greenroom.season.sprouting import chance_words, expected_pace, tabled_spread
from greenroom.season.state import Season
from greenroom.season.why import CUSTOM, Why
from greenroom.speech import many, tr, trn

LEAVES_A_SET = 2  # true leaves come in pairs in peppers, tomatoes and most dicots
THIN_AFTER_DAYS = 10
POT_UP_AFTER_DAYS = 35
"""Days in the cell after which roots have filled it, leaves counted or not: common practice, no source."""


def tray_jobs(walk: Walk, tray: Holder) -> Iterator[Job]:
    """Yield the jobs of one tray."""
    advice = resow_advice(walk.season, tray.key, walk.today)
    yield from (_resow(walk, tray, one) for one in advice if one.worth_it)
    yield from _look(walk, tray, [one for one in advice if not one.worth_it])
    yield from _thin(walk, tray)
    yield from _pot_up(walk, tray)


def _resow(walk: Walk, tray: Holder, one: Resow) -> Job:
    return Job(
        SHELF,
        tr("Sow {seeds} more {variety} in {tray}", seeds=one.seeds, variety=one.name, tray=tray.name),
        trn(
            "{n:,} cell bare on day {day}; that one still comes up: {chance} at best",
            "{n:,} cells bare on day {day}; that one still comes up: {chance} at best",
            len(one.cells),
            day=one.day,
            chance=chance_words(one.each),
        ),
        key=f"resow {tray.key} {one.packet}",
        button=tr("Sown", sense="a job is done"),
        page="grow",
        about=(tray.key,),
        why=one.why,
        doing=lambda _value: sow_again(walk.season, one, walk.today),
    )


def _look(walk: Walk, tray: Holder, advice: list[Resow]) -> Iterator[Job]:
    """Yield a job for each lot that is due to come up about now, unless it was looked for today."""
    facts = (entry.fact for entry in walk.season.holder_facts(tray.key))
    if any(isinstance(fact, LookedOver) and fact.day == walk.today for fact in facts):
        return
    for one in advice:
        pace = expected_pace(walk.season, tray.key, one.packet)
        if pace is None or not pace.early / 2 <= one.day <= due_days(pace.days, tabled_spread(pace)):
            continue
        yield Job(
            SHELF,
            tr("Look for {variety} in {tray}", variety=one.name, tray=tray.name),
            trn(
                "day {day}, {n:,} cell bare; half are expected up by day {expected:.0f}",
                "day {day}, {n:,} cells bare; half are expected up by day {expected:.0f}",
                len(one.cells),
                day=one.day,
                expected=one.expected_days,
            ),
            key=f"look {tray.key} {one.packet}",
            button=tr("Looked", sense="a job is done"),
            page="grow",
            about=(tray.key,),
            why=one.why,
            doing=lambda _value: look_over(walk.season, [tray.key], walk.today),
        )


def _thin(walk: Walk, tray: Holder) -> Iterator[Job]:
    crowded = [
        spot for spot in walk.season.spots(tray.key) if spot.up > 1 and _to_be_thinned(spot, walk.today)
    ]
    if not crowded:
        return
    extra = sum(spot.up - 1 for spot in crowded)
    why = Why(
        trn("Thin {n:,} cell of {tray}", "Thin {n:,} cells of {tray}", len(crowded), tray=tray.name),
        tr(
            "Where more than one came up, the strongest stays once the first true leaves show, "
            "or ten days after it came up. Seedlings may be pricked out instead, on the Grow "
            "page."
        ),
        ((tr("cells with more than one"), str(len(crowded))), (tr("seedlings too many"), str(extra))),
        (CUSTOM,),
    )
    yield Job(
        SHELF,
        tr("Thin {tray}", tray=tray.name),
        trn(
            "{n:,} cell with more than one seedling, {extra} too many",
            "{n:,} cells with more than one seedling, {extra} too many",
            len(crowded),
            extra=extra,
        ),
        key=f"thin {tray.key}",
        urgency=Urgency.THIS_WEEK,
        button=tr("Thinned", sense="a job is done"),
        page="grow",
        about=(tray.key,),
        why=why,
        doing=lambda _value: thin(walk.season, tray, walk.today),
    )


def thin(season: Season, tray: Holder, day: date) -> Proposal:
    """Leave one seedling in each cell that has more."""
    facts = tuple(
        Lost(
            day=day,
            holder=tray.key,
            row=spot.key.row,
            column=spot.key.column,
            cause=THINNED,
            count=spot.up - 1,
        )
        for spot in season.spots(tray.key)
        if spot.up > 1
    )
    return coherent(season, Proposal(tr("thinned {tray}", tray=tray.name), facts))


def _to_be_thinned(spot: Spot, today: date) -> bool:
    old = spot.first_up is not None and (today - spot.first_up).days >= THIN_AFTER_DAYS
    return spot.leaves >= FIRST_TRUE_LEAVES or old


def _pot_up(walk: Walk, tray: Holder) -> Iterator[Job]:
    """Yield a job if seedlings of a tray have outgrown their cells."""
    ready: Counter[str] = Counter()
    least, longest, sources = 0, 0, dict[str, None]()
    living = [spot for spot in walk.season.spots(tray.key) if spot.up > 0]
    crops = {
        packet: crop_at(walk.season, spot) for packet, spot in {one.packet: one for one in living}.items()
    }
    for spot in living:
        crop = crops[spot.packet]
        if crop is None or crop.pot_up_leaf_sets is None:
            continue
        leaves = round(LEAVES_A_SET * crop.pot_up_leaf_sets.value.low)
        days = days_there(spot, walk.today)
        if spot.leaves >= leaves or days >= POT_UP_AFTER_DAYS:
            ready[variety_name(walk.season, spot.packet)] += spot.up
            least, longest = min(least or leaves, leaves), max(longest, days)
            sources[cite(crop.pot_up_leaf_sets)] = None
    if ready:
        yield _pot_up_job(tray, ready, least, longest, tuple(sources))


def _pot_up_job(tray: Holder, ready: Counter[str], least: int, longest: int, sources: tuple[str, ...]) -> Job:
    lots = ", ".join(f"{number} {name}" for name, number in ready.most_common(3))
    if len(ready) > 3:
        lots = trn("{lots} and {n} more lot", "{lots} and {n} more lots", len(ready) - 3, lots=lots)
    why = Why(
        tr("Pot up {number} from {tray}", number=ready.total(), tray=tray.name),
        tr(
            "Seedlings are potted up at {least} true leaves, or after {days} days "
            "in the cell, when roots have filled it whatever was counted.",
            least=least,
            days=POT_UP_AFTER_DAYS,
        ),
        (
            (tr("seedlings"), str(ready.total())),
            (tr("longest in the cell"), many(longest, "day")),
        ),
        (*sources, CUSTOM),
    )
    return Job(
        SHELF,
        tr("Pot up from {tray}", tray=tray.name),
        tr(
            "{lots} with {least} true leaves, or {longest} in the cell",
            lots=lots,
            least=least,
            longest=many(longest, "day"),
        ),
        key=f"pot up {tray.key}",
        urgency=Urgency.THIS_WEEK,
        button=tr("To the pots"),
        page="grow",
        about=(tray.key,),
        why=why,
    )


def days_there(spot: Spot, today: date) -> int:
    """Return how many days a seedling has stood in its spot."""
    since = spot.arrived or spot.first_up
    return max(0, (today - since).days) if since is not None else 0
