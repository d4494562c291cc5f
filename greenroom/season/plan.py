"""The season plan: for each variety wanted when to sow, how much, when it goes out, and whether it ripens."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import Enum
from functools import lru_cache, partial

from greenroom.ledger.facts import (
    FrostDatesGiven,
    GerminationCount,
    GerminationTest,
    HolderRetired,
    PlaceSet,
    PlanRules,
    SowingPlanned,
    Variety,
    Wanted,
    WeatherRecord,
)
from greenroom.season.frost_plan import FrostPlan, frost_plan, frosts_of, set_out_day
from greenroom.season.own_sowings import KINDS as SOWING_KINDS
from greenroom.season.plan_chart import PlanChart, Sowing
from greenroom.season.plan_needs import Needs, needs_of
from greenroom.season.plan_seeds import SeedNeed, best_packet, seed_need
from greenroom.season.plan_sown import sown_on
from greenroom.season.replay import Replay, Spread, replay_of, spread_of
from greenroom.season.ripe_learning import KINDS as RIPE_KINDS
from greenroom.season.state import Season
from greenroom.season.wants import Span, chosen_days, frost_dates, rules_of, sowing_span, wanted
from greenroom.speech import many, tr

RAISING_KINDS = (*SOWING_KINDS, HolderRetired, PlanRules, Variety)
NEEDS_KINDS = (*RAISING_KINDS, *RIPE_KINDS)
SEED_KINDS = (*RAISING_KINDS, GerminationTest, GerminationCount, Wanted)
CHART_KINDS = (PlaceSet, WeatherRecord)
KINDS = (*SEED_KINDS, *RIPE_KINDS, *CHART_KINDS, FrostDatesGiven, SowingPlanned)
"""The kinds of fact a plan is made of; its parts are kept apart, so that a day chosen leaves the odds."""

CHARTS_KEPT = 4

WINDOW_DAYS = 14
"""A sowing window moved off the guide's weeks is so long: a working rule of this program."""

FEW_YEARS = 10
"""With fewer years the odds say little; 30 are the custom for climate figures (World Meteorological
Organization)."""


class Basis(Enum):
    """What a plan rests on."""

    RECORD = "weather record"
    FROSTS = "frost dates"
    NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class PlanRow:
    """The plan of one variety.

    ``window`` is when to sow it, ``latest`` the last day that keeps the odds wanted, ``on`` the day it is
    sown, chosen or proposed. ``sowing`` is what comes of that by the place's years, ``frosts`` by the
    calendar alone; each None where it cannot be told. ``seeds`` is None without a packet worth sowing.
    """

    needs: Needs
    plants: int
    on: date
    sown: bool
    chosen: bool
    window: Span | None
    latest: date | None
    sowing: Sowing | None
    frosts: FrostPlan | None
    seeds: SeedNeed | None
    short: bool

    @property
    def variety(self) -> str:
        """The variety's key."""
        return self.needs.variety

    @property
    def name(self) -> str:
        """The variety's name."""
        return self.needs.name


@dataclass(frozen=True, slots=True)
class Plan:
    """The plan of a season.

    ``missing`` says in sentences what is not known and what to do about it; ``frost`` is the spread of the
    first killing night, ``chart`` the odds against the sowing date, None without a weather record.
    """

    year: int
    rows: tuple[PlanRow, ...]
    rules: PlanRules
    basis: Basis
    chart: PlanChart | None
    frost: Spread | None
    missing: tuple[str, ...]

    def row(self, variety: str) -> PlanRow | None:
        """Return the plan of one variety, or None."""
        return next((row for row in self.rows if row.variety == variety), None)

    @property
    def years(self) -> int:
        """How many of the place's years the odds are counted over."""
        return len(self.chart.years) if self.chart else 0


@dataclass(frozen=True, slots=True)
class _Ground:
    """What every row of a plan stands on."""

    year: int
    today: date
    rules: PlanRules
    span: Span
    replay: Replay | None
    chart: PlanChart | None
    frosts: Span | None


def plan_of(season: Season, year: int, today: date) -> Plan:
    """Return the plan of a season, named by its spring, as it stands on a day."""
    return season.memo(f"plan {year} {today}", KINDS, lambda: _make(season, year, today))


def _make(season: Season, year: int, today: date) -> Plan:
    rules, wishes, chosen = rules_of(season), wanted(season, year), chosen_days(season, year)
    varieties = [found for key in wishes if (found := season.thing(Variety, key)) is not None]
    needs = [_needs(season, variety, today, rules) for variety in varieties]
    ground = _ground(season, year, today, rules, needs)
    rows = tuple(_row(season, one, wishes[one.variety], chosen.get(one.variety), ground) for one in needs)
    frost = None
    if ground.replay is not None:
        nights = ground.replay.killing_nights(rules.killing_c)
        frost = spread_of(nights, year, southern=ground.replay.southern)
    basis = Basis.RECORD if ground.chart else Basis.FROSTS if ground.frosts else Basis.NOTHING
    return Plan(year, rows, rules, basis, ground.chart, frost, tuple(_missing(ground, rows, basis)))


def _needs(season: Season, variety: Variety, today: date, rules: PlanRules) -> Needs:
    name = f"needs of {variety.variety} {today}"
    return season.memo(name, NEEDS_KINDS, lambda: needs_of(season, variety, today, rules))


