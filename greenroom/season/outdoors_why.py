"""Why: the hours proposed, the sun minutes counted, and what the outdoor clock asks for."""

from __future__ import annotations

from greenroom.agronomy.hardening import DayWeather, Verdict
from greenroom.agronomy.sun_minutes import noon_light
from greenroom.season.clock_faces import LEAST_SHADE_MINUTES, SHELTERED_STEPS, TwoClocks
from greenroom.season.counted import CLOCK
from greenroom.season.hardening_why import LIMITS_FROM, verdict_words
from greenroom.season.hardening_words import (
    day_words,
    gust_words,
    rain_words,
    temperature_words,
    time_words,
    whole_minutes,
)
from greenroom.season.outing_windows import (
    LEAST_LIGHT,
    MODERATE_RAIN_MM_H,
    DayWindows,
    OutingPlan,
    Part,
    Window,
)
from greenroom.season.place import Place
from greenroom.season.ramp_rules import RampRules
from greenroom.season.schedules import LONGEST_DAYS, SCHEDULES, SHADE, Schedule, envelope
from greenroom.season.why import Why
from greenroom.speech import many

CURVE_FROM = (
    "Parton, W. J. and Logan, J. A. 1981. A model for diurnal variation in soil and air temperature. "
    "Agricultural Meteorology 23:205-216.",
)
LIGHT_FROM = (
    "Haurwitz, B. 1945, 1946. Insolation in relation to cloudiness and cloud density; to cloud type. "
    "Journal of Meteorology 2:154-166 and 3:123-124.",
    "Kasten, F. and Czeplak, G. 1980. Solar and terrestrial radiation dependent on the amount and type of "
    "cloud. Solar Energy 24:177-189.",
    "Faust, J. E. and Logan, J. 2018. Daily light integral: a research review and high-resolution maps of "
    "the United States. HortScience 53:1250-1257.",
)
HOURS_FROM = (
    "World Health Organization 2002, Global Solar UV Index: the sun is strongest two hours either side of "
    "noon.",
    "American Meteorological Society, Glossary of Meteorology: moderate rain is above 2.5 mm an hour.",
    "Beltrami County Master Gardeners, Minnesota: morning sun and afternoon shade.",
)
AIR_FROM = (
    "University of Florida, Institute of Food and Agricultural Sciences: 60 to 120 minutes, and about 60 "
    "more a day, shade first.",
    "Beltrami County Master Gardeners, Minnesota: 180 to 240 minutes of shade, and 60 to 120 more a day.",
    "University of Maryland Extension 2023: shade and shelter first.",
)
GUST_M_S, RAIN_MM = 7.0, 5.0
"""Gusts and rain that ask for shelter, as `greenroom.agronomy.hardening.verdict` has them."""
PART_WORDS = {
    Part.MORNING: "in the morning",
    Part.AFTERNOON: "late in the afternoon",
    Part.MIDDAY: "over noon",
}


def window_words(window: Window | None, place: Place) -> str:
    """Return a proposed stretch of sun: 8:20 to 9:15, in the morning."""
    if window is None:
        return "no hour is fit for sun"
    words = f"{time_words(window.start, place)} to {time_words(window.end, place)}, {PART_WORDS[window.part]}"
    return words if window.whole else f"{words}, the longest there is"


def shade_plan_words(outing: OutingPlan | None, place: Place) -> str:
    """Return when a proposed outing stands in shade, before its sun and after; empty where it hardly does."""
    if outing is None:
        return ""
    out, back = time_words(outing.out, place), time_words(outing.back, place)
    if outing.sun is None:
        return f"shade {out} to {back}"
    before = f"shade from {out} first" if outing.shade_before >= LEAST_SHADE_MINUTES else ""
    after = f"then shade to {back}" if outing.shade_after >= LEAST_SHADE_MINUTES else ""
    return ", ".join(part for part in (before, after) if part)


def window_why(found: DayWindows, place: Place) -> Why:
    """Return why these hours are proposed for an outing."""
    limits = found.limits
    inputs = [
        ("asked for", f"{whole_minutes(found.asked)} minutes of sun, {_counted_words(found.by)}"),
        ("open from", temperature_words(limits.cold_c, place)),
        ("closed by gusts of", gust_words(limits.gust_m_s, place)),
        ("temperature from", _told_words(found)),
    ]
    if found.yard is not None:
        first, last = (time_words(moment, place) for moment in found.yard)
        inputs.append(("sun on the step", f"{first} to {last}"))
    inputs += [
        (f"closed {time_words(span.start, place)} to {time_words(span.end, place)}", ", ".join(span.reasons))
        for span in found.closed
    ]
    if found.best is not None and found.best.light_mol_m2 is not None:
        inputs.append(("light", f"{found.best.light_mol_m2:.1f} mol/m²"))
    rule = (
        "Hours at the crop's floor or warmer, without gusts or rain "
        f"(over {MODERATE_RAIN_MM_H:g} mm an hour) that keep it in, with sun on the step at least "
        f"{LEAST_LIGHT:.0%} as strong as a clear noon. Of those the stretch with the gentlest light: in the "
        "morning if the minutes fit before the four strongest hours, else late in the afternoon, else over "
        "noon. Shade follows a morning's sun and comes before any other. What is not known closes no hour."
    )
    figure = f"Out {day_words(found.day)}: {window_words(found.best, place)}"
    return Why(figure, rule, tuple(inputs), (*HOURS_FROM, *CURVE_FROM, *LIGHT_FROM))


