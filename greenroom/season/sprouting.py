"""How a tray comes up: seedlings by day against what its own temperature lets one expect."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from math import hypot, log, prod

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy.sprouting import chance_still_up, seeds_to_sow
from greenroom.ledger.facts import Sown, Sprouted
from greenroom.season.crops import Pace, crop_words, pace_of, share_at
from greenroom.season.home_tests import home_tests_of
from greenroom.season.lots import (
    LABEL_SEEDS,
    NINETEEN_IN_TWENTY,
    Share,
    due_days,
    half_day,
    lot_in,
    tally,
)
from greenroom.season.packets import packet_view, variety_name
from greenroom.season.resow_why import resow_why
from greenroom.season.spots import Spot, SpotKey
from greenroom.season.state import Season
from greenroom.season.temperatures import SayC, in_celsius
from greenroom.season.why import Why
from greenroom.speech import tr

SPREAD = 0.25
"""Standard deviation of the log of the days to emerge within one lot: a working rule of this program."""

USUAL_GERMINATION = 0.85
"""Share expected of a packet whose label says nothing: a working rule of this program."""

TOO_LATE = 0.15
"""A bare cell with less chance than this is worth sowing again: a working rule of this program."""

SETTLED_AFTER, LONGEST_CHART, UNKNOWN_DAYS, AXIS_STEP = 7, 60, 10.0, 0.25
"""Of the chart: days shown after the last seedling, days ahead at most, days if nothing is known, step."""


@dataclass(frozen=True, slots=True)
class SproutCurve:
    """Seedlings up in one tray, day by day since its first sowing.

    ``days`` and ``up`` are the steps of the curve (cumulative); ``early`` and ``late`` bound the
    share expected on each of ``axis`` (None where nothing can be expected).
    """

    start: date
    days: tuple[int, ...]
    up: tuple[int, ...]
    seeds: int
    last_day: int
    axis: NDArray[np.float64]
    early: NDArray[np.float64] | None
    late: NDArray[np.float64] | None

    @property
    def count(self) -> int:
        """Seedlings up so far."""
        return self.up[-1] if self.up else 0

    @property
    def share(self) -> float:
        """Seedlings up of the seeds sown, 0 to 1."""
        return self.count / self.seeds if self.seeds else 0.0


@dataclass(frozen=True, slots=True)
class Resow:
    """Bare cells of one packet in one tray, and whether sowing again is worth it.

    ``chance`` is the chance that any of them still comes up, ``each`` that of the likeliest cell;
    ``expected_days`` is when half of those to come are up [d]; ``seeds`` are what would fill the cells
    with 95 % confidence.
    """

    packet: str
    name: str
    cells: tuple[SpotKey, ...]
    day: int
    expected_days: float
    chance: float
    each: float
    seeds: int
    worth_it: bool
    why: Why


@dataclass(frozen=True, slots=True)
class _Sowing:
    day: date
    seeds: int
    share: float
    pace: Pace | None


@dataclass(frozen=True, slots=True)
class _Outlook:
    """What is to be expected of one lot in one tray: ``shown`` is when half of it was up here, if it was."""

    pace: Pace
    shown: float | None
    share: Share

    @property
    def median(self) -> float:
        """Day by which half of the seeds that ever come up are up [d]: as shown here, else as tabled."""
        return self.pace.days if self.shown is None else self.shown

    @property
    def spread(self) -> float:
        """Spread of one seed's days: that within a lot, and until the lot has shown, that between lots."""
        return SPREAD if self.shown is not None else tabled_spread(self.pace)


def sprout_curve(season: Season, holder: str, today: date) -> SproutCurve | None:
    """Return how a tray comes up, or None if nothing was sown in it."""
    facts = [entry.fact for _, entry in season.facts_in(holder)]
    sown = [fact for fact in facts if isinstance(fact, Sown)]
    if not sown:
        return None
    start = min(fact.day for fact in sown)
    counts: Counter[int] = Counter()
    for fact in facts:
        if isinstance(fact, Sprouted):
            counts[(fact.day - start).days] += fact.count
    days = sorted(counts)
    up = np.cumsum([counts[day] for day in days]).tolist() if days else []
    last = max([(today - start).days, 1, *days])
    sowings = _sowings(season, holder, sown)
    axis = np.arange(0, _chart_end(sowings, start, days, last) + AXIS_STEP, AXIS_STEP)
    return SproutCurve(
        start,
        tuple(days),
        tuple(up),
        sum(fact.seeds for fact in sown),
        last,
        axis,
        _expected(sowings, start, axis, lambda pace: pace.early),
        _expected(sowings, start, axis, lambda pace: pace.late),
    )


