"""The numbers a kind of plant hardens by: its ramp, the weather that keeps it in, and what is bad for it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from greenroom.agronomy.hardening import HoldLimits, OutdoorRamp, Ramp
from greenroom.guide import Cited, Crop, Span
from greenroom.ledger.facts import (
    HolderMade,
    Lost,
    Moved,
    Packet,
    RampSet,
    Sown,
    Sprouted,
    Variety,
)
from greenroom.season.crops import TAKEN_FOR, cite, crop_of
from greenroom.season.hardening_words import gust_words, rain_words, temperature_words
from greenroom.season.packets import packet_view
from greenroom.season.place import Place
from greenroom.season.proposal import Proposal
from greenroom.season.state import Season
from greenroom.season.why import Why
from greenroom.season.within import within
from greenroom.speech import many, tr

OWN_START_MINUTES = 20.0
OWN_FULL_MINUTES = 600.0
OWN_OUTINGS = 11
OWN_AIR_START_MINUTES = 120.0
OWN_AIR_STEP_MINUTES = 60.0
LEAST_RAIN_MM = 0.1
"""The least a gauge shows; a limit of 0 mm means any rain at all."""
TENDER_C = 10.0
"""A crop that chills at this or warmer is tender: sheltered first. Michigan State University, of peppers."""
USUAL_NIGHT_FLOOR_C = 10.0
"""Where the guide gives no night: that of peppers and tomatoes, University of Minnesota Extension."""
USUAL_FROST_C = 0.0

OWN_RULE = tr(
    "The working numbers are this program's own: 20 minutes of direct sun to 600 in 11 "
    "outings, and outdoors, shade and sun together, 120 minutes to as many in steps of "
    "60. They are moved into the guide's range where they lie outside it."
)


@dataclass(frozen=True, slots=True)
class RampRules:
    """How one kind of plant, or a holder of several, is hardened.

    ``limits.cold_c`` is the floor of the day, ``night_floor_c`` that of the night, ``chill_c`` where harm
    begins (None: not known), ``frost_c`` where frost kills. ``bearable_5_c_days`` is how many days at
    5 °C it bears. ``chosen`` tells whether the grower set the ramp.
    """

    ramp: Ramp
    air: OutdoorRamp
    limits: HoldLimits
    night_floor_c: float = USUAL_NIGHT_FLOOR_C
    chill_c: float | None = None
    frost_c: float = USUAL_FROST_C
    bearable_5_c_days: float | None = None
    tender: bool = True
    chosen: bool = False
    crops: tuple[str, ...] = ()


def rules_of(season: Season, crop: str | None, sets: Sequence[RampSet] | None = None) -> RampRules:
    """Return the rules of one crop: the grower's own for it or its kin, else the guide's and our own.

    ``sets`` are the ramps taken as set by the grower, in order, in place of those that are.
    """
    entry = crop_of(season.guide, crop) or season.guide.entries[TAKEN_FOR]
    chosen = _chosen(season, entry, season.facts(RampSet) if sets is None else sets)
    ramp, limits = _own(entry) if chosen is None else _set(chosen)
    return RampRules(
        ramp=ramp,
        air=_air(entry, ramp),
        limits=limits,
        night_floor_c=_value(entry.night_floor_c, USUAL_NIGHT_FLOOR_C),
        chill_c=entry.chill_c.value if entry.chill_c else None,
        frost_c=_value(entry.frost_floor_c, USUAL_FROST_C),
        bearable_5_c_days=entry.days_bearable_at_5_c.value if entry.days_bearable_at_5_c else None,
        tender=_tender(entry),
        chosen=chosen is not None,
        crops=(entry.key,),
    )


def rules_of_holder(season: Season, holder: str, sets: Sequence[RampSet] | None = None) -> RampRules:
    """Return the rules of what stands in a holder: of several crops the most careful of each number."""
    crops = crops_in(season, holder) or (None,)
    return careful(rules_of(season, crop, sets) for crop in crops)


def sets_if(season: Season, proposal: Proposal) -> list[RampSet]:
    """Return the ramps set by the grower if a proposal were carried out."""
    kept = [one for one in season.facts(RampSet) if one.id not in proposal.strike]
    return kept + [fact for fact in proposal.record if isinstance(fact, RampSet)]


def crops_in(season: Season, holder: str) -> tuple[str | None, ...]:
    """Return the crops of the living seedlings of a holder, each once; None where nobody said what it is."""
    kinds = (Sown, Sprouted, Lost, Moved, Packet, Variety, HolderMade)
    return season.memo(f"crops in {holder}", kinds, lambda: _crops_in(season, holder))


def careful(rules: Iterable[RampRules]) -> RampRules:
    """Return the rules that spare the tenderest of several crops."""
    first, *others = rules
    for other in others:
        first = _both(first, other)
    return first


def rules_why(season: Season, crop: str | None, place: Place) -> Why:
    """Return where the numbers of a crop's ramp come from."""
    rules = rules_of(season, crop)
    entry = crop_of(season.guide, crop) or season.guide.entries[TAKEN_FOR]
    ramp, limits = rules.ramp, rules.limits
    inputs = (
        (
            tr("first and last outing"),
            tr(
                "{first:.0f} and {last:.0f} minutes of sun",
                first=ramp.start_minutes,
                last=ramp.full_minutes,
            ),
        ),
        (tr("outings"), str(ramp.outings)),
        (tr("outdoors on the first day"), many(rules.air.doses[0], "minute")),
        (tr("kept in below"), temperature_words(limits.cold_c, place)),
        (tr("kept in from gusts of"), gust_words(limits.gust_m_s, place)),
        (tr("kept in from rain of"), rain_words(limits.rain_mm, place)),
    )
    cited = (
        entry.harden_outings,
        entry.harden_sun_start_minutes,
        entry.harden_full_minutes,
        entry.harden_shade_start_minutes,
        entry.harden_floor_c,
        entry.chill_c,
    )
    sources = tuple(dict.fromkeys(cite(value) for value in cited if value is not None))
    rule = (
        tr("The numbers are the grower's own.")
        if rules.chosen
        else f"{OWN_RULE} {_floor_words(entry, place)}"
    )
    return Why(tr("The ramp of {crop}", crop=within(entry.name)), rule, inputs, sources)


