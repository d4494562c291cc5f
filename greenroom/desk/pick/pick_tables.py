"""Which tables stand behind the Pick page; what makes them is loaded when it is asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from greenroom.desk.bench import Bench

if TYPE_CHECKING:
    from greenroom.exchange.tables.table import Table


def harvests(bench: Bench) -> Table:
    """Return every variety in every season."""
    from greenroom.exchange.tables.harvest import harvest_table

    return harvest_table(bench.keeper.season, bench.keeper.today)


def ahead(bench: Bench) -> Table:
    """Return what is ripe by when."""
    from greenroom.exchange.tables.harvest import ahead_table

    return ahead_table(bench.keeper.season, bench.keeper.today)
