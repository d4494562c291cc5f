"""Daily weather from an hourly EnergyPlus weather file (.epw).

Eight header lines, the first of which names the place, the last the records an hour; then a line for
each record, its fields counted from 1: year, month, day, hour 1 to 24 (hour 1 ends at 01:00), minute,
then 7 the dry bulb temperature [°C] and 34 the depth of rain [mm], missing from 99.9 and from 999 on.
The wind (22) is that at the hour, not a gust, so gusts stay unknown.

References
----------
EnergyPlus Auxiliary Programs, "EnergyPlus Weather File (EPW) Data Dictionary".
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from greenroom.exchange.text_lines import LEGACY, Limits, TextLines, clean, shown
from greenroom.exchange.weather_csv import WeatherFile
from greenroom.exchange.weather_epw_hours import EpwHours
from greenroom.exchange.weather_gathering import Step, count_missing
from greenroom.exchange.weather_layout import Station
from greenroom.exchange.weather_units import parse_number
from greenroom.speech import tr

LIMITS = Limits(megabytes=120, lines=600_000, columns=100, meaning=tr("68 years of hours"))
BEGINNING = "LOCATION,"
HEADER_END = "DATA PERIODS,"
MOST_HEADER_LINES = 50
RECORDS_AN_HOUR = (1, 2, 3, 4, 5, 6, 10, 12, 15, 20, 30, 60)
LINES_A_STEP = 500
TYPICAL_NOTE = tr(
    "Its months come from different years, {first} to {last}: it is a typical year put "
    "together, not a record of years, so it cannot tell how often a season fails."
)
NO_RAIN_NOTE = tr("There is not a drop of rain in it, so the rain is taken as unknown.")
WIND_NOTE = tr("Its wind is that at each hour, not the gusts, so gusts are unknown.")


def is_epw(line: str) -> bool:
    """Return whether the first line of a text looks like that of an .epw file."""
    return line.upper().startswith(BEGINNING)


def look_at_epw(path: str | Path) -> EpwLook:
    """Look at which place and years an .epw file holds.

    Parameters
    ----------
    path : str or Path
        The file.

    Raises
    ------
    BadFileError
        If the file is not whole or anything in it is wrong, as in ``read_epw``.
    """
    place, gathered = _gather(path, Step())
    return EpwLook(
        place.station,
        place.latitude,
        place.longitude,
        tuple(sorted({day.year for day in gathered.dates})),
        gathered.typical,
        tuple(_notes(gathered)),
    )


def read_epw(
    path: str | Path,
    progress: Callable[[float], object] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> WeatherFile:
    """Read the days of an .epw file, whole or not at all.

    Parameters
    ----------
    path : str or Path
        The file, up to 600,000 lines.
    progress : callable, optional
        Called again and again with the share done, 0 to 1, never falling, at last with 1.
    cancelled : callable, optional
        Asked again and again; True calls the reading off.

    Returns
    -------
    WeatherFile
        Days in date order, each in the year that stands in the file, also where the months of a typical
        year come from different years. Lowest and highest of the day are those of its hours; where an
        hour is missing they are None. Rain is the sum of the hours; it is None where an hour is missing
        and for the whole file if there is none in it. Gusts are None. Days missing are counted only
        within the stretches of following days, not between the months of a typical year.

    Raises
    ------
    BadFileError
        If anything in the file is wrong; one sentence says what, where and what is allowed.
    Cancelled
        If ``cancelled`` returned True.
    """
    step = Step(progress, cancelled)
    step(0.0)
    place, gathered = _gather(path, step)
    days = gathered.days()
    step(1.0)
    missing = count_missing(days, absent=gathered.absent)
    return WeatherFile(days, place.station.station, place.station.name, "metric", missing)


def _gather(path: str | Path, step: Step) -> tuple[_Place, EpwHours]:
    with TextLines(path, LIMITS, LEGACY) as lines:
        rows = iter(lines)
        header = _read_header(lines, rows)
        place = _read_place(lines, header[0])
        hours = EpwHours(lines, _records_an_hour(lines, header[-1]))
        for text in rows:
            if text.strip():
                hours.add(text)
            if lines.number % LINES_A_STEP == 0:
                step(lines.share_done())
        hours.finish()
    return place, hours


def _read_header(lines: TextLines, rows: Iterator[str]) -> list[str]:
    """Return the header lines, to the one that ends them."""
    header: list[str] = []
    for text in rows:
        header.append(text)
        if not is_epw(header[0]):
            raise lines.refusal(tr("the first line must begin with {words}", words=BEGINNING), 1)
        if text.upper().startswith(HEADER_END):
            return header
        if len(header) == MOST_HEADER_LINES:
            break
    raise lines.refusal(
        tr(
            "there is no line {words} after the header; one is needed before the hours",
            words=HEADER_END,
        )
    )


def _read_place(lines: TextLines, text: str) -> _Place:
    cells = [cell.strip() for cell in text.split(",")]
    if len(cells) < 8:
        raise lines.refusal(
            tr(
                "the place has {count} fields; city, region, country, source, station, latitude and "
                "longitude are needed",
                count=len(cells),
            ),
            1,
        )
    latitude, longitude = (parse_number(cell) for cell in cells[6:8])
    if latitude is None or longitude is None or not (-90 <= latitude <= 90 and -180 <= longitude <= 180):
        raise lines.refusal(
            tr(
                "{latitude} and {longitude} are no latitude and longitude; -90 to 90 and -180 to 180 "
                "degrees are allowed",
                latitude=shown(cells[6]),
                longitude=shown(cells[7]),
            ),
            1,
        )
    name = ", ".join(clean(cell) for cell in cells[1:4] if cell not in ("", "-"))
    return _Place(Station(clean(cells[5]), name), latitude, longitude)


def _records_an_hour(lines: TextLines, text: str) -> int:
    cells = text.split(",")
    records = parse_number(cells[2]) if len(cells) > 2 else None
    if records not in RECORDS_AN_HOUR:
        raise lines.refusal(
            tr("the line does not say how many records an hour there are; a divisor of 60 is needed there"),
            lines.number,
        )
    return int(records)


def _notes(gathered: EpwHours) -> Iterator[str]:
    if gathered.typical:
        years = [day.year for day in gathered.dates]
        yield TYPICAL_NOTE.format(first=min(years), last=max(years))
    if not gathered.rained:
        yield NO_RAIN_NOTE
    yield WIND_NOTE


@dataclass(frozen=True, slots=True)
class EpwLook:
    """What an .epw file holds: its place, the years its days are of, and what the grower should know.

    ``typical`` is True where the months of one year were taken from different years.
    """

    station: Station
    latitude: float
    longitude: float
    years: tuple[int, ...]
    typical: bool
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Place:
    station: Station
    latitude: float
    longitude: float
