"""What was lost as a table, a row a loss, with its cause and the stage it had reached."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from greenroom.exchange.tables import words
from greenroom.exchange.tables.parts import holder_name
from greenroom.exchange.tables.table import Column, Kind, Table
from greenroom.season.losses import every_holder, holder_losses
from greenroom.season.packets import variety_name
from greenroom.season.state import Season
from greenroom.speech import tr

COLUMNS = (
    Column("date", "Date", Kind.DATE),
    Column("holder", "Tray, rack or bed"),
    Column("spot", "Cell or position"),
    Column("variety", "Variety"),
    Column("count", "Lost", Kind.WHOLE),
    Column("cause", "Cause", said=words.cause),
    Column("stage", "Stage", said=words.stage_lost),
)


def loss_table(
    season: Season,
    holders: Iterable[str] | None = None,
    first: date = date.min,
    last: date = date.max,
) -> Table:
    """Return the losses of some holders, or of all, from one day to another, in order of days."""
    keys = every_holder(season) if holders is None else list(holders)
    told = [one for key in keys for one in holder_losses(season, key) if first <= one.day <= last]
    rows = (
        (
            one.day,
            holder_name(season, one.key.holder),
            one.key.label,
            variety_name(season, one.packet),
            one.count,
            one.cause,
            one.stage,
        )
        for one in sorted(told, key=lambda one: one.day)
    )
    return Table.of(tr("Losses"), COLUMNS, rows)
