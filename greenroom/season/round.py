"""The round: today's jobs, grouped by where one stands, each with its reason."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from greenroom.season.crops import crop_of
from greenroom.season.hardening import Standing, going_out, standing
from greenroom.season.hardening_words import MONTHS, many, time_words, whole_minutes
from greenroom.season.holders import Holder
from greenroom.season.lots import due_days
from greenroom.season.packets import packet_view, variety_name
from greenroom.season.place import place_of
from greenroom.season.spots import Spot
from greenroom.season.sprouting import Resow, chance_words, expected_pace, resow_advice, tabled_spread
from greenroom.season.state import Season

SHELF, DOOR = "At the shelf", "At the door"
LEAVES_A_SET = 2  # true leaves come in pairs in peppers, tomatoes and most dicots
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


@dataclass(frozen=True, slots=True)
class Job:
    """One thing to do today: where, what, and the reason."""

    where: str
    what: str
    reason: str


def round_of(season: Season, today: date, now: datetime) -> list[Job]:
    """Return today's jobs."""
    trays = season.holders("tray")
    return [
        *(job for tray in trays for job in _tray_jobs(season, tray, today)),
        *_door_jobs(season, today, now),
    ]


def round_text(jobs: list[Job], today: date) -> str:
    """Return the round as plain text, a line a job."""
    day = f"{WEEKDAYS[today.weekday()]} {today.day} {MONTHS[today.month - 1]} {today.year}"
    lines = [f"The round, {day}: {len(jobs)} to do"]
    for where in dict.fromkeys(job.where for job in jobs):
        lines.append(f"\n{where}")
        lines.extend(f"  {job.what}: {job.reason}" for job in jobs if job.where == where)
    return "\n".join(lines) + "\n"


def _tray_jobs(season: Season, tray: Holder, today: date) -> Iterator[Job]:
    advice = resow_advice(season, tray.key, today)
    yield from (_resow_job(tray, one) for one in advice if one.worth_it)
    yield from _look_jobs(season, tray, [one for one in advice if not one.worth_it])
    yield from _pot_up_jobs(season, tray)


def _resow_job(tray: Holder, one: Resow) -> Job:
    cells = many(len(one.cells), "cell")
    reason = f"{cells} bare on day {one.day}; the odds of each are {chance_words(one.each)} at best"
    return Job(SHELF, f"Sow {one.seeds} more {one.name} in {tray.name}", reason)


def _look_jobs(season: Season, tray: Holder, advice: list[Resow]) -> Iterator[Job]:
    """Yield a job for each lot that is due to come up about now."""
    for one in advice:
        pace = expected_pace(season, tray.key, one.packet)
        if pace is not None and pace.early / 2 <= one.day <= due_days(pace.days, tabled_spread(pace)):
            reason = (
                f"day {one.day}, {many(len(one.cells), 'cell')} bare; "
                f"half are expected up by day {one.expected_days:.0f}"
            )
            yield Job(SHELF, f"Look for {one.name} in {tray.name}", reason)


def _pot_up_jobs(season: Season, tray: Holder) -> Iterator[Job]:
    """Yield a job if seedlings of a tray have outgrown their cells."""
    ready: Counter[str] = Counter()
    least = 0
    for spot in season.spots(tray.key):
        leaves = _leaves_to_pot_up(season, spot)
        if spot.up > 0 and leaves is not None and spot.leaves >= leaves:
            ready[variety_name(season, spot.packet)] += spot.up
            least = min(least or leaves, leaves)
    if ready:
        lots = ", ".join(f"{number} {name}" for name, number in ready.items())
        yield Job(SHELF, f"Pot up from {tray.name}", f"{lots} with {least} true leaves or more")


def _leaves_to_pot_up(season: Season, spot: Spot) -> int | None:
    view = packet_view(season, spot.packet) if spot.packet else None
    crop = crop_of(season.guide, view.crop) if view else None
    sets = crop.pot_up_leaf_sets if crop else None
    return None if sets is None else round(LEAVES_A_SET * sets.value.low)


def _door_jobs(season: Season, today: date, now: datetime) -> list[Job]:
    stands = [stand for key in going_out(season) if (stand := standing(season, key, today, now)) is not None]
    jobs = [_door_job(season, stand, now) for stand in stands]
    return [job for job in jobs if job is not None]


def _door_job(season: Season, stand: Standing, now: datetime) -> Job | None:
    name = season.holder(stand.holder).name
    done = f"{whole_minutes(stand.minutes.sun)} of {stand.limit} minutes of sun done"
    if stand.outing is not None:
        return Job(DOOR, _bring_in(season, stand, name, now), done)
    if stand.hardened or stand.settled is not None or stand.today in stand.held:
        return None
    if stand.resting:
        return Job(DOOR, f"Keep {name} in", "a day of rest after leaf scorch")
    plan = next((day for day in stand.ahead if day.date == stand.today), None)
    if plan is not None and plan.verdict == "hold":
        return Job(DOOR, f"Keep {name} in", "; ".join(plan.reasons))
    if stand.minutes.outdoors > 0:
        return Job(DOOR, f"Send {name} out again", done)
    where = "out, sheltered" if plan is not None and plan.verdict == "sheltered" else "out"
    reasons = [f"{stand.limit} minutes of sun, step {stand.step + 1} of {stand.ramp.outings}"]
    return Job(DOOR, f"Send {name} {where}", "; ".join([*reasons, *(plan.reasons if plan else ())]))


def _bring_in(season: Season, stand: Standing, name: str, now: datetime) -> str:
    left = stand.limit - stand.minutes.sun
    if stand.outing is not None and stand.outing.light != "sun":
        return f"Bring {name} into the sun, or in" if left > 0 else f"Bring {name} in"
    if left <= 0:
        return f"Bring {name} in now"
    return f"Bring {name} in at {time_words(now + timedelta(minutes=left), place_of(season))}"
