"""What the tests of the plan stand on: a season with a place, its years, a tray and varieties wanted."""

from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache

import pandas as pd

from greenroom.ledger.facts import (
    FrostDatesGiven,
    HolderMade,
    HolderPlaced,
    Packet,
    PlaceSet,
    PlanRules,
    Variety,
    Wanted,
    WeatherDay,
    WeatherRecord,
)
from greenroom.season.proposal import Proposal
from tests.agronomy._field_record import field_record
from tests.season.told import Told

TODAY = date(2027, 1, 5)
YEAR = 2027
NORTH = (40.4, -101.7, "America/Denver")
SOUTH = (-40.4, 175.6, "Pacific/Auckland")
SIX_MONTHS = 184


@dataclass(frozen=True)
class Kind:
    """One variety wanted; ``ripe`` is days from setting out, on the packet."""

    name: str
    crop: str | None
    ripe: int | None = None
    plants: int = 6
    germination: float | None = 0.85
    packed: int | None = 2027
    seeds: int | None = None


BELL = Kind("Brass Bell", "bell", 88)
LANTERN = Kind("Cinder Lantern", "habanero", 100)
EMBER = Kind("Old Ember", "superhot", 130)
ROCOTO = Kind("Pale Kestrel", "rocoto", 125)


@cache
def champion():
    """The daily record of one place on the plains, 1982 to 2018, as a table."""
    return field_record("champion")


@cache
def champion_days():
    """The same as the ledger keeps it."""
    return tuple(
        WeatherDay(row.date.date(), row.tmin, row.tmax, row.rain, None) for row in champion().itertuples()
    )


def turned(days):
    """The same weather half a year later, as if it were a place in the south."""
    return tuple(day._replace(day=day.day + timedelta(days=SIX_MONTHS)) for day in days)


def ground(*kinds, days=None, place=NORTH, mix_c=21.0, frosts=None, rules=None, year=YEAR, today=TODAY):
    """Return a told season: a place, its years if any, one empty tray, and the kinds wanted."""
    told = Told()
    facts = []
    if place is not None:
        facts.append(PlaceSet(day=today, name="Here", latitude=place[0], longitude=place[1], zone=place[2]))
    if days:
        facts.append(WeatherRecord(day=today, source="a record", days=days))
    if frosts:
        facts.append(FrostDatesGiven(day=today, last=frosts[0], first=frosts[1]))
    if rules:
        facts.append(PlanRules(day=today, **rules))
    facts.append(HolderMade(day=today, holder="Tray A", name="Tray A", form="tray", rows=6, columns=12))
    facts.append(HolderPlaced(day=today, holder="Tray A", place="mat", mix_c=mix_c))
    for kind in kinds:
        facts += [
            Variety(day=today, variety=kind.name, name=kind.name, crop=kind.crop, days_to_ripe=kind.ripe),
            Packet(
                day=today,
                packet=f"p-{kind.name}",
                variety=kind.name,
                packed=kind.packed,
                seeds=kind.seeds,
                germination=kind.germination,
            ),
            Wanted(day=today, variety=kind.name, year=year, plants=kind.plants),
        ]
    told.do(Proposal("the ground", tuple(facts)))
    return told


def played(table, need, ready, floor=10.0, run=7, killing=0.0, base=10.0, cap=30.0):
    """A second way to the same: for each year of a table, set-out, ripe and end, by pandas alone.

    ``ready`` is a month and day. The rule is this program's own (sources beside the reasons): out on the
    first day from which ``run`` nights stay at or above the floor, heat from then on, ripe before the first
    killing night from July on.
    """
    rows = []
    for year, days in table.groupby(table["date"].dt.year):
        days = days.set_index("date")
        low, high = days["tmin"].clip(base, cap), days["tmax"].clip(base, cap)
        heat = (low + high) / 2 - base
        coldest_ahead = days["tmin"][::-1].rolling(run).min()[::-1]
        warm = coldest_ahead[(coldest_ahead >= floor) & (coldest_ahead.index >= pd.Timestamp(year, *ready))]
        cold = days["tmin"][(days["tmin"] <= killing) & (days.index.month >= 7)]
        end = cold.index[0] if len(cold) else None
        out = warm.index[0] if len(warm) else None
        ripe = None
        if out is not None:
            gathered = heat[heat.index >= out].cumsum()
            enough = gathered[gathered >= need - 1e-6]
            if len(enough) and (end is None or enough.index[0] < end):
                ripe = enough.index[0]
        rows.append({"year": year, "out": out, "ripe": ripe, "end": end})
    return pd.DataFrame(rows).set_index("year")


def day_of_year(column, share):
    """The day of the year by which a share of the years had come so far: pandas' own quantile."""
    return round(pd.to_datetime(column.dropna()).dt.dayofyear.quantile(share))
