"""Facts about hardening off: the ramp, outings, setbacks, days kept in."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar

from greenroom.ledger.facts.base import Fact

LIGHTS = ("sun", "shade")
SETBACKS = ("droop", "wilt", "scorch")


@dataclass(frozen=True, slots=True, kw_only=True)
class HardeningStarted(Fact):
    """A holder begins its ramp; the ramp's numbers are the grower's choice on that day."""

    kind: ClassVar[str] = "hardening_started"
    words: ClassVar[str] = "start of hardening"
    holder: str
    start_minutes: float = 20
    full_minutes: float = 600
    outings: int = 11

    def _check(self) -> None:
        self._require(7 <= self.outings <= 21, "outings", self.outings, "7 to 21 are allowed")
        self._require(
            5 <= self.start_minutes < self.full_minutes <= 960,
            "minutes",
            (self.start_minutes, self.full_minutes),
            "at least 5 to start, more at the end, at most 960",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class OutingStarted(Fact):
    """A holder carried out, into sun or shade."""

    kind: ClassVar[str] = "outing_started"
    words: ClassVar[str] = "outing"
    outing: str
    holder: str
    at: datetime
    light: str = "sun"

    def _check(self) -> None:
        self._require(self.light in LIGHTS, "the light", self.light, "sun or shade is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class OutingSwitched(Fact):
    """A holder that is out, moved between sun and shade."""

    kind: ClassVar[str] = "outing_switched"
    words: ClassVar[str] = "change of light"
    outing: str
    holder: str
    at: datetime
    light: str

    def _check(self) -> None:
        self._require(self.light in LIGHTS, "the light", self.light, "sun or shade is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class OutingEnded(Fact):
    """A holder carried back in."""

    kind: ClassVar[str] = "outing_ended"
    words: ClassVar[str] = "end of an outing"
    outing: str
    holder: str
    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class SetbackSeen(Fact):
    """Drooping, wilting or leaf scorch seen on a holder that is being hardened."""

    kind: ClassVar[str] = "setback_seen"
    words: ClassVar[str] = "setback"
    holder: str
    what: str
    at: datetime

    def _check(self) -> None:
        self._require(self.what in SETBACKS, "the kind", self.what, "droop, wilt or scorch is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Held(Fact):
    """A holder kept in for the day, and why."""

    kind: ClassVar[str] = "held"
    words: ClassVar[str] = "day kept in"
    holder: str
    why: str = ""
