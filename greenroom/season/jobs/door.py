"""Jobs at the door: begin hardening, out, in, kept in."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta
from typing import NamedTuple

from greenroom.ledger.facts import FrostDatesGiven
from greenroom.season.clock_faces import TwoClocks, worth_shade
from greenroom.season.deeds_harden import come_in, go_out, keep_in, start_hardening
from greenroom.season.door import AtDoor, Where, at_door
from greenroom.season.hardening import going_out, hardening_since, sun_of
from greenroom.season.hardening_why import minutes_why
from greenroom.season.hardening_words import day_words, time_words, whole_minutes
from greenroom.season.holders import Holder
from greenroom.season.jobs.job import DOOR, Job, Urgency, Walk
from greenroom.season.jobs.trays import days_there
from greenroom.season.plot_plants import crop_at
from greenroom.season.reasons import APART, REST_DAY, kept_words, reasons_words
from greenroom.season.set_out import crops_in, highest, nights
from greenroom.season.set_out_why import degrees
from greenroom.season.two_clocks import two_clocks
from greenroom.season.wants import rules_of
from greenroom.season.why import CUSTOM, Why
from greenroom.speech import tr, trn

LEAST_DAYS_UP = 28
"""What came up less than four weeks ago is too young for the sun: common practice, no source."""

NO_FLOOR_C = 0.0
"""What the guide gives no night floor for may go out once frosts are over."""

STILL_WORTH = timedelta(days=60)


class _Aim(NamedTuple):
    """The day hardening is to end by, what is said of it, and who says so."""

    day: date
    what: str
    source: str


def door_jobs(walk: Walk) -> Iterator[Job]:
    """Yield the jobs at the door."""
    for stand in standings(walk):
        job = _door_job(walk, stand)
        if job is not None:
            yield job
    yield from _start_jobs(walk)


def standings(walk: Walk) -> list[TwoClocks]:
    """Return how each holder that is being hardened stands."""
    found = (two_clocks(walk.season, key, walk.today, walk.now) for key in going_out(walk.season))
    return [stand for stand in found if stand is not None]


def _door_job(walk: Walk, stand: TwoClocks) -> Job | None:
    name = walk.season.holder(stand.holder).name
    done = tr(
        "{done} of {asked} minutes of sun done",
        done=whole_minutes(stand.sun.minutes),
        asked=stand.sun.limit,
    )
    if stand.outing is not None:
        return _come_in_job(walk, stand, name, done)
    if stand.hardened or stand.today in stand.held:
        return None
    if stand.sun.settled is not None:
        return _shade_job(walk, stand, name)
    if stand.resting:
        return _keep_in_job(walk, stand, name, REST_DAY)
    plan = next((day for day in stand.ahead if day.date == stand.today), None)
    if plan is not None and plan.verdict == "hold":
        return _keep_in_job(walk, stand, name, APART.join(plan.reasons))
    if stand.counted.outdoors > 0:
        return _go_out_job(walk, stand, tr("Send {tray} out again", tray=name), done)
    sheltered = stand.sheltered_first or (plan is not None and plan.verdict == "sheltered")
    what = tr("Send {tray} out, sheltered", tray=name) if sheltered else tr("Send {tray} out", tray=name)
    reasons = [
        tr(
            "{asked}, step {step} of {outings}",
            asked=_asked(stand),
            step=stand.sun.step + 1,
            outings=stand.sun.ramp.outings,
        )
    ]
    reason = reasons_words([*reasons, *(plan.reasons if plan else ())])
    return _go_out_job(walk, stand, what, reason)


def _asked(stand: TwoClocks) -> str:
    """Return the minutes today asks for, in sun and in shade."""
    if not stand.shade_target:
        return tr("{sun} minutes of sun", sun=stand.sun.limit)
    return tr("{sun} minutes of sun and {shade} of shade", sun=stand.sun.limit, shade=stand.shade_target)


def _go_out_job(walk: Walk, stand: TwoClocks, what: str, reason: str) -> Job:
    return Job(
        DOOR,
        what,
        reason,
        key=f"out {stand.holder}",
        button=tr("Going out"),
        page="harden",
        about=(stand.holder,),
        why=minutes_why(stand),
        doing=lambda _value: go_out(walk.season, stand.holder, walk.now),
    )


def _shade_job(walk: Walk, stand: TwoClocks, name: str) -> Job | None:
    """Return the job of what has had its sun and still wants shade; none after a setback or sunset."""
    left = worth_shade(whole_minutes(stand.shade_left))
    sun = sun_of(walk.season, walk.today)
    if not left or stand.today_setbacks or (sun is not None and walk.now > sun[1]):
        return None
    return Job(
        DOOR,
        tr("Send {tray} out into shade", tray=name),
        tr("{minutes} minutes of shade left; the sun of today is done", minutes=left),
        key=f"shade {stand.holder}",
        button=tr("Into shade"),
        page="harden",
        about=(stand.holder,),
        why=minutes_why(stand),
        doing=lambda _value: go_out(walk.season, stand.holder, walk.now, "shade"),
    )


def _keep_in_job(walk: Walk, stand: TwoClocks, name: str, reason: str) -> Job:
    return Job(
        DOOR,
        tr("Keep {tray} in", tray=name),
        kept_words(reason),
        key=f"keep in {stand.holder}",
        button=tr("Kept in", sense="a job is done"),
        page="harden",
        about=(stand.holder,),
        why=minutes_why(stand),
        doing=lambda _value: keep_in(walk.season, stand.holder, walk.today, reason),
    )


def _come_in_job(walk: Walk, stand: TwoClocks, name: str, done: str) -> Job:
    here = at_door(walk.season, stand, walk.now)
    return Job(
        DOOR,
        _bring_in(walk, here, name),
        done,
        key=f"in {stand.holder}",
        urgency=Urgency.NOW if here.over else Urgency.TODAY,
        button=tr("Back in", sense="a job is done"),
        page="harden",
        about=(stand.holder,),
        why=minutes_why(stand),
        doing=lambda _value: come_in(walk.season, stand.holder, walk.now),
    )


def _bring_in(walk: Walk, here: AtDoor, name: str) -> str:
    if here.where is Where.SHADE:
        return (
            tr("Bring {tray} into the sun, or in", tray=name)
            if here.left > 0
            else tr("Bring {tray} in", tray=name)
        )
    if here.over and here.shade_left and not here.dark:
        return tr("Bring {tray} into shade, or in, now", tray=name)
    if here.over or here.due is None:
        return tr("Bring {tray} in now", tray=name)
    return tr("Bring {tray} in at {time}", tray=name, time=time_words(here.due, walk.place))


def _start_jobs(walk: Walk) -> Iterator[Job]:
    """Yield a job for each holder whose ramp is to begin so that it is ready when it can be set out."""
    days = rules_of(walk.season).hardening_days
    aims: dict[float, _Aim | None] = {}
    for made in (*walk.season.holders("tray"), *walk.season.holders("rack")):
        if hardening_since(walk.season, made.key) is not None or not _grown(walk, made):
            continue
        asked = highest(crops_in(walk.season, made.key), "night_floor_c")
        floor_c = NO_FLOOR_C if asked is None else asked.value
        if floor_c not in aims:
            aims[floor_c] = _aim(walk, floor_c)
        aim = aims[floor_c]
        if aim is not None and aim.day - timedelta(days=days) <= walk.today <= aim.day + STILL_WORTH:
            yield _start_job(walk, made, aim, days)


def _aim(walk: Walk, floor_c: float) -> _Aim | None:
    """Return the day to be ready for: when nights are usually warm enough, else the usual last frost."""
    usual = nights(walk.season, floor_c, walk.today).usual
    if usual is not None:
        place = walk.place
        what = tr("nights of {floor} or more usually begin", floor=degrees(floor_c, place))
        return _Aim(usual, what, tr("The place's own weather record."))
    given = walk.season.latest(FrostDatesGiven)
    if given is None:
        return None
    return _Aim(
        _in_season(given.last, walk.today), tr("frosts usually end"), tr("The grower's own frost dates.")
    )


def _start_job(walk: Walk, made: Holder, aim: _Aim, days: int) -> Job:
    why = Why(
        tr("Begin hardening {tray}", tray=made.name),
        trn(
            "Hardening takes {n:,} day by the rules of the plan; begun so many days before the plants can "
            "usually be set out, it ends in time. What is under four weeks old waits.",
            "Hardening takes {n:,} days by the rules of the plan; begun so many days before the plants can "
            "usually be set out, it ends in time. What is under four weeks old waits.",
            days,
        ),
        (
            (aim.what, day_words(aim.day)),
            (tr("days of hardening"), str(days)),
            (tr("living plants"), str(walk.season.counts(made.key).living)),
        ),
        (aim.source, CUSTOM),
    )
    return Job(
        DOOR,
        tr("Begin hardening {tray}", tray=made.name),
        trn(
            "{what} {day}; the ramp takes {n:,} day",
            "{what} {day}; the ramp takes {n:,} days",
            days,
            what=aim.what,
            day=day_words(aim.day),
        ),
        key=f"start hardening {made.key}",
        urgency=Urgency.THIS_WEEK,
        button=tr("Begun", sense="hardening"),
        page="harden",
        due=aim.day - timedelta(days=days),
        why=why,
        doing=lambda _value: start_hardening(walk.season, made.key, walk.today),
    )


def _grown(walk: Walk, made: Holder) -> bool:
    """Whether what lives in a holder is old enough, and a crop of the guide that is hardened at all."""
    name = ("grown", walk.today, walk.box)
    return walk.season.holder_memo(made.key, name, lambda: _is_grown(walk, made))


def _is_grown(walk: Walk, made: Holder) -> bool:
    living = [spot for spot in walk.season.spots(made.key) if spot.up > 0]
    ages = [
        (walk.today - spot.first_up).days if spot.first_up else days_there(spot, walk.today)
        for spot in living
    ]
    crop = crop_at(walk.season, living[0]) if living else None
    return crop is not None and crop.harden_outings is not None and min(ages) >= LEAST_DAYS_UP


def _in_season(day: date, today: date) -> date:
    """Return a day of any year as the one of this season: the nearest to today."""
    years = (today.year - 1, today.year, today.year + 1)
    found = [date(year, day.month, min(day.day, 28) if day.month == 2 else day.day) for year in years]
    return min(found, key=lambda one: abs((one - today).days))
