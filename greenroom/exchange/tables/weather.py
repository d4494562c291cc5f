"""The place's weather as tables: the record, the forecast, and frosts and warm nights year by year."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np

from greenroom.exchange.tables.parts import rounded
from greenroom.exchange.tables.table import Cell, Column, Kind, Table
from greenroom.ledger.facts import WeatherDay
from greenroom.season.place import latest_forecast, record_days
from greenroom.season.record_page import HeatCurves, RecordPage
from greenroom.season.record_why import frost_free
from greenroom.season.state import Season
from greenroom.speech import tr

WEATHER = (
    Column("date", "Date", Kind.DATE),
    Column("tmin", "Minimum temperature", Kind.NUMBER, "°C"),
    Column("tmax", "Maximum temperature", Kind.NUMBER, "°C"),
    Column("rain", "Rain", Kind.NUMBER, "mm"),
    Column("gust", "Gusts", Kind.NUMBER, "m/s"),
)
STAGES = (
    ("last_frost", "Last frost of spring"),
    ("warm_nights", "Nights stay warm from"),
    ("first_frost", "First frost of autumn"),
    ("killing", "Killing night"),
)
HEAT_SPREAD = (
    Column("day", "Date", Kind.DATE),
    Column("low", "One year in ten below", Kind.NUMBER, "°C·d"),
    Column("usual", "Half of the years below", Kind.NUMBER, "°C·d"),
    Column("high", "Nine years in ten below", Kind.NUMBER, "°C·d"),
    Column("this_year", "This season so far", Kind.NUMBER, "°C·d"),
)


def record_table(season: Season) -> Table:
    """Return the weather record day by day; it can be brought in again as a weather file."""
    return Table.of(tr("Weather record"), WEATHER, _days(record_days(season).values()))


def forecast_table(season: Season) -> Table:
    """Return the days of the newest forecast."""
    forecast = latest_forecast(season)
    return Table.of(tr("Forecast"), WEATHER, _days(forecast.days if forecast else ()))


def years_table(page: RecordPage) -> Table:
    """Return frosts and warm nights year by year; nothing where a stage did not come, or is not known."""
    columns = (
        Column("year", "Season", Kind.WHOLE),
        *(Column(key, title, Kind.DATE) for key, title in STAGES),
        Column("frost_free", "Days without frost", Kind.WHOLE),
    )
    dates = [getattr(page, key).by_year for key, _ in STAGES]
    free = frost_free(page)
    lengths = free.by_year if free is not None else {}
    rows = ((year, *(one.get(year) for one in dates), lengths.get(year)) for year in page.years)
    return Table.of(tr("Frosts and warm nights by year"), columns, rows)


def heat_table(heat: HeatCurves) -> Table:
    """Return the heat gathered day by day: the spread of the years, this season, and each year."""
    columns = (
        *HEAT_SPREAD,
        *(Column(f"year_{year}", str(year), Kind.NUMBER, "°C·d") for year in heat.years),
    )
    return Table.of(tr("Heat gathered"), columns, _heat(heat))


def _heat(heat: HeatCurves) -> Iterator[tuple[Cell, ...]]:
    this = heat.this_year if heat.this_year is not None else np.full(len(heat.days), np.nan)
    curves = np.vstack([heat.low, heat.usual, heat.high, this, heat.past.reshape(-1, len(heat.days))])
    for day, figures in zip(heat.days, curves.T.tolist(), strict=True):
        yield (day, *(rounded(one, 1) for one in figures))


def _days(days: Iterable[WeatherDay]) -> Iterator[tuple[Cell, ...]]:
    for day in sorted(days):
        yield (day.day, *map(rounded, day[1:]))
