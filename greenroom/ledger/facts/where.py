"""Facts that may speak of a holder as a whole, of one of its spots, or of neither."""

from __future__ import annotations

from dataclasses import dataclass

from greenroom.ledger.facts.base import Fact
from greenroom.ledger.facts.shelf import COLUMN, LARGEST_SIDE, ROW
from greenroom.speech import tr


def _check_numbers(fact: Fact, row: int | None, column: int | None) -> None:
    for what, value in ((ROW, row), (COLUMN, column)):
        known = value is None or 0 <= value < LARGEST_SIDE
        if not known:
            fact._refuse(what, value, tr("0 to {largest_side} are allowed", largest_side=LARGEST_SIDE - 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class AnywhereFact(Fact):
    """A fact about one spot, about a holder if no spot is named, or about neither."""

    holder: str | None = None
    row: int | None = None
    column: int | None = None

    def _check(self) -> None:
        whole = self.row is None and self.column is None
        spot = None not in (self.holder, self.row, self.column)
        if not (whole or spot):
            self._refuse(
                tr("a spot at"), (self.row, self.column), tr("a holder, a row and a column are needed")
            )
        _check_numbers(self, self.row, self.column)


@dataclass(frozen=True, slots=True, kw_only=True)
class WithinFact(Fact):
    """A fact about a holder as a whole, or about one of its spots."""

    holder: str
    row: int | None = None
    column: int | None = None

    def _check(self) -> None:
        if (self.row is None) != (self.column is None):
            self._refuse(
                tr("a spot at"), (self.row, self.column), tr("a row and a column are needed, or neither")
            )
        _check_numbers(self, self.row, self.column)
