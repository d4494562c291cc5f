"""Why: the minutes of today and the ready date; where the limits of the weather come from."""

from __future__ import annotations

from datetime import date

from greenroom.agronomy.hardening import Ramp, Setback, Verdict, Walked
from greenroom.season.clock_faces import ClockFace, TwoClocks
from greenroom.season.hardening_words import SETBACK_WORDS, day_words, ready_day_words, whole_minutes
from greenroom.season.reasons import reasons_words
from greenroom.season.why import Why
from greenroom.speech import tr, trn

PUBLISHED_RAMPS = (
    tr("University of Maryland Extension 2023: harden for 7 to 14 days, more sun each day."),
    tr("Illinois Extension: 14 days, up to 600 to 720 minutes a day."),
    tr("Beltrami County Master Gardeners, Minnesota: full sun after about a week."),
)
OWN_STEPS = tr(
    "How far a missed day or a setback takes a tray back is this program's own rule; the "
    "published schedules step back after harm but do not say how far."
)
RAMP_RULE = tr(
    "Each outing is the same share longer than the one before, from the first minutes to "
    "the last, rounded to 5. Four fifths of a step's sun without a setback is a step up; "
    "less is the same step again. A first day in keeps the step, each further day in "
    "running takes one off, a day of shade keeps it. Drooping goes back one step, or to "
    "the highest step whose minutes had been borne when it showed, whichever is lower; "
    "wilted one step lower still, leaf scorch two, with a day of rest."
)
LIMITS_FROM = (
    tr(
        "Too cold: 10 °C steady, Toronto Master Gardeners; nights of 50 °F, Beltrami County "
        "Master Gardeners, Minnesota; three days at 11/5 °C injured leaves, Duan et al. 2010."
    ),
    tr(
        "Gusts: Beaufort 6 begins at 10.8 m/s and Beaufort 4 spans 5.5 to 7.9 m/s (WMO-No. "
        "8, from memory); the limits are this program's own."
    ),
    tr("Rain: common practice, no source."),
)
SETBACK_DAYS_SHOWN = 5


def minutes_why(stand: TwoClocks) -> Why:
    """Return why today asks for its minutes of sun."""
    doses = stand.sun.ramp.on(stand.today).doses
    inputs = [
        (
            tr("first and last outing"),
            tr("{first} and {last} minutes of sun", first=doses[0], last=doses[-1]),
        ),
        (tr("outings"), str(len(doses))),
        (tr("hardening since"), day_words(stand.started_on)),
        (tr("step today"), step_words(stand)),
    ]
    inputs += [(day_words(walked.day.date), walked_words(walked)) for walked in stand.sun.days[-3:]]
    figure = trn("{n} minute of sun today", "{n} minutes of sun today", stand.target)
    if stand.resting:
        return Why(figure, tr("The day after leaf scorch is a day of rest, in."), tuple(inputs), (OWN_STEPS,))
    return Why(figure, RAMP_RULE, tuple(inputs), (*PUBLISHED_RAMPS, OWN_STEPS))


def ramp_why(ramp: Ramp, first_day: date, ready_on: date) -> Why:
    """Return why a ramp that is to begin asks for its minutes and ends on its day."""
    inputs = (
        (
            tr("first and last outing"),
            tr(
                "{first:.0f} and {last:.0f} minutes of sun",
                first=ramp.start_minutes,
                last=ramp.full_minutes,
            ),
        ),
        (tr("outings"), tr("{outings}, one a day", outings=ramp.outings)),
        (tr("first day"), day_words(first_day)),
    )
    figure = trn("{n} outing, ready {day}", "{n} outings, ready {day}", ramp.outings, day=day_words(ready_on))
    return Why(figure, RAMP_RULE, inputs, (*PUBLISHED_RAMPS, OWN_STEPS))


