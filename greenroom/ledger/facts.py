"""The facts: what somebody saw, did or decided, each written once and at most struck out.

A fact is a frozen record. Whatever can be worked out from facts (states, counts, steps, dates) is
worked out by ``greenroom.season`` and never stored. Every kind of fact is one class here; its table
is derived from it in ``tables.py``, so a kind is described in one place only.

``day`` is the day it happened, a date without a zone. Moments are aware datetimes, kept in UTC.
Rows and columns count from 0. A thing that many facts speak of (a variety, a packet, a holder, an
outing) has a key of its own, so that a fact about it can be struck out and written anew, corrected.
"""

from __future__ import annotations

import uuid
from dataclasses import dataclass, field, fields
from datetime import date, datetime
from typing import ClassVar, NamedTuple
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

FORMS = ("tray", "rack")
LIGHTS = ("sun", "shade")
SETBACKS = ("droop", "wilt", "scorch")
TEMPERATURE_UNITS = ("c", "f")
VOLUME_UNITS = ("ml", "floz")
LARGEST_SIDE = 100
LONGEST_TEXT = 10_000


class BadFactError(ValueError):
    """A fact that cannot be true; the message says what, and what is allowed."""


def new_key() -> str:
    """Return a key that no other fact or thing has, on this machine or any other."""
    return uuid.uuid4().hex


