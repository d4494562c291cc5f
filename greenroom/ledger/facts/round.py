"""Facts about the round: jobs that the grower put off, or struck out for good."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from greenroom.ledger.facts.base import Fact


@dataclass(frozen=True, slots=True, kw_only=True)
class JobPutOff(Fact):
    """A job put off until a later day; ``job`` is its key, the last word counts."""

    kind: ClassVar[str] = "job_put_off"
    words: ClassVar[str] = "job put off"
    job: str
    until: date

    def _check(self) -> None:
        self._require(bool(self.job.strip()), "the job", self.job, "a job's key is needed")
        self._require(self.until > self.day, "the day", f"{self.until}", f"a day after {self.day} is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class JobStruck(Fact):
    """A job struck out for good; ``job`` is its key."""

    kind: ClassVar[str] = "job_struck"
    words: ClassVar[str] = "job struck out"
    job: str

    def _check(self) -> None:
        self._require(bool(self.job.strip()), "the job", self.job, "a job's key is needed")
