"""A number in the grower's unit that is kept in the season's own."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtWidgets import QDoubleSpinBox

from greenroom.season.hardening_words import KILOMETRES_PER_HOUR, MILES_PER_HOUR, MILLIMETRES_PER_INCH
from greenroom.season.place import Place
from greenroom.season.temperatures import F_IN_C, FREEZING_F


@dataclass(frozen=True, slots=True)
class Unit:
    """How a number is shown: ``times`` the season's own, and ``plus``."""

    sign: str
    times: float = 1.0
    plus: float = 0.0
    decimals: int = 0


def warmth_unit(place: Place) -> Unit:
    """Return °C, or °F for those who read it."""
    return Unit("°F", F_IN_C, FREEZING_F) if place.temperature == "f" else Unit("°C")


def gust_unit(place: Place) -> Unit:
    """Return km/h, or miles an hour for those who read °F."""
    fahrenheit = place.temperature == "f"
    return Unit("mph", MILES_PER_HOUR) if fahrenheit else Unit("km/h", KILOMETRES_PER_HOUR)


def rain_unit(place: Place) -> Unit:
    """Return mm, or inches for those who read °F."""
    fahrenheit = place.temperature == "f"
    return Unit("in", 1 / MILLIMETRES_PER_INCH, decimals=2) if fahrenheit else Unit("mm")


class MeasuredField(QDoubleSpinBox):
    """As long as nobody changes what it shows, it gives back the very number it was told."""

    def __init__(self, name: str, words: str, changed: Callable[[], object]) -> None:
        super().__init__()
        self._unit = Unit("")
        self._told = self._shown = 0.0
        self.setObjectName(name)
        self.setAccessibleName(words)
        self.setRange(-999, 9999)
        self.valueChanged.connect(lambda _: changed())

    @property
    def number(self) -> float:
        """The number in the season's own unit."""
        if self.value() == self._shown:
            return self._told
        return (self.value() - self._unit.plus) / self._unit.times

    def show_number(self, number: float, unit: Unit) -> None:
        """Show a number of the season in a unit."""
        self._unit, self._told = unit, number
        self.blockSignals(True)
        self.setDecimals(unit.decimals)
        self.setSingleStep(10**-unit.decimals)
        self.setSuffix(f" {unit.sign}" if unit.sign else "")
        self.setValue(number * unit.times + unit.plus)
        self.blockSignals(False)
        self._shown = self.value()
