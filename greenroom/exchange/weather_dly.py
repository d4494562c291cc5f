"""Daily weather from a raw file of the Global Historical Climatology Network, daily (.dly).

One line a month and element, in fixed columns: station 1-11, year 12-15, month 16-17, element 18-21,
then 31 times a value of five characters, its measurement, quality and source flag. Values are tenths of
°C, of mm and of m/s; -9999 is missing; a value with a quality flag failed a check and is not used.

References
----------
NOAA National Centers for Environmental Information, GHCN-Daily readme, section III, "Format of data
files".
"""

from __future__ import annotations

import re
from calendar import monthrange
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from greenroom.exchange.text_lines import Limits, TextLines, shown
from greenroom.exchange.weather_csv import WeatherFile
from greenroom.exchange.weather_days import FIRST_YEAR, LAST_YEAR
from greenroom.exchange.weather_gathering import DayBook, Step, count_missing
from greenroom.exchange.weather_layout import GUSTS, SeveralStationsError, Station, listed
from greenroom.exchange.weather_units import GUST, RAIN, TEMPERATURE, Quantity
from greenroom.ledger.facts import WeatherDay
from greenroom.speech import tr

LIMITS = Limits(megabytes=120, lines=400_000, columns=1, meaning=tr("hundreds of years of days"))
ELEMENTS: dict[str, Quantity] = {"TMIN": TEMPERATURE, "TMAX": TEMPERATURE, "PRCP": RAIN} | dict.fromkeys(
    GUSTS, GUST
)
HEAD = re.compile(r"([!-~]{11})([0-9]{4})([0-9]{2})([A-Z0-9]{4})")
VALUE = re.compile(r" *-?[0-9]+")
HEAD_LENGTH = 21
DAYS_A_LINE = 31
DAY_LENGTH = 8
LINE_LENGTH = HEAD_LENGTH + DAYS_A_LINE * DAY_LENGTH
# An editor may have taken the blank flags off the end of a line.
FLAGS_LENGTH = 3
MISSING = "-9999"
LINES_A_STEP = 200
SPAN = tr("{first} to {last}", first=FIRST_YEAR, last=LAST_YEAR)


def is_dly(line: str) -> bool:
    """Return whether a line of text looks like one of a .dly file."""
    return HEAD.match(line) is not None and len(line) >= LINE_LENGTH - FLAGS_LENGTH and "," not in line


def look_at_dly(path: str | Path) -> DlyLook:
    """Look at which stations a .dly file holds.

    Parameters
    ----------
    path : str or Path
        The file.

    Raises
    ------
    BadFileError
        If a line does not begin as it should. Values are not checked yet.
    """
    stations: dict[str, None] = {}
    with TextLines(path, LIMITS) as lines:
        for text in lines:
            if text.strip():
                head = _head(lines, text)
                stations.setdefault(head.station)
        if not stations:
            raise lines.refusal(tr("the file holds only blank lines; lines of daily values are needed"))
    return DlyLook(tuple(map(Station, stations)))


