"""The forms of weather files that can be brought in here, and what is to be asked about each."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from greenroom.exchange.weather_csv import WeatherFile, WeatherLook, read_weather, sniff_weather
from greenroom.exchange.weather_files import (
    FORM_WORDS,
    WeatherChoice,
    look_at_weather,
    read_weather_file,
    recognise,
)
from greenroom.exchange.weather_layout import Station

SELF_EXPLAINING = ("dly", "epw")


@dataclass(frozen=True, slots=True)
class Look:
    """What is known of a file before it is read; ``units`` is None where the form itself settles them."""

    path: Path
    words: str
    reason: str
    units: str | None
    stations: tuple[Station, ...]


def look_into(path: Path) -> Look:
    """Look into a file: a table with the columns of the daily summaries, a raw .dly or an .epw file.

    Raises
    ------
    BadFileError
        With one sentence, if it is none of these.
    """
    if recognise(path) in SELF_EXPLAINING:
        found = look_at_weather(path)
        return Look(path, found.words, " ".join(found.notes), None, found.stations)
    sniffed: WeatherLook = sniff_weather(path)
    sure = "" if sniffed.sure else " This is a guess; check it."
    words = f"{FORM_WORDS['summaries']}, {sniffed.sampled:,} days looked at"
    return Look(path, words, f"{sniffed.reason}{sure}", sniffed.units, sniffed.stations)


def read_file(
    look: Look,
    units: str | None,
    station: str | None,
    progress: Callable[[float], object],
    cancelled: Callable[[], bool],
) -> WeatherFile:
    """Read a file that was looked into, whole or not at all."""
    if look.units is None:
        return read_weather_file(look.path, WeatherChoice(station=station), progress, cancelled)
    return read_weather(look.path, units, station, progress, cancelled)
