"""Jobs of feeding: once a week from the first true leaves on, as strong as the plants' stage asks for."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from greenroom.season.care_words import analysis_words
from greenroom.season.deeds_care import Feed, feed
from greenroom.season.feeding import FRUIT, Need, feed_for, need_of
from greenroom.season.feeding_why import RULE
from greenroom.season.hardening_words import day_words
from greenroom.season.holders import Holder
from greenroom.season.jobs.job import PLOT, SHELF, WHERE_KEYS, Ask, Job, Urgency, Walk, names_of
from greenroom.season.proposal import Proposal, together
from greenroom.season.why import CUSTOM, Why
from greenroom.speech import figure, tr


def feed_jobs(walk: Walk) -> Iterator[Job]:
    """Yield one job for all holders that are to be fed alike, and one for each feed to be shifted."""
    hungry: dict[tuple[str, str, float], list[Need]] = defaultdict(list)
    for made in walk.season.holders():
        one = _need(walk, made)
        if one is not None and one.ppm_n > 0 and one.due <= walk.today:
            where = PLOT if made.form == "bed" else SHELF
            hungry[where, one.stage, one.ppm_n].append(one)
    for (where, stage, ppm_n), alike in hungry.items():
        yield _feed_job(walk, where, stage, ppm_n, alike)


def _need(walk: Walk, made: Holder) -> Need | None:
    name = ("need", walk.today, walk.box)
    return walk.season.holder_memo(made.key, name, lambda: need_of(walk.season, made, walk.today, walk.box))


def _feed_job(walk: Walk, where: str, stage: str, ppm_n: float, alike: Sequence[Need]) -> Job:
    names = names_of([one.made.name for one in alike])
    litres = round(sum(one.litres for one in alike), 1)
    what = feed_for(walk.season, stage, ppm_n)
    lasts = [one.last for one in alike if one.last is not None]
    ago = tr("last fed {day}", day=day_words(min(lasts))) if lasts else tr("not fed yet")
    shift = stage == FRUIT and not lasts
    ago = tr("more potash than nitrogen from the first flower on") if shift else ago
    why = Why(
        tr("{ppm:g} ppm N for {names}", ppm=ppm_n, names=names),
        tr("{rule} These plants are {stage}.", rule=RULE, stage=alike[0].words),
        (
            (tr("holders"), str(len(alike))),
            (
                tr("feed"),
                f"{what.name} ({analysis_words(what.n_percent, what.p2o5_percent, what.k2o_percent)})",
            ),
            (tr("litres"), figure(litres, "g")),
        ),
        (*dict.fromkeys(one.source for one in alike), CUSTOM),
    )
    keys = [one.made.key for one in alike]
    return Job(
        where,
        tr("Shift the feed of {names} to potash", names=names)
        if shift
        else tr("Feed {names}, {ppm:g} ppm N", names=names, ppm=ppm_n),
        f"{alike[0].words}, {ago}",
        key=f"feed {WHERE_KEYS[where]} {stage}" if len(keys) > 1 else f"feed {keys[0]}",
        urgency=Urgency.THIS_WEEK,
        button=tr("Fed", sense="a job is done"),
        page="setout" if where == PLOT else "grow",
        care=(keys[0], "feed"),
        due=min(one.due for one in alike if one.last is not None) if lasts else None,
        ask=Ask(tr("litres in all"), max(0.1, litres), 0.1, 10_000, "L", 1),
        why=why,
        doing=lambda value: _feed_all(walk, alike, what, value, litres),
    )


def _feed_all(walk: Walk, alike: Sequence[Need], what: Feed, litres: float, proposed: float) -> Proposal:
    scale = litres / proposed if proposed > 0 else 1.0
    parts = [
        feed(walk.season, one.made.key, walk.today, what, max(0.001, round(one.litres * scale, 3)))
        for one in alike
    ]
    return (
        parts[0]
        if len(parts) == 1
        else together(tr("fed {names}", names=names_of([one.made.name for one in alike])), parts)
    )
