"""The tables in an answer of Open-Meteo: checked for shape, read in the units that the answer names."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from greenroom.exchange.text_lines import shown
from greenroom.exchange.weather_service import ServiceError
from greenroom.exchange.weather_units import KMH_PER_MS, MS_PER_KNOT, kept, rain_mm, temperature_c, wind_ms
from greenroom.speech import tr

MOST_ROWS = 20_000


@dataclass(frozen=True, slots=True)
class Kind:
    """What a column measures: a converter for each unit it may be in, and what is possible then."""

    units: Mapping[str, Callable[[float], float]]
    lowest: float
    highest: float


# The names of units are those of the service's documentation; the limits of temperature, rain and wind
# are beyond the extremes in the World Weather and Climate Extremes Archive (World Meteorological
# Organization), that of radiation beyond the solar constant, 1361 W/m².
TEMPERATURE = Kind({"°C": kept, "°F": lambda value: temperature_c(value, "us")}, -90.0, 60.0)
RAIN = Kind({"mm": kept, "inch": lambda value: rain_mm(value, "us")}, 0.0, 2_000.0)
GUST = Kind(
    {
        "m/s": kept,
        "km/h": lambda value: kept(value / KMH_PER_MS),
        "mp/h": lambda value: wind_ms(value, "us"),
        "mph": lambda value: wind_ms(value, "us"),
        "kn": lambda value: kept(value * MS_PER_KNOT),
    },
    0.0,
    120.0,
)
CLOUD = Kind({"%": lambda value: round(value / 100, 4)}, 0.0, 1.0)
RADIATION = Kind({"W/m²": kept}, 0.0, 1_500.0)


class AnswerReader:
    """Reads the parts of one answer; ``name`` is what the service is called in a sentence."""

    def __init__(self, name: str, answer: Mapping[str, object]) -> None:
        self._name = name
        self._answer = answer

    def refusal(self, what: str) -> ServiceError:
        """Return the error that says what is not as documented."""
        return ServiceError(
            tr(
                "{name} answered in an unknown form, {what}; nothing of it was used.",
                name=self._name,
                what=what,
            )
        )

    def number(self, key: str, lowest: float, highest: float) -> float:
        """Return a number of the answer itself."""
        return self._number(self._answer.get(key), f"“{key}”", lowest, highest)

    def text(self, key: str) -> str:
        """Return a text of the answer itself."""
        value = self._answer.get(key)
        if not isinstance(value, str):
            raise self.refusal(tr("as “{key}” is no text", key=key))
        return value

    def times(self, section: str) -> list[str | int]:
        """Return the column of times of a table: text by ISO 8601, or seconds of Unix time."""
        column = self._object(section).get("time")
        if not isinstance(column, list) or not {type(time) for time in column} <= {str, int}:
            raise self.refusal(tr("as “{section}” has no list of times", section=section))
        if not 0 < len(column) <= MOST_ROWS:
            raise self.refusal(
                tr(
                    "as “{section}” has {rows:,} rows where 1 to {most:,} are needed",
                    section=section,
                    rows=len(column),
                    most=MOST_ROWS,
                )
            )
        return column

    def column(self, section: str, key: str, kind: Kind) -> list[float | None]:
        """Return a column of a table, converted; None where the answer has null."""
        values = self._object(section).get(key)
        if not isinstance(values, list) or len(values) != len(self.times(section)):
            raise self.refusal(
                tr("as “{key}” in “{section}” is no list as long as its times", key=key, section=section)
            )
        if all(value is None for value in values):
            return [None] * len(values)
        convert = kind.units.get(self._unit(section, key))
        if convert is None:
            raise self.refusal(
                tr(
                    "as “{key}” is in {found} where {units} are known",
                    key=key,
                    found=shown(self._unit(section, key)),
                    units=", ".join(kind.units),
                )
            )
        return [None if value is None else self._converted(key, value, convert, kind) for value in values]

    def _object(self, key: str) -> Mapping[str, object]:
        found = self._answer.get(key)
        if not isinstance(found, dict):
            raise self.refusal(tr("as “{key}” is missing", key=key))
        return found

    def _unit(self, section: str, key: str) -> str:
        unit = self._object(f"{section}_units").get(key)
        return unit if isinstance(unit, str) else ""

    def _converted(self, key: str, value: object, convert: Callable[[float], float], kind: Kind) -> float:
        what = tr("a value of “{key}”", key=key)
        return self._number(convert(self._number(value, what, -1e9, 1e9)), what, kind.lowest, kind.highest)

    def _number(self, value: object, what: str, lowest: float, highest: float) -> float:
        if isinstance(value, bool) or not isinstance(value, int | float):
            raise self.refusal(tr("as {what} is no number", what=what))
        if not lowest <= value <= highest:
            raise self.refusal(
                tr(
                    "as {what} is {found} where {lowest:,g} to {highest:,g} is possible",
                    what=what,
                    found=shown(str(value)[:30]),
                    lowest=lowest,
                    highest=highest,
                )
            )
        return float(value)
