"""Real daily records for the tests: the data files that come with the package aquacrop.

Only the files are read; the package is never imported (its dependencies are heavy and not installed).
Columns: Day, Month, Year, Tmin and Tmax in °C, Prcp and Et0 in mm; no gaps.
"""

import importlib.metadata
from pathlib import Path

import pandas as pd
import pytest

from greenroom.agronomy.climate import DailyWeather

HOW_TO_INSTALL = (
    "The tests need the daily records inside the package aquacrop, which is not installed here; "
    "install it without its dependencies: python -m pip install --no-deps aquacrop==3.1.0"
)


def field_record(place):
    """The record of a place as a table: date, tmin, tmax, rain."""
    table = pd.read_csv(_path(place), sep=r"\s+")
    table.columns = ["day", "month", "year", "tmin", "tmax", "rain", "et0"]
    table["date"] = pd.to_datetime(table[["year", "month", "day"]])
    return table[["date", "tmin", "tmax", "rain"]]


def as_weather(table):
    return DailyWeather(table["date"].to_numpy(), table["tmin"], table["tmax"], rain=table["rain"])


def _path(place):
    try:
        files = importlib.metadata.files("aquacrop") or []
    except importlib.metadata.PackageNotFoundError:
        files = []
    for file in files:
        if file.name == f"{place}_climate.txt":
            return Path(str(file.locate()))
    pytest.fail(HOW_TO_INSTALL)
