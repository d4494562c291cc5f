"""What a grower does for plants that grow on: prune, stake, mulch, pick, save seed, cover, feel the soil."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, datetime

from greenroom.ledger.facts import (
    PRUNINGS,
    RIPENESS,
    Covered,
    Flowered,
    Mulched,
    Picked,
    Pruned,
    SeedSaved,
    SoilFelt,
    Staked,
    Variety,
)
from greenroom.season.deeds_care import in_use, planted, refuse_beside
from greenroom.season.few_words import and_words, spot_words
from greenroom.season.hardening_words import day_words, temperature_words
from greenroom.season.place import place_of
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.speech import many, tr

PARTS = {"lower leaves": tr("lower leaves"), "tip": tr("tip"), "side shoots": tr("side shoots")}


def prune(season: Season, keys: Sequence[SpotKey], day: date, what: str) -> Proposal:
    """Note what was taken off some plants."""
    if what not in PRUNINGS:
        raise RefusedError(
            tr("The part cannot be {part}; {allowed} are allowed.", part=what, allowed=", ".join(PRUNINGS))
        )
    living = _living(season, keys, day)
    facts = tuple(
        Pruned(day=day, holder=key.holder, row=key.row, column=key.column, what=what) for key in living
    )
    return Proposal(tr("took {part} off {plants}", part=PARTS[what], plants=_plants(season, living)), facts)


def stake(season: Season, holder: str, day: date, spot: SpotKey | None = None) -> Proposal:
    """Note that the plants of a holder, or one of them, were given a support."""
    made = planted(season, holder, day, _unstaked)
    if spot is None:
        return Proposal(tr("staked {plants}", plants=made.name), (Staked(day=day, holder=holder),))
    refuse_beside(made, spot)
    fact = Staked(day=day, holder=holder, row=spot.row, column=spot.column)
    return Proposal(tr("staked {plants}", plants=spot_words(season, spot)), (fact,))


def mulch(season: Season, holder: str, day: date, material: str = "") -> Proposal:
    """Note that the soil of a holder was covered against drying out."""
    made = in_use(season, holder, day)
    material = " ".join(material.split())
    name = (
        tr("mulched {holder} with {material}", holder=made.name, material=material)
        if material
        else tr("mulched {holder}", holder=made.name)
    )
    return Proposal(name, (Mulched(day=day, holder=holder, material=material),))


def without_flower(season: Season, keys: Sequence[SpotKey]) -> list[SpotKey]:
    """Return those of some spots in which a plant lives whose first flower is not noted."""
    told = {(fact.holder, fact.row, fact.column) for fact in season.facts(Flowered)}
    return [key for key in keys if season.spot(key).up > 0 and tuple(key) not in told]


def mark_flower(season: Season, keys: Sequence[SpotKey], day: date) -> Proposal:
    """Note the first open flower of some plants; those that have one already are left as they are."""
    living = _living(season, keys, day)
    new = without_flower(season, living)
    if not new:
        raise RefusedError(tr("{plants}: the first flower is noted already.", plants=_plants(season, living)))
    facts = tuple(Flowered(day=day, **key._asdict()) for key in new)
    return Proposal(tr("first flower on {plants}", plants=_plants(season, new)), facts)


def pick(
    season: Season,
    variety: str,
    day: date,
    count: int,
    *,
    spot: SpotKey | None = None,
    holder: str | None = None,
    grams: float | None = None,
    ripeness: str = "ripe",
) -> Proposal:
    """Note fruit picked: of one plant, of a holder, or of a variety wherever it stands."""
    name = _variety(season, variety)
    if ripeness not in RIPENESS:
        raise RefusedError(
            tr(
                "Ripeness cannot be {asked}; {allowed} are allowed.",
                asked=ripeness,
                allowed=", ".join(RIPENESS),
            )
        )
    if not 1 <= count <= 10_000:
        raise RefusedError(
            tr("{count:,} fruit of {variety}: 1 to 10,000 are allowed.", count=count, variety=name)
        )
    if grams is not None and not 0.1 <= grams <= 100_000:
        raise RefusedError(
            tr("{grams:g} g of {variety}: 0.1 to 100,000 are allowed.", grams=grams, variety=name)
        )
    where, row, column = _place(season, spot, holder, day)
    fact = Picked(
        day=day,
        holder=where,
        row=row,
        column=column,
        variety=variety,
        count=count,
        grams=grams,
        ripeness=ripeness,
    )
    return Proposal(tr("picked {count:,} {variety}", count=count, variety=name), (fact,))


def save_seed(
    season: Season, variety: str, day: date, *, spot: SpotKey | None = None, count: int | None = None
) -> Proposal:
    """Note seed taken from one's own fruit."""
    name = _variety(season, variety)
    if count is not None and not 1 <= count <= 1_000_000:
        raise RefusedError(
            tr("{count:,} seeds of {variety}: 1 to 1,000,000 are allowed.", count=count, variety=name)
        )
    where, row, column = _place(season, spot, None, day)
    fact = SeedSaved(day=day, holder=where, row=row, column=column, variety=variety, count=count)
    return Proposal(tr("saved seed of {variety}", variety=name), (fact,))


