"""A ramp as tables: its minutes beside what published schedules ask for, and how its ready date narrowed."""

from __future__ import annotations

from collections.abc import Sequence

from greenroom.exchange.tables.table import Cell, Column, Kind, Table
from greenroom.season.ramp_rules import RampRules
from greenroom.season.ready_history import SpreadOn
from greenroom.season.schedules import LONGEST_DAYS, SHADE, SUN, envelope
from greenroom.speech import tr

OUTINGS = (
    Column("outing", "Outing", Kind.WHOLE),
    Column("sun", "Sun", Kind.NUMBER, "min"),
    Column("outdoors", "Outdoors", Kind.NUMBER, "min"),
    Column("shade_least", "Schedules in shade, least", Kind.NUMBER, "min"),
    Column("shade_most", "Schedules in shade, most", Kind.NUMBER, "min"),
    Column("direct_least", "Schedules in direct sun, least", Kind.NUMBER, "min"),
    Column("direct_most", "Schedules in direct sun, most", Kind.NUMBER, "min"),
)
MORNINGS = (
    Column("morning", "Morning", Kind.DATE),
    Column("early", "Ready, early year", Kind.DATE),
    Column("usual", "Ready, usual year", Kind.DATE),
    Column("late", "Ready, late year", Kind.DATE),
    Column("years", "Years counted", Kind.WHOLE),
)


def ramp_table(rules: RampRules) -> Table:
    """Return the minutes of a ramp outing by outing, and those of the published schedules' days."""
    last = max(LONGEST_DAYS, rules.ramp.outings)
    rows = (
        (
            outing,
            _dose(rules.ramp.doses, outing),
            _dose(rules.air.doses, outing),
            *_band(outing, SHADE),
            *_band(outing, SUN),
        )
        for outing in range(1, last + 1)
    )
    return Table.of(tr("The ramp beside published schedules"), OUTINGS, rows)


def spread_table(history: Sequence[SpreadOn]) -> Table:
    """Return the ready date as it was expected on each morning: in one year of ten, half, and nine."""
    rows = ((one.day, one.early, one.usual, one.late, one.years) for one in history)
    return Table.of(tr("How the ready date narrowed"), MORNINGS, rows)


def _dose(doses: Sequence[int], outing: int) -> float | None:
    return float(doses[outing - 1]) if outing <= len(doses) else None


def _band(outing: int, light: str) -> tuple[Cell, Cell]:
    band = envelope(outing, light)
    return (None, None) if band is None else (band.low, band.high)
