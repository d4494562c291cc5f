"""Plant tags and tray labels on sheets of labels, each with the code that opens its story."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from greenroom.exchange.errors import Cancel
from greenroom.exchange.paper.codes import Code
from greenroom.exchange.paper.pen import INK, LINE, QUIET, Pen, Printed, never
from greenroom.exchange.paper.sizes import Box, SheetSize, SizeError
from greenroom.exchange.paper.words import MM, PLAIN, STRONG
from greenroom.season.hardening_words import day_year_words
from greenroom.season.holders import Holder
from greenroom.season.packets import variety_name
from greenroom.season.spots import Spot
from greenroom.season.state import Season
from greenroom.speech import many, tr

PADDING_MM, LEAST_PADDING_MM = 2.0, 1.0
MOST_CODE_MM, CODE_SHARE = 30.0, 0.45
MOST_PT, LEAST_PT = 14.0, 4.5
SIGNS_A_LINE = 13
SIGN_EM = 0.56
SMALL_SHARE = 0.78
HEAD_LINES = 2
LEADING = 1.22
ASCENT = 0.8
FARTHEST_PLACES = 3


@dataclass(frozen=True, slots=True)
class Label:
    """One label: what stands in large type, what in small below it, and its code."""

    head: str
    lines: tuple[str, ...]
    code: str


def plant_tags(season: Season, holder: str) -> list[Label]:
    """Return a tag for each spot in which something grows or waits to come up."""
    name = season.holder(holder).name
    return [_tag(season, spot, f"{name}, {spot.key.label}") for spot in _kept(season, holder)]


def variety_tags(season: Season, holder: str) -> list[Label]:
    """Return a tag for each sowing of a variety in a holder; its code is that of the first of its spots."""
    groups: dict[tuple[str | None, object], list[Spot]] = {}
    for spot in _kept(season, holder):
        groups.setdefault((spot.packet, spot.sown_on), []).append(spot)
    name = season.holder(holder).name
    return [_tag(season, spots[0], f"{name}, {_stretch(spots)}") for spots in groups.values()]


def tray_label(season: Season, made: Holder) -> Label:
    """Return the label of a whole tray, rack or bed."""
    counts = season.counts(made.key)
    names = dict.fromkeys(variety_name(season, spot.packet) for spot in _kept(season, made.key))
    lines = [f"{made.rows} x {made.columns}{f', {made.place}' if made.place else ''}"]
    if counts.first_sown is not None:
        lines.append(tr("sown {day}", day=day_year_words(counts.first_sown)))
    if names:
        lines.append(", ".join(names))
    return Label(made.name, tuple(lines), Code(made.key).text)


def print_labels(
    labels: Sequence[Label], sheet: SheetSize, start: int = 0, title: str = tr("Tags"), stop: Cancel = never
) -> Printed:
    """Put labels on sheets, from a place (counted from 0) of the first sheet on.

    Raises
    ------
    SizeError
        If the sheet has no such place.
    Cancelled
        If the work was called off.
    """
    if not 0 <= start < sheet.places:
        raise SizeError(
            tr(
                "The sheet has no place {place}: 1 to {places} are allowed.",
                place=start + 1,
                places=sheet.places,
            )
        )
    pen = Pen(sheet.paper, title, stop)
    for number, label in enumerate(labels, start=start):
        if number and number % sheet.places == 0:
            pen.next_page()
        pen.look_up()
        _draw(pen, sheet.place(number % sheet.places), label, to_cut=sheet.to_cut)
    return pen.end()


def _draw(pen: Pen, place: Box, label: Label, *, to_cut: bool) -> None:
    if to_cut:
        pen.box(place, ink=LINE, width=0.1)
    inner = place.inset(max(LEAST_PADDING_MM, min(PADDING_MM, 0.07 * place.height)))
    side = min(inner.height, MOST_CODE_MM, CODE_SHARE * inner.width)
    with pen.within(place):
        code = Box(inner.left, inner.top + (inner.height - side) / 2, side, side)
        pen.code(code, label.code)
        room = Box(inner.left + side + 1, inner.top, inner.width - side - 1, inner.height)
        _write(pen, room, label)


def _write(pen: Pen, room: Box, label: Label) -> None:
    """Write the text of a label in the room beside its code, from the middle outwards."""
    whole = (HEAD_LINES + SMALL_SHARE * len(label.lines)) * LEADING
    by_width = room.width / (SIGNS_A_LINE * SIGN_EM) * MM
    head_pt = max(LEAST_PT, min(MOST_PT, room.height * MM / whole, by_width))
    small_pt = max(LEAST_PT, head_pt * SMALL_SHARE)
    told = [(line, head_pt, STRONG, INK) for line in pen.lines(label.head, STRONG, head_pt, room.width, 2)]
    spare = room.height * MM - sum(points * LEADING for _, points, _, _ in told)
    for number, words in enumerate(label.lines, start=1):
        left = int(spare / (small_pt * LEADING)) - (len(label.lines) - number)
        lines = pen.lines(words, PLAIN, small_pt, room.width, max(1, left)) if left > 0 else []
        told += [(line, small_pt, PLAIN, INK if number == 1 else QUIET) for line in lines]
        spare -= len(lines) * small_pt * LEADING
    y = room.top + max(0.0, spare / MM) / 2
    for words, points, face, colour in told:
        pen.text(room.left, y + ASCENT * points * LEADING / MM, words, points, face=face, colour=colour)
        y += points * LEADING / MM


def _tag(season: Season, spot: Spot, where: str) -> Label:
    sown = spot.sown_on
    lines = (where,) if sown is None else (where, tr("sown {day}", day=day_year_words(sown)))
    code = Code(spot.key.holder, spot.key.row, spot.key.column, sown)
    return Label(variety_name(season, spot.packet), lines, code.text)


def _kept(season: Season, holder: str) -> Iterable[Spot]:
    return (spot for spot in season.spots(holder) if not spot.free and spot.packet is not None)


def _stretch(spots: Sequence[Spot]) -> str:
    """Return where spots are: the first and last, or that there are more."""
    if len(spots) <= FARTHEST_PLACES:
        return ", ".join(spot.key.label for spot in spots)
    return tr(
        "{first} to {last} ({places})",
        first=spots[0].key.label,
        last=spots[-1].key.label,
        places=many(len(spots), "place"),
    )
