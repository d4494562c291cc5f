"""Today and the days ahead of one holder: what each asks of both clocks, and when to go out for it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime

from greenroom.agronomy.hardening import dose_at
from greenroom.agronomy.two_clocks import PlannedBoth
from greenroom.ledger.facts import Forecast, PlaceSet, SkySeen, WeatherRecord, YardSun
from greenroom.season.clock_faces import SHELTERED_STEPS, TwoClocks
from greenroom.season.outing_windows import DayWindows, day_windows
from greenroom.season.state import Season

WEATHER = (Forecast, WeatherRecord, SkySeen, YardSun, PlaceSet)


@dataclass(frozen=True, slots=True)
class DayOut:
    """One day ahead: its plan, its hours, and whether it belongs in a sheltered spot.

    On a day the plan holds, ``windows`` are asked for the minutes its step would have had: where the
    forecast tells hours, there may be some between the showers or before the wind.
    """

    planned: PlannedBoth
    windows: DayWindows
    sheltered: bool

    @property
    def date(self) -> date:
        """The day."""
        return self.planned.date

    @property
    def held(self) -> bool:
        """Whether the day as a whole keeps it in."""
        return self.planned.verdict == "hold"

    @property
    def gap(self) -> bool:
        """Whether a day that is held has hours that would do all the same."""
        best = self.windows.best
        return self.held and self.windows.by_hour and best is not None and best.whole


def days_out(season: Season, stand: TwoClocks, now: datetime) -> Iterator[DayOut]:
    """Yield today, as far as it is still open, and each day of the plan, in order, each as it is asked for.

    One that is out is asked about the whole of today, so that the hours it is in can be held against the
    best ones; one that is in, about the hours that are left.
    """
    for planned in stand.ahead:
        yield DayOut(planned, _windows(season, stand, planned, now), sheltered(stand, planned))


def begun(now: datetime) -> datetime:
    """Return the moment from which the hours of today are left, to five minutes."""
    return now.replace(minute=now.minute // 5 * 5, second=0, microsecond=0)


def sheltered(stand: TwoClocks, planned: PlannedBoth) -> bool:
    """Whether the weather asks for shelter, or a tender holder is on its first steps outdoors."""
    tender = stand.rules.tender and planned.air_step < SHELTERED_STEPS
    return planned.verdict == "sheltered" or (tender and planned.verdict != "hold")


def _windows(season: Season, stand: TwoClocks, planned: PlannedBoth, now: datetime) -> DayWindows:
    limits, by, holder = stand.rules.limits, stand.by, stand.holder
    from_now = None
    sun, outdoors = _asked(stand, planned)
    if planned.date == stand.today and stand.outing is None:
        from_now = begun(now)
        sun, outdoors = _left_today(stand, planned)
    elif planned.date == stand.today:
        open_ = stand.sun.settled is None
        sun, outdoors = (stand.target, stand.target + stand.shade_target) if open_ else (0, 0)
    name = f"windows of {planned.date}: {sun}, {outdoors}, {limits}, {by}, {holder}"

    def found() -> DayWindows:
        return day_windows(
            season, planned.date, sun, limits, by=by, outdoors=outdoors, holder=holder, now=from_now
        )

    return found() if from_now is not None else season.memo(name, WEATHER, found)


def _left_today(stand: TwoClocks, planned: PlannedBoth) -> tuple[float, float]:
    """Return the minutes of sun, and those outdoors, that today still asks for; none on a day of rest."""
    if stand.resting:
        return 0.0, 0.0
    sun, outdoors = _asked(stand, planned)
    sun = stand.sun.left if planned.sun_minutes or planned.verdict == "hold" else 0.0
    return sun, max(sun, outdoors - stand.counted.outdoors)


def _asked(stand: TwoClocks, planned: PlannedBoth) -> tuple[float, float]:
    """Return the minutes of a day's steps, held or not."""
    if planned.verdict != "hold":
        return planned.sun_minutes, planned.air_minutes
    sun = dose_at(stand.sun.ramp.on(planned.date).doses, planned.sun_step)
    return sun, max(sun, dose_at(stand.outdoor_ramp.doses, planned.air_step))
