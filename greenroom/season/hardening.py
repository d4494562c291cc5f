"""How a holder stands on its ramp: what was done, what today asks, and what lies ahead."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from greenroom.agronomy.hardening import (
    DayWeather,
    OutingDay,
    Planned,
    Ramp,
    Setback,
    Verdict,
    Walked,
    project,
    replay,
    rests_on,
    step_on,
    verdict,
)
from greenroom.ledger import Entry
from greenroom.ledger.facts import HardeningStarted, Held, SetbackSeen
from greenroom.season.outings import Minutes, Outing, fold_outings, minutes_by_day, sun_minutes_until
from greenroom.season.place import Place, place_of, weather_days
from greenroom.season.state import Season

AHEAD_DAYS = 60
WORST_FIRST: tuple[Setback, ...] = ("scorch", "wilt", "droop")


@dataclass(frozen=True, slots=True)
class Standing:
    """A holder on its ramp, today.

    ``days`` are the days up to yesterday as they were walked; ``today`` holds today's minutes so far;
    ``step`` is today's step, ``target`` its sun minutes; ``ahead`` the plan from today on and
    ``first_plan`` the plan as it was on the day hardening began.
    """

    holder: str
    ramp: Ramp
    started_on: date
    days: tuple[Walked, ...]
    step: int
    target: int
    minutes: Minutes
    resting: bool
    setbacks: tuple[SetbackSeen, ...]
    held: Mapping[date, str]
    outing: Outing | None
    outings: tuple[Outing, ...]
    ahead: tuple[Planned, ...]
    first_plan: tuple[Planned, ...]

    @property
    def hardened(self) -> bool:
        """Whether the whole ramp is behind it."""
        return self.step >= self.ramp.outings

    @property
    def ready_on(self) -> date | None:
        """The day the last outing of the ramp falls on if each day goes as planned."""
        if self.hardened:
            return self.days[-1].day.date if self.days else self.started_on
        return _finish(self.ramp, self.ahead)

    @property
    def first_ready_on(self) -> date | None:
        """The day it was to be ready when hardening began."""
        return _finish(self.ramp, self.first_plan)

    @property
    def days_later(self) -> int:
        """How many days later than first planned it will be ready."""
        if self.ready_on is None or self.first_ready_on is None:
            return 0
        return (self.ready_on - self.first_ready_on).days

    @property
    def today_setbacks(self) -> tuple[SetbackSeen, ...]:
        """The setbacks seen after the last day that was walked."""
        last = self.days[-1].day.date if self.days else None
        return tuple(seen for seen in self.setbacks if last is None or seen.day > last)


def standing(season: Season, holder: str, today: date, now: datetime) -> Standing | None:
    """Return how a holder stands on its ramp, or None if it has not begun to harden."""
    entries = season.holder_facts(holder)
    started = _started(entries)
    if started is None:
        return None
    place = place_of(season)
    outings = fold_outings(entries)
    ramp = Ramp(started.start_minutes, started.full_minutes, started.outings)
    record = outing_days(entries, place, now, since=started.day)
    past = [day for day in record if day.date < today]
    # The first day of the ramp is spent out or in: a ramp begun and left lies still.
    begun = past or [OutingDay(started.day, 0)] if started.day < today else past
    step = step_on(ramp, begun, today)
    forecast = forecast_from(season, today)
    return Standing(
        holder=holder,
        ramp=ramp,
        started_on=started.day,
        days=tuple(replay(ramp, _through(begun, today))),
        step=step,
        target=0 if rests_on(past, today) else _target(ramp, step),
        minutes=minutes_by_day(outings, place.zone, now).get(today, Minutes()),
        resting=rests_on(past, today),
        setbacks=tuple(entry.fact for entry in entries if isinstance(entry.fact, SetbackSeen)),
        held={entry.fact.day: entry.fact.why for entry in entries if isinstance(entry.fact, Held)},
        outing=next((outing for outing in outings if outing.end is None), None),
        outings=tuple(outings),
        ahead=_ahead(ramp, record, today, forecast),
        first_plan=tuple(project(ramp, [], started.day, {}, started.day + timedelta(AHEAD_DAYS))),
    )


def going_out(season: Season) -> list[str]:
    """Return the holders in use that have begun to harden."""
    holders = season.holders()
    return [one.key for one in holders if _started(season.holder_facts(one.key)) is not None]


def hardening_since(season: Season, holder: str) -> date | None:
    """Return the day a holder began to harden, or None."""
    started = _started(season.holder_facts(holder))
    return started.day if started else None


def outing_days(entries: list[Entry], place: Place, now: datetime, since: date) -> list[OutingDay]:
    """Return a day for each day since ``since`` that was spent out or showed a setback."""
    outings = fold_outings(entries)
    minutes = minutes_by_day(outings, place.zone, now)
    seen = [entry.fact for entry in entries if isinstance(entry.fact, SetbackSeen)]
    dates = sorted({*minutes, *(fact.day for fact in seen)})
    return [
        _outing_day(
            day, minutes.get(day, Minutes()), [fact for fact in seen if fact.day == day], outings, place
        )
        for day in dates
        if day >= since
    ]


def todays_verdict(season: Season, today: date) -> tuple[Verdict, tuple[str, ...]] | None:
    """Return whether today is a day to go out, with reasons; None without weather for today."""
    weather = forecast_from(season, today).get(today)
    if weather is None:
        return None
    return verdict(weather.tmin, weather.tmax, weather.gust, weather.rain)


def forecast_from(season: Season, today: date) -> dict[date, DayWeather]:
    """Return the weather known for today and later."""
    return {
        day: DayWeather(known.tmin_c, known.tmax_c, known.gust_ms, known.rain_mm)
        for day, known in weather_days(season).items()
        if day >= today
    }


def _started(entries: list[Entry]) -> HardeningStarted | None:
    starts = [entry.fact for entry in entries if isinstance(entry.fact, HardeningStarted)]
    return starts[-1] if starts else None


def _target(ramp: Ramp, step: int) -> int:
    return ramp.minutes(min(step, ramp.outings - 1))


def _through(days: list[OutingDay], today: date) -> list[OutingDay]:
    """Return the days, and a day in for yesterday if nothing stands there, so that gaps are walked."""
    yesterday = today - timedelta(days=1)
    if days and days[-1].date < yesterday:
        return [*days, OutingDay(yesterday, 0)]
    return days


def _outing_day(
    day: date, minutes: Minutes, seen: list[SetbackSeen], outings: list[Outing], place: Place
) -> OutingDay:
    worst = next((kind for kind in WORST_FIRST if any(fact.what == kind for fact in seen)), None)
    if worst is None:
        return OutingDay(day, minutes.sun, shade_minutes=minutes.shade)
    first = min(fact.at for fact in seen if fact.what == worst)
    borne = min(minutes.sun, sun_minutes_until(outings, place.zone, first))
    return OutingDay(day, minutes.sun, worst, borne, minutes.shade)


def _ahead(
    ramp: Ramp, record: list[OutingDay], today: date, forecast: Mapping[date, DayWeather]
) -> tuple[Planned, ...]:
    """Return the plan from today on; today counts as done once it went its course or set back."""
    today_done = [day for day in record if day.date == today]
    past = [day for day in record if day.date < today]
    kept = record if today_done and _settled(ramp, past, today_done[0], today) else past
    return tuple(project(ramp, kept, today, forecast, today + timedelta(AHEAD_DAYS)))


def _settled(ramp: Ramp, past: list[OutingDay], day: OutingDay, today: date) -> bool:
    """Whether today cannot get better: a setback, or the step's minutes are done."""
    if day.setback is not None:
        return True
    return day.minutes >= _target(ramp, step_on(ramp, past, today))


def _finish(ramp: Ramp, plan: tuple[Planned, ...]) -> date | None:
    last = [day for day in plan if day.step == ramp.outings - 1 and day.minutes > 0]
    return last[-1].date if last else None
