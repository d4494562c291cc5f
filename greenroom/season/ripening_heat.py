"""How heat is counted for a crop, and what the days to ripe on a packet are worth in heat."""

from __future__ import annotations

from dataclasses import dataclass

from greenroom.guide import Crop
from greenroom.ledger.facts import Variety

HARDY_BELOW_C = 5.0
"""A crop that bears nights this cold grows in the cool: a working rule of this program."""


@dataclass(frozen=True, slots=True)
class Heat:
    """How heat is counted for a crop: between ``base_c`` and ``cap_c``, and what one stated day is worth.

    ``a_day`` is the heat of a day in the conditions that days to ripe are stated for [°C·d]: one of
    ``day_c`` by day and ``night_c`` by night.
    """

    base_c: float
    cap_c: float
    day_c: float
    night_c: float

    @property
    def a_day(self) -> float:
        """Degree days of one such day [°C·d]."""
        return (self.day_c + self.night_c) / 2 - self.base_c


WARM = Heat(10.0, 30.0, day_c=27.0, night_c=15.0)
"""11 °C·d: the warmest day and the coolest night of the best range that FAO gives for peppers."""

COOL = Heat(4.4, 30.0, day_c=20.0, night_c=10.0)
"""10.6 °C·d above 40 °F: common practice for crops of the cool season, no source."""


def heat_of(crop: Crop | None) -> Heat:
    """Return how heat is counted for a crop: in the cool for one that bears cold nights."""
    night = crop.night_floor_c if crop else None
    return COOL if night is not None and night.value < HARDY_BELOW_C else WARM


def stated_days(variety: Variety, crop: Crop | None) -> float | None:
    """Return days from setting out to ripe by the packet, else by the guide; None where neither tells."""
    pick = crop.days_to_pick if crop else None
    return variety.days_to_ripe or (pick.value.middle if pick else None)
