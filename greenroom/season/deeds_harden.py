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
from greenroom.season.deeds_care import refuse_before_use
from greenroom.season.door_refusals import (
    never_out,
    refuse_before_latest,
    refuse_before_ramp,
    refuse_future,
    refuse_overlap,
    refuse_unhardened,
)
from greenroom.season.few_words import IN_LIGHT, INTO_LIGHT
from greenroom.season.hardening import hardening_since
from greenroom.season.hardening_words import FROM_A_CAUSE, SETBACK_WORDS, day_words, moment_words
from greenroom.season.outings import Outing, fold_outings, open_outing
from greenroom.season.place import Place, place_of
from greenroom.season.proposal import Proposal, RefusedError, together
from greenroom.season.ramp_rules import rules_of_holder
from greenroom.season.state import Season
from greenroom.speech import many, tr

LONGEST_OUTING = timedelta(hours=72)
IN, STAY, SUN = "in", "", "sun"


def ramp_of(start_minutes: float, full_minutes: float, outings: int) -> Ramp:
    """Return the ramp a grower chose; numbers that make none are refused."""
    if start_minutes >= full_minutes:
        raise RefusedError(
            tr(
                "The first outing is {first:.0f} minutes and the last {last:.0f}; the last must be longer.",
                first=start_minutes,
                last=full_minutes,
            )
        )
    return Ramp(start_minutes, full_minutes, outings)


def start_hardening(season: Season, holder: str, day: date, ramp: Ramp | None = None) -> Proposal:
    """Begin the ramp of a holder, that of its crops unless one is given; one on a ramp already is refused."""
    made = season.holder(holder)
    if hardening_since(season, holder) is not None:
        raise RefusedError(
            tr("{holder} is being hardened already; its ramp goes on below.", holder=made.name)
        )
    if season.counts(holder).living == 0:
        raise RefusedError(
            tr("{holder} holds no seedling; only what is up can be hardened.", holder=made.name)
        )
    refuse_before_use(made, day)
    ramp = ramp or rules_of_holder(season, holder).ramp
    fact = HardeningStarted(
        day=day,
        holder=holder,
        start_minutes=ramp.start_minutes,
        full_minutes=ramp.full_minutes,
        outings=ramp.outings,
    )
    return Proposal(tr("began hardening {holder}", holder=made.name), (fact,))


def start_all(season: Season, holders: Sequence[str], day: date, ramp: Ramp) -> Proposal:
    """Begin the ramps of several holders as one act."""
    if not holders:
        raise RefusedError(tr("No tray or rack is chosen; choose at least one to harden."))
    parts = [start_hardening(season, holder, day, ramp) for holder in holders]
    return _as_one(parts, tr("began hardening {holders}", holders=many(len(parts), "holder")))


def stop_hardening(season: Season, holder: str) -> Proposal:
    """Take the beginning of the ramp back; outings stay written."""
    starts = [
        entry.fact.id for entry in season.holder_facts(holder) if isinstance(entry.fact, HardeningStarted)
    ]
    name = season.holder(holder).name
    if not starts:
        raise RefusedError(tr("{holder} is not being hardened.", holder=name))
    if outing_of(season, holder) is not None:
        raise RefusedError(tr("{holder} is out; bring it in first.", holder=name))
    return Proposal(tr("stopped hardening {holder}", holder=name), strike=tuple(starts))


def go_out(
    season: Season, holder: str, at: datetime, light: str = "sun", *, now: datetime | None = None
) -> Proposal:
    """Carry a holder out; a note that it is kept in that day is struck out with it."""
    name, place = season.holder(holder).name, place_of(season)
    out = outing_of(season, holder)
    if out is not None:
        raise RefusedError(
            tr(
                "{holder} is out since {moment}; bring it in first.",
                holder=name,
                moment=moment_words(out.start, place),
            )
        )
    refuse_before_ramp(season, holder, at)
    refuse_future(name, at, now, place)
    refuse_overlap(season, holder, at, None)
    day = place.local(at).date()
    fact = OutingStarted(day=day, outing=new_key(), holder=holder, at=at, light=light)
    return Proposal(
        tr("{holder} went out {into_light}", holder=name, into_light=INTO_LIGHT[light]),
        (fact,),
        _held_on(season, holder, {day}),
    )


