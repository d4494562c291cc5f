"""How a holder stands on its ramp: what was done, what today asks, and what lies ahead."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from greenroom.agronomy.hardening import (
    ENOUGH_SHARE,
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
    verdict,
)
from greenroom.agronomy.sunlight import sunrise_sunset
from greenroom.ledger import Entry
from greenroom.ledger.facts import HardeningStarted, Held, PlaceSet, SetbackSeen
from greenroom.season.outings import (
    Minutes,
    Outing,
    fold_outings,
    minutes_by_day,
    open_outing,
    sun_minutes_until,
)
from greenroom.season.place import Place, place_of, weather_days
from greenroom.season.proposal import Proposal
from greenroom.season.spots import order_of
from greenroom.season.state import Season

AHEAD_DAYS = 60
ONE_DAY = timedelta(days=1)
LONGEST_DAY_MINUTES = 24 * 60.0
WORST_FIRST: tuple[Setback, ...] = ("scorch", "wilt", "droop")


@dataclass(frozen=True, slots=True)
class Standing:
    """A holder on its ramp, today.

    ``days`` are the days since hardening began, up to yesterday, as they were walked; ``step`` is the
    step today began with and ``limit`` its sun minutes; ``minutes`` today's minutes so far.
    ``settled`` is today as it was walked, once it can only be what it is. ``ahead`` is the plan from
    today on, or from tomorrow once today is settled; ``first_plan`` the plan of the day it began.
    """

    holder: str
    ramp: Ramp
    today: date
    started_on: date
    days: tuple[Walked, ...]
    step: int
    minutes: Minutes
    resting: bool
    setbacks: tuple[SetbackSeen, ...]
    held: Mapping[date, str]
    outings: tuple[Outing, ...]
    settled: Walked | None
    ahead: tuple[Planned, ...]
    first_plan: tuple[Planned, ...]

    @property
    def limit(self) -> int:
        """Sun minutes of today's step; a hardened holder stays at the last."""
        return self.ramp.minutes(min(self.step, self.ramp.outings - 1))

    @property
    def target(self) -> int:
        """Sun minutes today asks for: those of its step, 0 on the day of rest after leaf scorch."""
        return 0 if self.resting else self.limit

    @property
    def outing(self) -> Outing | None:
        """The outing it is on, or None while it is in."""
        return open_outing(self.outings)

    @property
    def next_step(self) -> int:
        """The step of tomorrow: by what today was, or by the plan while today is still open."""
        if self.settled is not None:
            return self.settled.after
        tomorrow = [day.step for day in self.ahead if day.date > self.today]
        return tomorrow[0] if tomorrow else self.ramp.outings

    @property
    def hardened(self) -> bool:
        """Whether the whole ramp is behind it."""
        return (self.settled.after if self.settled else self.step) >= self.ramp.outings

    @property
    def ready_on(self) -> date | None:
        """The day of the outing that ends the ramp: done, or to come if each day goes as planned."""
        if not self.hardened:
            return _finish(self.ramp, self.ahead)
        walked = [*self.days, self.settled] if self.settled else self.days
        ended = [day.day.date for day in walked if day.before < self.ramp.outings <= day.after]
        return ended[-1]

    @property
    def first_ready_on(self) -> date | None:
        """The day it was to be ready when hardening began."""
        return _finish(self.ramp, self.first_plan)

    @property
    def days_later(self) -> int:
        """How many days later than first planned it will be ready; below 0 for earlier."""
        if self.ready_on is None or self.first_ready_on is None:
            return 0
        return (self.ready_on - self.first_ready_on).days

    @property
    def today_setbacks(self) -> tuple[SetbackSeen, ...]:
        """The setbacks seen today."""
        return tuple(seen for seen in self.setbacks if seen.day == self.today)


def standing(season: Season, holder: str, today: date, now: datetime) -> Standing | None:
    """Return how a holder stands on its ramp, or None if it has not begun to harden."""
    return _standing(season, holder, season.holder_facts(holder), today, now)


def standing_if(
    season: Season, holder: str, proposal: Proposal, today: date, now: datetime
) -> Standing | None:
    """Return how a holder would stand if ``proposal`` were carried out; nothing is written."""
    kept = [entry for entry in season.holder_facts(holder) if entry.fact.id not in proposal.strike]
    last = max((entry.number for entry in kept), default=0)
    coming = [fact for fact in proposal.record if getattr(fact, "holder", None) == holder]
    kept += [Entry(last + place, 0, fact) for place, fact in enumerate(coming, start=1)]
    return _standing(season, holder, sorted(kept, key=order_of), today, now)


def going_out(season: Season) -> list[str]:
    """Return the holders in use that have begun to harden."""
    return [one.key for one in season.holders() if hardening_since(season, one.key) is not None]


def hardening_since(season: Season, holder: str) -> date | None:
    """Return the day a holder began to harden, or None."""
    started = _started(season.holder_facts(holder))
    return started.day if started else None


def outing_days(entries: Sequence[Entry], place: Place, now: datetime, since: date) -> list[OutingDay]:
    """Return a day for each day from ``since`` on that was spent out or showed a setback."""
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
    if weather is None or (weather.tmax, weather.gust, weather.rain) == (None, None, None):
        return None
    return verdict(weather.tmin, weather.tmax, weather.gust, weather.rain)


def forecast_from(season: Season, today: date) -> dict[date, DayWeather]:
    """Return the weather known for today and the days that a plan may reach."""
    record = weather_days(season)
    days = (today + timedelta(days=ahead) for ahead in range(AHEAD_DAYS + 1))
    return {
        day: DayWeather(known.tmin_c, known.tmax_c, known.gust_ms, known.rain_mm)
        for day in days
        if (known := record.get(day)) is not None
    }


