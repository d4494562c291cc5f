"""Tonight: whether a holder may stay out, and if not, by when it is to be in."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from enum import Enum

import numpy as np

from greenroom.season.air_ahead import AirAhead, air_between
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.hardening import sun_of
from greenroom.season.hardening_words import gust_words, temperature_words, time_words
from greenroom.season.outings import midnight
from greenroom.season.place import Place, place_of, weather_days
from greenroom.season.state import Season
from greenroom.season.temperatures import F_IN_C
from greenroom.season.weekdays import weekday_words
from greenroom.season.why import Why
from greenroom.speech import tr

MARGIN_C = 2.0
"""How far above its floor a night must be forecast to stay: frost forms with screens at 33 to 36 °F (National
Weather Service offices), so leaves are taken to be up to 2 °C colder than the forecast's air."""
ONE_DAY = timedelta(days=1)
NIGHT_BEGINS, NIGHT_ENDS = timedelta(hours=20), timedelta(hours=31)
"""By the place's clock, where the sun does not both set and rise: this program's own rule."""

LOPEZ = tr(
    "Lopez, R. G., Michigan State University Extension 2022: pepper leaves are harmed "
    "below 50 °F, tomato leaves below 41 °F."
)
FROST_FORMS = tr("National Weather Service offices: frost forms at 33 to 36 °F on calm clear nights.")
SOURCES = (
    tr("University of Minnesota Extension: peppers are set out once nights stay above 50 °F."),
    LOPEZ,
    FROST_FORMS,
    tr(
        "Parton, W. J. and Logan, J. A. 1981. Agricultural Meteorology 23:205-216 (the hours of the evening)."
    ),
)


class Verdict(Enum):
    """What the night asks for."""

    STAY_OUT = "may stay out"
    IN_BEFORE = "in before"


class Cause(Enum):
    """Why a holder is to come in."""

    NONE = "none"
    NOT_HARDENED = "not hardened"
    COLD = "cold"
    NEAR_COLD = "near cold"
    WIND = "wind"
    NOT_KNOWN = "not known"


BROUGHT_IN_BY = {
    Cause.NONE: tr("the night stays above its floor"),
    Cause.NOT_HARDENED: tr("not hardened yet"),
    Cause.COLD: tr("the night falls below its floor"),
    Cause.NEAR_COLD: tr("the night comes close to its floor"),
    Cause.WIND: tr("gusts in the night"),
    Cause.NOT_KNOWN: tr("the night is not forecast"),
}


@dataclass(frozen=True, slots=True)
class Tonight:
    """The night ahead for one holder.

    ``before`` is when it is to be in, None if it may stay out or nothing tells the hour; ``dusk`` is
    sunset, ``falls`` when the air falls through the floor, or None. ``low_c`` is the coldest forecast.
    """

    holder: str
    verdict: Verdict
    cause: Cause
    before: datetime | None
    dusk: datetime | None
    falls: datetime | None
    low_c: float | None
    floor_c: float
    gust_ms: float | None

    @property
    def stay_out(self) -> bool:
        """Whether it may stay out all night."""
        return self.verdict is Verdict.STAY_OUT


def tonight(season: Season, stand: TwoClocks) -> Tonight:
    """Return what the night after ``stand.today`` asks for."""
    dusk, dawn = night_of(season, stand.today)
    noon = dusk - timedelta(hours=6)
    air = air_between(season, noon, dawn, stand.holder)
    floor, limits = stand.rules.night_floor_c, stand.rules.limits
    low, gust = _coldest(season, stand.today, air), _strongest(air, dusk)
    cause = _cause(stand.hardened, low, floor, gust, limits.gust_m_s)
    falls = falls_through(air, floor)
    stays = cause is Cause.NONE
    up = sun_of(season, stand.today)
    return Tonight(
        holder=stand.holder,
        verdict=Verdict.STAY_OUT if stays else Verdict.IN_BEFORE,
        cause=cause,
        before=None if stays else min(dusk, falls or dusk),
        dusk=up[1] if up else None,
        falls=falls,
        low_c=low,
        floor_c=floor,
        gust_ms=gust,
    )


