"""How a holder stands on both its clocks, worked out from its facts.

Each clock goes up by what it was given. A setback goes back on the clock whose harm it was: sun on the
sun clock, wind on the outdoor clock, thirst on neither, for water mends it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta

from greenroom.agronomy.hardening import (
    ENOUGH_SHARE,
    Climb,
    DayWeather,
    OutdoorRamp,
    OutingDay,
    Ramp,
    Setback,
    dose_at,
    replay,
    state_on,
)
from greenroom.agronomy.two_clocks import BothStates, Clocks, PlannedBoth, project_both
from greenroom.ledger import Entry
from greenroom.ledger.facts import (
    CAUSES,
    Forecast,
    HardeningStarted,
    Held,
    Packet,
    PlaceSet,
    RampSet,
    SetbackSeen,
    SkySeen,
    Variety,
    WeatherRecord,
)
from greenroom.season.clock_faces import ClockFace, OnTheWay, TwoClocks
from greenroom.season.counted import (
    A_DAY_MINUTES,
    CLOCK,
    Counted,
    counted_days,
    counted_on,
    counting_on,
    due_at,
    ramp_counted,
    together,
)
from greenroom.season.hardening import AHEAD_DAYS, WORST_FIRST, forecast_from, sun_of
from greenroom.season.outings import Outing, Stretch, fold_outings, midnight, open_outing
from greenroom.season.proposal import Proposal
from greenroom.season.ramp_rules import RampRules, rules_of_holder, sets_if
from greenroom.season.sky import sky_of
from greenroom.season.spots import order_of
from greenroom.season.state import Season

SUN, WIND, THIRST = CAUSES
ONE_DAY, A_MINUTE = timedelta(days=1), timedelta(minutes=1)
WORLD = (PlaceSet, SkySeen, Forecast, WeatherRecord, RampSet, Packet, Variety)
"""What a standing goes by beside the facts of its holder."""


def two_clocks(season: Season, holder: str, today: date, now: datetime) -> TwoClocks | None:
    """Return how a holder stands on both clocks, or None if it has not begun to harden.

    What it rests on is compared, not the moment: one that is in is worked out once until a fact, the
    day, or the setting of the sun changes it.
    """
    entries, kept = season.holder_facts(holder), season.holder_memo(holder, "both clocks", _Kept)
    world = season.memo("what clocks go by", WORLD, object)
    if kept.world is not world:
        kept.world, kept.rests_on, kept.past, kept.out_before = world, None, None, None
    rests_on = (today, _clock_told(season, entries, today, now))
    if kept.rests_on != rests_on:
        kept.stand = _standing(season, holder, entries, today, now, kept=kept)
        kept.rests_on = rests_on
    return kept.stand


def two_clocks_if(
    season: Season, holder: str, proposal: Proposal, today: date, now: datetime
) -> TwoClocks | None:
    """Return how a holder would stand if ``proposal`` were carried out; nothing is written."""
    kept = [entry for entry in season.holder_facts(holder) if entry.fact.id not in proposal.strike]
    last = max((entry.number for entry in kept), default=0)
    coming = [fact for fact in proposal.record if getattr(fact, "holder", None) == holder]
    kept += [Entry(last + place, 0, fact) for place, fact in enumerate(coming, start=1)]
    rules = rules_of_holder(season, holder, sets_if(season, proposal))
    return _standing(season, holder, sorted(kept, key=order_of), today, now, rules)


def plan_of(rules: RampRules, ramp: Ramp, day: date) -> tuple[PlannedBoth, ...]:
    """Return the plan of a ramp begun on a day, each day as planned and none held by the weather."""
    clocks = Clocks(ramp, _air(rules, ramp))
    return tuple(project_both(clocks, BothStates(), day, {}, day + timedelta(days=AHEAD_DAYS)))


def _air(rules: RampRules, ramp: Ramp) -> OutdoorRamp:
    """Return the outdoor clock of a crop beside a ramp of sun; it ends where that ends."""
    start = min(rules.air.start_minutes, ramp.full_minutes)
    return OutdoorRamp(start, rules.air.step_minutes, ramp.full_minutes)


def _standing(
    season: Season,
    holder: str,
    entries: Sequence[Entry],
    today: date,
    now: datetime,
    rules: RampRules | None = None,
    kept: _Kept | None = None,
) -> TwoClocks | None:
    starts = [entry.fact for entry in entries if isinstance(entry.fact, HardeningStarted)]
    if not starts:
        return None
    rules = rules or rules_of_holder(season, holder)
    return _Told(season, holder, entries, starts[-1], now, rules, kept or _Kept()).stand(today)


def _clock_told(season: Season, entries: Sequence[Entry], today: date, now: datetime) -> datetime | bool:
    """Return the moment where a standing rests on it, else whether the sun has set."""
    outings = fold_outings(entries)
    seen = (entry.fact.at for entry in entries if isinstance(entry.fact, SetbackSeen))
    if any(one.end is None or one.end > now for one in outings) or any(at > now for at in seen):
        return now
    sun = sun_of(season, today)
    return sun is not None and now > sun[1]


@dataclass(slots=True)
class _Kept:
    """The last standing of a holder with what it rests on, and what its outings gave on days past."""

    world: object = None
    rests_on: tuple[date, datetime | bool] | None = None
    stand: TwoClocks | None = None
    past: dict[date, Counted] | None = None
    out_before: tuple[datetime, dict[date, Counted]] | None = None


class _Told:
    """What is told of one holder since its hardening began, on the way to how it stands."""

    def __init__(
        self,
        season: Season,
        holder: str,
        entries: Sequence[Entry],
        started: HardeningStarted,
        now: datetime,
        rules: RampRules,
        kept: _Kept,
    ) -> None:
        self.season, self.holder, self.entries, self.now = season, holder, entries, now
        self.began, self.sky = started.day, sky_of(season)
        self.rules = rules
        ramp = Ramp(started.start_minutes, started.full_minutes, started.outings)
        self.ramp = ramp_counted(ramp, entries, started.day, self.sky.place)
        self.air = _air(self.rules, ramp)
        self.outings = tuple(fold_outings(entries))
        self.counted = self._counted(kept)
        facts = [entry.fact for entry in entries]
        self.setbacks = tuple(one for one in facts if isinstance(one, SetbackSeen) and one.day >= started.day)
        self.held = {one.day: one.why for one in facts if isinstance(one, Held) and one.day >= started.day}

    def _counted(self, kept: _Kept) -> dict[date, Counted]:
        """Return what the days gave; outings that are over are counted once."""
        over = [one for one in self.outings if one.end is not None]
        if any(one.end is not None and one.end > self.now for one in over):
            return counted_days(self.outings, self.sky, self.holder, self.now)
        if kept.past is None:
            kept.past = counted_days(over, self.sky, self.holder, self.now)
        out = [one for one in self.outings if one.end is None]
        zone = self.sky.place.zone
        begun = midnight(self.now.astimezone(zone).date(), zone) if out else self.now
        if kept.out_before is None or kept.out_before[0] != begun:
            kept.out_before = (begun, counted_days(out, self.sky, self.holder, begun))
        today = counted_days(out, self.sky, self.holder, self.now, since=begun)
        return together(kept.past, kept.out_before[1], today)

    def stand(self, today: date) -> TwoClocks:
        """Return how it stands."""
        counted = self.counted.get(today, Counted())
        over = self._over(today, counted)
        stand = TwoClocks(
            holder=self.holder,
            today=today,
            started_on=self.began,
            by=counting_on(self.entries, today),
            rules=self.rules,
            sun=self._face(self.ramp, SUN, today, over=over),
            air=self._face(self.air, WIND, today, over=over),
            outdoor_ramp=self.air,
            counted=counted,
            by_day=self.counted,
            setbacks=self.setbacks,
            held=self.held,
            outings=self.outings,
            over=over,
        )
        return replace(self._with_plans(stand), on_the_way=self._on_the_way(stand))

    def _on_the_way(self, stand: TwoClocks) -> OnTheWay | None:
        """Return what goes on while it is out, so that a second passed need not be worked out anew."""
        if stand.outing is None:
            return None
        light, until = stand.outing.light, self.now + A_MINUTE
        coming = Outing("", self.holder, (Stretch(light, self.now, until),))
        given = counted_days([coming], self.sky, self.holder, until)
        a_minute = next(iter(given.values())) if len(given) == 1 else Counted()
        left = stand.sun.limit - stand.sun.minutes
        if light != SUN or stand.by == CLOCK or left <= 0:
            return OnTheWay(self.now, a_minute)
        sun = sun_of(self.season, stand.today)
        dark = sun[1] if sun is not None else None
        return OnTheWay(self.now, a_minute, due_at(self.sky, self.holder, self.now, left, stand.by, dark))

    def _with_plans(self, stand: TwoClocks) -> TwoClocks:
        first, states, horizon = max(stand.today, self.began), stand.states, timedelta(days=AHEAD_DAYS)
        if states.sun_settled and states.air_settled:
            first, states = first + ONE_DAY, BothStates(states.sun, states.air)
        limits = self.rules.limits
        ahead = project_both(
            stand.clocks, states, first, self._weather(stand), first + horizon, limits=limits
        )
        first_plan = project_both(stand.clocks, BothStates(), self.began, {}, self.began + horizon)
        return replace(stand, ahead=tuple(ahead), first_plan=tuple(first_plan))

    def _face(self, ramp: Climb, cause: str, today: date, *, over: bool) -> ClockFace:
        days = self._days(cause, today)
        past = [day for day in days if day.date < today]
        state = state_on(ramp, past, today)
        so_far = next((day for day in days if day.date == today), OutingDay(today, 0))
        limit = dose_at(ramp.on(today).doses, state.step)
        enough = so_far.setback is not None or so_far.minutes >= ENOUGH_SHARE * limit
        settled = self.began <= today and (over or enough)
        return ClockFace(
            ramp=ramp,
            days=tuple(replay(ramp, past)),
            state=state,
            minutes=so_far.minutes,
            limit=limit,
            settled=replay(ramp, [*past, so_far])[-1] if settled else None,
        )

    def _days(self, cause: str, today: date) -> list[OutingDay]:
        """Return the days told of up to today, and the first and yesterday in any case, in order."""
        seen = [one for one in self.setbacks if one.cause == cause]
        dates = {*self.counted, *(one.day for one in seen)}
        if self.began < today:
            dates |= {self.began, today - ONE_DAY}
        within = sorted(day for day in dates if self.began <= day <= today)
        return [self._day(day, cause, [one for one in seen if one.day == day]) for day in within]

    def _day(self, day: date, cause: str, seen: Sequence[SetbackSeen]) -> OutingDay:
        """Return a day as one clock sees it; of several setbacks the worst counts, from the first on."""
        counted = self.counted.get(day, Counted())
        minutes = self._minutes(counted, cause, day)
        shade = min(counted.shade, A_DAY_MINUTES) if cause == SUN else 0.0
        worst: Setback | None = next(
            (kind for kind in WORST_FIRST if any(one.what == kind for one in seen)), None
        )
        if worst is None:
            return OutingDay(day, minutes, shade_minutes=shade)
        until = min(self.now, *(one.at for one in seen))
        borne = counted_on(self.outings, self.sky, self.holder, day, until)
        return OutingDay(day, minutes, worst, min(minutes, self._minutes(borne, cause, day)), shade)

    def _minutes(self, counted: Counted, cause: str, day: date) -> float:
        return counted.outdoors if cause == WIND else counted.sun(counting_on(self.entries, day))

    def _over(self, today: date, counted: Counted) -> bool:
        """Whether nothing more can come of today: it is in, and the sun has set or it is kept in."""
        if open_outing(self.outings) is not None:
            return False
        sun = sun_of(self.season, today)
        after_sunset = sun is not None and self.now > sun[1]
        return after_sunset or (today in self.held and counted.outdoors == 0)

    def _weather(self, stand: TwoClocks) -> dict[date, DayWeather]:
        """Return the weather for the plan; once a holder went out, today's holds nothing back."""
        weather = forecast_from(self.season, stand.today)
        if open_outing(self.outings) is not None or stand.counted.outdoors > 0:
            weather.pop(stand.today, None)
        return weather
