"""Facts about the place: where it is, its units, its weather, its lamps, and the rules of its plan."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import ClassVar, NamedTuple
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from greenroom.ledger.facts.base import BadFactError, Fact
from greenroom.speech import tr

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
    words: ClassVar[str] = tr("place", sense="kind of entry")
    name: str
    latitude: float
    longitude: float
    zone: str

    def _check(self) -> None:
        if not self.name.strip():
            self._refuse(tr("the name"), self.name, tr("it needs at least one letter"))
        if not (-90 <= self.latitude <= 90):
            self._refuse(tr("latitude"), self.latitude, tr("-90 to 90 is allowed"))
        if not (-180 <= self.longitude <= 180):
            self._refuse(tr("longitude"), self.longitude, tr("-180 to 180 is allowed"))
        try:
            ZoneInfo(self.zone)
        except (ZoneInfoNotFoundError, ValueError, OSError) as error:
            raise BadFactError(
                tr(
                    "a place cannot have the time zone {zone!r}; a name such as Europe/Oslo is needed",
                    zone=self.zone,
                )
            ) from error


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitsSet(Fact):
    """The units the grower reads: °C or °F, millilitres or fluid ounces."""

    kind: ClassVar[str] = "units_set"
    words: ClassVar[str] = tr("choice of units", sense="kind of entry")
    temperature: str = "c"
    volume: str = "ml"

    def _check(self) -> None:
        if self.temperature not in TEMPERATURE_UNITS:
            self._refuse(tr("temperatures in"), self.temperature, tr("c or f is allowed"))
        if self.volume not in VOLUME_UNITS:
            self._refuse(tr("volumes in"), self.volume, tr("ml or floz is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class WeatherRecord(Fact):
    """Daily weather brought in from one file or service; later records win where they overlap."""

    kind: ClassVar[str] = "weather_record"
    words: ClassVar[str] = tr("weather record", sense="kind of entry")
    source: str
    station: str = ""
    days: tuple[WeatherDay, ...]

    def _check(self) -> None:
        if not self.days:
            self._refuse(tr("days"), 0, tr("at least one day is needed"))
        self._require_rising(tr("days"), tr("each day once, in order"), (entry.day for entry in self.days))


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast(Fact):
    """The weather ahead as a service told it at one moment; the one written last counts."""

    kind: ClassVar[str] = "forecast"
    words: ClassVar[str] = tr("forecast", sense="kind of entry")
    heard: ClassVar[bool] = True
    source: str
    taken: datetime
    days: tuple[WeatherDay, ...] = ()
    hours: tuple[HourAhead, ...] = ()

    def _check(self) -> None:
        if not (self.days or self.hours):
            self._refuse(tr("days"), 0, tr("at least one day or hour is needed"))
        self._require_rising(tr("days"), tr("each day once, in order"), (entry.day for entry in self.days))
        self._require_rising(tr("hours"), tr("each hour once, in order"), (entry.at for entry in self.hours))
        for entry in self.hours:
            cloud = entry.cloud
            if not (cloud is None or 0 <= cloud <= 1):
                self._refuse(tr("cloud of"), cloud, tr("0 to 1 is allowed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class FrostDatesGiven(Fact):
    """The usual last frost of spring and first of autumn, as told; only month and day count."""

    kind: ClassVar[str] = "frost_dates_given"
    words: ClassVar[str] = tr("pair of frost dates", sense="kind of entry")
    last: date
    first: date

    def _check(self) -> None:
        both = (self.last.month, self.last.day), (self.first.month, self.first.day)
        if both[0] == both[1]:
            self._refuse(tr("both frosts on"), both[0], tr("two different days are needed"))


@dataclass(frozen=True, slots=True, kw_only=True)
class OnlineChoice(Fact):
    """Whether the grower lets the program ask a weather service; until a choice is made it does not."""

    kind: ClassVar[str] = "online_choice"
    words: ClassVar[str] = tr("choice about the network", sense="kind of entry")
    allowed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanRules(Fact):
    """The grower's own rules for the season plan.

    ``odds`` is the least chance of ripe fruit wanted, ``confidence`` how sure the number of seedlings
    is to be. Setting out waits for ``run_nights`` nights in a row of at least ``floor_c`` [°C]; a
    night of ``killing_c`` [°C] or less ends the season.
    """

    kind: ClassVar[str] = "plan_rules"
    words: ClassVar[str] = tr("set of plan rules", sense="kind of entry")
    odds: float = 0.8
    confidence: float = 0.95
    floor_c: float = 10.0
    run_nights: int = 7
    killing_c: float = 0.0
    hardening_days: int = 11

    def _check(self) -> None:
        for what, value, least, most in (
            (tr("odds of"), self.odds, 0.05, 0.99),
            (tr("a confidence of"), self.confidence, 0.5, 0.999),
            (tr("a floor (°C) of"), self.floor_c, -5, 25),
            (tr("a run of nights of"), self.run_nights, 1, 30),
            (tr("a killing night (°C) of"), self.killing_c, -15, 10),
            (tr("hardening days"), self.hardening_days, 0, 30),
        ):
            if not (least <= value <= most):
                self._refuse(what, value, tr("{least:g} to {most:g} is allowed", least=least, most=most))


@dataclass(frozen=True, slots=True, kw_only=True)
class LampMeasured(Fact):
    """The light on one shelf, measured under its lamp at the height of the leaves.

    ``ppfd`` [µmol/m²/s] or ``lux`` with the ``lamp``'s make-up; ``hours`` a day is it lit.
    """

    kind: ClassVar[str] = "lamp_measured"
    words: ClassVar[str] = tr("light measurement", sense="kind of entry")
    place: str
    ppfd: float | None = None
    lux: float | None = None
    lamp: str = "white led"
    hours: float = 16.0

    def _check(self) -> None:
        if not self.place.strip():
            self._refuse(tr("the place"), self.place, tr("it needs at least one letter"))
        read = (self.ppfd, self.lux)
        if read == (None, None):
            self._refuse(tr("no reading"), read, tr("µmol/m²/s or lux is needed"))
        for what, value, most in (("µmol/m²/s", self.ppfd, 3_000), ("lux", self.lux, 200_000)):
            if not (value is None or 0 <= value <= most):
                self._refuse(what, value, tr("0 to {most:,} is allowed", most=most))
        if self.lamp not in LAMPS:
            self._refuse(tr("the lamp"), self.lamp, tr("one of {lamps} is allowed", lamps=", ".join(LAMPS)))
        if not (0 <= self.hours <= 24):
            self._refuse(tr("hours of light"), self.hours, tr("0 to 24 are allowed"))
