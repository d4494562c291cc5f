"""Why plants may be set out or should wait: the records of the gate, and the reasons in words."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from greenroom.guide import Cited, Crop
from greenroom.ledger.facts import SoilFelt
from greenroom.season.citations import QUANTILES
from greenroom.season.clock_faces import TwoClocks
from greenroom.season.crops import cite
from greenroom.season.hardening_words import day_words, temperature_words
from greenroom.season.place import Place
from greenroom.season.why import Why
from greenroom.speech import tr

NIGHTS_SHOWN = 7
RUN_FROM = tr("The run of seven nights: common practice, no source.")
SOIL_FROM = tr(
    "University of Nebraska-Lincoln Extension 2023: measure 8 to 10 cm (3 to 4 in) deep, "
    "early in the morning."
)
NIGHTS_RULE = tr(
    "The first day from which seven nights running stay at or above the floor. Nights "
    "that the forecast tells count as it tells them; later ones count as warm from the "
    "day on which half of the years of the record had begun their first such run. One "
    "year in ten it is later than the late day."
)
SOIL_RULE = tr(
    "The soil must be as warm as the plant that asks for most, measured within the last "
    "seven days. Black mulch, a raised bed or a pot in the sun warm sooner than level "
    "ground; measure where they will stand."
)
HARDENED_RULE = tr(
    "A plant is hardened when the whole ramp is behind it: from the evening of its last "
    "outing on it may stay out, as far as nights and soil allow."
)


@dataclass(frozen=True, slots=True)
class Limit:
    """The greatest of what the crops ask for, and which asks for it."""

    value: float
    crop: Crop
    cited: Cited[Any]
    others: tuple[Cited[Any], ...] = ()


@dataclass(frozen=True, slots=True)
class Check:
    """One thing the gate asks: ``state`` is "open", "wait" or "unknown"; ``from_day`` when it opens."""

    name: str
    state: str
    words: str
    why: Why | None
    from_day: date | None


@dataclass(frozen=True, slots=True)
class Nights:
    """What is known of nights at or above a floor [°C].

    ``first`` is the first day of the run, ``usual`` and ``late`` the days by which half and nine in
    ten of ``years`` years had begun it, ``told`` the nights from today on that are forecast.
    """

    floor_c: float
    first: date | None
    usual: date | None
    late: date | None
    years: int
    told: tuple[tuple[date, float], ...] = ()


def degrees(celsius: float, place: Place) -> str:
    """Return a temperature in the grower's unit, to a tenth where it has one."""
    return temperature_words(celsius, place, 1)


def nights_why(found: Nights, limit: Limit, today: date, place: Place) -> Why:
    """Return why the nights are, or are not yet, warm enough."""
    floor = degrees(found.floor_c, place)
    inputs = [
        (tr("asks for the warmest nights"), tr("{crop}, {floor} or more", crop=limit.crop.name, floor=floor))
    ]
    for day, low in found.told[:NIGHTS_SHOWN]:
        inputs.append((tr("night to {day}", day=day_words(day)), _against(low, found.floor_c, place)))
    if found.usual is not None and found.late is not None:
        inputs.append(
            (tr("half of {years} years", years=found.years), tr("by {day}", day=day_words(found.usual)))
        )
        inputs.append((tr("nine years in ten"), tr("by {day}", day=day_words(found.late))))
    else:
        inputs.append((tr("record of years past"), tr("none", sense="no record")))
    figure_words = tr("Nights warm enough: not known")
    if found.first is not None:
        first = tr("today") if found.first == today else day_words(found.first)
        figure_words = tr("Nights warm enough from {day}", day=first)
    return Why(figure_words, NIGHTS_RULE, tuple(inputs), (*_sources(limit, place), RUN_FROM, QUANTILES))


def soil_why(felt: SoilFelt | None, limit: Limit, place: Place) -> Why:
    """Return why the soil is, or is not, warm enough."""
    least = degrees(limit.value, place)
    measured = tr("not in the last seven days")
    if felt is not None:
        measured = tr("{degrees} on {day}", degrees=degrees(felt.celsius, place), day=day_words(felt.day))
    inputs = (
        (tr("asks for the warmest soil"), tr("{crop}, {floor} or more", crop=limit.crop.name, floor=least)),
        (tr("measured"), measured),
    )
    return Why(
        tr("Soil of {least} or more", least=least), SOIL_RULE, inputs, (*_sources(limit, place), SOIL_FROM)
    )


def hardened_why(stand: TwoClocks | None, ready_on: date | None) -> Why:
    """Return why plants count, or do not count, as hardened."""
    if stand is None:
        return Why(tr("Not hardened"), HARDENED_RULE, ((tr("hardening"), tr("not begun")),))
    inputs = (
        (tr("hardening since"), day_words(stand.started_on)),
        (
            tr("steps done"),
            tr(
                "{done} of {outings}",
                done=min(stand.sun.step, stand.sun.ramp.outings),
                outings=stand.sun.ramp.outings,
            ),
        ),
        (tr("end of the ramp"), tr("not in sight") if ready_on is None else day_words(ready_on)),
    )
    return Why(tr("Hardened") if stand.hardened else tr("Still on the ramp"), HARDENED_RULE, inputs)


def _against(low_c: float, floor_c: float, place: Place) -> str:
    if low_c >= floor_c:
        return tr("{low}, warm enough", low=degrees(low_c, place))
    return tr("{low}, too cold", low=degrees(low_c, place))


def _sources(limit: Limit, place: Place) -> tuple[str, ...]:
    others = tuple(
        tr("{warmth} by another source: {source}", warmth=degrees(one.value, place), source=cite(one))
        for one in limit.others
    )
    return (tr("{name}: {what}", name=limit.crop.name, what=cite(limit.cited)), *others)
