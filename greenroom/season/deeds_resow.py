"""Sowing again into cells that stayed bare."""

from __future__ import annotations

from datetime import date

from greenroom.ledger.facts import Fact, Sown
from greenroom.season.coherence import coherent
from greenroom.season.packets import seeds_left
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.resow import Resow
from greenroom.season.state import Season
from greenroom.speech import many, tr


def sow_again(season: Season, advice: Resow, day: date) -> Proposal:
    """Sow the advised seeds of the same packet into its bare cells, shared out evenly.

    Raises
    ------
    RefusedError
        If the packet does not hold so many, or nothing is bare any more.
    """
    cells = [key for key in advice.cells if season.spot(key).up == 0]
    if not cells:
        raise RefusedError(tr("No cell of {variety} is bare any more.", variety=advice.name))
    seeds = max(advice.seeds, len(cells))
    left = seeds_left(season, advice.packet)
    if left is not None and seeds > left:
        raise RefusedError(
            tr(
                "The packet of {variety} has {left} left and {seeds} are needed; correct the "
                "packet or sow fewer cells by hand.",
                variety=advice.name,
                left=many(left, "seed"),
                seeds=seeds,
            )
        )
    each, over = divmod(seeds, len(cells))
    facts: list[Fact] = [
        Sown(
            day=day,
            holder=key.holder,
            row=key.row,
            column=key.column,
            packet=advice.packet,
            seeds=each + (place < over),
        )
        for place, key in enumerate(cells)
    ]
    name = tr("sowed {variety} again in {cells}", variety=advice.name, cells=many(len(cells), "cell"))
    return coherent(season, Proposal(name, tuple(facts)))
