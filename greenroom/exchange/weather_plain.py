"""Daily weather from any table: look first, choose columns, dates and units, then read all or nothing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from functools import reduce
from itertools import islice
from pathlib import Path

from greenroom.exchange.column_match import refuse_columns
from greenroom.exchange.text_lines import LEGACY, clean, shown
from greenroom.exchange.text_table import TextTable, open_table
from greenroom.exchange.weather_csv import WeatherFile
from greenroom.exchange.weather_days import FEWEST_ROWS_TO_COMPARE, FIRST_YEAR, LAST_YEAR, decimals
from greenroom.exchange.weather_gathering import DayBook, Step, count_missing
from greenroom.exchange.weather_layout import LIMITS
from greenroom.exchange.weather_plain_columns import FIELD_WORDS, PlainMatch, propose_match
from greenroom.exchange.weather_plain_dates import (
    ORDER_WORDS,
    ORDERS,
    DateGuess,
    guess_order,
    make_date,
    parse_date,
)
from greenroom.exchange.weather_plain_values import (
    GUST_UNITS,
    RAIN_UNITS,
    TEMPERATURE_UNITS,
    PlainColumn,
    PlainUnits,
    guess_gust_unit,
    guess_rain_unit,
    guess_temperature_unit,
    gust_column,
    rain_column,
    temperature_column,
)
from greenroom.exchange.weather_units import UnitGuess
from greenroom.ledger.facts import WeatherDay
from greenroom.speech import tr

__all__ = [
    "FIELD_WORDS",
    "GUST_UNITS",
    "ORDERS",
    "ORDER_WORDS",
    "RAIN_UNITS",
    "TEMPERATURE_UNITS",
    "DateGuess",
    "PlainLook",
    "PlainMatch",
    "PlainUnits",
    "look_at_plain",
    "read_plain",
]

PREVIEW_ROWS = 10
SAMPLE_ROWS = 4_000
ROWS_A_STEP = 500
LONGEST_SHOWN = 100
SET_OF_UNITS = {"c": "metric", "f": "us", "tenths": "tenths"}


def look_at_plain(path: str | Path, match: PlainMatch | None = None) -> PlainLook:
    """Look at the first rows of a table and propose what its columns hold, and in which form.

    Parameters
    ----------
    path : str or Path
        The file.
    match : PlainMatch, optional
        The columns if they were chosen already; proposed from the header if not.

    Returns
    -------
    PlainLook
        Header, first rows, and the proposals with their reasons. What is not sure is the grower's to
        settle; an order of dates that is not sure must be settled before reading.

    Raises
    ------
    BadFileError
        If the file is not such a table. Values are not checked yet.
    """
    with open_table(path, LIMITS, LEGACY) as table:
        _refuse_headless(table)
        chosen = propose_match(table.header) if match is None else match
        refuse_columns(table, chosen.used(), FIELD_WORDS)
        rows = [cells for _, cells in islice(table.rows(), SAMPLE_ROWS)]
    temperature = _temperature_guess(table.header, rows, chosen)
    gust = chosen.gust
    return PlainLook(
        header=table.header,
        rows=tuple(tuple(clean(cell.strip(), LONGEST_SHOWN) for cell in row) for row in rows[:PREVIEW_ROWS]),
        sampled=len(rows),
        match=chosen,
        dates=None if chosen.day is None else guess_order([row[chosen.day] for row in rows]),
        temperature=temperature,
        rain=None if chosen.rain is None else guess_rain_unit(table.header[chosen.rain], temperature.units),
        gust=None
        if gust is None
        else guess_gust_unit(table.header[gust], temperature.units, [row[gust] for row in rows]),
    )


def read_plain(
    path: str | Path,
    match: PlainMatch | None = None,
    order: str | None = None,
    units: PlainUnits | None = None,
    progress: Callable[[float], object] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> WeatherFile:
    """Read daily weather from a table, whole or not at all.

    Parameters
    ----------
    path : str or Path
        The file: up to 150,000 lines and 150 columns; comma, semicolon, tab or bar between the cells.
    match : PlainMatch, optional
        The columns; proposed from the header if not given. Date, lowest and highest are needed.
    order : {"ymd", "dmy", "mdy"}, optional
        The order of the date; taken from the file if not given and only one can be meant.
    units : PlainUnits, optional
        The units; guessed if not given, as ``look_at_plain`` shows them.
    progress : callable, optional
        Called again and again with the share done, 0 to 1, never falling, at last with 1.
    cancelled : callable, optional
        Asked again and again; True calls the reading off.

    Returns
    -------
    WeatherFile
        Days in date order, in °C, mm and m/s; None where a value is missing. It names no station, and
        as its units those of the temperatures.

    Raises
    ------
    BadFileError
        If anything in the file or the choice of columns is wrong, or the order of the dates cannot be
        told; one sentence says what, where and what is allowed.
    Cancelled
        If ``cancelled`` returned True.
    ValueError
        If ``order`` is none of the three.

    Notes
    -----
    A file cut off inside its very last number may look whole. It is refused if that number has fewer
    decimals than all others of its column; else it cannot be told.
    """
    if order is not None and order not in ORDERS:
        raise ValueError(f"order {order!r} is not known; {', '.join(ORDERS)} or None are allowed")
    step = Step(progress, cancelled)
    step(0.0)
    settled = _settle(path, match, order, units)
    with open_table(path, LIMITS, LEGACY) as table:
        gathering = _Gathering(table, settled)
        for count, (line, cells) in enumerate(table.rows(), start=1):
            gathering.add(line, cells)
            if count % ROWS_A_STEP == 0:
                step(table.share_done())
        days = gathering.finish()
    step(1.0)
    return WeatherFile(days, "", "", SET_OF_UNITS[settled.units.temperature], count_missing(days))


def _settle(
    path: str | Path, match: PlainMatch | None, order: str | None, units: PlainUnits | None
) -> _Settled:
    """Take what was chosen, and what a look tells of the rest."""
    look = look_at_plain(path, match)
    chosen = look.match
    with open_table(path, LIMITS, LEGACY) as table:
        lacking = [FIELD_WORDS[name] for name in ("tmin", "tmax") if name not in chosen.used()]
        if chosen.date_columns is None:
            lacking.insert(0, FIELD_WORDS["day"])
        if lacking:
            raise table.refusal(
                tr(
                    "no column is chosen for the {fields}; one for each is needed",
                    fields=reduce(_and_the, lacking),
                )
            )
        if order is None and look.dates is not None and not look.dates.sure:
            raise table.refusal(
                tr("the dates can be read as day and month or month and day; which it is must be chosen"),
                column=chosen.day,
            )
    guessed = look.dates.order if look.dates is not None else ORDERS[0]
    return _Settled(chosen, order or guessed, units or look.units)


def _and_the(first: str, other: str) -> str:
    return tr("{first} and the {other}", first=first, other=other)


def _refuse_headless(table: TextTable) -> None:
    if any(parse_date(cell, order) is not None for cell in table.header for order in ORDERS):
        raise table.refusal(
            tr(
                "the first line holds a date, so it is a row of values; a header line that names the "
                "columns is needed above it"
            )
        )


def _temperature_guess(header: tuple[str, ...], rows: list[list[str]], match: PlainMatch) -> UnitGuess:
    low, high = match.tmin, match.tmax
    if low is None or high is None:
        return UnitGuess(
            "c", tr("Not both columns of temperatures are known, so °C is only assumed."), sure=False
        )
    return guess_temperature_unit((header[low], header[high]), [(row[low], row[high]) for row in rows])


@dataclass(frozen=True, slots=True)
class PlainLook:
    """What a table seems to hold, to be shown before it is read.

    ``dates`` is None where the date stands in three columns or no date was seen; ``rain`` and ``gust``
    are None where there is no such column. ``sampled`` tells how many rows were looked at.
    """

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    sampled: int
    match: PlainMatch
    dates: DateGuess | None
    temperature: UnitGuess
    rain: UnitGuess | None
    gust: UnitGuess | None

    @property
    def units(self) -> PlainUnits:
        """The units as guessed."""
        return PlainUnits(
            self.temperature.units,
            self.rain.units if self.rain is not None else "mm",
            self.gust.units if self.gust is not None else "ms",
        )


@dataclass(frozen=True, slots=True)
class _Settled:
    match: PlainMatch
    order: str
    units: PlainUnits


class _Gathering:
    """Gathers the rows of a table, all of which must be days."""

    def __init__(self, table: TextTable, settled: _Settled) -> None:
        match, units = settled.match, settled.units
        self._table = table
        self._order = settled.order
        self._dates = match.date_columns or ()
        self._book = DayBook(table.refusal)
        self._tmin = temperature_column(table, match.used()["tmin"], units)
        self._tmax = temperature_column(table, match.used()["tmax"], units)
        self._rain = None if match.rain is None else rain_column(table, match.rain, units)
        self._gust = None if match.gust is None else gust_column(table, match.gust, units)
        self._last_is_value = len(table.header) - 1 in match.used().values()
        self._endings: set[int] = set()
        self._ending: int | None = None

    def add(self, line: int, cells: list[str]) -> None:
        """Add one row; raise BadFileError if it cannot be true."""
        if self._ending is not None:
            self._endings.add(self._ending)
        self._ending = decimals(cells[-1])
        self._book.add(
            line,
            WeatherDay(
                self._day(line, cells),
                self._tmin.value(line, cells),
                self._tmax.value(line, cells),
                _value(self._rain, line, cells),
                _value(self._gust, line, cells),
            ),
        )

    def finish(self) -> tuple[WeatherDay, ...]:
        """Return all days in order; raise BadFileError if the last number seems cut off."""
        alike = len(self._book) >= FEWEST_ROWS_TO_COMPARE and len(self._endings) == 1
        if self._table.unended and self._last_is_value and alike and self._ending is not None:
            self._refuse_shorter(self._ending, min(self._endings))
        return self._book.in_order()

    def _refuse_shorter(self, last: int, others: int) -> None:
        if last < others:
            raise self._table.refusal(
                tr(
                    "the file seems cut off, as its last number is shorter than all others of its "
                    "column; if it is whole, a line end is needed after it"
                )
            )

    def _day(self, line: int, cells: list[str]) -> date:
        texts = [cells[column] for column in self._dates]
        made = parse_date(texts[0], self._order) if len(texts) == 1 else make_date(*texts)
        if made is None:
            form = ORDER_WORDS[self._order] if len(texts) == 1 else tr("year, month and day in numbers")
            raise self._table.refusal(
                tr(
                    "{found} is not a date; {form}, of the years {first} to {last}, is needed",
                    found=shown(" ".join(text.strip() for text in texts)),
                    form=form,
                    first=FIRST_YEAR,
                    last=LAST_YEAR,
                ),
                line,
                self._dates[0],
            )
        return made


def _value(column: PlainColumn | None, line: int, cells: list[str]) -> float | None:
    return None if column is None else column.value(line, cells)
