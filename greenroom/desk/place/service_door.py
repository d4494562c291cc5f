"""The way to the weather service: who it is, what it is told, and the service itself, made on first use."""

from __future__ import annotations

from typing import NamedTuple

from greenroom.exchange.weather_service import WeatherService
from greenroom.season.place import Place
from greenroom.speech import figure, tr

# What stands on the card before anything is asked. Network and encryption take a while to load, so the
# service's own module, which says the same, is imported only when it is asked.
NAME = "Open-Meteo"
CREDIT = tr("Weather data by Open-Meteo.com (https://open-meteo.com), licensed under CC BY 4.0.")
FIRST_YEAR = 1940  # of its daily history: its documentation, "Historical Weather API"

ASKED_DECIMALS = 2
"""About a kilometre: finer than any service's own grid, and not a doorstep."""

NO_BREAK = "\u00a0"  # a blank at which no line is broken


class Spot(NamedTuple):
    """Where the weather is asked for [degrees, north and east positive]."""

    latitude: float
    longitude: float

    @property
    def words(self) -> str:
        """The spot as people write it: 46.4° N, 16° E."""
        north = f"{figure(abs(self.latitude), 'g')}°{NO_BREAK}{'S' if self.latitude < 0 else 'N'}"
        return f"{north}, {figure(abs(self.longitude), 'g')}°{NO_BREAK}{'W' if self.longitude < 0 else 'E'}"


def spot_of(place: Place) -> Spot | None:
    """Return where the weather of a place is asked for, rounded; None without a place."""
    if place.latitude is None or place.longitude is None:
        return None
    return Spot(round(place.latitude, ASKED_DECIMALS), round(place.longitude, ASKED_DECIMALS))


class ServiceDoor:
    """Hands out the service it was given, or else the one that comes with the program."""

    def __init__(self, service: WeatherService | None = None) -> None:
        self._service = service

    @property
    def name(self) -> str:
        """What the service is called."""
        return NAME if self._service is None else self._service.name

    @property
    def credit(self) -> str:
        """The line to show beside its data."""
        return CREDIT if self._service is None else self._service.credit

    def service(self) -> WeatherService:
        """Return the service; the first call loads what it needs, so make it from a worker."""
        if self._service is None:
            from greenroom.exchange.open_weather import OpenMeteo

            self._service = OpenMeteo()
        return self._service
