"""Changing a bed: its name, and how many places it has."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from greenroom.ledger.facts import LARGEST_SIDE, HolderMade, new_key
from greenroom.season.deeds_care import in_use
from greenroom.season.few_words import spot_words
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.state import Season
from greenroom.speech import tr


def reshape_bed(season: Season, holder: str, name: str, rows: int, columns: int, day: date) -> Proposal:
    """Give a bed another name, or other rows and columns; nothing is written where nothing differs.

    Raises
    ------
    RefusedError
        If another holder bears the name, or a plant stands where there would be no place any more.
    """
    made = in_use(season, holder, day)
    name = " ".join(name.split()) or made.name
    others = (one for one in season.holders() if one.key != holder)
    if any(one.name.casefold() == name.casefold() for one in others):
        raise RefusedError(tr("{name} is in use already; choose another name.", name=name))
    if not (1 <= rows <= LARGEST_SIDE and 1 <= columns <= LARGEST_SIDE):
        raise RefusedError(
            tr(
                "{rows} × {columns} places in {bed}: 1 to {most} rows and columns are allowed.",
                rows=rows,
                columns=columns,
                bed=name,
                most=LARGEST_SIDE,
            )
        )
    for spot in season.spots(holder):
        if not spot.free and (spot.key.row >= rows or spot.key.column >= columns):
            raise RefusedError(
                tr("{spot} is planted; move that plant first.", spot=spot_words(season, spot.key))
            )
    if (name, rows, columns) == (made.name, made.rows, made.columns):
        return Proposal(tr("{bed} stays as it is", bed=name))
    facts = [entry.fact for entry in season.holder_facts(holder) if isinstance(entry.fact, HolderMade)]
    new = replace(facts[-1], id=new_key(), name=name, rows=rows, columns=columns)
    return Proposal(tr("changed {bed}", bed=name), (new,), strike=tuple(fact.id for fact in facts))