def cover(season: Season, holders: Sequence[str], day: date, until: datetime | None = None) -> Proposal:
    """Note that some holders were covered for the night, or until a moment."""
    if not holders:
        raise RefusedError(tr("Nothing is chosen to be covered; choose a bed or rack first."))
    names = [in_use(season, holder, day).name for holder in holders]
    facts = tuple(Covered(day=day, holder=holder, until=until) for holder in holders)
    return Proposal(tr("covered {holders}", holders=and_words(names)), facts)


def feel_soil(season: Season, celsius: float, at: datetime, holder: str | None = None) -> Proposal:
    """Note the temperature of the soil [°C], of one bed or of the garden."""
    place = place_of(season)
    day = place.local(at).date()
    name = in_use(season, holder, day).name if holder is not None else tr("the garden")
    if not -30 <= celsius <= 60:
        raise RefusedError(
            tr("Soil of {place} at {celsius:g} °C: -30 to 60 °C is allowed.", place=name, celsius=celsius)
        )
    fact = SoilFelt(day=day, holder=holder, celsius=celsius, at=at)
    return Proposal(
        tr("soil of {place} at {temperature}", place=name, temperature=temperature_words(celsius, place)),
        (fact,),
    )


def _living(season: Season, keys: Sequence[SpotKey], day: date) -> list[SpotKey]:
    if not keys:
        raise RefusedError(tr("No plant is chosen; choose one or more first."))
    for holder in dict.fromkeys(key.holder for key in keys):
        in_use(season, holder, day)
    living = [key for key in dict.fromkeys(keys) if season.spot(key).up > 0]
    if not living:
        raise RefusedError(tr("No plant stands in {plants}.", plants=_plants(season, keys)))
    for key in living:
        arrived = season.spot(key).arrived
        if arrived is not None and day < arrived:
            raise RefusedError(
                tr(
                    "{plants} was moved there on {day}; choose that day or later.",
                    plants=_plants(season, [key]),
                    day=day_words(arrived),
                )
            )
    return living


def _plants(season: Season, keys: Sequence[SpotKey]) -> str:
    if len(keys) == 1:
        return spot_words(season, keys[0])
    names = dict.fromkeys(season.holder(key.holder).name for key in keys)
    return tr("{plants} in {holders}", plants=many(len(keys), "plant"), holders=and_words(names))


def _place(
    season: Season, spot: SpotKey | None, holder: str | None, day: date
) -> tuple[str | None, int | None, int | None]:
    where = spot.holder if spot is not None else holder
    if where is None:
        return None, None, None
    made = in_use(season, where, day)
    if spot is None:
        return where, None, None
    refuse_beside(made, spot)
    return where, spot.row, spot.column


def _variety(season: Season, key: str) -> str:
    fact = season.thing(Variety, key)
    if fact is None:
        raise RefusedError(tr("That variety is not in the seed box any more; choose another."))
    return fact.name


def _unstaked(name: str) -> str:
    return tr("{holder} holds no living plant that could be staked.", holder=name)
