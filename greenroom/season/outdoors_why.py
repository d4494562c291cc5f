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
from greenroom.speech import figure, many, tr, trn

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
    tr(
        "World Health Organization 2002, Global Solar UV Index: the sun is strongest two "
        "hours either side of noon."
    ),
    tr("American Meteorological Society, Glossary of Meteorology: moderate rain is above 2.5 mm an hour."),
    tr("Beltrami County Master Gardeners, Minnesota: morning sun and afternoon shade."),
)
AIR_FROM = (
    tr(
        "University of Florida, Institute of Food and Agricultural Sciences: 60 to 120 "
        "minutes, and about 60 more a day, shade first."
    ),
    tr("Beltrami County Master Gardeners, Minnesota: 180 to 240 minutes of shade, and 60 to 120 more a day."),
    tr("University of Maryland Extension 2023: shade and shelter first."),
)
GUST_M_S, RAIN_MM = 7.0, 5.0
"""Gusts and rain that ask for shelter, as `greenroom.agronomy.hardening.verdict` has them."""
PART_WORDS = {
    Part.MORNING: tr("in the morning"),
    Part.AFTERNOON: tr("late in the afternoon"),
    Part.MIDDAY: tr("over noon"),
}


def window_words(window: Window | None, place: Place) -> str:
    """Return a proposed stretch of sun: 8:20 to 9:15, in the morning."""
    if window is None:
        return tr("no hour is fit for sun")
    words = tr(
        "{start} to {end}, {part}",
        start=time_words(window.start, place),
        end=time_words(window.end, place),
        part=PART_WORDS[window.part],
    )
    return words if window.whole else tr("{hours}, the longest there is", hours=words)


def shade_plan_words(outing: OutingPlan | None, place: Place) -> str:
    """Return when a proposed outing stands in shade, before its sun and after; empty where it hardly does."""
    if outing is None:
        return ""
    out, back = time_words(outing.out, place), time_words(outing.back, place)
    if outing.sun is None:
        return tr("shade {out} to {back}", out=out, back=back)
    before = tr("shade from {out} first", out=out) if outing.shade_before >= LEAST_SHADE_MINUTES else ""
    after = tr("then shade to {back}", back=back) if outing.shade_after >= LEAST_SHADE_MINUTES else ""
    return ", ".join(part for part in (before, after) if part)


def window_why(found: DayWindows, place: Place) -> Why:
    """Return why these hours are proposed for an outing."""
    limits = found.limits
    inputs = [
        (
            tr("asked for"),
            trn(
                "{n} minute of sun, {counted}",
                "{n} minutes of sun, {counted}",
                whole_minutes(found.asked),
                counted=_counted_words(found.by),
            ),
        ),
        (tr("open from"), temperature_words(limits.cold_c, place)),
        (tr("closed by gusts of"), gust_words(limits.gust_m_s, place)),
        (tr("temperature from"), _told_words(found)),
    ]
    if found.yard is not None:
        first, last = (time_words(moment, place) for moment in found.yard)
        inputs.append((tr("sun on the step"), tr("{first} to {last}", first=first, last=last)))
    inputs += [
        (
            tr(
                "closed {start} to {end}",
                start=time_words(span.start, place),
                end=time_words(span.end, place),
            ),
            ", ".join(span.reasons),
        )
        for span in found.closed
    ]
    if found.best is not None and found.best.light_mol_m2 is not None:
        inputs.append((tr("light"), f"{figure(found.best.light_mol_m2, '.1f')} mol/m²"))
    rule = tr(
        "Hours at the crop's floor or warmer, without gusts or rain (over "
        "{rain:g} mm an hour) that keep it in, with sun on the step at least "
        "{light:.0f}% as strong as a clear noon. Of those the stretch with the gentlest "
        "light: in the morning if the minutes fit before the four strongest hours, else late "
        "in the afternoon, else over noon. Shade follows a morning's sun and comes before "
        "any other. What is not known closes no hour.",
        rain=MODERATE_RAIN_MM_H,
        light=LEAST_LIGHT * 100,
    )
    said = tr("Out {day}: {window}", day=day_words(found.day), window=window_words(found.best, place))
    return Why(said, rule, tuple(inputs), (*HOURS_FROM, *CURVE_FROM, *LIGHT_FROM))


def hold_why(
    said: tuple[Verdict, tuple[str, ...]], weather: DayWeather, rules: RampRules, place: Place
) -> Why:
    """Return why a day's weather lets a holder out, asks for shelter, or holds it, by its crop's limits."""
    limits = rules.limits
    inputs = (
        (tr("warmest of the day"), temperature_words(weather.tmax, place)),
        (tr("strongest gust"), gust_words(weather.gust, place)),
        (tr("rain of the day"), rain_words(weather.rain, place)),
        (tr("limits"), tr("the grower's own") if rules.chosen else tr("of the crop, by the guide")),
    )
    rule = tr(
        "Hold if the day does not reach {temperature}, gusts reach {strong_gust}, or {heavy_rain} of rain "
        "fall. Sheltered, out of the wind and under cover, from gusts of {gust} or {rain} of rain. What is "
        "not known holds nothing back.",
        temperature=temperature_words(limits.cold_c, place),
        strong_gust=gust_words(limits.gust_m_s, place),
        heavy_rain=rain_words(limits.rain_mm, place),
        gust=gust_words(GUST_M_S, place),
        rain=rain_words(RAIN_MM, place),
    )
    return Why(verdict_words(said), rule, inputs, LIMITS_FROM)


