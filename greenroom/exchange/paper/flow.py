"""Pages that text flows down: a head on each, room asked for before it is used."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date

from greenroom.exchange.paper.pen import INK, LINE, QUIET, Pen
from greenroom.exchange.paper.sizes import Box, Paper
from greenroom.exchange.paper.words import MM, PLAIN, STRONG, shown, width_mm
from greenroom.season.hardening_words import WEEKDAYS, day_words, short_day_words
from greenroom.speech import tr

MARGIN_MM = 15.0
TITLE_PT, BODY_PT, SMALL_PT = 16.0, 10.0, 8.0
LEADING = 1.35
FOOT_MM = 8.0
MOST_LINES = 6


def leading_mm(points: float) -> float:
    """Return how far a line of type is from the next."""
    return points * LEADING / MM


def long_day(day: date) -> str:
    """Return a day as Fri 14 May 2027."""
    return tr("{weekday} {day} {year}", weekday=WEEKDAYS[day.weekday()], day=day_words(day), year=day.year)


def short_day(day: date) -> str:
    """Return a day as Fri 14 May."""
    return tr("{weekday} {day}", weekday=WEEKDAYS[day.weekday()], day=day_words(day))


def brief_day(day: date) -> str:
    """Return a day as Fri 14 Sep."""
    return tr("{weekday} {day}", weekday=WEEKDAYS[day.weekday()], day=short_day_words(day))


def fitting_days(days: Iterable[date], room_mm: float) -> Callable[[date], str]:
    """Return how to write days of one column: with their months cut short if one has no room otherwise."""
    fit = all(width_mm(shown(short_day(day)), PLAIN, BODY_PT) <= room_mm for day in days)
    return short_day if fit else brief_day


class Flow:
    """A document under one head; ``y`` is where the next thing goes [mm from the top].

    ``corner_mm`` is kept free of the head in the upper right corner.
    """

    def __init__(self, pen: Pen, title: str, under: str, corner_mm: float = 0.0) -> None:
        self.pen = pen
        self.title, self.under = title, under
        self.corner_mm = corner_mm
        self.y = 0.0
        self._head()

    @property
    def paper(self) -> Paper:
        """The paper."""
        return self.pen.paper

    @property
    def left(self) -> float:
        """The left edge of what is printed."""
        return MARGIN_MM

    @property
    def width(self) -> float:
        """How wide what is printed may be."""
        return self.paper.width_mm - 2 * MARGIN_MM

    @property
    def room(self) -> float:
        """How much of the page is left."""
        return self.paper.height_mm - MARGIN_MM - self.y

    def rest(self) -> Box:
        """Return what is left of the page."""
        return Box(self.left, self.y, self.width, self.room)

    def need(self, height_mm: float) -> bool:
        """Begin another page if so much does not fit on this one; tell whether that was done."""
        if height_mm <= self.room:
            return False
        self.pen.next_page()
        self._head()
        return True

    def gap(self, height_mm: float) -> None:
        """Leave some room."""
        self.y += height_mm

    def heading(self, words: str, quiet: str = "", keep_mm: float = 12.0) -> None:
        """Write a heading; it stays with so much of what follows."""
        self.need(leading_mm(12) + keep_mm)
        self.y += leading_mm(12)
        width = self.pen.text(self.left, self.y, words, 12, face=STRONG, room=self.width)
        if quiet:
            self.pen.text(
                self.left + width + 3, self.y, quiet, 9, room=max(1, self.width - width - 3), colour=QUIET
            )
        self.y += 1.5
        self.pen.line(((self.left, self.y), (self.left + self.width, self.y)), LINE)
        self.y += 1.0

    def says(
        self,
        words: str,
        points: float = BODY_PT,
        *,
        colour: str = INK,
        face: str = PLAIN,
    ) -> None:
        """Write text in lines, cut after so many that nobody would read more."""
        for told in self.pen.lines(words, face, points, self.width, MOST_LINES):
            self.need(leading_mm(points))
            self.y += leading_mm(points)
            self.pen.text(self.left, self.y, told, points, face=face, colour=colour)

    def _head(self) -> None:
        self.y = MARGIN_MM + TITLE_PT / MM * 0.8
        room = self.width - self.corner_mm
        self.pen.text(self.left, self.y, self.title, TITLE_PT, face=STRONG, room=room)
        self.y += leading_mm(9)
        self.pen.text(self.left, self.y, self.under, 9, room=room, colour=QUIET)
        self.y += 3.0
        foot = self.paper.height_mm - FOOT_MM
        page = tr("page {number}", number=self.pen.pages)
        self.pen.text(self.left + self.width, foot, page, SMALL_PT, colour=QUIET, align="right")
        self.pen.text(self.left, foot, self.title, SMALL_PT, room=self.width - 25, colour=QUIET)
