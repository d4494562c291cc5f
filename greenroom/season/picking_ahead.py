"""What is ripe by when: for plants that are set out by heat gathered so far, for the others by the plan."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import partial

import numpy as np

from greenroom.ledger.facts import (
    Flowered,
    Forecast,
    HolderPlaced,
    Lost,
    Picked,
    PlanRules,
    Variety,
    WeatherDay,
)
from greenroom.season.crops import crop_of
from greenroom.season.deeds_plot import BED
from greenroom.season.packets import packet_view
from greenroom.season.picking import KINDS as PICKING_KINDS
from greenroom.season.picking import picks_of, season_now
from greenroom.season.picking_heat import (
    MISSING_AT_MOST,
    NEVER,
    Floats,
    YearsAhead,
    daily_heat,
    needs_about,
    reached,
    share_day,
    years_ahead,
)
from greenroom.season.picking_year import season_of
from greenroom.season.place import daily_weather, place_of, weather_days
from greenroom.season.plan import KINDS as PLAN_KINDS
from greenroom.season.plan import PlanRow, plan_of
from greenroom.season.plan_needs import killing_of
from greenroom.season.replay import Odds, Replay, odds_of, replay_of, season_start
from greenroom.season.ripe_learning import Ripening, ripening_of, set_out_on
from greenroom.season.ripening_heat import Heat
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.season.wants import rules_of

KINDS = (*PICKING_KINDS, *PLAN_KINDS, Flowered, Forecast, HolderPlaced, Lost, PlanRules)
"""The kinds of fact that predictions are told from."""

PICK_EVERY_DAYS = 5
"""How often plants are looked over for ripe fruit: common practice, no source."""
EARLY, USUAL, LATE = 0.1, 0.5, 0.9
STILL_SET_OUT = timedelta(days=42)
"""So long after the plan would have had it out a variety may still be set out: common practice, no source."""

FORECAST_AT_MOST = timedelta(days=16)


@dataclass(frozen=True, slots=True)
class Lot:
    """The living plants of one variety in one bed that were set out on one day."""

    variety: str
    name: str
    holder: str
    bed: str
    out: date
    spots: tuple[SpotKey, ...]


@dataclass(frozen=True, slots=True)
class RipeDays:
    """By when one case in ten, half, and nine in ten are ripe; None where frost comes first in so many.

    ``odds`` are of ripening before the first killing night with the heat need taken as known, over the
    record's years. ``gathered`` is the heat from setting out to today [°C·d], ``known_to`` the last day of
    which the weather is known; both None where the years alone tell.
    """

    early: date | None
    usual: date | None
    late: date | None
    odds: Odds | None
    gathered: float | None = None
    known_to: date | None = None
    killed_on: date | None = None


@dataclass(frozen=True, slots=True)
class RipeAhead:
    """When a lot is ripe, what was picked of it, and when it is next to be looked over for ripe fruit.

    ``lot`` is None for a variety that is wanted but not set out: ``days`` are then the plan's. ``ripening``
    is the heat it needs, None where nobody states its days to ripe; ``days`` None where nothing is known.
    """

    variety: str
    name: str
    lot: Lot | None
    days: RipeDays | None
    ripening: Ripening | None
    picks: tuple[Picked, ...]
    flowered: date | None
    due: date | None
    row: PlanRow | None = None

    @property
    def first_ripe(self) -> date | None:
        """The day of the first ripe pick."""
        return next((fact.day for fact in self.picks if fact.ripeness == "ripe"), None)

    @property
    def order(self) -> tuple[bool, date, str]:
        """What orders predictions: the soonest ripe first, those not known last."""
        known = self.first_ripe or (self.days.usual if self.days else None)
        return known is None, known or date.max, self.name.casefold()


def ripe_ahead(season: Season, today: date) -> tuple[RipeAhead, ...]:
    """Return what is ripe by when, the soonest first: each lot in the beds, then what is not set out yet."""
    return season.memo(f"ripe ahead {today}", KINDS, lambda: _make(season, today))


def ripe_lots(season: Season, today: date) -> tuple[RipeAhead, ...]:
    """Return what of the lots in the beds is ripe by when; what is only planned is left out."""
    return season.memo(f"ripe lots {today}", KINDS, lambda: tuple(_of_lots(season, today)))


def due_on(last: date | None, usual: date | None) -> date | None:
    """Return when plants are next looked over for ripe fruit: some days after the last pick, or when ripe."""
    return last + timedelta(days=PICK_EVERY_DAYS) if last is not None else usual


def lots_of(season: Season, today: date) -> list[Lot]:
    """Return the living plants in beds, by bed, variety and day of setting out."""
    found: dict[tuple[str, str, date], list[SpotKey]] = defaultdict(list)
    names: dict[str, str] = {}
    for bed in season.holders(BED):
        for spot in season.spots(bed.key):
            view = packet_view(season, spot.packet) if spot.up > 0 and spot.packet else None
            if view is not None:
                variety = view.packet.variety
                out = set_out_on(season, spot.key, today) or spot.sown_on or today
                names[variety] = view.name
                found[bed.key, variety, out].append(spot.key)
    return [
        Lot(variety, names[variety], bed, season.holder(bed).name, out, tuple(spots))
        for (bed, variety, out), spots in found.items()
        if out <= today
    ]


def _make(season: Season, today: date) -> tuple[RipeAhead, ...]:
    year = season_now(season, today)
    found = list(ripe_lots(season, today))
    out = {one.variety for one in found} | {fact.variety for fact in picks_of(season, year, today)}
    rows = [row for row in plan_of(season, year, today).rows if row.variety not in out]
    found += [_of_plan(season, row, today) for row in rows if _still_planned(row, today)]
    return tuple(sorted(found, key=lambda one: one.order))


def _of_lots(season: Season, today: date) -> Iterator[RipeAhead]:
    picks, teller = picks_of(season, season_now(season, today), today), Forecaster(season, today)
    yield from (_of_lot(season, lot, picks, teller, today) for lot in lots_of(season, today))


def _of_lot(season: Season, lot: Lot, picks: Sequence[Picked], teller: Forecaster, today: date) -> RipeAhead:
    ripening = ripening_of(season, lot.variety, today)
    days = teller.days(lot.variety, lot.out, ripening) if ripening else None
    own = tuple(fact for fact in picks if _is_of(fact, lot))
    flowers = [
        fact.day
        for fact in season.facts(Flowered)
        if SpotKey(fact.holder, fact.row, fact.column) in lot.spots and lot.out <= fact.day <= today
    ]
    last = max((fact.day for fact in own), default=None)
    due = due_on(last, days.usual if days else None)
    return RipeAhead(lot.variety, lot.name, lot, days, ripening, own, min(flowers, default=None), due)


def _of_plan(season: Season, row: PlanRow, today: date) -> RipeAhead:
    ripening, replay, days = ripening_of(season, row.variety, today), replay_of(season), None
    if row.sowing is not None and replay is not None:
        days = _by_plan(row, row.sowing.odds, replay, season_now(season, today))
    elif row.frosts is not None:
        days = RipeDays(None, row.frosts.ripe, None, None)
    return RipeAhead(row.variety, row.name, None, days, ripening, (), None, None, row)


def _still_planned(row: PlanRow, today: date) -> bool:
    """Whether a variety that is not set out may still be: not long after the plan would have had it out."""
    out = row.sowing.set_out_on if row.sowing else row.frosts.set_out if row.frosts else None
    return out is None or today <= out + STILL_SET_OUT


def _by_plan(row: PlanRow, odds: Odds, replay: Replay, year: int) -> RipeDays:
    """Return the days by which one year in ten, half, and nine in ten of all years had ripened it."""
    played = replay.seasons(row.needs.ripener, row.on, year) if row.needs.ripener is not None else None
    if played is None:
        return RipeDays(None, None, None, odds)
    start = partial(season_start, southern=replay.southern)
    ripe = [NEVER if day is None else (day - start(one)).days for one, day in played.ripe.items()]
    found = (share_day(np.array(ripe, dtype=np.int64), share) for share in (EARLY, USUAL, LATE))
    early, usual, late = (_day(start(year), count) for count in found)
    return RipeDays(early, usual, late, odds)


def _is_of(fact: Picked, lot: Lot) -> bool:
    """Whether a pick may be of a lot: told of one of its plants, of its bed, or of no place at all."""
    if fact.variety != lot.variety or fact.day < lot.out or fact.holder not in (None, lot.holder):
        return False
    if fact.holder is None or fact.row is None or fact.column is None:
        return True
    return SpotKey(fact.holder, fact.row, fact.column) in lot.spots


class Forecaster:
    """Tells ripe days of one season on one day; the years' heat is worked out once for each way to count."""

    def __init__(self, season: Season, today: date) -> None:
        self._season = season
        self._today = today
        self._southern = place_of(season).southern
        self._year = season_of(today, southern=self._southern)
        self._half = date(self._year + 1, 1, 1) if self._southern else date(self._year, 7, 1)
        self._last = season_start(self._year + 1, southern=self._southern) - timedelta(days=1)
        self._weather = daily_weather(season)
        self._days = weather_days(season)
        self._ahead: dict[tuple[Heat, date, float], YearsAhead] = {}

    def days(self, variety: str, out: date, ripening: Ripening) -> RipeDays | None:
        """Return when plants set out on a day are ripe, without a record by the days stated alone.

        Notes
        -----
        Heat is gathered from setting out on: of the days that record and forecast tell by what they tell,
        of those after them as each year of the record had them. The need is spread as own picks and label
        leave it; each of nine equally likely needs in each year is a case. A case ends with the first
        killing night of the season's second half.
        """
        overwintered = season_of(out, southern=self._southern) != self._year
        if overwintered:
            return None
        if self._weather is None:
            stated = ripening.learned.figure / ripening.heat.a_day
            return RipeDays(None, out + timedelta(days=round(stated)), None, None)
        fact = self._season.thing(Variety, variety)
        crop = crop_of(self._season.guide, fact.crop) if fact else None
        killing = killing_of(crop, rules_of(self._season))
        so_far, killed = self._so_far(out, ripening.heat, killing)
        if killed is not None and killed <= self._today:
            return RipeDays(None, None, None, None, killed_on=killed)
        first = out + timedelta(days=so_far.size)
        ahead = self._years(ripening.heat, first, killing)
        if not ahead.years:
            return None
        need = ripening.learned
        end = NEVER if killed is None else (killed - out).days  # that night is forecast
        days = reached(so_far, ahead, needs_about(need.figure, need.low, need.high), end)
        middle = reached(so_far, ahead, np.array([need.figure]), end)
        ripe = int((middle < NEVER).sum())
        early, usual, late = (_day(out, share_day(days, share)) for share in (EARLY, USUAL, LATE))
        known = first - timedelta(days=1) if so_far.size else None
        till_now = (min(self._today, known) - out).days + 1 if known else 0
        gathered = float(so_far[:till_now].sum()) if so_far.size else None
        return RipeDays(early, usual, late, odds_of(ripe, len(ahead.years)), gathered, known)

    def _years(self, heat: Heat, first: date, killing: float) -> YearsAhead:
        key = heat, first, killing
        if key not in self._ahead and self._weather is not None:
            self._ahead[key] = years_ahead(self._weather, heat, first, self._last, self._half, killing)
        return self._ahead[key]

    def _so_far(self, out: date, heat: Heat, killing: float) -> tuple[Floats, date | None]:
        """Return the heat of the days told from setting out on, and the killing night among them, if any."""
        days = _told(self._days, out, min(self._today + FORECAST_AT_MOST, self._last))
        if not days:
            return np.zeros(0), None
        low = np.array([day.tmin_c if day else None for day in days], dtype=float)
        high = np.array([day.tmax_c if day else None for day in days], dtype=float)
        if np.isnan(low + high).mean() > MISSING_AT_MOST:
            return np.zeros(0), None
        cold = [day.day for day in days if day and day.tmin_c is not None and day.tmin_c <= killing]
        killed = next((day for day in cold if day >= self._half), None)
        return daily_heat(low, high, heat), killed


def _told(days: Mapping[date, WeatherDay], out: date, last: date) -> list[WeatherDay | None]:
    """Return the days from setting out to the last one told, None for those left out between."""
    run = [days.get(out + timedelta(days=count)) for count in range((last - out).days + 1)]
    told = [place for place, day in enumerate(run) if day and None not in (day.tmin_c, day.tmax_c)]
    return run[: told[-1] + 1] if told else []


def _day(out: date, count: int | None) -> date | None:
    return None if count is None else out + timedelta(days=count)
