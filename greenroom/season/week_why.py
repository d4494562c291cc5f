"""Why the week at a look shows what it shows."""

from __future__ import annotations

from collections.abc import Sequence

from greenroom.season.hardening_why import OWN_STEPS
from greenroom.season.hardening_words import MONTHS, WEEKDAYS
from greenroom.season.round import DayAhead
from greenroom.season.why import Why

RULE = (
    "Each day as it will be if all goes as planned: what hardens goes out by its ramp, a step a day, unless "
    "the forecast holds it back; sowings come on the days of the plan; and every other job on the first day "
    "on which its own rule asks for it. What today's round has already is not told again. Each job has its "
    "own why on its day."
)
NOTHING = "nothing more"


def week_why(ahead: Sequence[DayAhead]) -> Why:
    """Return the days ahead with all that they bring, and by what rule."""
    inputs = tuple((_day_words(one), "; ".join(one.lines) or NOTHING) for one in ahead)
    return Why("The week", RULE, inputs, (OWN_STEPS,))


def _day_words(one: DayAhead) -> str:
    return f"{WEEKDAYS[one.day.weekday()]} {one.day.day} {MONTHS[one.day.month - 1]}"
