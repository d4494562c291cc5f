"""The hardening card of a tray: day by day the sun and shade minutes asked for, when, and a box to tick."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date, datetime

from greenroom.agronomy.two_clocks import PlannedBoth
from greenroom.exchange.errors import Cancel
from greenroom.exchange.paper.codes import Code
from greenroom.exchange.paper.flow import BODY_PT, SMALL_PT, Flow, fitting_days, leading_mm, long_day
from greenroom.exchange.paper.pen import LINE, QUIET, TICK_MM, Pen, Printed, never
from greenroom.exchange.paper.sizes import Box, Paper
from greenroom.exchange.paper.words import STRONG
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.hardening_words import SETBACK_WORDS, time_words, whole_minutes
from greenroom.season.outing_windows import day_windows
from greenroom.season.place import place_of
from greenroom.season.ramp_rules import rules_of_holder
from greenroom.season.reasons import kept_words, reasons_words
from greenroom.season.state import Season
from greenroom.season.two_clocks import two_clocks
from greenroom.speech import tr

CODE_MM = 24.0
GAP_MM = 1.5
ROW_MM = 7.2
HOURS_DAYS = 7
"""Days ahead whose best hours are told; a forecast reaches no farther."""

HEADS = (
    tr("Day"),
    tr("Sun, min"),
    tr("Shade, min"),
    tr("Best hours"),
    tr("Out at"),
    tr("In at"),
    tr("Done"),
    tr("Seen"),
)
SHARES = (0.0, 0.15, 0.25, 0.36, 0.54, 0.66, 0.78, 0.86)

WHY = tr(
    "Sun minutes are the step of the sun clock, shade minutes what the outdoor clock "
    "asks for beyond them. A day that was too short or was missed moves what follows: "
    "print a new card then, or follow the window."
)


@dataclass(frozen=True, slots=True)
class CardDay:
    """A day of the card; ``hours`` are the best for the sun, ``note`` why it is kept in or what was seen."""

    day: date
    sun: str
    shade: str
    hours: str = ""
    note: str = ""
    done: bool = False


@dataclass(frozen=True, slots=True)
class RampCard:
    """The card of one tray."""

    name: str
    under: str
    code: str
    days: tuple[CardDay, ...]


def ramp_card(season: Season, holder: str, today: date, now: datetime) -> RampCard | None:
    """Return the card of a tray, or None if it has not begun to harden."""
    stand = two_clocks(season, holder, today, now)
    if stand is None:
        return None
    name = season.holder(holder).name
    ready = (
        tr("ready {day}", day=long_day(stand.ready_on))
        if stand.ready_on
        else tr("no day of being ready in sight")
    )
    under = tr(
        "from {start} · {ready} · as planned on {day}",
        start=long_day(stand.started_on),
        ready=ready,
        day=long_day(today),
    )
    days = (*_past(stand), *_ahead(season, stand, now))
    return RampCard(tr("Hardening card: {name}", name=name), under, Code(holder).text, days)


def print_cards(cards: Sequence[RampCard], paper: Paper, stop: Cancel = never) -> Printed:
    """Put each card on a page of its own, or more if its days need them.

    Raises
    ------
    Cancelled
        If the work was called off.
    """
    pen = Pen(paper, tr("Hardening card"), stop)
    for number, card in enumerate(cards):
        if number:
            pen.next_page()
        _draw(pen, card)
    return pen.end()


def _past(stand: TwoClocks) -> list[CardDay]:
    settled = [stand.sun.settled] if stand.sun.settled is not None else []
    return [
        CardDay(
            one.day.date,
            str(whole_minutes(one.day.minutes)),
            str(whole_minutes(one.day.shade_minutes)),
            note=SETBACK_WORDS.get(one.day.setback or "", "") or kept_words(stand.held.get(one.day.date, "")),
            done=True,
        )
        for one in (*stand.sun.days, *settled)
        if one.day.date not in {plan.date for plan in stand.ahead}
    ]


def _ahead(season: Season, stand: TwoClocks, now: datetime) -> list[CardDay]:
    hours = _hours(season, stand, now)
    return [
        CardDay(
            plan.date,
            str(plan.sun_minutes),
            str(plan.shade_minutes),
            hours(plan.date, plan.sun_minutes) if number < HOURS_DAYS and plan.sun_minutes else "",
            _note(plan),
        )
        for number, plan in enumerate(stand.ahead)
    ]


def _note(plan: PlannedBoth) -> str:
    """Return why a day is kept in or sheltered."""
    reasons = reasons_words(plan.reasons)
    return tr("in: {reasons}", sense="kept indoors", reasons=reasons) if plan.verdict == "hold" else reasons


def _hours(season: Season, stand: TwoClocks, now: datetime) -> Callable[[date, int], str]:
    limits, place = rules_of_holder(season, stand.holder).limits, place_of(season)

    def told(day: date, minutes: int) -> str:
        moment = now if day == stand.today else None
        found = day_windows(season, day, float(minutes), limits, holder=stand.holder, now=moment)
        best = found.best
        return f"{time_words(best.start, place)}–{time_words(best.end, place)}" if best else ""

    return told


def _draw(pen: Pen, card: RampCard) -> None:
    flow = Flow(pen, card.name, card.under, CODE_MM + GAP_MM)
    pen.code(Box(flow.left + flow.width - CODE_MM, 6, CODE_MM, CODE_MM), card.code)
    flow.y = max(flow.y, 6 + CODE_MM)
    _heads(flow)
    told = fitting_days([day.day for day in card.days], SHARES[1] * flow.width - GAP_MM)
    for day in card.days:
        pen.look_up()
        if flow.need(ROW_MM):
            _heads(flow)
        _row(flow, day, told(day.day))
    flow.gap(2)
    flow.says(WHY, SMALL_PT, colour=QUIET)


def _heads(flow: Flow) -> None:
    flow.y += leading_mm(BODY_PT)
    for words, share in zip(HEADS, SHARES, strict=True):
        flow.pen.text(flow.left + share * flow.width, flow.y, words, SMALL_PT, face=STRONG)
    flow.y += 1.5
    flow.pen.line(((flow.left, flow.y), (flow.left + flow.width, flow.y)), LINE, 0.3)


def _row(flow: Flow, day: CardDay, date_told: str) -> None:
    foot = flow.y + ROW_MM * 0.66
    words = (date_told, day.sun, day.shade, day.hours)
    for told, share in zip(words, SHARES, strict=False):
        flow.pen.text(flow.left + share * flow.width, foot, told, BODY_PT, room=0.17 * flow.width)
    pen, width = flow.pen, flow.width
    box = flow.left + SHARES[6] * width
    pen.tick_box(box, flow.y + (ROW_MM - TICK_MM) / 2)
    if day.done:
        pen.line(((box + 0.7, foot - 1.2), (box + 1.5, foot - 0.4), (box + 3.0, foot - 2.6)), width=0.4)
    else:
        for share in SHARES[4:6]:
            left = flow.left + share * width
            pen.line(((left, foot), (left + 0.1 * width, foot)), QUIET, 0.15)
    if day.note:
        left = flow.left + SHARES[7] * width
        pen.text(left, foot, day.note, SMALL_PT, room=flow.left + width - left, colour=QUIET)
    flow.y += ROW_MM
    pen.line(((flow.left, flow.y), (flow.left + width, flow.y)), LINE, 0.1)
