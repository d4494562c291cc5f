"""The light on each shelf and the warmth of the mats: what it adds up to, and what the crops ask for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from greenroom.agronomy.sunlight import LUX_PER_PPFD, daily_light_integral, ppfd_from_lux
from greenroom.guide import Cited, Guide
from greenroom.ledger.facts import LampMeasured
from greenroom.season.crops import cite, crop_of, crop_words, pace_of
from greenroom.season.packets import folded, packet_view
from greenroom.season.state import Season
from greenroom.season.temperatures import SayC, in_celsius
from greenroom.season.why import Why
from greenroom.speech import figure, tr

USUAL_DLI_MOL_M2 = 13.0
"""Light asked for where nobody knows what stands there: that of vegetable plugs, Garcia and Lopez 2020."""

LONGEST_HOURS = 16.0
"""Hours of light up to which lamps are lengthened rather than brought nearer; 24 h did worse than 20 in
peppers (Demers et al. 1998)."""

MATS_C = (15.0, 18.0, 20.0, 22.0, 25.0, 28.0, 30.0, 35.0)
"""Temperatures of the table of days to come up [°C]."""

THIMIJAN = tr("Thimijan, R. W. and Heins, R. D. 1983. HortScience 18:818-822 (lux to photosynthetic light).")
WHITE_LED = tr("Lux of white LEDs lie between 65 and 75 for each µmol by colour (70 is from memory).")


LAMP_WORDS = {
    "sun": tr("sun", sense="as a source of light"),
    "white led": tr("white led"),
    "cool white fluorescent": tr("cool white fluorescent"),
    "metal halide": tr("metal halide"),
    "high pressure sodium": tr("high pressure sodium"),
    "incandescent": tr("incandescent"),
}


@dataclass(frozen=True, slots=True)
class ShelfLight:
    """The light on one shelf.

    ``ppfd`` [µmol m⁻² s⁻¹] was measured, or follows from lux; ``dli`` [mol m⁻² d⁻¹] is what it adds up to
    in ``hours`` a day. ``target`` [mol m⁻² d⁻¹] is the most that what stands there asks for; ``hours_needed``
    would give it, None where the lamp gives nothing; ``ppfd_needed`` would give it in 16 hours.
    """

    place: str
    ppfd: float
    hours: float
    dli: float
    target: float
    hours_needed: float | None
    ppfd_needed: float
    why: Why

    @property
    def enough(self) -> bool:
        """Whether the shelf gives what is asked for."""
        return self.dli >= self.target

    @property
    def words(self) -> str:
        """What to do about it, in a sentence."""
        if self.enough:
            return tr("{light:.1f} mol a day, enough.", light=self.dli)
        if self.hours_needed is not None and self.hours_needed <= LONGEST_HOURS:
            return tr(
                "{light:.1f} mol a day; {hours:.1f} hours would give {target:g}.",
                light=self.dli,
                hours=self.hours_needed,
                target=self.target,
            )
        return tr(
            "{light:.1f} mol a day; too weak for {target:g} in {hours:g} hours: bring the lamp nearer until "
            "it gives {needed:.0f} µmol.",
            light=self.dli,
            target=self.target,
            hours=LONGEST_HOURS,
            needed=self.ppfd_needed,
        )


def shelf_lights(season: Season) -> list[ShelfLight]:
    """Return the light of each shelf as measured last, in the order the shelves were first measured."""
    latest: dict[str, LampMeasured] = {}
    for fact in season.facts(LampMeasured):
        latest[folded(fact.place)] = fact
    return [_shelf_light(season, fact) for fact in latest.values()]


def light_at(season: Season, place: str) -> ShelfLight | None:
    """Return the light where a holder stands, or None where it was not measured."""
    found = [one for one in shelf_lights(season) if folded(one.place) == folded(place)]
    return found[0] if found else None


def lamp_words(lamp: str) -> str:
    """Return a kind of lamp as the grower reads it."""
    return LAMP_WORDS.get(lamp, lamp)


def hours_for(target: float, ppfd: float) -> float | None:
    """Return the hours a day that give a daily light [mol m⁻² d⁻¹]; None without light or beyond 24."""
    if ppfd <= 0:
        return None
    hours = target / daily_light_integral(ppfd, 1.0)
    return hours if hours <= 24 else None


def emergence_table(
    guide: Guide, crops: Iterable[str | None], celsius: Sequence[float] = MATS_C
) -> dict[str | None, tuple[float | None, ...]]:
    """Return for each crop the days to come up in mix of each temperature [d]; None where not known."""
    return {key: tuple(_days(guide, key, one) for one in celsius) for key in crops}


def emergence_why(
    guide: Guide, crop: str | None, celsius: Sequence[float] = MATS_C, say_c: SayC = in_celsius
) -> Why:
    """Return where a crop's row of the table of days to come up is from."""
    paces = [(one, pace_of(guide, crop, one)) for one in celsius]
    told = [
        (say_c(one), tr("none known to come up") if pace is None else tr("day {day:.0f}", day=pace.days))
        for one, pace in paces
    ]
    known = [pace for _, pace in paces if pace is not None]
    rule = known[0].rule if known else tr("The guide tells nothing of how long this crop takes to come up.")
    sources = tuple(dict.fromkeys(source for pace in known for source in pace.sources))
    return Why(tr("Half up, by warmth: {crop}", crop=crop_words(guide, crop)), rule, tuple(told), sources)


