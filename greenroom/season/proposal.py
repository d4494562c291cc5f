"""What a grower asks for, made ready for the ledger, or refused with one sentence."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from greenroom.ledger.facts import Fact


def not_before(old: Fact | None, day: date) -> date:
    """Return the day of a fact that is to count after ``old``, also on a clock that was put back."""
    return day if old is None else max(day, old.day)


def together(name: str, proposals: Iterable[Proposal]) -> Proposal:
    """Return several proposals as one act, so that one undo takes all of it back."""
    parts = list(proposals)
    record = tuple(fact for part in parts for fact in part.record)
    strike = tuple(dict.fromkeys(fact for part in parts for fact in part.strike))
    return Proposal(name, record, strike)


class RefusedError(Exception):
    """What was asked cannot be; the message is one sentence, and nothing was changed."""


@dataclass(frozen=True, slots=True)
class Proposal:
    """One act, named as the history will show it; empty when there is nothing to do."""

    name: str
    record: tuple[Fact, ...] = ()
    strike: tuple[str, ...] = ()

    @property
    def empty(self) -> bool:
        """Whether nothing would be written."""
        return not self.record and not self.strike
