"""Weather files written for the tests, each to its published form."""

import csv
from collections.abc import Iterable
from datetime import date
from pathlib import Path

DATA = Path(__file__).parent.parent / "data"
SOURCE_1985 = DATA / "champion_1985_source.csv"

Values = dict[date, float | None]


def champion_1985() -> dict[str, Values]:
    """Return the lowest, highest and rain of each day of 1985 as its source has them, by GHCN's names."""
    elements: dict[str, Values] = {"TMIN": {}, "TMAX": {}, "PRCP": {}}
    with SOURCE_1985.open(newline="") as stream:
        for row in csv.DictReader(stream):
            day = date(int(row["Year"]), int(row["Month"]), int(row["Day"]))
            for element, column in zip(elements, ("Tmin(C)", "Tmax(C)", "Prcp(mm)"), strict=True):
                elements[element][day] = float(row[column])
    return elements


def dly_line(station: str, year: int, month: int, element: str, days: Iterable[str]) -> str:
    """Return a line by the GHCN-Daily readme, section III; ``days`` are 8 characters each."""
    cells = list(days)
    cells += ["-9999   "] * (31 - len(cells))
    return f"{station:<11}{year:04d}{month:02d}{element:<4}{''.join(cells)}"


def dly_text(elements: dict[str, Values], station: str = "XX000000001") -> str:
    """Return a whole .dly file: for each month a line for each element, in tenths."""
    lines = []
    for year, month in sorted({(day.year, day.month) for values in elements.values() for day in values}):
        for element, values in elements.items():
            days = [day for day in values if (day.year, day.month) == (year, month)]
            cells = ["-9999   "] * 31
            for day in days:
                value = values[day]
                cells[day.day - 1] = "-9999   " if value is None else f"{round(value * 10):5d}  X"
            lines.append(dly_line(station, year, month, element, cells))
    return "\n".join(lines) + "\n"


def epw_header(records: int = 1) -> list[str]:
    """Return the eight header lines of the EPW data dictionary for an invented place."""
    return [
        "LOCATION,Invented Bay,AK,USA,TMY3,703165,55.317,-160.517,-9.0,7.0",
        "DESIGN CONDITIONS,0",
        "TYPICAL/EXTREME PERIODS,0",
        "GROUND TEMPERATURES,0",
        "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0",
        "COMMENTS 1,invented",
        "COMMENTS 2,invented",
        f"DATA PERIODS,1,{records},Data,Sunday,1/1,12/31",
    ]


def epw_row(day: date, hour: int, celsius: float, rain: float | None, minute: int = 0) -> str:
    """Return an hour by the EPW data dictionary; what is not given is written as missing."""
    cells = [day.year, day.month, day.day, hour, minute, "?9?9?9?9E0", f"{celsius:.1f}", 99.9, 999, 999999]
    cells += [9999] * 6 + [999999] * 3 + [9999]  # radiation, illuminance and luminance
    cells += [999, 999, 99, 99, 9999, 99999, 9, 999999999, 999, 0.999, 999, 99, 999]
    cells += [999 if rain is None else rain, 99]
    assert len(cells) == 35
    return ",".join(map(str, cells))


def epw_text(rows: Iterable[str], records: int = 1) -> str:
    """Return a whole .epw file."""
    return "\n".join([*epw_header(records), *rows]) + "\n"
