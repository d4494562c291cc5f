"""Facts about hardening off: the ramp, outings, setbacks, days kept in, and what is seen of sky and cold."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime
from typing import ClassVar

from greenroom.ledger.facts.base import ADDED_LATER, Fact
from greenroom.speech import tr

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
    words: ClassVar[str] = tr("start of hardening", sense="kind of entry")
    holder: str
    start_minutes: float = 20
    full_minutes: float = 600
    outings: int = 11

    def _check(self) -> None:
        if not (7 <= self.outings <= 21):
            self._refuse(tr("outings"), self.outings, tr("7 to 21 are allowed"))
        if not (5 <= self.start_minutes < self.full_minutes <= 960):
            self._refuse(
                tr("minutes"),
                (self.start_minutes, self.full_minutes),
                tr("at least 5 to start, more at the end, at most 960"),
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class OutingStarted(Fact):
    """A holder carried out, into sun or shade."""

    kind: ClassVar[str] = "outing_started"
    words: ClassVar[str] = tr("outing", sense="kind of entry")
    outing: str
    holder: str
    at: datetime
    light: str = "sun"

    def _check(self) -> None:
        if self.light not in LIGHTS:
            self._refuse(tr("the light"), self.light, tr("sun or shade is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class OutingSwitched(Fact):
    """A holder that is out, moved between sun and shade."""

    kind: ClassVar[str] = "outing_switched"
    words: ClassVar[str] = tr("change of light", sense="kind of entry")
    outing: str
    holder: str
    at: datetime
    light: str

    def _check(self) -> None:
        if self.light not in LIGHTS:
            self._refuse(tr("the light"), self.light, tr("sun or shade is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class OutingEnded(Fact):
    """A holder carried back in."""

    kind: ClassVar[str] = "outing_ended"
    words: ClassVar[str] = tr("end of an outing", sense="kind of entry")
    outing: str
    holder: str
    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class SetbackSeen(Fact):
    """Drooping, wilting or leaf scorch seen on a holder that is being hardened, and what brought it on."""

    kind: ClassVar[str] = "setback_seen"
    words: ClassVar[str] = tr("setback", sense="kind of entry")
    holder: str
    what: str
    at: datetime
    cause: str = field(default="sun", metadata=ADDED_LATER)

    def _check(self) -> None:
        if self.what not in SETBACKS:
            self._refuse(tr("the kind"), self.what, tr("droop, wilt or scorch is allowed"))
        if self.cause not in CAUSES:
            self._refuse(tr("the cause"), self.cause, tr("sun, wind or thirst is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Held(Fact):
    """A holder kept in for the day, and why."""

    kind: ClassVar[str] = "held"
    words: ClassVar[str] = tr("day kept in", sense="kind of entry")
    holder: str
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class RampSet(Fact):
    """The ramp a kind of plant is to have from now on, and the weather that keeps it in.

    ``crop`` is a key of the guide. Days that stay below ``cold_c`` [°C], gusts of ``gust_ms`` [m/s]
    and rain of ``rain_mm`` [mm] keep it in.
    """

    kind: ClassVar[str] = "ramp_set"
    words: ClassVar[str] = tr("ramp for a crop", sense="kind of entry")
    crop: str
    start_minutes: float = 20
    full_minutes: float = 600
    outings: int = 11
    cold_c: float = 10
    gust_ms: float = 11
    rain_mm: float = 15

    def _check(self) -> None:
        if not self.crop.strip():
            self._refuse(tr("the crop"), self.crop, tr("it needs at least one letter"))
        if not (7 <= self.outings <= 21):
            self._refuse(tr("outings"), self.outings, tr("7 to 21 are allowed"))
        if not (5 <= self.start_minutes < self.full_minutes <= 960):
            self._refuse(
                tr("minutes"),
                (self.start_minutes, self.full_minutes),
                tr("at least 5 to start, more at the end, at most 960"),
            )
        for what, value, least, most in (
            (tr("cold (°C) of"), self.cold_c, -5, 25),
            (tr("gusts (m/s) of"), self.gust_ms, 1, 40),
            (tr("rain (mm) of"), self.rain_mm, 0, 200),
        ):
            if not (least <= value <= most):
                self._refuse(what, value, tr("{least:g} to {most:g} is allowed", least=least, most=most))


@dataclass(frozen=True, slots=True, kw_only=True)
class CountingSet(Fact):
    """How the minutes of a holder's ramp are counted from now on: by the clock or by the sun's strength."""

    kind: ClassVar[str] = "counting_set"
    words: ClassVar[str] = tr("choice of counting", sense="kind of entry")
    holder: str
    by: str = "clock"

    def _check(self) -> None:
        if self.by not in COUNTINGS:
            self._refuse(tr("counting by"), self.by, tr("clock or sun is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class SkySeen(Fact):
    """The sky as it was seen at a moment, and the cloth over a holder, or over all if none is named.

    ``cloud`` is the share of sky covered, ``cloth`` the share of light held off, each 0 to 1.
    """

    kind: ClassVar[str] = "sky_seen"
    words: ClassVar[str] = tr("look at the sky", sense="kind of entry")
    at: datetime
    cloud: float = 0.0
    cloth: float = 0.0
    holder: str | None = None

    def _check(self) -> None:
        for what, value in ((tr("cloud of"), self.cloud), (tr("cloth of"), self.cloth)):
            if not (0 <= value <= 1):
                self._refuse(what, value, tr("0 to 1 (0 to 100 %) is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class YardSun(Fact):
    """When the sun reaches the step outside and when it leaves, in minutes after local midnight."""

    kind: ClassVar[str] = "yard_sun"
    words: ClassVar[str] = tr("sun on the step", sense="kind of entry")
    first: int
    last: int

    def _check(self) -> None:
        if not (0 <= self.first < self.last <= MINUTES_A_DAY):
            self._refuse(
                tr("sun at minutes"),
                (self.first, self.last),
                tr(
                    "0 to {minutes_a_day}, the last after the first, are allowed", minutes_a_day=MINUTES_A_DAY
                ),
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class CoolNight(Fact):
    """A night that a holder spent cool, and how low it went (°C), filed under the day it ended."""

    kind: ClassVar[str] = "cool_night"
    words: ClassVar[str] = tr("cool night", sense="kind of entry")
    holder: str
    low_c: float

    def _check(self) -> None:
        if not (-20 <= self.low_c <= 30):
            self._refuse(tr("a low (°C) of"), self.low_c, tr("-20 to 30 is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Watered(Fact):
    """A holder watered, from above or from below, and what it weighed afterwards [g] if it was weighed.

    ``at`` is the moment, where the hour is known.
    """

    kind: ClassVar[str] = "watered"
    words: ClassVar[str] = tr("watering", sense="kind of entry")
    holder: str
    how: str = "below"
    weight_g: float | None = None
    at: datetime | None = field(default=None, metadata=ADDED_LATER)

    def _check(self) -> None:
        if self.how not in WATERINGS:
            self._refuse(tr("watering from"), self.how, tr("above or below is allowed"))
        weight = self.weight_g
        if not (weight is None or 1 <= weight <= 200_000):
            self._refuse(tr("a weight (g) of"), weight, tr("1 to 200,000 is allowed"))
