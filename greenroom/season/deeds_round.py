"""What a grower does with a job of the round besides doing it: put it off, strike it out, take it back."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from greenroom.ledger.facts import JobPutOff, JobStruck
from greenroom.season.hardening_words import day_words
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.state import Season
from greenroom.speech import tr

LONGEST_PUT_OFF = timedelta(days=366)


def put_off(job: str, what: str, day: date, until: date | None = None) -> Proposal:
    """Put a job off until a later day: tomorrow, if none is named."""
    later = until if until is not None else day + timedelta(days=1)
    if not day < later <= day + LONGEST_PUT_OFF:
        raise RefusedError(
            tr(
                "{job} cannot be put off until {day}; a day within a year ahead can.",
                job=what,
                day=day_words(later),
            )
        )
    return Proposal(
        tr("put off until {day}: {job}", day=day_words(later), job=what),
        (JobPutOff(day=day, job=job, until=later),),
    )


def strike_out(season: Season, job: str, what: str, day: date) -> Proposal:
    """Strike a job out for good."""
    if any(fact.job == job for fact in season.facts(JobStruck)):
        raise RefusedError(tr("{job} is struck out already.", job=what))
    return Proposal(tr("struck out for good: {job}", job=what), (JobStruck(day=day, job=job),))


def bring_back(season: Season, job: str, what: str) -> Proposal:
    """Bring a job back that was put off or struck out."""
    facts: list[JobPutOff | JobStruck] = [*season.facts(JobPutOff), *season.facts(JobStruck)]
    struck = tuple(fact.id for fact in facts if fact.job == job)
    if not struck:
        raise RefusedError(tr("{job} is neither put off nor struck out.", job=what))
    return Proposal(tr("brought back: {job}", job=what), strike=struck)


def take_back(what: str, facts: Sequence[str]) -> Proposal:
    """Strike out what doing a job wrote; ``facts`` are the ids."""
    if not facts:
        raise RefusedError(tr("{job} wrote nothing that could be taken back.", job=what))
    return Proposal(tr("took back: {job}", job=what), strike=tuple(facts))
