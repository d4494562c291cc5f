"""The round of a day and the week ahead, as sheets with boxes to tick."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from greenroom.exchange.errors import Cancel
from greenroom.exchange.paper.flow import BODY_PT, Flow, leading_mm, long_day, short_day
from greenroom.exchange.paper.pen import CLAY, INK, LINE, QUIET, Pen, Printed, never
from greenroom.exchange.paper.sizes import Paper
from greenroom.exchange.paper.words import PLAIN, STRONG
from greenroom.season.jobs.job import WHERE, Job, Urgency
from greenroom.season.round import DayAhead, Round
from greenroom.speech import many, tr

WHAT_PT, WHY_PT = 10.5, 8.5
INDENT_MM = 8.0
BETWEEN_MM = 1.6
BLANK_LINES = 3
BLANK_MM = 8.0


def print_round(found: Round, place: str, paper: Paper, stop: Cancel = never) -> Printed:
    """Put the jobs of a day on paper, grouped by where one stands, a box before each.

    Raises
    ------
    Cancelled
        If the work was called off.
    """
    pen = Pen(paper, tr("The round, {day}", day=long_day(found.today)), stop)
    flow = Flow(pen, tr("The round"), f"{long_day(found.today)} · {place} · {many(len(found.jobs), 'job')}")
    for where in WHERE:
        jobs = [job for job in found.jobs if job.where == where]
        if jobs:
            flow.gap(2)
            flow.heading(where, str(len(jobs)))
        for job in jobs:
            pen.look_up()
            _job(flow, job)
    if not found.jobs:
        flow.says(tr("Nothing is to be done."))
    _blank_lines(flow)
    return pen.end()


def print_week(
    week: Sequence[DayAhead], place: str, today: date, paper: Paper, stop: Cancel = never
) -> Printed:
    """Put what the coming days bring on paper, a box before each line.

    Raises
    ------
    Cancelled
        If the work was called off.
    """
    pen = Pen(paper, tr("The week from {day}", day=long_day(today)), stop)
    flow = Flow(
        pen,
        tr("The week"),
        tr(
            "as it looks on {day}, if all goes as planned · {place}",
            day=long_day(today),
            place=place,
        ),
    )
    for ahead in week:
        flow.gap(1.5)
        flow.heading(short_day(ahead.day), "" if ahead.lines else tr("nothing known yet"))
        for line in ahead.lines:
            pen.look_up()
            _ticked(flow, pen.lines(line, PLAIN, BODY_PT, flow.width - INDENT_MM, 3), [])
    return pen.end()


def _job(flow: Flow, job: Job) -> None:
    room = flow.width - INDENT_MM
    what = tr("{what} · now", what=job.what) if job.urgency is Urgency.NOW else job.what
    head = flow.pen.lines(what, STRONG, WHAT_PT, room, 3)
    _ticked(flow, head, flow.pen.lines(job.reason, PLAIN, WHY_PT, room, 4), urgent=job.urgency is Urgency.NOW)


def _ticked(flow: Flow, head: Sequence[str], below: Sequence[str], *, urgent: bool = False) -> None:
    face, points = (STRONG, WHAT_PT) if below else (PLAIN, BODY_PT)
    flow.need(len(head) * leading_mm(points) + len(below) * leading_mm(WHY_PT) + BETWEEN_MM)
    flow.pen.tick_box(flow.left, flow.y + leading_mm(points) - 3.3)
    for words in head:
        flow.y += leading_mm(points)
        flow.pen.text(flow.left + INDENT_MM, flow.y, words, points, face=face, colour=CLAY if urgent else INK)
    for words in below:
        flow.y += leading_mm(WHY_PT)
        flow.pen.text(flow.left + INDENT_MM, flow.y, words, WHY_PT, colour=QUIET)
    flow.gap(BETWEEN_MM)


def _blank_lines(flow: Flow) -> None:
    """Leave lines to write on, as far as the page has room."""
    if flow.room < BLANK_MM * BLANK_LINES + 12:
        return
    flow.gap(3)
    flow.heading(tr("Seen on the way"))
    for _ in range(BLANK_LINES):
        flow.gap(BLANK_MM)
        flow.pen.line(((flow.left, flow.y), (flow.left + flow.width, flow.y)), LINE)
