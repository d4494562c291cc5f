"""What a grower settles or notes about hardening: sky, sun on the step, counting, ramps, causes."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

from greenroom.agronomy.hardening import HoldLimits, Ramp
from greenroom.ledger.facts import (
    CAUSES,
    COUNTINGS,
    CountingSet,
    RampSet,
    SetbackSeen,
    SkySeen,
    YardSun,
)
from greenroom.season.counted import counting_on
from greenroom.season.deeds_harden import STAY, setback
from greenroom.season.door_refusals import refuse_unhardened
from greenroom.season.hardening import hardening_since
from greenroom.season.hardening_words import FROM_A_CAUSE, day_words, moment_words
from greenroom.season.place import place_of
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.sky import sky_of, sky_word
from greenroom.season.state import Season
from greenroom.season.within import within
from greenroom.speech import tr

COUNTING_WORDS = {"clock": tr("minutes of the clock"), "sun": tr("minutes weighed by the sun's strength")}


def see_sky(
    season: Season, at: datetime, cloud: float, cloth: float = 0.0, holder: str | None = None
) -> Proposal:
    """Note the sky as it is seen, and the cloth over a holder, or over all if none is named."""
    if not 0 <= cloud <= 1:
        raise RefusedError(
            tr("A cloud of {percent:.0f} % cannot be; 0 to 100 % is allowed.", percent=cloud * 100)
        )
    if not 0 <= cloth <= 1:
        raise RefusedError(
            tr("A cloth of {percent:.0f} % cannot be; 0 to 100 % is allowed.", percent=cloth * 100)
        )
    day = place_of(season).local(at).date()
    fact = SkySeen(day=day, at=at, cloud=cloud, cloth=cloth, holder=holder)
    seen = sky_word(cloud) or tr("{percent:.0f} % cloud", percent=cloud * 100)
    name = tr("saw the sky: {sky}", sky=seen)
    if cloth > 0:
        over = tr("all", sense="all trays and racks") if holder is None else season.holder(holder).name
        name += ", " + tr("{percent:.0f} % cloth over {holder}", percent=cloth * 100, holder=over)
    return Proposal(name, (fact,))


def strike_sky(season: Season, now: datetime) -> Proposal:
    """Strike out the last look at the sky of today; what was seen before it, or the forecast, holds again."""
    looks = sky_of(season).looks_until(now)
    if not looks:
        raise RefusedError(tr("The sky was not looked at today; the forecast is gone by."))
    return Proposal(tr("struck out the sky as it was seen"), strike=(looks[-1].id,))


def set_yard_sun(season: Season, first: int, last: int, day: date) -> Proposal:
    """Write down when the sun reaches the step and leaves it, in minutes after midnight by the clock."""
    if not 0 <= first < last <= 24 * 60:
        raise RefusedError(
            tr(
                "The sun cannot reach the step at {first} and leave it at {last}; it must leave "
                "after it came, on the same day.",
                first=_clock(first),
                last=_clock(last),
            )
        )
    before = season.latest(YardSun)
    if before is not None and (before.day, before.first, before.last) == (day, first, last):
        return Proposal(tr("noted the sun on the step"))
    fact = YardSun(day=day, first=first, last=last)
    return Proposal(
        tr("sun reaches the step from {first} to {last}", first=_clock(first), last=_clock(last)),
        (fact,),
    )


def count_by(season: Season, holder: str, by: str, day: date) -> Proposal:
    """Choose how a holder's sun minutes are counted from a day on."""
    if by not in COUNTINGS:
        raise RefusedError(tr("Minutes cannot be counted by {by}; the clock or the sun is allowed.", by=by))
    refuse_unhardened(season, holder)
    since, name = hardening_since(season, holder), season.holder(holder).name
    if since is not None and day < since:
        raise RefusedError(
            tr(
                "{holder} is being hardened since {day}; choose that day or later.",
                holder=name,
                day=day_words(since),
            )
        )
    act = tr("{name}: {what}", name=name, what=COUNTING_WORDS[by])
    if counting_on(season.holder_facts(holder), day) == by:
        return Proposal(act)
    return Proposal(act, (CountingSet(day=day, holder=holder, by=by),))


def set_ramp(season: Season, crop: str, ramp: Ramp, limits: HoldLimits, day: date) -> Proposal:
    """Set the ramp of a crop and the weather that keeps it in; ramps begun keep their minutes."""
    if crop not in season.guide.entries:
        raise RefusedError(tr("{crop!r} is not in the guide; choose one of its crops.", crop=crop))
    fact = RampSet(
        day=day,
        crop=crop,
        start_minutes=ramp.start_minutes,
        full_minutes=ramp.full_minutes,
        outings=ramp.outings,
        cold_c=limits.cold_c,
        gust_ms=limits.gust_m_s,
        rain_mm=limits.rain_mm,
    )
    last = next((one for one in reversed(season.facts(RampSet)) if one.crop == crop), None)
    name = tr("set the ramp of {crop}", crop=within(season.guide.entries[crop].name))
    same = last is not None and replace(fact, id=last.id, day=last.day) == last
    return Proposal(name, () if same else (fact,))


def clear_ramp(season: Season, crop: str) -> Proposal:
    """Go back to the guide's numbers for a crop."""
    ids = tuple(one.id for one in season.facts(RampSet) if one.crop == crop)
    if not ids:
        raise RefusedError(tr("No ramp was set for {crop!r}; it follows the guide already.", crop=crop))
    return Proposal(tr("took the guide's ramp for {crop}", crop=crop), strike=ids)


def setback_from(
    season: Season,
    holder: str,
    what: str,
    cause: str,
    at: datetime,
    *,
    then: str = STAY,
    now: datetime | None = None,
) -> Proposal:
    """Note a setback and what brought it on; ``then`` and ``now`` as in `setback`."""
    if cause not in CAUSES:
        raise RefusedError(
            tr("A setback cannot come from {cause}; sun, wind or thirst is allowed.", cause=cause)
        )
    return setback(season, holder, what, at, cause=cause, then=then, now=now)


def cause_again(season: Season, holder: str, fact_id: str, cause: str) -> Proposal:
    """Put a setback down to another cause: it was thirst after all, say."""
    if cause not in CAUSES:
        raise RefusedError(
            tr("A setback cannot come from {cause}; sun, wind or thirst is allowed.", cause=cause)
        )
    for entry in season.holder_facts(holder):
        seen = entry.fact
        if isinstance(seen, SetbackSeen) and seen.id == fact_id:
            name = tr(
                "{holder}: the setback of {moment} came {from_cause}",
                holder=season.holder(holder).name,
                moment=moment_words(seen.at, place_of(season)),
                from_cause=FROM_A_CAUSE[cause],
            )
            if seen.cause == cause:
                return Proposal(name)
            fresh = SetbackSeen(day=seen.day, holder=holder, what=seen.what, at=seen.at, cause=cause)
            return Proposal(name, (fresh,), (fact_id,))
    raise RefusedError(tr("{holder} has no such setback.", holder=season.holder(holder).name))


def _clock(minutes: int) -> str:
    return f"{minutes // 60}:{minutes % 60:02d}"
