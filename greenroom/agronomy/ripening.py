"""The odds that a variety ripens before the killing night, counted over a place's own years."""

import datetime as dt
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from greenroom.agronomy._checks import Floats, calendar_day, day_array, refuse, single, whole
from greenroom.agronomy._season_heat import NEVER, SeasonTables
from greenroom.agronomy._seasons import Dates, Whole, days_in_years, season_years
from greenroom.agronomy.climate import DailyWeather, YearDates

HEAT_ROUNDING_C_D = 1e-6
"""Sums that differ by less are the same heat: far below what a thermometer can tell."""


def season_odds(
    weather: DailyWeather,
    heat_to_ripe: float,
    ready: dt.date,
    floor: float = 10.0,
    run: int = 7,
    killing: float = 0.0,
    base: float = 10.0,
    cap: float | None = 30.0,
    *,
    southern: bool = False,
) -> "SeasonOdds":
    """Share of a place's years in which plants ready on a day would have ripened.

    Parameters
    ----------
    weather : DailyWeather
        Some years, the more the better: 30 are the custom for climate figures.
    heat_to_ripe : float
        Degree days from set-out to the first ripe fruit, above 0 [°C·d].
    ready : date
        First day the seedlings can go out. Its month and day are used in each year; 29 February falls back
        to the 28th.
    floor : float
        Nights at set-out must stay at or above this [°C] …
    run : int
        … for so many nights running, the set-out day's first.
    killing : float
        The season ends with the first night at or below this [°C] in its second half.
    base, cap : float, float or None
        Limits of the heat that counts [°C]; see `climate.degree_days`, method "clamp".
    southern : bool
        Seasons run from 1 July to 30 June and are named by the spring. A season that crosses New Year is
        one season; `ready` in January belongs to the one that began the July before.

    Returns
    -------
    SeasonOdds
        The odds, the years counted and, for each of them, set-out, ripe day and end. The interval is left to
        the caller: n is `SeasonOdds.n`.

    Raises
    ------
    ValueError
        Naming the argument out of range.

    Notes
    -----
    In each year plants go out on the first day, not before `ready`, from which `run` nights stay at or
    above `floor`; heat is gathered from that day on; they are ripe on the day it reaches the need, if
    that comes before the killing night. A frost between set-out and midsummer is not looked for: the floor
    and its run are there to keep it from plants, and growers cover against it. Without a killing night the
    season closes with its last day.

    A year is left out if more than 10 % of its days are missing from `ready` to the end of the season, or of
    its nights in the second half. A missing night breaks a run and kills nothing; a missing day's heat is
    taken from the days around it.

    References
    ----------
    McMaster, G. S., Wilhelm, W. W. 1997. Growing degree-days: one equation, two interpretations.
    Agricultural and Forest Meteorology 87: 291-300. doi:10.1016/S0168-1923(97)00027-0
    Soto-Ortiz, R., Silvertooth, J. C., Galadima, A. University of Arizona: crop phenology of irrigated
    chiles (stages told in heat units, not days).
    """
    need = Ripener(heat_to_ripe, 0, floor, run, killing, base, cap)
    first = calendar_day("ready", ready)
    tables = SeasonTables(weather, southern=southern)
    columns = days_in_years(first.month, first.day, tables.grid.years, southern=southern)
    return _season_by_season(tables, need, columns)


