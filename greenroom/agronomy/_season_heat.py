"""What a ripening asks of each season: when can plants go out, what heat is there, when does it end.

Each answer is a table worked once for a whole record, so that many varieties can look into it.
"""

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy._checks import Floats
from greenroom.agronomy._daily_record import DailyWeather
from greenroom.agronomy._seasons import (
    LONGEST_SEASON_DAYS,
    SeasonGrid,
    Whole,
    too_many_missing,
    warm_run_starts,
)
from greenroom.agronomy.climate import degree_days

NEVER = LONGEST_SEASON_DAYS
"""Column of a day that does not come within the season."""


class SeasonTables:
    """A record by season (rows) and day of the season (columns), with what ripening needs of it.

    Parameters
    ----------
    weather : DailyWeather
    southern : bool
    """

    def __init__(self, weather: DailyWeather, *, southern: bool) -> None:
        self.grid = SeasonGrid.over(weather.dates, southern=southern)
        self.southern = southern
        self._tmin = self.grid.lay(weather.tmin)
        self._tmax = self.grid.lay(weather.tmax)
        self._within = self.grid.within()
        self._unknown = np.isnan(self._tmin) | np.isnan(self._tmax)

    def earliest_set_out(self, floor: float, run: int) -> Whole:
        """Earliest set-out at or after each day, shape (seasons, 367); NEVER where none is left.

        The first day from which `run` nights stay at or above `floor`. A missing night breaks a run.
        """
        starts = warm_run_starts(self._tmin, floor, run)
        columns = np.where(starts, np.arange(LONGEST_SEASON_DAYS), NEVER)
        ahead = np.minimum.accumulate(columns[:, ::-1], axis=1)[:, ::-1]
        return np.concatenate([ahead, self._beside(NEVER)], axis=1)

    def heat_before(self, base: float, cap: float | None) -> Floats:
        """Heat gathered from the start of the season up to each day, itself left out, shape (seasons, 367).

        Clamped degree days [°C·d]. A missing day takes the heat of the known days around it, in line:
        0 would make every gap a cold spell.
        """
        heat = degree_days(self._tmin, self._tmax, base=base, cap=cap, method="clamp")
        daily = self._filled(np.asarray(heat))
        return np.concatenate([self._beside(0.0), np.cumsum(daily, axis=1)], axis=1)

    def ends(self, killing: float) -> Whole:
        """First night of the second half at or below `killing`; without one, NEVER."""
        cold = self.grid.in_half(1) & (self._tmin <= killing)
        return np.where(cold.any(axis=1), cold.argmax(axis=1), NEVER)

    def counted(self, ready: Whole) -> NDArray[np.bool_]:
        """Seasons with enough days known to be counted, shape (seasons,).

        At most 10 % missing of the days from `ready` (a column a season) to the end of the season, and of
        the nights of the second half, where the killing night is looked for.
        """
        from_ready = self._within & (np.arange(LONGEST_SEASON_DAYS) >= ready[:, np.newaxis])
        autumn = self.grid.in_half(1)
        return ~(too_many_missing(self._unknown, from_ready) | too_many_missing(np.isnan(self._tmin), autumn))

    def _beside(self, value: float) -> NDArray[np.generic]:
        return np.full((self.grid.years.size, 1), value)

    def _filled(self, heat: Floats) -> Floats:
        """Gaps filled in line from the known days around them; 0 beyond the last day of a season."""
        known = ~self._unknown
        gaps = self._unknown & self._within
        if known.any() and gaps.any():
            days = self.grid.starts.astype(np.int64)[:, np.newaxis] + np.arange(LONGEST_SEASON_DAYS)
            heat[gaps] = np.interp(days[gaps], days[known], heat[known])
        return np.where(self._within, heat, 0.0)
