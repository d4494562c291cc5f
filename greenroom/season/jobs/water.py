"""Jobs of water: when a holder wants it, and what stands below it."""

from __future__ import annotations

from collections.abc import Iterator

from greenroom.season.deeds_care import empty_basin, water
from greenroom.season.hardening_words import day_words
from greenroom.season.holders import Holder
from greenroom.season.jobs.job import PLOT, SHELF, Job, Urgency, Walk
from greenroom.season.spots import Stage
from greenroom.season.state import Season
from greenroom.season.watering import Thirst, ago_words, basin_to_empty, last_watered, thirst
from greenroom.season.why import CUSTOM, Why
from greenroom.speech import tr


def water_jobs(walk: Walk, made: Holder) -> Iterator[Job]:
    """Yield the jobs of water of one holder; one of which nothing was ever told asks for nothing."""
    if grows_in(walk.season, made.key):
        yield from _water(walk, made)
    yield from _basin(walk, made)


def grows_in(season: Season, holder: str) -> bool:
    """Whether anything lives in a holder, or may still come up."""
    counts = season.counts(holder)
    return bool(counts.living or counts.stages.get(Stage.SOWN))


def water_key(holder: str) -> str:
    """Return the key of the job to water a holder."""
    return f"water {holder}"


def _water(walk: Walk, made: Holder) -> Iterator[Job]:
    dry = thirst(walk.season, made, walk.today)
    if dry is None or dry.on > walk.today:
        return
    last = last_watered(walk.season.holder_facts(made.key), walk.today)
    how = "below" if last is None else last.how
    yield Job(
        PLOT if made.form == "bed" else SHELF,
        _water_words(made, how),
        dry.reason,
        key=water_key(made.key),
        urgency=Urgency.NOW if _late(walk, dry) else Urgency.TODAY,
        button=tr("Watered", sense="a job is done"),
        page="setout" if made.form == "bed" else "grow",
        care=(made.key, "water"),
        due=dry.on,
        why=dry.why,
        doing=lambda _value: water(walk.season, made.key, walk.today, how, at=walk.now),
    )


def _water_words(made: Holder, how: str) -> str:
    if how == "below":
        return tr("Water {tray} from below", tray=made.name)
    return tr("Water {tray} from above", tray=made.name)


def _late(walk: Walk, dry: Thirst) -> bool:
    """Whether it waits since the day before yesterday, or beyond its hour where that is known."""
    return (walk.today - dry.on).days > 1 or (dry.at is not None and dry.at <= walk.now)


def _basin(walk: Walk, made: Holder) -> Iterator[Job]:
    """Yield a job on the day a holder was watered from below and the day after, until it was emptied."""
    last = basin_to_empty(made, walk.season.holder_facts(made.key), walk.today)
    if last is None:
        return
    why = Why(
        tr("Empty the basin of {tray}", tray=made.name),
        tr("What is not drunk within half an hour is poured away: roots that stand in water lack air."),
        ((tr("watered from below"), day_words(last.day)),),
        (CUSTOM,),
    )
    yield Job(
        SHELF,
        tr("Empty the basin of {tray}", tray=made.name),
        tr(
            "watered from below {when}; roots in standing water lack air",
            when=ago_words(last.day, walk.today),
        ),
        key=f"basin {made.key}",
        button=tr("Emptied", sense="a job is done"),
        page="grow",
        care=(made.key, "water"),
        due=last.day,
        why=why,
        doing=lambda _value: empty_basin(walk.season, made.key, walk.today),
    )
