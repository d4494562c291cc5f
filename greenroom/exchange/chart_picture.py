"""The season plan as a picture: a bar a variety from sowing to the first ripe fruit, as SVG.

SVG 1.1 (Second Edition, W3C 2011); text is text, so that it can be found, selected and read out. A stage is
told by its word and its place in the bar as well as by its colour.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import zip_longest
from xml.sax.saxutils import escape, quoteattr

from greenroom.guide import Guide
from greenroom.season.hardening_words import MONTHS_SHORT, day_words
from greenroom.season.months import month_starts
from greenroom.season.plan import Plan, PlanRow
from greenroom.season.plan_stages import Stages, stages
from greenroom.speech import tr

LEAST_WIDTH_PX = 760  # the key takes so much
TITLE_PX, HEAD_PX, FOOT_PX, MARGIN_PX = 22, 74, 46, 24
LEAST_ROW_PX, MOST_ROW_PX = 16.0, 84.0
NAME_SHARE, NAME_LEAST_PX = 0.25, 90
BAR_SHARE, MOST_BAR_PX, TEXT_SHARE = 0.58, 32, 0.36
TEXT_LEAST_PX, TEXT_MOST_PX = 9.0, 16.0
LETTER_SHARE = 0.62  # of its size, the width of a letter on average in the widest typeface named
ROUND_PX = 3
BEFORE, AFTER = timedelta(days=10), timedelta(days=40)


@dataclass(frozen=True, slots=True)
class Inks:
    """The colours of the picture, as #rrggbb; ``on_*`` is text on the colour of that name."""

    ground: str
    ink: str
    quiet: str
    line: str
    soil: str
    on_soil: str
    seedling: str
    on_seedling: str
    sun: str
    on_sun: str
    leaf: str
    on_leaf: str
    fruit: str
    frost: str


@dataclass(frozen=True, slots=True)
class Bar:
    """One stage of one variety: from its first day up to the next stage's."""

    word: str
    name: str
    first: date
    end: date


STAGES = (
    (tr("comes up"), "soil"),
    (tr("grows on"), "seedling"),
    (tr("hardens"), "sun"),
    (tr("outdoors"), "leaf"),
)


def plan_picture(
    guide: Guide, plan: Plan, inks: Inks, width: int, height: int, family: str = "sans-serif"
) -> str:
    """Return the plan of a season as an SVG picture.

    Parameters
    ----------
    guide : Guide
        What is known of the crops; it tells when seedlings are potted up.
    plan : Plan
        The plan.
    inks : Inks
        Its colours.
    width, height : int
        Its size [px]. It is made larger where varieties or key would not have room.
    family : str
        The typeface, or several of which the first that is there is taken.

    Returns
    -------
    str
        The picture.
    """
    return "\n".join(_Picture(guide, plan, inks, width, height).lines(family)) + "\n"


def bars_of(known: Stages) -> list[Bar]:
    """Return the stages of a variety as bars, one after the other; those not known are left out."""
    turns = (known.on, known.up, known.hardens, known.set_out, known.ripe)
    found = []
    for (word, name), first, end in zip(STAGES, turns, turns[1:], strict=False):
        if first is None or end is None:
            break
        if end > first:
            found.append(Bar(word, name, first, end))
    return found