def _shelf_light(season: Season, fact: LampMeasured) -> ShelfLight:
    ppfd = fact.ppfd if fact.ppfd is not None else float(ppfd_from_lux(fact.lux or 0.0, fact.lamp))
    dli = float(daily_light_integral(ppfd, fact.hours))
    target, asked = _target(season, fact.place)
    needed = target / daily_light_integral(1.0, LONGEST_HOURS)
    return ShelfLight(
        fact.place,
        ppfd,
        fact.hours,
        dli,
        target,
        hours_for(target, ppfd),
        needed,
        _why(fact, ppfd, dli, target, asked),
    )


def _target(season: Season, place: str) -> tuple[float, tuple[Cited[float], ...]]:
    """Return the most light that what stands at a place asks for, and whose word that is."""
    keys = {
        view.crop
        for holder in season.holders()
        if folded(holder.place) == folded(place)
        for packet in {spot.packet for spot in season.spots(holder.key) if spot.packet and not spot.free}
        if (view := packet_view(season, packet)) is not None
    }
    crops = [crop for key in keys if (crop := crop_of(season.guide, key)) is not None]
    asked = [crop.dli_least_mol_m2 for crop in crops if crop.dli_least_mol_m2 is not None]
    if not asked:
        return USUAL_DLI_MOL_M2, ()
    most = max(one.value for one in asked)
    return most, tuple(one for one in asked if one.value == most)


def _why(fact: LampMeasured, ppfd: float, dli: float, target: float, asked: tuple[Cited[float], ...]) -> Why:
    told = []
    if fact.ppfd is None:
        told.append((tr("measured"), tr("{lux:,.0f} lux, {lamp}", lux=fact.lux, lamp=lamp_words(fact.lamp))))
        told.append((tr("lux for each µmol"), figure(LUX_PER_PPFD[fact.lamp], "g")))
    told += [
        (tr("light at the leaves"), f"{figure(ppfd, '.0f')} µmol m⁻² s⁻¹"),
        (tr("lit"), tr("{hours:g} hours a day", hours=fact.hours)),
        (tr("asked for by what stands there"), tr("{light:g} mol m⁻² a day", light=target)),
    ]
    rule = tr(
        "Light of a day = light of a second × 3,600 × hours, in mol: counted against what the crops ask."
    )
    sources = [cite(one) for one in asked] or ["Garcia, C. and Lopez, R. G. 2020. HortScience 55:804."]
    if fact.ppfd is None:
        sources.append(WHITE_LED if fact.lamp == "white led" else THIMIJAN)
    return Why(tr("{light:.1f} mol m⁻² a day", light=dli), rule, tuple(told), tuple(dict.fromkeys(sources)))


def _days(guide: Guide, key: str | None, celsius: float) -> float | None:
    pace = pace_of(guide, key, celsius)
    return pace.days if pace else None