def ready_why(stand: TwoClocks) -> Why:
    """Return why a holder is ready to set out on its day."""
    held = [day for day in stand.ahead if day.verdict == "hold"]
    inputs = [
        (tr("first planned for"), ready_day_words(stand.first_ready_on)),
        (tr("step today"), step_words(stand)),
        (tr("outdoors, sun and shade"), _outdoors_words(stand.air)),
        (tr("days of sun still to come"), str(sum(day.sun_minutes > 0 for day in stand.ahead))),
    ]
    inputs += [(day_words(one.day.date), walked_words(one)) for one in _set_back(stand.sun)]
    inputs += [(day_words(one.day.date), _air_words(one)) for one in _set_back(stand.air) if one.day.setback]
    inputs += [
        (day_words(day.date), tr("hold: {reasons}", reasons=reasons_words(day.reasons)))
        for day in held[:SETBACK_DAYS_SHOWN]
    ]
    rule = (
        tr(
            "The day that ends the later of both clocks, sun and outdoors, if each day from now "
            "on goes as planned and without a setback. A setback goes back on the clock of what "
            "brought it on: sun, or wind; thirst on neither. Days that the forecast holds are "
            "days in; days past the forecast count as fit to go out. From that evening on the "
            "plants may stay out, as far as nights and soil allow."
        )
        + " "
        + RAMP_RULE
    )
    return Why(
        tr("Ready to set out {day}", day=ready_day_words(stand.ready_on)), rule, tuple(inputs), (OWN_STEPS,)
    )


def verdict_words(said: tuple[Verdict, tuple[str, ...]]) -> str:
    """Return a verdict with its reasons in words."""
    verdict, reasons = said
    words = {
        "out": tr("A day to go out"),
        "sheltered": tr("Out in a sheltered spot"),
        "hold": tr("Keep them in"),
    }
    if not reasons:
        return words[verdict]
    return tr("{name}: {what}", name=words[verdict], what=reasons_words(reasons))


def step_words(stand: TwoClocks) -> str:
    """Return the step of today, counted from 1."""
    return face_words(stand.sun)


def face_words(face: ClockFace) -> str:
    """Return the step of one clock, counted from 1."""
    if face.step >= face.ramp.outings:
        return tr("all {steps} steps done", steps=face.ramp.outings)
    return tr("step {step} of {outings}", step=face.step + 1, outings=face.ramp.outings)


def walked_words(walked: Walked) -> str:
    """Return what a day gave and what it did to the step."""
    day = walked.day
    if day.spent_in:
        gave = tr("in", sense="indoors")
    elif day.minutes == 0:
        gave = trn("{n} minute of shade", "{n} minutes of shade", whole_minutes(day.shade_minutes))
    else:
        gave = trn("{n} minute of sun", "{n} minutes of sun", whole_minutes(day.minutes))
    if day.setback is not None:
        gave += f", {_shown(day.setback, day.setback_after)}"
    return tr("{name}: {what}", name=gave, what=move_words(walked.after - walked.before))


def _air_words(walked: Walked) -> str:
    """Return what a day did to the outdoor clock."""
    day = walked.day
    shown = _shown(day.setback, day.setback_after) if day.setback else tr("in", sense="indoors")
    return trn(
        "{n} minute outdoors, {shown} from the wind: {move} outdoors",
        "{n} minutes outdoors, {shown} from the wind: {move} outdoors",
        whole_minutes(day.minutes),
        shown=shown,
        move=move_words(walked.after - walked.before),
    )


def _outdoors_words(face: ClockFace) -> str:
    """Return where the outdoor clock stands."""
    return (
        face_words(face)
        if face.step >= face.ramp.outings
        else trn("{step}, {n} minute", "{step}, {n} minutes", face.limit, step=face_words(face))
    )


def _set_back(face: ClockFace) -> list[Walked]:
    """Return the latest days that set one clock back."""
    walked = [*face.days, face.settled] if face.settled else face.days
    back = [one for one in walked if one.day.setback is not None or one.after < one.before]
    return list(back[-SETBACK_DAYS_SHOWN:])


def _shown(setback: Setback, after: float | None) -> str:
    words = SETBACK_WORDS[setback]
    return (
        words
        if after is None
        else tr("{setback} after {minutes}", setback=words, minutes=whole_minutes(after))
    )


def move_words(steps: int) -> str:
    """Return what a day did to the step."""
    if steps == 0:
        return tr("same step")
    if steps > 0:
        return trn("{n} step up", "{n} steps up", steps)
    return trn("{n} step back", "{n} steps back", -steps)
