"""How long a crop takes to come up in mix of one temperature, and how much of it does: by the guide."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import sqrt
from typing import Any

import numpy as np

from greenroom.guide import Cited, Crop, Guide, Reading, Status
from greenroom.season.within import within
from greenroom.speech import tr

TAKEN_FOR = "capsicum-annuum"
"""What a variety is taken for while nobody has said what it is; the reasons say so wherever it counts."""

PEPPER = "pepper"

EARLY, LATE = 0.7, 1.3
"""The tabled days are good to about 30 %: they are of the lot tested, not of every lot."""

WIDEST_STEP_C = 5.0
"""Readings further apart than the table's own step tell nothing of what lies between them."""

Ladder = Cited[tuple[Reading, ...]]


@dataclass(frozen=True, slots=True)
class Pace:
    """How long a crop takes to come up in mix of one temperature [d].

    ``days`` is when half of those that come up are up; ``early`` and ``late`` are where that day lies
    for nine lots in ten. ``tabled`` tells whether it was read in a table of days by temperature or
    comes from the guide's span; ``rule`` says how, and ``sources`` where from.
    """

    days: float
    early: float
    late: float
    tabled: bool
    rule: str
    sources: tuple[str, ...]


def crop_of(guide: Guide, key: str | None) -> Crop | None:
    """Return the guide's entry for a variety's crop, or None if it has none.

    A variety of which nobody has said what it is, or only that it is a pepper, is taken for the
    pepper most grown, an annuum.
    """
    return guide.entries.get(TAKEN_FOR if key in (None, PEPPER) else key or "")


def crop_words(guide: Guide, key: str | None) -> str:
    """Return a variety's crop in words, saying so where it is only taken for one."""
    crop = crop_of(guide, key)
    if crop is None:
        return tr("{crop}, which is not in the guide", crop=key)
    if key is None:
        return tr("not given; taken for {crop}", crop=within(crop.name))
    return (
        tr("a pepper of no kind given; taken for {crop}", crop=within(crop.name))
        if key == PEPPER
        else crop.name
    )


def pace_of(guide: Guide, key: str | None, mix_c: float | None) -> Pace | None:
    """Return how long a crop takes to come up, or None where nothing is known.

    Parameters
    ----------
    guide : Guide
    key : str or None
        The variety's crop, a key of the guide.
    mix_c : float or None
        Temperature of the mix [°C].

    Returns
    -------
    Pace or None
        None for a crop that is not in the guide, an unknown temperature, one at which none came up,
        and one of which the guide tells nothing.

    Notes
    -----
    A table of days by temperature is read by the rate, one over the days, as in
    `greenroom.agronomy.sprouting.days_to_emerge`. A crop that has only a span of days "in good warmth"
    takes their geometric mean, and in cooler or hotter mix is slowed down as its nearest kin in the
    table is; without kin in the table the span holds within the crop's best range and nowhere else.
    A span written for a kind of its own goes before a table it takes over from its species.
    """
    crop = crop_of(guide, key)
    if crop is None or mix_c is None:
        return None
    table = crop.days_to_emerge
    if table is not None and not _span_is_nearer(guide, crop):
        return _by_table(crop, table, mix_c)
    return _by_span(guide, crop, mix_c)


def share_at(guide: Guide, key: str | None, mix_c: float | None) -> float:
    """Return the share of the best stand that comes up at a temperature, 0 to 1; 1 where nothing is known.

    Percent normal seedlings by temperature, straight between the readings, over the greatest of them.
    """
    crop = crop_of(guide, key)
    table = crop.normal_seedlings_percent if crop else None
    if table is None or mix_c is None:
        return 1.0
    percent = [reading.amount or 0.0 for reading in table.value]
    here = np.interp(mix_c, [reading.celsius for reading in table.value], percent)
    return float(here) / max(percent)


def days_at(readings: Sequence[Reading], celsius: float) -> float | None:
    """Return the days of a table at a temperature, the rate running straight between its readings."""
    temperatures = [reading.celsius for reading in readings]
    if celsius not in temperatures and not any(
        low < celsius < high <= low + WIDEST_STEP_C for low, high in pairwise(temperatures)
    ):
        return None
    rates = [1.0 / reading.amount if reading.amount else 0.0 for reading in readings]
    rate = float(np.interp(celsius, temperatures, rates))
    return 1.0 / rate if rate > 0 else None


def cite(value: Cited[Any]) -> str:
    """Return the source of a value, saying so where it is only recalled."""
    return (
        tr("{source}, from memory", source=value.source)
        if value.status is Status.MEMORY
        else str(value.source)
    )


def _by_table(crop: Crop, table: Ladder, mix_c: float) -> Pace | None:
    days = days_at(table.value, mix_c)
    if days is None:
        return None
    rule = tr(
        "The table for {crop} is read between its lines by the rate, one over the days. It "
        "stands for one tested lot sown 13 mm deep, so it is good to about a third either "
        "way.",
        crop=within(crop.name),
    )
    return Pace(days, days * EARLY, days * LATE, True, rule, (cite(table),))


def _by_span(guide: Guide, crop: Crop, mix_c: float) -> Pace | None:
    span = crop.emergence_days
    if span is None:
        return None
    kin = _kin_in_the_table(guide, crop)
    slower = _slower(crop, kin, mix_c)
    if slower is None:
        return None
    low, high = span.value.low * slower, span.value.high * slower
    rule = tr(
        "The guide gives {low:g} to {high:g} days in good warmth.", low=span.value.low, high=span.value.high
    )
    if kin is None or kin.days_to_emerge is None:
        return Pace(sqrt(low * high), low, high, False, rule, (cite(span),))
    if slower > 1.0:
        rule = tr(
            "The guide gives {low:g} to {high:g} days in good warmth; in this mix it is taken to need "
            "{slower:.2f} times as long, as {crop} does.",
            low=span.value.low,
            high=span.value.high,
            slower=slower,
            crop=within(kin.name),
        )
    sources = (cite(span), cite(kin.days_to_emerge))
    return Pace(sqrt(low * high), low, high, False, rule, sources)


def _slower(crop: Crop, kin: Crop | None, mix_c: float) -> float | None:
    """Return how many times longer than in good warmth it takes, or None where nobody knows."""
    if kin is None or kin.days_to_emerge is None:
        best = crop.germination_best_c
        return 1.0 if best is not None and mix_c in best.value else None
    here = days_at(kin.days_to_emerge.value, mix_c)
    quickest = min(reading.amount for reading in kin.days_to_emerge.value if reading.amount)
    return None if here is None else here / quickest


def _kin_in_the_table(guide: Guide, crop: Crop) -> Crop | None:
    """Return the nearest crop of the same group that has a table of days by temperature."""
    if crop.days_to_emerge is not None:
        return crop
    for ancestor in guide.lineage(crop.key)[1:]:
        if guide.entries[ancestor].group != crop.group:
            return None
        for kin in guide.types_of(ancestor):
            if kin.days_to_emerge is not None:
                return kin
    return None


def _span_is_nearer(guide: Guide, crop: Crop) -> bool:
    """Whether the span of days is written for a narrower kind than the table is."""
    if crop.days_to_emerge is None or crop.emergence_days is None:
        return False
    line = guide.lineage(crop.key)
    return line.index(crop.emergence_days.entry) < line.index(crop.days_to_emerge.entry)
