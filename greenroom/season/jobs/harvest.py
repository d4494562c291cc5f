"""Jobs of harvest: pick what is ripe, save seed."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from datetime import date, timedelta

from greenroom.ledger.facts import Flowered, Picked, SeedSaved
from greenroom.season.crops import cite
from greenroom.season.deeds_plants import pick, save_seed
from greenroom.season.hardening_words import day_words, many
from greenroom.season.holders import Holder
from greenroom.season.jobs.job import CUSTOM, PLOT, Ask, Job, Urgency, Walk
from greenroom.season.jobs.trays import crop_in
from greenroom.season.packets import packet_view, packets_of
from greenroom.season.spots import Spot
from greenroom.season.why import Why

PICK_EVERY_DAYS = 5
FEW_SEEDS = 10
RIPE_KEEPS_DAYS = 14
A_SEASON_DAYS = 300


def harvest_jobs(walk: Walk) -> Iterator[Job]:
    """Yield the jobs of harvest."""
    for bed in walk.season.holders("bed"):
        yield from _pick(walk, bed, [spot for spot in walk.season.spots(bed.key) if spot.up > 0])
    yield from _save_seed(walk)


def _pick(walk: Walk, bed: Holder, living: Sequence[Spot]) -> Iterator[Job]:
    """Yield a job for each variety of a bed that is due to be ripe and was not picked these days."""
    lots: dict[str, list[Spot]] = defaultdict(list)
    for spot in living:
        view = packet_view(walk.season, spot.packet) if spot.packet else None
        if view is not None:
            lots[view.packet.variety].append(spot)
    for variety, spots in lots.items():
        ripe = [day for spot in spots if (day := _ripe_on(walk, spot)) is not None]
        first = min(ripe, default=None)
        last = max(
            (
                fact.day
                for fact in walk.season.facts(Picked)
                if fact.variety == variety and fact.holder in (None, bed.key)
            ),
            default=None,
        )
        rested = last is None or (walk.today - last).days >= PICK_EVERY_DAYS
        if first is not None and first <= walk.today and rested:
            yield _pick_job(walk, bed, variety, spots, first, last)


def _pick_job(
    walk: Walk, bed: Holder, variety: str, spots: Sequence[Spot], first: date, last: date | None
) -> Job:
    view = packet_view(walk.season, spots[0].packet or "")
    crop, name = crop_in(walk.season, spots[0]), view.name if view else variety
    days = crop.days_to_pick if crop is not None else None
    ago = f"last picked {day_words(last)}" if last is not None else "none picked yet"
    why = Why(
        f"Pick {name} in {bed.name}",
        "Ripe by the days from its first open flower, or from setting out where no flower was noted; looked "
        f"for every {PICK_EVERY_DAYS} days from then on, for a plant that is picked sets more.",
        (("ripe from", day_words(first)), ("plants", str(len(spots))), ("before", ago)),
        ((cite(days),) if days is not None else ()) + (CUSTOM,),
    )
    return Job(
        PLOT,
        f"Pick {name} in {bed.name}",
        f"ripe from about {day_words(first)}, {ago}",
        key=f"pick {bed.key} {variety}",
        urgency=Urgency.THIS_WEEK,
        button="Picked",
        due=first if last is None else last + timedelta(days=PICK_EVERY_DAYS),
        ask=Ask("fruit picked", max(1, len(spots)), 1, 10_000),
        why=why,
        doing=lambda value: pick(walk.season, variety, walk.today, round(value), holder=bed.key),
    )


def _ripe_on(walk: Walk, spot: Spot) -> date | None:
    """Return when the first fruit of a plant is to be ripe, by its flower or by its setting out."""
    crop = crop_in(walk.season, spot)
    if crop is None:
        return None
    flowers = [
        fact.day
        for fact in walk.season.facts(Flowered)
        if (fact.holder, fact.row, fact.column) == tuple(spot.key)
    ]
    if flowers and crop.flower_to_ripe_days is not None:
        return min(flowers) + timedelta(days=round(crop.flower_to_ripe_days.value.low))
    view = packet_view(walk.season, spot.packet or "")
    days = crop.days_to_pick
    told = view.days_to_ripe if view is not None else None
    least = told if told is not None else (days.value.low if days is not None else None)
    return spot.arrived + timedelta(days=round(least)) if spot.arrived and least is not None else None


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
        f"Save seed of {name}",
        f"{FEW_SEEDS} seeds or fewer are left in all its packets, and ripe fruit is in hand. Seed of a "
        "hybrid does not come true.",
        (("seeds left", str(left)), ("ripe fruit picked", day_words(day))),
        (CUSTOM,),
    )
    return Job(
        PLOT,
        f"Save seed of {name}",
        f"{many(left, 'seed')} left; ripe fruit picked {day_words(day)}",
        key=f"save seed {variety} {day.year}",
        urgency=Urgency.THIS_WEEK,
        button="Saved",
        ask=Ask("seeds saved", 50, 1, 1_000_000),
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
