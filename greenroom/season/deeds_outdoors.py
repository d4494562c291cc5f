"""What a grower settles or notes about hardening: sky, sun on the step, counting, ramps, causes."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

from greenroom.agronomy.hardening import HoldLimits, Ramp
from greenroom.ledger.facts import (
    CAUSES,
    COUNTINGS,
    CountingSet,
    Fact,
    RampSet,
    SetbackSeen,
    SkySeen,
    YardSun,
)
from greenroom.season import deeds_harden
from greenroom.season.counted import counting_on
from greenroom.season.hardening import hardening_since
from greenroom.season.hardening_words import day_words, moment_words
from greenroom.season.place import place_of
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.sky import sky_of, sky_word
from greenroom.season.state import Season

COUNTING_WORDS = {"clock": "minutes of the clock", "sun": "minutes weighed by the sun's strength"}
CAUSE_WORDS = {"sun": "from the sun", "wind": "from the wind", "thirst": "from thirst"}


def see_sky(
    season: Season, at: datetime, cloud: float, cloth: float = 0.0, holder: str | None = None
) -> Proposal:
    """Note the sky as it is seen, and the cloth over a holder, or over all if none is named."""
    for what, value in (("cloud", cloud), ("cloth", cloth)):
        if not 0 <= value <= 1:
            raise RefusedError(f"A {what} of {value * 100:.0f} % cannot be; 0 to 100 % is allowed.")
    day = place_of(season).local(at).date()
    fact = SkySeen(day=day, at=at, cloud=cloud, cloth=cloth, holder=holder)
    seen = sky_word(cloud) or f"{cloud * 100:.0f} % cloud"
    name = f"saw the sky: {seen}"
    if cloth > 0:
        over = "all" if holder is None else season.holder(holder).name
        name += f", {cloth * 100:.0f} % cloth over {over}"
    return Proposal(name, (fact,))


def strike_sky(season: Season, now: datetime) -> Proposal:
    """Strike out the last look at the sky of today; what was seen before it, or the forecast, holds again."""
    looks = sky_of(season).looks_until(now)
    if not looks:
        raise RefusedError("The sky was not looked at today; the forecast is gone by.")
    return Proposal("struck out the sky as it was seen", strike=(looks[-1].id,))


def set_yard_sun(season: Season, first: int, last: int, day: date) -> Proposal:
    """Write down when the sun reaches the step and leaves it, in minutes after midnight by the clock."""
    if not 0 <= first < last <= 24 * 60:
        raise RefusedError(
            f"The sun cannot reach the step at {_clock(first)} and leave it at {_clock(last)}; "
            "it must leave after it came, on the same day."
        )
    before = season.latest(YardSun)
    if before is not None and (before.day, before.first, before.last) == (day, first, last):
        return Proposal("noted the sun on the step")
    fact = YardSun(day=day, first=first, last=last)
    return Proposal(f"sun reaches the step from {_clock(first)} to {_clock(last)}", (fact,))


def count_by(season: Season, holder: str, by: str, day: date) -> Proposal:
    """Choose how a holder's sun minutes are counted from a day on."""
    if by not in COUNTINGS:
        raise RefusedError(f"Minutes cannot be counted by {by}; the clock or the sun is allowed.")
    since = hardening_since(season, holder)
    name = season.holder(holder).name
    if since is None:
        raise RefusedError(f"{name} is not being hardened; start hardening it first.")
    if day < since:
        raise RefusedError(f"{name} is being hardened since {day_words(since)}; choose that day or later.")
    act = f"{name}: {COUNTING_WORDS[by]}"
    if counting_on(season.holder_facts(holder), day) == by:
        return Proposal(act)
    return Proposal(act, (CountingSet(day=day, holder=holder, by=by),))


def set_ramp(season: Season, crop: str, ramp: Ramp, limits: HoldLimits, day: date) -> Proposal:
    """Set the ramp of a crop and the weather that keeps it in; ramps begun keep their minutes."""
    if crop not in season.guide.entries:
        raise RefusedError(f"{crop!r} is not in the guide; choose one of its crops.")
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
    name = f"set the ramp of {season.guide.entries[crop].name.lower()}"
    same = last is not None and replace(fact, id=last.id, day=last.day) == last
    return Proposal(name, () if same else (fact,))


def clear_ramp(season: Season, crop: str) -> Proposal:
    """Go back to the guide's numbers for a crop."""
    ids = tuple(one.id for one in season.facts(RampSet) if one.crop == crop)
    if not ids:
        raise RefusedError(f"No ramp was set for {crop!r}; it follows the guide already.")
    return Proposal(f"took the guide's ramp for {crop}", strike=ids)


def setback_from(
    season: Season,
    holder: str,
    what: str,
    cause: str,
    at: datetime,
    *,
    then: str = deeds_harden.STAY,
    now: datetime | None = None,
) -> Proposal:
    """Note a setback and what brought it on; ``then`` and ``now`` as in ``deeds_harden.setback``."""
    if cause not in CAUSES:
        raise RefusedError(f"A setback cannot come from {cause}; sun, wind or thirst is allowed.")
    noted = deeds_harden.setback(season, holder, what, at, then=then, now=now)
    facts = tuple(_with_cause(fact, cause) for fact in noted.record)
    head, comma, rest = noted.name.partition(", ")
    return replace(noted, name=f"{head} {CAUSE_WORDS[cause]}{comma}{rest}", record=facts)


def cause_again(season: Season, holder: str, fact_id: str, cause: str) -> Proposal:
    """Put a setback down to another cause: it was thirst after all, say."""
    if cause not in CAUSES:
        raise RefusedError(f"A setback cannot come from {cause}; sun, wind or thirst is allowed.")
    for entry in season.holder_facts(holder):
        seen = entry.fact
        if isinstance(seen, SetbackSeen) and seen.id == fact_id:
            name = f"{season.holder(holder).name}: the setback of {moment_words(seen.at, place_of(season))}"
            fresh = SetbackSeen(day=seen.day, holder=holder, what=seen.what, at=seen.at, cause=cause)
            same = seen.cause == cause
            return Proposal(
                f"{name} came {CAUSE_WORDS[cause]}", () if same else (fresh,), () if same else (fact_id,)
            )
    raise RefusedError(f"{season.holder(holder).name} has no such setback.")


def _with_cause(fact: Fact, cause: str) -> Fact:
    return replace(fact, cause=cause) if isinstance(fact, SetbackSeen) else fact


def _clock(minutes: int) -> str:
    return f"{minutes // 60}:{minutes % 60:02d}"
