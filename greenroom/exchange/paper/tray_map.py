"""The sowing map of a tray: its grid with a number for each sowing, and the key to the numbers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from greenroom.exchange.errors import Cancel
from greenroom.exchange.paper.codes import Code
from greenroom.exchange.paper.flow import BODY_PT, SMALL_PT, Flow, leading_mm, long_day, short_day
from greenroom.exchange.paper.pen import QUIET, TINTS, Pen, Printed, never
from greenroom.exchange.paper.sizes import Box, Paper
from greenroom.exchange.paper.words import MM, STRONG
from greenroom.season.hardening_words import day_words
from greenroom.season.packets import packet_view, variety_name
from greenroom.season.spots import row_label
from greenroom.season.state import Season
from greenroom.speech import many, tr

EDGE_MM = 6.0
MOST_CELL_MM = 22.0
NAME_FROM_MM = 14.0
CODE_MM = 24.0
GAP_MM = 1.5
KEY_LINE_MM = leading_mm(BODY_PT) + 0.6
KEY_WORDS = tr("number, variety, lot, day of sowing, cells and seeds")
MOST_KEY_LINES = 8


@dataclass(frozen=True, slots=True)
class Sowing:
    """One variety sown on one day in a tray: its number on the map, and how many cells and seeds it took."""

    number: int
    name: str
    lot: str
    sown: date | None
    cells: int
    seeds: int


@dataclass(frozen=True, slots=True)
class TrayMap:
    """A tray as it was sown; ``cells`` holds the number of each cell's sowing, 0 for a bare one."""

    name: str
    under: str
    code: str
    cells: tuple[tuple[int, ...], ...]
    sowings: tuple[Sowing, ...]


def tray_map(season: Season, holder: str, today: date) -> TrayMap:
    """Return the map of a tray as it stands."""
    made = season.holder(holder)
    groups: dict[tuple[str | None, date | None], list[int]] = {}
    numbers = []
    for spot in season.spots(holder):
        if spot.packet is None:
            numbers.append(0)
            continue
        group = groups.setdefault((spot.packet, spot.sown_on), [len(groups) + 1, 0, 0])
        group[1] += 1
        group[2] += spot.seeds
        numbers.append(group[0])
    rows = tuple(tuple(numbers[row * made.columns : (row + 1) * made.columns]) for row in range(made.rows))
    sowings = tuple(
        Sowing(number, variety_name(season, packet), _lot(season, packet), sown, cells, seeds)
        for (packet, sown), (number, cells, seeds) in groups.items()
    )
    place = f", {made.place}" if made.place else ""
    size = f"{made.rows} x {made.columns}{place}"
    under = tr("{size} · as it stands on {day}", size=size, day=long_day(today))
    return TrayMap(tr("Sowing map: {name}", name=made.name), under, Code(made.key).text, rows, sowings)


def print_maps(maps: Sequence[TrayMap], paper: Paper, stop: Cancel = never) -> Printed:
    """Put each tray on a page of its own, on its side where the tray is wider than deep.

    Raises
    ------
    Cancelled
        If the work was called off.
    """
    wide = any(len(one.cells[0]) > len(one.cells) for one in maps)
    pen = Pen(paper.turned() if wide else paper, tr("Sowing map"), stop)
    for number, one in enumerate(maps):
        if number:
            pen.next_page()
        _draw(pen, one)
    return pen.end()


def _draw(pen: Pen, one: TrayMap) -> None:
    flow = Flow(pen, one.name, one.under, CODE_MM + GAP_MM)
    pen.code(Box(flow.left + flow.width - CODE_MM, 6, CODE_MM, CODE_MM), one.code)
    flow.y = max(flow.y, 6 + CODE_MM)
    rows, columns = len(one.cells), len(one.cells[0])
    key_mm = KEY_LINE_MM * min(max(len(one.sowings), 1), MOST_KEY_LINES) + 12
    side = min(
        (flow.width - EDGE_MM) / columns, max(3.0, (flow.room - key_mm - EDGE_MM) / rows), MOST_CELL_MM
    )
    left, top = flow.left + EDGE_MM, flow.y + EDGE_MM
    _edges(pen, left, top, side, rows, columns)
    names = {sowing.number: sowing for sowing in one.sowings}
    for row, numbers in enumerate(one.cells):
        pen.look_up()
        for column, number in enumerate(numbers):
            _cell(pen, Box(left + column * side, top + row * side, side, side), names.get(number))
    flow.y = top + rows * side + 3
    _key(flow, one.sowings)


def _edges(pen: Pen, left: float, top: float, side: float, rows: int, columns: int) -> None:
    points = min(BODY_PT, side * MM * 0.6)
    for column in range(columns):
        pen.text(left + (column + 0.5) * side, top - 1.5, str(column + 1), points, align="middle")
    for row in range(rows):
        middle = top + (row + 0.5) * side + points / MM * 0.35
        pen.text(left - 1.5, middle, row_label(row), points, align="right")


def _cell(pen: Pen, cell: Box, sowing: Sowing | None) -> None:
    fill = TINTS[(sowing.number - 1) % len(TINTS)] if sowing else None
    pen.box(cell, fill=fill, width=0.15)
    if sowing is None:
        return
    points = min(14.0, cell.height * MM * 0.45)
    middle = cell.left + cell.width / 2
    with_name = cell.width >= NAME_FROM_MM
    lift = 0.42 if with_name else 0.5
    foot = cell.top + lift * cell.height + points / MM * 0.36
    pen.text(middle, foot, str(sowing.number), points, face=STRONG, align="middle")
    if with_name:
        small = min(7.0, cell.width * MM * 0.12)
        room = cell.width - 1.2
        pen.text(middle, cell.top + cell.height * 0.8, sowing.name, small, room=room, align="middle")
        if sowing.sown is not None:
            words = day_words(sowing.sown)
            pen.text(
                middle,
                cell.top + cell.height * 0.95,
                words,
                small * 0.85,
                room=room,
                align="middle",
                colour=QUIET,
            )


def _key(flow: Flow, sowings: Sequence[Sowing]) -> None:
    flow.heading(
        tr("Key", sense="what signs mean"),
        KEY_WORDS,
        keep_mm=KEY_LINE_MM,
    )
    if not sowings:
        flow.says(tr("Nothing is sown in it."))
    for sowing in sowings:
        if flow.need(KEY_LINE_MM):
            flow.gap(2)
        foot = flow.y + leading_mm(BODY_PT)
        swatch = Box(flow.left, foot - 3.4, 8, 4.4)
        flow.pen.box(swatch, fill=TINTS[(sowing.number - 1) % len(TINTS)], width=0.15)
        flow.pen.text(flow.left + 4, foot, str(sowing.number), SMALL_PT, face=STRONG, align="middle")
        flow.pen.text(flow.left + 11, foot, sowing.name, BODY_PT, room=flow.width * 0.42)
        flow.pen.text(flow.left + flow.width * 0.52, foot, sowing.lot, BODY_PT, room=flow.width * 0.13)
        sown = short_day(sowing.sown) if sowing.sown else tr("sowing not known")
        flow.pen.text(flow.left + flow.width * 0.66, foot, sown, BODY_PT, room=flow.width * 0.17)
        told = many(sowing.cells, "cell") + (f", {many(sowing.seeds, 'seed')}" if sowing.seeds else "")
        flow.pen.text(flow.left + flow.width, foot, told, BODY_PT, align="right")
        flow.y += KEY_LINE_MM


def _lot(season: Season, packet: str | None) -> str:
    view = packet_view(season, packet) if packet else None
    return view.packet.lot if view else ""