def _seeds(season: Season, needs: Needs, plants: int, ground: _Ground) -> SeedNeed | None:
    def make() -> SeedNeed | None:
        expected = best_packet(season, needs.variety, ground.today)
        if expected is None:
            return None
        return seed_need(season, expected, plants, ground.rules.confidence, needs.mix_c, ground.today)

    return season.memo(f"seeds of {needs.variety} {ground.year} {ground.today}", SEED_KINDS, make)


def _ground(season: Season, year: int, today: date, rules: PlanRules, needs: list[Needs]) -> _Ground:
    replay, given = replay_of(season), frost_dates(season)
    chart = None if replay is None else _chart(season, replay, needs, year)
    frosts = frosts_of(given, year) if given is not None and chart is None else None
    return _Ground(year, today, rules, sowing_span(season, year), replay, chart, frosts)


def _chart(season: Season, replay: Replay, needs: list[Needs], year: int) -> PlanChart | None:
    """Return the chart of these needs, kept while the place's years and the needs stay as they are."""

    def maker() -> Callable[[tuple[Needs, ...], int], PlanChart]:
        return lru_cache(maxsize=CHARTS_KEPT)(partial(PlanChart, replay))

    made = season.memo("charts", CHART_KINDS, maker)(tuple(needs), year)
    return made if made.years else None


def _row(season: Season, needs: Needs, plants: int, chosen: date | None, ground: _Ground) -> PlanRow:
    sown = sown_on(season, needs.variety, ground.year)
    charted = ground.chart is not None and needs.variety in ground.chart
    latest = _latest(needs, ground)
    window = _window(needs, latest, ground)
    on = sown or chosen or _proposed(window, ground)
    sowing = ground.chart.sown(needs.variety, on) if ground.chart is not None and charted else None
    frosts = frost_plan(needs, on, ground.frosts) if ground.frosts else None
    short = sowing is not None and sowing.odds.share < ground.rules.odds
    return PlanRow(
        needs=needs,
        plants=plants,
        on=on,
        sown=sown is not None,
        chosen=chosen is not None,
        window=window,
        latest=latest,
        sowing=sowing,
        frosts=frosts,
        seeds=_seeds(season, needs, plants, ground),
        short=short or (frosts is not None and frosts.spare_days < 0),
    )


def _latest(needs: Needs, ground: _Ground) -> date | None:
    """Return the latest sowing day that keeps the odds wanted."""
    if ground.chart is not None and needs.variety in ground.chart:
        return ground.chart.latest(needs.variety, ground.rules.odds)
    if ground.frosts is None:
        return None
    found = frost_plan(needs, ground.span.first, ground.frosts)
    return found.latest if found else None


def _window(needs: Needs, latest: date | None, ground: _Ground) -> Span | None:
    """Return when to sow: the guide's weeks before the usual set-out, no later than keeps the odds.

    Where nothing keeps them, no later than the day from which on they only get worse.
    """
    warm = _set_out(needs, ground)
    if warm is None:
        return None
    first, last = (warm - timedelta(days=days) for days in (needs.longest_days, needs.shortest_days))
    bound = latest
    if bound is None and ground.chart is not None and needs.variety in ground.chart:
        bound = ground.chart.best(needs.variety)[0]
    if bound is not None and bound < last:
        last = bound
        first = min(first, last - timedelta(days=WINDOW_DAYS))
    return _within(first, last, ground.span)


def _within(first: date, last: date, span: Span) -> Span:
    first = min(max(first, span.first), span.last)
    return Span(first, min(max(last, first), span.last))


def _set_out(needs: Needs, ground: _Ground) -> date | None:
    """Return the usual first day on which nights are warm enough for a variety."""
    if ground.replay is not None and ground.chart is not None:
        days = ground.replay.warm_days(needs.floor_c, needs.run_nights)
        found = spread_of(days, ground.year, southern=ground.replay.southern)
        return found.usual if found else None
    return set_out_day(needs, ground.frosts) if ground.frosts else None


def _proposed(window: Span | None, ground: _Ground) -> date:
    """Return the day to sow: the middle of the window, today if that is past, the season's first at worst."""
    if window is None:
        return max(ground.today, ground.span.first) if ground.today in ground.span else ground.span.first
    day = window.first + (window.last - window.first) / 2
    return max(day, ground.today) if ground.today in ground.span else day


def _missing(ground: _Ground, rows: tuple[PlanRow, ...], basis: Basis) -> list[str]:
    """Return what is not known, in sentences, and what to do about it."""
    told = []
    if ground.replay is not None and ground.chart is None and rows:
        told.append(
            tr("The weather record holds no season whole from setting out to autumn; bring more years in.")
        )
    if basis is Basis.NOTHING and ground.replay is None:
        told.append(
            tr(
                "There is no weather record and there are no frost dates, so no dates can be told: "
                "bring a record in, or give your usual last and first frost."
            )
        )
    elif basis is Basis.FROSTS:
        told.append(
            tr(
                "The dates rest on your two usual frosts alone: they tell nothing of how warm it is "
                "between them or how far the years differ, so there are no odds; a weather record "
                "would tell."
            )
        )
    elif ground.chart is not None and len(ground.chart.years) < FEW_YEARS:
        told.append(
            tr(
                "The odds rest on {years} only; 30 are the custom, so bring more of them in.",
                years=many(len(ground.chart.years), "year"),
            )
        )
    unknown = [row.name for row in rows if row.needs.days_to_ripe is None]
    if unknown:
        told.append(
            tr(
                "Days to ripe are not known of {varieties}; give them in the seed box to see the odds.",
                varieties=", ".join(unknown),
            )
        )
    return told
