"""What was picked: by variety and season, per plant and per square metre."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date

from greenroom.ledger.facts import (
    RIPENESS,
    BedLaid,
    HolderRetired,
    Picked,
    Sown,
    Sprouted,
    Variety,
)
from greenroom.season.deeds_plot import BED, bed_laid
from greenroom.season.packets import UNNAMED, packet_view
from greenroom.season.picking_year import season_of
from greenroom.season.place import place_of
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.ripe_learning import KINDS as RIPE_KINDS
from greenroom.season.ripe_learning import RipePlant, ripening_of, sown_as, spot_of
from greenroom.season.spots import SpotKey, arrives
from greenroom.season.state import Season
from greenroom.speech import tr

KINDS = (*RIPE_KINDS, BedLaid, HolderRetired, Sprouted)
"""The kinds of fact that harvests are told from."""


@dataclass(frozen=True, slots=True)
class Yield:
    """Fruit of some picks: ``weighed`` of the ``count`` were weighed and came to ``grams``.

    ``colours`` are the fruit picked green, turning and ripe.
    """

    picks: int
    count: int
    weighed: int
    grams: float
    colours: tuple[int, int, int]
    first: date
    last: date

    @property
    def whole_grams(self) -> float | None:
        """Weight of all the fruit, those not weighed taken to be as the others; None where none were."""
        return self.grams * self.count / self.weighed if self.weighed else None

    @property
    def estimated(self) -> bool:
        """Whether some of the weight is taken from the fruit that were weighed."""
        return 0 < self.weighed < self.count

    @property
    def grams_each(self) -> float | None:
        """Mean weight of a fruit; None where none were weighed."""
        return self.grams / self.weighed if self.weighed else None


@dataclass(frozen=True, slots=True)
class PlantOut:
    """A plant that stood in a bed: since when, when it was sown, and its share of the bed [m²]."""

    variety: str
    spot: SpotKey
    out: date
    sown: date
    m2: float | None


@dataclass(frozen=True, slots=True)
class Harvest:
    """One variety in one season, named by its spring.

    ``plants`` are those that stood in beds, and any picked from elsewhere; None where none is known.
    ``m2`` is their share of the beds, None where a bed was never measured. ``ripe`` are the plants of which
    the first ripe pick was told; ``sown`` is the first day one of the plants was sown.
    """

    variety: str
    name: str
    year: int
    picked: Yield
    plants: int | None
    m2: float | None
    ripe: tuple[RipePlant, ...]
    sown: date | None

    @property
    def grams_a_plant(self) -> float | None:
        """Weight per plant [g]."""
        return _over(self.picked.whole_grams, self.plants)

    @property
    def grams_a_m2(self) -> float | None:
        """Weight per square metre of bed [g]."""
        return _over(self.picked.whole_grams, self.m2)

    @property
    def days_to_ripe(self) -> float | None:
        """Mean days from setting out to the first ripe fruit of a plant."""
        return sum(plant.days for plant in self.ripe) / len(self.ripe) if self.ripe else None

    @property
    def heat_to_ripe(self) -> float | None:
        """Mean heat of those days [°C·d]; None where the weather is not known."""
        known = [plant.heat for plant in self.ripe if plant.heat is not None]
        return sum(known) / len(known) if known else None

    @property
    def days_from_sowing(self) -> int | None:
        """Days from the first sowing to the first ripe fruit."""
        first = min((plant.ripe for plant in self.ripe), default=None)
        return (first - self.sown).days if first is not None and self.sown is not None else None


@dataclass(frozen=True, slots=True)
class PlantPicks:
    """What was picked from one plant, or from a bed as a whole where ``spot`` is None."""

    variety: str
    holder: str
    spot: SpotKey | None
    picked: Yield


def sum_up(picks: Iterable[Picked]) -> Yield | None:
    """Return what some picks come to, or None where there are none."""
    found = list(picks)
    if not found:
        return None
    weighed = [fact for fact in found if fact.grams is not None]
    green, turning, ripe = (sum(f.count for f in found if f.ripeness == one) for one in RIPENESS)
    days = [fact.day for fact in found]
    return Yield(
        picks=len(found),
        count=sum(fact.count for fact in found),
        weighed=sum(fact.count for fact in weighed),
        grams=sum(fact.grams or 0.0 for fact in weighed),
        colours=(green, turning, ripe),
        first=min(days),
        last=max(days),
    )


def take_back_pick(season: Season, key: str) -> Proposal:
    """Strike one pick out, by the key of its fact."""
    fact = next((one for one in season.facts(Picked) if one.id == key), None)
    if fact is None:
        raise RefusedError(tr("That pick is taken back already."))
    variety = season.thing(Variety, fact.variety)
    return Proposal(
        tr("took back {count:,} {variety}", count=fact.count, variety=variety.name if variety else UNNAMED),
        strike=(key,),
    )


def season_now(season: Season, today: date) -> int:
    """Return the spring that names the season a day lies in."""
    return season_of(today, southern=place_of(season).southern)


def picks_of(season: Season, year: int, today: date) -> list[Picked]:
    """Return the picks of a season up to a day, the first picked first."""
    southern = place_of(season).southern
    facts = season.facts(Picked)
    return [f for f in facts if f.day <= today and season_of(f.day, southern=southern) == year]


def seasons_picked(season: Season, today: date) -> list[int]:
    """Return the seasons in which something was picked, in order."""
    southern = place_of(season).southern
    return sorted({season_of(f.day, southern=southern) for f in season.facts(Picked) if f.day <= today})


def harvests(season: Season, today: date) -> tuple[Harvest, ...]:
    """Return every variety in every season it was picked in, the latest season first, by name within it."""
    return season.memo(f"harvests {today}", KINDS, lambda: tuple(_harvests(season, today)))


def by_plant(season: Season, year: int, today: date) -> list[PlantPicks]:
    """Return what was picked from each plant, and from beds as a whole, of a season."""
    lots: dict[tuple[str, str, SpotKey | None], list[Picked]] = defaultdict(list)
    for fact in picks_of(season, year, today):
        if fact.holder is not None:
            lots[fact.variety, fact.holder, spot_of(fact)].append(fact)
    sums = ((key, sum_up(picks)) for key, picks in lots.items())
    return [PlantPicks(*key, picked) for key, picked in sums if picked is not None]


def plants_out(season: Season, year: int) -> tuple[PlantOut, ...]:
    """Return the plants that came into beds in a season, by moving or by sowing there, bed by bed."""
    return season.memo(f"plants out {year}", KINDS, lambda: tuple(_plants_out(season, year)))


def share_m2(season: Season, holder: str) -> float | None:
    """Return the ground that one position of a bed takes [m²], or None where it was never measured."""
    laid, made = bed_laid(season, holder), season.holder(holder)
    return laid.width_m * laid.depth_m / (made.rows * made.columns) if laid else None


def _harvests(season: Season, today: date) -> Iterator[Harvest]:
    for year in reversed(seasons_picked(season, today)):
        lots: dict[str, list[Picked]] = defaultdict(list)
        for fact in picks_of(season, year, today):
            lots[fact.variety].append(fact)
        found = (_harvest(season, key, year, picks, today) for key, picks in lots.items())
        yield from sorted((one for one in found if one is not None), key=lambda one: one.name.casefold())


def _harvest(season: Season, variety: str, year: int, picks: list[Picked], today: date) -> Harvest | None:
    fact, picked = season.thing(Variety, variety), sum_up(picks)
    if fact is None or picked is None:
        return None
    stood = [plant for plant in plants_out(season, year) if plant.variety == variety]
    beside = {spot for one in picks if (spot := spot_of(one)) and season.holder(spot.holder).form != BED}
    known = [plant.m2 for plant in stood if plant.m2 is not None]
    ripening, southern = ripening_of(season, variety, today), place_of(season).southern
    ripe = ripening.plants if ripening else ()
    return Harvest(
        variety=variety,
        name=fact.name,
        year=year,
        picked=picked,
        plants=len(stood) + len(beside) or None,
        m2=sum(known) if stood and len(known) == len(stood) and not beside else None,
        ripe=tuple(plant for plant in ripe if season_of(plant.set_out, southern=southern) == year),
        sown=min((plant.sown for plant in stood), default=None),
    )


def _plants_out(season: Season, year: int) -> Iterator[PlantOut]:
    southern = place_of(season).southern
    for bed in (*season.holders(BED), *season.holders(BED, put_away=True)):
        m2 = share_m2(season, bed.key)
        for spot in season.spots(bed.key):
            for day in _came_out(season, spot.key):
                sown = sown_as(season, spot.key, day)
                view = packet_view(season, sown.packet) if sown else None
                if sown is not None and view is not None and season_of(day, southern=southern) == year:
                    yield PlantOut(view.packet.variety, spot.key, day, sown.day, m2)


def _came_out(season: Season, key: SpotKey) -> Iterator[date]:
    """Yield the days on which a plant came into a position from elsewhere than a bed, or was sown there."""
    facts = [entry.fact for entry in season.spot_facts(key)]
    came_up = [fact.day for fact in facts if isinstance(fact, Sprouted)]
    for fact in facts:
        moved_in = arrives(fact, key) and season.holder(fact.holder).form != BED
        if moved_in or (isinstance(fact, Sown) and any(day >= fact.day for day in came_up)):
            yield fact.day


def _over(whole: float | None, parts: float | None) -> float | None:
    return whole / parts if whole is not None and parts else None
