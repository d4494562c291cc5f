"""The water a holder holds, day by day, as a curve to be drawn: from its weights, or from the air."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from math import log2

import numpy as np

from greenroom.season.hardening_words import day_words
from greenroom.season.holders import Holder
from greenroom.season.state import Season
from greenroom.season.watering_outside import OutsideWater, outside_water
from greenroom.season.watering_weights import TRIGGER, DryDown, dry_down

DRIEST = 0.15
LONGEST_DAYS = 60.0
STEPS = 40


@dataclass(frozen=True, slots=True)
class WaterCurve:
    """Shares of the soaked holder's water against days since ``start``.

    ``points`` are weighings, ``line`` the curve, ``trigger`` the share at which it wants water, day by day.
    ``on`` is the day it does, ``today`` this day, both in days since ``start``; ``on`` may be None.
    """

    start: date
    points: tuple[tuple[float, float], ...]
    line: tuple[tuple[float, float], ...]
    trigger: tuple[tuple[float, float], ...]
    today: float
    on: float | None
    weighed: bool

    def words_at(self, days: float) -> str:
        """Return what is held on a day: "4 June: 64 % held"."""
        day = self.start + timedelta(days=round(days))
        return f"{day_words(day)}: {self.share_at(round(days)) * 100:.0f} % held"

    def share_at(self, days: float) -> float:
        """Return the share held so many days after ``start``."""
        at, shares = zip(*self.line, strict=True)
        return float(np.interp(days, at, shares))


def water_curve(season: Season, made: Holder, today: date) -> WaterCurve | None:
    """Return the curve of a holder: by its weights if they tell, else outdoors by the air, else None."""
    drying = dry_down(season.holder_facts(made.key), today)
    if drying is not None:
        return _by_weight(drying, today)
    outside = outside_water(season, made, today)
    return _by_air(outside, today) if outside is not None and outside.days else None


def _by_weight(drying: DryDown, today: date) -> WaterCurve:
    first = min([drying.start, *(one.day for one in drying.weighings)])
    shift = float((drying.start - first).days)
    dry = drying.halving_days * log2(max(drying.share, DRIEST) / DRIEST)
    end = min(LONGEST_DAYS, max(shift + dry, float((today - first).days) + 1, 2.0))
    days = [shift + (end - shift) * step / STEPS for step in range(STEPS + 1)]
    return WaterCurve(
        start=first,
        points=tuple((float((one.day - first).days), one.share) for one in drying.weighings),
        line=tuple((day, drying.share_on(day - shift)) for day in days),
        trigger=((0.0, TRIGGER), (end, TRIGGER)),
        today=float((today - first).days),
        on=float((drying.on - first).days),
        weighed=True,
    )


def _by_air(outside: OutsideWater, today: date) -> WaterCurve:
    start = outside.since or outside.days[0].day
    line = [(float((one.day - start).days), 1 - one.short_l / one.held_l) for one in outside.days]
    trigger = [(float((one.day - start).days), 1 - one.trigger_l / one.held_l) for one in outside.days]
    return WaterCurve(
        start=start,
        points=(),
        line=((0.0, 1.0), *line),
        trigger=((0.0, trigger[0][1]), *trigger),
        today=float((today - start).days),
        on=float((outside.on - start).days) if outside.on is not None else None,
        weighed=False,
    )
