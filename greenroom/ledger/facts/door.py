"""Facts about hardening off: the ramp, outings, setbacks, days kept in, and what is seen of sky and cold."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import ClassVar

from greenroom.ledger.facts.base import ADDED_LATER, Fact

LIGHTS = ("sun", "shade")
SETBACKS = ("droop", "wilt", "scorch")
CAUSES = ("sun", "wind", "thirst")
COUNTINGS = ("clock", "sun")
WATERINGS = ("above", "below")
MINUTES_A_DAY = 24 * 60


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
    """Drooping, wilting or leaf scorch seen on a holder that is being hardened, and what brought it on."""

    kind: ClassVar[str] = "setback_seen"
    words: ClassVar[str] = "setback"
    holder: str
    what: str
    at: datetime
    cause: str = field(default="sun", metadata=ADDED_LATER)

    def _check(self) -> None:
        self._require(self.what in SETBACKS, "the kind", self.what, "droop, wilt or scorch is allowed")
        self._require(self.cause in CAUSES, "the cause", self.cause, "sun, wind or thirst is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Held(Fact):
    """A holder kept in for the day, and why."""

    kind: ClassVar[str] = "held"
    words: ClassVar[str] = "day kept in"
    holder: str
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RampSet(Fact):
    """The ramp a kind of plant is to have from now on, and the weather that keeps it in.

    ``crop`` is a key of the guide. Days that stay below ``cold_c`` [°C], gusts of ``gust_ms`` [m/s]
    and rain of ``rain_mm`` [mm] keep it in.
    """

    kind: ClassVar[str] = "ramp_set"
    words: ClassVar[str] = "ramp for a crop"
    crop: str
    start_minutes: float = 20
    full_minutes: float = 600
    outings: int = 11
    cold_c: float = 10
    gust_ms: float = 11
    rain_mm: float = 15

    def _check(self) -> None:
        self._require(bool(self.crop.strip()), "the crop", self.crop, "it needs at least one letter")
        self._require(7 <= self.outings <= 21, "outings", self.outings, "7 to 21 are allowed")
        self._require(
            5 <= self.start_minutes < self.full_minutes <= 960,
            "minutes",
            (self.start_minutes, self.full_minutes),
            "at least 5 to start, more at the end, at most 960",
        )
        for what, value, least, most in (
            ("cold (°C) of", self.cold_c, -5, 25),
            ("gusts (m/s) of", self.gust_ms, 1, 40),
            ("rain (mm) of", self.rain_mm, 0, 200),
        ):
            self._require(least <= value <= most, what, value, f"{least} to {most} is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class CountingSet(Fact):
    """How the minutes of a holder's ramp are counted from now on: by the clock or by the sun's strength."""

    kind: ClassVar[str] = "counting_set"
    words: ClassVar[str] = "choice of counting"
    holder: str
    by: str = "clock"

    def _check(self) -> None:
        self._require(self.by in COUNTINGS, "counting by", self.by, "clock or sun is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class SkySeen(Fact):
    """The sky as it was seen at a moment, and the cloth over a holder, or over all if none is named.

    ``cloud`` is the share of sky covered, ``cloth`` the share of light held off, each 0 to 1.
    """

    kind: ClassVar[str] = "sky_seen"
    words: ClassVar[str] = "look at the sky"
    at: datetime
    cloud: float = 0.0
    cloth: float = 0.0
    holder: str | None = None

    def _check(self) -> None:
        for what, value in (("cloud of", self.cloud), ("cloth of", self.cloth)):
            self._require(0 <= value <= 1, what, value, "0 to 1 (0 to 100 %) is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class YardSun(Fact):
    """When the sun reaches the step outside and when it leaves, in minutes after local midnight."""

    kind: ClassVar[str] = "yard_sun"
    words: ClassVar[str] = "sun on the step"
    first: int
    last: int

    def _check(self) -> None:
        self._require(
            0 <= self.first < self.last <= MINUTES_A_DAY,
            "sun at minutes",
            (self.first, self.last),
            f"0 to {MINUTES_A_DAY}, the last after the first, are allowed",
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class CoolNight(Fact):
    """A night that a holder spent cool, and how low it went (°C), filed under the day it ended."""

    kind: ClassVar[str] = "cool_night"
    words: ClassVar[str] = "cool night"
    holder: str
    low_c: float

    def _check(self) -> None:
        self._require(-20 <= self.low_c <= 30, "a low (°C) of", self.low_c, "-20 to 30 is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Watered(Fact):
    """A holder watered, from above or from below, and what it weighed afterwards [g] if it was weighed.

    ``at`` is the moment, where the hour is known.
    """

    kind: ClassVar[str] = "watered"
    words: ClassVar[str] = "watering"
    holder: str
    how: str = "below"
    weight_g: float | None = None
    at: datetime | None = field(default=None, metadata=ADDED_LATER)

    def _check(self) -> None:
        self._require(self.how in WATERINGS, "watering from", self.how, "above or below is allowed")
        weight = self.weight_g
        self._require(
            weight is None or 1 <= weight <= 200_000, "a weight (g) of", weight, "1 to 200,000 is allowed"
        )
