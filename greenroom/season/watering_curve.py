"""The water a holder holds, day by day, as a curve to be drawn: from its weights, or from the air."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta, tzinfo
from math import log2

import numpy as np

from greenroom.season.hardening_words import day_words
from greenroom.season.holders import Holder
from greenroom.season.place import place_of
from greenroom.season.state import Season
from greenroom.season.watering_outside import OutsideWater, outside_water
from greenroom.season.watering_weights import TRIGGER, DryDown, dry_down
from greenroom.speech import tr

DRIEST = 0.15
LONGEST_DAYS = 60.0
STEPS = 40


@dataclass(frozen=True, slots=True)
class WaterCurve:
    """Shares of the soaked holder's water against days since ``start``.

    ``points`` are weighings, ``line`` the curve, ``trigger`` the share at which it wants water, day by day.
    ``on`` is when it does, ``today`` this day or moment, both in days since ``start``; ``on`` may be None.
    ``hourly`` tells that hours count, of the clock of the place.
    """

    start: date
    points: tuple[tuple[float, float], ...]
    line: tuple[tuple[float, float], ...]
    trigger: tuple[tuple[float, float], ...]
    today: float
    on: float | None
    weighed: bool
    hourly: bool = False

    @property
    def step(self) -> float:
        """The least time that is told apart, in days."""
        return 1 / 24 if self.hourly else 1.0

    def words_at(self, days: float) -> str:
        """Return what is held on a day, "4 June: 64 % held", or at an hour of it."""
        near = round(days / self.step) * self.step
        day = self.start + timedelta(days=int(near + self.step / 2))
        hour = f", {round(near % 1 * 24) % 24}:00" if self.hourly else ""
        return tr(
            "{when}: {percent:.0f} % held",
            when=f"{day_words(day)}{hour}",
            percent=self.share_at(near) * 100,
        )

    def share_at(self, days: float) -> float:
        """Return the share held so many days after ``start``."""
        at, shares = zip(*self.line, strict=True)
        return float(np.interp(days, at, shares))


def water_curve(season: Season, made: Holder, today: date, now: datetime | None = None) -> WaterCurve | None:
    """Return the curve of a holder: by its weights if they tell, else outdoors by the air, else None.

    ``now`` is this moment, for where weights carry their hours.
    """
    place = place_of(season)
    drying = dry_down(season.holder_facts(made.key), today, place.zone)
    if drying is not None:
        return _by_weight(drying, today, _Clock(place.zone, now))
    outside = outside_water(season, made, today)
    return _by_air(outside, today) if outside is not None and outside.days else None


@dataclass(frozen=True, slots=True)
class _Clock:
    """Days since the first one, with the hours of the place's clock where they are known."""

    zone: tzinfo
    now: datetime | None

    def days(self, first: date, day: date, at: datetime | None) -> float:
        whole = float((day - first).days)
        if at is None:
            return whole
        local = at.astimezone(self.zone)
        midnight = datetime.combine(local.date(), time(), local.tzinfo)
        return float((local.date() - first).days) + (local - midnight) / timedelta(days=1)


def _by_weight(drying: DryDown, today: date, clock: _Clock) -> WaterCurve:
    first = min([drying.start, *(one.day for one in drying.weighings)])
    hourly = drying.began is not None
    shift = clock.days(first, drying.start, drying.began)
    now = clock.days(first, today, clock.now if hourly else None)
    dry = drying.halving_days * log2(max(drying.share, DRIEST) / DRIEST)
    end = min(LONGEST_DAYS, max(shift + dry, now + 1, 2.0))
    days = [shift + (end - shift) * step / STEPS for step in range(STEPS + 1)]
    return WaterCurve(
        start=first,
        points=tuple(
            (clock.days(first, one.day, one.at if hourly else None), one.share) for one in drying.weighings
        ),
        line=tuple((day, drying.share_on(day - shift)) for day in days),
        trigger=((0.0, TRIGGER), (end, TRIGGER)),
        today=now,
        on=clock.days(first, drying.on, drying.at),
        weighed=True,
        hourly=hourly,
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
