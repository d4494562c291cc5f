"""A table in the units the grower reads: °C or °F, millilitres or fluid ounces."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from greenroom.desk.units import FLUID_OUNCE_ML
from greenroom.exchange.tables.table import Cell, Kind, Table
from greenroom.season.place import Place
from greenroom.season.temperatures import from_celsius, unit_sign

DECIMALS = 2
Change = Callable[[float], float]


def as_read(table: Table, place: Place) -> Table:
    """Return a table in the units of a place; what is in other units stays."""
    changes = {
        "°C": (unit_sign("f"), _fahrenheit) if place.temperature == "f" else None,
        "mL": ("fl oz", _ounces) if place.volume == "floz" else None,
    }
    found = [changes.get(column.unit) for column in table.columns]
    if not any(found):
        return table
    columns = tuple(
        column if change is None else replace(column, unit=change[0], kind=Kind.NUMBER)
        for column, change in zip(table.columns, found, strict=True)
    )
    rows = (
        [
            cell if change is None else _changed(cell, change[1])
            for cell, change in zip(row, found, strict=True)
        ]
        for row in table.rows
    )
    return Table.of(table.name, columns, rows)


def _changed(cell: Cell, change: Change) -> Cell:
    return round(change(cell), DECIMALS) if isinstance(cell, int | float) else cell


def _fahrenheit(celsius: float) -> float:
    return from_celsius(celsius, "f")


def _ounces(millilitres: float) -> float:
    return millilitres / FLUID_OUNCE_ML
