"""Choosing a crop's ramp: what is allowed, what it would do to each tray that has begun, and the act."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime

from greenroom.agronomy.hardening import FEWEST_OUTINGS, MOST_OUTINGS, HoldLimits, Ramp
from greenroom.ledger.facts import HardeningStarted, RampSet
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.crops import TAKEN_FOR, crop_of
from greenroom.season.deeds_outdoors import clear_ramp, set_ramp
from greenroom.season.hardening import going_out
from greenroom.season.hardening_words import (
    gust_words,
    rain_words,
    ready_day_words,
    temperature_words,
)
from greenroom.season.place import Place, place_of
from greenroom.season.proposal import Proposal, RefusedError
from greenroom.season.ramp_rules import LEAST_RAIN_MM, RampRules, crops_in, rules_of, rules_of_holder, sets_if
from greenroom.season.state import Season
from greenroom.season.two_clocks import two_clocks, two_clocks_if
from greenroom.season.within import within
from greenroom.speech import tr, trn

LEAST_MINUTES, MOST_MINUTES = 5, 960
COLD_C, GUST_MS, RAIN_MM = (-5.0, 25.0), (1.0, 40.0), (0.0, 200.0)


@dataclass(frozen=True, slots=True)
class Numbers:
    """The numbers of a ramp as a grower chooses them: minutes of sun, outings, and what keeps it in."""

    start_minutes: float
    full_minutes: float
    outings: int
    cold_c: float
    gust_ms: float
    rain_mm: float

    @classmethod
    def of(cls, rules: RampRules) -> Numbers:
        """Return those of some rules."""
        ramp, limits = rules.ramp, rules.limits
        gates = limits.cold_c, limits.gust_m_s, limits.rain_mm
        return cls(ramp.start_minutes, ramp.full_minutes, ramp.outings, *gates)


@dataclass(frozen=True, slots=True)
class Effect:
    """A holder of the crop before and after; ``minutes`` are of sun today, 0 where it is kept in."""

    holder: str
    name: str
    before: TwoClocks
    after: TwoClocks

    @property
    def ready(self) -> tuple[date | None, date | None]:
        """The day ready, before and after."""
        return self.before.ready_on, self.after.ready_on

    @property
    def minutes(self) -> tuple[int, int]:
        """Minutes of sun today, before and after."""
        return minutes_today(self.before), minutes_today(self.after)


def choose_ramp(
    season: Season, crop: str, numbers: Numbers, today: date, now: datetime, *, begun: bool = True
) -> Proposal:
    """Set the ramp of a crop, and of its holders that have ``begun`` and are not done, as one act.

    Numbers that cannot be are refused. Nothing is proposed where all stays as it is.
    """
    refuse_impossible(numbers, place_of(season))
    name = within(season.guide.entries[crop].name)
    act = Proposal(tr("set the ramp of {crop}", crop=name))
    if numbers != Numbers.of(rules_of(season, crop)):
        ramp = Ramp(numbers.start_minutes, numbers.full_minutes, numbers.outings)
        limits = HoldLimits(numbers.cold_c, numbers.gust_ms, max(LEAST_RAIN_MM, numbers.rain_mm))
        act = set_ramp(season, crop, ramp, limits, today)
    return _with_begun(season, crop, act, today, now) if begun else act


def guides_ramp(season: Season, crop: str, today: date, now: datetime, *, begun: bool = True) -> Proposal:
    """Go back to the guide's numbers, also for the holders that have ``begun`` and are not done."""
    act = replace(
        clear_ramp(season, crop),
        name=tr("guide's ramp for {crop}", crop=within(season.guide.entries[crop].name)),
    )
    return _with_begun(season, crop, act, today, now) if begun else act


def set_for(season: Season, crop: str) -> bool:
    """Whether the grower set a ramp for this very crop."""
    return any(one.crop == crop for one in season.facts(RampSet))


def refuse_impossible(numbers: Numbers, place: Place) -> None:
    """Refuse numbers that no ramp can have, in one sentence."""
    start, full = numbers.start_minutes, numbers.full_minutes
    if not LEAST_MINUTES <= start < full <= MOST_MINUTES:
        raise RefusedError(
            tr(
                "A ramp from {start:.0f} to {full:.0f} minutes cannot be: it begins at "
                "{least} or more, ends higher, and at {most} at most.",
                start=start,
                full=full,
                least=LEAST_MINUTES,
                most=MOST_MINUTES,
            )
        )
    if not FEWEST_OUTINGS <= numbers.outings <= MOST_OUTINGS:
        raise RefusedError(
            tr(
                "A ramp of {outings} outings cannot be: {fewest} to {most} are allowed.",
                outings=numbers.outings,
                fewest=FEWEST_OUTINGS,
                most=MOST_OUTINGS,
            )
        )
    for what, value, (least, most), words in (
        (tr("A cold floor"), numbers.cold_c, COLD_C, temperature_words),
        (tr("A gust"), numbers.gust_ms, GUST_MS, gust_words),
        (tr("Rain"), numbers.rain_mm, RAIN_MM, rain_words),
    ):
        if not least <= value <= most:
            raise RefusedError(
                tr(
                    "{what} of {value} cannot keep trays in: {least} to {most} is allowed.",
                    what=what,
                    value=words(value, place),
                    least=words(least, place),
                    most=words(most, place),
                )
            )


