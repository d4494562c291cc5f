"""Why: the minutes of today and the ready date; where the limits of the weather come from."""

from __future__ import annotations

from datetime import date

from greenroom.agronomy.hardening import Ramp, Setback, Verdict, Walked
from greenroom.season.clock_faces import ClockFace, TwoClocks
from greenroom.season.hardening_words import SETBACK_WORDS, day_words, whole_minutes
from greenroom.season.why import Why
from greenroom.speech import many

PUBLISHED_RAMPS = (
    "University of Maryland Extension 2023: harden for 7 to 14 days, more sun each day.",
    "Illinois Extension: 14 days, up to 600 to 720 minutes a day.",
    "Beltrami County Master Gardeners, Minnesota: full sun after about a week.",
)
OWN_STEPS = (
    "How far a missed day or a setback takes a tray back is this program's own rule; the published "
    "schedules step back after harm but do not say how far."
)
RAMP_RULE = (
    "Each outing is the same share longer than the one before, from the first minutes to the last, "
    "rounded to 5. Four fifths of a step's sun without a setback is a step up; less is the same step "
    "again. A first day in keeps the step, each further day in running takes one off, a day of shade "
    "keeps it. Drooping goes back one step, or to the highest step whose minutes had been borne when it "
    "showed, whichever is lower; wilted one step lower still, leaf scorch two, with a day of rest."
)
LIMITS_FROM = (
    "Too cold: 10 °C steady, Toronto Master Gardeners; nights of 50 °F, Beltrami County Master Gardeners, "
    "Minnesota; three days at 11/5 °C injured leaves, Duan et al. 2010.",
    "Gusts: Beaufort 6 begins at 10.8 m/s and Beaufort 4 spans 5.5 to 7.9 m/s (WMO-No. 8, from memory); "
    "the limits are this program's own.",
    "Rain: common practice, no source.",
)
SETBACK_DAYS_SHOWN = 5


def minutes_why(stand: TwoClocks) -> Why:
    """Return why today asks for its minutes of sun."""
    doses = stand.sun.ramp.on(stand.today).doses
    inputs = [
        ("first and last outing", f"{doses[0]} and {doses[-1]} minutes of sun"),
        ("outings", str(len(doses))),
        ("hardening since", day_words(stand.started_on)),
        ("step today", step_words(stand)),
    ]
    inputs += [(day_words(walked.day.date), walked_words(walked)) for walked in stand.sun.days[-3:]]
    figure = f"{stand.target} minutes of sun today"
    if stand.resting:
        return Why(figure, "The day after leaf scorch is a day of rest, in.", tuple(inputs), (OWN_STEPS,))
    return Why(figure, RAMP_RULE, tuple(inputs), (*PUBLISHED_RAMPS, OWN_STEPS))


def ramp_why(ramp: Ramp, first_day: date, ready_on: date) -> Why:
    """Return why a ramp that is to begin asks for its minutes and ends on its day."""
    inputs = (
        ("first and last outing", f"{ramp.start_minutes:.0f} and {ramp.full_minutes:.0f} minutes of sun"),
        ("outings", f"{ramp.outings}, one a day"),
        ("first day", day_words(first_day)),
    )
    figure = f"{ramp.outings} outings, ready {day_words(ready_on)}"
    return Why(figure, RAMP_RULE, inputs, (*PUBLISHED_RAMPS, OWN_STEPS))


def ready_why(stand: TwoClocks) -> Why:
    """Return why a holder is ready to set out on its day."""
    held = [day for day in stand.ahead if day.verdict == "hold"]
    inputs = [
        ("first planned for", _day_or_never(stand.first_ready_on)),
        ("step today", step_words(stand)),
        ("outdoors, sun and shade", _outdoors_words(stand.air)),
        ("days of sun still to come", str(sum(day.sun_minutes > 0 for day in stand.ahead))),
    ]
    inputs += [(day_words(one.day.date), walked_words(one)) for one in _set_back(stand.sun)]
    inputs += [(day_words(one.day.date), _air_words(one)) for one in _set_back(stand.air) if one.day.setback]
    inputs += [(day_words(day.date), f"hold: {', '.join(day.reasons)}") for day in held[:SETBACK_DAYS_SHOWN]]
    rule = (
        "The day that ends the later of both clocks, sun and outdoors, if each day from now on goes as "
        "planned and without a setback. A setback goes back on the clock of what brought it on: sun, or "
        "wind; thirst on neither. Days that the forecast holds are days in; days past the forecast count as "
        "fit to go out. From that evening on the plants may stay out, as far as nights and soil allow. "
        + RAMP_RULE
    )
    return Why(f"Ready to set out {_day_or_never(stand.ready_on)}", rule, tuple(inputs), (OWN_STEPS,))


def verdict_words(said: tuple[Verdict, tuple[str, ...]]) -> str:
    """Return a verdict with its reasons in words."""
    verdict, reasons = said
    words = {"out": "A day to go out", "sheltered": "Out in a sheltered spot", "hold": "Keep them in"}
    return f"{words[verdict]}: {', '.join(reasons)}" if reasons else words[verdict]


def step_words(stand: TwoClocks) -> str:
    """Return the step of today, counted from 1."""
    return face_words(stand.sun)


def face_words(face: ClockFace) -> str:
    """Return the step of one clock, counted from 1."""
    if face.step >= face.ramp.outings:
        return f"all {face.ramp.outings} steps done"
    return f"step {face.step + 1} of {face.ramp.outings}"


def walked_words(walked: Walked) -> str:
    """Return what a day gave and what it did to the step."""
    day = walked.day
    if day.spent_in:
        gave = "in"
    elif day.minutes == 0:
        gave = f"{whole_minutes(day.shade_minutes)} minutes of shade"
    else:
        gave = f"{whole_minutes(day.minutes)} minutes of sun"
    if day.setback is not None:
        gave += f", {_shown(day.setback, day.setback_after)}"
    return f"{gave}: {_move_words(walked.after - walked.before)}"


def _air_words(walked: Walked) -> str:
    """Return what a day did to the outdoor clock."""
    day = walked.day
    shown = _shown(day.setback, day.setback_after) if day.setback else "in"
    return (
        f"{whole_minutes(day.minutes)} minutes outdoors, {shown} from the wind: "
        f"{_move_words(walked.after - walked.before)} outdoors"
    )


def _outdoors_words(face: ClockFace) -> str:
    """Return where the outdoor clock stands."""
    return face_words(face) if face.step >= face.ramp.outings else f"{face_words(face)}, {face.limit} minutes"


def _set_back(face: ClockFace) -> list[Walked]:
    """Return the latest days that set one clock back."""
    walked = [*face.days, face.settled] if face.settled else face.days
    back = [one for one in walked if one.day.setback is not None or one.after < one.before]
    return list(back[-SETBACK_DAYS_SHOWN:])


def _shown(setback: Setback, after: float | None) -> str:
    words = SETBACK_WORDS[setback]
    return words if after is None else f"{words} after {whole_minutes(after)}"


def _move_words(steps: int) -> str:
    if steps == 0:
        return "same step"
    return f"{many(abs(steps), 'step')} {'up' if steps > 0 else 'back'}"


def _day_or_never(day: date | None) -> str:
    return "not within 60 days" if day is None else day_words(day)
