"""How a tray comes up: seedlings by day against what its own temperature lets one expect."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy.sprouting import chance_still_up, days_to_emerge, seeds_to_sow
from greenroom.ledger import Entry
from greenroom.ledger.facts import Sown, Sprouted
from greenroom.season.crops import emergence_crop
from greenroom.season.packets import packet_view, variety_name
from greenroom.season.spots import Spot, SpotKey
from greenroom.season.state import Season
from greenroom.season.why import Why

SPREAD = 0.25
"""Standard deviation of the log of the days to emerge: a working rule of this program."""

EARLY, LATE = 0.7, 1.3
"""The expected days are good to about 30 %: they are of the lot tested, not of every lot."""

USUAL_GERMINATION = 0.85
"""Share expected of a packet whose label says nothing: a working rule of this program."""

TOO_LATE = 0.15
"""A bare cell with less chance than this is worth sowing again: a working rule of this program."""

HARRINGTON = (
    "Harrington, J. F. and Minges, P. A. 1954. Vegetable seed germination. University of California; "
    "days from sowing to emergence at steady soil temperatures."
)

SayC = Callable[[float], str]


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

    ``chance`` is the chance that any of them still comes up; ``seeds`` what would fill them.
    """

    packet: str
    name: str
    cells: tuple[SpotKey, ...]
    day: int
    expected_days: float
    chance: float
    seeds: int
    worth_it: bool
    why: Why


@dataclass(frozen=True, slots=True)
class _Sowing:
    day: date
    seeds: int
    viable: float
    median: float | None


def sprout_curve(season: Season, holder: str, today: date) -> SproutCurve | None:
    """Return how a tray comes up, or None if nothing was sown in it."""
    sown = [entry.fact for entry in _spot_entries(season, holder) if isinstance(entry.fact, Sown)]
    if not sown:
        return None
    start = min(fact.day for fact in sown)
    counts: Counter[int] = Counter()
    for entry in _spot_entries(season, holder):
        if isinstance(entry.fact, Sprouted):
            counts[(entry.fact.day - start).days] += entry.fact.count
    days = sorted(counts)
    up = np.cumsum([counts[day] for day in days]).tolist() if days else []
    last = max([(today - start).days, 1, *days])
    end = _chart_end(season, holder, sown, days, last)
    axis = np.arange(0, end + 0.25, 0.25)
    sowings = _sowings(season, holder, sown)
    return SproutCurve(
        start,
        tuple(days),
        tuple(up),
        sum(fact.seeds for fact in sown),
        last,
        axis,
        _expected(sowings, start, axis, EARLY),
        _expected(sowings, start, axis, LATE),
    )


def expected_days(season: Season, holder: str, packet: str) -> float | None:
    """Return the days a packet needs to emerge in a tray [d], or None where nothing is known."""
    mix_c = season.holder(holder).mix_c
    view = packet_view(season, packet)
    if mix_c is None:
        return None
    return days_to_emerge(mix_c, emergence_crop(view.crop if view else None))


def in_celsius(celsius: float) -> str:
    """Return a temperature in words, in °C."""
    return f"{celsius:.0f} °C"


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
    median = expected_days(season, holder, packet)
    if median is None:
        return None
    viable = germination_of(season, packet)
    ages = [
        (today - spot.sown_on).days for spot in spots if spot.sown_on is not None and spot.sown_on <= today
    ]
    if not ages:
        return None
    each = [chance_still_up(float(age), median, SPREAD, viable) for age in ages]
    any_up = 1.0 - float(np.prod([1.0 - one for one in each]))
    seeds = seeds_to_sow(len(spots), viable) if viable > 0 else 0
    name = variety_name(season, packet)
    mix = say_c(season.holder(holder).mix_c or 0.0)
    why = _resow_why(mix, len(spots), max(ages), median, viable, max(each), any_up)
    return Resow(
        packet,
        name,
        tuple(spot.key for spot in spots),
        max(ages),
        median,
        any_up,
        seeds,
        max(each) < TOO_LATE,
        why,
    )


def _resow_why(
    mix: str,
    cells: int,
    age: int,
    median: float,
    viable: float,
    each: float,
    any_up: float,
) -> Why:
    inputs = (
        ("bare cells", str(cells)),
        ("days since sowing", str(age)),
        ("temperature of the mix", mix),
        ("days half of the seedlings need at that", f"{median:.1f}"),
        ("share expected ever to come up", f"{viable:.0%}"),
        ("chance for one cell", f"{each:.0%}"),
    )
    rule = (
        "Days to emerge are taken as log-normal about the tabled days, with a spread of "
        f"{SPREAD}; the chance is that of a seed which has not shown by today. A cell with less than "
        f"{TOO_LATE:.0%} is worth sowing again."
    )
    return Why(f"{any_up:.0%} that any of {cells} still comes up", rule, inputs, (HARRINGTON,))


def _spot_entries(season: Season, holder: str) -> Iterator[Entry]:
    made = season.holder(holder)
    for row in range(made.rows):
        for column in range(made.columns):
            yield from season.spot_facts(SpotKey(holder, row, column))


def _sowings(season: Season, holder: str, sown: list[Sown]) -> list[_Sowing]:
    groups: Counter[tuple[str, date]] = Counter()
    for fact in sown:
        groups[fact.packet, fact.day] += fact.seeds
    return [
        _Sowing(day, seeds, germination_of(season, packet), expected_days(season, holder, packet))
        for (packet, day), seeds in groups.items()
    ]


def _expected(
    sowings: list[_Sowing], start: date, axis: NDArray[np.float64], pace: float
) -> NDArray[np.float64] | None:
    """Return the share expected up on each day of ``axis`` if all take ``pace`` times the tabled days."""
    if any(one.median is None for one in sowings):
        return None
    total = np.zeros_like(axis)
    for one in sowings:
        age = np.maximum(axis - (one.day - start).days, 0.0)
        # Of seeds all bare on day 0, those that come up within `age` days are the ones up by then.
        total += one.seeds * chance_still_up(0.0, (one.median or 1.0) * pace, SPREAD, one.viable, age)
    return total / sum(one.seeds for one in sowings)


def _chart_end(season: Season, holder: str, sown: list[Sown], days: list[int], last: int) -> int:
    """Return the last day of the chart: when things have settled, or today while they have not."""
    start = min(fact.day for fact in sown)
    settled = max(days, default=0) + 7
    medians = [expected_days(season, holder, packet) for packet in dict.fromkeys(f.packet for f in sown)]
    known = [median for median in medians if median is not None]
    latest = (max(fact.day for fact in sown) - start).days
    wanted = latest + int(max(known, default=10) * 2.0)
    return max(min(last, max(settled, wanted)), min(wanted, 60), 7)


def last_sensible_day(sown_on: date, median: float) -> date:
    """Return the day by which 19 of 20 viable seeds are up."""
    return sown_on + timedelta(days=round(median * float(np.exp(1.645 * SPREAD))))