def odds_by_sowing(
    weather: DailyWeather,
    varieties: Sequence["Ripener"],
    sowing_days: ArrayLike | Sequence[dt.date],
    *,
    southern: bool = False,
    season: int | None = None,
) -> Floats:
    """Odds of ripening for each variety and sowing day.

    Parameters
    ----------
    weather : DailyWeather
    varieties : sequence of Ripener, length v
    sowing_days : sequence of date or datetime64, shape (s,)
        In any order.
    southern : bool
        As in `season_odds`.
    season : int or None
        Season the plants are for, named as in `season_odds`. None: the one in which the middle one of all
        ready days falls. Seedlings ready before that season begins wait for its first day; those ready
        after its end are too late, so that within one call a later sowing never has better odds.

    Returns
    -------
    array, shape (v, s)
        Odds, 0 to 1; NaN throughout if no year can be counted. How many were is told by
        `years_by_sowing`; each cell equals `season_odds` for its ready day if the record has no gaps.

    Raises
    ------
    ValueError
        If `sowing_days` is no row of dates.

    Notes
    -----
    So that the odds of one call can be compared, all cells count the same years: those with enough
    days known from the earliest ready day of the call on. Other rules and references as in `season_odds`.
    """
    table = _SowingTable.of(weather, varieties, sowing_days, southern=southern, season=season)
    odds = np.full(table.which.shape, np.nan)
    if not table.counted.any():
        return odds
    set_outs = {key: table.seasons.earliest_set_out(*key) for key in {(v.floor, v.run) for v in varieties}}
    heats = {key: table.seasons.heat_before(*key) for key in {(v.base, v.cap) for v in varieties}}
    ends = {killing: table.seasons.ends(killing) for killing in {v.killing for v in varieties}}
    for row, variety in enumerate(varieties):
        gathered = _heat_to_the_end(
            set_outs[variety.floor, variety.run],
            heats[variety.base, variety.cap],
            ends[variety.killing],
            table.ready_columns[:, table.which[row]],
        )
        odds[row] = _enough(gathered, variety)[table.counted].mean(axis=0)
    return odds


def years_by_sowing(
    weather: DailyWeather,
    varieties: Sequence["Ripener"],
    sowing_days: ArrayLike | Sequence[dt.date],
    *,
    southern: bool = False,
    season: int | None = None,
) -> tuple[int, ...]:
    """Years that `odds_by_sowing` counts for the same arguments: the n behind every one of its odds."""
    table = _SowingTable.of(weather, varieties, sowing_days, southern=southern, season=season)
    return tuple(table.seasons.grid.years[table.counted].tolist())


def _heat_to_the_end(set_outs: Whole, heat: Floats, ends: Whole, ready: Whole) -> Floats:
    """Heat from set-out to the day before the end [°C·d], shape as `ready`: (seasons, cells)."""
    rows = np.arange(ends.size)
    set_out = set_outs[rows[:, np.newaxis], ready]
    gathered: Floats = heat[rows, ends][:, np.newaxis] - heat[rows[:, np.newaxis], set_out]
    return gathered


def _enough(gathered: Floats, variety: "Ripener") -> NDArray[np.bool_]:
    return gathered >= variety.heat_to_ripe - HEAT_ROUNDING_C_D


def _season_by_season(tables: SeasonTables, need: "Ripener", ready: Whole) -> "SeasonOdds":
    set_outs = tables.earliest_set_out(need.floor, need.run)
    heat = tables.heat_before(need.base, need.cap)
    ends = tables.ends(need.killing)
    gathered = _heat_to_the_end(set_outs, heat, ends, ready[:, np.newaxis])[:, 0]
    ripened = _enough(gathered, need)
    counted = np.flatnonzero(tables.counted(ready)).tolist()
    found = SeasonOdds(float(ripened[counted].mean()) if counted else None, {}, {}, {}, {})
    for row in counted:
        year = int(tables.grid.years[row])
        set_out, end = int(set_outs[row, ready[row]]), int(ends[row])
        found.set_out[year] = tables.grid.date(row, set_out) if set_out < NEVER else None
        found.end[year] = tables.grid.date(row, end) if end < NEVER else None
        found.ripe[year] = None
        if ripened[row]:
            target = heat[row, set_out] + need.heat_to_ripe - HEAT_ROUNDING_C_D
            found.ripe[year] = tables.grid.date(row, int(np.searchsorted(heat[row, 1:], target)))
        found.heat[year] = max(0.0, float(gathered[row])) if set_out < NEVER else None
    return found


