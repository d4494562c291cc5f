"""Facts about the place: where it is, its units, its weather."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from typing import ClassVar, NamedTuple
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from greenroom.ledger.facts.base import BadFactError, Fact

TEMPERATURE_UNITS = ("c", "f")
VOLUME_UNITS = ("ml", "floz")


class WeatherDay(NamedTuple):
    """One day of a weather record: °C, mm and m/s; None where it was not measured."""

    day: date
    tmin_c: float | None
    tmax_c: float | None
    rain_mm: float | None = None
    gust_ms: float | None = None


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
        rising = all(earlier < later for earlier, later in pairwise(dates))
        self._require(rising, "days", "out of order", "each day once, in order")
