"""A pen that draws pages in millimetres from the top left corner, and a document that keeps them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO

from reportlab.lib.colors import HexColor
from reportlab.pdfgen.canvas import Canvas

from greenroom.exchange.errors import Cancel, go_on
from greenroom.exchange.paper.sizes import Box, Paper
from greenroom.exchange.paper.symbol import QUIET_MODULES, modules_of
from greenroom.exchange.paper.words import (
    MM,
    PLAIN,
    fitted,
    load_typeface,
    not_shown,
    shown,
    width_mm,
    wrapped,
)

INK, QUIET, LINE = "#22302a", "#5c6862", "#b9b6aa"
LEAF, SOIL, CLAY, SUN, PLUM, SKY, LINK = (
    "#3d7a4d",
    "#6a5a4a",
    "#ad5534",
    "#e0a526",
    "#7b3e68",
    "#5f8fb0",
    "#2d6391",
)
COLOURS = (LEAF, CLAY, LINK, SUN, PLUM, SOIL, SKY)
TINTS = ("#e1ecdc", "#f6e1d6", "#dde8f1", "#fbf0d2", "#eddfe8", "#e9e4dc", "#e3eef5")

HAIR_MM = 0.2
TICK_MM = 3.6
Point = tuple[float, float]


def never() -> bool:
    """Tell that nobody called the work off."""
    return False


@dataclass(frozen=True, slots=True)
class Printed:
    """Pages in PDF; ``missing`` are the signs that the typeface lacks, shown as empty squares."""

    pdf: bytes
    pages: int
    paper: Paper
    missing: frozenset[str] = frozenset()


class Pen:
    """Draws one document; lengths in mm, from the top left corner of the page, type in points."""

    def __init__(self, paper: Paper, title: str, stop: Cancel = never) -> None:
        load_typeface()
        self.paper = paper
        self.pages = 1
        self._stop = stop
        self._missing: set[str] = set()
        self._held = BytesIO()
        size = paper.width_mm * MM, paper.height_mm * MM
        self._canvas = Canvas(self._held, pagesize=size, initialFontName=PLAIN, invariant=1)  # type: ignore[arg-type]
        self._canvas.setTitle(shown(title))
        self._canvas.setCreator("greenroom")
        self._canvas.setProducer("greenroom")
        self._canvas.setViewerPreference("PrintScaling", "None")

    def end(self) -> Printed:
        """Close the document and return it."""
        self._canvas.showPage()
        self._canvas.save()
        return Printed(self._held.getvalue(), self.pages, self.paper, frozenset(self._missing))

    def next_page(self) -> None:
        """Begin another page.

        Raises
        ------
        Cancelled
            If the work was called off.
        """
        self.look_up()
        self._canvas.showPage()
        self.pages += 1

    def look_up(self) -> None:
        """Stop if the work was called off."""
        go_on(self._stop)

    def text(
        self,
        x: float,
        y: float,
        words: str,
        points: float = 9.0,
        *,
        face: str = PLAIN,
        room: float | None = None,
        colour: str = INK,
        align: str = "left",
    ) -> float:
        """Write one line with its foot on ``y``, cut to ``room``; return its width."""
        self._missing |= not_shown(words)
        told = shown(words) if room is None else fitted(words, face, points, room)
        width = width_mm(told, face, points)
        start = x - {"left": 0.0, "middle": width / 2, "right": width}[align]
        self._canvas.setFont(face, points)
        self._canvas.setFillColor(HexColor(colour))
        self._canvas.drawString(start * MM, self._up(y), told)
        return width

    def lines(self, words: str, face: str, points: float, room: float, most: int) -> list[str]:
        """Return a text as lines that fit into a room, at most so many."""
        self._missing |= not_shown(words)
        return wrapped(words, face, points, room, most)

    def line(
        self, points: Sequence[Point], colour: str = INK, width: float = HAIR_MM, dashes: float = 0.0
    ) -> None:
        """Draw a line through points."""
        self._path(points, closed=False, ink=colour, fill=None, width=width, dashes=dashes)

    def shape(
        self,
        points: Sequence[Point],
        *,
        fill: str | None = None,
        ink: str | None = INK,
        width: float = HAIR_MM,
        dashes: float = 0.0,
    ) -> None:
        """Draw a closed shape."""
        self._path(points, closed=True, ink=ink, fill=fill, width=width, dashes=dashes)

    def box(
        self, box: Box, *, fill: str | None = None, ink: str | None = INK, width: float = HAIR_MM
    ) -> None:
        """Draw a rectangle."""
        right, foot = box.left + box.width, box.top + box.height
        corners = ((box.left, box.top), (right, box.top), (right, foot), (box.left, foot))
        self.shape(corners, fill=fill, ink=ink, width=width)

    def dot(self, x: float, y: float, radius: float, fill: str = INK) -> None:
        """Draw a filled dot."""
        self._canvas.setFillColor(HexColor(fill))
        self._canvas.circle(x * MM, self._up(y), radius * MM, stroke=0, fill=1)

    def tick_box(self, x: float, y: float) -> None:
        """Draw a box to tick, its top left corner at a point."""
        self.box(Box(x, y, TICK_MM, TICK_MM), width=0.3)

    def code(self, box: Box, text: str) -> None:
        """Draw a QR code as large as goes into a box with its quiet zone, in the box's top left corner."""
        rows = modules_of(text)
        side = min(box.width, box.height) / (len(rows) + 2 * QUIET_MODULES)
        self._canvas.setFillColor(HexColor("#000000"))
        path = self._canvas.beginPath()
        for down, row in enumerate(rows):
            for first, length in _runs(row):
                left = box.left + (QUIET_MODULES + first) * side
                foot = box.top + (QUIET_MODULES + down + 1) * side
                path.rect(left * MM, self._up(foot), length * side * MM, side * MM)
        self._canvas.drawPath(path, stroke=0, fill=1)

    @contextmanager
    def within(self, box: Box) -> Iterator[None]:
        """Let nothing be drawn outside a box."""
        self._canvas.saveState()
        path = self._canvas.beginPath()
        path.rect(box.left * MM, self._up(box.top + box.height), box.width * MM, box.height * MM)
        self._canvas.clipPath(path, stroke=0, fill=0)
        yield
        self._canvas.restoreState()

    def _path(
        self,
        points: Sequence[Point],
        *,
        closed: bool,
        ink: str | None,
        fill: str | None,
        width: float,
        dashes: float,
    ) -> None:
        path = self._canvas.beginPath()
        path.moveTo(points[0][0] * MM, self._up(points[0][1]))
        for x, y in points[1:]:
            path.lineTo(x * MM, self._up(y))
        if closed:
            path.close()
        if ink is not None:
            self._canvas.setStrokeColor(HexColor(ink))
            self._canvas.setLineWidth(width * MM)
            self._canvas.setDash([dashes * MM, dashes * MM] if dashes else [])
        if fill is not None:
            self._canvas.setFillColor(HexColor(fill))
        self._canvas.drawPath(path, stroke=int(ink is not None), fill=int(fill is not None))

    def _up(self, y: float) -> float:
        """Return how far above the foot of the page a height below its top is, in points."""
        return (self.paper.height_mm - y) * MM


def _runs(row: Sequence[int]) -> Iterator[tuple[int, int]]:
    """Yield the dark stretches of a row of modules: the first, and how many."""
    first = None
    for place, dark in enumerate([*row, 0]):
        if dark and first is None:
            first = place
        elif not dark and first is not None:
            yield first, place - first
            first = None