@dataclass(frozen=True)
class Ripener:
    """What ripening needs to know of a variety.

    Parameters
    ----------
    heat_to_ripe : float
        Degree days from set-out to the first ripe fruit, above 0 [°C·d].
    days_to_ready : int
        Days from sowing to the first day out: to come up, to grow on indoors and to harden off.
    floor : float
        Nights at set-out must stay at or above this [°C].
    run : int
        For so many nights running, 1 or more.
    killing : float
        Night that ends the season [°C].
    base, cap : float, float or None
        Limits of the heat that counts [°C]; cap above base, or None for no upper limit.

    Raises
    ------
    ValueError
        Naming the argument out of range.
    """

    heat_to_ripe: float
    days_to_ready: int
    floor: float = 10.0
    run: int = 7
    killing: float = 0.0
    base: float = 10.0
    cap: float | None = 30.0

    def __post_init__(self) -> None:
        single("heat_to_ripe", self.heat_to_ripe, above=0)
        whole("days_to_ready", single("days_to_ready", self.days_to_ready, low=0))
        whole("run", single("run", self.run, low=1))
        for name in ("floor", "killing", "base"):
            single(name, getattr(self, name))
        if self.cap is not None and single("cap", self.cap) <= self.base:
            refuse("cap", f"{self.cap:g}", f"it must be above base, here {self.base:g}, or None")
        object.__setattr__(self, "run", int(self.run))


@dataclass(frozen=True)
class SeasonOdds:
    """The odds and, for each year counted, how its season went.

    Attributes
    ----------
    odds : float or None
        Share of the counted years in which fruit ripened; None if no year could be counted.
    set_out : dict of year to date or None
        None if the nights never stayed warm long enough after `ready`.
    ripe : dict of year to date or None
        Day the heat needed was reached; None if the killing night or the season's end came first.
    end : dict of year to date or None
        First killing night; None if there was none to the season's end.
    heat : dict of year to float or None
        Heat from set-out to the end [°C·d], so that a year can tell by how much it missed or had to spare.
    """

    odds: float | None
    set_out: YearDates
    ripe: YearDates
    end: YearDates
    heat: dict[int, float | None]

    @property
    def n(self) -> int:
        """Years counted."""
        return len(self.set_out)

    @property
    def years(self) -> tuple[int, ...]:
        """The years counted, in order."""
        return tuple(self.set_out)


@dataclass(frozen=True, eq=False)
class _SowingTable:
    """A call of `odds_by_sowing` made ready.

    ready_columns: shape (seasons, different ready days); which: shape (varieties, sowings), the ready day
    of each cell; counted: shape (seasons,).
    """

    seasons: SeasonTables
    ready_columns: Whole
    which: NDArray[np.intp]
    counted: NDArray[np.bool_]

    @classmethod
    def of(
        cls,
        weather: DailyWeather,
        varieties: Sequence[Ripener],
        sowing_days: ArrayLike | Sequence[dt.date],
        *,
        southern: bool,
        season: int | None,
    ) -> "_SowingTable":
        sown = day_array("sowing_days", sowing_days)
        wait = np.array([int(variety.days_to_ready) for variety in varieties], dtype="timedelta64[D]")
        ready = sown[np.newaxis, :] + wait[:, np.newaxis]
        different, which = np.unique(ready, return_inverse=True)
        seasons = SeasonTables(weather, southern=southern)
        if season is None and ready.size:
            middle = np.sort(ready, axis=None)[ready.size // 2 : ready.size // 2 + 1]
            season = int(season_years(middle, southern=southern)[0])
        columns = _ready_columns(seasons, different, season)
        earliest = columns.min(axis=1, initial=NEVER)
        return cls(seasons, columns, which.reshape(ready.shape), seasons.counted(earliest))


def _ready_columns(seasons: SeasonTables, ready: Dates, season: int | None) -> Whole:
    """Column of each ready day in every season of the record, shape (seasons, ready days)."""
    columns = np.zeros((seasons.grid.years.size, ready.size), dtype=np.int64)
    for place, (day, belongs) in enumerate(
        zip(ready.tolist(), season_years(ready, southern=seasons.southern).tolist(), strict=True)
    ):
        if season is not None and belongs > season:
            columns[:, place] = NEVER
        elif belongs == season:
            years = seasons.grid.years
            columns[:, place] = days_in_years(day.month, day.day, years, southern=seasons.southern)
    return columns
