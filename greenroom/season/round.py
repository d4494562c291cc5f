"""The round: today's jobs, grouped by where one stands, each with its reason; and the week at a look."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from greenroom.ledger.facts import JobPutOff, JobStruck
from greenroom.season.hardening_words import day_words
from greenroom.season.holders import Holder
from greenroom.season.jobs.desk import desk_jobs, sow_rows
from greenroom.season.jobs.done import Done, done_today
from greenroom.season.jobs.door import door_jobs, standings
from greenroom.season.jobs.feed import feed_jobs
from greenroom.season.jobs.harvest import harvest_jobs
from greenroom.season.jobs.job import DOOR, SHELF, WHERE, Job, Walk
from greenroom.season.jobs.nights import night_jobs
from greenroom.season.jobs.plot import plot_jobs
from greenroom.season.jobs.shelf import lamp_jobs, look_jobs
from greenroom.season.jobs.trays import tray_jobs
from greenroom.season.jobs.water import water_jobs, water_key
from greenroom.season.reasons import reasons_words
from greenroom.season.state import Season
from greenroom.season.watering import thirst
from greenroom.season.weekdays import WEEKDAYS, weekday_words
from greenroom.season.within import in_row
from greenroom.speech import tr, trn

__all__ = [
    "DOOR",
    "SHELF",
    "WEEKDAYS",
    "DayAhead",
    "Done",
    "Job",
    "Round",
    "job_now",
    "jobs_of_tray",
    "round_of",
    "round_text",
    "the_round",
    "week",
    "worked_out",
]

DAYS_AHEAD = 7


@dataclass(frozen=True, slots=True)
class Round:
    """The round of a day: what is to be done, what was done, and what was put off or struck out."""

    today: date
    jobs: tuple[Job, ...]
    done: tuple[Done, ...]
    put_off: tuple[tuple[Job, date], ...]
    struck: tuple[Job, ...]

    @property
    def empty(self) -> bool:
        """Whether there is nothing to tell."""
        return not (self.jobs or self.done or self.put_off or self.struck)


@dataclass(frozen=True, slots=True)
class DayAhead:
    """What one of the coming days brings, a line each."""

    day: date
    lines: tuple[str, ...]


def the_round(season: Season, today: date, now: datetime) -> Round:
    """Return the round of a day.

    A job leaves it by itself as soon as what it rests on is no longer so, however that came about; one
    that was not done stays. The urgent come first where one stands.
    """
    walk = Walk.of(season, today, now)
    struck = {fact.job for fact in season.facts(JobStruck)}
    until = {fact.job: fact.until for fact in season.facts(JobPutOff)}
    found = [_since(job, today) for job in _jobs(walk)]
    kept = [job for job in found if job.key not in struck]
    return Round(
        today,
        tuple(_in_order(job for job in kept if until.get(job.key, today) <= today)),
        tuple(done_today(walk)),
        tuple((job, until[job.key]) for job in kept if until.get(job.key, today) > today),
        tuple(job for job in found if job.key in struck),
    )


def round_of(season: Season, today: date, now: datetime) -> list[Job]:
    """Return today's jobs, in the order in which they are walked."""
    return list(the_round(season, today, now).jobs)


def job_now(season: Season, today: date, now: datetime, key: str) -> Job | None:
    """Return a job by its key as it is at this very moment; None where there is no such job any more."""
    return next((job for job in _jobs(Walk.of(season, today, now)) if job.key == key), None)


def jobs_of_tray(walk: Walk, tray: Holder) -> tuple[Job, ...]:
    """Return the jobs of a tray, kept until something is written of it or the seed box."""
    name = ("tray jobs", walk.today, walk.box)
    return walk.season.holder_memo(tray.key, name, lambda: tuple(tray_jobs(walk, tray)))


def week(season: Season, today: date, now: datetime, found: Round | None = None) -> list[DayAhead]:
    """Return what each of the next seven days brings that today does not, if all goes as planned.

    ``found`` is today's round, if the caller has it already.
    """
    found = found or the_round(season, today, now)
    walk = Walk.of(season, today, now)
    ahead = [today + timedelta(days=number) for number in range(1, DAYS_AHEAD + 1)]
    lines: dict[date, list[str]] = {day: [] for day in ahead}
    _add_outings(walk, lines)
    _add_sowings(walk, lines)
    seen = {job.key for job in (*found.jobs, *found.struck, *(job for job, _ in found.put_off))}
    for number, day in enumerate(ahead, start=1):
        for job in _foreseen(Walk(season, day, now + timedelta(days=number), walk.box, today), seen):
            if job.key not in seen:
                seen.add(job.key)
                lines[day].append(job.ahead or job.what)
    _add_put_off(found, lines)
    return [DayAhead(day, tuple(lines[day])) for day in ahead]


