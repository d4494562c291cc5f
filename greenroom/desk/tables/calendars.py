"""Saving the plan and the round as calendars."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from PySide6.QtWidgets import QFileDialog, QPushButton, QWidget

from greenroom.desk.bench import Bench
from greenroom.desk.parts import button
from greenroom.desk.tables.saving import choose_file, save
from greenroom.speech import tr

if TYPE_CHECKING:
    from greenroom.exchange.calendar_file import Event
    from greenroom.season.plan import Plan

ICS = tr("Calendars")
TIP = tr(
    "Save as a calendar for any calendar program; saved again over the same file and "
    "read again, it replaces what is there, and what is off goes away"
)


def plan_calendar_button(bench: Bench, plan: Callable[[], Plan]) -> QPushButton:
    """Return the button that saves a plan as a calendar."""
    made: QPushButton = button(
        tr("Calendar"), lambda: save_plan(bench, made, plan()), "link", name="plan-calendar"
    )
    made.setToolTip(TIP)
    made.setAccessibleName(tr("save the plan as a calendar"))
    return made


def round_calendar_button(bench: Bench) -> QPushButton:
    """Return the button that saves the round and its week as a calendar."""
    made: QPushButton = button(tr("Calendar"), lambda: save_round(bench, made), "link", name="round-calendar")
    made.setToolTip(TIP)
    made.setAccessibleName(tr("save the round and the week as a calendar"))
    return made


def save_plan(bench: Bench, parent: QWidget, plan: Plan) -> QFileDialog:
    """Let the grower choose where the plan's calendar is to be."""
    from greenroom.exchange.calendar_plan import plan_events

    events = plan_events(bench.keeper.season, plan)
    return _choose(bench, parent, tr("Season plan {year}", year=plan.year), events)


def save_round(bench: Bench, parent: QWidget) -> QFileDialog:
    """Let the grower choose where the round's calendar is to be."""
    from greenroom.exchange.calendar_plan import round_events

    keeper = bench.keeper
    return _choose(bench, parent, tr("The round"), round_events(keeper.season, keeper.today, keeper.now))


def _choose(bench: Bench, parent: QWidget, name: str, events: Sequence[Event]) -> QFileDialog:
    from greenroom.exchange.calendar_file import write_calendar

    now, zone = bench.keeper.now, bench.keeper.place.zone
    known = zone if isinstance(zone, ZoneInfo) else None

    def write(path: Path) -> object:
        return write_calendar(path, name, events, now, known)

    return choose_file(parent.window(), name, "ics", ICS, lambda path: save(bench, path, write))
