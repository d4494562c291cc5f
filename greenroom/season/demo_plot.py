"""The demo's plot: beds, what throws shade, and the day plants of a rack are set out."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from typing import Any

from greenroom.ledger.facts import BedLaid, Fact, HolderMade, Moved, Obstacle

Pot = tuple[str, int, int]
"""A rack's key, row and column."""


def plot_facts(
    told: Mapping[str, Any], key: Callable[[], str], pots: Mapping[str, Sequence[Pot]]
) -> Iterator[Fact]:
    """Yield what was laid on the plot, and the moves of the plants set out.

    Parameters
    ----------
    told : mapping
        The table ``plot`` of the demo's file.
    key : callable
        Returns a new key each time it is called.
    pots : mapping of str to sequence of Pot
        The pots of each rack in which a plant stands, by the rack's name, in order.
    """
    beds: dict[str, tuple[str, int]] = {}
    for bed in told["beds"]:
        beds[bed["name"]] = (key(), bed["columns"])
        yield from _bed(bed, beds[bed["name"]][0], told["laid"], key)
    for one in told["obstacles"]:
        yield Obstacle(id=key(), day=told["laid"], obstacle=key(), **one)
    for move in told["set_out"]:
        holder, columns = beds[move["bed"]]
        for place, (rack, row, column) in enumerate(pots[move["rack"]]):
            to_row, to_column = divmod(place, columns)
            where: dict[str, Any] = {"to_holder": holder, "to_row": to_row, "to_column": to_column}
            yield Moved(id=key(), day=move["day"], holder=rack, row=row, column=column, **where)


def _bed(bed: Mapping[str, Any], holder: str, day: date, key: Callable[[], str]) -> Iterator[Fact]:
    lies = {name: value for name, value in bed.items() if name not in ("name", "rows", "columns")}
    yield HolderMade(
        id=key(),
        day=day,
        holder=holder,
        name=bed["name"],
        form="bed",
        rows=bed["rows"],
        columns=bed["columns"],
    )
    yield BedLaid(id=key(), day=day, holder=holder, **lies)
