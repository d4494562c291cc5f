"""All holders on the ramp beside each other: their days on one axis, when each will be ready, and a table."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from greenroom.season.clock_faces import TwoClocks
from greenroom.season.hardening_words import SETBACK_WORDS, day_words, ready_day_words, whole_minutes
from greenroom.season.ramp_days import DayKind, RampDay, ramp_days
from greenroom.season.ready_spread import ReadySpread
from greenroom.season.reasons import kept_words
from greenroom.season.state import Season
from greenroom.season.within import in_row
from greenroom.speech import many, tr, trn

LONGEST_AHEAD = timedelta(days=28)
"""How far past today the axis reaches at most: a tray that is later is told so in words."""
ONE_DAY = timedelta(days=1)
COLUMNS = (
    tr("Tray"),
    tr("Sun step"),
    tr("Outdoors step"),
    tr("Sun today"),
    tr("Ready", sense="when"),
    tr("Spread", sense="of the day ready"),
    tr("Setbacks"),
    tr("Kept in"),
    tr("Next hold"),
)


@dataclass(frozen=True, slots=True)
class TrayLine:
    """One holder: its days, where it is on both ramps, and the spread of its ready date once known."""

    key: str
    name: str
    today: date
    days: tuple[RampDay, ...]
    sun: tuple[int, int]
    air: tuple[int, int]
    minutes: tuple[int, int]
    ready_on: date | None
    hardened: bool
    spread: ReadySpread | None = None

    @property
    def setbacks(self) -> list[RampDay]:
        """The days that set it back."""
        return [day for day in self.days if day.kind is DayKind.SET_BACK]

    @property
    def kept_in(self) -> list[RampDay]:
        """The days past that it was kept in or stayed in."""
        return [day for day in self.days if day.kind is DayKind.IN and day.settled]

    @property
    def holds(self) -> list[RampDay]:
        """The days to come that the weather holds."""
        return [day for day in self.days if day.kind is DayKind.HOLD]


@dataclass(frozen=True, slots=True)
class Span:
    """The days of an axis, the first and the last with it."""

    first: date
    last: date

    @property
    def count(self) -> int:
        """Number of days."""
        return (self.last - self.first).days + 1

    def days(self) -> list[date]:
        """Return the days in order."""
        return [self.first + number * ONE_DAY for number in range(self.count)]


def tray_line(season: Season, stand: TwoClocks) -> TrayLine:
    """Return the line of one holder, without its spread."""
    sun, air = stand.sun, stand.air
    return TrayLine(
        key=stand.holder,
        name=season.holder(stand.holder).name,
        today=stand.today,
        days=tuple(ramp_days(stand)),
        sun=(min(sun.next_step, sun.ramp.outings), sun.ramp.outings),
        air=(min(air.next_step, air.ramp.outings), air.ramp.outings),
        minutes=(whole_minutes(sun.minutes), 0 if stand.resting else sun.limit),
        ready_on=stand.ready_on,
        hardened=stand.hardened,
    )


def span_of(lines: Sequence[TrayLine], today: date) -> Span:
    """Return the axis that holds all lines, from the first start to the last day ready, within reason."""
    starts = [line.days[0].date for line in lines if line.days]
    ends = [today]
    for line in lines:
        ends += [day for day in (line.ready_on, line.spread.late if line.spread else None) if day is not None]
    last = min(max(ends), today + LONGEST_AHEAD)
    return Span(min([today, *starts]), last + ONE_DAY)


def line_words(line: TrayLine) -> str:
    """Return a line in a sentence, as a screen reader tells it."""
    parts = [
        tr(
            "{tray}: {sun} of sun, {outdoors} outdoors",
            tray=line.name,
            sun=step_words(line.sun),
            outdoors=step_words(line.air),
        )
    ]
    done, asked = line.minutes
    parts.append(tr("today {done} of {asked} minutes of sun", done=done, asked=asked))
    parts.append(ready_cell(line))
    if line.setbacks:
        parts.append(tr("set back {setbacks}", setbacks=setback_cell(line)))
    if line.kept_in:
        parts.append(trn("in on {n:,} day", "in on {n:,} days", len(line.kept_in)))
    if line.holds:
        parts.append(tr("next hold {hold}", hold=hold_cell(line)))
    return in_row(parts)


def cells(line: TrayLine) -> tuple[str, ...]:
    """Return a line as the cells of a table, in the order of ``COLUMNS``."""
    done, asked = line.minutes
    return (
        line.name,
        step_words(line.sun),
        step_words(line.air),
        tr("{done} of {asked} min", done=done, asked=asked),
        ready_day_words(line.ready_on),
        spread_cell(line),
        setback_cell(line),
        many(len(line.kept_in), "day") if line.kept_in else tr("none", sense="days"),
        hold_cell(line),
    )


def step_words(step: tuple[int, int]) -> str:
    """Return a step as 6 of 11, or that all are done."""
    before, outings = step
    if before >= outings:
        return tr("done", sense="all steps of the ramp")
    return tr("step {step} of {outings}", step=before + 1, outings=outings)


def ready_cell(line: TrayLine) -> str:
    """Return when it is ready, with the spread."""
    spread = spread_cell(line)
    words = tr("hardened off") if line.hardened else tr("ready {day}", day=ready_day_words(line.ready_on))
    return (
        words
        if line.hardened or line.spread is None
        else tr("{ready}, {spread} in eight of ten years", ready=words, spread=spread)
    )


def spread_cell(line: TrayLine) -> str:
    """Return from when to when it is ready in eight of ten years."""
    if line.spread is None or line.spread.early is None:
        return tr("not known")
    late = line.spread.late
    early = day_words(line.spread.early)
    if late is None:
        return tr("{early} to later than 60 days", early=early)
    return tr("{early} to {late}", early=early, late=day_words(late))


def setback_cell(line: TrayLine) -> str:
    """Return the setbacks, the latest first."""
    told = [f"{SETBACK_WORDS.get(day.note, tr('set back'))} {day_words(day.date)}" for day in line.setbacks]
    return ", ".join(reversed(told)) or tr("none", sense="setbacks")


def hold_cell(line: TrayLine) -> str:
    """Return the next day the weather holds, and why."""
    if not line.holds:
        return tr("none", sense="holds")
    return f"{day_words(line.holds[0].date)}, {kept_words(line.holds[0].note)}"
