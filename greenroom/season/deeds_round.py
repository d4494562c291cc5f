"""What a grower does with a job of the round besides doing it: put it off, strike it out, take it back."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta

from greenroom.ledger.facts import JobPutOff, JobStruck
from greenroom.season.hardening_words import day_words
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.state import Season

LONGEST_PUT_OFF = timedelta(days=366)


def put_off(job: str, what: str, day: date, until: date | None = None) -> Proposal:
    """Put a job off until a later day: tomorrow, if none is named."""
    later = until if until is not None else day + timedelta(days=1)
    if not day < later <= day + LONGEST_PUT_OFF:
        raise RefusedError(
            f"{what} cannot be put off until {day_words(later)}; a day within a year ahead can."
        )
    return Proposal(f"put off until {day_words(later)}: {what}", (JobPutOff(day=day, job=job, until=later),))


def strike_out(season: Season, job: str, what: str, day: date) -> Proposal:
    """Strike a job out for good."""
    if any(fact.job == job for fact in season.facts(JobStruck)):
        raise RefusedError(f"{what} is struck out already.")
    return Proposal(f"struck out for good: {what}", (JobStruck(day=day, job=job),))


def bring_back(season: Season, job: str, what: str) -> Proposal:
    """Bring a job back that was put off or struck out."""
    facts: list[JobPutOff | JobStruck] = [*season.facts(JobPutOff), *season.facts(JobStruck)]
    struck = tuple(fact.id for fact in facts if fact.job == job)
    if not struck:
        raise RefusedError(f"{what} is neither put off nor struck out.")
    return Proposal(f"brought back: {what}", strike=struck)


def take_back(what: str, facts: Sequence[str]) -> Proposal:
    """Strike out what doing a job wrote; ``facts`` are the ids."""
    if not facts:
        raise RefusedError(f"{what} wrote nothing that could be taken back.")
    return Proposal(f"took back: {what}", strike=tuple(facts))