def round_text(jobs: list[Job], today: date) -> str:
    """Return the round as plain text, a line a job."""
    day = tr("{day} {year}", sense="day and month, year", day=weekday_words(today), year=today.year)
    lines = [trn("The round, {day}: {n} to do", "The round, {day}: {n} to do", len(jobs), day=day)]
    for where in dict.fromkeys(job.where for job in jobs):
        lines.append(f"\n{where}")
        lines.extend(
            tr("  {job}: {reason}", job=job.what, reason=job.reason) for job in jobs if job.where == where
        )
    return "\n".join(lines) + "\n"


def worked_out(season: Season, today: date, now: datetime) -> Iterator[object]:
    """Work out piece by piece what the round and the week rest on, which is then there already."""
    walk = Walk.of(season, today, now)
    for tray in season.holders("tray"):
        yield jobs_of_tray(walk, tray)
    for made in season.holders():
        for number in range(DAYS_AHEAD + 1):
            yield thirst(season, made, today + timedelta(days=number))


def _jobs(walk: Walk) -> Iterator[Job]:
    season = walk.season
    for tray in season.holders("tray"):
        yield from jobs_of_tray(walk, tray)
    for made in season.holders():
        yield from water_jobs(walk, made)
    yield from feed_jobs(walk)
    yield from lamp_jobs(walk)
    yield from night_jobs(walk)
    yield from look_jobs(walk)
    yield from door_jobs(walk)
    yield from plot_jobs(walk)
    yield from harvest_jobs(walk)
    yield from desk_jobs(walk)


def _foreseen(walk: Walk, seen: Container[str]) -> Iterator[Job]:
    """Yield the jobs of a day to come that need no look at it: not those of trays, nor at the door.

    What is known to want water by a day before, by ``seen``, is not asked again.
    """
    for made in walk.season.holders():
        if water_key(made.key) not in seen:
            yield from water_jobs(walk, made)
    yield from feed_jobs(walk)
    yield from night_jobs(walk)
    yield from look_jobs(walk)
    yield from (job for job in plot_jobs(walk) if not job.key.startswith("set out"))
    yield from harvest_jobs(walk)


def _add_outings(walk: Walk, lines: dict[date, list[str]]) -> None:
    for stand in standings(walk):
        name = walk.season.holder(stand.holder).name
        for plan in stand.ahead:
            if plan.date in lines and plan.verdict == "hold":
                lines[plan.date].append(
                    tr("{tray} in: {reasons}", tray=name, reasons=reasons_words(plan.reasons))
                )
            elif plan.date in lines and plan.air_minutes > 0:
                lines[plan.date].append(tr("{tray} out, {minutes} min", tray=name, minutes=plan.sun_minutes))
        ready = stand.ready_on
        if ready in lines and ready is not None and not stand.hardened:
            lines[ready].append(tr("{tray} ready", tray=name))


def _add_sowings(walk: Walk, lines: dict[date, list[str]]) -> None:
    for row in sow_rows(walk):
        if row.on in lines:
            lines[row.on].append(tr("Sow {variety}", variety=row.name))


def _add_put_off(found: Round, lines: dict[date, list[str]]) -> None:
    for job, until in found.put_off:
        if until in lines:
            lines[until].append(job.what)


def _since(job: Job, today: date) -> Job:
    """Return a job that waits since an earlier day with that day in its reason."""
    if job.due is None or job.due >= today:
        return job
    days = (today - job.due).days
    words = (
        tr("due yesterday")
        if days == 1
        else trn("due since {day}, {n:,} day", "due since {day}, {n:,} days", days, day=day_words(job.due))
    )
    return replace(job, reason=in_row((job.reason, words)))


def _in_order(jobs: Iterable[Job]) -> list[Job]:
    """Return jobs by where one stands, the urgent first; else as they came."""
    return sorted(jobs, key=lambda job: (WHERE.index(job.where), job.urgency))