def counted_why(stand: TwoClocks, place: Place) -> Why:
    """Return why today counts so many sun minutes, and the light they gave."""
    counted = stand.counted
    inputs = [
        (tr("counted by"), _counted_words(stand.by)),
        (tr("in the sun by the clock"), many(whole_minutes(counted.clock), "minute")),
        (tr("in shade by the clock"), many(whole_minutes(counted.shade), "minute")),
    ]
    if counted.weighed is not None and place.latitude is not None and place.longitude is not None:
        noon = noon_light(stand.today, place.latitude, place.longitude)
        inputs += [
            (tr("weighed by the light"), many(whole_minutes(counted.weighed), "sun minute")),
            (tr("clear noon"), f"{figure(noon, '.0f')} µmol/m²/s"),
            (tr("light in the sun"), f"{figure(counted.light_mol_m2 or 0.0, '.1f')} mol/m²"),
        ]
    rule = tr(
        "A sun minute is a minute at the light of a clear noon here today: each minute in "
        "the sun counts by its light on level ground over that, by the sun's height, the "
        "cloud as it was seen or forecast, and the cloth over the leaves. By the clock each "
        "minute counts as one. A ramp in sun minutes ends at what a whole clear day gives if "
        "that is less. Minutes in shade count on the outdoor clock."
    )
    said = trn(
        "{had} of {n} minute of sun today",
        "{had} of {n} minutes of sun today",
        stand.sun.limit,
        had=whole_minutes(counted.sun(stand.by)),
    )
    return Why(said, rule, tuple(inputs), LIGHT_FROM)


def shade_why(stand: TwoClocks) -> Why:
    """Return why today asks for so many minutes in shade."""
    day = (stand.today - stand.started_on).days + 1
    band = envelope(day, SHADE)
    inputs = [
        (tr("outdoors, this step"), trn("{n} minute", "{n} minutes", stand.air.limit)),
        (tr("of them in the sun"), trn("{n} minute", "{n} minutes", stand.sun.limit)),
        (tr("outdoors so far today"), many(whole_minutes(stand.air.minutes), "minute")),
        (
            tr("step"),
            tr(
                "{step} of {steps}",
                step=min(stand.air.step + 1, stand.air.ramp.outings),
                steps=stand.air.ramp.outings,
            ),
        ),
    ]
    if band is not None:
        inputs.append(
            (
                tr("schedules that begin in shade, day {day}", day=day),
                tr("{low:.0f} to {high:.0f} minutes", low=band.low, high=band.high),
            )
        )
    rule = tr(
        "A clock of its own counts all minutes outdoors, for wind and dry air act in shade "
        "as well. It begins at two hours and goes up an hour a day, this program's working "
        "rule within the published ones; what the sun clock does not ask for is spent in "
        "shade. An outing counts for every step it was long enough for. A tender tray stands "
        "sheltered for the first {steps} steps. Harm by wind goes back on this "
        "clock and leaves the sun clock alone.",
        steps=SHELTERED_STEPS,
    )
    return Why(
        trn(
            "{n} minute of shade still to come today",
            "{n} minutes of shade still to come today",
            whole_minutes(stand.shade_left),
        ),
        rule,
        tuple(inputs),
        AIR_FROM,
    )


def schedules_why(days: int) -> Why:
    """Return the published schedules behind the bands of the chart, each with what it asks for."""
    inputs = [
        (
            one.source,
            tr(
                "{light}; {first_day}; {shortest} to {longest} days; {seen}",
                light=one.light,
                first_day=_first_words(one),
                shortest=one.days[0],
                longest=one.days[1],
                seen=one.seen,
            ),
        )
        for one in SCHEDULES
    ]
    rule = tr(
        "On each day the band reaches from the least to the most that any schedule of its "
        "light asks for, in shade and in direct sun apart. Days a schedule does not state "
        "are worked out from its first day and its step, or left out where it gives none."
    )
    said = tr("What published schedules ask for, day 1 to {last}", last=min(days, LONGEST_DAYS))
    return Why(said, rule, tuple(inputs), tuple(f"{one.source}: {one.note}" for one in SCHEDULES if one.note))


def _first_words(schedule: Schedule) -> str:
    if schedule.first is None:
        return tr("no minutes stated")
    low, high = schedule.first
    return (
        tr("first day {minutes:.0f} minutes", minutes=low)
        if low == high
        else tr("first day {low:.0f} to {high:.0f} minutes", low=low, high=high)
    )


def _counted_words(by: str) -> str:
    return tr("the clock") if by == CLOCK else tr("the sun's strength")


def _told_words(found: DayWindows) -> str:
    if not found.known:
        return tr("nothing; it closes no hour")
    return (
        tr("the forecast's hours") if found.by_hour else tr("a curve between the day's coldest and warmest")
    )