def expected_pace(season: Season, holder: str, packet: str) -> Pace | None:
    """Return how long a packet takes to come up in a tray, or None where nothing is known."""
    view = packet_view(season, packet)
    if view is None:
        return None
    crop, mix_c = view.crop, season.holder(holder).mix_c
    return season.memo(f"pace of {crop} at {mix_c}", (), lambda: pace_of(season.guide, crop, mix_c))


def expected_days(season: Season, holder: str, packet: str) -> float | None:
    """Return the days half of a packet needs to emerge in a tray [d], or None where nothing is known."""
    pace = expected_pace(season, holder, packet)
    return pace.days if pace else None


def expected_share(season: Season, holder: str, packet: str) -> float:
    """Return the share of a packet that is expected to come up in a tray, 0 to 1.

    The share on the label, less what the mix's temperature costs of the stand.
    """
    view = packet_view(season, packet)
    warm = share_at(season.guide, view.crop if view else None, season.holder(holder).mix_c)
    return germination_of(season, packet) * warm


def tabled_spread(pace: Pace) -> float:
    """Return the spread of the log of one seed's days when only its crop's pace is known.

    The spread within a lot and that between lots add up as variances; nine lots in ten lie between the
    pace's ends, each 1.645 standard deviations from its middle.
    """
    between = log(pace.late / pace.early) / (2 * NINETEEN_IN_TWENTY)
    return hypot(SPREAD, between)


def resow_advice(season: Season, holder: str, today: date, say_c: SayC = in_celsius) -> list[Resow]:
    """Return the packets with bare cells in a tray, the least likely to come first.

    ``say_c`` puts a temperature [°C] into the words of the reasons, in the reader's own unit.
    """
    waiting: dict[str, list[Spot]] = defaultdict(list)
    for spot in season.spots(holder):
        if spot.waiting > 0 and spot.up == 0 and spot.packet is not None:
            waiting[spot.packet].append(spot)
    found = [_advice(season, holder, packet, spots, today, say_c) for packet, spots in waiting.items()]
    return sorted((one for one in found if one is not None), key=lambda one: one.chance)


def germination_of(season: Season, packet: str) -> float:
    """Return the share of a packet that is expected to come up, 0 to 1."""
    view = packet_view(season, packet)
    known = view.packet.germination if view else None
    return USUAL_GERMINATION if known is None else known


def _advice(
    season: Season, holder: str, packet: str, spots: list[Spot], today: date, say_c: SayC
) -> Resow | None:
    outlook = _outlook(season, holder, packet, today)
    ages = [
        (today - spot.sown_on).days for spot in spots if spot.sown_on is not None and spot.sown_on <= today
    ]
    if outlook is None or not ages:
        return None
    share = outlook.share.expected
    each = [chance_still_up(float(age), outlook.median, outlook.spread, share) for age in ages]
    any_up = 1.0 - prod(1.0 - one for one in each)
    told = [(tr("bare cells"), str(len(spots))), (tr("days since sowing"), str(max(ages)))]
    told += _outlook_words(season, holder, packet, outlook, say_c)
    told += [(tr("chance for one cell"), chance_words(max(each)))]
    return Resow(
        packet,
        variety_name(season, packet),
        tuple(spot.key for spot in spots),
        max(ages),
        outlook.median,
        any_up,
        max(each),
        seeds_to_sow(len(spots), share) if share > 0 else 0,
        max(each) < TOO_LATE,
        resow_why(
            tr("{chance} that any of {cells} still comes up", chance=chance_words(any_up), cells=len(spots)),
            outlook.pace.rule,
            outlook.pace.sources,
            told,
            spread=outlook.spread,
            seeds=LABEL_SEEDS,
            chance=chance_words(TOO_LATE),
        ),
    )


