"""What a grower does at the door: begin hardening, send out, switch, bring in, note a setback, keep in.

``now``, where it is given, is this moment: a time after it is refused.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, date, datetime, time, timedelta
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
from greenroom.season.hardening_words import SETBACK_WORDS, day_words, moment_words
from greenroom.season.outings import Outing, fold_outings, open_outing
from greenroom.season.place import Place, place_of
from greenroom.season.proposal import Proposal, RefusedError, together
from greenroom.season.ramp_rules import rules_of_holder
from greenroom.season.state import Season
from greenroom.speech import many

LONGEST_OUTING = timedelta(hours=72)
IN, STAY = "in", ""


def ramp_of(start_minutes: float, full_minutes: float, outings: int) -> Ramp:
    """Return the ramp a grower chose; numbers that make none are refused."""
    if start_minutes >= full_minutes:
        raise RefusedError(
            f"The first outing is {start_minutes:.0f} minutes and the last {full_minutes:.0f}; "
            "the last must be longer."
        )
    return Ramp(start_minutes, full_minutes, outings)


def start_hardening(season: Season, holder: str, day: date, ramp: Ramp | None = None) -> Proposal:
    """Begin the ramp of a holder, that of its crops unless one is given; one on a ramp already is refused."""
    made = season.holder(holder)
    if hardening_since(season, holder) is not None:
        raise RefusedError(f"{made.name} is being hardened already; its ramp goes on below.")
    if season.counts(holder).living == 0:
        raise RefusedError(f"{made.name} holds no seedling; only what is up can be hardened.")
    if day < made.made_on:
        raise RefusedError(
            f"{made.name} is in use since {day_words(made.made_on)}; choose that day or a later one."
        )
    ramp = ramp or rules_of_holder(season, holder).ramp
    fact = HardeningStarted(
        day=day,
        holder=holder,
        start_minutes=ramp.start_minutes,
        full_minutes=ramp.full_minutes,
        outings=ramp.outings,
    )
    return Proposal(f"began hardening {made.name}", (fact,))


def start_all(season: Season, holders: Sequence[str], day: date, ramp: Ramp) -> Proposal:
    """Begin the ramps of several holders as one act."""
    if not holders:
        raise RefusedError("No tray or rack is chosen; choose at least one to harden.")
    parts = [start_hardening(season, holder, day, ramp) for holder in holders]
    return _as_one(parts, f"began hardening {many(len(parts), 'holder')}")


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


def go_out(
    season: Season, holder: str, at: datetime, light: str = "sun", *, now: datetime | None = None
) -> Proposal:
    """Carry a holder out; a note that it is kept in that day is struck out with it."""
    name, place = season.holder(holder).name, place_of(season)
    out = outing_of(season, holder)
    if out is not None:
        raise RefusedError(f"{name} is out since {moment_words(out.start, place)}; bring it in first.")
    _refuse_before_ramp(season, holder, at)
    _refuse_future(name, at, now, place)
    _refuse_overlap(season, holder, at, None)
    day = place.local(at).date()
    fact = OutingStarted(day=day, outing=new_key(), holder=holder, at=at, light=light)
    return Proposal(f"{name} went out into the {light}", (fact,), _held_on(season, holder, {day}))


def all_out(season: Season, holders: Sequence[str], at: datetime, light: str = "sun") -> Proposal:
    """Carry several holders out as one act."""
    if not holders:
        raise RefusedError("No tray or rack is waiting to go out.")
    parts = [go_out(season, holder, at, light) for holder in holders]
    return _as_one(parts, f"{many(len(parts), 'holder')} went out into the {light}")


def switch_light(
    season: Season, holder: str, at: datetime, light: str, *, now: datetime | None = None
) -> Proposal:
    """Move a holder that is out between sun and shade."""
    outing = _outing_on(season, holder)
    name, place = season.holder(holder).name, place_of(season)
    if outing.light == light:
        raise RefusedError(f"{name} stands in the {light} already.")
    _refuse_before_latest(name, outing, at, place)
    _refuse_future(name, at, now, place)
    day = place.local(at).date()
    fact = OutingSwitched(day=day, outing=outing.key, holder=holder, at=at, light=light)
    return Proposal(f"{name} into the {light}", (fact,))


def come_in(season: Season, holder: str, at: datetime, *, now: datetime | None = None) -> Proposal:
    """Carry a holder in."""
    outing = _outing_on(season, holder)
    name, place = season.holder(holder).name, place_of(season)
    _refuse_before_latest(name, outing, at, place)
    _refuse_future(name, at, now, place)
    if at - outing.start > LONGEST_OUTING:
        raise RefusedError(
            f"{name} is out since {moment_words(outing.start, place)}, more than 72 hours before; "
            "enter the time it came in."
        )
    _refuse_overlap(season, holder, outing.start, at, but=outing.key)
    day = place.local(at).date()
    fact = OutingEnded(day=day, outing=outing.key, holder=holder, at=at)
    return Proposal(f"{name} came in", (fact,))


def all_in(season: Season, holders: Sequence[str], at: datetime) -> Proposal:
    """Carry several holders in as one act."""
    if not holders:
        raise RefusedError("No tray or rack is out.")
    parts = [come_in(season, holder, at) for holder in holders]
    return _as_one(parts, f"{many(len(parts), 'holder')} came in")


def all_switched(season: Season, holders: Sequence[str], at: datetime, light: str) -> Proposal:
    """Move several holders that are out into the sun or into shade as one act."""
    if not holders:
        raise RefusedError("No tray or rack is out.")
    parts = [switch_light(season, holder, at, light) for holder in holders]
    return _as_one(parts, f"{many(len(parts), 'holder')} into the {light}")


def enter_outing(
    season: Season, holder: str, times: Sequence[tuple[datetime, str]], end: datetime, now: datetime
) -> Proposal:
    """Write an outing afterwards: ``times`` are the moments each light began, in order."""
    name, place = season.holder(holder).name, place_of(season)
    start = times[0][0]
    _refuse_before_ramp(season, holder, start)
    if end <= start:
        raise RefusedError(
            f"The outing of {name} starts at {moment_words(start, place)} and ends at "
            f"{moment_words(end, place)}; it must end after it started."
        )
    if any(later <= earlier for earlier, later in pairwise([*(at for at, _ in times), end])):
        raise RefusedError(f"{name} changed between sun and shade outside its outing; times must rise.")
    _refuse_future(name, end, now, place)
    if end - start > LONGEST_OUTING:
        raise RefusedError(f"An outing of {name} over 72 hours is refused; write one a day.")
    _refuse_overlap(season, holder, start, end)
    key = new_key()
    (_, light), *switches = times
    facts = [
        OutingStarted(day=place.local(start).date(), outing=key, holder=holder, at=start, light=light),
        *(
            OutingSwitched(day=place.local(at).date(), outing=key, holder=holder, at=at, light=other)
            for at, other in switches
        ),
        OutingEnded(day=place.local(end).date(), outing=key, holder=holder, at=end),
    ]
    days = {place.local(start).date() + timedelta(days=more) for more in range(LONGEST_OUTING.days + 2)}
    spent_out = {day for day in days if day <= place.local(end).date()}
    return Proposal(f"wrote down an outing of {name}", tuple(facts), _held_on(season, holder, spent_out))


def strike_outing(season: Season, holder: str, key: str) -> Proposal:
    """Strike a whole outing out."""
    found = [one for one in fold_outings(season.holder_facts(holder)) if one.key == key]
    if not found:
        raise RefusedError(f"{season.holder(holder).name} has no such outing.")
    return Proposal(f"struck out an outing of {season.holder(holder).name}", strike=found[0].facts)


def strike_sign(season: Season, holder: str, fact_id: str) -> Proposal:
    """Strike out a setback, or the note that a holder was kept in."""
    name = season.holder(holder).name
    for entry in season.holder_facts(holder):
        if entry.fact.id == fact_id and isinstance(entry.fact, SetbackSeen | Held):
            return Proposal(f"struck out a {entry.fact.words} of {name}", strike=(fact_id,))
    raise RefusedError(f"{name} has no such setback or day kept in.")


def setback(
    season: Season, holder: str, what: str, at: datetime, *, then: str = STAY, now: datetime | None = None
) -> Proposal:
    """Note drooping, wilting or scorch seen at a time; it belongs to an outing of the same day.

    ``then`` is what is done at once, as part of the act: "in", "shade", or "" for nothing. What is
    done, is done ``now``, or when it was seen if that is not given.
    """
    name, place = season.holder(holder).name, place_of(season)
    _refuse_unhardened(season, holder)
    _refuse_future(name, at, now, place)
    day = place.local(at).date()
    begun = [one for one in fold_outings(season.holder_facts(holder)) if one.start <= at]
    if not any(one.touches(day, place.zone) for one in begun):
        raise RefusedError(_never_out(name, day, begun, place))
    _refuse_before_ramp(season, holder, at)
    act = f"{name}: {SETBACK_WORDS.get(what, what)}"
    parts = [Proposal(act, (SetbackSeen(day=day, holder=holder, what=what, at=at),))]
    if then == IN:
        parts.append(come_in(season, holder, now or at))
    elif then != STAY:
        parts.append(switch_light(season, holder, now or at, then))
    return together(", ".join([act, *(part.name.removeprefix(f"{name} ") for part in parts[1:])]), parts)


def keep_in(season: Season, holder: str, day: date, why: str = "") -> Proposal:
    """Note that a holder stays in for the day, and why."""
    _refuse_unhardened(season, holder)
    name, place = season.holder(holder).name, place_of(season)
    if any(one.touches(day, place.zone) for one in fold_outings(season.holder_facts(holder))):
        raise RefusedError(f"{name} has been out on {day_words(day)}; a day kept in has no outing.")
    if _held_on(season, holder, {day}):
        raise RefusedError(f"{name} is noted as kept in on {day_words(day)} already.")
    return Proposal(f"kept {name} in", (Held(day=day, holder=holder, why=why.strip()),))


def outing_of(season: Season, holder: str) -> Outing | None:
    """Return the outing a holder is on, or None."""
    return open_outing(fold_outings(season.holder_facts(holder)))


def local_moment(day: date, clock: time, place: Place) -> datetime:
    """Return the moment of a local time of day; one that the clocks skip is refused.

    A time that comes twice, when the clocks go back, is taken as the first.
    """
    moment = datetime.combine(day, clock, tzinfo=place.zone)
    if place.local(moment.astimezone(UTC)).replace(tzinfo=None) != moment.replace(tzinfo=None):
        raise RefusedError(
            f"There is no {clock:%H:%M} on {day_words(day)}: the clocks go forward over it; "
            "choose another time."
        )
    return moment.astimezone(UTC)


def _as_one(parts: Sequence[Proposal], name: str) -> Proposal:
    return parts[0] if len(parts) == 1 else together(name, parts)


def _outing_on(season: Season, holder: str) -> Outing:
    outing = outing_of(season, holder)
    if outing is None:
        raise RefusedError(f"{season.holder(holder).name} is not out.")
    return outing


def _held_on(season: Season, holder: str, days: set[date]) -> tuple[str, ...]:
    """Return the ids of the notes that a holder was kept in on any of ``days``."""
    facts = (entry.fact for entry in season.holder_facts(holder))
    return tuple(fact.id for fact in facts if isinstance(fact, Held) and fact.day in days)


def _never_out(name: str, day: date, begun: Sequence[Outing], place: Place) -> str:
    words = f"{name} has not been out on {day_words(day)}; a setback belongs to an outing of the same day"
    if not begun or begun[-1].end is None:
        return f"{words}."
    return f"{words}, and its last ended at {moment_words(begun[-1].end, place)}."


def _refuse_unhardened(season: Season, holder: str) -> None:
    if hardening_since(season, holder) is None:
        raise RefusedError(f"{season.holder(holder).name} is not being hardened; start hardening it first.")


def _refuse_before_ramp(season: Season, holder: str, at: datetime) -> None:
    _refuse_unhardened(season, holder)
    since = hardening_since(season, holder)
    if since is not None and place_of(season).local(at).date() < since:
        name = season.holder(holder).name
        raise RefusedError(
            f"{name} is being hardened since {day_words(since)}; choose a time on that day or later."
        )


def _refuse_future(name: str, at: datetime, now: datetime | None, place: Place) -> None:
    if now is not None and at > now:
        raise RefusedError(
            f"{moment_words(at, place)} is still to come for {name}; enter a time that is past."
        )


def _refuse_before_latest(name: str, outing: Outing, at: datetime, place: Place) -> None:
    """Refuse a moment that is not after the start of the outing's latest stretch."""
    if at <= outing.start:
        raise RefusedError(
            f"{name} is out since {moment_words(outing.start, place)}; "
            "an outing cannot end before it started."
        )
    since = outing.stretches[-1].start
    if at <= since:
        raise RefusedError(
            f"{name} stands in the {outing.light} since {moment_words(since, place)}; choose a later time."
        )


def _refuse_overlap(
    season: Season, holder: str, start: datetime, end: datetime | None, but: str | None = None
) -> None:
    name, place = season.holder(holder).name, place_of(season)
    for other in fold_outings(season.holder_facts(holder)):
        ends_before = other.end is not None and other.end <= start
        starts_after = end is not None and other.start >= end
        if other.key == but or ends_before or starts_after:
            continue
        until = "now" if other.end is None else moment_words(other.end, place)
        raise RefusedError(
            f"{name} was out from {moment_words(other.start, place)} to {until} already; "
            "two outings cannot overlap."
        )
