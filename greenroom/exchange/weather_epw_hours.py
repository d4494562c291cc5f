"""Hours of an .epw file become days: checked one at a time, a day never known by half its hours."""

from __future__ import annotations

from datetime import date

from greenroom.exchange.errors import BadFileError
from greenroom.exchange.text_lines import TextLines, shown
from greenroom.exchange.weather_days import FIRST_YEAR, LAST_YEAR
from greenroom.exchange.weather_units import RAIN, TEMPERATURE, Quantity, parse_number
from greenroom.ledger.facts import WeatherDay
from greenroom.speech import tr

HOURS = 24
FEWEST_FIELDS = 7
TEMPERATURE_FIELD = 6  # counted from 0, as the lists here are
RAIN_FIELD = 33
TEMPERATURE_MISSING_C = 99.9
RAIN_MISSING_MM = 999.0


class EpwHours:
    """Gathers hours into days, in the order of the file."""

    def __init__(self, lines: TextLines, records: int) -> None:
        self._lines = lines
        self._needed = HOURS * records
        self._width: int | None = None
        self._seen: dict[tuple[date, int, int], int] = {}
        self._temperatures: dict[date, list[float | None]] = {}
        self._rains: dict[date, list[float | None]] = {}
        self.typical = False
        self.absent = 0

    @property
    def dates(self) -> tuple[date, ...]:
        """The days in the order of the file."""
        return tuple(self._temperatures)

    @property
    def rained(self) -> bool:
        """Whether any rain is in the file."""
        return any(value for values in self._rains.values() for value in values)

    def add(self, text: str) -> None:
        """Add one record; raise BadFileError if it cannot be true."""
        cells = text.split(",")
        self._check_width(len(cells))
        year, month, number, hour, minute = (self._whole(cells, index) for index in range(5))
        day = self._day(year, month, number)
        if not (1 <= hour <= HOURS and 0 <= minute <= 60):
            raise self._refusal(
                tr(
                    "{hour}:{minute:02d} is not an hour; hours 1 to 24, minutes 0 to 60 are allowed",
                    hour=hour,
                    minute=minute,
                )
            )
        earlier = self._seen.setdefault((day, hour, minute), self._lines.number)
        if earlier != self._lines.number:
            raise self._refusal(
                tr(
                    "hour {hour} of {day} is already in line {line}; each is allowed once",
                    hour=hour,
                    day=day,
                    line=earlier,
                )
            )
        if day not in self._temperatures:
            self._begin(day)
        temperature = self._value(cells, TEMPERATURE_FIELD, TEMPERATURE, TEMPERATURE_MISSING_C)
        self._temperatures[day].append(temperature)
        self._rains[day].append(self._value(cells, RAIN_FIELD, RAIN, RAIN_MISSING_MM))

    def finish(self) -> None:
        """Raise BadFileError if the file holds no day with temperatures or does not end with a day."""
        if not self._temperatures:
            raise self._lines.refusal(tr("there is no hour below the header; whole days are needed"))
        last, values = next(reversed(self._temperatures.items()))
        if len(values) < self._needed:
            raise self._lines.refusal(
                tr(
                    "the file seems cut off, as its last day, {last}, has {count} records; {needed} are "
                    "needed",
                    last=last,
                    count=len(values),
                    needed=self._needed,
                )
            )
        if not any(map(self._complete, self._temperatures.values())):
            raise self._lines.refusal(
                tr("no day has the temperatures of all its hours; at least one is needed")
            )

    def days(self) -> tuple[WeatherDay, ...]:
        """Return the days in date order."""
        rained = self.rained
        return tuple(self._weather_day(day, rained) for day in sorted(self._temperatures))

    def _weather_day(self, day: date, rained: bool) -> WeatherDay:
        hours = self._complete(self._temperatures[day])
        rain = self._complete(self._rains[day]) if rained else []
        return WeatherDay(
            day,
            min(hours) if hours else None,
            max(hours) if hours else None,
            round(sum(rain), 3) if rain else None,
        )

    def _complete(self, values: list[float | None]) -> list[float]:
        """Return the values of a day, or none of them if any is missing."""
        known = [value for value in values if value is not None]
        return known if len(known) == self._needed else []

    def _begin(self, day: date) -> None:
        """Begin a day, and judge the step from the one before."""
        if self._temperatures:
            before = next(reversed(self._temperatures))
            gap = (day - before).days - 1
            new_year = (before.month, day.month) == (12, 1) and day.year == before.year + 1
            if day.year == before.year or new_year:
                self.absent += max(0, gap)
            else:
                self.typical = True
        self._temperatures[day] = []
        self._rains[day] = []

    def _check_width(self, width: int) -> None:
        if self._width is None:
            self._width = width
        if width < FEWEST_FIELDS or width != self._width:
            raise self._refusal(
                tr(
                    "the line has {count} fields; {needed} are needed, as in the others",
                    count=width,
                    needed=max(FEWEST_FIELDS, self._width),
                )
            )

    def _whole(self, cells: list[str], index: int) -> int:
        text = cells[index].strip()
        if not (text.isascii() and text.isdecimal() and len(text) <= 4):
            raise self._refusal(
                tr(
                    "{found} stands in field {place}; year, month, day, hour and minute in whole numbers "
                    "are needed",
                    found=shown(text),
                    place=index + 1,
                )
            )
        return int(text)

    def _day(self, year: int, month: int, number: int) -> date:
        try:
            day = date(year, month, number)
        except ValueError as error:
            raise self._refusal(
                tr(
                    "{year}-{month}-{number} is not a date; year, month, day are needed",
                    year=year,
                    month=month,
                    number=number,
                )
            ) from error
        if not FIRST_YEAR <= year <= LAST_YEAR:
            raise self._refusal(
                tr(
                    "the year is {year}; {first} to {last} are allowed",
                    year=year,
                    first=FIRST_YEAR,
                    last=LAST_YEAR,
                )
            )
        return day

    def _value(self, cells: list[str], index: int, what: Quantity, missing_from: float) -> float | None:
        text = cells[index].strip() if index < len(cells) else ""
        if not text:
            return None
        value = parse_number(text)
        if value is None:
            raise self._refusal(
                tr("{found} stands in field {place}; a number is needed", found=shown(text), place=index + 1)
            )
        if value >= missing_from:
            return None
        if not what.lowest <= value <= what.highest:
            raise self._refusal(
                tr(
                    "{found} {unit} stands in field {place}; {lowest:,.0f} to {highest:,.0f} {unit} is "
                    "allowed",
                    found=text,
                    unit=what.unit,
                    place=index + 1,
                    lowest=what.lowest,
                    highest=what.highest,
                )
            )
        return value + 0.0

    def _refusal(self, sentence: str) -> BadFileError:
        return self._lines.refusal(sentence, self._lines.number)
