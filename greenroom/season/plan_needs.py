"""What the plan needs to know of one variety: how long indoors, how warm a night, how much heat to ripen."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import date
from math import ceil

from greenroom.agronomy.ripening import Ripener
from greenroom.guide import Crop, Guide, Span
from greenroom.ledger.facts import PlanRules, Variety
from greenroom.season.crops import crop_of, pace_of
from greenroom.season.learning import Learned, pace_of_variety
from greenroom.season.packets import packets_of
from greenroom.season.ripe_learning import ripe_of_variety
from greenroom.season.ripening_heat import Heat, heat_of, stated_days
from greenroom.season.state import Season

USUAL_WEEKS = Span(6, 8)
"""Weeks from sowing to setting out where the guide names none: common practice, no source."""

ABOUT_WEEKS = 1.0
"""A single figure of weeks is read as so many more or less: a working rule of this program."""

USUAL_DAYS_UP = 10.0
"""Days to come up where the guide tells nothing: common practice, no source."""

TENDER_FLOOR_C = 10.0
"""The floor the plan's rules start with, that of peppers; hardier and tenderer crops go by their own."""


@dataclass(frozen=True, slots=True)
class Needs:
    """One variety as the plan takes it.

    ``days_up`` is when half of it is up at ``mix_c`` [d], own results brought in; ``best_days`` the
    guide's days at ``best_c``, the warmth it likes best; ``unfit`` says that none is known to come up in
    the mix as it is, so that the best is taken. ``weeks`` run from sowing to setting out, coming up and
    hardening included. ``days_to_ripe`` run from setting out as stated, None where nobody states
    them; ``ripe`` is the heat of that [°C·d] with own picks brought in, None where none were asked for.
    """

    variety: str
    name: str
    crop: str | None
    mix_c: float | None
    days_up: float
    best_days: float
    best_c: float | None
    unfit: bool
    pace: Learned
    weeks: Span
    weeks_known: bool
    hardening_days: int
    days_to_ready: int
    days_to_ripe: float | None
    ripe_on_label: bool
    heat: Heat
    floor_c: float
    killing_c: float
    run_nights: int
    ripe: Learned | None = None

    @property
    def longest_days(self) -> int:
        """Days from the earliest sensible sowing to setting out."""
        return self.days_to_ready + round((self.weeks.high - self.weeks.middle) * 7)

    @property
    def shortest_days(self) -> int:
        """Days from the latest sensible sowing to setting out."""
        return self.days_to_ready - round((self.weeks.middle - self.weeks.low) * 7)

    @property
    def heat_need(self) -> float | None:
        """Heat from setting out to the first ripe fruit [°C·d], or None."""
        if self.ripe is not None:
            return self.ripe.figure
        return None if self.days_to_ripe is None else self.days_to_ripe * self.heat.a_day

    @property
    def ripener(self) -> Ripener | None:
        """The variety as the odds are counted for it, or None where its need is not known."""
        if self.heat_need is None:
            return None
        return Ripener(
            self.heat_need,
            self.days_to_ready,
            self.floor_c,
            self.run_nights,
            self.killing_c,
            self.heat.base_c,
            self.heat.cap_c,
        )


def needs_of(season: Season, variety: Variety, today: date, rules: PlanRules) -> Needs:
    """Return what the plan needs to know of a variety, its own results brought in."""
    mix_c = mix_for(season, variety.variety)
    pace = pace_of_variety(season, variety.variety, today)
    needs = needs_as(season, variety, mix_c, pace, rules)
    return replace(needs, ripe=ripe_of_variety(season, variety.variety, today))


