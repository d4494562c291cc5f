"""When a seedling is likely to be ready for a pot of its own."""

from __future__ import annotations

from datetime import date, timedelta

from greenroom.guide import Guide
from greenroom.season.crops import crop_of

FIRST_PAIR_DAYS, NEXT_PAIR_DAYS = 11, 9
"""Days from coming up to the first pair of true leaves, and to each after it: common practice, no source."""

USUAL_PAIRS = 2.0
"""Pairs of true leaves at which a seedling is potted up where the guide names none: common practice, no
source."""


def pot_up_day(guide: Guide, crop: str | None, up: date, hardens: date) -> date | None:
    """Return the day a seedling that came up on ``up`` may be potted up; None if it hardens before that."""
    found = crop_of(guide, crop)
    pairs = found.pot_up_leaf_sets.value.middle if found and found.pot_up_leaf_sets else USUAL_PAIRS
    day = up + timedelta(days=round(FIRST_PAIR_DAYS + NEXT_PAIR_DAYS * (pairs - 1)))
    return day if day < hardens else None
