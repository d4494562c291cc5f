"""What brought a setback on: thirst, sun or wind, told apart by when water was last given."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

import numpy as np

from greenroom.agronomy.hardening import Setback
from greenroom.ledger.facts import MixFelt, Watered
from greenroom.season.air_ahead import STEP, air_between
from greenroom.season.hardening_words import SETBACK_CAUSES, SETBACK_WORDS, day_words, gust_words
from greenroom.season.outings import fold_outings
from greenroom.season.place import Place, place_of
from greenroom.season.state import Season
from greenroom.season.two_clocks import SUN, THIRST, WIND
from greenroom.season.why import Why
from greenroom.season.within import opening
from greenroom.speech import tr, trn

GUST_M_S = 7.0
"""Gusts that ask for a sheltered spot: inside Beaufort 4 (WMO-No. 8, from memory)."""
SMALL_CELL_ML, POT_ML = 40.0, 500.0
DRY_AFTER_DAYS = ((SMALL_CELL_ML, 1), (POT_ML, 2), (float("inf"), 3))
"""Days after which the mix of a cell up to so large is taken to be dry: common practice, no source."""
USUAL_CELL_ML = 66.0

SOURCES = (
    tr(
        "University of Maryland Extension 2023: seedlings that harden are watered less but "
        "never left to wilt."
    ),
    tr("Iowa State University Extension: a plant that wilts in wet mix is not to be watered."),
    tr("Brust, G., University of Maryland: sunscald is papery white or tan patches only where the sun hit."),
    tr("After how many days a mix is dry: common practice, no source."),
)


@dataclass(frozen=True, slots=True)
class Suspicion:
    """The likely cause of a setback; ``sure`` is False while a look at the mix could change it.

    ``dry`` is whether the mix is taken to be dry, None where nothing tells; ``watered`` the last day
    water was given.
    """

    what: Setback
    cause: str
    sure: bool
    dry: bool | None
    watered: date | None
    gust_ms: float | None
    in_sun: bool

    @property
    def advice(self) -> str:
        """What to do before it is written down, in a sentence."""
        if self.cause == THIRST:
            return tr(
                "Water it and stand it in shade; if it has picked up in 30 to 60 minutes it was "
                "thirst and costs no step."
            )
        if not self.sure:
            return tr("Feel the mix: if it is dry, water it and look again before a step is lost.")
        if self.cause == WIND:
            return tr("Bring it out of the wind; do not water mix that is wet.")
        return tr("Bring it into shade; do not water mix that is wet.")


def suspect(
    season: Season,
    holder: str,
    what: Setback,
    at: datetime,
    *,
    watered: date | None = None,
    windy: bool | None = None,
) -> Suspicion:
    """Return what most likely brought a setback on.

    ``watered`` and ``windy`` are what the grower answers when asked; None leaves it to what is written
    down and forecast.

    Scorched leaves are the sun's, or the wind's on a holder that had no sun that day. Drooping and
    wilting are thirst where the mix is dry: felt dry that day, or not watered for as many days as a
    cell of its size lasts. In moist mix they are the wind's if it stood in shade or in gusts of 7 m/s
    or more, else the sun's. Where no watering is written down the mix is not known, and the same is
    said less surely.
    """
    place = place_of(season)
    day = place.local(at).date()
    gust, in_sun = _gust(season, at), _in_sun(season, holder, day, at, place)
    watered = watered or watered_on(season, holder, day)
    dry = _dry(season, holder, day, watered)
    if what == "scorch":
        cause, sure = (SUN if in_sun else WIND), True
    elif dry:
        cause, sure = THIRST, True
    else:
        blown = windy if windy is not None else gust is not None and gust >= GUST_M_S
        cause, sure = (WIND if blown or not in_sun else SUN), dry is not None
    return Suspicion(what, cause, sure, dry, watered, gust, in_sun)


def suspicion_why(found: Suspicion, place: Place) -> Why:
    """Return why a setback is put down to its cause."""
    mix = {
        True: tr("dry", sense="the mix"),
        False: tr("moist", sense="the mix"),
        None: tr("not known"),
    }[found.dry]
    inputs = (
        (tr("last watered"), tr("not written down") if found.watered is None else day_words(found.watered)),
        (tr("the mix"), mix),
        (tr("stood in the sun"), tr("yes") if found.in_sun else tr("no")),
        (tr("gusts at the time"), gust_words(found.gust_ms, place)),
    )
    lasts = ", ".join(_lasts_words(size, days) for size, days in DRY_AFTER_DAYS)
    rule = tr(
        "Scorched leaves are the sun's work, or the wind's on a tray that had no sun that "
        "day. Drooping and wilting are thirst if the mix is dry: felt dry that day, or not "
        "watered for {lasts}. Else they are the wind's in shade or in gusts of {gust}, and "
        "otherwise the sun's. Thirst costs no step; the others set back their own clock.",
        lasts=lasts,
        gust=gust_words(GUST_M_S, place),
    )
    figure = tr(
        "{sign}, most likely {cause}",
        sign=opening(SETBACK_WORDS[found.what]),
        cause=SETBACK_CAUSES[found.cause],
    )
    return Why(figure, rule, inputs, SOURCES)


def _lasts_words(cell_ml: float, days: int) -> str:
    if np.isfinite(cell_ml):
        return trn("{n:,} day up to {size:.0f} mL", "{n:,} days up to {size:.0f} mL", days, size=cell_ml)
    return trn("{n:,} day in larger pots", "{n:,} days in larger pots", days)


def dry_after_days(cell_ml: float | None) -> int:
    """Return after how many days without water the mix of a cell of a size is taken to be dry."""
    size = USUAL_CELL_ML if cell_ml is None else cell_ml
    return next(days for largest, days in DRY_AFTER_DAYS if size <= largest)


def _dry(season: Season, holder: str, day: date, watered: date | None) -> bool | None:
    felt = [
        entry.fact.level
        for entry in season.holder_facts(holder)
        if isinstance(entry.fact, MixFelt) and entry.fact.day == day
    ]
    if felt and watered != day:
        return felt[-1] == "dry"
    if watered is None:
        return None
    return (day - watered).days >= dry_after_days(season.holder(holder).cell_ml)


def watered_on(season: Season, holder: str, day: date) -> date | None:
    """Return the last day up to ``day`` on which water was given, or None."""
    facts = (entry.fact for entry in season.holder_facts(holder))
    return max((one.day for one in facts if isinstance(one, Watered) and one.day <= day), default=None)


def _gust(season: Season, at: datetime) -> float | None:
    gust = float(air_between(season, at, at + STEP).gust_ms[0])
    return None if np.isnan(gust) else gust


def _in_sun(season: Season, holder: str, day: date, at: datetime, place: Place) -> bool:
    """Whether it had stood in the sun that day, up to the moment."""
    return any(
        stretch.light == SUN and stretch.start <= at and _touches(stretch.start, stretch.end, day, place)
        for outing in fold_outings(season.holder_facts(holder))
        for stretch in outing.stretches
    )


def _touches(start: datetime, end: datetime | None, day: date, place: Place) -> bool:
    begun = place.local(start).date() <= day
    return begun and (end is None or place.local(end).date() >= day)
