"""The leaf cover read from photographs as a table, a row a cell and day."""

from __future__ import annotations

from greenroom.exchange.tables.parts import holder_name, percent
from greenroom.exchange.tables.table import Column, Kind, Table
from greenroom.season.canopy import canopy_days
from greenroom.season.state import Season
from greenroom.speech import tr

CANOPY = (
    Column("date", "Date", Kind.DATE),
    Column("spot", "Cell"),
    Column("row", "Row", Kind.WHOLE),
    Column("column", "Column", Kind.WHOLE),
    Column("cover", "Leaf cover", Kind.NUMBER, "%"),
)


def canopy_table(season: Season, holder: str) -> Table:
    """Return the leaf cover of each cell of a tray on each day it was read."""
    rows = (
        (one.day, key.label, key.row + 1, key.column + 1, percent(cover))
        for one in canopy_days(season, holder)
        for key, cover in one.cover.items()
    )
    return Table.of(tr("Leaf cover of {tray}", tray=holder_name(season, holder)), CANOPY, rows)
