"""What own results make of the guide's figures: each is moved from the guide's as far as they bear it out.

Days to come up are told as a factor on the guide's days, so that trays of different warmth speak of the
same thing. Shares are counted in seeds.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import exp, log, pi, sqrt

from greenroom.ledger.facts import HolderMade
from greenroom.season.crops import EARLY, LATE
from greenroom.season.few_words import THINNED
from greenroom.season.germination import Tally, beta_range, germination
from greenroom.season.lots import LABEL_SEEDS, NINETEEN_IN_TWENTY, half_day
from greenroom.season.own_sowings import KINDS, TraySowing, tray_sowings
from greenroom.season.packets import packets_of
from greenroom.season.spots import Spot
from greenroom.season.sprouting import SPREAD, germination_of
from greenroom.season.state import Season

BETWEEN_LOTS = log(LATE / EARLY) / (2 * NINETEEN_IN_TWENTY)
"""Standard deviation, between lots, of the log of the days over the guide's: its tabled third either way."""

BETWEEN_TRAYS = 0.10
"""The same between trays of one lot, where thermometer and mix differ: a working rule of this program."""

FARTHEST = 3.0
"""A tray so many times quicker or slower than the guide is a slip of the hand or the thermometer; it counts
as so much and no more: a working rule of this program."""

MEDIAN_TO_MEAN = sqrt(pi / 2)
"""How much less sure a median is than a mean of as many normal figures."""

LIVE_TO_SET_OUT = 0.9
"""Share of seedlings that live to be set out: common practice, no source."""

SETTLED = timedelta(days=42)
"""A seedling this old has shown whether it lives: a working rule of this program."""


@dataclass(frozen=True, slots=True)
class Learned:
    """A figure of the guide or label, the grower's own, and the two together.

    ``figure`` lies between ``low`` and ``high`` nine times in ten; ``own`` is None without results, and
    ``seeds`` counts those behind it.
    """

    guide: float
    own: float | None
    figure: float
    low: float
    high: float
    seeds: int


@dataclass(frozen=True, slots=True)
class Lot:
    """What one lot showed: mean ``log`` of its days over the guide's, and the ``precision`` of that."""

    packet: str
    log: float
    precision: float
    seeds: int


def pace_of_variety(season: Season, variety: str, today: date) -> Learned:
    """Return the factor that a variety's own sowings put on the guide's days to come up."""
    lots = _lots(season, variety, today)
    middle, variance = variety_effect(lots)
    return _factor(middle, variance, lots)


def pace_of_lot(season: Season, packet: str, variety: str, today: date) -> Learned:
    """Return the factor for one lot: what it showed itself, on top of what its variety's others did."""
    lots = _lots(season, variety, today)
    middle, variance = lot_effect(lots, packet)
    return _factor(middle, variance, [lot for lot in lots if lot.packet == packet])


def variety_effect(lots: Iterable[Lot]) -> tuple[float, float]:
    """Return mean and variance of a variety's log factor, after the lots have spoken.

    Notes
    -----
    Two normal levels: a variety departs from the guide, a lot from its variety, each with half of the
    variance found between lots. Both start at no departure.
    """
    level = BETWEEN_LOTS**2 / 2
    precision, pull = 1 / level, 0.0
    for lot in lots:
        weight = 1 / (level + 1 / lot.precision)
        precision, pull = precision + weight, pull + weight * lot.log
    return pull / precision, 1 / precision


def lot_effect(lots: Sequence[Lot], packet: str) -> tuple[float, float]:
    """Return mean and variance of one lot's log factor: as `variety_effect`, and one level down."""
    level = BETWEEN_LOTS**2 / 2
    own = next((lot for lot in lots if lot.packet == packet), None)
    middle, variance = variety_effect(lot for lot in lots if lot.packet != packet)
    before = variance + level
    if own is None:
        return middle, before
    precision = 1 / before + own.precision
    return (middle / before + own.log * own.precision) / precision, 1 / precision


