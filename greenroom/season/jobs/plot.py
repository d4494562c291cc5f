"""Jobs in the plot: set out, cover, stake, mulch, lower leaves off."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from datetime import date

from greenroom.ledger.facts import Mulched, Pruned, SoilFelt, Staked
from greenroom.season.covering import Cover, cover_beds, cover_tonight
from greenroom.season.crops import cite
from greenroom.season.deeds_plants import mulch, prune, stake
from greenroom.season.hardening_words import temperature_words
from greenroom.season.holders import Holder
from greenroom.season.jobs.door import standings
from greenroom.season.jobs.job import PLOT, Job, Urgency, Walk, names_of
from greenroom.season.plot_plants import crop_at
from greenroom.season.set_out import Gate, gates
from greenroom.season.spots import Spot
from greenroom.season.why import CUSTOM, Why
from greenroom.season.within import in_row
from greenroom.speech import figure, many, tr, trn

TALL_CM = 60
WARM_SOIL_C = 18.0
MULCH_AFTER_DAYS = 21
LEAVES_OFF_DAYS = (21, 42)
"""Days after setting out at which lower leaves come off, the first and the second time."""
LEAVES_OFF_UNTIL_DAYS = 84
"""By twelve weeks after setting out the foot of a plant is bare or shaded: common practice, no source."""
LEAFY_GROUPS = ("peppers", "tomatoes", "nightshades")


def plot_jobs(walk: Walk) -> Iterator[Job]:
    """Yield the jobs in the plot."""
    yield from _set_out(walk)
    yield from _cover(walk)
    for bed in walk.season.holders("bed"):
        living = [spot for spot in walk.season.spots(bed.key) if spot.up > 0]
        if living:
            yield from _stake(walk, bed, living)
            yield from _mulch(walk, bed, living)
            yield from _leaves_off(walk, bed, living)


def _set_out(walk: Walk) -> Iterator[Job]:
    """Yield a job for each holder whose gate to the plot is open."""
    hardened = [stand for stand in standings(walk) if stand.hardened]
    for gate in gates(walk.season, hardened, walk.today, walk.now):
        if gate.open:
            yield _set_out_job(gate)


def _set_out_job(gate: Gate) -> Job:
    plants = trn("{n:,} plant hardened off", "{n:,} plants hardened off", gate.plants)
    nights, soil, _ = gate.checks
    reasons = [check.words.rstrip(".") for check in (nights, soil) if check.state == "open"]
    sources = [source for check in gate.checks if check.why is not None for source in check.why.sources]
    why = Why(
        tr("Set out {tray}", tray=gate.name),
        tr(
            "Nights, soil and hardening, each by what the plant that asks for most needs; soil "
            "that was not measured holds nothing back."
        ),
        tuple((check.name, check.words) for check in gate.checks),
        tuple(dict.fromkeys(sources)),
    )
    return Job(
        PLOT,
        tr("Set out {tray}", tray=gate.name),
        in_row([plants, *reasons]),
        key=f"set out {gate.holder}",
        urgency=Urgency.THIS_WEEK,
        button=tr("To the plot"),
        page="setout",
        about=(gate.holder,),
        why=why,
    )


def _cover(walk: Walk) -> Iterator[Job]:
    """Yield one job for all beds that are to be covered tonight: by the same rule as the warning."""
    wanted = cover_tonight(walk.season, walk.today, walk.now)
    if wanted is not None:
        yield _cover_job(walk, wanted)


def _cover_job(walk: Walk, wanted: Cover) -> Job:
    names = names_of([bed.name for bed in wanted.beds])
    return Job(
        PLOT,
        tr("Cover {names} tonight", names=names),
        trn(
            "{low}; {n:,} plant out; {until}",
            "{low}; {n:,} plants out; {until}",
            wanted.plants,
            low=wanted.low_words(walk.place),
            until=wanted.until_words(walk.place),
        ),
        key=f"cover {walk.today.isoformat()}",
        urgency=Urgency.NOW,
        button=tr("Covered", sense="a job is done"),
        ahead=tr("Cover {names}", names=names),
        page="setout",
        about=(wanted.beds[0].key,),
        due=walk.today,
        why=wanted.why,
        doing=lambda _value: cover_beds(walk.season, wanted, walk.today),
    )


def _stake(walk: Walk, bed: Holder, living: Sequence[Spot]) -> Iterator[Job]:
    staked = {(fact.row, fact.column) for fact in walk.season.facts(Staked) if fact.holder == bed.key}
    tall = [
        crop
        for spot in living
        if (spot.key.row, spot.key.column) not in staked
        and (crop := crop_at(walk.season, spot)) is not None
        and crop.height_cm is not None
        and crop.height_cm.value.high >= TALL_CM
    ]
    if (None, None) in staked or not tall:
        return
    height = max((crop.height_cm.value.high for crop in tall if crop.height_cm is not None), default=0)
    why = Why(
        tr("Stake {bed}", bed=bed.name),
        tr(
            "Plants that grow to {height} cm or more break under fruit and wind; a stake set "
            "when the plant is set out spares its roots later.",
            height=TALL_CM,
        ),
        ((tr("plants"), str(len(tall))), (tr("grows to"), f"{figure(height, 'g')} cm")),
        (*dict.fromkeys(cite(crop.height_cm) for crop in tall if crop.height_cm is not None), CUSTOM),
    )
    yield Job(
        PLOT,
        tr("Stake {bed}", bed=bed.name),
        trn(
            "{n:,} plant that grow up to {height:g} cm, none staked",
            "{n:,} plants that grow up to {height:g} cm, none staked",
            len(tall),
            height=height,
        ),
        key=f"stake {bed.key}",
        urgency=Urgency.THIS_WEEK,
        button=tr("Staked", sense="a job is done"),
        page="setout",
        about=(bed.key,),
        why=why,
        doing=lambda _value: stake(walk.season, bed.key, walk.today),
    )


def _mulch(walk: Walk, bed: Holder, living: Sequence[Spot]) -> Iterator[Job]:
    if any(fact.holder == bed.key for fact in walk.season.facts(Mulched)):
        return
    soil = [fact for fact in walk.season.facts(SoilFelt) if fact.holder in (None, bed.key)]
    warm = soil[-1].celsius if soil and soil[-1].celsius >= WARM_SOIL_C else None
    out = _first_out(living)
    days = (walk.today - out).days if out is not None else 0
    if warm is None and days < MULCH_AFTER_DAYS:
        return
    known = temperature_words(warm, walk.place)
    reason = (
        trn("{n:,} day since setting out", "{n:,} days since setting out", days)
        if warm is None
        else tr("the soil is at {temperature}", temperature=known)
    )
    why = Why(
        tr("Mulch {bed}", bed=bed.name),
        tr(
            "Once the soil is warm, at {temperature} or three weeks after setting out, mulch "
            "keeps it moist; laid on cold soil it keeps it cold.",
            temperature=temperature_words(WARM_SOIL_C, walk.place),
        ),
        ((tr("soil"), known), (tr("days since setting out"), str(days))),
        (tr("Extension services: organic mulch goes on after the soil has warmed."), CUSTOM),
    )
    yield Job(
        PLOT,
        tr("Mulch {bed}", bed=bed.name),
        tr("{reason}; it keeps the soil moist", reason=reason),
        key=f"mulch {bed.key}",
        urgency=Urgency.THIS_WEEK,
        button=tr("Mulched", sense="a job is done"),
        page="setout",
        about=(bed.key,),
        why=why,
        doing=lambda _value: mulch(walk.season, bed.key, walk.today),
    )


def _leaves_off(walk: Walk, bed: Holder, living: Sequence[Spot]) -> Iterator[Job]:
    """Yield a job three weeks after setting out, and once more after six."""
    done: dict[tuple[int, int], list[date]] = defaultdict(list)
    for fact in walk.season.facts(Pruned):
        if fact.holder == bed.key and fact.what == "lower leaves":
            done[fact.row, fact.column].append(fact.day)
    ready = [spot for spot in living if _wants_leaves_off(walk, spot, done[spot.key.row, spot.key.column])]
    if not ready:
        return
    out = min(spot.arrived for spot in ready if spot.arrived is not None)
    days = (walk.today - out).days
    why = Why(
        tr("Lower leaves off in {bed}", bed=bed.name),
        tr(
            "Leaves that touch the soil carry splashed spores up: they come off once or twice, "
            "three and six weeks after setting out, never more than a third of the leaves at "
            "once."
        ),
        ((tr("plants"), str(len(ready))), (tr("days since setting out"), str(days))),
        (tr("Extension text: up to a third of the leaves at once; no trial was found."), CUSTOM),
    )
    keys = [spot.key for spot in ready]
    yield Job(
        PLOT,
        tr("Lower leaves off in {bed}", bed=bed.name),
        tr(
            "{plants}, {days} since setting out; what touches the soil",
            plants=many(len(ready), "plant"),
            days=many(days, "day"),
        ),
        key=f"lower leaves {bed.key}",
        urgency=Urgency.THIS_WEEK,
        button=tr("Taken off", sense="leaves"),
        page="setout",
        about=(bed.key,),
        why=why,
        doing=lambda _value: prune(walk.season, keys, walk.today, "lower leaves"),
    )


def _wants_leaves_off(walk: Walk, spot: Spot, done: Sequence[date]) -> bool:
    crop = crop_at(walk.season, spot)
    if spot.arrived is None or len(done) >= len(LEAVES_OFF_DAYS) or crop is None:
        return False
    days = (walk.today - spot.arrived).days
    rested = not done or (walk.today - max(done)).days >= LEAVES_OFF_DAYS[0]
    due = LEAVES_OFF_DAYS[len(done)] <= days <= LEAVES_OFF_UNTIL_DAYS
    return crop.group in LEAFY_GROUPS and due and rested


def _first_out(living: Sequence[Spot]) -> date | None:
    return min((spot.arrived for spot in living if spot.arrived is not None), default=None)
