"""The ramps that a tray walks up while it hardens off: of sun minutes, and of minutes outdoors."""

import datetime as dt
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate, pairwise
from typing import Any, Protocol, overload

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy._checks import single, whole

DAY_MINUTES = 24 * 60
ROUND_TO_MINUTES = 5
FEWEST_OUTINGS = 7
MOST_OUTINGS = 21


def dose_at(doses: Sequence[int], step: int) -> int:
    """Minutes of a step; a ramp that is done stays at its last."""
    return doses[min(step, len(doses) - 1)]


class Climb(Protocol):
    """Anything with steps of rising minutes, one an outing."""

    @property
    def outings(self) -> int:
        """Number of steps."""

    @property
    def doses(self) -> tuple[int, ...]:
        """Minutes of every step, never falling; of a ramp that changes, those it ends with."""

    @property
    def catches_up(self) -> bool:
        """Whether minutes borne without harm count for every step they are enough for."""

    def on(self, day: dt.date) -> "Climb":
        """The steps by which a date is judged."""


@dataclass(frozen=True)
class Ramp:
    """A rising ramp of minutes in direct sun, one step an outing.

    Parameters
    ----------
    start_minutes : float
        Sun minutes of the first outing, above 0.
    full_minutes : float
        Sun minutes of the last, above `start_minutes`, at most 1440.
    outings : int
        Number of outings, 7 to 21.

    Raises
    ------
    ValueError
        Naming the argument out of range.

    Notes
    -----
    Each outing is the same share longer than the one before (a geometric ramp), so that the risk taken
    is alike at each step. Starting at 20 minutes of direct sun and ending at 10 hours is common
    practice without a single source: a growers' thread starts at 15 minutes of sun, extension
    schedules at 60 to 240 minutes, mostly of shade.

    References
    ----------
    University of Maryland Extension 2023: 7 to 14 days, more sun daily. Illinois Extension: 14 days,
    to 600-720 minutes. Beltrami County Master Gardeners, Minnesota: full sun after about a week.
    """

    start_minutes: float = 20
    full_minutes: float = 600
    outings: int = 11

    @property
    def catches_up(self) -> bool:
        """False: of sun, one step a day and never two."""
        return False

    def on(self, day: dt.date) -> "Ramp":  # noqa: ARG002  # a plain ramp is the same every day
        """The ramp itself."""
        return self

    def __post_init__(self) -> None:
        start = single("start_minutes", self.start_minutes, above=0)
        single("full_minutes", self.full_minutes, above=start, high=DAY_MINUTES)
        whole("outings", single("outings", self.outings, low=FEWEST_OUTINGS, high=MOST_OUTINGS))
        object.__setattr__(self, "outings", int(self.outings))

    @overload
    def minutes(self, step: int) -> int: ...

    @overload
    def minutes(self, step: Sequence[int] | NDArray[Any]) -> NDArray[np.int64]: ...

    def minutes(self, step: int | Sequence[int] | NDArray[Any]) -> int | NDArray[np.int64]:
        """Sun minutes of step 0 to outings-1, rounded to 5 and never below 5; an array for an array."""
        steps = whole("step", step, low=0, high=self.outings - 1).astype(np.int64)
        minutes = np.asarray(self.doses, dtype=np.int64)[steps]
        return minutes if steps.ndim else int(minutes)

    @cached_property
    def doses(self) -> tuple[int, ...]:
        """Sun minutes of every step, never falling."""
        growth = self.full_minutes / self.start_minutes
        exact = (self.start_minutes * growth ** (step / (self.outings - 1)) for step in range(self.outings))
        rounded = (max(1, round(minutes / ROUND_TO_MINUTES)) * ROUND_TO_MINUTES for minutes in exact)
        return tuple(accumulate(rounded, max))


@dataclass(frozen=True)
class OutdoorRamp:
    """A rising ramp of minutes outdoors, sun and shade together, equally steep all the way.

    Parameters
    ----------
    start_minutes, step_minutes, full_minutes : float
        Minutes of the first outing, added by each next, and of the last; above 0, the last at most 1440
        and not below the first.

    Raises
    ------
    ValueError
        Naming the argument out of range.

    Notes
    -----
    The second clock of hardening: wind and dry air act in shade as in sun. Starting at 120 minutes and
    adding 60 a day is this program's working rule, within what the published schedules that give times
    agree on: 60 to 120 and 60 more a day (University of Florida), 180 to 240 in shade and 60 to 120 more
    a day (Beltrami County Master Gardeners). Air that was borne was borne: an outing counts for every
    step whose minutes it holds, so a tray that spent its days in full sun is not sent back for shade.
    """

    start_minutes: float = 120
    step_minutes: float = 60
    full_minutes: float = 600

    def __post_init__(self) -> None:
        start = single("start_minutes", self.start_minutes, above=0)
        single("step_minutes", self.step_minutes, above=0)
        single("full_minutes", self.full_minutes, low=start, high=DAY_MINUTES)

    @cached_property
    def doses(self) -> tuple[int, ...]:
        """Minutes outdoors of every step."""
        whole_steps = int((self.full_minutes - self.start_minutes) / self.step_minutes + 1e-9)
        rising = [self.start_minutes + self.step_minutes * step for step in range(whole_steps + 1)]
        if rising[-1] < self.full_minutes:
            rising.append(self.full_minutes)
        return tuple(round(minutes) for minutes in rising)

    @property
    def outings(self) -> int:
        """Number of steps."""
        return len(self.doses)

    @property
    def catches_up(self) -> bool:
        """True: minutes outdoors borne without harm count for every step they hold."""
        return True

    def on(self, day: dt.date) -> "OutdoorRamp":  # noqa: ARG002  # it is the same every day
        """The ramp itself."""
        return self


@dataclass(frozen=True)
class ChangingRamp:
    """A ramp whose minutes were counted in another way from some date on, step for step the same.

    Parameters
    ----------
    first : Ramp
        The ramp before any change.
    changes : tuple of (date, Ramp)
        From each date on that ramp; in order, all with as many outings as `first`.

    Raises
    ------
    ValueError
        If a ramp has another number of outings, or the dates do not rise.
    """

    first: Ramp
    changes: tuple[tuple[dt.date, Ramp], ...] = ()

    def __post_init__(self) -> None:
        days = [day for day, _ in self.changes]
        if any(later <= earlier for earlier, later in pairwise(days)):
            raise ValueError(f"changes holds the dates {days}; each must be later than the one before")
        for day, ramp in self.changes:
            if ramp.outings != self.first.outings:
                raise ValueError(
                    f"changes holds {ramp.outings} outings from {day}; it must be {self.first.outings}"
                )

    @property
    def outings(self) -> int:
        """Number of steps."""
        return self.first.outings

    @property
    def doses(self) -> tuple[int, ...]:
        """Minutes of every step by the last change."""
        return self.changes[-1][1].doses if self.changes else self.first.doses

    @property
    def catches_up(self) -> bool:
        """False, as of any ramp of sun minutes."""
        return False

    def on(self, day: dt.date) -> Ramp:
        """The ramp by which a date is judged."""
        at = bisect_right([start for start, _ in self.changes], day)
        return self.changes[at - 1][1] if at else self.first