def night_of(season: Season, day: date) -> tuple[datetime, datetime]:
    """Return sunset of a day and sunrise of the next; 20 and 7 by the clock where there is none."""
    zone = place_of(season).zone
    evening, morning = sun_of(season, day), sun_of(season, day + ONE_DAY)
    start = midnight(day, zone)
    dusk = evening[1] if evening else start + NIGHT_BEGINS
    return dusk, morning[0] if morning else start + NIGHT_ENDS


def falls_through(air: AirAhead, floor_c: float) -> datetime | None:
    """Return when the air first falls below a floor after the warmest of a span; None if it does not."""
    known = ~np.isnan(air.temperature_c)
    if not known.any():
        return None
    warmest = int(np.nanargmax(air.temperature_c))
    below = np.flatnonzero(air.temperature_c[warmest:] < floor_c)
    return air.moments[warmest + int(below[0])] if below.size else None


def tonight_words(night: Tonight, place: Place) -> str:
    """Return the night in a few words: in before 20:40, low 6 °C."""
    words = _asked_words(night, place)
    if night.low_c is None:
        return words
    return tr("{night}, low {temperature}", night=words, temperature=temperature_words(night.low_c, place))


def _asked_words(night: Tonight, place: Place) -> str:
    if night.stay_out:
        return tr("may stay out tonight")
    if night.before is None:
        return tr("in before dusk")
    return tr("in before {time}", time=time_words(night.before, place))


def tonight_why(night: Tonight, stand: TwoClocks, place: Place) -> Why:
    """Return why a holder may stay out tonight or is to be in by an hour."""
    inputs = [
        (tr("hardened"), tr("yes") if stand.hardened else tr("not yet")),
        (tr("coldest of the night"), temperature_words(night.low_c, place)),
        (tr("floor of its nights"), temperature_words(night.floor_c, place)),
        (tr("strongest gust of the night"), gust_words(night.gust_ms, place)),
    ]
    if night.dusk is not None:
        inputs.append((tr("sunset"), time_words(night.dusk, place)))
    if night.falls is not None:
        inputs.append((tr("falls through the floor"), time_words(night.falls, place)))
    margin = f"{MARGIN_C * F_IN_C:.0f} °F" if place.temperature == "f" else f"{MARGIN_C:.0f} °C"
    rule = tr(
        "Out overnight only when both clocks are done, and the coldest forecast stays above "
        "the floor by {margin}, for leaves grow colder than the air under a clear sky, and "
        "gusts stay below what keeps it in by day. Otherwise it comes in before the sun "
        "sets, or before the air falls through the floor if that is sooner. A night that is "
        "not forecast is taken as cold. {day}: {cause}.",
        margin=margin,
        day=weekday_words(stand.today),
        cause=BROUGHT_IN_BY[night.cause],
    )
    return Why(tr("Tonight: {night}", night=tonight_words(night, place)), rule, tuple(inputs), SOURCES)


def _cause(hardened: bool, low: float | None, floor: float, gust: float | None, limit: float) -> Cause:
    if not hardened:
        return Cause.NOT_HARDENED
    if low is None:
        return Cause.NOT_KNOWN
    if low < floor:
        return Cause.COLD
    if low < floor + MARGIN_C:
        return Cause.NEAR_COLD
    return Cause.WIND if gust is not None and gust >= limit else Cause.NONE


def _coldest(season: Season, day: date, air: AirAhead) -> float | None:
    """Return the coldest of the night: of the hours forecast, and of the coming day's own coldest."""
    coming = weather_days(season).get(day + ONE_DAY)
    found = [] if coming is None or coming.tmin_c is None else [coming.tmin_c]
    by_hour = air.temperature_c[air.by_hour]
    if by_hour.size:
        found.append(float(np.min(by_hour)))
    return min(found, default=None)


def _strongest(air: AirAhead, dusk: datetime) -> float | None:
    night = np.array([moment >= dusk for moment in air.moments])
    gusts = air.gust_ms[night & ~np.isnan(air.gust_ms)]
    return float(np.max(gusts)) if gusts.size else None