def hold_why(
    said: tuple[Verdict, tuple[str, ...]], weather: DayWeather, rules: RampRules, place: Place
) -> Why:
    """Return why a day's weather lets a holder out, asks for shelter, or holds it, by its crop's limits."""
    limits = rules.limits
    inputs = (
        ("warmest of the day", temperature_words(weather.tmax, place)),
        ("strongest gust", gust_words(weather.gust, place)),
        ("rain of the day", rain_words(weather.rain, place)),
        ("limits", "the grower's own" if rules.chosen else "of the crop, by the guide"),
    )
    rule = (
        f"Hold if the day does not reach {temperature_words(limits.cold_c, place)}, gusts reach "
        f"{gust_words(limits.gust_m_s, place)}, or {rain_words(limits.rain_mm, place)} of rain fall. "
        f"Sheltered, out of the wind and under cover, from gusts of {gust_words(GUST_M_S, place)} or "
        f"{rain_words(RAIN_MM, place)} of rain. What is not known holds nothing back."
    )
    return Why(verdict_words(said), rule, inputs, LIMITS_FROM)


def counted_why(stand: TwoClocks, place: Place) -> Why:
    """Return why today counts so many sun minutes, and the light they gave."""
    counted = stand.counted
    inputs = [
        ("counted by", _counted_words(stand.by)),
        ("in the sun by the clock", many(whole_minutes(counted.clock), "minute")),
        ("in shade by the clock", many(whole_minutes(counted.shade), "minute")),
    ]
    if counted.weighed is not None and place.latitude is not None and place.longitude is not None:
        noon = noon_light(stand.today, place.latitude, place.longitude)
        inputs += [
            ("weighed by the light", many(whole_minutes(counted.weighed), "sun minute")),
            ("clear noon", f"{noon:.0f} µmol/m²/s"),
            ("light in the sun", f"{counted.light_mol_m2 or 0.0:.1f} mol/m²"),
        ]
    rule = (
        "A sun minute is a minute at the light of a clear noon here today: each minute in the sun counts by "
        "its light on level ground over that, by the sun's height, the cloud as it was seen or forecast, and "
        "the cloth over the leaves. By the clock each minute counts as one. A ramp in sun minutes ends at "
        "what a whole clear day gives if that is less. Minutes in shade count on the outdoor clock."
    )
    figure = f"{whole_minutes(counted.sun(stand.by))} of {stand.sun.limit} minutes of sun today"
    return Why(figure, rule, tuple(inputs), LIGHT_FROM)


def shade_why(stand: TwoClocks) -> Why:
    """Return why today asks for so many minutes in shade."""
    day = (stand.today - stand.started_on).days + 1
    band = envelope(day, SHADE)
    inputs = [
        ("outdoors, this step", f"{stand.air.limit} minutes"),
        ("of them in the sun", f"{stand.sun.limit} minutes"),
        ("outdoors so far today", many(whole_minutes(stand.air.minutes), "minute")),
        ("step", f"{min(stand.air.step + 1, stand.air.ramp.outings)} of {stand.air.ramp.outings}"),
    ]
    if band is not None:
        inputs.append(
            (f"schedules that begin in shade, day {day}", f"{band.low:.0f} to {band.high:.0f} minutes")
        )
    rule = (
        "A clock of its own counts all minutes outdoors, for wind and dry air act in shade as well. It "
        "begins at two hours and goes up an hour a day, this program's working rule within the published "
        "ones; what the sun clock does not ask for is spent in shade. An outing counts for every step it was "
        f"long enough for. A tender tray stands sheltered for the first {SHELTERED_STEPS} steps. Harm by "
        "wind goes back on this clock and leaves the sun clock alone."
    )
    return Why(
        f"{whole_minutes(stand.shade_left)} minutes of shade still to come today",
        rule,
        tuple(inputs),
        AIR_FROM,
    )


def schedules_why(days: int) -> Why:
    """Return the published schedules behind the bands of the chart, each with what it asks for."""
    inputs = [
        (one.source, f"{one.light}; {_first_words(one)}; {one.days[0]} to {one.days[1]} days; {one.seen}")
        for one in SCHEDULES
    ]
    rule = (
        "On each day the band reaches from the least to the most that any schedule of its light asks for, in "
        "shade and in direct sun apart. Days a schedule does not state are worked out from its first day and "
        "its step, or left out where it gives none."
    )
    figure = f"What published schedules ask for, day 1 to {min(days, LONGEST_DAYS)}"
    return Why(
        figure, rule, tuple(inputs), tuple(f"{one.source}: {one.note}" for one in SCHEDULES if one.note)
    )


def _first_words(schedule: Schedule) -> str:
    if schedule.first is None:
        return "no minutes stated"
    low, high = schedule.first
    return f"first day {low:.0f} minutes" if low == high else f"first day {low:.0f} to {high:.0f} minutes"


def _counted_words(by: str) -> str:
    return "the clock" if by == CLOCK else "the sun's strength"


def _told_words(found: DayWindows) -> str:
    if not found.known:
        return "nothing; it closes no hour"
    return "the forecast's hours" if found.by_hour else "a curve between the day's coldest and warmest"
