"""The tabs of the care of a holder, in order; each is imported when it first comes to the front."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from greenroom.desk.bench import Bench
from greenroom.desk.care.part import CarePart, Day
from greenroom.speech import tr


def _water(bench: Bench, day: Day) -> CarePart:
    from greenroom.desk.care.water_part import WaterPart

    return WaterPart(bench, day)


def _feed(bench: Bench, day: Day) -> CarePart:
    from greenroom.desk.care.feed_part import FeedPart

    return FeedPart(bench, day)


def _look_over(bench: Bench, day: Day) -> CarePart:
    from greenroom.desk.care.look_over_part import LookOverPart

    return LookOverPart(bench, day)


def _cool(bench: Bench, day: Day) -> CarePart:
    from greenroom.desk.care.cool_part import CoolPart

    return CoolPart(bench, day)


@dataclass(frozen=True, slots=True)
class Face:
    """One tab: what it is called, and what makes it."""

    words: str
    make: Callable[[Bench, Day], CarePart]


FACES = {
    "water": Face(tr("Water", sense="to water"), _water),
    "feed": Face(tr("Feed", sense="to feed"), _feed),
    "look": Face(tr("Look over"), _look_over),
    "cool": Face(tr("Cool nights"), _cool),
}
"""To add a tab, write a ``CarePart`` and name what makes it here."""
