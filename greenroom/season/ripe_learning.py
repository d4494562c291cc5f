"""What own picks make of the heat from setting out to the first ripe fruit that packet or guide state.

Heat is compared, not days, so that a cool summer and a warm one speak of the same thing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from math import sqrt

import numpy as np

from greenroom.agronomy.climate import degree_days
from greenroom.ledger.facts import (
    HolderMade,
    Moved,
    Packet,
    Picked,
    PlaceSet,
    Sown,
    Variety,
    WeatherRecord,
)
from greenroom.season.crops import crop_of
from greenroom.season.learning import Learned
from greenroom.season.lots import NINETEEN_IN_TWENTY
from greenroom.season.packets import packet_view
from greenroom.season.picking_year import season_of
from greenroom.season.place import place_of, record_days
from greenroom.season.ripening_heat import Heat, heat_of, stated_days
from greenroom.season.spots import SpotKey, arrives
from greenroom.season.state import Season

KINDS = (Picked, Moved, Sown, Packet, HolderMade, PlaceSet, WeatherRecord, Variety)
"""The kinds of fact that own ripening is told from."""

STATED_SHARE = 0.15
"""Standard deviation of a variety's true heat need about the stated one, as a share of that: a working rule
of this program."""

SEASONS_SHARE = 0.08
"""The same of one season about the variety, for what heat sums leave out: a working rule of this program."""

PLANTS_SHARE = 0.10
"""The same of one plant about its season, the days between picks included: a working rule of this program."""

FARTHEST = 2.0
"""A plant so many times quicker or slower than stated is a slip or was picked late; it counts as so much and
no more: a working rule of this program."""

MISSING_AT_MOST = 0.1
"""With more of the days missing from the weather record, a plant's heat is not told."""


@dataclass(frozen=True, slots=True)
class RipePlant:
    """A plant set out on a day and first picked ripe on another.

    ``heat`` is the heat of those days, both ends included [°C·d]; None where too few of them are in the
    weather record.
    """

    set_out: date
    ripe: date
    heat: float | None

    @property
    def days(self) -> int:
        """Days from setting out to the first ripe fruit."""
        return (self.ripe - self.set_out).days


@dataclass(frozen=True, slots=True)
class Ripening:
    """What is known of a variety's ripening: the heat as ``learned`` [°C·d], and the plants behind it."""

    learned: Learned
    heat: Heat
    on_label: bool
    plants: tuple[RipePlant, ...]

    @property
    def own_days(self) -> float | None:
        """Mean days that the grower's own plants took, whatever the weather; None without any."""
        return sum(plant.days for plant in self.plants) / len(self.plants) if self.plants else None


def ripe_of_variety(season: Season, variety: str, today: date) -> Learned | None:
    """Return the heat from setting out to ripe [°C·d]: stated, own, and the two together.

    None where neither packet nor guide states any days. ``seeds`` of the result counts plants.
    """
    found = ripening_of(season, variety, today)
    return found.learned if found else None


def ripening_of(season: Season, variety: str, today: date) -> Ripening | None:
    """Return what is known of a variety's ripening, or None where nobody states its days."""
    name = f"ripening of {variety} {today}"
    return season.memo(name, KINDS, lambda: _ripening(season, variety, today))


def _ripening(season: Season, variety: str, today: date) -> Ripening | None:
    fact = season.thing(Variety, variety)
    crop = crop_of(season.guide, fact.crop) if fact else None
    days = stated_days(fact, crop) if fact else None
    if fact is None or days is None:
        return None
    heat, southern = heat_of(crop), place_of(season).southern
    plants = tuple(_plants(season, variety, heat, today))
    seasons: dict[int, list[float]] = {}
    for plant in plants:
        if plant.heat is not None:
            seasons.setdefault(season_of(plant.set_out, southern=southern), []).append(plant.heat)
    learned = shrunk(days * heat.a_day, list(seasons.values()))
    return Ripening(learned, heat, fact.days_to_ripe is not None, plants)


def shrunk(stated: float, seasons: Sequence[Sequence[float]]) -> Learned:
    """Return a stated heat need and own ones, plants by season, brought together [°C·d].

    Notes
    -----
    A normal mean with a normal prior, all variances taken as known: the mean of each season is one
    measurement, of the variance between seasons and that between plants over their number.

    References
    ----------
    Gelman, A. et al. 2013. Bayesian Data Analysis, 3rd ed., section 2.5.
    """
    precision, pull, count = 0.0, 0.0, 0
    for heats in seasons:
        near = [min(max(heat, stated / FARTHEST), stated * FARTHEST) for heat in heats]
        weight = 1 / ((SEASONS_SHARE * stated) ** 2 + (PLANTS_SHARE * stated) ** 2 / len(near))
        precision, pull = precision + weight, pull + weight * sum(near) / len(near)
        count += len(near)
    own = pull / precision if count else None
    figure, variance = together(stated, (STATED_SHARE * stated) ** 2, own, precision)
    reach = NINETEEN_IN_TWENTY * sqrt(variance)
    return Learned(stated, own, figure, figure - reach, figure + reach, count)