def share_of_variety(season: Season, variety: str, today: date) -> Learned | None:
    """Return what share of a variety comes up, all its lots together; None where it has no packet.

    The mean of its lots' labels, each after its age, counts as much as one label.
    """
    lots = [found for key in packets_of(season, variety) if (found := germination(season, key, today))]
    if not lots:
        return None
    prior = sum(lot.prior.share for lot in lots) / len(lots)
    return _shares(prior, sum((lot.tested + lot.sown for lot in lots), Tally()))


def living(season: Season, today: date) -> Learned:
    """Return what share of seedlings live to be set out, over all that were ever raised here."""
    own = season.memo(f"seedlings that lived {today}", KINDS, lambda: _lived(season, today))
    return _shares(LIVE_TO_SET_OUT, own)


def _shares(prior: float, own: Tally) -> Learned:
    alpha = prior * LABEL_SEEDS + own.came
    beta = LABEL_SEEDS + own.tried - alpha
    low, high = beta_range(alpha, beta)
    share = own.came / own.tried if own.tried else None
    return Learned(prior, share, alpha / (alpha + beta), low, high, round(own.tried))


def _factor(middle: float, variance: float, lots: Sequence[Lot]) -> Learned:
    reach = NINETEEN_IN_TWENTY * sqrt(variance)
    own = None
    if lots:
        total = sum(lot.precision for lot in lots)
        own = exp(sum(lot.log * lot.precision for lot in lots) / total)
    seeds = sum(lot.seeds for lot in lots)
    return Learned(1.0, own, exp(middle), exp(middle - reach), exp(middle + reach), seeds)


def _lots(season: Season, variety: str, today: date) -> tuple[Lot, ...]:
    def make() -> tuple[Lot, ...]:
        found = (_lot(season, packet, today) for packet in packets_of(season, variety))
        return tuple(lot for lot in found if lot is not None)

    return season.memo(f"pace of {variety} {today}", KINDS, make)


def _lot(season: Season, packet: str, today: date) -> Lot | None:
    label = germination_of(season, packet)
    shown = [one for tray in tray_sowings(season, packet, today) if (one := _tray(tray, label)) is not None]
    if not shown:
        return None
    precision = sum(weight for _, weight, _ in shown)
    middle = sum(departure * weight for departure, weight, _ in shown) / precision
    return Lot(packet, middle, precision, sum(seeds for *_, seeds in shown))


def _tray(tray: TraySowing, label: float) -> tuple[float, float, int] | None:
    """Return log of the days over the guide's, its precision and the seedlings; None before half are up."""
    half = half_day(tray.seeds, label * tray.warm)
    if tray.pace is None or not half:
        return None
    up = sum(seed.up for seed in tray.seeds)
    variance = BETWEEN_TRAYS**2 + (MEDIAN_TO_MEAN * SPREAD) ** 2 / up
    factor = min(max(half / tray.pace.days, 1 / FARTHEST), FARTHEST)
    return log(factor), 1 / variance, up


def _lived(season: Season, today: date) -> Tally:
    holders = dict.fromkeys(fact.holder for fact in season.facts(HolderMade))
    return sum((_lived_in(season, holder, today) for holder in holders), Tally())


def _lived_in(season: Season, holder: str, today: date) -> Tally:
    def count() -> Tally:
        old = [
            spot
            for spot in season.spots(holder)
            if spot.first_up is not None and today - spot.first_up >= SETTLED
        ]
        if season.holder(holder).form == "bed":  # whatever becomes of them there, they were set out
            out = sum(_stood_in(spot) - spot.moved_on for spot in old)
            return Tally(out, float(out))
        living, lost = sum(spot.up for spot in old), sum(lost_in(spot) for spot in old)
        return Tally(living, float(living + lost))

    return season.holder_memo(holder, ("lived", today), count)


def lost_in(spot: Spot) -> int:
    """Return the seedlings lost in a spot since it was last filled; those thinned out are not lost."""
    if spot.cause == THINNED:
        return 0
    return max(0, _stood_in(spot) - spot.up - spot.moved_on)


def _stood_in(spot: Spot) -> int:
    """Return the seedlings that came up in a spot or were moved there since it was last filled."""
    return spot.sprouted + (spot.arrived is not None)
