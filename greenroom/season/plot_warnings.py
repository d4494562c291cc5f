"""What to mind about the plants on the plot: shade of taller ones, distance, pots, hours of sun."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations
from math import hypot

from greenroom.season.crops import cite
from greenroom.season.plot import Plot
from greenroom.season.plot_plants import CM, Plant
from greenroom.season.plot_sun import FULL_SUN_H, SUN_WORDS_FROM, PlantSun, sun_word
from greenroom.season.spots import SpotKey
from greenroom.season.why import Why
from greenroom.speech import figure, many, tr

SHADE_WORTH_SAYING_H = 1.0
NEARLY_M = 0.005
OVER_CM = 100

POLE_FROM = (
    tr(
        "Oregon State University Extension; Louisiana State University AgCenter: rows may "
        "run either way, taller crops stand on the side of the pole."
    ),
)
SHADE_RULE = tr(
    "Each plant counts as a box as tall as the middle of the guide's range and as wide "
    "as the least distance it asks for; the sun is followed through the day, and what is "
    "lost is judged at the top of the plant in the shade. An hour or more lost is told."
)
SPACING_RULE = tr(
    "Two plants should stand as far apart as the mean of the least distances that the "
    "guide gives for the two. Closer ones shade each other and stay wet longer after "
    "rain."
)
POT_RULE = tr("The pot should hold at least the least that the guide gives for the kind.")
SUN_RULE = tr(
    "Direct sun on the day shown, under a sky without cloud, with all plants full grown, "
    "judged at the plant's top."
)


@dataclass(frozen=True, slots=True)
class Warn:
    """One thing to mind: its words, why, and the positions it speaks of."""

    kind: str
    words: str
    why: Why
    spots: tuple[SpotKey, ...]


def warnings(plot: Plot, suns: Sequence[PlantSun], *, southern: bool) -> list[Warn]:
    """Return all that is to mind about the plants that stand on the plot."""
    plants = [sun.plant for sun in suns]
    return [
        *shade_warnings(suns, southern=southern),
        *spacing_warnings(plot, plants),
        *pot_warnings(plot, plants),
        *sun_warnings(suns),
    ]


def shade_warnings(suns: Sequence[PlantSun], *, southern: bool) -> list[Warn]:
    """Return which taller plants take an hour or more from lower ones, kind by kind."""
    by_spot = {sun.plant.spot: sun.plant for sun in suns}
    worst: dict[tuple[str, str], list[tuple[float, Plant, Plant]]] = defaultdict(list)
    for sun in suns:
        for taken in sun.taken:
            tall = by_spot.get(taken.by) if isinstance(taken.by, SpotKey) else None
            if tall is not None and taken.hours >= SHADE_WORTH_SAYING_H:
                worst[tall.name, sun.plant.name].append((taken.hours, tall, sun.plant))
    return [_shade(pairs, southern=southern) for pairs in worst.values()]


def spacing_warnings(plot: Plot, plants: Sequence[Plant]) -> list[Warn]:
    """Return which plants stand closer than the guide asks for, bed by bed and kind by kind."""
    close: dict[tuple[str, frozenset[str]], list[tuple[float, Plant, Plant]]] = defaultdict(list)
    for one, other in combinations([plant for plant in plants if _asked_m(plant) is not None], 2):
        apart = hypot(one.point[0] - other.point[0], one.point[1] - other.point[1])
        if apart + NEARLY_M < between_m(one, other):
            close[one.spot.holder, frozenset((one.name, other.name))].append((apart, one, other))
    return [_spacing(plot, pairs) for pairs in close.values()]


def pot_warnings(plot: Plot, plants: Iterable[Plant]) -> list[Warn]:
    """Return which plants stand in pots smaller than the guide asks for."""
    small: dict[tuple[str, str], list[Plant]] = defaultdict(list)
    for plant in plants:
        bed = plot.bed(plant.spot.holder)
        asked = plant.crop.final_pot_l if plant.crop else None
        if bed is not None and bed.pot_litres is not None and asked and bed.pot_litres < asked.value.low:
            small[bed.key, plant.name].append(plant)
    return [_pot(plot, found) for found in small.values()]


def sun_warnings(suns: Iterable[PlantSun]) -> list[Warn]:
    """Return which plants get less than six hours of direct sun on the day shown."""
    dim: dict[str, list[PlantSun]] = defaultdict(list)
    for sun in suns:
        if sun.hours.day < FULL_SUN_H:
            dim[sun.plant.name].append(sun)
    return [_dim(found) for found in dim.values()]


def between_m(one: Plant, other: Plant) -> float:
    """Return how far apart two plants should stand; 0 where the guide does not tell."""
    asked = [metres for metres in (_asked_m(one), _asked_m(other)) if metres is not None]
    return sum(asked) / len(asked) if asked else 0.0


def _asked_m(plant: Plant) -> float | None:
    spacing = plant.crop.spacing_cm if plant.crop else None
    return None if spacing is None else spacing.value.low * CM


def _shade(pairs: list[tuple[float, Plant, Plant]], *, southern: bool) -> Warn:
    hours, tall, low = max(pairs, key=lambda pair: pair[0])
    words = tr(
        "{tall} at {tall_spot} takes {hours:.1f} h of sun from {low} at {low_spot}",
        tall=tall.name,
        tall_spot=tall.spot.label,
        hours=hours,
        low=low.name,
        low_spot=low.spot.label,
    )
    side = tr("taller ones go to the south side.") if southern else tr("taller ones go to the north side.")
    words = f"{words}; {side}"
    inputs = (
        (tr("{plant}, grown", plant=tall.name), _height_words(tall)),
        (tr("{plant}, grown", plant=low.name), _height_words(low)),
        (tr("plants in such shade"), str(len({low.spot for _, _, low in pairs}))),
    )
    spots = dict.fromkeys(spot for _, one, other in pairs for spot in (one.spot, other.spot))
    why = Why(
        tr("{hours:.1f} h of sun lost", hours=hours),
        SHADE_RULE,
        inputs,
        (*POLE_FROM, *_cites((tall, low), "height_cm")),
    )
    return Warn("shade", words, why, tuple(spots))


def _spacing(plot: Plot, pairs: list[tuple[float, Plant, Plant]]) -> Warn:
    apart, one, other = min(pairs, key=lambda pair: pair[0])
    wanted = between_m(one, other)
    bed = plot.bed(one.spot.holder)
    names = one.name if one.name == other.name else tr("{first} and {last}", first=one.name, last=other.name)
    words = tr(
        "{bed}: {plants} stand {apart:.0f} cm apart, at {first_spot} and {last_spot}; {wanted:.0f} cm or "
        "more is asked for.",
        bed=bed.name if bed else tr("The bed"),
        plants=names,
        apart=apart * OVER_CM,
        first_spot=one.spot.label,
        last_spot=other.spot.label,
        wanted=wanted * OVER_CM,
    )
    inputs = (
        (tr("stand apart"), f"{figure(apart * OVER_CM, '.0f')} cm"),
        (tr("{plant} asks for", plant=one.name), _spacing_words(one)),
        (tr("{plant} asks for", plant=other.name), _spacing_words(other)),
        (tr("pairs as close"), str(len(pairs))),
    )
    spots = dict.fromkeys(spot for _, first, second in pairs for spot in (first.spot, second.spot))
    why = Why(
        tr("{distance:.0f} cm between them", distance=wanted * OVER_CM),
        SPACING_RULE,
        inputs,
        _cites((one, other), "spacing_cm"),
    )
    return Warn("spacing", words, why, tuple(spots))


def _pot(plot: Plot, found: list[Plant]) -> Warn:
    first = found[0]
    bed, asked = plot.bed(first.spot.holder), first.crop.final_pot_l if first.crop else None
    litres = bed.pot_litres if bed and bed.pot_litres else 0.0
    least = asked.value.low if asked else 0.0
    name = bed.name if bed else tr("The pots")
    words = tr(
        "{pots}: {plant} asks for {least:.0f} L or more and stands in {litres:g} L.",
        pots=name,
        plant=first.name,
        least=least,
        litres=litres,
    )
    inputs = (
        (tr("pot"), f"{figure(litres, 'g')} L"),
        (
            tr("{plant} asks for", plant=first.name),
            tr("{least:g} to {high:g} L", least=least, high=asked.value.high) if asked else tr("not known"),
        ),
        (tr("plants"), many(len(found), "plant")),
    )
    why = Why(tr("{least:.0f} L or more", least=least), POT_RULE, inputs, _cites((first,), "final_pot_l"))
    return Warn("pot", words, why, tuple(plant.spot for plant in found))


def _dim(found: list[PlantSun]) -> Warn:
    least = min(found, key=lambda sun: sun.hours.day)
    plant, hours = least.plant, least.hours
    words = tr(
        "{plant} at {spot} has {hours:.1f} h of sun: {light}.",
        plant=plant.name,
        spot=plant.spot.label,
        hours=hours.day,
        light=sun_word(hours.day),
    )
    inputs = [
        (
            tr("morning and afternoon"),
            tr("{morning:.1f} h and {afternoon:.1f} h", morning=hours.morning, afternoon=hours.afternoon),
        ),
        *((taken.name, tr("takes {hours:.1f} h", hours=taken.hours)) for taken in least.taken[:4]),
        (tr("plants with less than six hours"), str(len(found))),
    ]
    why = Why(tr("{hours:.1f} h of direct sun", hours=hours.day), SUN_RULE, tuple(inputs), (SUN_WORDS_FROM,))
    return Warn("sun", words, why, tuple(sun.plant.spot for sun in found))


def _height_words(plant: Plant) -> str:
    return tr("not known") if plant.height_m is None else f"{figure(plant.height_m * OVER_CM, '.0f')} cm"


def _spacing_words(plant: Plant) -> str:
    spacing = plant.crop.spacing_cm if plant.crop else None
    return (
        tr("not known")
        if spacing is None
        else tr("{low:g} to {high:g} cm", low=spacing.value.low, high=spacing.value.high)
    )


def _cites(plants: Iterable[Plant], value: str) -> tuple[str, ...]:
    cited = (getattr(plant.crop, value) for plant in plants if plant.crop is not None)
    return tuple(dict.fromkeys(cite(one) for one in cited if one is not None))
