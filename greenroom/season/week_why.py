"""Why the week at a look shows what it shows."""

from __future__ import annotations

from collections.abc import Sequence

from greenroom.season.hardening_why import OWN_STEPS
from greenroom.season.hardening_words import WEEKDAYS, day_words
from greenroom.season.round import DayAhead
from greenroom.season.why import Why
from greenroom.season.within import in_row
from greenroom.speech import tr

RULE = tr(
    "Each day as it will be if all goes as planned: what hardens goes out by its ramp, a "
    "step a day, unless the forecast holds it back; sowings come on the days of the "
    "plan; and every other job on the first day on which its own rule asks for it. What "
    "today's round has already is not told again. Each job has its own why on its day."
)
NOTHING = tr("nothing more")


def week_why(ahead: Sequence[DayAhead]) -> Why:
    """Return the days ahead with all that they bring, and by what rule."""
    inputs = tuple(
        (f"{WEEKDAYS[one.day.weekday()]} {day_words(one.day)}", in_row(one.lines) or NOTHING) for one in ahead
    )
    return Why(tr("The week"), RULE, inputs, (OWN_STEPS,))
