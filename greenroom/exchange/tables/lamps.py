"""The light on each shelf as a table: what was measured, what it adds up to, and what the plants ask for."""

from __future__ import annotations

from greenroom.exchange.tables.table import Column, Kind, Table
from greenroom.season.lights import shelf_lights
from greenroom.season.state import Season
from greenroom.speech import tr

COLUMNS = (
    Column("shelf", "Shelf"),
    Column("ppfd_umol_m2_s", "Light", Kind.NUMBER, "µmol/m²/s"),
    Column("lit_h", "Lit", Kind.NUMBER, "h a day"),
    Column("dli_mol_m2", "Light of a day", Kind.NUMBER, "mol/m²"),
    Column("asked_mol_m2", "Asked for", Kind.NUMBER, "mol/m²"),
    Column("needed_h", "Hours that give it", Kind.NUMBER, "h a day"),
)


def lamp_table(season: Season) -> Table:
    """Return the latest measurement of each shelf; no hours where no number of them would be enough."""
    rows = (
        (one.place, one.ppfd, one.hours, one.dli, one.target, one.hours_needed)
        for one in shelf_lights(season)
    )
    return Table.of(tr("Light on the shelves"), COLUMNS, rows)
