"""Hardening off as tables: the days of a ramp, done and to come, and the minutes and light each day gave."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, datetime

from greenroom.agronomy.hardening import dose_at
from greenroom.exchange.tables import words
from greenroom.exchange.tables.parts import holder_name, rounded
from greenroom.exchange.tables.table import Cell, Column, Kind, Table
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.counted import counted_days
from greenroom.season.hardening import going_out
from greenroom.season.outings import fold_outings
from greenroom.season.reasons import APART, kept_words
from greenroom.season.sky import sky_of
from greenroom.season.state import Season
from greenroom.season.two_clocks import two_clocks
from greenroom.speech import tr

DAYS = (
    Column("holder", "Tray or rack"),
    Column("date", "Date", Kind.DATE),
    Column("done", "Behind", Kind.YES_NO),
    Column("step", "Step", Kind.WHOLE),
    Column("sun_asked", "Sun asked for", Kind.NUMBER, "min"),
    Column("sun", "Sun had", Kind.NUMBER, "min"),
    Column("outdoor_step", "Outdoor step", Kind.WHOLE),
    Column("outdoors_asked", "Outdoors asked for", Kind.NUMBER, "min"),
    Column("outdoors", "Outdoors had", Kind.NUMBER, "min"),
    Column("setback", "Setback", said=words.setback),
    Column("kept_in", "Kept in because", said=kept_words),
    Column("verdict", "Weather", said=words.verdict),
)
MINUTES = (
    Column("holder", "Tray or rack"),
    Column("date", "Date", Kind.DATE),
    Column("clock", "Direct sun by the clock", Kind.NUMBER, "min"),
    Column("weighed", "Direct sun by its strength", Kind.NUMBER, "min"),
    Column("shade", "Shade", Kind.NUMBER, "min"),
    Column("outdoors", "Outdoors", Kind.NUMBER, "min"),
    Column("light", "Light in the sun", Kind.NUMBER, "mol/m²"),
)


def hardening_table(season: Season, today: date, now: datetime, *holders: str) -> Table:
    """Return the days of the ramp of some holders, or of all that go out, in order."""
    stands = (two_clocks(season, key, today, now) for key in holders or going_out(season))
    rows = (row for stand in stands if stand is not None for row in _ramp(season, stand))
    return Table.of(tr("Hardening days"), DAYS, rows)


def minutes_table(season: Season, now: datetime, *holders: str) -> Table:
    """Return what each day outdoors gave some holders, or all that go out: minutes and light."""
    return Table.of(tr("Minutes and light outdoors"), MINUTES, _minutes(season, now, holders))


def _ramp(season: Season, stand: TwoClocks) -> Iterator[tuple[Cell, ...]]:
    name, seen = holder_name(season, stand.holder), {one.day: one.what for one in stand.setbacks}
    outdoors = {one.day.date: one for one in stand.air.days}
    for walked in stand.sun.days:
        day, air = walked.day.date, outdoors.get(walked.day.date)
        yield (
            name,
            day,
            True,
            walked.before + 1,
            float(dose_at(stand.sun.ramp.on(day).doses, walked.before)),
            rounded(walked.day.minutes),
            air.before + 1 if air else None,
            float(dose_at(stand.outdoor_ramp.on(day).doses, air.before)) if air else None,
            rounded(air.day.minutes) if air else None,
            seen.get(day, ""),
            stand.held.get(day, ""),
            "",
        )
    for planned in stand.ahead:
        yield (
            name,
            planned.date,
            False,
            planned.sun_step + 1,
            float(planned.sun_minutes),
            None,
            planned.air_step + 1,
            float(planned.air_minutes),
            None,
            "",
            APART.join(planned.reasons) if planned.verdict == "hold" else "",
            planned.verdict,
        )


def _minutes(season: Season, now: datetime, holders: tuple[str, ...]) -> Iterator[tuple[Cell, ...]]:
    sky = sky_of(season)
    for key in holders or tuple(going_out(season)):
        outings = fold_outings(season.holder_facts(key))
        for day, had in sorted(counted_days(outings, sky, key, now).items()):
            figures = (had.clock, had.weighed, had.shade, had.outdoors, had.light_mol_m2)
            yield (holder_name(season, key), day, *map(rounded, figures))