def all_out(season: Season, holders: Sequence[str], at: datetime, light: str = "sun") -> Proposal:
    """Carry several holders out as one act."""
    if not holders:
        raise RefusedError(tr("No tray or rack is waiting to go out."))
    parts = [go_out(season, holder, at, light) for holder in holders]
    holders_out = many(len(parts), "holder")
    name = tr("{holders} went out {into_light}", holders=holders_out, into_light=INTO_LIGHT[light])
    return _as_one(parts, name)


def switch_light(
    season: Season, holder: str, at: datetime, light: str, *, now: datetime | None = None
) -> Proposal:
    """Move a holder that is out between sun and shade."""
    outing = _outing_on(season, holder)
    name, place = season.holder(holder).name, place_of(season)
    if outing.light == light:
        raise RefusedError(tr("{holder} stands {in_light} already.", holder=name, in_light=IN_LIGHT[light]))
    refuse_before_latest(name, outing, at, place)
    refuse_future(name, at, now, place)
    day = place.local(at).date()
    fact = OutingSwitched(day=day, outing=outing.key, holder=holder, at=at, light=light)
    return Proposal(tr("{holder} {into_light}", holder=name, into_light=INTO_LIGHT[light]), (fact,))


def come_in(season: Season, holder: str, at: datetime, *, now: datetime | None = None) -> Proposal:
    """Carry a holder in."""
    outing = _outing_on(season, holder)
    name, place = season.holder(holder).name, place_of(season)
    refuse_before_latest(name, outing, at, place)
    refuse_future(name, at, now, place)
    if at - outing.start > LONGEST_OUTING:
        raise RefusedError(
            tr(
                "{holder} is out since {moment}, more than 72 hours before; enter the time it came in.",
                holder=name,
                moment=moment_words(outing.start, place),
            )
        )
    refuse_overlap(season, holder, outing.start, at, but=outing.key)
    day = place.local(at).date()
    fact = OutingEnded(day=day, outing=outing.key, holder=holder, at=at)
    return Proposal(tr("{holder} came in", holder=name), (fact,))


def all_in(season: Season, holders: Sequence[str], at: datetime) -> Proposal:
    """Carry several holders in as one act."""
    if not holders:
        raise RefusedError(tr("No tray or rack is out."))
    parts = [come_in(season, holder, at) for holder in holders]
    return _as_one(parts, tr("{holders} came in", holders=many(len(parts), "holder")))


def all_switched(season: Season, holders: Sequence[str], at: datetime, light: str) -> Proposal:
    """Move several holders that are out into the sun or into shade as one act."""
    if not holders:
        raise RefusedError(tr("No tray or rack is out."))
    parts = [switch_light(season, holder, at, light) for holder in holders]
    return _as_one(
        parts, tr("{holders} {into_light}", holders=many(len(parts), "holder"), into_light=INTO_LIGHT[light])
    )


def enter_outing(
    season: Season, holder: str, times: Sequence[tuple[datetime, str]], end: datetime, now: datetime
) -> Proposal:
    """Write an outing afterwards: ``times`` are the moments each light began, in order."""
    name, place = season.holder(holder).name, place_of(season)
    start = times[0][0]
    refuse_before_ramp(season, holder, start)
    if end <= start:
        raise RefusedError(
            tr(
                "The outing of {holder} starts at {start} and ends at {end}; it must end after it started.",
                holder=name,
                start=moment_words(start, place),
                end=moment_words(end, place),
            )
        )
    if any(later <= earlier for earlier, later in pairwise([*(at for at, _ in times), end])):
        raise RefusedError(
            tr("{holder} changed between sun and shade outside its outing; times must rise.", holder=name)
        )
    refuse_future(name, end, now, place)
    if end - start > LONGEST_OUTING:
        raise RefusedError(
            tr("An outing of {holder} over 72 hours is refused; write one a day.", holder=name)
        )
    refuse_overlap(season, holder, start, end)
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
    return Proposal(
        tr("wrote down an outing of {holder}", holder=name), tuple(facts), _held_on(season, holder, spent_out)
    )


