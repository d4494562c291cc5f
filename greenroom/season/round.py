"""The round: today's jobs, grouped by where one stands, each with its reason."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from greenroom.season.hardening import Standing, going_out, standing
from greenroom.season.sprouting import resow_advice
from greenroom.season.state import Season

SHELF, DOOR = "At the shelf", "At the door"


@dataclass(frozen=True, slots=True)
class Job:
    """One thing to do today: where, what, and the reason."""

    where: str
    what: str
    reason: str


def round_of(season: Season, today: date, now: datetime) -> list[Job]:
    """Return today's jobs."""
    return [*_shelf_jobs(season, today), *_door_jobs(season, today, now)]


def round_text(jobs: list[Job], today: date) -> str:
    """Return the round as plain text, a line a job."""
    lines = [f"The round, {today:%A} {today.day} {today:%B %Y}: {len(jobs)} to do"]
    for where in dict.fromkeys(job.where for job in jobs):
        lines.append(f"\n{where}")
        lines.extend(f"  {job.what}: {job.reason}" for job in jobs if job.where == where)
    return "\n".join(lines) + "\n"


def _shelf_jobs(season: Season, today: date) -> list[Job]:
    return [
        Job(
            SHELF,
            f"Sow {one.seeds} more {one.name} in {tray.name}",
            f"{len(one.cells)} bare on day {one.day}; odds that any still comes up {one.chance:.0%}",
        )
        for tray in season.holders("tray")
        for one in resow_advice(season, tray.key, today)
        if one.worth_it
    ]


def _door_jobs(season: Season, today: date, now: datetime) -> list[Job]:
    stands = [stand for key in going_out(season) if (stand := standing(season, key, today, now)) is not None]
    jobs = [_door_job(season, stand, today) for stand in stands]
    return [job for job in jobs if job is not None]


def _door_job(season: Season, stand: Standing, today: date) -> Job | None:
    name = season.holder(stand.holder).name
    done = f"{stand.minutes.sun:.0f} of {stand.target} minutes of sun"
    if stand.outing is not None:
        return Job(DOOR, f"Bring {name} in", done)
    if stand.hardened or today in stand.held:
        return None
    if stand.resting:
        return Job(DOOR, f"Keep {name} in", "a day of rest after leaf scorch")
    plan = next((day for day in stand.ahead if day.date == today), None)
    if plan is not None and plan.verdict == "hold":
        return Job(DOOR, f"Keep {name} in", "; ".join(plan.reasons))
    if stand.minutes.outdoors > 0:
        return None
    return Job(DOOR, f"Send {name} out", done)
