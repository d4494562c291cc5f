"""What a grower does for plants day by day: water, weigh, feed, light, cool nights, look them over."""

from __future__ import annotations

from collections.abc import Callable, Sequence
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
from greenroom.season.care_words import sign_shown
from greenroom.season.few_words import MIX_LEVELS, WATERED_FROM, and_words, spot_words
from greenroom.season.hardening_words import day_words, temperature_words
from greenroom.season.holders import Holder
from greenroom.season.place import place_of
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.speech import tr

GONE = tr("That tray, rack or bed is not there any more; choose another.")
STATES = {
    "wet": tr("soaked and drained"),
    "now": tr("as it is", sense="of a weight"),
    "dry": tr("dry", sense="of a weight"),
}


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
    return Proposal(
        tr("watered {holder} {from_where}", holder=made.name, from_where=WATERED_FROM.get(how, how)), (fact,)
    )


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
            tr(
                "{holder} would weigh {dry:,.0f} g dry and {wet:,.0f} g soaked; dry must be the lighter.",
                holder=made.name,
                dry=dry,
                wet=wet,
            )
        )
    fact = Weighed(day=day, holder=holder, state=state, grams=grams, at=at)
    return Proposal(
        tr(
            "weighed {holder} {state}: {grams:,.0f} g",
            holder=made.name,
            state=STATES.get(state, state),
            grams=grams,
        ),
        (fact,),
    )


def empty_basin(season: Season, holder: str, day: date) -> Proposal:
    """Note that the basin under a holder was emptied."""
    made = in_use(season, holder, day)
    return Proposal(
        tr("emptied the basin of {holder}", holder=made.name), (BasinEmptied(day=day, holder=holder),)
    )


def feel_mix(season: Season, holder: str, day: date, level: str, test: str = "finger") -> Proposal:
    """Note how wet the mix of a holder is."""
    made = in_use(season, holder, day)
    fact = MixFelt(day=day, holder=holder, test=test, level=level)
    return Proposal(
        tr("felt {holder}: {level}", holder=made.name, level=MIX_LEVELS.get(level, level)), (fact,)
    )


def feed(season: Season, holder: str, day: date, what: Feed, litres: float) -> Proposal:
    """Note that a holder was fed."""
    made = planted(season, holder, day, _unfed)
    name = " ".join(what.name.split())
    if not name:
        raise RefusedError(tr("The feed needs a name, such as the one on its label."))
    if not 0.001 <= litres <= 10_000:
        raise RefusedError(
            tr(
                "{litres:g} litres of feed for {holder}: 0.001 to 10,000 are allowed.",
                litres=litres,
                holder=made.name,
            )
        )
    if not 0 <= what.ppm_n <= 2000:
        raise RefusedError(
            tr("{ppm_n:g} ppm N for {holder}: 0 to 2,000 are allowed.", ppm_n=what.ppm_n, holder=made.name)
        )
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
    return Proposal(tr("fed {holder}, {ppm_n:g} ppm N", holder=made.name, ppm_n=what.ppm_n), (fact,))


def set_lamps(place: str, day: date, hours: float, gap_cm: float | None = None) -> Proposal:
    """Note how long the lamps over a place burn from now on, and their gap to the leaves."""
    place = " ".join(place.split())
    if not place:
        raise RefusedError(tr("The lamps need the name of the shelf they hang over."))
    if not 0 <= hours <= 24:
        raise RefusedError(
            tr("{hours:g} hours of light a day over {shelf}: 0 to 24 are allowed.", hours=hours, shelf=place)
        )
    if gap_cm is not None and not 0 <= gap_cm <= 500:
        raise RefusedError(
            tr("A gap of {gap_cm:g} cm over {shelf}: 0 to 500 is allowed.", gap_cm=gap_cm, shelf=place)
        )
    fact = LampsSet(day=day, place=place, hours=hours, gap_cm=gap_cm)
    return Proposal(tr("lamps over {shelf}: {hours:g} h a day", shelf=place, hours=hours), (fact,))


