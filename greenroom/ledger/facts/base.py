"""What all facts have in common."""

from __future__ import annotations

import uuid
from collections.abc import Iterable
from dataclasses import dataclass, field, fields
from datetime import date, datetime
from itertools import pairwise
from types import MappingProxyType
from typing import Any, ClassVar

LONGEST_TEXT = 10_000
ADDED_LATER = MappingProxyType({"added_later": True})
"""Marks a field that facts of an older ledger do not have: read back, they have its default."""


class BadFactError(ValueError):
    """A fact that cannot be true; the message says what, and what is allowed."""


def new_key() -> str:
    """Return a key that no other fact or thing has, on this machine or any other."""
    return uuid.uuid4().hex


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """What all facts have: an id of its own and the day it happened."""

    kind: ClassVar[str]
    words: ClassVar[str]  # what one such fact is called in a sentence
    heard: ClassVar[bool] = False  # told by a service, not done by the grower: undo passes over it

    id: str = field(default_factory=new_key)
    day: date

    def check(self) -> None:
        """Raise BadFactError if this fact cannot be true."""
        for entry in fields(self):
            value = getattr(self, entry.name)
            if isinstance(value, str) and len(value) > LONGEST_TEXT:
                raise BadFactError(
                    f"the {entry.name} of a {self.words} has {len(value)} characters; "
                    f"up to {LONGEST_TEXT} are allowed"
                )
            if isinstance(value, datetime) and value.tzinfo is None:
                raise BadFactError(
                    f"the time {value:%Y-%m-%d %H:%M} of a {self.words} has no time zone; one is needed"
                )
        self._check()

    def _check(self) -> None:
        """Check what only this kind knows."""

    def _require_rising(self, what: str, keys: Iterable[Any]) -> None:
        rising = all(earlier < later for earlier, later in pairwise(keys))
        self._require(rising, what, "out of order", f"each {what.removesuffix('s')} once, in order")

    def _require(self, sound: bool, what: str, value: object, allowed: str) -> None:
        if not sound:
            raise BadFactError(f"a {self.words} cannot have {what} {value!r}; {allowed}")
