"""Facts about the place: where it is, its units, its weather, its lamps, and the rules of its plan."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import ClassVar, NamedTuple
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from greenroom.ledger.facts.base import BadFactError, Fact

TEMPERATURE_UNITS = ("c", "f")
VOLUME_UNITS = ("ml", "floz")
LAMPS = (
    "sun",
    "white led",
    "cool white fluorescent",
    "metal halide",
    "high pressure sodium",
    "incandescent",
)


class WeatherDay(NamedTuple):
    """One day of a weather record: °C, mm and m/s; None where it was not measured."""

    day: date
    tmin_c: float | None
    tmax_c: float | None
    rain_mm: float | None = None
    gust_ms: float | None = None


WEATHER_RANGES = {
    "tmin_c": (-100.0, 70.0),
    "tmax_c": (-100.0, 70.0),
    "rain_mm": (0.0, 2000.0),
    "gust_ms": (0.0, 120.0),
}
"""What a day may hold: all that was ever measured, and some room (World Meteorological Organization archive
of extremes, from memory: -89.2 and 56.7 °C, 1825 mm, 113 m/s)."""


class HourAhead(NamedTuple):
    """One hour of a forecast, from ``at`` on: °C, share of sky covered, m/s, mm, W/m²; None if not told."""

    at: datetime
    temperature_c: float | None = None
    cloud: float | None = None
    gust_ms: float | None = None
    rain_mm: float | None = None
    light_w_m2: float | None = None


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
        self._require(bool(self.days), "days", 0, "at least one day is needed")
        self._require_rising("days", (entry.day for entry in self.days))


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast(Fact):
    """The weather ahead as a service told it at one moment; the one written last counts."""

    kind: ClassVar[str] = "forecast"
    words: ClassVar[str] = "forecast"
    heard: ClassVar[bool] = True
    source: str
    taken: datetime
    days: tuple[WeatherDay, ...] = ()
    hours: tuple[HourAhead, ...] = ()

    def _check(self) -> None:
        self._require(bool(self.days or self.hours), "days", 0, "at least one day or hour is needed")
        self._require_rising("days", (entry.day for entry in self.days))
        self._require_rising("hours", (entry.at for entry in self.hours))
        for entry in self.hours:
            cloud = entry.cloud
            self._require(cloud is None or 0 <= cloud <= 1, "cloud of", cloud, "0 to 1 is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class FrostDatesGiven(Fact):
    """The usual last frost of spring and first of autumn, as told; only month and day count."""

    kind: ClassVar[str] = "frost_dates_given"
    words: ClassVar[str] = "pair of frost dates"
    last: date
    first: date

    def _check(self) -> None:
        both = (self.last.month, self.last.day), (self.first.month, self.first.day)
        self._require(both[0] != both[1], "both frosts on", both[0], "two different days are needed")


@dataclass(frozen=True, slots=True, kw_only=True)
class OnlineChoice(Fact):
    """Whether the grower lets the program ask a weather service; until a choice is made it does not."""

    kind: ClassVar[str] = "online_choice"
    words: ClassVar[str] = "choice about the network"
    allowed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRules(Fact):
    """The grower's own rules for the season plan.

    ``odds`` is the least chance of ripe fruit wanted, ``confidence`` how sure the number of seedlings
    is to be. Setting out waits for ``run_nights`` nights in a row of at least ``floor_c`` [°C]; a
    night of ``killing_c`` [°C] or less ends the season.
    """

    kind: ClassVar[str] = "plan_rules"
    words: ClassVar[str] = "set of plan rules"
    odds: float = 0.8
    confidence: float = 0.95
    floor_c: float = 10.0
    run_nights: int = 7
    killing_c: float = 0.0
    hardening_days: int = 11

    def _check(self) -> None:
        for what, value, least, most in (
            ("odds of", self.odds, 0.05, 0.99),
            ("a confidence of", self.confidence, 0.5, 0.999),
            ("a floor (°C) of", self.floor_c, -5, 25),
            ("a run of nights of", self.run_nights, 1, 30),
            ("a killing night (°C) of", self.killing_c, -15, 10),
            ("hardening days", self.hardening_days, 0, 30),
        ):
            self._require(least <= value <= most, what, value, f"{least} to {most} is allowed")


@dataclass(frozen=True, slots=True, kw_only=True)
class LampMeasured(Fact):
    """The light on one shelf, measured under its lamp at the height of the leaves.

    ``ppfd`` [µmol/m²/s] or ``lux`` with the ``lamp``'s make-up; ``hours`` a day is it lit.
    """

    kind: ClassVar[str] = "lamp_measured"
    words: ClassVar[str] = "light measurement"
    place: str
    ppfd: float | None = None
    lux: float | None = None
    lamp: str = "white led"
    hours: float = 16.0

    def _check(self) -> None:
        self._require(bool(self.place.strip()), "the place", self.place, "it needs at least one letter")
        read = (self.ppfd, self.lux)
        self._require(read != (None, None), "no reading", read, "µmol/m²/s or lux is needed")
        for what, value, most in (("µmol/m²/s", self.ppfd, 3_000), ("lux", self.lux, 200_000)):
            self._require(value is None or 0 <= value <= most, what, value, f"0 to {most:,} is allowed")
        self._require(self.lamp in LAMPS, "the lamp", self.lamp, f"one of {', '.join(LAMPS)} is allowed")
        self._require(0 <= self.hours <= 24, "hours of light", self.hours, "0 to 24 are allowed")
