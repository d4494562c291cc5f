"""Rows of a weather table become days, each checked as it comes; a day is never half right."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from greenroom.exchange.text_lines import shown
from greenroom.exchange.text_table import TextTable
from greenroom.exchange.weather_layout import (
    Layout,
    SeveralStationsError,
    Station,
    failed_a_check,
    find_layout,
    listed,
)
from greenroom.exchange.weather_units import (
    GUST,
    MISSING,
    RAIN,
    TEMPERATURE,
    UNIT_WORDS,
    Quantity,
    parse_number,
)
from greenroom.ledger.facts import WeatherDay
from greenroom.speech import tr

FIRST_YEAR, LAST_YEAR = 1700, 2200
MISSING_WORDS = frozenset(("", "na", "nan"))
TRACES = frozenset(("t", "T"))
FEWEST_ROWS_TO_COMPARE = 4


def decimals(text: str) -> int:
    """Count the digits after the point or comma: 0 for a whole number, -1 for an empty cell."""
    stripped = text.strip().replace(",", ".")
    if not stripped:
        return -1
    return len(stripped) - 1 - stripped.rfind(".") if "." in stripped else 0


def _parse_day(text: str) -> date | None:
    """Return the date of "2001-05-31" or "20010531"; None for anything else."""
    dashed = len(text) == 10 and text[4] == text[7] == "-"
    compact = len(text) == 8 and text.isdecimal()
    if not (text.isascii() and (dashed or compact)):
        return None
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return None
    return day if FIRST_YEAR <= day.year <= LAST_YEAR else None


@dataclass(frozen=True, slots=True)
class MissingCounts:
    """How much is missing: whole days between the first and the last, and values of the days there.

    ``flagged`` values are in the file but failed its quality checks; if no other column stood in for
    one of them, it is among the missing.
    """

    days: int
    tmin: int
    tmax: int
    rain: int
    gust: int
    flagged: int


class Column:
    """One column of values, converted and checked; each way of writing a number is parsed once."""

    def __init__(self, table: TextTable, index: int, flag: int | None, what: Quantity, units: str) -> None:
        """Take the column at ``index``, whose attributes stand in the column ``flag``."""
        self._table = table
        self._index = index
        self._flag = flag
        self._what = what
        self._units = units
        self._known: dict[str, float | None] = {}
        self.flagged = 0

    def value(self, line: int, cells: list[str]) -> float | None:
        """Return the value of a row, None if it is missing or failed a check."""
        if self._flag is not None and failed_a_check(cells[self._flag]):
            self.flagged += 1
            return None
        text = cells[self._index]
        if text not in self._known:
            self._known[text] = self._parse(line, text.strip())
        return self._known[text]

    def _parse(self, line: int, text: str) -> float | None:
        if text.casefold() in MISSING_WORDS:
            return None
        number = 0.0 if self._what.trace and text in TRACES else parse_number(text)
        if number is None:
            raise self._table.refusal(
                tr(
                    "{found} is not a number; a number such as 12.8, or nothing, is allowed",
                    found=shown(text),
                ),
                line,
                self._index,
            )
        return None if number in MISSING else self._possible(line, text, number)

    def _possible(self, line: int, text: str, number: float) -> float:
        what = self._what
        value = what.convert(number, self._units)
        if not what.lowest <= value <= what.highest:
            raise self._table.refusal(
                tr(
                    "{found} would be {value:,.1f} {unit} in a file of {units}, so the units may be "
                    "wrong; {lowest:,.0f} to {highest:,.0f} {unit} is allowed",
                    found=text,
                    value=value,
                    unit=what.unit,
                    units=UNIT_WORDS[self._units],
                    lowest=what.lowest,
                    highest=what.highest,
                ),
                line,
                self._index,
            )
        return value


class Gathering:
    """Gathers the days of one station, and names the stations if there are several to choose from."""

    def __init__(self, table: TextTable, units: str, station: str | None) -> None:
        """Find the columns of ``table``, whose numbers are in ``units``."""
        self._table = table
        self._layout = find_layout(table)
        self._wanted = station
        self._stations: dict[str, Station] = {}
        self._days: dict[date, tuple[int, WeatherDay]] = {}
        self._endings: set[int] = set()
        self._last_ending: int | None = None
        self._tmin, self._tmax, self._rain, self._gusts = self._columns(self._layout, units)

    def add(self, line: int, cells: list[str]) -> None:
        """Add one row; raise BadFileError if it cannot be true."""
        self._note_ending(cells)
        station = self._layout.station_of(cells)
        self._stations.setdefault(station.station, station)
        chosen = station.station == self._wanted if self._wanted is not None else len(self._stations) == 1
        if chosen:
            self._add_day(line, self._day_of(line, cells), cells)

    def finish(self) -> tuple[tuple[WeatherDay, ...], Station, MissingCounts]:
        """Return all days in order, their station and what is missing; raise BadFileError if none are."""
        station = self._station()
        self._refuse_cut_number()
        days = tuple(self._days[day][1] for day in sorted(self._days))
        if not any(day.tmin_c is not None and day.tmax_c is not None for day in days):
            raise self._table.refusal(tr("no day has both TMIN and TMAX; at least one is needed"))
        return days, station, self._missing(days)

    def _columns(
        self, layout: Layout, units: str
    ) -> tuple[Column, Column, Column | None, tuple[Column, ...]]:
        def column(index: int, what: Quantity) -> Column:
            return Column(self._table, index, layout.flags.get(index), what, units)

        rain = None if layout.rain is None else column(layout.rain, RAIN)
        gusts = tuple(column(index, GUST) for index in layout.gusts)
        return column(layout.tmin, TEMPERATURE), column(layout.tmax, TEMPERATURE), rain, gusts

    def _day_of(self, line: int, cells: list[str]) -> date:
        text = cells[self._layout.day].strip()
        day = _parse_day(text)
        if day is None:
            raise self._table.refusal(
                tr(
                    "{found} is not a date; a date such as 2001-05-31, of the years {first} to "
                    "{last}, is needed",
                    found=shown(text),
                    first=FIRST_YEAR,
                    last=LAST_YEAR,
                ),
                line,
                self._layout.day,
            )
        if day in self._days:
            raise self._table.refusal(
                tr(
                    "{day} is already in line {line}; each day is allowed once",
                    day=day,
                    line=self._days[day][0],
                ),
                line,
                self._layout.day,
            )
        return day

    def _add_day(self, line: int, day: date, cells: list[str]) -> None:
        tmin = self._tmin.value(line, cells)
        tmax = self._tmax.value(line, cells)
        if tmin is not None and tmax is not None and tmin > tmax:
            low, high = (cells[index].strip() for index in (self._layout.tmin, self._layout.tmax))
            raise self._table.refusal(
                tr(
                    "TMIN {low} is above TMAX {high}; the lowest of a day must not be above its highest",
                    low=low,
                    high=high,
                ),
                line,
            )
        rain = None if self._rain is None else self._rain.value(line, cells)
        self._days[day] = (line, WeatherDay(day, tmin, tmax, rain, self._gust(line, cells)))

    def _gust(self, line: int, cells: list[str]) -> float | None:
        measured = None
        for column in self._gusts:
            value = column.value(line, cells)
            measured = value if measured is None else measured
        return measured

    def _station(self) -> Station:
        stations = tuple(self._stations.values())
        names = tuple(" ".join(station) for station in stations)
        if self._wanted is None and len(stations) > 1:
            raise SeveralStationsError(
                str(
                    self._table.refusal(
                        tr(
                            "the file holds {count} stations; one is needed: {names}",
                            count=len(stations),
                            names=listed(names),
                        )
                    )
                ),
                stations,
            )
        if self._wanted is not None and self._wanted not in self._stations:
            raise self._table.refusal(
                tr(
                    "there is no station {station}; those in the file are {names}",
                    station=shown(self._wanted),
                    names=listed(names),
                )
            )
        return stations[0] if self._wanted is None else self._stations[self._wanted]

    def _note_ending(self, cells: list[str]) -> None:
        if self._last_ending is not None:
            self._endings.add(self._last_ending)
        self._last_ending = decimals(cells[-1])

    def _refuse_cut_number(self) -> None:
        """Refuse an unended last line whose last number is shorter than all others of its column."""
        is_value = len(self._table.header) - 1 in self._layout.values()
        compared = len(self._days) >= FEWEST_ROWS_TO_COMPARE and len(self._endings) == 1
        if not (self._table.unended and is_value and compared and self._last_ending is not None):
            return
        if self._last_ending < min(self._endings):
            raise self._table.refusal(
                tr(
                    "the file seems cut off, as its last number is shorter than all others of its "
                    "column; if it is whole, a line end is needed after it"
                )
            )

    def _missing(self, days: tuple[WeatherDay, ...]) -> MissingCounts:
        columns = (self._tmin, self._tmax, self._rain, *self._gusts)
        return MissingCounts(
            days=(days[-1].day - days[0].day).days + 1 - len(days),
            tmin=sum(day.tmin_c is None for day in days),
            tmax=sum(day.tmax_c is None for day in days),
            rain=sum(day.rain_mm is None for day in days),
            gust=sum(day.gust_ms is None for day in days),
            flagged=sum(column.flagged for column in columns if column is not None),
        )