def together(prior: float, variance: float, own: float | None, precision: float) -> tuple[float, float]:
    """Return mean and variance after a measurement of some precision; the prior's without one."""
    if own is None:
        return prior, variance
    whole = 1 / variance + precision
    return (prior / variance + own * precision) / whole, 1 / whole


def _plants(season: Season, variety: str, heat: Heat, today: date) -> Iterator[RipePlant]:
    for set_out, ripe in _first_picks(season, variety, today):
        yield RipePlant(set_out, ripe, heat_between(season, heat, set_out, ripe))


def _first_picks(season: Season, variety: str, today: date) -> list[tuple[date, date]]:
    """Return set-out and first ripe pick of each plant of a variety.

    A pick told of a whole bed counts as one plant, that which was set out there first, and not where plants
    of the bed were told one by one that season.
    """
    found: dict[tuple[str, SpotKey | None, date], date] = {}
    southern, seen = place_of(season).southern, set[tuple[str | None, SpotKey | None, int]]()
    for fact in season.facts(Picked):
        ripe = fact.ripeness == "ripe" and fact.day <= today
        if fact.variety != variety or not ripe or not _in_bed(season, fact):
            continue
        key = spot_of(fact)
        mark = fact.holder, key, season_of(fact.day, southern=southern)
        if key is None and mark in seen:
            continue  # the bed was picked ripe before that season
        seen.add(mark)
        set_out = _bed_set_out(season, fact) if key is None else set_out_on(season, key, fact.day)
        if fact.holder is not None and set_out is not None and set_out < fact.day:
            found.setdefault((fact.holder, key, set_out), fact.day)
    singly = {(holder, set_out.year) for holder, key, set_out in found if key is not None}
    return [
        (set_out, ripe)
        for (holder, key, set_out), ripe in found.items()
        if key is not None or (holder, set_out.year) not in singly
    ]


def spot_of(fact: Picked) -> SpotKey | None:
    """Return the spot a pick is told of, or None where it is told of more than one plant."""
    if fact.holder is None or fact.row is None or fact.column is None:
        return None
    return SpotKey(fact.holder, fact.row, fact.column)


def _in_bed(season: Season, fact: Picked) -> bool:
    return fact.holder is not None and season.holder(fact.holder).form == "bed"


def set_out_on(season: Season, key: SpotKey, day: date) -> date | None:
    """Return when the plant that stood in a spot on a day first came into a bed, or None if by no move."""
    in_beds = [move for move in _moves(season, key, day) if season.holder(move.to_holder).form == "bed"]
    return in_beds[-1].day if in_beds else None


def _bed_set_out(season: Season, fact: Picked) -> date | None:
    """Return when the first plant of the picked variety came into a bed in the season of the picking."""
    southern = place_of(season).southern
    days = (
        set_out_on(season, spot.key, fact.day)
        for spot in season.spots(fact.holder or "")
        if variety_at(season, spot.key, fact.day) == fact.variety
    )
    year = season_of(fact.day, southern=southern)
    return min((day for day in days if day and season_of(day, southern=southern) == year), default=None)


def variety_at(season: Season, key: SpotKey, day: date) -> str | None:
    """Return the variety of the plant that came into a spot last by a day."""
    sown = sown_as(season, key, day)
    view = packet_view(season, sown.packet) if sown else None
    return view.packet.variety if view else None


def sown_as(season: Season, key: SpotKey, day: date) -> Sown | None:
    """Return the sowing of the plant that came into a spot last by a day, followed through its moves."""
    moves = list(_moves(season, key, day))
    start = SpotKey(moves[-1].holder, moves[-1].row, moves[-1].column) if moves else key
    until = moves[-1].day if moves else day
    facts = (entry.fact for entry in reversed(season.spot_facts(start)))
    return next((fact for fact in facts if isinstance(fact, Sown) and fact.day <= until), None)


def _moves(season: Season, key: SpotKey, day: date) -> Iterator[Moved]:
    """Yield the moves by which a plant came to stand in a spot on a day, the last first."""
    seen: set[str] = set()
    while (move := _arrival(season, key, day)) is not None and move.id not in seen:
        seen.add(move.id)
        yield move
        key, day = SpotKey(move.holder, move.row, move.column), move.day


def _arrival(season: Season, key: SpotKey, day: date) -> Moved | None:
    """Return the move that filled a spot last by a day, or None if it was sown there or never filled."""
    facts = (entry.fact for entry in reversed(season.spot_facts(key)) if entry.fact.day <= day)
    last = next((fact for fact in facts if isinstance(fact, Sown) or arrives(fact, key)), None)
    return last if isinstance(last, Moved) else None


def heat_between(season: Season, heat: Heat, first: date, last: date) -> float | None:
    """Return the heat of some days, both ends included [°C·d]; gaps are taken to be as the others."""
    record, count = record_days(season), (last - first).days + 1
    days = (record.get(first + timedelta(days=later)) for later in range(count))
    known = [(day.tmin_c, day.tmax_c) for day in days if day and None not in (day.tmin_c, day.tmax_c)]
    if count - len(known) > MISSING_AT_MOST * count:
        return None
    low, high = np.array(known, dtype=float).T
    counted = degree_days(low, high, heat.base_c, heat.cap_c, "clamp")
    return float(np.mean(counted)) * count
