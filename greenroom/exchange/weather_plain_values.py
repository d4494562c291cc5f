"""Values in a plain weather table: in which unit each column is, and what a cell of it says."""

from __future__ import annotations

import statistics
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from greenroom.exchange.text_lines import shown
from greenroom.exchange.text_table import TextTable
from greenroom.exchange.weather_plain_columns import header_units
from greenroom.exchange.weather_units import (
    GUST,
    KMH_PER_MS,
    MS_PER_KNOT,
    RAIN,
    TEMPERATURE,
    Quantity,
    UnitGuess,
    guess_units,
    kept,
    parse_number,
    rain_mm,
    temperature_c,
    wind_ms,
)
from greenroom.speech import tr

Convert = Callable[[float], float]

TEMPERATURE_UNITS: dict[str, tuple[str, Convert]] = {
    "c": ("°C", lambda value: temperature_c(value, "metric")),
    "f": ("°F", lambda value: temperature_c(value, "us")),
    "tenths": (tr("tenths of °C"), lambda value: temperature_c(value, "tenths")),
}
RAIN_UNITS: dict[str, tuple[str, Convert]] = {
    "mm": ("mm", lambda value: rain_mm(value, "metric")),
    "inch": (tr("inches"), lambda value: rain_mm(value, "us")),
    "cm": ("cm", lambda value: kept(value * 10)),
    "tenths": (tr("tenths of mm"), lambda value: rain_mm(value, "tenths")),
}
GUST_UNITS: dict[str, tuple[str, Convert]] = {
    "ms": ("m/s", lambda value: wind_ms(value, "metric")),
    "kmh": ("km/h", lambda value: kept(value / KMH_PER_MS)),
    "mph": (tr("miles per hour"), lambda value: wind_ms(value, "us")),
    "knots": (tr("knots"), lambda value: kept(value * MS_PER_KNOT)),
    "tenths": (tr("tenths of m/s"), lambda value: wind_ms(value, "tenths")),
}
# What the unit words of a header stand for.
HEADER_TEMPERATURES = {"c": "c", "degc": "c", "celsius": "c", "degreesc": "c", "degreescelsius": "c"} | {
    "f": "f", "degf": "f", "fahrenheit": "f", "degreesf": "f", "degreesfahrenheit": "f",
}  # fmt: skip
HEADER_RAINS = {"mm": "mm", "lm2": "mm", "cm": "cm", "in": "inch", "inch": "inch", "inches": "inch"}
HEADER_GUSTS = {"ms": "ms", "ms1": "ms", "kmh": "kmh", "kph": "kmh", "mph": "mph"} | dict.fromkeys(
    ("kn", "kt", "kts", "knots"), "knots"
)
# What goes with the temperatures where the header says nothing.
ALONG = {"c": ("mm", "ms"), "f": ("inch", "mph"), "tenths": ("tenths", "tenths")}
OF_WHOLE = {"metric": "c", "us": "f", "tenths": "tenths"}
# Half of all days have gusts below this in any place where things are grown; a working rule, no source.
USUAL_GUST_MS = 18.0
FEWEST_GUSTS = 20

# Common practice, no source: what stands where nothing was measured.
MISSING_WORDS = frozenset(
    ("", "-", "--", "---", "na", "n/a", "nan", "nd", "null", "none", "nil", "m", "x", "?", "miss", "missing")
)
MISSING_NUMBERS = frozenset(
    (-99.9, -99.99, -999.0, -999.9, -999.99, -9999.0, -9999.9, 9999.0, 9999.9, 99999.0)
)
TRACES = frozenset(("t", "tr", "trace"))


def read_number(text: str) -> float | None:
    """Return the number in a cell, None if nothing was measured; raise ValueError for anything else."""
    bare = text.strip().replace("−", "-").casefold()
    if bare in MISSING_WORDS:
        return None
    number = parse_number(bare)
    if number is None:
        raise ValueError(text)
    return None if number in MISSING_NUMBERS else number


def guess_temperature_unit(headers: Sequence[str], days: Sequence[tuple[str, str]]) -> UnitGuess:
    """Tell the unit of the temperatures from the two headers, or else from the values of days."""
    told = {HEADER_TEMPERATURES.get(header_units(header)) for header in headers}
    if len(told) == 1 and None not in told:
        unit = str(told.pop())
        return UnitGuess(
            unit,
            tr("The header says {unit}.", unit=TEMPERATURE_UNITS[unit][0]),
            sure=True,
        )
    known = [pair for pair in days if not any(map(_says_missing, pair))]
    guess = guess_units(known)
    return UnitGuess(OF_WHOLE[guess.units], guess.reason, guess.sure)


