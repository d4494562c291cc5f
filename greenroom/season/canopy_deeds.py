"""What a grower keeps of a photograph of a tray: what came up and the leaf cover, in one act."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from greenroom.ledger.facts import CanopySeen, CellCover, Fact
from greenroom.season.deeds_care import in_use
from greenroom.season.deeds_spots import mark_up
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.season.story_deeds import About, PictureFile, keep_pictures
from greenroom.speech import many, tr


@dataclass(frozen=True, slots=True)
class Green:
    """Cells that are green in a photograph, sorted by what is known of them.

    ``new`` were sown and are not up yet, ``known`` are up already, ``unsown`` hold nothing that could be.
    """

    new: tuple[SpotKey, ...] = ()
    known: tuple[SpotKey, ...] = ()
    unsown: tuple[SpotKey, ...] = ()


def sort_out(season: Season, keys: Iterable[SpotKey]) -> Green:
    """Return green cells sorted by whether they wait, are up or were not sown."""
    new: list[SpotKey] = []
    known: list[SpotKey] = []
    unsown: list[SpotKey] = []
    for key in keys:
        spot = season.spot(key)
        (known if spot.up > 0 else new if spot.waiting > 0 else unsown).append(key)
    return Green(tuple(new), tuple(known), tuple(unsown))


def keep_reading(
    season: Season,
    holder: str,
    green: Sequence[SpotKey],
    cells: Sequence[CellCover],
    day: date,
    threshold: float | None = None,
    picture: PictureFile | None = None,
) -> Proposal:
    """Mark what is newly green up and keep the leaf cover of every cell, with its picture, as one act.

    Cells that are up already stay as they are; green cells that were never sown are left alone.

    Raises
    ------
    RefusedError
        If the tray is gone or was not there yet, has no such cell, or a cell was sown after that day.
    """
    made = in_use(season, holder, day)
    for cell in cells:
        if not (0 <= cell.row < made.rows and 0 <= cell.column < made.columns):
            raise RefusedError(
                tr(
                    "{tray} has {rows} × {columns} cells; the photo was read for another tray.",
                    tray=made.name,
                    rows=made.rows,
                    columns=made.columns,
                )
            )
    new = sort_out(season, green).new
    facts: list[Fact] = list(mark_up(season, new, day).record) if new else []
    key: str | None = None
    if picture is not None:
        (kept,) = keep_pictures(season, About(holder=holder), [picture], day).record
        facts.append(kept)
        key = getattr(kept, "picture", None)
    facts.append(
        CanopySeen(day=day, holder=holder, picture=key, threshold=threshold, cells=tuple(sorted(cells)))
    )
    name = (
        tr("marked {cells} of {tray} up, from a photo", cells=many(len(new), "cell"), tray=made.name)
        if new
        else tr("leaf cover of {tray}, from a photo", tray=made.name)
    )
    return Proposal(name, tuple(facts))
