"""The columns of the public NOAA daily summaries, and where they stand in one file.

The layout is that of the Global Historical Climatology Network's daily summaries (NOAA National
Centers for Environmental Information, GHCN-Daily readme and "Daily Summaries" documentation): one
line a day and station; STATION, NAME, DATE, TMIN, TMAX, PRCP, WSFG (peak gust), WSF5 and WSF2 (fastest
5 seconds and 2 minutes), each perhaps followed by a column of ..._ATTRIBUTES: measurement flag,
quality flag, source flag, time. A value with a quality flag failed a check.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import reduce
from typing import NamedTuple

from greenroom.exchange.errors import BadFileError
from greenroom.exchange.text_lines import Limits, shown
from greenroom.exchange.text_table import TextTable
from greenroom.speech import tr

# A station with a long record fills 126 columns of an archive file, so 100 would not do.
LIMITS = Limits(megabytes=120, lines=150_000, columns=150, meaning=tr("about 400 years of days"))
NEEDED = ("DATE", "TMIN", "TMAX")
GUSTS = ("WSFG", "WSF5", "WSF2")  # best first: of each day, the first that was measured
VALUES = ("TMIN", "TMAX", "PRCP", *GUSTS)
NAMED_AT_MOST = 8


def find_layout(table: TextTable) -> Layout:
    """Find the columns of a table by name; raise BadFileError if one is lacking or there twice."""
    names = [name.upper() for name in table.header]
    lacking = [name for name in NEEDED if name not in names]
    if lacking:
        raise table.refusal(
            tr(
                "there is no column {lacking} but {names}; DATE, TMIN and TMAX are needed",
                lacking=reduce(_and_no, lacking),
                names=listed(table.header),
            )
        )
    places = {name: index for index, name in enumerate(names)}
    _refuse_doubles(table, names)
    return Layout(
        day=places["DATE"],
        tmin=places["TMIN"],
        tmax=places["TMAX"],
        rain=places.get("PRCP"),
        gusts=tuple(places[name] for name in GUSTS if name in places),
        station=places.get("STATION"),
        name=places.get("NAME"),
        flags={
            places[name]: places[f"{name}_ATTRIBUTES"]
            for name in VALUES
            if name in places and f"{name}_ATTRIBUTES" in places
        },
    )


def failed_a_check(attributes: str) -> bool:
    """Return whether the second of "measurement,quality,source,time" is set."""
    parts = attributes.split(",", 2)
    return len(parts) > 1 and bool(parts[1].strip())


def listed(names: tuple[str, ...]) -> str:
    """Return names for a sentence, the first few if they are many."""
    text = ", ".join(shown(name) for name in names[:NAMED_AT_MOST])
    left_out = len(names) - NAMED_AT_MOST
    return text if left_out <= 0 else tr("{names} and {count} more", names=text, count=left_out)


def _and_no(first: str, other: str) -> str:
    return tr("{first} and no column {other}", first=first, other=other)


def _refuse_doubles(table: TextTable, names: list[str]) -> None:
    for name in ("STATION", "NAME", "DATE", *VALUES, *(f"{value}_ATTRIBUTES" for value in VALUES)):
        if names.count(name) > 1:
            raise table.refusal(
                tr(
                    "the column {column} is there {count} times; once is allowed",
                    column=name,
                    count=names.count(name),
                )
            )


class Station(NamedTuple):
    """A weather station: its identifier, and its name if the file gives one."""

    station: str
    name: str = ""


class SeveralStationsError(BadFileError):
    """The file holds several stations and none was chosen; ``stations`` are those to choose from."""

    def __init__(self, sentence: str, stations: tuple[Station, ...]) -> None:
        super().__init__(sentence)
        self.stations = stations


@dataclass(frozen=True, slots=True)
class Layout:
    """Where the columns stand; ``flags`` gives the column of attributes of a column of values."""

    day: int
    tmin: int
    tmax: int
    rain: int | None
    gusts: tuple[int, ...]
    station: int | None
    name: int | None
    flags: dict[int, int]

    def station_of(self, cells: list[str]) -> Station:
        """Return the station of a row; its identifier is empty if the file names none."""
        identifier = "" if self.station is None else cells[self.station].strip()
        return Station(identifier, "" if self.name is None else cells[self.name].strip())

    def temperatures_flagged(self, cells: list[str]) -> bool:
        """Return whether either temperature of a row failed a quality check."""
        flags = (self.flags.get(index) for index in (self.tmin, self.tmax))
        return any(flag is not None and failed_a_check(cells[flag]) for flag in flags)

    def values(self) -> tuple[int, ...]:
        """Return the columns that hold values."""
        rain = () if self.rain is None else (self.rain,)
        return (self.tmin, self.tmax, *rain, *self.gusts)
