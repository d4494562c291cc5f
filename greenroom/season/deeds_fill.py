"""From the plan into trays: what is to be sown, which trays are empty, and sowing them as laid out."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from greenroom.ledger.facts import Fact, HolderMade, HolderPlaced, Sown, new_key
from greenroom.season.crops import crop_of
from greenroom.season.deeds_shelf import next_name, tray_name
from greenroom.season.fill_trays import Batch, Block, FilledTray, Tray
from greenroom.season.packets import seeds_left
from greenroom.season.plan import Plan, PlanRow
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.spots import SpotKey
from greenroom.season.state import Season
from greenroom.speech import many, tr

ANY_WARMTH_C = (15.0, 30.0)
"""What a crop is taken to like of which the guide does not tell: common practice, no source."""


def batches_of(season: Season, plan: Plan) -> list[Batch]:
    """Return what is still to be sown of a plan, ready to be laid into trays."""
    return [batch for row in plan.rows if not row.sown and (batch := _batch(season, row)) is not None]


def empty_trays(season: Season) -> list[Tray]:
    """Return the trays in use in which nothing stands or waits."""
    return [
        Tray(one.rows, one.columns, one.key, one.name, one.mix_c)
        for one in season.holders("tray")
        if all(spot.free for spot in season.spots(one.key))
    ]


def sow_filled(season: Season, filled: Sequence[FilledTray], day: date, place: str = "") -> Proposal:
    """Sow trays as they were laid out, new ones taken into use; all of it is one act.

    Raises
    ------
    RefusedError
        If there is nothing to sow, a cell is not free any more, or a packet holds too few seeds.
    """
    trays = [one for one in filled if one.blocks]
    if not trays:
        raise RefusedError(tr("There is nothing to sow: no variety that is wanted still needs a cell."))
    _refuse_short(season, trays)
    facts: list[Fact] = []
    taken: list[str] = []
    for one in trays:
        holder = one.tray.holder
        if holder is None:
            name = one.tray.name or _free_name(season, taken)
            taken.append(name)
            holder, made = _taken_into_use(one.tray, name, place, day)
            facts += made
        else:
            _refuse_filled(season, holder, one.blocks, day)
        facts += _sowings(holder, one.blocks, day)
    cells = sum(isinstance(fact, Sown) for fact in facts)
    name = tr("sowed {cells} in {trays}", cells=many(cells, "cell"), trays=many(len(trays), "tray"))
    return Proposal(name, tuple(facts))


def _batch(season: Season, row: PlanRow) -> Batch | None:
    need = row.seeds
    if need is None or need.left == 0:
        return None
    cells = need.cells if need.left is None else min(need.cells, need.left // need.a_cell)
    crop = crop_of(season.guide, row.needs.crop)
    span = crop.germination_best_c.value if crop and crop.germination_best_c else None
    best = (span.low, span.high) if span else ANY_WARMTH_C
    return Batch(need.packet, row.name, cells, need.a_cell, row.needs.days_up, best)


def _free_name(season: Season, taken: Sequence[str]) -> str:
    """Return the next free name for a tray, beside those in use and those given just now."""
    name, letters = next_name(season, "tray"), 0
    used = {one.name.casefold() for one in season.holders()} | {one.casefold() for one in taken}
    while name.casefold() in used:
        name, letters = tray_name(letters), letters + 1
    return name


def _taken_into_use(tray: Tray, name: str, place: str, day: date) -> tuple[str, list[Fact]]:
    key = new_key()
    facts: list[Fact] = [
        HolderMade(day=day, holder=key, name=name, form="tray", rows=tray.rows, columns=tray.columns)
    ]
    if place.strip() or tray.mix_c is not None:
        facts.append(HolderPlaced(day=day, holder=key, place=place.strip(), mix_c=tray.mix_c))
    return key, facts


def _sowings(holder: str, blocks: Sequence[Block], day: date) -> list[Fact]:
    return [
        Sown(day=day, holder=holder, row=row, column=column, packet=block.packet, seeds=block.seeds_a_cell)
        for block in blocks
        for row, column in block.cells
    ]


def _refuse_short(season: Season, trays: Sequence[FilledTray]) -> None:
    wanted: dict[str, tuple[str, int]] = {}
    for block in (block for one in trays for block in one.blocks):
        _, so_far = wanted.get(block.packet, ("", 0))
        wanted[block.packet] = (block.name, so_far + len(block.cells) * block.seeds_a_cell)
    for packet, (name, seeds) in wanted.items():
        left = seeds_left(season, packet)
        if left is not None and seeds > left:
            raise RefusedError(
                tr(
                    "{variety} has {left} left and {seeds} are laid out; take some of its cells away.",
                    variety=name,
                    left=many(left, "seed"),
                    seeds=seeds,
                )
            )


def _refuse_filled(season: Season, holder: str, blocks: Sequence[Block], day: date) -> None:
    made = season.holder(holder)
    if day < made.made_on:
        raise RefusedError(tr("{tray} was not in use yet on that day; choose a later one.", tray=made.name))
    for block in blocks:
        for row, column in block.cells:
            key = SpotKey(holder, row, column)
            if not season.spot(key).free:
                raise RefusedError(
                    tr(
                        "{tray} {cell} is not free any more; lay the trays out anew.",
                        tray=made.name,
                        cell=key.label,
                    )
                )
