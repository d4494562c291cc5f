"""What a grower does at the door: begin hardening, send out, switch, bring in, note a setback, keep in."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from itertools import pairwise

from greenroom.agronomy.hardening import Ramp
from greenroom.ledger.facts import (
    HardeningStarted,
    Held,
    OutingEnded,
    OutingStarted,
    OutingSwitched,
    SetbackSeen,
    new_key,
)
from greenroom.season.hardening import hardening_since
from greenroom.season.outings import Outing, fold_outings
from greenroom.season.place import Place, place_of
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.state import Season

LONGEST_OUTING = timedelta(hours=72)
SETBACK_WORDS = {"droop": "drooping", "wilt": "wilted", "scorch": "leaf scorch"}


def start_hardening(season: Season, holder: str, day: date, ramp: Ramp | None = None) -> Proposal:
    """Begin the ramp of a holder; a holder that is on a ramp already is refused."""
    made = season.holder(holder)
    if hardening_since(season, holder) is not None:
        raise RefusedError(f"{made.name} is being hardened already; its ramp goes on below.")
    if season.counts(holder).living == 0:
        raise RefusedError(f"{made.name} holds no seedling; only what is up can be hardened.")
    ramp = ramp or Ramp()
    fact = HardeningStarted(
        day=day,
        holder=holder,
        start_minutes=ramp.start_minutes,
        full_minutes=ramp.full_minutes,
        outings=ramp.outings,
    )
    return Proposal(f"began hardening {made.name}", (fact,))


def stop_hardening(season: Season, holder: str) -> Proposal:
    """Take the beginning of the ramp back; outings stay written."""
    starts = [
        entry.fact.id for entry in season.holder_facts(holder) if isinstance(entry.fact, HardeningStarted)
    ]
    name = season.holder(holder).name
    if not starts:
        raise RefusedError(f"{name} is not being hardened.")
    if outing_of(season, holder) is not None:
        raise RefusedError(f"{name} is out; bring it in first.")
    return Proposal(f"stopped hardening {name}", strike=tuple(starts))


def go_out(season: Season, holder: str, at: datetime, light: str = "sun") -> Proposal:
    """Carry a holder out now."""
    name = season.holder(holder).name
    _refuse_unhardened(season, holder)
    out = outing_of(season, holder)
    place = place_of(season)
    if out is not None:
        raise RefusedError(f"{name} is out since {_clock(out.start, place)}; bring it in first.")
    _refuse_overlap(season, holder, at, None)
    day = place.local(at).date()
    fact = OutingStarted(day=day, outing=new_key(), holder=holder, at=at, light=light)
    return Proposal(f"{name} went out", (fact,))


def switch_light(season: Season, holder: str, at: datetime, light: str) -> Proposal:
    """Move a holder that is out between sun and shade."""
    outing = _open_outing(season, holder)
    name, place = season.holder(holder).name, place_of(season)
    if outing.light == light:
        raise RefusedError(f"{name} stands in the {light} already.")
    if at <= outing.stretches[-1].start:
        raise RefusedError(
            f"{name} stands in the {outing.light} since {_clock(outing.stretches[-1].start, place)}; "
            f"choose a later time."
        )
    day = place.local(at).date()
    fact = OutingSwitched(day=day, outing=outing.key, holder=holder, at=at, light=light)
    return Proposal(f"{name} into the {light}", (fact,))


def come_in(season: Season, holder: str, at: datetime) -> Proposal:
    """Carry a holder in."""
    outing = _open_outing(season, holder)
    name, place = season.holder(holder).name, place_of(season)
    if at <= outing.stretches[-1].start:
        raise RefusedError(
            f"{name} is out since {_clock(outing.start, place)}; an outing cannot end before it started."
        )
    _refuse_overlap(season, holder, outing.start, at, but=outing.key)
    day = place.local(at).date()
    fact = OutingEnded(day=day, outing=outing.key, holder=holder, at=at)
    return Proposal(f"{name} came in", (fact,))


def enter_outing(
    season: Season, holder: str, times: list[tuple[datetime, str]], end: datetime, now: datetime
) -> Proposal:
    """Write an outing afterwards: ``times`` are the moments each light began, in order."""
    _refuse_unhardened(season, holder)
    name, place = season.holder(holder).name, place_of(season)
    moments = [*(at for at, _ in times), end]
    if any(later <= earlier for earlier, later in pairwise(moments)):
        raise RefusedError(
            f"The outing of {name} starts at {_clock(moments[0], place)} and ends at {_clock(end, place)}; "
            f"it must end after it started."
        )
    if end > now:
        raise RefusedError(
            f"The outing of {name} would end at {_clock(end, place)}, which is still to come; "
            f"enter times that are past."
        )
    _refuse_overlap(season, holder, moments[0], end)
    key = new_key()
    (start, light), *switches = times
    facts = [
        OutingStarted(day=place.local(start).date(), outing=key, holder=holder, at=start, light=light),
        *(
            OutingSwitched(day=place.local(at).date(), outing=key, holder=holder, at=at, light=other)
            for at, other in switches
        ),
        OutingEnded(day=place.local(end).date(), outing=key, holder=holder, at=end),
    ]
    return Proposal(f"wrote down an outing of {name}", tuple(facts))


def strike_outing(season: Season, holder: str, key: str) -> Proposal:
    """Strike a whole outing out."""
    found = [one for one in fold_outings(season.holder_facts(holder)) if one.key == key]
    if not found:
        raise RefusedError(f"{season.holder(holder).name} has no such outing.")
    return Proposal(f"struck out an outing of {season.holder(holder).name}", strike=found[0].facts)


def setback(season: Season, holder: str, what: str, at: datetime) -> Proposal:
    """Note drooping, wilting or scorch; it belongs to an outing of the same day."""
    place = place_of(season)
    made = season.holder(holder)
    day = place.local(at).date()
    outings = fold_outings(season.holder_facts(holder))
    out_that_day = any(
        place.local(one.start).date() <= day and (one.end is None or place.local(one.end).date() >= day)
        for one in outings
        if one.start <= at
    )
    if not out_that_day:
        raise RefusedError(
            f"{made.name} has not been out on {day:%d %B}; a setback belongs to an outing of that day."
        )
    fact = SetbackSeen(day=day, holder=holder, what=what, at=at)
    return Proposal(f"{made.name}: {SETBACK_WORDS[what]}", (fact,))


def keep_in(season: Season, holder: str, day: date, why: str = "") -> Proposal:
    """Note that a holder stays in for the day, and why."""
    _refuse_unhardened(season, holder)
    made = season.holder(holder)
    place = place_of(season)
    if any(place.local(one.start).date() == day for one in fold_outings(season.holder_facts(holder))):
        raise RefusedError(f"{made.name} has been out on {day:%d %B}; a day kept in has no outing.")
    held = [
        entry.fact
        for entry in season.holder_facts(holder)
        if isinstance(entry.fact, Held) and entry.fact.day == day
    ]
    if held:
        raise RefusedError(f"{made.name} is noted as kept in on {day:%d %B} already.")
    return Proposal(f"kept {made.name} in", (Held(day=day, holder=holder, why=why.strip()),))


def outing_of(season: Season, holder: str) -> Outing | None:
    """Return the outing a holder is on, or None."""
    outings = fold_outings(season.holder_facts(holder))
    return next((one for one in outings if one.end is None), None)


def _open_outing(season: Season, holder: str) -> Outing:
    outing = outing_of(season, holder)
    if outing is None:
        raise RefusedError(f"{season.holder(holder).name} is not out.")
    return outing


def _refuse_unhardened(season: Season, holder: str) -> None:
    if hardening_since(season, holder) is None:
        raise RefusedError(f"{season.holder(holder).name} is not being hardened; start hardening it first.")


def _refuse_overlap(
    season: Season, holder: str, start: datetime, end: datetime | None, but: str | None = None
) -> None:
    place = place_of(season)
    name = season.holder(holder).name
    if end is not None and end - start > LONGEST_OUTING:
        raise RefusedError(f"An outing of {name} over 72 hours is refused; write one a day.")
    for other in fold_outings(season.holder_facts(holder)):
        if other.key == but:
            continue
        ends_before = other.end is not None and other.end <= start
        starts_after = end is not None and other.start >= end
        if not ends_before and not starts_after:
            raise RefusedError(
                f"{name} was out from {_clock(other.start, place)} to {_clock(other.end, place)} already; "
                f"two outings cannot overlap."
            )


def _clock(moment: datetime | None, place: Place) -> str:
    return f"{place.local(moment):%d %B %H:%M}" if moment is not None else "now"
