"""Odds of ripe fruit against the sowing date, worked out once for every variety and day of a season."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from greenroom.agronomy.ripening import SeasonOdds
from greenroom.season.plan_needs import Needs
from greenroom.season.replay import KEPT, Odds, Replay, Spread, odds_of, spread_of
from greenroom.season.wants import days_of, span_of_sowing

ROUNDING = 1e-9
"""Shares of years that differ by less are the same."""


@dataclass(frozen=True, slots=True)
class Sowing:
    """What comes of sowing one variety on one day.

    ``set_out``, ``ripe`` and ``end`` (the killing night) are spread over the years counted; None where
    it came in none of them. ``up`` and ``ready`` are days of this season: half up, fit to be set out.
    """

    on: date
    up: date
    ready: date
    odds: Odds
    set_out: Spread | None
    ripe: Spread | None
    end: Spread | None

    @property
    def set_out_on(self) -> date:
        """The usual day of setting out; where nights never were warm enough, the day it is ready."""
        return self.ready if self.set_out is None else max(self.set_out.usual, self.ready)


class PlanChart:
    """The odds of some varieties on every sowing day of a season; dragging a date only looks them up.

    Parameters
    ----------
    replay : Replay
        The place's years.
    needs : sequence of Needs
        The varieties; one whose heat need is not known is left out.
    year : int
        The season, named by its spring.
    """

    def __init__(self, replay: Replay, needs: Sequence[Needs], year: int) -> None:
        self.year = year
        self.days = days_of(span_of_sowing(year, southern=replay.southern))
        self._replay = replay
        self._needs = {one.variety: one for one in needs if one.ripener is not None}
        ripeners = [one.ripener for one in self._needs.values() if one.ripener is not None]
        self._odds, self.years = replay.odds(ripeners, self.days, year)
        self._rows = {variety: row for row, variety in enumerate(self._needs)}
        self._kept = lru_cache(maxsize=KEPT)(self._sow)

    def __contains__(self, variety: object) -> bool:
        return variety in self._rows and bool(self.years)

    @property
    def varieties(self) -> tuple[str, ...]:
        """The varieties that have odds, in the order given."""
        return tuple(self._rows)

    def odds(self, variety: str) -> NDArray[np.float64]:
        """Return the share of years in which it ripens, 0 to 1, for each of ``days``."""
        row: NDArray[np.float64] = self._odds[self._rows[variety]]
        return row

    def odds_on(self, variety: str, on: date) -> Odds:
        """Return the odds of one sowing day; one outside the season's is taken as its nearest."""
        place = min(max((on - self.days[0]).days, 0), len(self.days) - 1)
        return odds_of(round(float(self.odds(variety)[place]) * len(self.years)), len(self.years))

    def latest(self, variety: str, share: float) -> date | None:
        """Return the latest sowing day with at least these odds, or None where no day has them."""
        enough = np.flatnonzero(self.odds(variety) >= share - ROUNDING)
        return self.days[int(enough[-1])] if enough.size else None

    def best(self, variety: str) -> tuple[date, Odds]:
        """Return the best odds there are, and the latest day that has them."""
        row = self.odds(variety)
        place = int(np.flatnonzero(row >= row.max() - ROUNDING)[-1])
        return self.days[place], self.odds_on(variety, self.days[place])

    def seasons(self, variety: str, on: date) -> SeasonOdds | None:
        """Return how each of the years went for a variety sown on a day; None if it is ready too late."""
        ripener = self._needs[variety].ripener
        return self._replay.seasons(ripener, on, self.year) if ripener else None

    def sown(self, variety: str, on: date) -> Sowing:
        """Return what comes of sowing a variety on a day: this is what a dragged date asks for."""
        return self._kept(variety, on)

    def _sow(self, variety: str, on: date) -> Sowing:
        needs = self._needs[variety]
        up, ready = on + timedelta(days=round(needs.days_up)), on + timedelta(days=needs.days_to_ready)
        found = self.seasons(variety, on)
        odds = self.odds_on(variety, on)
        if found is None:
            return Sowing(on, up, ready, odds, None, None, None)
        years = frozenset(self.years)
        spreads = (
            spread_of(
                [day for year, day in dates.items() if year in years],
                self.year,
                southern=self._replay.southern,
            )
            for dates in (found.set_out, found.ripe, found.end)
        )
        return Sowing(on, up, ready, odds, *spreads)
