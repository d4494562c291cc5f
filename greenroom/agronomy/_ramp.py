"""The ramp of sun minutes that a tray walks up while it hardens off."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import accumulate
from typing import Any, overload

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy._checks import single, whole

DAY_MINUTES = 24 * 60
ROUND_TO_MINUTES = 5
FEWEST_OUTINGS = 7
MOST_OUTINGS = 21


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