class _Picture:
    """Where everything lies, and the lines of the picture."""

    def __init__(self, guide: Guide, plan: Plan, inks: Inks, width: int, height: int) -> None:
        self._plan, self._inks = plan, inks
        self._rows = [(row, stages(guide, row)) for row in plan.rows]
        self._width = max(LEAST_WIDTH_PX, width)
        count = max(1, len(self._rows))
        room = (height - HEAD_PX - FOOT_PX) / count
        self._row_px = min(MOST_ROW_PX, max(LEAST_ROW_PX, room))
        self._height = max(height, round(HEAD_PX + FOOT_PX + self._row_px * count))
        self._text_px = min(TEXT_MOST_PX, max(TEXT_LEAST_PX, self._row_px * TEXT_SHARE))
        longest = max((len(row.name) for row in plan.rows), default=0)
        named = MARGIN_PX + longest * self._text_px * LETTER_SHARE + 12
        self._left = max(NAME_LEAST_PX, min(named, self._width * NAME_SHARE))
        self._first, self._last = _reach(plan, [known for _, known in self._rows])

    def lines(self, family: str) -> Iterator[str]:
        """Yield the lines of the picture."""
        inks, size = self._inks, f'width="{self._width}" height="{self._height}"'
        title = tr("Plan of the season {year}", year=self._plan.year)
        yield f'<svg xmlns="http://www.w3.org/2000/svg" version="1.1" {size}'
        yield f'  viewBox="0 0 {self._width} {self._height}" font-family={quoteattr(family)}>'
        yield f"<title>{escape(title)}</title>"
        yield f'<rect {size} fill="{inks.ground}"/>'
        yield self._text(MARGIN_PX, MARGIN_PX + TITLE_PX / 2, title, TITLE_PX, inks.ink, weight=700)
        yield from self._key()
        yield from self._months()
        yield from self._frost()
        for place, (row, known) in enumerate(self._rows):
            yield from self._variety(place, row, known)
        yield self._text(MARGIN_PX, self._height - 16, self._foot(), 11, inks.quiet)
        yield "</svg>"

    def _x(self, day: date) -> float:
        room = self._width - MARGIN_PX - self._left
        return self._left + room * (day - self._first).days / max(1, (self._last - self._first).days)

    def _key(self) -> Iterator[str]:
        x, y = float(MARGIN_PX), MARGIN_PX + TITLE_PX + 14.0
        for word, name in (
            *STAGES,
            (tr("pot up"), "pot"),
            (tr("first ripe"), "fruit"),
            (tr("first frost"), "frost"),
        ):
            colour = getattr(self._inks, name, self._inks.fruit)
            if name == "pot":
                yield self._pot_at(x + 7, y - 5, 16)
            elif name == "fruit":
                yield f'<circle cx="{x + 7:.1f}" cy="{y - 4:.1f}" r="5" fill="{colour}"/>'
            elif name == "frost":
                yield _dashed(x + 7, y - 11, y + 3, colour)
            else:
                yield f'<rect x="{x:.1f}" y="{y - 10:.1f}" width="14" height="11" rx="2" fill="{colour}"/>'
            yield self._text(x + 19, y, word, 12, self._inks.quiet)
            x += 19 + len(word) * 12 * LETTER_SHARE + 18

    def _months(self) -> Iterator[str]:
        foot = self._height - FOOT_PX
        starts = month_starts(self._first, self._last)
        for day, after in zip_longest(starts, starts[1:], fillvalue=self._last):
            x = self._x(day)
            yield f'<line x1="{x:.1f}" y1="{HEAD_PX - 6}" x2="{x:.1f}" y2="{foot:.1f}" {self._thin()}/>'
            if self._x(after) - x > 26:
                yield self._text(x + 4, HEAD_PX + 4, MONTHS_SHORT[day.month - 1], 11, self._inks.quiet)

    def _frost(self) -> Iterator[str]:
        if self._plan.frost is not None:
            usual = self._plan.frost.usual
            if self._first <= usual <= self._last:
                x, words = self._x(usual), tr("First frost, usually {day}", day=day_words(usual))
                yield f"<g><title>{escape(words)}</title>"
                yield f"{_dashed(x, HEAD_PX - 6, self._height - FOOT_PX, self._inks.frost)}</g>"

    def _variety(self, place: int, row: PlanRow, known: Stages) -> Iterator[str]:
        top = HEAD_PX + 8 + place * self._row_px
        middle, high = top + self._row_px / 2, min(MOST_BAR_PX, self._row_px * BAR_SHARE)
        said = "; ".join(
            tr("{word} from {day}", word=bar.word, day=day_words(bar.first)) for bar in bars_of(known)
        )
        told = tr("{name}: {said}", name=row.name, said=said)
        yield f"<g><title>{_xml(told)}</title>"
        name = _fitted(row.name, self._left - MARGIN_PX - 8, self._text_px)
        yield self._text(MARGIN_PX, middle + self._text_px * 0.36, name, self._text_px, self._inks.ink)
        for bar in bars_of(known):
            yield from self._bar(bar, middle - high / 2, high)
        if known.pot_up is not None:
            yield self._pot(known.pot_up, middle, high)
        if known.ripe is not None:
            yield self._ripe(known.ripe, middle, high)
        elif known.set_out is not None and row.sowing is not None:
            size = min(self._text_px, high * 0.72)
            x = self._x(known.set_out) + 6
            yield self._text(x, middle + size * 0.36, tr("ripe in none of the years"), size, self._inks.quiet)
        yield "</g>"

    def _bar(self, bar: Bar, top: float, high: float) -> Iterator[str]:
        x, wide = self._x(bar.first), self._x(bar.end) - self._x(bar.first)
        colour, on = getattr(self._inks, bar.name), getattr(self._inks, f"on_{bar.name}")
        yield (
            f'<rect x="{x:.1f}" y="{top:.1f}" width="{wide:.1f}" height="{high:.1f}" rx="{ROUND_PX}" '
            f'fill="{colour}" stroke="{self._inks.ground}" stroke-width="1"/>'
        )
        size = min(self._text_px, high * 0.72)
        if len(bar.word) * size * LETTER_SHARE + 6 <= wide:
            yield self._text(x + 4, top + high / 2 + size * 0.36, bar.word, size, on)

    def _pot(self, day: date, middle: float, high: float) -> str:
        picture = self._pot_at(self._x(day), middle, high)
        words = tr("pot up {day}", day=day_words(day))
        return f"<g><title>{escape(words)}</title>{picture}</g>"

    def _pot_at(self, x: float, middle: float, high: float) -> str:
        wide, tall = high * 0.3, high * 0.34
        points = ((-wide, -tall), (wide, -tall), (wide * 0.6, tall), (-wide * 0.6, tall))
        told = " ".join(f"{x + across:.1f},{middle + down:.1f}" for across, down in points)
        return f'<polygon points="{told}" fill="{self._inks.fruit}" stroke="{self._inks.ground}"/>'

    def _ripe(self, day: date, middle: float, high: float) -> str:
        words = day_words(day)
        size = min(self._text_px, high * 0.72)
        x, right = self._x(day) + high * 0.5 + 3, self._width - MARGIN_PX
        circle = f'<circle cx="{self._x(day):.1f}" cy="{middle:.1f}" r="{high * 0.36:.1f}"'
        picture = f'{circle} fill="{self._inks.fruit}" stroke="{self._inks.ground}"/>'
        if x + len(words) * size * LETTER_SHARE > right:
            return f"<g><title>{escape(tr('first ripe {day}', day=words))}</title>{picture}</g>"
        return picture + self._text(x, middle + size * 0.36, words, size, self._inks.quiet)

    def _foot(self) -> str:
        plan = self._plan
        if plan.chart is not None:
            return tr("Usual days of {years} years of the place's weather record.", years=plan.years)
        return " ".join(plan.missing[:1]) or tr("By the plan for {year}.", year=plan.year)

    def _text(self, x: float, y: float, words: str, size: float, colour: str, *, weight: int = 400) -> str:
        bold = f' font-weight="{weight}"' if weight != 400 else ""
        return (
            f'<text x="{x:.1f}" y="{y:.1f}" font-size="{size:.1f}" fill="{colour}"{bold}>{_xml(words)}</text>'
        )

    def _thin(self) -> str:
        return f'stroke="{self._inks.line}" stroke-width="1"'


def _reach(plan: Plan, known: Sequence[Stages]) -> tuple[date, date]:
    """Return the first and last day of the picture."""
    days = [day for one in known for day in (one.on, one.up, one.set_out, one.ripe) if day is not None]
    if plan.frost is not None:
        days.append(plan.frost.usual)
    if not days:
        return date(plan.year, 1, 1), date(plan.year, 12, 31)
    return min(days) - BEFORE, max(days) + AFTER


def _fitted(name: str, room: float, size: float) -> str:
    letters = max(1, int(room / (size * LETTER_SHARE)))
    return name if len(name) <= letters else f"{name[: letters - 1]}…"


def _dashed(x: float, top: float, foot: float, colour: str) -> str:
    line = f'<line x1="{x:.1f}" y1="{top:.1f}" x2="{x:.1f}" y2="{foot:.1f}"'
    return f'{line} stroke="{colour}" stroke-width="1.6" stroke-dasharray="4 3"/>'


def _xml(words: str) -> str:
    """Return words without the signs that XML 1.0, section 2.2, forbids."""
    allowed = "".join(one if one >= " " and one not in "\ufffe\uffff" else " " for one in words)
    return escape(allowed)
