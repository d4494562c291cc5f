"""Paper, and sheets of labels, by their measures alone."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from greenroom.speech import figure, tr

SIDES = {"width_mm": tr("width"), "height_mm": tr("height")}
MOST_PLACES = 500
LEAST_LABEL_MM = 8.0
SLACK_MM = 0.05
"""What rounding of a stated measure may push a label over the edge of its sheet."""


class SizeError(ValueError):
    """A sheet that cannot be; the message is one sentence."""


class Box(NamedTuple):
    """A rectangle on a page [mm]: its left and top edge from the page's top left corner, and its sides."""

    left: float
    top: float
    width: float
    height: float

    def inset(self, by: float) -> Box:
        """Return the box without a margin."""
        return Box(self.left + by, self.top + by, self.width - 2 * by, self.height - 2 * by)


@dataclass(frozen=True, slots=True)
class Paper:
    """A size of paper, upright [mm]."""

    name: str
    width_mm: float
    height_mm: float

    def turned(self) -> Paper:
        """Return the paper lying on its side."""
        return Paper(self.name, self.height_mm, self.width_mm)


A4 = Paper("A4", 210.0, 297.0)
"""ISO 216."""

LETTER = Paper(tr("US Letter"), 215.9, 279.4)
"""ANSI/ASME Y14.1, size A: 8½ x 11 in."""

PAPERS = (A4, LETTER)


@dataclass(frozen=True, slots=True)
class SheetSize:
    """A sheet of labels as it is measured [mm].

    ``left_mm`` and ``top_mm`` run from the paper's edge to the first label, ``across_mm`` and ``down_mm``
    from the edge of one label to the same edge of the next. ``to_cut`` asks for lines to cut along.

    Raises
    ------
    SizeError
        If the labels overlap or do not fit on the paper.
    """

    paper: Paper
    rows: int
    columns: int
    width_mm: float
    height_mm: float
    left_mm: float
    top_mm: float
    across_mm: float
    down_mm: float
    to_cut: bool = False

    def __post_init__(self) -> None:
        if not (self.rows >= 1 and self.columns >= 1 and self.rows * self.columns <= MOST_PLACES):
            raise SizeError(
                tr(
                    "{rows} rows of {columns} labels cannot be: 1 to {most_places} labels are allowed.",
                    rows=self.rows,
                    columns=self.columns,
                    most_places=MOST_PLACES,
                )
            )
        for side, words in SIDES.items():
            if not getattr(self, side) >= LEAST_LABEL_MM:
                raise SizeError(
                    tr(
                        "The label's {side} is {size:g} mm: at least {least:g} mm are needed.",
                        side=words,
                        size=getattr(self, side),
                        least=LEAST_LABEL_MM,
                    )
                )
        self._refuse_overlap()
        self._refuse_overhang()

    @property
    def name(self) -> str:
        """The sheet by its measures: "70 x 37 mm, 3 x 8, A4"."""
        size = f"{figure(self.width_mm, 'g')} x {figure(self.height_mm, 'g')} mm"
        told = tr("{size} to cut", size=size) if self.to_cut else size
        return f"{told}, {self.columns} x {self.rows}, {self.paper.name}"

    @property
    def places(self) -> int:
        """How many labels a sheet holds."""
        return self.rows * self.columns

    def place(self, number: int) -> Box:
        """Return where the label of a number lies, counted from 0, row by row."""
        row, column = divmod(number, self.columns)
        return Box(
            self.left_mm + column * self.across_mm,
            self.top_mm + row * self.down_mm,
            self.width_mm,
            self.height_mm,
        )

    def _refuse_overlap(self) -> None:
        pairs = (
            ("across_mm", "width_mm", self.columns, tr("side by side")),
            ("down_mm", "height_mm", self.rows, tr("above each other")),
        )
        for pitch, side, number, words in pairs:
            step, size = getattr(self, pitch), getattr(self, side)
            if number > 1 and step < size - SLACK_MM:
                raise SizeError(
                    tr(
                        "Labels {beside} would overlap: from one to the next is {step:g} mm, at least their "
                        "{side} of {size:g} mm is needed.",
                        beside=words,
                        step=step,
                        side=SIDES[side],
                        size=size,
                    )
                )

    def _refuse_overhang(self) -> None:
        last = self.place(self.places - 1)
        sides = (
            (tr("wide", sense="behind a measure"), self.left_mm, last.left + last.width, self.paper.width_mm),
            (tr("high", sense="behind a measure"), self.top_mm, last.top + last.height, self.paper.height_mm),
        )
        for words, first, end, room in sides:
            if first < 0 or end > room + SLACK_MM:
                raise SizeError(
                    tr(
                        "The labels reach from {first:g} to {end:g} mm, but {paper} is only {room:g} mm "
                        "{across}.",
                        first=first,
                        end=end,
                        paper=self.paper.name,
                        room=room,
                        across=words,
                    )
                )


SHEETS = (
    SheetSize(A4, 8, 3, 70.0, 37.0, 0.0, 0.5, 70.0, 37.0),
    SheetSize(A4, 7, 3, 63.5, 38.1, 7.25, 15.15, 66.0, 38.1),
    SheetSize(A4, 10, 4, 48.5, 25.4, 8.0, 21.5, 48.5, 25.4),
    SheetSize(A4, 13, 5, 38.1, 21.2, 4.75, 10.7, 40.6, 21.2),
    SheetSize(A4, 15, 2, 90.0, 18.0, 15.0, 13.5, 90.0, 18.0, to_cut=True),
    SheetSize(LETTER, 10, 3, 66.675, 25.4, 4.7625, 12.7, 69.85, 25.4),
    SheetSize(LETTER, 5, 2, 101.6, 50.8, 3.9688, 12.7, 106.3625, 50.8),
    SheetSize(LETTER, 14, 2, 90.0, 18.0, 17.95, 13.7, 90.0, 18.0, to_cut=True),
)
"""Sheets that many makers offer, by measure: common practice, no source. Any other can be measured and
typed in."""


def sheets_of(paper: Paper) -> tuple[SheetSize, ...]:
    """Return the sheets of one size of paper."""
    return tuple(sheet for sheet in SHEETS if sheet.paper is paper)
