"""What a holder's two clocks show: minutes of direct sun, and minutes outdoors in sun and shade."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from greenroom.agronomy.hardening import Climb, OutdoorRamp, RampState, Walked, follow
from greenroom.agronomy.two_clocks import BothStates, Clocks, PlannedBoth
from greenroom.ledger.facts import SetbackSeen
from greenroom.season.counted import Counted
from greenroom.season.hardening import AHEAD_DAYS
from greenroom.season.outings import Outing, open_outing
from greenroom.season.ramp_rules import RampRules

SHELTERED_STEPS = 3
"""Steps of the outdoor clock that a tender tray takes out of the wind: "shade for a few days" (Beltrami
County Master Gardeners), "protected" first (University of Maryland); three is this program's own."""

LEAST_SHADE_MINUTES = 15
"""Less shade than this beside the sun is not worth carrying a tray for: this program's own rule."""


@dataclass(frozen=True, slots=True)
class ClockFace:
    """One clock of a holder: the days walked up to yesterday, and today once that is settled.

    ``state`` is where today began, ``minutes`` what today gave of what this clock counts, and ``limit``
    what its step asks for.
    """

    ramp: Climb
    days: tuple[Walked, ...]
    state: RampState
    minutes: float
    limit: int
    settled: Walked | None

    @property
    def step(self) -> int:
        """The step today began with."""
        return self.state.step

    @property
    def next_step(self) -> int:
        """The step as today left it, or as today began while it is open."""
        return self.step if self.settled is None else self.settled.after

    @property
    def next_state(self) -> RampState:
        """Where it stands with today taken in, or as today began while it is open."""
        return self.state if self.settled is None else follow(self.ramp, self.state, self.settled.day)

    @property
    def done(self) -> bool:
        """Whether this clock has been walked up."""
        return self.next_step >= self.ramp.outings

    @property
    def left(self) -> float:
        """Minutes left of today's step; 0 once it had them, and on a day of rest."""
        return 0.0 if self.state.resting else max(0.0, self.limit - self.minutes)

    @property
    def ended_on(self) -> date | None:
        """The day it was walked up for the last time, or None."""
        walked = [*self.days, self.settled] if self.settled else self.days
        ended = [one.day.date for one in walked if one.before < self.ramp.outings <= one.after]
        return ended[-1] if ended else None

    def mornings(self, today: date) -> dict[date, RampState]:
        """Return where it stood on the morning of each day since hardening began, and of today."""
        found, state = {}, RampState()
        for walked in self.days:
            found[walked.day.date] = state
            state = follow(self.ramp, state, walked.day)
        return found | {today: state}


@dataclass(frozen=True, slots=True)
class OnTheWay:
    """What goes on while a holder is out, told at ``at``: what the next minute gives it.

    ``due`` is when its sun minutes will be full by the sun's strength; None where they are counted by the
    clock, it stands in shade, or the sun sets first.
    """

    at: datetime
    a_minute: Counted
    due: datetime | None = None


@dataclass(frozen=True, slots=True)
class TwoClocks:
    """A holder on both its clocks, today.

    ``by`` is how today's sun minutes are counted, ``counted`` what today gave so far,
    ``by_day`` what each day gave. ``ahead`` is the
    plan from today on, or from tomorrow once both clocks have settled today; ``first_plan`` that of the
    day hardening began. ``over`` tells that nothing more can come of today.
    """

    holder: str
    today: date
    started_on: date
    by: str
    rules: RampRules
    sun: ClockFace
    air: ClockFace
    outdoor_ramp: OutdoorRamp
    counted: Counted
    by_day: Mapping[date, Counted]
    setbacks: tuple[SetbackSeen, ...]
    held: Mapping[date, str]
    outings: tuple[Outing, ...]
    over: bool
    on_the_way: OnTheWay | None = None
    ahead: tuple[PlannedBoth, ...] = ()
    first_plan: tuple[PlannedBoth, ...] = ()

    @property
    def clocks(self) -> Clocks:
        """Both ramps."""
        return Clocks(self.sun.ramp, self.outdoor_ramp)

    @property
    def states(self) -> BothStates:
        """Where both stand, with today taken in as far as it is settled."""
        settled = self.sun.settled is not None, self.air.settled is not None
        return BothStates(self.sun.next_state, self.air.next_state, *settled)

    @property
    def resting(self) -> bool:
        """Whether today is a day of rest, in, after scorched leaves."""
        return self.sun.state.resting or self.air.state.resting

    def counted_on(self, day: date) -> Counted:
        """Return what a day gave; nothing is nothing."""
        return self.by_day.get(day, Counted())

    @property
    def outing(self) -> Outing | None:
        """The outing it is on, or None while it is in."""
        return open_outing(self.outings)

    @property
    def target(self) -> int:
        """Sun minutes today asks for: those of its step, 0 on the day of rest after leaf scorch."""
        return 0 if self.resting else self.sun.limit

    @property
    def shade_target(self) -> int:
        """Minutes in shade today asks for beside its sun minutes; none where they are too few to bother."""
        return 0 if self.resting else worth_shade(self.air.limit - self.sun.limit)

    @property
    def today_setbacks(self) -> tuple[SetbackSeen, ...]:
        """The setbacks seen today, whatever brought them on."""
        return tuple(seen for seen in self.setbacks if seen.day == self.today)

    @property
    def hardened(self) -> bool:
        """Whether both clocks have been walked up."""
        return self.sun.done and self.air.done

    @property
    def ready_on(self) -> date | None:
        """The day that ends the later of the clocks: done, or to come if each day goes as planned."""
        if not self.hardened:
            return _finish(self.ahead)
        ended = [day for day in (self.sun.ended_on, self.air.ended_on) if day is not None]
        return max(ended, default=None)

    @property
    def first_ready_on(self) -> date | None:
        """The day it was to be ready when hardening began."""
        return _finish(self.first_plan)

    @property
    def days_later(self) -> int:
        """How many days later than first planned it will be ready; below 0 for earlier."""
        if self.ready_on is None or self.first_ready_on is None:
            return 0
        return (self.ready_on - self.first_ready_on).days

    @property
    def tomorrow(self) -> tuple[int, int]:
        """The steps both clocks will stand on tomorrow, today done as planned: sun, outdoors."""
        plan = next((one for one in self.ahead if one.date > self.today), None)
        if plan is not None:
            return plan.sun_step, plan.air_step
        return self.sun.ramp.outings, self.air.ramp.outings

    @property
    def shade_left(self) -> float:
        """Minutes in shade that today still asks for, beside its sun minutes."""
        return 0.0 if self.resting else max(0.0, self.air.left - self.sun.left)

    @property
    def sheltered_first(self) -> bool:
        """Whether a tender holder is still on the steps that belong in a sheltered spot."""
        return self.rules.tender and self.air.step < SHELTERED_STEPS

    @property
    def mornings(self) -> dict[date, BothStates]:
        """Where both clocks stood on the morning of each day since hardening began, today's too."""
        sun, air = (face.mornings(self.today) for face in (self.sun, self.air))
        return {day: BothStates(sun[day], air[day]) for day in sorted(sun.keys() & air.keys())}


def worth_shade(minutes: int) -> int:
    """Return minutes of shade as they are asked for: none where they are too few to carry a tray for."""
    return minutes if minutes >= LEAST_SHADE_MINUTES else 0


def _finish(plan: tuple[PlannedBoth, ...]) -> date | None:
    """Return the last day of a plan, or None if it ran out of days before both clocks were done."""
    if not plan or (plan[-1].date - plan[0].date) >= timedelta(days=AHEAD_DAYS):
        return None
    return plan[-1].date
