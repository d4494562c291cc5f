"""The round and the week as tables."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from greenroom.exchange.tables import words
from greenroom.exchange.tables.table import Cell, Column, Kind, Table
from greenroom.season.jobs.job import Job
from greenroom.season.round import DayAhead, Round
from greenroom.speech import tr

ROUND = (
    Column("date", "Date", Kind.DATE),
    Column("where", "Where"),
    Column("what", "What"),
    Column("reason", "Why"),
    Column("urgency", "How soon", said=words.soon),
    Column("due", "Due since", Kind.DATE),
    Column("state", "State", said=words.state),
    Column("until", "Put off until", Kind.DATE),
)
WEEK = (Column("date", "Date", Kind.DATE), Column("what", "What"))


def round_table(found: Round) -> Table:
    """Return the round of a day: what is to be done, was done, put off, or struck out."""
    return Table.of(tr("The round {day}", day=found.today.isoformat()), ROUND, _lines(found))


def week_table(days: Sequence[DayAhead]) -> Table:
    """Return what the coming days bring, a row a thing."""
    return Table.of(tr("The week ahead"), WEEK, ((day.day, line) for day in days for line in day.lines))


def _lines(found: Round) -> Iterator[tuple[Cell, ...]]:
    for job in found.jobs:
        yield _job(found.today, job, "to do")
    for done in found.done:
        yield (found.today, done.where, done.what, done.words, "", None, "done", None)
    for job, until in found.put_off:
        yield _job(found.today, job, "put off", until)
    for job in found.struck:
        yield _job(found.today, job, "struck out")


def _job(today: date, job: Job, state: str, until: date | None = None) -> tuple[Cell, ...]:
    soon = job.urgency.name.replace("_", " ").lower()
    return (today, job.where, job.what, job.reason, soon, job.due, state, until)
