"""The sun over one day at the place: its path."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy.sunlight import solar_noon, sun_position, sunrise_sunset
from greenroom.season.outings import midnight
from greenroom.season.place import Place
from greenroom.speech import tr

SAMPLE = timedelta(minutes=5)
POINTS = (
    (0, tr("N", sense="point of the compass")),
    (90, tr("E", sense="point of the compass")),
    (180, tr("S", sense="point of the compass")),
    (270, tr("W", sense="point of the compass")),
)


@dataclass(frozen=True, slots=True, eq=False)
class SunDay:
    """The sun's path from ``start`` to ``end``, sampled every five minutes.

    ``steps`` run from 0 to 1 with the time. ``heights`` are the sine of the elevation: the share of an
    overhead sun's light that falls on level ground; ``highest`` is the greatest of them. ``turns`` run
    from 0 to 1 with the azimuth, or with the time where the azimuth goes to and fro, as it does within
    the tropics. ``rise`` and ``fall`` are None where the sun does not both rise and set.
    """

    latitude: float
    longitude: float
    start: datetime
    end: datetime
    rise: datetime | None
    fall: datetime | None
    noon: datetime
    noon_degrees: float
    heights: NDArray[np.float64]
    turns: NDArray[np.float64]
    azimuths: NDArray[np.float64]
    steps: NDArray[np.float64]
    highest: float

    @property
    def up(self) -> bool:
        """Whether the sun is above the horizon at any time of the day."""
        return self.noon_degrees > 0

    def share(self, moment: datetime) -> float:
        """Return how far along the path the sun stands, 0 to 1; moments outside lie at its ends."""
        return float(np.interp(self._passed(moment), self.steps, self.turns))

    def height(self, moment: datetime) -> float:
        """Return how high the sun stands as a share of the day's highest; 0 below the horizon."""
        if not self.up:
            return 0.0
        return max(0.0, float(np.interp(self._passed(moment), self.steps, self.heights)) / self.highest)

    def moment_at(self, share: float) -> datetime:
        """Return when the sun stands so far along the path."""
        return self.start + float(np.interp(share, self.turns, self.steps)) * (self.end - self.start)

    def height_at(self, share: float) -> float:
        """Return the height of the path at a place along it, both as shares."""
        if not self.up:
            return 0.0
        return max(0.0, float(np.interp(share, self.turns, self.heights)) / self.highest)

    def piece(self, start: datetime, end: datetime) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Return how far along and how high the path is from one moment to another, both as shares."""
        first, last = self._passed(start), self._passed(end)
        between = self.steps[(self.steps > first) & (self.steps < last)]
        passed = np.clip(np.concatenate(([first], between, [last])), 0.0, 1.0)
        heights = np.interp(passed, self.steps, self.heights) / self.highest
        return np.interp(passed, self.steps, self.turns), np.maximum(heights, 0.0)

    def points(self) -> list[tuple[float, str]]:
        """Return where along the path the sun passes the points of the compass."""
        found = []
        for azimuth, name in POINTS:
            apart = np.abs((self.azimuths - azimuth + 180) % 360 - 180)
            nearest = int(np.argmin(apart))
            if 0 < nearest < len(apart) - 1:
                found.append((float(self.turns[nearest]), name))
        return sorted(found)

    def position(self, moment: datetime) -> tuple[float, float]:
        """Return elevation and azimuth at a moment [degrees]."""
        return sun_position(moment, self.latitude, self.longitude)

    def _passed(self, moment: datetime) -> float:
        return (moment - self.start) / (self.end - self.start)


def sun_day(place: Place, day: date) -> SunDay | None:
    """Return the sun's path on a day, or None where no place is known."""
    if place.latitude is None or place.longitude is None:
        return None
    latitude, longitude = place.latitude, place.longitude
    sun = sunrise_sunset(day, latitude, longitude)
    rise, fall = sun if sun else (None, None)
    start = rise or midnight(day, place.zone)
    end = fall or midnight(day + timedelta(days=1), place.zone)
    noon = solar_noon(day, longitude)
    steps = int((end - start) / SAMPLE) + 1
    moments = [start + (end - start) * step / steps for step in range(steps + 1)]
    elevations, azimuths = sun_position(moments, latitude, longitude)
    noon_degrees, _ = sun_position(noon, latitude, longitude)
    heights = np.sin(np.radians(elevations))
    return SunDay(
        latitude=latitude,
        longitude=longitude,
        start=start,
        end=end,
        rise=rise,
        fall=fall,
        noon=noon,
        noon_degrees=noon_degrees,
        heights=heights,
        turns=_turns(azimuths),
        azimuths=azimuths,
        steps=np.linspace(0.0, 1.0, steps + 1),
        highest=float(np.max(heights)),
    )


def _turns(azimuths: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return how far round the sun has gone, 0 to 1; by time where it goes to and fro."""
    turned = np.degrees(np.unwrap(np.radians(azimuths)))
    gone = (turned - turned[0]) / (turned[-1] - turned[0])
    return gone if np.all(np.diff(gone) > 0) else np.linspace(0.0, 1.0, len(azimuths))
