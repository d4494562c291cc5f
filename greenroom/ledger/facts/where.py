"""Facts that may speak of a holder as a whole, of one of its spots, or of neither."""

from __future__ import annotations

from dataclasses import dataclass

from greenroom.ledger.facts.base import Fact
from greenroom.ledger.facts.shelf import LARGEST_SIDE


def _check_numbers(fact: Fact, row: int | None, column: int | None) -> None:
    for what, value in (("row", row), ("column", column)):
        known = value is None or 0 <= value < LARGEST_SIDE
        fact._require(known, what, value, f"0 to {LARGEST_SIDE - 1} are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class AnywhereFact(Fact):
    """A fact about one spot, about a holder if no spot is named, or about neither."""

    holder: str | None = None
    row: int | None = None
    column: int | None = None

    def _check(self) -> None:
        whole = self.row is None and self.column is None
        spot = None not in (self.holder, self.row, self.column)
        self._require(
            whole or spot, "a spot at", (self.row, self.column), "a holder, a row and a column are needed"
        )
        _check_numbers(self, self.row, self.column)


@dataclass(frozen=True, slots=True, kw_only=True)
class WithinFact(Fact):
    """A fact about a holder as a whole, or about one of its spots."""

    holder: str
    row: int | None = None
    column: int | None = None

    def _check(self) -> None:
        self._require(
            (self.row is None) == (self.column is None),
            "a spot at",
            (self.row, self.column),
            "a row and a column are needed, or neither",
        )
        _check_numbers(self, self.row, self.column)
