"""Daily weather from a CSV file in the column layout of the public NOAA daily summaries.

A file comes in whole or not at all. ``weather_layout`` describes the columns, ``weather_units`` tells
the units apart, ``weather_days`` checks every value.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from itertools import islice
from pathlib import Path

from greenroom.exchange.text_table import open_table
from greenroom.exchange.weather_days import Gathering, MissingCounts
from greenroom.exchange.weather_gathering import Step
from greenroom.exchange.weather_layout import LIMITS, SeveralStationsError, Station, find_layout
from greenroom.exchange.weather_units import UNIT_WORDS, UNITS, guess_units
from greenroom.ledger.facts import WeatherDay

__all__ = [
    "UNITS",
    "UNIT_WORDS",
    "MissingCounts",
    "SeveralStationsError",
    "Station",
    "WeatherFile",
    "WeatherLook",
    "read_weather",
    "sniff_weather",
]

SAMPLE_ROWS = 4_000
ROWS_A_STEP = 500


def sniff_weather(path: str | Path) -> WeatherLook:
    """Look at the first lines of a weather file and guess its units.

    Parameters
    ----------
    path : str or Path
        The file.

    Returns
    -------
    WeatherLook
        Its columns, the stations met, how many rows were looked at, the units guessed and why.

    Raises
    ------
    BadFileError
        If the file is not such a table. Values are not checked yet.
    """
    with open_table(path, LIMITS) as table:
        layout = find_layout(table)
        stations: dict[str, Station] = {}
        temperatures = []
        sampled = 0
        for _, cells in islice(table.rows(), SAMPLE_ROWS):
            sampled += 1
            station = layout.station_of(cells)
            stations.setdefault(station.station, station)
            if not layout.temperatures_flagged(cells):
                temperatures.append((cells[layout.tmin], cells[layout.tmax]))
    guess = guess_units(temperatures)
    named = () if layout.station is None else tuple(stations.values())
    return WeatherLook(table.header, named, sampled, guess.units, guess.reason, guess.sure)


def read_weather(
    path: str | Path,
    units: str | None = None,
    station: str | None = None,
    progress: Callable[[float], object] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> WeatherFile:
    """Read the daily weather of one station, whole or not at all.

    Parameters
    ----------
    path : str or Path
        The file: up to 150,000 lines and 150 columns; comma, semicolon, tab or bar between the cells.
    units : {"tenths", "metric", "us"}, optional
        The units in the file; guessed from its values if not given.
    station : str, optional
        The identifier of the station wanted; needed if the file holds several.
    progress : callable, optional
        Called again and again with the share done, 0 to 1, never falling, at last with 1.
    cancelled : callable, optional
        Asked again and again; True calls the reading off.

    Returns
    -------
    WeatherFile
        Days in date order, in °C, mm and m/s; None where a value is missing.

    Raises
    ------
    BadFileError
        If anything in the file is wrong; one sentence says what, where and what is allowed.
    SeveralStationsError
        If the file holds several stations and ``station`` is not given.
    Cancelled
        If ``cancelled`` returned True.
    ValueError
        If ``units`` is none of the three.

    Notes
    -----
    A file cut off inside its very last number may look whole. It is refused if that number is shorter
    than all others of its column; else it cannot be told.
    """
    if units is not None and units not in UNITS:
        raise ValueError(f"units {units!r} are not known; {', '.join(UNITS)} or None are allowed")
    step = Step(progress, cancelled)
    step(0.0)
    chosen = units or sniff_weather(path).units
    with open_table(path, LIMITS) as table:
        gathered = Gathering(table, chosen, station)
        for count, (line, cells) in enumerate(table.rows(), start=1):
            gathered.add(line, cells)
            if count % ROWS_A_STEP == 0:
                step(table.share_done())
    days, found, missing = gathered.finish()
    step(1.0)
    return WeatherFile(days, found.station, found.name, chosen, missing)


@dataclass(frozen=True, slots=True)
class WeatherLook:
    """What a weather file holds, by its first lines: a basis for the grower's choice of units.

    ``stations`` are those met in the rows sampled; reading may meet more. ``sure`` says whether the
    values allow nothing but the units guessed.
    """

    columns: tuple[str, ...]
    stations: tuple[Station, ...]
    sampled: int
    units: str
    reason: str
    sure: bool


@dataclass(frozen=True, slots=True)
class WeatherFile:
    """The daily weather of one station, in date order, in °C, mm and m/s."""

    days: tuple[WeatherDay, ...]
    station: str
    name: str
    units: str
    missing: MissingCounts

    @property
    def first(self) -> date:
        """The first day."""
        return self.days[0].day

    @property
    def last(self) -> date:
        """The last day."""
        return self.days[-1].day