def ramp_effects(season: Season, crop: str, proposal: Proposal, today: date, now: datetime) -> list[Effect]:
    """Return what a proposal would do to each holder of a crop that is being hardened."""
    return [
        Effect(key, season.holder(key).name, before, after)
        for key, before in _begun(season, crop, today, now)
        if (after := two_clocks_if(season, key, proposal, today, now)) is not None
    ]


def rules_if(season: Season, crop: str, proposal: Proposal) -> RampRules:
    """Return the rules of a crop if a proposal were carried out."""
    return rules_of(season, crop, sets_if(season, proposal))


def effect_words(effect: Effect) -> str:
    """Return what changes for one holder."""
    (old, new), (was, becomes) = effect.ready, effect.minutes
    ready = ready_day_words(new)
    if old != new:
        ready = tr("{old} becomes {new}", old=ready_day_words(old), new=ready)
    today = (
        _minutes(becomes)
        if was == becomes
        else tr("{old} becomes {new}", old=_minutes(was), new=_minutes(becomes))
    )
    return tr("{name}: ready {ready}; today {today}.", name=effect.name, ready=ready, today=today)


def minutes_today(stand: TwoClocks) -> int:
    """Return the minutes of sun today asks for; 0 on a day of rest or kept in by the weather."""
    plan = next((one for one in stand.ahead if one.date == stand.today), None)
    held = plan is not None and plan.verdict == "hold"
    return 0 if stand.resting or held else stand.sun.limit


def crops_on_hand(season: Season, first: str = "") -> list[str]:
    """Return the guide's keys of what lives here and what it descends from.

    Those of the holder ``first`` come before the others that are being hardened, then the rest.
    """
    out = sorted(going_out(season), key=lambda key: key != first)
    others = [one.key for one in season.holders() if one.key not in out and one.form != "bed"]
    living = dict.fromkeys(_entry(season, crop) for key in (*out, *others) for crop in crops_in(season, key))
    found = (kin for crop in living for kin in season.guide.lineage(crop))
    return list(dict.fromkeys(found)) or [TAKEN_FOR]


def _entry(season: Season, crop: str | None) -> str:
    entry = crop_of(season.guide, crop)
    return TAKEN_FOR if entry is None else entry.key


def _begun(season: Season, crop: str, today: date, now: datetime) -> Iterator[tuple[str, TwoClocks]]:
    """Yield the holders in which a crop, or one of its kin, is being hardened, and how they stand."""
    for key in going_out(season):
        crops = crops_in(season, key) or (None,)
        kin = (season.guide.lineage(_entry(season, one)) for one in crops)
        if any(crop in lineage for lineage in kin):
            stand = two_clocks(season, key, today, now)
            if stand is not None:
                yield key, stand


def _with_begun(season: Season, crop: str, act: Proposal, today: date, now: datetime) -> Proposal:
    """Let the holders that have begun go on by the numbers an act sets, or that are set already."""
    sets = sets_if(season, act)
    record, strike = list(act.record), list(act.strike)
    changed = 0
    for key, stand in _begun(season, crop, today, now):
        ramp, started = rules_of_holder(season, key, sets).ramp, _started(season, key)
        numbers = ramp.start_minutes, ramp.full_minutes, ramp.outings
        if stand.hardened or numbers == (started.start_minutes, started.full_minutes, started.outings):
            continue
        start, full, outings = numbers
        record.append(
            HardeningStarted(
                day=started.day, holder=key, start_minutes=start, full_minutes=full, outings=outings
            )
        )
        strike.append(started.id)
        changed += 1
    name = act.name
    if changed:
        name = trn("{act}, {n} holder with it", "{act}, {n} holders with it", changed, act=act.name)
    return Proposal(name, tuple(record), tuple(strike))


def _started(season: Season, holder: str) -> HardeningStarted:
    facts: Iterable[object] = (entry.fact for entry in season.holder_facts(holder))
    return [fact for fact in facts if isinstance(fact, HardeningStarted)][-1]


def _minutes(minutes: int) -> str:
    return tr("{minutes} min of sun", minutes=minutes) if minutes else tr("in", sense="not outdoors")
