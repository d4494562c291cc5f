"""How a tray comes up: seedlings by day against what its own temperature lets one expect."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from math import hypot, log

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy.sprouting import chance_still_up
from greenroom.ledger.facts import Sown, Sprouted
from greenroom.season.crops import Pace, pace_of, share_at
from greenroom.season.lots import (
    NINETEEN_IN_TWENTY,
)
from greenroom.season.packets import packet_view
from greenroom.season.state import Season
from greenroom.speech import tr

SPREAD = 0.25
"""Standard deviation of the log of the days to emerge within one lot: a working rule of this program."""

USUAL_GERMINATION = 0.85
"""Share expected of a packet whose label says nothing: a working rule of this program."""

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
class _Sowing:
    day: date
    seeds: int
    share: float
    pace: Pace | None


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


def germination_of(season: Season, packet: str) -> float:
    """Return the share of a packet that is expected to come up, 0 to 1."""
    view = packet_view(season, packet)
    known = view.packet.germination if view else None
    return USUAL_GERMINATION if known is None else known


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
