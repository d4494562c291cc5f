"""Cool nights: one job for all holders whose plan of cool nights has one tonight."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from greenroom.season.cool_nights import (
    A_WEEK,
    AIM_C,
    ONE_DAY,
    CoolPlan,
    aim_words,
    cool_plan,
    cool_why,
)
from greenroom.season.deeds_care import cool_night
from greenroom.season.jobs.job import SHELF, Ask, Job, Urgency, Walk, names_of
from greenroom.season.proposal import Proposal, together
from greenroom.speech import tr


def night_jobs(walk: Walk) -> Iterator[Job]:
    """Yield one job for all holders that are to have a cool night tonight."""
    made = (*walk.season.holders("tray"), *walk.season.holders("rack"))
    plans = (_plan(walk, one.key) for one in made)
    due = [plan for plan in plans if plan.due == walk.today]
    if due:
        yield _night_job(walk, due)


def _plan(walk: Walk, key: str) -> CoolPlan:
    """Return the cool nights of a holder, kept until something is written of it or the seed box."""
    name = ("cool plan", walk.today, walk.box)
    return walk.season.holder_memo(key, name, lambda: cool_plan(walk.season, key, walk.today))


def _night_job(walk: Walk, due: Sequence[CoolPlan]) -> Job:
    names = names_of([walk.season.holder(plan.holder).name for plan in due])
    first = all(_given_lately(plan, walk) == 0 for plan in due)
    keys = [plan.holder for plan in due]
    aim = aim_words(walk.place)
    return Job(
        SHELF,
        tr("Cool night for {names}", names=names),
        tr("{aim}, the first of two this week", aim=aim)
        if first
        else tr("{aim}, the second of two this week", aim=aim),
        key="cool night" if len(keys) > 1 else f"cool night {keys[0]}",
        urgency=Urgency.THIS_WEEK,
        button=tr("Set", sense="a job is done"),
        ask=Ask(tr("lowest in the night"), round(sum(AIM_C) / 2), 0, 25, "°C", 1),
        why=replace(cool_why(due[0], walk.place), figure=tr("Cool night for {names}", names=names)),
        doing=lambda value: _all_cool(walk, keys, value, names),
    )


def _given_lately(plan: CoolPlan, walk: Walk) -> int:
    """Return how many nights of the week that ends tonight were given."""
    return sum(walk.today + ONE_DAY - A_WEEK < night.day <= walk.today for night in plan.given)


def _all_cool(walk: Walk, keys: Sequence[str], low_c: float, names: str) -> Proposal:
    """Write the night down under the day on which it ends."""
    parts = [cool_night(walk.season, key, walk.today + ONE_DAY, low_c) for key in keys]
    return parts[0] if len(parts) == 1 else together(tr("cool night for {names}", names=names), parts)
