"""Moving and sizing what lies on the plot, in steps of five centimetres."""

from __future__ import annotations

from dataclasses import replace
from math import cos, radians, sin

from greenroom.season.plot import Bed, Thing

STEP_M = 0.05
LEAST_M = 0.1
MOST_M = 500.0


def moved(thing: Thing, east_m: float, north_m: float) -> Thing:
    """Return a thing moved over the ground."""
    return replace(thing, x_m=snapped(thing.x_m + east_m), y_m=snapped(thing.y_m + north_m))


def sized(thing: Thing, east_m: float, north_m: float) -> Thing:
    """Return a thing whose north-east corner was dragged; a turned bed grows along its own sides."""
    angle = radians(thing.turned_deg) if isinstance(thing, Bed) else 0.0
    across = east_m * cos(angle) - north_m * sin(angle)
    up = east_m * sin(angle) + north_m * cos(angle)
    return replace(thing, width_m=_side(thing.width_m + across), depth_m=_side(thing.depth_m + up))


def snapped(metres: float) -> float:
    """Return a length in whole steps."""
    return round(round(metres / STEP_M) * STEP_M, 2) + 0.0


def _side(metres: float) -> float:
    return min(MOST_M, max(LEAST_M, snapped(metres)))
