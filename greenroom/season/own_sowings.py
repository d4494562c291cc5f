"""What the grower's own sowings of a packet showed, tray by tray, beside what its warmth lets one expect."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from greenroom.ledger.facts import HolderMade, HolderPlaced, Lost, Moved, Packet, Sown, Sprouted, Variety
from greenroom.season.crops import Pace, crop_of, pace_of, share_at
from greenroom.season.lots import Seed, due_days, seeds_of, tally
from greenroom.season.packets import packet_view
from greenroom.season.sprouting import tabled_spread
from greenroom.season.state import Season

KINDS = (Sown, Sprouted, Lost, Moved, HolderMade, HolderPlaced, Packet, Variety)
"""The kinds of fact that own sowings are told from, for those who keep what they make of them."""


@dataclass(frozen=True, slots=True)
class TraySowing:
    """The seeds of one packet in one tray.

    ``pace`` is the guide's for the tray's warmth, None where it or the warmth is not known; ``warm`` is
    the share of the best stand that comes up at that warmth; ``due`` the day by which 19 in 20 of those
    that come are up [d after sowing], None where nothing is known.
    """

    holder: str
    mix_c: float | None
    seeds: tuple[Seed, ...]
    pace: Pace | None
    warm: float
    due: float | None

    @property
    def shown(self) -> tuple[int, int]:
        """How many came up, of how many that had time to show."""
        if self.due is None:
            return 0, 0
        told = tally(self.seeds, 0.0, self.due)
        return told.came, told.tried


def tray_sowings(season: Season, packet: str, today: date) -> list[TraySowing]:
    """Return the sowings of a packet as they stand on a day, tray by tray."""
    view = packet_view(season, packet)
    crop = view.crop if view else None

    def told(holder: str) -> TraySowing:
        name = ("own sowing", packet, crop, today)
        return season.holder_memo(holder, name, lambda: _told(season, packet, crop, holder, today))

    return [told(holder) for holder in season.holders_sown(packet)]


def _told(season: Season, packet: str, crop: str | None, holder: str, today: date) -> TraySowing:
    mix_c = season.holder(holder).mix_c
    pace = pace_of(season.guide, crop, mix_c)
    seeds = tuple(seeds_of(season, packet, season.spots_sown(packet, holder), today))
    warm = share_at(season.guide, crop, mix_c)
    return TraySowing(holder, mix_c, seeds, pace, warm, _due(season, crop, pace))


def _due(season: Season, crop: str | None, pace: Pace | None) -> float | None:
    if pace is not None:
        return due_days(pace.days, tabled_spread(pace))
    entry = crop_of(season.guide, crop)
    span = entry.emergence_days if entry else None
    return span.value.high if span else None
