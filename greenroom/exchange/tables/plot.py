"""The plot as tables: the plants on it, and the hours of sun on each square of the ground."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date

from greenroom.exchange.tables.parts import holder_name, rounded
from greenroom.exchange.tables.table import Cell, Column, Kind, Table
from greenroom.season.plot import Plot
from greenroom.season.plot_plants import Plant, plants_of
from greenroom.season.plot_sun import Hours, SunMap, Where, plant_sun
from greenroom.season.state import Season
from greenroom.speech import tr

PLANTS = (
    Column("bed", "Bed"),
    Column("spot", "Position"),
    Column("variety", "Variety"),
    Column("crop", "Crop"),
    Column("x", "East", Kind.NUMBER, "m"),
    Column("y", "North", Kind.NUMBER, "m"),
    Column("height", "Height when grown", Kind.NUMBER, "m"),
    Column("crown", "Width when grown", Kind.NUMBER, "m"),
    Column("morning", "Sun before noon", Kind.NUMBER, "h"),
    Column("afternoon", "Sun after noon", Kind.NUMBER, "h"),
    Column("day", "Sun", Kind.NUMBER, "h"),
)
SUN = (
    Column("x", "East", Kind.NUMBER, "m"),
    Column("y", "North", Kind.NUMBER, "m"),
    Column("morning", "Sun before noon", Kind.NUMBER, "h"),
    Column("afternoon", "Sun after noon", Kind.NUMBER, "h"),
    Column("day", "Sun", Kind.NUMBER, "h"),
)


def plant_table(season: Season, plot: Plot, day: date, where: Where | None = None) -> Table:
    """Return the plants on the plot; with ``where`` also the sun each has on a day once all are grown."""
    plants = plants_of(season, plot)
    hours = [None] * len(plants) if where is None else _hours(plot, plants, day, where)
    rows = (_plant(season, *pair) for pair in zip(plants, hours, strict=True))
    return Table.of(tr("Plants on the plot"), PLANTS, rows)


def sun_table(found: SunMap) -> Table:
    """Return the hours of direct sun square by square, from the north-west; each told by its middle."""
    return Table.of(tr("Sun on the plot {day}", day=found.day.isoformat()), SUN, _squares(found))


def _hours(plot: Plot, plants: Sequence[Plant], day: date, where: Where) -> list[Hours | None]:
    return [one.hours for one in plant_sun(plot, plants, day, where)]


def _plant(season: Season, plant: Plant, hours: Hours | None) -> tuple[Cell, ...]:
    sun = (None, None, None) if hours is None else (hours.morning, hours.afternoon, hours.day)
    sizes = (*plant.point, plant.height_m, plant.crown_m)
    return (
        holder_name(season, plant.spot.holder),
        plant.spot.label,
        plant.name,
        plant.crop.name if plant.crop else "",
        *map(rounded, (*sizes, *sun)),
    )


def _squares(found: SunMap) -> Iterator[tuple[Cell, ...]]:
    for row in range(found.rows):
        for column in range(found.columns):
            hours = (float(found.of(half)[row, column]) for half in ("morning", "afternoon", "day"))
            yield tuple(map(rounded, (*found.middle(row, column), *hours)))