def sun_of(season: Season, day: date) -> tuple[datetime, datetime] | None:
    """Return sunrise and sunset at the place; None where there are none, or no place is known."""
    return season.memo(f"sun of {day}", (PlaceSet,), lambda: _sun(place_of(season), day))


def _sun(place: Place, day: date) -> tuple[datetime, datetime] | None:
    if place.latitude is None or place.longitude is None:
        return None
    return sunrise_sunset(day, place.latitude, place.longitude)


def _standing(
    season: Season, holder: str, entries: Sequence[Entry], today: date, now: datetime
) -> Standing | None:
    started = _started(entries)
    if started is None:
        return None
    place = place_of(season)
    outings = fold_outings(entries)
    ramp = Ramp(started.start_minutes, started.full_minutes, started.outings)
    record = outing_days(entries, place, now, since=started.day)
    past = _through([day for day in record if day.date < today], started.day, today)
    walked = replay(ramp, past)
    step = walked[-1].after if walked else 0
    held = _held(entries, started.day)
    so_far = next((day for day in record if day.date == today), OutingDay(today, 0))
    out = open_outing(outings) is not None
    # A day kept in is over as soon as it is noted; any other that is spent in, when the sun has set.
    over = not out and (_after_sunset(season, today, now) or (today in held and so_far.spent_in))
    known = [*past, so_far] if started.day <= today and _settled(ramp, step, so_far, over) else past
    return Standing(
        holder=holder,
        ramp=ramp,
        today=today,
        started_on=started.day,
        days=tuple(walked),
        step=step,
        minutes=minutes_by_day(outings, place.zone, now).get(today, Minutes()),
        resting=rests_on(past, today),
        setbacks=_setbacks(entries, started.day),
        held=held,
        outings=tuple(outings),
        settled=replay(ramp, known)[-1] if known is not past else None,
        ahead=_plan(ramp, known, max(today, started.day), _weather_ahead(season, so_far, out)),
        first_plan=_first_plan(season, ramp, started.day),
    )


def _plan(
    ramp: Ramp, days: Sequence[OutingDay], first: date, forecast: Mapping[date, DayWeather]
) -> tuple[Planned, ...]:
    return tuple(project(ramp, days, first, forecast, first + timedelta(days=AHEAD_DAYS)))


def _first_plan(season: Season, ramp: Ramp, day: date) -> tuple[Planned, ...]:
    name = f"first plan from {day} on {ramp}"
    return season.memo(name, (HardeningStarted,), lambda: _plan(ramp, [], day, {}))


def _weather_ahead(season: Season, so_far: OutingDay, out: bool) -> dict[date, DayWeather]:
    """Return the forecast for the plan; once a holder went out, today's holds nothing back."""
    forecast = forecast_from(season, so_far.date)
    if out or not so_far.spent_in:
        forecast.pop(so_far.date, None)
    return forecast


def _setbacks(entries: Sequence[Entry], since: date) -> tuple[SetbackSeen, ...]:
    seen = (entry.fact for entry in entries if isinstance(entry.fact, SetbackSeen))
    return tuple(fact for fact in seen if fact.day >= since)


def _held(entries: Sequence[Entry], since: date) -> dict[date, str]:
    held = (entry.fact for entry in entries if isinstance(entry.fact, Held))
    return {fact.day: fact.why for fact in held if fact.day >= since}


def _started(entries: Sequence[Entry]) -> HardeningStarted | None:
    starts = [entry.fact for entry in entries if isinstance(entry.fact, HardeningStarted)]
    return starts[-1] if starts else None


def _through(past: list[OutingDay], started_on: date, today: date) -> list[OutingDay]:
    """Return the past days with a day in at either end if nothing stands there, so all are walked."""
    days = list(past)
    yesterday = today - ONE_DAY
    if started_on <= yesterday and (not days or days[0].date > started_on):
        days.insert(0, OutingDay(started_on, 0))
    if days and days[-1].date < yesterday:
        days.append(OutingDay(yesterday, 0))
    return days


def _outing_day(
    day: date, minutes: Minutes, seen: list[SetbackSeen], outings: list[Outing], place: Place
) -> OutingDay:
    """Return a day for the ramp.

    Of several setbacks in a day the worst counts, and the sun borne is that before the first of them,
    so that a setback more never leaves a holder higher up. A day in which the clocks go back lasts
    1500 minutes; no more than 1440 are counted.
    """
    sun, shade = min(minutes.sun, LONGEST_DAY_MINUTES), min(minutes.shade, LONGEST_DAY_MINUTES)
    worst = next((kind for kind in WORST_FIRST if any(fact.what == kind for fact in seen)), None)
    if worst is None:
        return OutingDay(day, sun, shade_minutes=shade)
    borne = sun_minutes_until(outings, place.zone, min(fact.at for fact in seen))
    return OutingDay(day, sun, worst, min(sun, borne), shade)


def _settled(ramp: Ramp, step: int, so_far: OutingDay, over: bool) -> bool:
    """Whether today can only be what it is: over, set back, or with enough of the step's minutes."""
    enough = ENOUGH_SHARE * ramp.minutes(min(step, ramp.outings - 1))
    return over or so_far.setback is not None or so_far.minutes >= enough


def _after_sunset(season: Season, today: date, now: datetime) -> bool:
    """Whether the sun has set today; False where that cannot be told."""
    sun = sun_of(season, today)
    return sun is not None and now > sun[1]


def _finish(ramp: Ramp, plan: Sequence[Planned]) -> date | None:
    last = [day for day in plan if day.step == ramp.outings - 1 and day.minutes > 0]
    return last[-1].date if last else None
