"""The plan of the plot, to scale, with north, a scale bar, and a list of what stands where."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date

from greenroom.exchange.errors import Cancel
from greenroom.exchange.paper.flow import BODY_PT, SMALL_PT, Flow, leading_mm, long_day
from greenroom.exchange.paper.pen import LINE, QUIET, SOIL, Pen, Point, Printed, never
from greenroom.exchange.paper.sizes import Box, Paper
from greenroom.exchange.paper.words import MM, STRONG
from greenroom.season.plot import Bed, Plot, Shade, plot_of
from greenroom.season.plot_plants import plants_of
from greenroom.season.state import Season
from greenroom.speech import figure, many, tr

SCALES = (
    5,
    10,
    20,
    25,
    40,
    50,
    60,
    75,
    100,
    125,
    150,
    200,
    250,
    300,
    400,
    500,
    750,
    1000,
    1500,
    2000,
    2500,
    5000,
)
LAST_SCALE = 10_000
BARS_M = (0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200, 500)
BAR_LEAST_MM = 30.0
FURNITURE_MM = 16.0
KEY_SHARE = 0.3
ARROW_MM = 11.0
THIN_MM = 5.0
BED_FILL, SHADE_FILL = "#f1ece4", "#e4e4e0"
LINE_MM = leading_mm(BODY_PT)

Lay = Callable[[Point], Point]


@dataclass(frozen=True, slots=True)
class Standing:
    """A plant on the plan: where, and the number of its variety."""

    point: Point
    number: int


@dataclass(frozen=True, slots=True)
class PlotSheet:
    """A plot with what stands on it; ``key`` are the varieties by number, with how many of each."""

    plot: Plot
    under: str
    plants: tuple[Standing, ...]
    key: tuple[tuple[str, int], ...]


def plot_sheet(season: Season, today: date, place: str) -> PlotSheet:
    """Return the plot as it stands."""
    plot = plot_of(season)
    counts: dict[str, int] = {}
    found = []
    numbers: dict[str, int] = {}
    for plant in plants_of(season, plot):
        number = numbers.setdefault(plant.name, len(numbers) + 1)
        counts[plant.name] = counts.get(plant.name, 0) + 1
        found.append(Standing(plant.point, number))
    return PlotSheet(
        plot,
        tr("{place} · as it stands on {day}", place=place, day=long_day(today)),
        tuple(found),
        tuple(counts.items()),
    )


def scale_of(plot: Plot, room: Box) -> int:
    """Return the largest usual scale (1 to this number) at which a plot goes into a room on paper."""
    ground = plot.extent
    for scale in SCALES:
        if ground.width * 1000 / scale <= room.width and ground.depth * 1000 / scale <= room.height:
            return scale
    return LAST_SCALE


def print_plot(sheet: PlotSheet, paper: Paper, stop: Cancel = never) -> Printed:
    """Put the plot on paper, on its side where it is wider than deep.

    Raises
    ------
    Cancelled
        If the work was called off.
    """
    ground = sheet.plot.extent
    pen = Pen(paper.turned() if ground.width > ground.depth else paper, tr("Plan of the plot"), stop)
    flow = Flow(pen, tr("Plan of the plot"), sheet.under)
    key_mm = min(KEY_SHARE * flow.room, len(sheet.key) * LINE_MM / 2 + 12) if sheet.key else 0.0
    room = Box(flow.left, flow.y, flow.width, flow.room - FURNITURE_MM - key_mm)
    scale = scale_of(sheet.plot, room)
    foot = room.top + ground.depth * 1000 / scale

    def lay(point: Point) -> Point:
        return (
            room.left + (point[0] - ground.west) * 1000 / scale,
            foot - (point[1] - ground.south) * 1000 / scale,
        )

    _ground(pen, sheet, lay, scale)
    _furniture(pen, Box(flow.left, foot + 2, flow.width, FURNITURE_MM), scale)
    flow.y = foot + FURNITURE_MM + 2
    _key(flow, sheet)
    return pen.end()


def _ground(pen: Pen, sheet: PlotSheet, lay: Lay, scale: int) -> None:
    ground = sheet.plot.extent
    corners = (
        (ground.west, ground.south),
        (ground.east, ground.south),
        (ground.east, ground.north),
        (ground.west, ground.north),
    )
    pen.shape([lay(point) for point in corners], ink=LINE)
    for shade in sheet.plot.shades:
        _shade(pen, shade, lay)
    for bed in sheet.plot.beds:
        pen.look_up()
        _bed(pen, bed, lay)
    for plant in sheet.plants:
        _plant(pen, plant, lay(plant.point), scale)


def _shade(pen: Pen, shade: Shade, lay: Lay) -> None:
    corners = [lay(point) for point in shade.corners]
    pen.shape(corners, fill=SHADE_FILL, ink=QUIET, dashes=1.0)
    left, foot, top = corners[0][0], corners[0][1], corners[2][1]
    thin = foot - top < THIN_MM
    words = tr("{name}, {height:g} m high", name=shade.name, height=shade.height_m)
    pen.text(
        left + (0 if thin else 1), top - 0.8 if thin else top + 3.8, words, SMALL_PT, colour=QUIET, room=60
    )


def _bed(pen: Pen, bed: Bed, lay: Lay) -> None:
    corners = [lay(point) for point in bed.corners]
    pen.shape(corners, fill=BED_FILL, ink=SOIL, width=0.4)
    for _, point in bed.places():
        x, y = lay(point)
        pen.dot(x, y, 0.35, LINE)
    top = min(y for _, y in corners)
    left = min(x for x, _ in corners)
    pen.text(left, top - 0.8, bed.name, SMALL_PT, face=STRONG, room=60)


def _plant(pen: Pen, plant: Standing, at: Point, scale: int) -> None:
    points = max(4.0, min(9.0, 300 * MM / scale))
    x, y = at
    radius = points / MM * 0.62
    pen.dot(x, y, radius, "#ffffff")
    pen.text(x, y + points / MM * 0.36, str(plant.number), points, face=STRONG, align="middle")


def _furniture(pen: Pen, room: Box, scale: int) -> None:
    """Draw the scale bar and the arrow to the north; north is up, as y of the plot is."""
    metres = next((one for one in BARS_M if one * 1000 / scale >= BAR_LEAST_MM), BARS_M[-1])
    length, y = metres * 1000 / scale, room.top + 6
    for part in range(2):
        bar = Box(room.left + part * length / 2, y, length / 2, 1.6)
        pen.box(bar, fill="#22302a" if part == 0 else None)
    for share in (0.0, 0.5, 1.0):
        words = figure(metres * share, "g")
        pen.text(room.left + share * length, y + 5, words, SMALL_PT, align="middle" if share else "left")
    pen.text(room.left + length + 3, y + 5, "m", SMALL_PT)
    pen.text(
        room.left,
        y - 1.5,
        tr("scale 1:{scale} on this paper, printed at 100 %", scale=scale),
        SMALL_PT,
        colour=QUIET,
    )
    middle, top = room.left + room.width - 6, room.top + 1
    pen.shape(
        (
            (middle, top),
            (middle + 3, top + ARROW_MM),
            (middle, top + ARROW_MM - 3),
            (middle - 3, top + ARROW_MM),
        ),
        fill="#22302a",
    )
    pen.text(middle - 5, top + 4, tr("N", sense="north on a map"), BODY_PT, face=STRONG, align="right")


def _key(flow: Flow, sheet: PlotSheet) -> None:
    if not sheet.key:
        return
    flow.heading(tr("What stands there"), many(sum(number for _, number in sheet.key), "plant"))
    half = flow.width / 2
    entries = list(enumerate(sheet.key, start=1))
    for left, right in _pairs(entries):
        flow.need(LINE_MM)
        flow.y += LINE_MM
        for column, entry in enumerate((left, right)):
            if entry is None:
                continue
            number, (name, count) = entry
            x = flow.left + column * half
            flow.pen.text(x + 5, flow.y, str(number), BODY_PT, face=STRONG, align="right")
            flow.pen.text(x + 8, flow.y, name, BODY_PT, room=half - 26)
            flow.pen.text(x + half - 4, flow.y, f"x {count}", BODY_PT, align="right", colour=QUIET)


Entry = tuple[int, tuple[str, int]]


def _pairs(entries: Sequence[Entry]) -> list[tuple[Entry, Entry | None]]:
    """Return entries two a line, down the left column first."""
    half = -(-len(entries) // 2)
    right: list[Entry | None] = [*entries[half:], None]
    return list(zip(entries[:half], right, strict=False))
