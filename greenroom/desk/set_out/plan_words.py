"""The plan in words: a position, a bed, what throws shade, and the whole for a screen reader."""

from __future__ import annotations

from greenroom.desk.set_out.plan_state import PlanState
from greenroom.season.hardening_words import day_words
from greenroom.season.plot import Bed, Shade
from greenroom.season.plot_plants import plants_of
from greenroom.season.plot_sun import Hours, sun_word
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.season.story import glance_words
from greenroom.season.within import in_row
from greenroom.speech import many, tr

HALF_WORDS = {"day": tr("whole day"), "morning": tr("morning"), "afternoon": tr("afternoon")}


def hours_words(hours: Hours) -> str:
    """Return hours of sun as "9.2 h of sun (4.6 morning, 4.6 afternoon), full sun"."""
    return tr(
        "{day:.1f} h of sun ({morning:.1f} morning, {afternoon:.1f} afternoon), {sun}",
        day=hours.day,
        morning=hours.morning,
        afternoon=hours.afternoon,
        sun=sun_word(hours.day),
    )


def place_words(season: Season, state: PlanState, spot: SpotKey) -> str:
    """Return what stands in a position and how much sun its square has."""
    bed = state.plot.bed(spot.holder)
    if bed is None:
        return ""
    words = glance_words(season, spot)
    found = state.hours.get(spot)
    return f"{words} · {hours_words(found)}" if found is not None else words


def thing_words(thing: Bed | Shade) -> str:
    """Return what a bed or obstacle is and where it lies."""
    lies = tr(
        "{east:g} m east, {north:g} m north, {width:g} × {depth:g} m",
        east=thing.x_m,
        north=thing.y_m,
        width=thing.width_m,
        depth=thing.depth_m,
    )
    if isinstance(thing, Shade):
        high = tr("{name}, {metres:g} m high", name=thing.name, metres=thing.height_m)
        return f"{high}, {lies}"
    name = thing.name
    if thing.pot_litres is not None:
        name = tr("{name} of {litres:g} L pots", name=name, litres=thing.pot_litres)
    size = tr("{rows} × {columns} places", rows=thing.rows, columns=thing.columns)
    turned = tr(", turned {degrees:g}°", degrees=thing.turned_deg) if thing.turned_deg else ""
    return f"{name}, {size}, {lies}{turned}"


def summary(season: Season, state: PlanState) -> str:
    """Return the whole plan in words, for those who do not see it."""
    plot, sun = state.plot, state.sun
    lines = [tr("Plan of the plot, north up: {beds}", beds=many(len(plot.beds), "bed"))]
    lines += [
        tr("{bed} with {planted}", bed=bed.name, planted=_planted(season, state, bed)) for bed in plot.beds
    ]
    lines += [tr("{name}, {metres:g} m high", name=one.name, metres=one.height_m) for one in plot.shades]
    text = f"{in_row(lines)}."
    if sun is None:
        return text
    hours = sun.of(state.half)
    lit = tr(
        "Sun on {day}, {half}: {least:.1f} to {most:.1f} h; open ground has {open:.1f} h.",
        day=day_words(sun.day),
        half=HALF_WORDS[state.half],
        least=float(hours.min()),
        most=float(hours.max()),
        open=sun.most.of(state.half),
    )
    return f"{text} {lit}"


def _planted(season: Season, state: PlanState, bed: Bed) -> str:
    planted = sum(plant.spot.holder == bed.key for plant in plants_of(season, state.plot))
    return tr("{planted} of {places} places planted", planted=planted, places=bed.rows * bed.columns)
