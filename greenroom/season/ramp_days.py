"""A holder's ramp day by day: what each day asked, what it gave, and what is to come."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from enum import Enum

from greenroom.agronomy.hardening import Climb, Walked, dose_at, rests_on
from greenroom.agronomy.two_clocks import PlannedBoth
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.counted import Counted
from greenroom.season.hardening import WORST_FIRST
from greenroom.season.reasons import APART
from greenroom.season.two_clocks import THIRST


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
    it was kept in or is to be held; ``cause`` what brought the setback on. ``outdoors_planned`` are the
    minutes outdoors, sun and shade, that its step asks for; ``light_mol_m2`` the light it had in the sun,
    None where it is to come or no place is known.
    """

    date: date
    kind: DayKind
    step: int
    planned: float
    done: float
    shade: float = 0.0
    first_plan: float | None = None
    note: str = ""
    cause: str = ""
    outdoors_planned: float = 0.0
    light_mol_m2: float | None = None

    @property
    def settled(self) -> bool:
        """Whether the day is behind."""
        return self.kind not in (DayKind.TODAY, DayKind.COMING, DayKind.HOLD)


def ramp_days(stand: TwoClocks) -> list[RampDay]:
    """Return the days of a ramp from its first to its last, or to today if that is later."""
    return list(_days(stand, dict(first_plan(stand))))


def first_plan(stand: TwoClocks) -> list[tuple[date, float]]:
    """Return the plan of the first day as days and sun minutes."""
    return [(day.date, float(day.sun_minutes)) for day in stand.first_plan]


def _days(stand: TwoClocks, first: dict[date, float]) -> Iterator[RampDay]:
    for sun, air in zip(stand.sun.days, stand.air.days, strict=True):
        yield _past(stand, sun, air, first)
    if stand.started_on <= stand.today:
        yield _today(stand, first)
    for planned in stand.ahead:
        if planned.date > stand.today:
            yield _coming(planned, first)


def _past(stand: TwoClocks, walked: Walked, air: Walked, first: dict[date, float]) -> RampDay:
    day = walked.day
    rest = any(rests_on((one.day for one in face.days), day.date) for face in (stand.sun, stand.air))
    what, cause = _setback(stand, day.date)
    kind = DayKind.SET_BACK if what and cause != THIRST else _kind(walked, stand.sun.ramp)
    return RampDay(
        date=day.date,
        kind=kind,
        step=walked.before,
        planned=0.0 if rest else float(dose_at(stand.sun.ramp.on(day.date).doses, walked.before)),
        done=day.minutes,
        shade=day.shade_minutes,
        first_plan=first.get(day.date),
        note=what or stand.held.get(day.date, ""),
        cause=cause,
        outdoors_planned=0.0 if rest else float(dose_at(stand.air.ramp.doses, air.before)),
        light_mol_m2=stand.counted_on(day.date).light_mol_m2,
    )


def _setback(stand: TwoClocks, day: date) -> tuple[str, str]:
    """Return the worst setback of a day and its cause; one that set a clock back before one of thirst."""
    seen = [one for one in stand.setbacks if one.day == day]
    harm = [one for one in seen if one.cause != THIRST] or seen
    worst = min(harm, key=lambda one: WORST_FIRST.index(one.what), default=None)
    return (worst.what, worst.cause) if worst is not None else ("", "")


def _kind(walked: Walked, ramp: Climb) -> DayKind:
    day = walked.day
    if day.minutes > 0:
        enough = walked.after > walked.before or walked.before >= ramp.outings
        return DayKind.DONE if enough else DayKind.SHORT
    return DayKind.SHADE if day.shade_minutes > 0 else DayKind.IN


def _today(stand: TwoClocks, first: dict[date, float]) -> RampDay:
    what, cause = _setback(stand, stand.today)
    counted: Counted = stand.counted
    return RampDay(
        date=stand.today,
        kind=DayKind.SET_BACK if what and cause != THIRST else DayKind.TODAY,
        step=stand.sun.step,
        planned=float(stand.target),
        done=stand.sun.minutes,
        shade=counted.shade,
        first_plan=first.get(stand.today),
        note=what or stand.held.get(stand.today, ""),
        cause=cause,
        outdoors_planned=float(stand.target + stand.shade_target),
        light_mol_m2=counted.light_mol_m2,
    )


def _coming(planned: PlannedBoth, first: dict[date, float]) -> RampDay:
    return RampDay(
        date=planned.date,
        kind=DayKind.HOLD if planned.verdict == "hold" else DayKind.COMING,
        step=planned.sun_step,
        planned=float(planned.sun_minutes),
        done=0.0,
        first_plan=first.get(planned.date),
        note=APART.join(planned.reasons),
        outdoors_planned=float(planned.air_minutes),
    )
