"""Charts drawn with lines and shapes: steps over days, and bars of a part in a whole."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from greenroom.exchange.paper.flow import SMALL_PT
from greenroom.exchange.paper.pen import COLOURS, LEAF, LINE, QUIET, TINTS, Pen, Point
from greenroom.exchange.paper.sizes import Box
from greenroom.exchange.paper.words import MM
from greenroom.season.hardening_words import day_words
from greenroom.speech import figure

AXIS_MM, NAMES_MM = 12.0, 36.0
LABEL_MM = 3.4
DASHES = (0.0, 1.6, 0.6)
TICKS = 4
DAY_TICK_MM = 24.0
NICE = (1, 1.2, 1.6, 2, 2.4, 3.2, 4, 5, 6, 8, 10)
BAR_MM = 5.4


@dataclass(frozen=True, slots=True)
class Steps:
    """A count that only rises: from each day on, so many."""

    name: str
    points: tuple[tuple[date, float], ...]

    @property
    def last(self) -> float:
        """What it came to."""
        return self.points[-1][1] if self.points else 0.0


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a whole, with its name and what is written beside it."""

    name: str
    part: float
    whole: float
    words: str


def draw_steps(pen: Pen, box: Box, series: Sequence[Steps], until: date) -> None:
    """Draw counts over days; each line carries its name at its end, and a pattern besides its colour."""
    first = min(point[0] for one in series for point in one.points)
    days = max(1, (until - first).days)
    top = nice_top(max(one.last for one in series))
    room = Box(box.left + AXIS_MM, box.top + 2, box.width - AXIS_MM - NAMES_MM, box.height - 9)

    def at(day: date, value: float) -> Point:
        return (
            room.left + (day - first).days / days * room.width,
            room.top + room.height * (1 - value / top),
        )

    _levels(pen, room, top)
    _days(pen, room, first, days)
    ends = []
    for number, one in enumerate(series):
        colour, dashes = COLOURS[number % len(COLOURS)], DASHES[number // len(COLOURS) % len(DASHES)]
        line = _stairs(one, until)
        pen.line([at(*point) for point in line], colour, 0.5, dashes)
        ends.append((at(until, one.last)[1], one, colour))
    for y, one, colour in _apart(ends, room):
        words = f"{one.name} {figure(one.last, ',.0f')}"
        pen.text(room.left + room.width + 1.5, y + 1, words, SMALL_PT, room=NAMES_MM - 2, colour=colour)


def draw_part(pen: Pen, box: Box, one: Part, most: float) -> None:
    """Draw a bar for a whole, filled as far as its part; ``most`` is what the full width stands for."""
    foot = box.top + box.height * 0.72
    left, width = box.left + NAMES_MM + 4, box.width - 2 * NAMES_MM
    scale = width / most if most else 0.0
    pen.text(box.left, foot, one.name, SMALL_PT, room=NAMES_MM + 2)
    bar = Box(left, box.top + 0.6, scale * one.whole, box.height - 1.4)
    pen.box(bar, fill=TINTS[0], ink=LINE, width=0.1)
    if one.part:
        pen.box(bar._replace(width=scale * min(one.part, one.whole)), fill=LEAF, ink=None)
    pen.text(left + bar.width + 1.5, foot, one.words, SMALL_PT, colour=QUIET, room=NAMES_MM - 6)


def nice_top(value: float) -> float:
    """Return the least number no smaller that four steps divide into round ones."""
    size = 1.0
    while size * 10 < value:
        size *= 10
    return next(size * step for step in NICE if size * step >= value) if value > 0 else 1.0


def _levels(pen: Pen, room: Box, top: float) -> None:
    for tick in range(TICKS + 1):
        y = room.top + room.height * (1 - tick / TICKS)
        pen.line(((room.left, y), (room.left + room.width, y)), LINE, 0.1 if tick else 0.3)
        pen.text(
            room.left - 1.5, y + 1, figure(top * tick / TICKS, "g"), SMALL_PT, colour=QUIET, align="right"
        )


def _days(pen: Pen, room: Box, first: date, days: int) -> None:
    count = max(1, min(days, int(room.width / DAY_TICK_MM)))
    foot = room.top + room.height
    for tick in range(count + 1):
        after = round(days * tick / count)
        x = room.left + room.width * after / days
        pen.line(((x, foot), (x, foot + 1)), QUIET, 0.2)
        words = day_words(first + timedelta(days=after))
        pen.text(x, foot + 1.5 + SMALL_PT / MM, words, SMALL_PT, colour=QUIET, align="middle")


def _stairs(one: Steps, until: date) -> list[tuple[date, float]]:
    line = [(one.points[0][0], 0.0)]
    for day, value in one.points:
        line += [(day, line[-1][1]), (day, value)]
    return [*line, (until, one.last)]


def _apart(ends: list[tuple[float, Steps, str]], room: Box) -> list[tuple[float, Steps, str]]:
    """Return the names at the ends of the lines, moved so that none covers another."""
    found: list[tuple[float, Steps, str]] = []
    lowest = room.top + room.height
    for y, one, colour in sorted(ends, key=lambda end: -end[0]):
        lowest = min(y, lowest)
        found.append((lowest, one, colour))
        lowest -= LABEL_MM
    return found
