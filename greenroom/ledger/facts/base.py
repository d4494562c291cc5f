"""What all facts have in common."""

from __future__ import annotations

import uuid
from collections.abc import Iterable
from dataclasses import dataclass, field, fields
from datetime import date, datetime
from itertools import pairwise
from types import MappingProxyType
from typing import Any, ClassVar, NoReturn

from greenroom.speech import tr

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
                    tr(
                        "the {field} of a {fact} has {length} characters; up to {longest} are allowed",
                        field=entry.name,
                        fact=self.words,
                        length=len(value),
                        longest=LONGEST_TEXT,
                    )
                )
            if isinstance(value, datetime) and value.tzinfo is None:
                raise BadFactError(
                    tr(
                        "the time {time} of a {fact} has no time zone; one is needed",
                        time=f"{value:%Y-%m-%d %H:%M}",
                        fact=self.words,
                    )
                )
        self._check()

    def _check(self) -> None:
        """Check what only this kind knows."""

    def _require_rising(self, what: str, each: str, keys: Iterable[Any]) -> None:
        if not all(earlier < later for earlier, later in pairwise(keys)):
            self._refuse(what, tr("out of order"), each)

    def _refuse(self, what: str, value: object, allowed: str) -> NoReturn:
        raise BadFactError(
            tr(
                "a {fact} cannot have {what} {value!r}; {allowed}",
                fact=self.words,
                what=what,
                value=value,
                allowed=allowed,
            )
        )
