"""A holder's ramp day by day: what each day asked, what it gave, and what is to come."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from enum import Enum

from greenroom.agronomy.hardening import Planned, Ramp, Walked, rests_on
from greenroom.season.hardening import Standing


class DayKind(Enum):
    """What a day of the ramp shows."""

    DONE = "done"
    SHORT = "too short for a step"
    SHADE = "shade only"
    IN = "in"
    SET_BACK = "set back"
    TODAY = "today"
    COMING = "to come"
    HOLD = "hold"


@dataclass(frozen=True, slots=True)
class RampDay:
    """One day: the sun minutes its step asks for, those it got, and in shade [min].

    ``first_plan`` is what the plan of the first day put here, or None. ``note`` is the setback, or why
    it was kept in or is to be held.
    """

    date: date
    kind: DayKind
    step: int
    planned: float
    done: float
    shade: float = 0.0
    first_plan: float | None = None
    note: str = ""

    @property
    def settled(self) -> bool:
        """Whether the day is behind."""
        return self.kind not in (DayKind.TODAY, DayKind.COMING, DayKind.HOLD)


def ramp_days(stand: Standing) -> list[RampDay]:
    """Return the days of a ramp from its first to its last, or to today if that is later."""
    return list(_days(stand, dict(first_plan(stand))))


def first_plan(stand: Standing) -> list[tuple[date, float]]:
    """Return the plan of the first day as days and sun minutes."""
    return [(day.date, float(day.minutes)) for day in stand.first_plan]


def _days(stand: Standing, first: dict[date, float]) -> Iterator[RampDay]:
    for walked in stand.days:
        yield _past(stand, walked, first)
    if stand.started_on <= stand.today:
        yield _today(stand, first)
    for planned in stand.ahead:
        if planned.date > stand.today:
            yield _coming(planned, first)


def _past(stand: Standing, walked: Walked, first: dict[date, float]) -> RampDay:
    day = walked.day
    rest = rests_on((one.day for one in stand.days), day.date)
    return RampDay(
        day.date,
        _kind(walked, stand.ramp),
        walked.before,
        0.0 if rest else _asked(stand.ramp, walked.before),
        day.minutes,
        day.shade_minutes,
        first.get(day.date),
        day.setback or stand.held.get(day.date, ""),
    )


def _kind(walked: Walked, ramp: Ramp) -> DayKind:
    day = walked.day
    if day.setback is not None:
        return DayKind.SET_BACK
    if day.minutes > 0:
        enough = walked.after > walked.before or walked.before >= ramp.outings
        return DayKind.DONE if enough else DayKind.SHORT
    return DayKind.SHADE if day.shade_minutes > 0 else DayKind.IN


def _today(stand: Standing, first: dict[date, float]) -> RampDay:
    settled = stand.settled
    kind = DayKind.TODAY
    note = stand.held.get(stand.today, "")
    if settled is not None and settled.day.setback is not None:
        kind, note = DayKind.SET_BACK, settled.day.setback
    return RampDay(
        stand.today,
        kind,
        stand.step,
        float(stand.target),
        stand.minutes.sun,
        stand.minutes.shade,
        first.get(stand.today),
        note,
    )


def _coming(planned: Planned, first: dict[date, float]) -> RampDay:
    kind = DayKind.HOLD if planned.verdict == "hold" else DayKind.COMING
    note = ", ".join(planned.reasons)
    return RampDay(
        planned.date, kind, planned.step, float(planned.minutes), 0.0, 0.0, first.get(planned.date), note
    )


def _asked(ramp: Ramp, step: int) -> float:
    return float(ramp.minutes(min(step, ramp.outings - 1)))