def cool_night(season: Season, holder: str, day: date, low_c: float) -> Proposal:
    """Note a cool night that ended on ``day``, and how low it went [°C]."""
    made = planted(season, holder, day, _no_cool_night)
    if any(
        isinstance(entry.fact, CoolNight) and entry.fact.day == day for entry in season.holder_facts(holder)
    ):
        raise RefusedError(
            tr("The cool night of {holder} to {day} is noted already.", holder=made.name, day=day_words(day))
        )
    if not -20 <= low_c <= 30:
        raise RefusedError(
            tr(
                "A night of {low_c:g} °C for {holder}: -20 to 30 °C is allowed.",
                low_c=low_c,
                holder=made.name,
            )
        )
    words = temperature_words(low_c, place_of(season))
    return Proposal(
        tr("cool night for {holder}, {low}", holder=made.name, low=words),
        (CoolNight(day=day, holder=holder, low_c=low_c),),
    )


def look_over(season: Season, holders: Sequence[str], day: date) -> Proposal:
    """Note that the plants of some holders were looked over."""
    if not holders:
        raise RefusedError(tr("Nothing is chosen to be looked over; choose a tray, rack or bed first."))
    names = [in_use(season, holder, day).name for holder in holders]
    facts = tuple(LookedOver(day=day, holder=holder) for holder in holders)
    return Proposal(tr("looked over {holders}", holders=and_words(names)), facts)


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
        raise RefusedError(tr("Choose what was seen on {holder}.", holder=made.name))
    row, column = (spot.row, spot.column) if spot is not None else (None, None)
    if spot is not None:
        refuse_beside(made, spot)
    fact = Finding(
        day=day, holder=holder, row=row, column=column, sign=sign, count=count, where=where.strip()
    )
    at = spot_words(season, spot) if spot is not None else made.name
    return Proposal(tr("found {sign} on {where}", sign=sign_shown(sign), where=at), (fact,))


def in_use(season: Season, holder: str, day: date) -> Holder:
    """Return a holder that was in use on a day; refused if it is not there, put away, or newer."""
    try:
        made = season.holder(holder)
    except KeyError as error:
        raise RefusedError(GONE) from error
    if made.retired:
        raise RefusedError(tr("{holder} was put away; choose one that is in use.", holder=made.name))
    refuse_before_use(made, day)
    return made


def planted(season: Season, holder: str, day: date, refusal: Callable[[str], str]) -> Holder:
    """Return a holder in which something lives; refused, in a sentence made of its name, if nothing does."""
    made = in_use(season, holder, day)
    if season.counts(holder).living == 0:
        raise RefusedError(refusal(made.name))
    return made


def refuse_before_use(made: Holder, day: date) -> None:
    """Refuse a day on which a holder was not in use yet."""
    if day < made.made_on:
        raise RefusedError(
            tr(
                "{holder} is in use since {day}; choose that day or a later one.",
                holder=made.name,
                day=day_words(made.made_on),
            )
        )


def refuse_beside(made: Holder, spot: SpotKey) -> None:
    """Refuse a spot that a holder does not have."""
    if not (0 <= spot.row < made.rows and 0 <= spot.column < made.columns):
        raise RefusedError(
            tr(
                "{holder} has no {spot}; it has {rows} × {columns} spots.",
                holder=made.name,
                spot=spot.label,
                rows=made.rows,
                columns=made.columns,
            )
        )


def _unfed(name: str) -> str:
    return tr("{holder} holds no living plant that could be fed.", holder=name)


def _no_cool_night(name: str) -> str:
    return tr("{holder} holds no living plant that could be given a cool night.", holder=name)


def _refuse_weight(name: str, grams: float | None) -> None:
    if grams is not None and not 1 <= grams <= HEAVIEST_G:
        raise RefusedError(
            tr(
                "{grams:,.0f} g for {holder}: 1 to {most:,} g is allowed.",
                grams=grams,
                holder=name,
                most=HEAVIEST_G,
            )
        )
