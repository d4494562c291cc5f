"""Cool nights: once or twice a week for peppers from their third true leaf on, until hardening begins."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

from greenroom.guide import Crop
from greenroom.ledger.facts import CoolNight
from greenroom.season.crops import cite
from greenroom.season.deeds_care import cool_night
from greenroom.season.hardening import hardening_since
from greenroom.season.hardening_words import day_words, temperature_words
from greenroom.season.holders import Holder
from greenroom.season.jobs.job import SHELF, Ask, Job, Urgency, Walk, names_of
from greenroom.season.jobs.trays import crop_in
from greenroom.season.proposal import Proposal, together
from greenroom.season.why import Why

PEPPERS = "peppers"
FROM_LEAVES = 3
A_WEEK = timedelta(days=7)
MOST_A_WEEK = 2
APART = timedelta(days=3)
ONE_DAY = timedelta(days=1)
DELI = (
    "Deli, J. and Tiessen, H. 1969 (authors and year from memory; abstract read): cool nights from the third "
    "leaf on made more flowers."
)
RHYTHM = "Once or twice a week: common practice, no source."


def night_jobs(walk: Walk) -> Iterator[Job]:
    """Yield one job for all holders that may have a cool night tonight."""
    found: list[tuple[Holder, Crop, int]] = []
    for made in (*walk.season.holders("tray"), *walk.season.holders("rack")):
        crop = _ready(walk, made)
        if crop is not None and hardening_since(walk.season, made.key) is None:
            nights = _nights(walk, made)
            if _due(nights, walk.today):
                found.append((made, crop, sum(day > walk.today + ONE_DAY - A_WEEK for day in nights)))
    if found:
        yield _night_job(walk, found)


def _night_job(walk: Walk, found: list[tuple[Holder, Crop, int]]) -> Job:
    names = names_of([made.name for made, _, _ in found])
    asked = found[0][1].grow_night_c
    low, high = (asked.value.low, asked.value.high) if asked is not None else (15.0, 18.0)
    aim = f"{temperature_words(low, walk.place)} to {temperature_words(high, walk.place)}"
    given = min(number for _, _, number in found)
    which = "first" if given == 0 else "second"
    before = [day for made, _, _ in found for day in _nights(walk, made)]
    why = Why(
        f"Cool night for {names}",
        f"Peppers with {FROM_LEAVES} true leaves or more get a night at {aim} once or twice a week, until "
        "hardening does that work. Not below 12 °C: colder nights were not tried in the trial that paid.",
        (("aim", aim), ("the latest", day_words(max(before)) if before else "none yet")),
        (*((cite(asked),) if asked is not None else ()), DELI, RHYTHM),
    )
    keys = [made.key for made, _, _ in found]
    return Job(
        SHELF,
        f"Cool night for {names}",
        f"{aim}, the {which} of two this week",
        key="cool night" if len(keys) > 1 else f"cool night {keys[0]}",
        urgency=Urgency.THIS_WEEK,
        button="Set",
        ask=Ask("lowest in the night", round((low + high) / 2), 0, 25, "°C", 1),
        why=why,
        doing=lambda value: _all_cool(walk, keys, value, names),
    )


def _all_cool(walk: Walk, keys: list[str], low_c: float, names: str) -> Proposal:
    """Write the night down under the day on which it ends."""
    parts = [cool_night(walk.season, key, walk.today + ONE_DAY, low_c) for key in keys]
    return parts[0] if len(parts) == 1 else together(f"cool night for {names}", parts)


def _nights(walk: Walk, made: Holder) -> list[date]:
    facts = (entry.fact for entry in walk.season.holder_facts(made.key))
    return [fact.day for fact in facts if isinstance(fact, CoolNight)]


def _due(nights: list[date], today: date) -> bool:
    """Whether the night to tomorrow is far enough from the last, and not one too many in its week."""
    morning = today + ONE_DAY
    lately = sum(morning - A_WEEK < day <= morning for day in nights)
    return lately < MOST_A_WEEK and all(abs(morning - day) >= APART for day in nights)


def _ready(walk: Walk, made: Holder) -> Crop | None:
    """Return the pepper in a holder that shows its third true leaf, or None."""
    return walk.season.holder_memo(made.key, ("third leaf", walk.box), lambda: _find_ready(walk, made))


def _find_ready(walk: Walk, made: Holder) -> Crop | None:
    for spot in walk.season.spots(made.key):
        if spot.up > 0 and spot.leaves >= FROM_LEAVES:
            crop = crop_in(walk.season, spot)
            if crop is not None and crop.group == PEPPERS:
                return crop
    return None