def needs_as(season: Season, variety: Variety, mix_c: float | None, pace: Learned, rules: PlanRules) -> Needs:
    """Return what the plan needs to know of a variety in mix of some warmth, at some pace of its own."""
    crop = crop_of(season.guide, variety.crop)
    here, best, best_c = season.memo(
        f"days up of {variety.crop} at {mix_c}",
        (),  # it rests on the guide alone
        lambda: _days_up(season.guide, variety.crop, crop, mix_c),
    )
    weeks, known = weeks_of(crop)
    days_up = (best if here is None else here) * pace.figure
    return Needs(
        variety=variety.variety,
        name=variety.name,
        crop=variety.crop,
        mix_c=mix_c,
        days_up=days_up,
        best_days=best,
        best_c=best_c,
        unfit=here is None,
        pace=pace,
        weeks=weeks,
        weeks_known=known,
        hardening_days=rules.hardening_days,
        days_to_ready=ready_after(weeks, days_up, best, rules.hardening_days),
        days_to_ripe=stated_days(variety, crop),
        ripe_on_label=variety.days_to_ripe is not None,
        heat=heat_of(crop),
        floor_c=floor_of(crop, rules),
        killing_c=killing_of(crop, rules),
        run_nights=rules.run_nights,
    )


def ready_after(weeks: Span, days_up: float, best_days: float, hardening_days: int) -> int:
    """Return the days from sowing to the first day a plant may be set out.

    The guide's weeks, which count from sowing in good warmth; what coming up takes longer than that is
    added. Never less than coming up and hardening take.
    """
    days = round(weeks.middle * 7 + days_up - best_days)
    return max(days, ceil(days_up) + hardening_days)


def weeks_of(crop: Crop | None) -> tuple[Span, bool]:
    """Return the weeks from sowing to setting out, and whether the guide names them."""
    if crop is None or crop.weeks_indoors is None:
        return USUAL_WEEKS, False
    span = crop.weeks_indoors.value
    if span.low < span.high:
        return span, True
    return Span(max(0.0, span.low - ABOUT_WEEKS), span.high + ABOUT_WEEKS), True


def floor_of(crop: Crop | None, rules: PlanRules) -> float:
    """Return the nights a crop waits for [°C]: the rules' floor, or its own if it is hardier or tenderer."""
    night = crop.night_floor_c.value if crop and crop.night_floor_c else TENDER_FLOOR_C
    if night < TENDER_FLOOR_C:
        return min(night, rules.floor_c)
    return max(night, rules.floor_c) if night > TENDER_FLOOR_C else rules.floor_c


def killing_of(crop: Crop | None, rules: PlanRules) -> float:
    """Return the night that ends a crop's season [°C]: the rules', or its own if it bears more."""
    frost = crop.frost_floor_c.value if crop and crop.frost_floor_c else rules.killing_c
    return min(frost, rules.killing_c)


def mix_for(season: Season, variety: str) -> float | None:
    """Return the temperature of the mix a variety comes up in [°C], or None where none is known.

    That of the tray it was sown in last, else of the tray placed last that has one.
    """
    own = (key.holder for packet in packets_of(season, variety) for key in season.spots_sown(packet))
    sown = _known_mix(season, dict.fromkeys(own))
    return sown if sown is not None else _known_mix(season, (tray.key for tray in season.holders("tray")))


def _known_mix(season: Season, holders: Iterable[str]) -> float | None:
    known = [mix_c for key in holders if (mix_c := season.holder(key).mix_c) is not None]
    return known[-1] if known else None


def _days_up(
    guide: Guide, key: str | None, crop: Crop | None, mix_c: float | None
) -> tuple[float | None, float, float | None]:
    """Return the days to come up in the mix (None if none is known to), in the best warmth, and that."""
    span = crop.germination_best_c if crop else None
    best_c = span.value.middle if span else None
    pace = pace_of(guide, key, best_c)
    emergence = crop.emergence_days if crop else None
    best = pace.days if pace else (emergence.value.middle if emergence else USUAL_DAYS_UP)
    if mix_c is None or (pace is None and best_c is None):
        return best, best, best_c
    here = pace_of(guide, key, mix_c)
    return (here.days if here else None), best, best_c
