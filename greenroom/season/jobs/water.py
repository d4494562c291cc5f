"""Jobs of water: when a holder wants it, by its weight, its feel or its own rhythm; and what stands below."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise
from statistics import median

from greenroom.agronomy.watering import days_to_dry
from greenroom.ledger import Entry
from greenroom.ledger.facts import BasinEmptied, MixFelt, Watered, Weighed
from greenroom.season.deeds_care import empty_basin, water
from greenroom.season.hardening_words import day_words, many
from greenroom.season.holders import Holder
from greenroom.season.jobs.job import CUSTOM, PLOT, SHELF, Job, Urgency, Walk
from greenroom.season.spots import Stage
from greenroom.season.why import Why

HALF = 0.5
INTERVALS = 3
"""So many waterings one after the other make a rhythm: a working rule of this program."""
BASIN_DAYS = 1
BY_WEIGHT = (
    "Dumroese, R. K., Montville, M. E. and Pinto, J. R. 2015. Native Plants Journal 16:67-74; "
    "watering by weight."
)


@dataclass(frozen=True, slots=True)
class Thirst:
    """When a holder wants water, why, and what told it."""

    on: date
    reason: str
    why: Why


def water_jobs(walk: Walk, made: Holder) -> Iterator[Job]:
    """Yield the jobs of water of one holder; one of which nothing was ever told asks for nothing."""
    entries = walk.season.holder_facts(made.key)
    counts = walk.season.counts(made.key)
    if counts.living or counts.stages.get(Stage.SOWN):
        yield from _water(walk, made, entries)
    yield from _basin(walk, made, entries)


def thirst(made: Holder, entries: Sequence[Entry], today: date) -> Thirst | None:
    """Return when a holder wants water: as felt, as weighed, else by how often it was watered before."""
    waterings = [entry for entry in entries if isinstance(entry.fact, Watered) and entry.fact.day <= today]
    since = [entry for entry in entries if not waterings or entry.number > waterings[-1].number]
    felt = [entry.fact for entry in since if isinstance(entry.fact, MixFelt)]
    if felt and felt[-1].level == "dry":
        why = Why(f"Water {made.name}", "The mix was felt and found dry.", (), (CUSTOM,))
        return Thirst(felt[-1].day, f"felt dry {_ago(felt[-1].day, today)}", why)
    if felt and felt[-1].level == "wet" and felt[-1].day == today:
        return None
    return _by_weight(made, entries, waterings, today) or _by_rhythm(made, waterings, today)


def _by_weight(
    made: Holder, entries: Sequence[Entry], waterings: Sequence[Entry], today: date
) -> Thirst | None:
    first = waterings[-1].fact.day if waterings else date.min
    told = [entry.fact for entry in entries if isinstance(entry.fact, Weighed) and entry.fact.day <= today]
    wet = [fact.grams for fact in told if fact.state == "wet"]
    dry = [fact.grams for fact in told if fact.state == "dry"]
    now = {fact.day: fact.grams for fact in told if fact.state != "dry" and fact.day >= first}
    last = waterings[-1].fact if waterings else None
    if isinstance(last, Watered) and last.weight_g is not None:
        now.setdefault(last.day, last.weight_g)
    if not wet or not dry or len(now) < 2 or dry[-1] >= wet[-1]:
        return None
    days = sorted(now)
    on = days_to_dry([now[day] for day in days], days, wet[-1], dry[-1], HALF)
    if on is None:
        return None
    lighter = wet[-1] - now[days[-1]]
    why = Why(
        f"Water {made.name} on {day_words(on)}",
        "The water it holds falls by the same part each day; it wants water when half of what it holds when "
        "soaked is gone.",
        (
            ("soaked and drained", f"{wet[-1]:,.0f} g"),
            ("dry", f"{dry[-1]:,.0f} g"),
            *((day_words(day), f"{now[day]:,.0f} g") for day in days[-3:]),
        ),
        (BY_WEIGHT,),
    )
    return Thirst(on, f"{lighter:,.0f} g lighter than soaked; half its water is gone by {day_words(on)}", why)


def _by_rhythm(made: Holder, waterings: Sequence[Entry], today: date) -> Thirst | None:
    days = sorted({entry.fact.day for entry in waterings})
    if len(days) <= INTERVALS:
        return None
    usual = max(1, round(median((later - earlier).days for earlier, later in pairwise(days[-8:]))))
    on = days[-1] + timedelta(days=usual)
    why = Why(
        f"Water {made.name} every {many(usual, 'day')}",
        "The middle of the intervals between its latest waterings: its own rhythm, for want of weighings. "
        "Weigh it soaked, dry and as it is, and the round goes by its weight.",
        (("waterings told", str(len(days))), ("the latest", day_words(days[-1]))),
        (CUSTOM,),
    )
    ago = many((today - days[-1]).days, "day")
    return Thirst(on, f"{ago} since the last; its own rhythm is {many(usual, 'day')}", why)


def _water(walk: Walk, made: Holder, entries: Sequence[Entry]) -> Iterator[Job]:
    dry = thirst(made, entries, walk.today)
    if dry is None or dry.on > walk.today:
        return
    how = _usual_way(entries)
    yield Job(
        PLOT if made.form == "bed" else SHELF,
        f"Water {made.name} from {how}",
        dry.reason,
        key=f"water {made.key}",
        urgency=Urgency.NOW if (walk.today - dry.on).days > 1 else Urgency.TODAY,
        button="Watered",
        due=dry.on,
        why=dry.why,
        doing=lambda _value: water(walk.season, made.key, walk.today, how),
    )


def _basin(walk: Walk, made: Holder, entries: Sequence[Entry]) -> Iterator[Job]:
    """Yield a job on the day a holder was watered from below and the day after, until it was emptied."""
    told = [entry.fact for entry in entries if isinstance(entry.fact, Watered | BasinEmptied)]
    last = told[-1] if told else None
    if not isinstance(last, Watered) or last.how != "below" or made.form == "bed":
        return
    if not 0 <= (walk.today - last.day).days <= BASIN_DAYS:
        return
    why = Why(
        f"Empty the basin of {made.name}",
        "What is not drunk within half an hour is poured away: roots that stand in water lack air.",
        (("watered from below", day_words(last.day)),),
        (CUSTOM,),
    )
    yield Job(
        SHELF,
        f"Empty the basin of {made.name}",
        f"watered from below {_ago(last.day, walk.today)}; roots in standing water lack air",
        key=f"basin {made.key}",
        button="Emptied",
        due=last.day,
        why=why,
        doing=lambda _value: empty_basin(walk.season, made.key, walk.today),
    )


def _usual_way(entries: Sequence[Entry]) -> str:
    ways = [entry.fact.how for entry in entries if isinstance(entry.fact, Watered)]
    return ways[-1] if ways else "below"


def _ago(day: date, today: date) -> str:
    days = (today - day).days
    if days == 0:
        return "today"
    return "yesterday" if days == 1 else f"on {day_words(day)}"