class WeatherDay(NamedTuple):
    """One day of a weather record: °C, mm and m/s; None where it was not measured."""

    day: date
    tmin_c: float | None
    tmax_c: float | None
    rain_mm: float | None = None
    gust_ms: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """What all facts have: an id of its own and the day it happened."""

    kind: ClassVar[str]
    words: ClassVar[str]  # what one such fact is called in a sentence

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

    def _require(self, sound: bool, what: str, value: object, allowed: str) -> None:
        if not sound:
            raise BadFactError(f"a {self.words} cannot have {what} {value!r}; {allowed}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Variety(Fact):
    """A variety the grower keeps: its name and the entry of the guide it belongs to."""

    kind: ClassVar[str] = "variety"
    words: ClassVar[str] = "variety"
    variety: str
    name: str
    crop: str | None = None
    days_to_ripe: int | None = None

    def _check(self) -> None:
        self._require(bool(self.name.strip()), "the name", self.name, "it needs at least one letter")
        ripe = self.days_to_ripe
        self._require(ripe is None or 20 <= ripe <= 400, "days to ripe", ripe, "20 to 400 are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Packet(Fact):
    """A packet of seed: one lot of one variety. ``seeds`` is how many came in it."""

    kind: ClassVar[str] = "packet"
    words: ClassVar[str] = "packet"
    packet: str
    variety: str
    lot: str = ""
    packed: int | None = None
    seeds: int | None = None
    germination: float | None = None

    def _check(self) -> None:
        self._require(
            self.packed is None or 1900 <= self.packed <= 2200, "the year", self.packed, "1900 to 2200"
        )
        self._require(
            self.seeds is None or 0 <= self.seeds <= 1_000_000,
            "a seed count of",
            self.seeds,
            "0 to 1,000,000 are allowed",
        )
        share = self.germination
        self._require(
            share is None or 0 <= share <= 1, "a germination of", share, "0 to 1 (0 to 100 %) is allowed"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class HolderMade(Fact):
    """A tray of cells or a rack of pots taken into use. ``size`` is the pot's trade name."""

    kind: ClassVar[str] = "holder_made"
    words: ClassVar[str] = "tray or rack"
    holder: str
    name: str
    form: str
    rows: int
    columns: int
    cell_ml: float | None = None
    size: str = ""

    def _check(self) -> None:
        self._require(bool(self.name.strip()), "the name", self.name, "it needs at least one letter")
        self._require(self.form in FORMS, "the form", self.form, "tray or rack is allowed")
        for what, value in (("rows", self.rows), ("columns", self.columns)):
            self._require(1 <= value <= LARGEST_SIDE, what, value, f"1 to {LARGEST_SIDE} are allowed")
        volume = self.cell_ml
        self._require(
            volume is None or 1 <= volume <= 100_000, "a volume (mL) of", volume, "1 to 100,000 are allowed"
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class HolderPlaced(Fact):
    """Where a holder stands from this day on, and how warm its mix is there (°C)."""

    kind: ClassVar[str] = "holder_placed"
    words: ClassVar[str] = "place for a tray"
    holder: str
    place: str = ""
    mix_c: float | None = None

    def _check(self) -> None:
        warm = self.mix_c
        self._require(warm is None or -10 <= warm <= 60, "a mix at (°C)", warm, "-10 to 60 is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class HolderRetired(Fact):
    """A holder emptied, washed and put away."""

    kind: ClassVar[str] = "holder_retired"
    words: ClassVar[str] = "tray put away"
    holder: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SpotFact(Fact):
    """A fact about one spot: a cell of a tray or a pot of a rack."""

    holder: str
    row: int
    column: int

    def _check(self) -> None:
        for what, value in (("row", self.row), ("column", self.column)):
            self._require(0 <= value < LARGEST_SIDE, what, value, f"0 to {LARGEST_SIDE - 1} are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sown(SpotFact):
    """Seeds of one packet put into one spot."""

    kind: ClassVar[str] = "sown"
    words: ClassVar[str] = "sowing"
    packet: str
    seeds: int = 1

    def _check(self) -> None:
        SpotFact._check(self)
        self._require(1 <= self.seeds <= 50, "a seed count of", self.seeds, "1 to 50 a cell are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Sprouted(SpotFact):
    """Seedlings seen newly up in one spot."""

    kind: ClassVar[str] = "sprouted"
    words: ClassVar[str] = "sprout"
    count: int = 1

    def _check(self) -> None:
        SpotFact._check(self)
        self._require(1 <= self.count <= 50, "a count of", self.count, "1 to 50 a cell are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class LeafStage(SpotFact):
    """How many true leaves the seedling in one spot shows; 0 is seed leaves only."""

    kind: ClassVar[str] = "leaf_stage"
    words: ClassVar[str] = "leaf stage"
    leaves: int

    def _check(self) -> None:
        SpotFact._check(self)
        self._require(0 <= self.leaves <= 40, "a leaf count of", self.leaves, "0 to 40 are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Lost(SpotFact):
    """Seeds or seedlings lost in one spot, and what took them; ``cause`` may be empty."""

    kind: ClassVar[str] = "lost"
    words: ClassVar[str] = "loss"
    cause: str = ""
    count: int = 1

    def _check(self) -> None:
        SpotFact._check(self)
        self._require(1 <= self.count <= 50, "a count of", self.count, "1 to 50 a cell are allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved(SpotFact):
    """One seedling moved from its spot to another: potted up, pricked out, swapped over."""

    kind: ClassVar[str] = "moved"
    words: ClassVar[str] = "move"
    to_holder: str
    to_row: int
    to_column: int

    def _check(self) -> None:
        SpotFact._check(self)
        here = (self.holder, self.row, self.column)
        there = (self.to_holder, self.to_row, self.to_column)
        self._require(here != there, "both ends at", there, "two different spots are needed")


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Note(Fact):
    """Words about a holder, or about one of its spots."""

    kind: ClassVar[str] = "note"
    words: ClassVar[str] = "note"
    holder: str
    row: int | None = None
    column: int | None = None
    text: str

    def _check(self) -> None:
        self._require(bool(self.text.strip()), "the text", self.text, "it needs at least one letter")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceSet(Fact):
    """The place: its name, where it lies (degrees, north and east positive) and its time zone."""

    kind: ClassVar[str] = "place_set"
    words: ClassVar[str] = "place"
    name: str
    latitude: float
    longitude: float
    zone: str

    def _check(self) -> None:
        self._require(bool(self.name.strip()), "the name", self.name, "it needs at least one letter")
        self._require(-90 <= self.latitude <= 90, "latitude", self.latitude, "-90 to 90 is allowed")
        self._require(-180 <= self.longitude <= 180, "longitude", self.longitude, "-180 to 180 is allowed")
        try:
            ZoneInfo(self.zone)
        except (ZoneInfoNotFoundError, ValueError, OSError) as error:
            raise BadFactError(
                f"a place cannot have the time zone {self.zone!r}; a name such as Europe/Oslo is needed"
            ) from error


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitsSet(Fact):
    """The units the grower reads: °C or °F, millilitres or fluid ounces."""

    kind: ClassVar[str] = "units_set"
    words: ClassVar[str] = "choice of units"
    temperature: str = "c"
    volume: str = "ml"

    def _check(self) -> None:
        self._require(
            self.temperature in TEMPERATURE_UNITS, "temperatures in", self.temperature, "c or f is allowed"
        )
        self._require(self.volume in VOLUME_UNITS, "volumes in", self.volume, "ml or floz is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherRecord(Fact):
    """Daily weather brought in from one file or service; later records win where they overlap."""

    kind: ClassVar[str] = "weather_record"
    words: ClassVar[str] = "weather record"
    source: str
    station: str = ""
    days: tuple[WeatherDay, ...]

    def _check(self) -> None:
        dates = [entry.day for entry in self.days]
        self._require(bool(dates), "days", 0, "at least one day is needed")
        rising = all(earlier < later for earlier, later in zip(dates, dates[1:], strict=False))
        self._require(rising, "days", "out of order", "each day once, in order")


KINDS: dict[str, type[Fact]] = {
    cls.kind: cls
    for cls in (
        Variety,
        Packet,
        HolderMade,
        HolderPlaced,
        HolderRetired,
        Sown,
        Sprouted,
        LeafStage,
        Lost,
        Moved,
        HardeningStarted,
        OutingStarted,
        OutingSwitched,
        OutingEnded,
        SetbackSeen,
        Held,
        Note,
        PlaceSet,
        UnitsSet,
        WeatherRecord,
    )
}
