"""Where the cells of a tray or the pots of a rack lie in a widget."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPoint, QRect, QSize

SMALLEST_PITCH = 24
LARGEST_PITCH = 84
USUAL_PITCH = 44
NAMED_PITCH = 42  # from here on a name fits below a pot
MOST_OBLONG = 1.2  # a cell may be this much longer one way than the other

Place = tuple[int, int]
"""Row and column, from 0."""


@dataclass(frozen=True, slots=True)
class Margins:
    """The room round the cells, for labels and bands."""

    left: int = 0
    top: int = 0
    right: int = 0
    bottom: int = 0


@dataclass(frozen=True, slots=True)
class Grid:
    """Rows and columns of equal slots; a cell is a slot less its gap and the strip for a name."""

    rows: int
    columns: int
    left: int
    top: int
    pitch_x: int
    pitch_y: int
    strip: int = 0

    @property
    def gap(self) -> int:
        """Between two cells; small cells stand closer."""
        return 3 if min(self.pitch_x, self.pitch_y - self.strip) < 34 else 6

    @property
    def area(self) -> QRect:
        """All slots together."""
        return QRect(self.left, self.top, self.columns * self.pitch_x, self.rows * self.pitch_y)

    def slot(self, place: Place) -> QRect:
        """Return the slot of a cell, which takes its clicks."""
        row, column = place
        return QRect(
            self.left + column * self.pitch_x, self.top + row * self.pitch_y, self.pitch_x, self.pitch_y
        )

    def cell(self, place: Place) -> QRect:
        """Return the rectangle a cell is drawn in."""
        half = self.gap // 2
        return self.slot(place).adjusted(half, half, half - self.gap, half - self.gap - self.strip)

    def at(self, point: QPoint) -> Place | None:
        """Return the cell at a point, or None outside the cells."""
        if not self.area.contains(point):
            return None
        return (point.y() - self.top) // self.pitch_y, (point.x() - self.left) // self.pitch_x

    def within(self, rect: QRect) -> list[Place]:
        """Return the cells whose slots a rectangle meets, row by row."""
        met = rect.intersected(self.area)
        if met.isEmpty():
            return []
        first, last = self.at(met.topLeft()), self.at(met.bottomRight())
        if first is None or last is None:
            return []
        return block(first, last)


def block(first: Place, last: Place) -> list[Place]:
    """Return the cells of the block between two corners, row by row."""
    top, bottom = sorted((first[0], last[0]))
    left, right = sorted((first[1], last[1]))
    return [(row, column) for row in range(top, bottom + 1) for column in range(left, right + 1)]


def fit(rows: int, columns: int, size: QSize, margins: Margins, strip: int = 0) -> Grid:
    """Return the grid that fills a size as well as its cells' limits allow.

    ``strip`` is the room wanted below each cell for a name; it is given where the name has the width.
    """
    wide = _held((size.width() - margins.left - margins.right) // columns)
    slot_high = (size.height() - margins.top - margins.bottom) // rows
    strip = strip if wide >= NAMED_PITCH and slot_high - strip >= NAMED_PITCH else 0
    high = _held(slot_high - strip)
    pitch_x = min(wide, int(high * MOST_OBLONG))
    pitch_y = min(high, int(wide * MOST_OBLONG))
    return Grid(rows, columns, margins.left, margins.top, _held(pitch_x), _held(pitch_y) + strip, strip)


def room_for(rows: int, columns: int, margins: Margins, pitch: int) -> QSize:
    """Return the size that holds a grid of a pitch."""
    return QSize(columns * pitch + margins.left + margins.right, rows * pitch + margins.top + margins.bottom)


def _held(pitch: int) -> int:
    return max(SMALLEST_PITCH, min(LARGEST_PITCH, pitch))