def guess_rain_unit(header: str, temperature: str) -> UnitGuess:
    """Tell the unit of the rain from its header, or else from that of the temperatures."""
    told = HEADER_RAINS.get(header_units(header))
    if told is not None:
        return UnitGuess(told, tr("The header says {unit}.", unit=RAIN_UNITS[told][0]), sure=True)
    unit, _ = ALONG[temperature]
    return UnitGuess(
        unit,
        tr("{unit} would go with the temperatures; check it.", unit=RAIN_UNITS[unit][0]),
        sure=False,
    )


def guess_gust_unit(header: str, temperature: str, texts: Sequence[str]) -> UnitGuess:
    """Tell the unit of the gusts from their header, or else from the temperatures and values."""
    told = HEADER_GUSTS.get(header_units(header))
    if told is not None:
        return UnitGuess(told, tr("The header says {unit}.", unit=GUST_UNITS[told][0]), sure=True)
    _, unit = ALONG[temperature]
    numbers = [parse_number(text) for text in texts if not _says_missing(text)]
    known = [number for number in numbers if number is not None]
    if unit == "ms" and len(known) >= FEWEST_GUSTS and statistics.median(known) > USUAL_GUST_MS:
        return UnitGuess(
            "kmh", tr("Half the gusts would be a storm in m/s, so these may be km/h."), sure=False
        )
    return UnitGuess(
        unit,
        tr("{unit} would go with the temperatures; check it.", unit=GUST_UNITS[unit][0]),
        sure=False,
    )


def _says_missing(text: str) -> bool:
    try:
        return read_number(text) is None
    except ValueError:
        return False


@dataclass(frozen=True, slots=True)
class PlainUnits:
    """The unit of each column, by its name in ``TEMPERATURE_UNITS``, ``RAIN_UNITS``, ``GUST_UNITS``.

    Raises ValueError for a name that is not there.
    """

    temperature: str = "c"
    rain: str = "mm"
    gust: str = "ms"

    def __post_init__(self) -> None:
        """Refuse a unit that is not known."""
        for name, known in (
            ("temperature", TEMPERATURE_UNITS),
            ("rain", RAIN_UNITS),
            ("gust", GUST_UNITS),
        ):
            if getattr(self, name) not in known:
                raise ValueError(
                    f"{name} {getattr(self, name)!r} is not known; {', '.join(known)} are allowed"
                )


class PlainColumn:
    """One column of values; each way of writing a number is parsed once."""

    def __init__(self, table: TextTable, index: int, what: Quantity, unit: tuple[str, Convert]) -> None:
        """Take the column at ``index``, which measures ``what`` in ``unit``."""
        self._table = table
        self._index = index
        self._what = what
        self._words, self._convert = unit
        self._known: dict[str, float | None] = {}

    def value(self, line: int, cells: list[str]) -> float | None:
        """Return the value of a row, None if nothing was measured; BadFileError if it cannot be."""
        text = cells[self._index]
        if text not in self._known:
            self._known[text] = self._parse(line, text)
        return self._known[text]

    def _parse(self, line: int, text: str) -> float | None:
        if self._what.trace and text.strip().casefold() in TRACES:
            return 0.0
        try:
            number = read_number(text)
        except ValueError as error:
            raise self._table.refusal(
                tr(
                    "{found} is not a number; a number such as 12.8, or nothing, is allowed",
                    found=shown(text),
                ),
                line,
                self._index,
            ) from error
        return None if number is None else self._possible(line, text, self._convert(number) + 0.0)

    def _possible(self, line: int, text: str, value: float) -> float:
        what = self._what
        if not what.lowest <= value <= what.highest:
            raise self._table.refusal(
                tr(
                    "{found} in {unit_typed} would be {value:,.1f} {unit}, so the unit may be wrong; "
                    "{lowest:,.0f} to {highest:,.0f} {unit} is allowed",
                    found=shown(text.strip()),
                    unit_typed=self._words,
                    value=value,
                    unit=what.unit,
                    lowest=what.lowest,
                    highest=what.highest,
                ),
                line,
                self._index,
            )
        return value


def temperature_column(table: TextTable, index: int, units: PlainUnits) -> PlainColumn:
    """Return a column of temperatures."""
    return PlainColumn(table, index, TEMPERATURE, TEMPERATURE_UNITS[units.temperature])


def rain_column(table: TextTable, index: int, units: PlainUnits) -> PlainColumn:
    """Return a column of rain."""
    return PlainColumn(table, index, RAIN, RAIN_UNITS[units.rain])


def gust_column(table: TextTable, index: int, units: PlainUnits) -> PlainColumn:
    """Return a column of gusts."""
    return PlainColumn(table, index, GUST, GUST_UNITS[units.gust])
