"""The one door for weather files: tell which form a file has, look into it, read it.

Each form has its own reader; this module only chooses among them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from greenroom.exchange.text_lines import LEGACY, Limits, TextLines
from greenroom.exchange.text_table import open_table
from greenroom.exchange.weather_csv import WeatherFile, WeatherLook, read_weather, sniff_weather
from greenroom.exchange.weather_dly import DlyLook, is_dly, look_at_dly, read_dly
from greenroom.exchange.weather_epw import EpwLook, is_epw, look_at_epw, read_epw
from greenroom.exchange.weather_layout import NEEDED, Station
from greenroom.exchange.weather_plain import PlainLook, PlainMatch, PlainUnits, look_at_plain, read_plain
from greenroom.speech import tr

FORM_WORDS = {
    "summaries": tr("NOAA daily summaries (CSV)"),
    "dly": tr("raw GHCN-Daily (.dly)"),
    "epw": tr("EnergyPlus weather, hourly (.epw)"),
    "plain": tr("a table of days"),
}
LIMITS = Limits(megabytes=120, lines=600_000, columns=150, meaning=tr("centuries of days"))

Look = WeatherLook | DlyLook | EpwLook | PlainLook


def recognise(path: str | Path) -> str:
    """Tell which of ``FORM_WORDS`` a file has, by what stands in it, whatever its name.

    Parameters
    ----------
    path : str or Path
        The file.

    Returns
    -------
    str
        "summaries", "dly", "epw" or "plain": any other table, whose columns must be matched.

    Raises
    ------
    BadFileError
        If the file is no text at all, or cannot be read.
    """
    with TextLines(path, LIMITS, LEGACY) as lines:
        head = lines.head()
    first = head[0] if head else ""
    if is_epw(first):
        return "epw"
    if is_dly(first):
        return "dly"
    with open_table(path, LIMITS, LEGACY) as table:
        names = table.header
    flagged = any(name.endswith("_ATTRIBUTES") for name in names)
    official = set(names).issuperset(NEEDED) and ("STATION" in names or flagged)
    return "summaries" if official else "plain"


def look_at_weather(path: str | Path) -> WeatherFileLook:
    """Look into a weather file of any form, so that the grower can choose what it leaves open.

    Parameters
    ----------
    path : str or Path
        The file.

    Returns
    -------
    WeatherFileLook
        Its form, and what a look into that form tells.

    Raises
    ------
    BadFileError
        If the file is not whole in its form. Most values are checked only on reading.
    """
    form = recognise(path)
    looks: dict[str, Callable[[str | Path], Look]] = {
        "summaries": sniff_weather,
        "dly": look_at_dly,
        "epw": look_at_epw,
        "plain": look_at_plain,
    }
    return WeatherFileLook(form, looks[form](path))


def read_weather_file(
    path: str | Path,
    choice: WeatherChoice | None = None,
    progress: Callable[[float], object] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> WeatherFile:
    """Read a weather file of any form, whole or not at all.

    Parameters
    ----------
    path : str or Path
        The file.
    choice : WeatherChoice, optional
        What the grower chose of that which the file leaves open.
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
        If the file holds several stations and none is chosen.
    Cancelled
        If ``cancelled`` returned True.
    """
    chosen = WeatherChoice() if choice is None else choice
    form = recognise(path)
    if form == "summaries":
        return read_weather(path, chosen.units, chosen.station, progress, cancelled)
    if form == "dly":
        return read_dly(path, chosen.station, progress, cancelled)
    if form == "epw":
        return read_epw(path, progress, cancelled)
    return read_plain(path, chosen.match, chosen.order, chosen.plain_units, progress, cancelled)


@dataclass(frozen=True, slots=True)
class WeatherFileLook:
    """The form of a weather file, and what a look into that form tells."""

    form: str
    detail: Look

    @property
    def words(self) -> str:
        """What the form is called."""
        return FORM_WORDS[self.form]

    @property
    def stations(self) -> tuple[Station, ...]:
        """The stations the file names; one must be chosen if there are several."""
        if isinstance(self.detail, WeatherLook | DlyLook):
            return self.detail.stations
        return (self.detail.station,) if isinstance(self.detail, EpwLook) else ()

    @property
    def notes(self) -> tuple[str, ...]:
        """Sentences the grower should read before importing."""
        return self.detail.notes if isinstance(self.detail, EpwLook) else ()


@dataclass(frozen=True, slots=True)
class WeatherChoice:
    """What the grower chose; None where the file is to be taken at its word.

    ``units`` and ``station`` go with daily summaries, ``station`` with .dly, the others with a table.
    """

    units: str | None = None
    station: str | None = None
    match: PlainMatch | None = None
    order: str | None = None
    plain_units: PlainUnits | None = None
