"""What the program asks of a weather service, whichever it is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, datetime
from typing import NamedTuple, Protocol

from greenroom.ledger.facts import WeatherDay


class ServiceError(Exception):
    """A service that gave nothing usable; the message is one sentence: what happened and what to do."""


class ForecastHour(NamedTuple):
    """Weather by the hour; None where it is not known.

    Temperature [°C] and cloud (share of the sky, 0 to 1) are those at ``time`` (UTC); gust [m/s], rain [mm]
    and shortwave radiation on the level [W/m²] are the highest, the sum and the mean of the hour before it.
    """

    time: datetime
    temperature_c: float | None
    cloud: float | None
    gust_ms: float | None
    rain_mm: float | None
    shortwave_w_m2: float | None


@dataclass(frozen=True, slots=True)
class Forecast:
    """Weather to come, and of the last days, as a service gave it at one moment.

    ``zone`` is the place's time zone, empty if this computer does not know it; the dates of ``days`` are
    cut by the clock of the day it was asked, also beyond a change of the clocks.
    """

    fetched_at: datetime
    source: str
    credit: str
    latitude: float
    longitude: float
    zone: str
    days: tuple[WeatherDay, ...]
    hours: tuple[ForecastHour, ...]


class WeatherService(Protocol):
    """A place to get weather from over the network. Its calls block, so make them from a worker."""

    @property
    def name(self) -> str:
        """What it is called."""

    @property
    def credit(self) -> str:
        """The line to show beside its data."""

    def history(
        self,
        latitude: float,
        longitude: float,
        first: date,
        last: date,
        progress: Callable[[float], object] | None = None,
        cancelled: Callable[[], bool] | None = None,
    ) -> tuple[WeatherDay, ...]:
        """Return the days from ``first`` to ``last`` that are known, in order: all or nothing.

        Parameters
        ----------
        latitude, longitude : float
            Degrees, north and east positive.
        first, last : date
            The first and last day wanted.
        progress : callable, optional
            Called again and again with the share done, 0 to 1, never falling, at last with 1.
        cancelled : callable, optional
            Asked again and again, also from another thread; True calls the work off.

        Raises
        ------
        ServiceError
            If the service gives nothing usable.
        Cancelled
            If ``cancelled`` returned True.
        ValueError
            If the place is not on the globe or ``first`` comes after ``last``.
        """

    def forecast(
        self,
        latitude: float,
        longitude: float,
        fetched_at: datetime,
        cancelled: Callable[[], bool] | None = None,
    ) -> Forecast:
        """Return the forecast, marked with the moment it was fetched at, which needs a time zone.

        Raises
        ------
        ServiceError
            If the service gives nothing usable.
        Cancelled
            If ``cancelled`` returned True.
        ValueError
            If the place is not on the globe or ``fetched_at`` has no time zone.
        """