def strike_outing(season: Season, holder: str, key: str) -> Proposal:
    """Strike a whole outing out."""
    found = [one for one in fold_outings(season.holder_facts(holder)) if one.key == key]
    name = season.holder(holder).name
    if not found:
        raise RefusedError(tr("{holder} has no such outing.", holder=name))
    return Proposal(tr("struck out an outing of {holder}", holder=name), strike=found[0].facts)


def strike_sign(season: Season, holder: str, fact_id: str) -> Proposal:
    """Strike out a setback, or the note that a holder was kept in."""
    name = season.holder(holder).name
    for entry in season.holder_facts(holder):
        if entry.fact.id == fact_id and isinstance(entry.fact, SetbackSeen | Held):
            return Proposal(
                tr("struck out a {entry} of {holder}", entry=entry.fact.words, holder=name), strike=(fact_id,)
            )
    raise RefusedError(tr("{holder} has no such setback or day kept in.", holder=name))


def setback(
    season: Season,
    holder: str,
    what: str,
    at: datetime,
    *,
    cause: str = "",
    then: str = STAY,
    now: datetime | None = None,
) -> Proposal:
    """Note drooping, wilting or scorch seen at a time; it belongs to an outing of the same day.

    ``cause`` is what brought it on, the sun where none is told.
    ``then`` is what is done at once, as part of the act: "in", "shade", or "" for nothing. What is
    done, is done ``now``, or when it was seen if that is not given.
    """
    name, place = season.holder(holder).name, place_of(season)
    refuse_unhardened(season, holder)
    refuse_future(name, at, now, place)
    day = place.local(at).date()
    begun = [one for one in fold_outings(season.holder_facts(holder)) if one.start <= at]
    if not any(one.touches(day, place.zone) for one in begun):
        raise RefusedError(never_out(name, day, begun, place))
    refuse_before_ramp(season, holder, at)
    act = tr("{name}: {what}", name=name, what=SETBACK_WORDS.get(what, what))
    if cause:
        act = f"{act} {FROM_A_CAUSE[cause]}"
    fact = SetbackSeen(day=day, holder=holder, what=what, at=at, cause=cause or SUN)
    parts = [Proposal(act, (fact,))]
    if then == IN:
        parts.append(come_in(season, holder, now or at))
        return together(f"{act}, {tr('came in')}", parts)
    if then != STAY:
        parts.append(switch_light(season, holder, now or at, then))
        return together(f"{act}, {INTO_LIGHT[then]}", parts)
    return parts[0]


def keep_in(season: Season, holder: str, day: date, why: str = "") -> Proposal:
    """Note that a holder stays in for the day, and why."""
    refuse_unhardened(season, holder)
    name, place = season.holder(holder).name, place_of(season)
    if any(one.touches(day, place.zone) for one in fold_outings(season.holder_facts(holder))):
        raise RefusedError(
            tr(
                "{holder} has been out on {day}; a day kept in has no outing.",
                holder=name,
                day=day_words(day),
            )
        )
    if _held_on(season, holder, {day}):
        raise RefusedError(
            tr("{holder} is noted as kept in on {day} already.", holder=name, day=day_words(day))
        )
    return Proposal(tr("kept {holder} in", holder=name), (Held(day=day, holder=holder, why=why.strip()),))


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
            tr(
                "There is no {clock:%H:%M} on {day}: the clocks go forward over it; choose another time.",
                clock=clock,
                day=day_words(day),
            )
        )
    return moment.astimezone(UTC)


def _as_one(parts: Sequence[Proposal], name: str) -> Proposal:
    return parts[0] if len(parts) == 1 else together(name, parts)


def _outing_on(season: Season, holder: str) -> Outing:
    outing = outing_of(season, holder)
    if outing is None:
        raise RefusedError(tr("{holder} is not out.", holder=season.holder(holder).name))
    return outing


def _held_on(season: Season, holder: str, days: set[date]) -> tuple[str, ...]:
    """Return the ids of the notes that a holder was kept in on any of ``days``."""
    facts = (entry.fact for entry in season.holder_facts(holder))
    return tuple(fact.id for fact in facts if isinstance(fact, Held) and fact.day in days)