def _outlook(season: Season, holder: str, packet: str, today: date) -> _Outlook | None:
    """Put the tabled pace, the label, and what the lot itself has shown together."""
    pace = expected_pace(season, holder, packet)
    if pace is None:
        return None
    label = expected_share(season, holder, packet)
    here = lot_in(season, holder, packet, today)
    outlook = _Outlook(pace, half_day(here, label), Share(label, 0, 0))
    share = tally(here, label, due_days(outlook.median, outlook.spread))
    for other in season.holders_sown(packet):
        if other != holder:
            share = share.with_more(_shown_in(season, other, packet, today))
    for test in home_tests_of(season, packet):
        if test.over:
            share = share.with_more(Share(label, test.germinated, test.seeds))
    return replace(outlook, share=share)


def _shown_in(season: Season, holder: str, packet: str, today: date) -> Share:
    """Return what a lot has shown in one tray, at that tray's own pace."""
    pace = expected_pace(season, holder, packet)
    if pace is None:
        return Share(0.0, 0, 0)
    due = due_days(pace.days, tabled_spread(pace))

    def count() -> Share:
        return tally(lot_in(season, holder, packet, today), 0.0, due)

    return season.holder_memo(holder, ("shown", packet, today, due), count)


def _outlook_words(
    season: Season, holder: str, packet: str, outlook: _Outlook, say_c: SayC
) -> list[tuple[str, str]]:
    view, pace, share = packet_view(season, packet), outlook.pace, outlook.share
    shown = tr("not yet") if outlook.shown is None else tr("day {day:.0f}", day=outlook.shown)
    came = (
        tr("{came} of {tried} came up", came=share.came, tried=share.tried)
        if share.tried
        else tr("none had yet", sense="seeds that had time to come up")
    )
    return [
        (tr("temperature of the mix"), say_c(season.holder(holder).mix_c or 0.0)),
        (tr("crop"), crop_words(season.guide, view.crop if view else None)),
        (
            tr("half up at that temperature"),
            tr("day {day:.1f} ({early:.0f} to {late:.0f})", day=pace.days, early=pace.early, late=pace.late),
        ),
        (tr("half of what was expected was up here"), shown),
        (tr("share expected by the label and the warmth"), chance_words(share.label)),
        (tr("of the lot's own seeds that had time"), came),
        (tr("share expected ever to come up"), chance_words(share.expected)),
    ]


def chance_words(share: float) -> str:
    """Return a share or chance in whole percent, never 0 or 100 % of what is not certain."""
    if 0.0 < share < 0.005:
        return tr("under 1 %")
    return tr("over 99 %") if 0.995 <= share < 1.0 else tr("{percent:.0f} %", percent=share * 100)


def _sowings(season: Season, holder: str, sown: list[Sown]) -> list[_Sowing]:
    groups: Counter[tuple[str, date]] = Counter()
    for fact in sown:
        groups[fact.packet, fact.day] += fact.seeds
    return [
        _Sowing(day, seeds, expected_share(season, holder, packet), expected_pace(season, holder, packet))
        for (packet, day), seeds in groups.items()
    ]


def _expected(
    sowings: list[_Sowing], start: date, axis: NDArray[np.float64], median: Callable[[Pace], float]
) -> NDArray[np.float64] | None:
    """Return the share expected up on each day of ``axis``; None if of any lot nothing is known."""
    total = np.zeros_like(axis)
    for one in sowings:
        if one.pace is None:
            return None
        age = np.maximum(axis - (one.day - start).days, 0.0)
        # Of seeds all bare on day 0, those that come up within `age` days are the ones up by then.
        total += one.seeds * chance_still_up(0.0, median(one.pace), SPREAD, one.share, age)
    return total / sum(one.seeds for one in sowings)


def _chart_end(sowings: list[_Sowing], start: date, days: list[int], last: int) -> int:
    """Return the last day of the chart: when things have settled, or today while they have not."""
    settled = max(days, default=0) + SETTLED_AFTER
    slowest = max((one.pace.days for one in sowings if one.pace), default=UNKNOWN_DAYS)
    latest = max((one.day - start).days for one in sowings)
    wanted = latest + int(2.0 * slowest)
    return max(min(last, max(settled, wanted)), min(wanted, LONGEST_CHART), SETTLED_AFTER)
