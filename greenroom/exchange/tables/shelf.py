"""The shelf as tables: trays and racks, their cells, and how they come up."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date, timedelta

import numpy as np
from numpy.typing import NDArray

from greenroom.exchange.tables import words
from greenroom.exchange.tables.parts import holder_name, percent
from greenroom.exchange.tables.table import Cell, Column, Kind, Table
from greenroom.season.packets import variety_name
from greenroom.season.spots import Spot
from greenroom.season.sprouting import SproutCurve, sprout_curve
from greenroom.season.state import Season
from greenroom.speech import tr

HOLDERS = (
    Column("name", "Name"),
    Column("form", "Form", said=words.form),
    Column("rows", "Rows", Kind.WHOLE),
    Column("columns", "Columns", Kind.WHOLE),
    Column("cell", "Cell", Kind.NUMBER, "mL"),
    Column("size", "Pot size"),
    Column("place", "Place"),
    Column("mix", "Warmth of the mix", Kind.NUMBER, "°C"),
    Column("made_on", "Taken into use", Kind.DATE),
    Column("sown", "Cells sown", Kind.WHOLE),
    Column("up", "Cells with something up", Kind.WHOLE),
    Column("living", "Cells with a living plant", Kind.WHOLE),
    Column("seedlings", "Seedlings", Kind.WHOLE),
    Column("first_sown", "First sown", Kind.DATE),
    Column("last_sown", "Last sown", Kind.DATE),
)
CELLS = (
    Column("holder", "Tray, rack or bed"),
    Column("spot", "Cell"),
    Column("row", "Row", Kind.WHOLE),
    Column("column", "Column", Kind.WHOLE),
    Column("variety", "Variety"),
    Column("stage", "Stage", said=words.stage),
    Column("sown_on", "Sown", Kind.DATE),
    Column("seeds", "Seeds", Kind.WHOLE),
    Column("waiting", "Not yet up", Kind.WHOLE, "seeds"),
    Column("sprouted", "Came up", Kind.WHOLE, "seedlings"),
    Column("up", "Living", Kind.WHOLE, "seedlings"),
    Column("first_up", "First up", Kind.DATE),
    Column("leaves", "True leaves", Kind.WHOLE),
    Column("leaves_on", "True leaves seen", Kind.DATE),
    Column("lost", "Lost", Kind.WHOLE, "seedlings or seeds"),
    Column("cause", "Cause of loss", said=words.cause),
    Column("moved_on", "Moved on", Kind.WHOLE, "seedlings"),
    Column("origin", "Came from"),
    Column("arrived", "Came on", Kind.DATE),
)
SPROUTING = (
    Column("date", "Date", Kind.DATE),
    Column("day", "Day since sowing", Kind.WHOLE),
    Column("up", "Up", Kind.WHOLE, "seedlings"),
    Column("share", "Up", Kind.NUMBER, "%"),
    Column("expected_low", "Expected up, low", Kind.NUMBER, "%"),
    Column("expected_high", "Expected up, high", Kind.NUMBER, "%"),
)


def holder_table(season: Season) -> Table:
    """Return the trays, racks and beds in use."""
    return Table.of(tr("Trays and racks"), HOLDERS, _holders(season))


def cell_table(season: Season, *holders: str) -> Table:
    """Return what stands in each cell of some holders, row by row; of all in use if none is named."""
    keys = holders or tuple(one.key for one in season.holders())
    name = tr("Cells of {tray}", tray=season.holder(keys[0]).name) if len(keys) == 1 else tr("Cells")
    spots = (spot for key in keys for spot in season.spots(key))
    return Table.of(name, CELLS, (_cell(season, spot) for spot in spots))


def sprouting_table(season: Season, holder: str, today: date) -> Table:
    """Return how a tray comes up, observed and expected, a row a day; no rows if nothing was sown."""
    curve = sprout_curve(season, holder, today)
    rows = _days(curve) if curve is not None else iter(())
    return Table.of(tr("Sprouting of {tray}", tray=holder_name(season, holder)), SPROUTING, rows)


def _holders(season: Season) -> Iterator[tuple[Cell, ...]]:
    for one in season.holders():
        counts = season.counts(one.key)
        head = (one.name, one.form, one.rows, one.columns, one.cell_ml, one.size, one.place, one.mix_c)
        full = (counts.sown, counts.up, counts.living, counts.seedlings)
        yield (*head, one.made_on, *full, counts.first_sown, counts.last_sown)


def _cell(season: Season, spot: Spot) -> tuple[Cell, ...]:
    key, origin = spot.key, spot.origin
    filled = spot.packet is not None
    return (
        holder_name(season, key.holder),
        key.label,
        key.row + 1,
        key.column + 1,
        variety_name(season, spot.packet) if filled else "",
        spot.stage.value,
        spot.sown_on,
        spot.seeds,
        spot.waiting,
        spot.sprouted,
        spot.up,
        spot.first_up,
        spot.leaves,
        spot.leaves_on,
        spot.lost,
        spot.cause,
        spot.moved_on,
        f"{holder_name(season, origin.holder)} {origin.label}" if origin else "",
        spot.arrived,
    )


def _days(curve: SproutCurve) -> Iterator[tuple[Cell, ...]]:
    for day in range(int(curve.axis[-1]) + 1):
        up = _up_by(curve, day) if day <= curve.last_day else None
        share = None if up is None else percent(up / curve.seeds)
        bounds = (_at(curve, curve.late, day), _at(curve, curve.early, day))
        yield (curve.start + timedelta(days=day), day, up, share, *bounds)


def _up_by(curve: SproutCurve, day: int) -> int:
    return max((up for when, up in zip(curve.days, curve.up, strict=True) if when <= day), default=0)


def _at(curve: SproutCurve, shares: NDArray[np.float64] | None, day: int) -> float | None:
    return None if shares is None else percent(float(np.interp(day, curve.axis, shares)))
