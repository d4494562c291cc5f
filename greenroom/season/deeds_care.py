"""What a grower does for plants day by day: water, weigh, feed, light, cool nights, look them over."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from greenroom.ledger.facts import (
    HEAVIEST_G,
    BasinEmptied,
    CoolNight,
    Fed,
    Finding,
    LampsSet,
    LookedOver,
    MixFelt,
    Watered,
    Weighed,
)
from greenroom.season.hardening_words import day_words, temperature_words
from greenroom.season.holders import Holder
from greenroom.season.place import place_of
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season

GONE = "That tray, rack or bed is not there any more; choose another."
STATES = {"wet": "soaked and drained", "now": "as it is", "dry": "dry"}


@dataclass(frozen=True, slots=True)
class Feed:
    """A feed: its name, its analysis as on the label [%], and how strong it is given [ppm N]."""

    name: str
    n_percent: float
    p2o5_percent: float
    k2o_percent: float
    ppm_n: float


def water(
    season: Season,
    holder: str,
    day: date,
    how: str = "below",
    weight_g: float | None = None,
    at: datetime | None = None,
) -> Proposal:
    """Note that a holder was watered, at which moment if known, and what it weighed afterwards."""
    made = in_use(season, holder, day)
    _refuse_weight(made.name, weight_g)
    fact = Watered(day=day, holder=holder, how=how, weight_g=weight_g, at=at)
    return Proposal(f"watered {made.name} from {how}", (fact,))


def weigh(
    season: Season, holder: str, day: date, grams: float, state: str = "now", at: datetime | None = None
) -> Proposal:
    """Note what a holder weighs, soaked and drained, as it is, or dry, and at which moment if known."""
    made = in_use(season, holder, day)
    _refuse_weight(made.name, grams)
    known = {fact.state: fact.grams for fact in season.facts(Weighed) if fact.holder == holder}
    wet = grams if state == "wet" else known.get("wet")
    dry = grams if state == "dry" else known.get("dry")
    if state != "now" and wet is not None and dry is not None and dry >= wet:
        raise RefusedError(
            f"{made.name} would weigh {dry:,.0f} g dry and {wet:,.0f} g soaked; dry must be the lighter."
        )
    fact = Weighed(day=day, holder=holder, state=state, grams=grams, at=at)
    return Proposal(f"weighed {made.name} {STATES.get(state, state)}: {grams:,.0f} g", (fact,))


def empty_basin(season: Season, holder: str, day: date) -> Proposal:
    """Note that the basin under a holder was emptied."""
    made = in_use(season, holder, day)
    return Proposal(f"emptied the basin of {made.name}", (BasinEmptied(day=day, holder=holder),))


def feel_mix(season: Season, holder: str, day: date, level: str, test: str = "finger") -> Proposal:
    """Note how wet the mix of a holder is."""
    made = in_use(season, holder, day)
    fact = MixFelt(day=day, holder=holder, test=test, level=level)
    return Proposal(f"felt {made.name}: {level}", (fact,))


def feed(season: Season, holder: str, day: date, what: Feed, litres: float) -> Proposal:
    """Note that a holder was fed."""
    made = planted(season, holder, day, "fed")
    name = " ".join(what.name.split())
    if not name:
        raise RefusedError("The feed needs a name, such as the one on its label.")
    if not 0.001 <= litres <= 10_000:
        raise RefusedError(f"{litres:g} litres of feed for {made.name}: 0.001 to 10,000 are allowed.")
    if not 0 <= what.ppm_n <= 2000:
        raise RefusedError(f"{what.ppm_n:g} ppm N for {made.name}: 0 to 2,000 are allowed.")
    fact = Fed(
        day=day,
        holder=holder,
        feed=name,
        n_percent=what.n_percent,
        p2o5_percent=what.p2o5_percent,
        k2o_percent=what.k2o_percent,
        ppm_n=what.ppm_n,
        litres=litres,
    )
    return Proposal(f"fed {made.name}, {what.ppm_n:g} ppm N", (fact,))


def set_lamps(place: str, day: date, hours: float, gap_cm: float | None = None) -> Proposal:
    """Note how long the lamps over a place burn from now on, and their gap to the leaves."""
    place = " ".join(place.split())
    if not place:
        raise RefusedError("The lamps need the name of the shelf they hang over.")
    if not 0 <= hours <= 24:
        raise RefusedError(f"{hours:g} hours of light a day over {place}: 0 to 24 are allowed.")
    if gap_cm is not None and not 0 <= gap_cm <= 500:
        raise RefusedError(f"A gap of {gap_cm:g} cm over {place}: 0 to 500 is allowed.")
    fact = LampsSet(day=day, place=place, hours=hours, gap_cm=gap_cm)
    return Proposal(f"lamps over {place}: {hours:g} h a day", (fact,))


def cool_night(season: Season, holder: str, day: date, low_c: float) -> Proposal:
    """Note a cool night that ended on ``day``, and how low it went [°C]."""
    made = planted(season, holder, day, "given a cool night")
    if any(
        isinstance(entry.fact, CoolNight) and entry.fact.day == day for entry in season.holder_facts(holder)
    ):
        raise RefusedError(f"The cool night of {made.name} to {day_words(day)} is noted already.")
    if not -20 <= low_c <= 30:
        raise RefusedError(f"A night of {low_c:g} °C for {made.name}: -20 to 30 °C is allowed.")
    words = temperature_words(low_c, place_of(season))
    return Proposal(f"cool night for {made.name}, {words}", (CoolNight(day=day, holder=holder, low_c=low_c),))


def look_over(season: Season, holders: Sequence[str], day: date) -> Proposal:
    """Note that the plants of some holders were looked over."""
    if not holders:
        raise RefusedError("Nothing is chosen to be looked over; choose a tray, rack or bed first.")
    names = [in_use(season, holder, day).name for holder in holders]
    facts = tuple(LookedOver(day=day, holder=holder) for holder in holders)
    return Proposal(f"looked over {' and '.join(names)}", facts)


def find(
    season: Season,
    holder: str,
    day: date,
    sign: str,
    *,
    spot: SpotKey | None = None,
    count: int | None = None,
    where: str = "",
) -> Proposal:
    """Note a sign of pest, disease or want, on one plant or on a whole holder."""
    made = in_use(season, holder, day)
    if not sign.strip():
        raise RefusedError(f"Choose what was seen on {made.name}.")
    row, column = (spot.row, spot.column) if spot is not None else (None, None)
    if spot is not None:
        refuse_beside(made, spot)
    fact = Finding(
        day=day, holder=holder, row=row, column=column, sign=sign, count=count, where=where.strip()
    )
    at = f"{spot.label} of {made.name}" if spot is not None else made.name
    return Proposal(f"found {sign.replace('-', ' ')} on {at}", (fact,))


def in_use(season: Season, holder: str, day: date) -> Holder:
    """Return a holder that was in use on a day; refused if it is not there, put away, or newer."""
    try:
        made = season.holder(holder)
    except KeyError as error:
        raise RefusedError(GONE) from error
    if made.retired:
        raise RefusedError(f"{made.name} was put away; choose one that is in use.")
    if day < made.made_on:
        raise RefusedError(
            f"{made.name} is in use since {day_words(made.made_on)}; choose that day or a later one."
        )
    return made


def planted(season: Season, holder: str, day: date, done: str) -> Holder:
    """Return a holder in which something lives; refused, as what could not be ``done``, if nothing does."""
    made = in_use(season, holder, day)
    if season.counts(holder).living == 0:
        raise RefusedError(f"{made.name} holds no living plant that could be {done}.")
    return made


def refuse_beside(made: Holder, spot: SpotKey) -> None:
    """Refuse a spot that a holder does not have."""
    if not (0 <= spot.row < made.rows and 0 <= spot.column < made.columns):
        raise RefusedError(f"{made.name} has no {spot.label}; it has {made.rows} × {made.columns} spots.")


def _refuse_weight(name: str, grams: float | None) -> None:
    if grams is not None and not 1 <= grams <= HEAVIEST_G:
        raise RefusedError(f"{grams:,.0f} g for {name}: 1 to {HEAVIEST_G:,} g is allowed.")
