"""Facts about the round: jobs that the grower put off, or struck out for good."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import ClassVar

from greenroom.ledger.facts.base import Fact
from greenroom.speech import tr


@dataclass(frozen=True, slots=True, kw_only=True)
class JobPutOff(Fact):
    """A job put off until a later day; ``job`` is its key, the last word counts."""

    kind: ClassVar[str] = "job_put_off"
    words: ClassVar[str] = tr("job put off", sense="kind of entry")
    job: str
    until: date

    def _check(self) -> None:
        if not self.job.strip():
            self._refuse(tr("the job"), self.job, tr("a job's key is needed"))
        if not (self.until > self.day):
            self._refuse(tr("the day"), f"{self.until}", tr("a day after {day} is allowed", day=self.day))


@dataclass(frozen=True, slots=True, kw_only=True)
class JobStruck(Fact):
    """A job struck out for good; ``job`` is its key."""

    kind: ClassVar[str] = "job_struck"
    words: ClassVar[str] = tr("job struck out", sense="kind of entry")
    job: str

    def _check(self) -> None:
        if not self.job.strip():
            self._refuse(tr("the job"), self.job, tr("a job's key is needed"))
