"""Why: the minutes of today, the light on the leaves, the ready date and the verdict of the weather."""

from __future__ import annotations

from datetime import date

from greenroom.agronomy.hardening import DayWeather, Ramp, Setback, Verdict, Walked
from greenroom.season.hardening import Standing
from greenroom.season.hardening_words import (
    SETBACK_WORDS,
    day_words,
    gust_words,
    many,
    rain_words,
    temperature_words,
    whole_minutes,
)
from greenroom.season.place import Place
from greenroom.season.why import Why

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
LIGHT_FROM = (
    "Haurwitz, B. 1945, 1946. Insolation in relation to cloudiness and cloud density; to cloud type. "
    "Journal of Meteorology 2:154-166 and 3:123-124.",
    "Faust, J. E. and Logan, J. 2018. Daily light integral: a research review and high-resolution maps of "
    "the United States. HortScience 53:1250-1257.",
)
SETBACK_DAYS_SHOWN = 5


def minutes_why(stand: Standing) -> Why:
    """Return why today asks for its minutes of sun."""
    ramp = stand.ramp
    inputs = [
        ("first and last outing", f"{ramp.start_minutes:.0f} and {ramp.full_minutes:.0f} minutes of sun"),
        ("outings", str(ramp.outings)),
        ("hardening since", day_words(stand.started_on)),
        ("step today", step_words(stand)),
    ]
    inputs += [(day_words(walked.day.date), walked_words(walked)) for walked in stand.days[-3:]]
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


def ready_why(stand: Standing) -> Why:
    """Return why a holder is ready to set out on its day."""
    held = [day for day in stand.ahead if day.verdict == "hold"]
    inputs = [
        ("first planned for", _day_or_never(stand.first_ready_on)),
        ("step today", step_words(stand)),
        ("days of sun still to come", str(sum(day.minutes > 0 for day in stand.ahead))),
    ]
    walked = [*stand.days, stand.settled] if stand.settled else stand.days
    back = [one for one in walked if one.day.setback is not None or one.after < one.before]
    inputs += [(day_words(one.day.date), walked_words(one)) for one in back[-SETBACK_DAYS_SHOWN:]]
    inputs += [(day_words(day.date), f"hold: {', '.join(day.reasons)}") for day in held[:SETBACK_DAYS_SHOWN]]
    rule = (
        "The day of the outing that ends the ramp, if each day from now on goes as planned and without a "
        "setback. Days that the forecast holds are days in; days past the forecast count as fit to go out. "
        "From that evening on the plants may stay out, as far as nights and soil allow. " + RAMP_RULE
    )
    return Why(f"Ready to set out {_day_or_never(stand.ready_on)}", rule, tuple(inputs), (OWN_STEPS,))


def verdict_why(
    weather: DayWeather, said: tuple[Verdict, tuple[str, ...]], place: Place, source: str = ""
) -> Why:
    """Return why a day's weather lets trays out, asks for shelter, or holds them."""
    inputs = [
        ("warmest of the day", temperature_words(weather.tmax, place)),
        ("strongest gust", gust_words(weather.gust, place)),
        ("rain of the day", rain_words(weather.rain, place)),
    ]
    if source:
        inputs.append(("weather from", source))
    rule = (
        f"Hold if the day does not reach {temperature_words(10, place)}, gusts reach "
        f"{gust_words(11, place)}, or {rain_words(15, place)} of rain fall. Sheltered, out of the wind and "
        f"under cover, from gusts of {gust_words(7, place)} or {rain_words(5, place)} of rain. What is not "
        "known holds nothing back."
    )
    return Why(verdict_words(said), rule, tuple(inputs), LIMITS_FROM)


def dose_why(so_far: float, minutes: float, planned: float | None, place: Place) -> Why:
    """Return why the leaves got their light: ``so_far`` and ``planned`` in mol/m²."""
    latitude, longitude = place.latitude or 0.0, place.longitude or 0.0
    inputs = [
        ("place", f"{latitude:.2f}°, {longitude:.2f}°"),
        ("minutes in direct sun today", str(whole_minutes(minutes))),
    ]
    if planned is not None:
        inputs.append(("by the planned end", f"{planned:.1f} mol/m²"))
    rule = (
        "The sun's height at each moment in the sun gives the light of a cloudless sky (400 to 700 nm, on "
        "level ground), added up over the minutes. Cloud, haze, glass and the shade of leaves take from it: "
        "it is the most the leaves can have had. Minutes in shade are not counted."
    )
    return Why(f"{so_far:.1f} mol/m² of light under a clear sky", rule, tuple(inputs), LIGHT_FROM)


def verdict_words(said: tuple[Verdict, tuple[str, ...]]) -> str:
    """Return a verdict with its reasons in words."""
    verdict, reasons = said
    words = {"out": "A day to go out", "sheltered": "Out in a sheltered spot", "hold": "Keep them in"}
    return f"{words[verdict]}: {', '.join(reasons)}" if reasons else words[verdict]


def step_words(stand: Standing) -> str:
    """Return the step of today, counted from 1."""
    if stand.step >= stand.ramp.outings:
        return f"all {stand.ramp.outings} steps done"
    return f"step {stand.step + 1} of {stand.ramp.outings}"


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


def _shown(setback: Setback, after: float | None) -> str:
    words = SETBACK_WORDS[setback]
    return words if after is None else f"{words} after {whole_minutes(after)}"


def _move_words(steps: int) -> str:
    if steps == 0:
        return "same step"
    return f"{many(abs(steps), 'step')} {'up' if steps > 0 else 'back'}"


def _day_or_never(day: date | None) -> str:
    return "not within 60 days" if day is None else day_words(day)
