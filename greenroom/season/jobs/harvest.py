"""Jobs of harvest: pick what is ripe, save seed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from datetime import date

from greenroom.ledger.facts import Picked, SeedSaved
from greenroom.season.deeds_plants import pick, save_seed
from greenroom.season.hardening_words import day_words
from greenroom.season.jobs.job import PLOT, Ask, Job, Urgency, Walk
from greenroom.season.packets import packet_view, packets_of
from greenroom.season.picking_ahead import Lot, RipeAhead, ripe_lots
from greenroom.season.picking_why import ahead_why, due_why, ripe_words
from greenroom.season.why import CUSTOM, Why
from greenroom.speech import tr, trn

FEW_SEEDS = 10
RIPE_KEEPS_DAYS = 14
A_SEASON_DAYS = 300


def harvest_jobs(walk: Walk) -> Iterator[Job]:
    """Yield the jobs of harvest."""
    yield from _pick(walk)
    yield from _save_seed(walk)


def _pick(walk: Walk) -> Iterator[Job]:
    """Yield a job for each variety of a bed that the Pick page has due: one reckoning for both."""
    due: dict[tuple[str, str], list[tuple[RipeAhead, Lot, date]]] = defaultdict(list)
    for one in ripe_lots(walk.season, walk.known_on or walk.today):
        if one.lot is not None and one.due is not None and one.due <= walk.today:
            due[one.lot.holder, one.variety].append((one, one.lot, one.due))
    for alike in due.values():
        yield _pick_job(walk, alike)


def _pick_job(walk: Walk, alike: Sequence[tuple[RipeAhead, Lot, date]]) -> Job:
    one, lot, due = min(alike, key=lambda each: each[2])
    plants = sum(len(each.spots) for _, each, _ in alike)
    last = max((fact.day for fact in one.picks), default=None)
    ago = tr("last picked {day}", day=day_words(last)) if last is not None else tr("none picked yet")
    return Job(
        PLOT,
        tr("Pick {variety} in {bed}", variety=one.name, bed=lot.bed),
        f"{ripe_words(one)}, {ago}",
        key=f"pick {lot.holder} {one.variety}",
        urgency=Urgency.THIS_WEEK,
        button=tr("Picked", sense="a job is done"),
        page="pick",
        about=(one.variety, lot.holder),
        due=due,
        ask=Ask(tr("fruit picked"), max(1, plants), 1, 10_000),
        why=due_why(one) if last is not None else ahead_why(walk.season, one),
        doing=lambda value: pick(walk.season, one.variety, walk.today, round(value), holder=lot.holder),
    )


def _save_seed(walk: Walk) -> Iterator[Job]:
    """Yield a job for each variety picked ripe of which few seeds are left and none were saved since."""
    ripe: dict[str, date] = {}
    for fact in walk.season.facts(Picked):
        if fact.ripeness == "ripe":
            ripe[fact.variety] = fact.day
    saved = {fact.variety: fact.day for fact in walk.season.facts(SeedSaved)}
    for variety, day in ripe.items():
        left = _seeds_left(walk, variety)
        if (walk.today - day).days > RIPE_KEEPS_DAYS or left is None or left[1] > FEW_SEEDS:
            continue
        if variety not in saved or (walk.today - saved[variety]).days > A_SEASON_DAYS:
            yield _save_job(walk, variety, left[0], left[1], day)


def _save_job(walk: Walk, variety: str, name: str, left: int, day: date) -> Job:
    why = Why(
        tr("Save seed of {variety}", variety=name),
        tr(
            "{number} seeds or fewer are left in all its packets, and ripe fruit is in hand. "
            "Seed of a hybrid does not come true.",
            number=FEW_SEEDS,
        ),
        ((tr("seeds left"), str(left)), (tr("ripe fruit picked"), day_words(day))),
        (CUSTOM,),
    )
    return Job(
        PLOT,
        tr("Save seed of {variety}", variety=name),
        trn(
            "{n:,} seed left; ripe fruit picked {day}",
            "{n:,} seeds left; ripe fruit picked {day}",
            left,
            day=day_words(day),
        ),
        key=f"save seed {variety} {day.year}",
        urgency=Urgency.THIS_WEEK,
        button=tr("Saved", sense="seed"),
        ask=Ask(tr("seeds saved"), 50, 1, 1_000_000),
        why=why,
        doing=lambda value: save_seed(walk.season, variety, walk.today, count=round(value)),
    )


def _seeds_left(walk: Walk, variety: str) -> tuple[str, int] | None:
    """Return the name of a variety and the seeds left in its packets; None where nobody counted."""
    views = [packet_view(walk.season, key) for key in packets_of(walk.season, variety)]
    known = [view for view in views if view is not None]
    if not known or any(view.left is None for view in known):
        return None
    return known[0].name, sum(view.left or 0 for view in known)