def read_dly(
    path: str | Path,
    station: str | None = None,
    progress: Callable[[float], object] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> WeatherFile:
    """Read the daily weather of one station, whole or not at all.

    Parameters
    ----------
    path : str or Path
        The file, up to 400,000 lines.
    station : str, optional
        The identifier of the station wanted; needed if the file holds several.
    progress : callable, optional
        Called again and again with the share done, 0 to 1, never falling, at last with 1.
    cancelled : callable, optional
        Asked again and again; True calls the reading off.

    Returns
    -------
    WeatherFile
        Days in date order, in °C, mm and m/s; None where a value is missing or failed a check. Of the
        gusts the peak is taken where measured, else the fastest 5 seconds, else 2 minutes.

    Raises
    ------
    BadFileError
        If anything in the file is wrong; one sentence says what, where and what is allowed.
    SeveralStationsError
        If the file holds several stations and ``station`` is not given.
    Cancelled
        If ``cancelled`` returned True.
    """
    step = Step(progress, cancelled)
    step(0.0)
    with TextLines(path, LIMITS) as lines:
        months = _Months(lines, station)
        for text in lines:
            if text.strip():
                months.add(text)
            if lines.number % LINES_A_STEP == 0:
                step(lines.share_done())
        read = months.finish()
    step(1.0)
    return read


def _head(lines: TextLines, text: str) -> _Head:
    parts = HEAD.match(text)
    if parts is None:
        raise lines.refusal(
            tr(
                "the line begins with {found}; a station of 11 characters, a year, a month and an "
                "element such as TMIN are needed",
                found=shown(text[:HEAD_LENGTH]),
            ),
            lines.number,
        )
    station, year, month, element = parts.groups()
    if not (FIRST_YEAR <= int(year) <= LAST_YEAR and 1 <= int(month) <= 12):
        raise lines.refusal(
            tr(
                "{year}-{month} is not a month; 01 to 12 of the years {span} are allowed",
                year=year,
                month=month,
                span=SPAN,
            ),
            lines.number,
        )
    return _Head(station, int(year), int(month), element)


@dataclass(frozen=True, slots=True)
class DlyLook:
    """What a .dly file holds: its stations."""

    stations: tuple[Station, ...]


@dataclass(frozen=True, slots=True)
class _Head:
    station: str
    year: int
    month: int
    element: str


class _Months:
    """Gathers the months of one station, element by element."""

    def __init__(self, lines: TextLines, station: str | None) -> None:
        self._lines = lines
        self._wanted = station
        self._stations: dict[str, None] = {}
        self._seen: dict[_Head, int] = {}
        self._known: dict[tuple[str, str], float] = {}
        self._values: dict[date, dict[str, float | None]] = {}
        self._line_of: dict[date, int] = {}
        self._flagged = 0

    def add(self, text: str) -> None:
        """Add one line; raise BadFileError if it cannot be true."""
        head = _head(self._lines, text)
        full = self._whole(text)
        self._stations.setdefault(head.station)
        wanted = self._wanted if self._wanted is not None else next(iter(self._stations))
        if head.element in ELEMENTS and head.station == wanted:
            self._refuse_repeated(head)
            self._add_month(head, full)

    def finish(self) -> WeatherFile:
        """Return all days; raise BadFileError if there are none, or a choice of stations."""
        station = self._station()
        book = DayBook(self._lines.refusal)
        for day, values in self._values.items():
            book.add(self._line_of[day], _weather_day(day, values))
        days = book.in_order()
        return WeatherFile(days, station, "", "tenths", count_missing(days, self._flagged))

    def _whole(self, text: str) -> str:
        """Return a line with its last flags, which may have been stripped if they are blank."""
        length = len(text)
        if length == LINE_LENGTH:
            return text
        needed = tr("{count} are needed: 21 and then 8 for each of 31 days", count=LINE_LENGTH)
        if self._lines.unended and length < LINE_LENGTH:
            raise self._lines.refusal(
                tr(
                    "the file seems cut off, as its last line has {count} characters; {needed}",
                    count=length,
                    needed=needed,
                ),
                self._lines.number,
            )
        if not LINE_LENGTH - FLAGS_LENGTH <= length < LINE_LENGTH:
            raise self._lines.refusal(
                tr("the line has {count} characters; {needed}", count=length, needed=needed),
                self._lines.number,
            )
        return text.ljust(LINE_LENGTH)

    def _refuse_repeated(self, head: _Head) -> None:
        earlier = self._seen.setdefault(head, self._lines.number)
        if earlier != self._lines.number:
            raise self._lines.refusal(
                tr(
                    "{element} of {year}-{month:02d} is already in line {line}; each month of an "
                    "element is allowed once",
                    element=head.element,
                    year=head.year,
                    month=head.month,
                    line=earlier,
                ),
                self._lines.number,
            )

    def _add_month(self, head: _Head, text: str) -> None:
        _, last = monthrange(head.year, head.month)
        for number in range(1, DAYS_A_LINE + 1):
            start = HEAD_LENGTH + (number - 1) * DAY_LENGTH
            value = text[start : start + 5]
            if value == MISSING:
                continue
            if number > last:
                raise self._lines.refusal(
                    tr(
                        "there is a value, {found}, for day {day} of {year}-{month:02d}; {nothing} is "
                        "needed there",
                        found=shown(value.strip()),
                        day=number,
                        year=head.year,
                        month=head.month,
                        nothing=MISSING,
                    ),
                    self._lines.number,
                )
            day = date(head.year, head.month, number)
            flagged = text[start + 6] != " "
            self._flagged += flagged
            values = self._values.setdefault(day, {})
            values[head.element] = None if flagged else self._value(head.element, day, value)
            self._line_of[day] = self._lines.number

    def _value(self, element: str, day: date, text: str) -> float:
        if (element, text) not in self._known:
            self._known[element, text] = self._parse(element, day, text)
        return self._known[element, text]

    def _parse(self, element: str, day: date, text: str) -> float:
        if not VALUE.fullmatch(text):
            raise self._lines.refusal(
                tr(
                    "{found} is not a value for {element} of {day}; tenths such as 128, or {nothing}, "
                    "are needed",
                    found=shown(text),
                    element=element,
                    day=day,
                    nothing=MISSING,
                ),
                self._lines.number,
            )
        what = ELEMENTS[element]
        value = what.convert(float(text), "tenths")
        if not what.lowest <= value <= what.highest:
            raise self._lines.refusal(
                tr(
                    "{element} of {day} would be {value:,.1f} {unit}; {lowest:,.0f} to {highest:,.0f} "
                    "{unit} is allowed",
                    element=element,
                    day=day,
                    value=value,
                    unit=what.unit,
                    lowest=what.lowest,
                    highest=what.highest,
                ),
                self._lines.number,
            )
        return value

    def _station(self) -> str:
        names = tuple(self._stations)
        if not names:
            raise self._lines.refusal(tr("the file holds only blank lines; lines of daily values are needed"))
        if self._wanted is None and len(names) > 1:
            refusal = self._lines.refusal(
                tr(
                    "the file holds {count} stations; one is needed: {names}",
                    count=len(names),
                    names=listed(names),
                )
            )
            raise SeveralStationsError(str(refusal), tuple(map(Station, names)))
        if self._wanted is not None and self._wanted not in self._stations:
            raise self._lines.refusal(
                tr(
                    "there is no station {station}; those in the file are {names}",
                    station=shown(self._wanted),
                    names=listed(names),
                )
            )
        return names[0] if self._wanted is None else self._wanted


def _weather_day(day: date, values: dict[str, float | None]) -> WeatherDay:
    gusts = (values.get(name) for name in GUSTS)
    gust = next((value for value in gusts if value is not None), None)
    return WeatherDay(day, values.get("TMIN"), values.get("TMAX"), values.get("PRCP"), gust)