def _floor_words(entry: Crop, place: Place) -> str:
    parts = []
    if entry.harden_floor_c is not None:
        parts.append(
            tr(
                "harden at {temperature} or warmer",
                temperature=temperature_words(entry.harden_floor_c.value, place),
            )
        )
    if entry.chill_c is not None:
        parts.append(
            tr(
                "leaves are chilled below {temperature}",
                temperature=temperature_words(entry.chill_c.value, place),
            )
        )
    told = parts[0] if parts else ""
    if len(parts) > 1:
        told = tr("{first} and {last}", first=parts[0], last=parts[1])
    return tr("The guide says: {told}; the warmer of the two is its floor.", told=told) if told else ""


def _chosen(season: Season, entry: Crop, sets: Sequence[RampSet]) -> RampSet | None:
    """Return the ramp set for the crop, or else for the nearest it inherits from."""
    last = {fact.crop: fact for fact in sets}
    return next((last[key] for key in season.guide.lineage(entry.key) if key in last), None)


def _set(fact: RampSet) -> tuple[Ramp, HoldLimits]:
    limits = HoldLimits(fact.cold_c, fact.gust_ms, max(LEAST_RAIN_MM, fact.rain_mm))
    return Ramp(fact.start_minutes, fact.full_minutes, fact.outings), limits


def _own(entry: Crop) -> tuple[Ramp, HoldLimits]:
    full = _within(OWN_FULL_MINUTES, entry.harden_full_minutes)
    outings = round(_within(OWN_OUTINGS, entry.harden_outings))
    usual = HoldLimits()
    known = [value.value for value in (entry.harden_floor_c, entry.chill_c) if value is not None]
    floor = max(known) if known else usual.cold_c
    return Ramp(OWN_START_MINUTES, full, outings), HoldLimits(floor, usual.gust_m_s, usual.rain_mm)


def _air(entry: Crop, ramp: Ramp) -> OutdoorRamp:
    start = _within(OWN_AIR_START_MINUTES, entry.harden_shade_start_minutes)
    step = _within(OWN_AIR_STEP_MINUTES, entry.harden_shade_step_minutes)
    return OutdoorRamp(min(start, ramp.full_minutes), step, ramp.full_minutes)


def _tender(entry: Crop) -> bool:
    return entry.chill_c is not None and entry.chill_c.value >= TENDER_C


def _within(own: float, told: Cited[Span] | None) -> float:
    return own if told is None else min(max(own, told.value.low), told.value.high)


def _value(told: Cited[float] | None, usual: float) -> float:
    return usual if told is None else told.value


def _crops_in(season: Season, holder: str) -> tuple[str | None, ...]:
    packets = dict.fromkeys(spot.packet for spot in season.spots(holder) if spot.up > 0 and spot.packet)
    views = [view for key in packets if (view := packet_view(season, key)) is not None]
    return tuple(dict.fromkeys(view.crop for view in views))


def _both(one: RampRules, other: RampRules) -> RampRules:
    ramps = one.ramp, other.ramp
    ramp = Ramp(
        min(ramp.start_minutes for ramp in ramps),
        max(ramp.full_minutes for ramp in ramps),
        max(ramp.outings for ramp in ramps),
    )
    start = min(one.air.start_minutes, other.air.start_minutes)
    chills = [rules.chill_c for rules in (one, other) if rules.chill_c is not None]
    bearable = [rules.bearable_5_c_days for rules in (one, other) if rules.bearable_5_c_days is not None]
    return RampRules(
        ramp=ramp,
        air=OutdoorRamp(start, min(one.air.step_minutes, other.air.step_minutes), ramp.full_minutes),
        limits=one.limits.strictest(other.limits),
        night_floor_c=max(one.night_floor_c, other.night_floor_c),
        chill_c=max(chills, default=None),
        frost_c=max(one.frost_c, other.frost_c),
        bearable_5_c_days=min(bearable, default=None),
        tender=one.tender or other.tender,
        chosen=one.chosen or other.chosen,
        crops=tuple(dict.fromkeys(one.crops + other.crops)),
    )
