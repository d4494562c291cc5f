"""The plan in words: a position, a bed, what throws shade, and the whole for a screen reader."""

from __future__ import annotations

from greenroom.desk.set_out.plan_state import PlanState
from greenroom.season.hardening_words import day_words
from greenroom.season.plot import Bed, Shade
from greenroom.season.plot_plants import plants_of
from greenroom.season.plot_sun import Hours, sun_word
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.season.story import spot_words
from greenroom.speech import many

HALF_WORDS = {"day": "whole day", "morning": "morning", "afternoon": "afternoon"}


def hours_words(hours: Hours) -> str:
    """Return hours of sun as "9.2 h of sun (4.6 morning, 4.6 afternoon), full sun"."""
    return (
        f"{hours.day:.1f} h of sun ({hours.morning:.1f} morning, {hours.afternoon:.1f} afternoon), "
        f"{sun_word(hours.day)}"
    )


def place_words(season: Season, state: PlanState, spot: SpotKey) -> str:
    """Return what stands in a position and how much sun its square has."""
    bed = state.plot.bed(spot.holder)
    if bed is None:
        return ""
    words = spot_words(season, spot)
    found = state.hours.get(spot)
    return f"{words} · {hours_words(found)}" if found is not None else words


def thing_words(thing: Bed | Shade) -> str:
    """Return what a bed or obstacle is and where it lies."""
    lies = f"{thing.x_m:g} m east, {thing.y_m:g} m north, {thing.width_m:g} × {thing.depth_m:g} m"
    if isinstance(thing, Shade):
        return f"{thing.name}, {thing.height_m:g} m high, {lies}"
    turned = f", turned {thing.turned_deg:g}°" if thing.turned_deg else ""
    pots = f" of {thing.pot_litres:g} L pots" if thing.pot_litres is not None else ""
    return f"{thing.name}{pots}, {thing.rows} × {thing.columns} places, {lies}{turned}"


def summary(season: Season, state: PlanState) -> str:
    """Return the whole plan in words, for those who do not see it."""
    plot, sun = state.plot, state.sun
    lines = [f"Plan of the plot, north up: {many(len(plot.beds), 'bed')}"]
    lines += [f"{bed.name} with {_planted(season, state, bed)}" for bed in plot.beds]
    lines += [f"{one.name}, {one.height_m:g} m high" for one in plot.shades]
    text = "; ".join(lines) + "."
    if sun is None:
        return text
    hours = sun.of(state.half)
    return (
        f"{text} Sun on {day_words(sun.day)}, {HALF_WORDS[state.half]}: {float(hours.min()):.1f} to "
        f"{float(hours.max()):.1f} h; open ground has {sun.most.of(state.half):.1f} h."
    )


def _planted(season: Season, state: PlanState, bed: Bed) -> str:
    planted = sum(plant.spot.holder == bed.key for plant in plants_of(season, state.plot))
    return f"{planted} of {bed.rows * bed.columns} places planted"
