"""How many seeds and cells it takes to have the plants that are wanted, and whether a packet holds them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from functools import lru_cache
from math import ceil, log

from greenroom.agronomy.sprouting import blank_chance, seeds_to_sow
from greenroom.season.crops import share_at
from greenroom.season.germination import Expected, germination
from greenroom.season.learning import living
from greenroom.season.packets import packet_view, packets_of, seeds_left
from greenroom.season.state import Season

FILLED = 2 / 3
"""Seeds go singly while so many cells fill, for seed is dearer than cells: a working rule of this program."""

MOST_A_CELL, ROUNDING = 10, 1e-9
KEPT = 1024

WORTHLESS = 0.05
"""A packet of which fewer than one seed in twenty is expected up is not worth planning with."""


@dataclass(frozen=True, slots=True)
class SeedNeed:
    """What to sow of one packet for the plants wanted.

    ``share`` is expected up of its seeds in the mix, ``warm`` what the mix's warmth does to that, ``lives``
    the share of seedlings that live to be set out.
    ``cells`` cells get ``a_cell`` seeds each; ``blanks`` of them are expected to stay bare.
    ``fewest`` and ``most`` are the seeds at the ends of what is known of the packet. ``left`` is None
    where nobody counted; ``sure`` is how sure the plants are with the seeds there are.
    """

    packet: str
    plants: int
    share: float
    warm: float
    lives: float
    a_cell: int
    cells: int
    seeds: int
    blanks: float
    fewest: int
    most: int
    confidence: float
    left: int | None
    sure: float

    @property
    def enough(self) -> bool:
        """Whether the packet holds the seeds, as far as anybody counted."""
        return self.left is None or self.left >= self.seeds


def seeds_a_cell(share: float, filled: float = FILLED) -> int:
    """Return the fewest seeds a cell that fill at least a share of the cells; 10 at most.

    With ``filled`` at 0.9 this is the nurseries' table: 1 seed from 90 % germination on, 2 from 70,
    3 from 60, 4 from 50, 5 from 40.
    """
    if share >= filled:
        return 1
    if share <= 0:
        return MOST_A_CELL
    return min(MOST_A_CELL, max(1, ceil(log(1 - filled) / log(1 - share) - ROUNDING)))


def sure_of(plants: int, cells: int, chance: float) -> float:
    """Return the chance that at least so many of some cells give a plant, each with the same chance."""
    if plants < 1 or cells < plants:
        return 1.0 if plants < 1 else 0.0
    from scipy.special import betainc  # slow to import: not before the first window

    return float(betainc(plants, cells - plants + 1, chance))


def best_packet(season: Season, variety: str, today: date) -> Expected | None:
    """Return the packet of a variety to sow from: of those with seed left the one that comes up best."""
    found = [germination(season, key, today) for key in packets_of(season, variety)]
    known = [one for one in found if one is not None]
    open_ones = [one for one in known if seeds_left(season, one.packet) != 0]
    return max(open_ones or known, key=lambda one: one.share, default=None)


def seed_need(
    season: Season, expected: Expected, plants: int, confidence: float, mix_c: float | None, today: date
) -> SeedNeed | None:
    """Return what to sow of a packet, or None where too little of it is expected up to plan with.

    Where the packet holds too few seeds for several a cell they go singly, which takes the fewest seeds.
    """
    view = packet_view(season, expected.packet)
    warm = share_at(season.guide, view.crop if view else None, mix_c)
    lives = living(season, today).figure
    return need_of(expected, plants, confidence, warm, lives, view.left if view else None)


@lru_cache(maxsize=KEPT)
def need_of(
    expected: Expected, plants: int, confidence: float, warm: float, lives: float, left: int | None
) -> SeedNeed | None:
    """Return the same from what it rests on: the packet, its warmth, what lives, and the seeds left."""
    share = expected.share * warm
    if share < WORTHLESS:
        return None
    a_cell = seeds_a_cell(share)
    if left is not None and left < a_cell * _cells(plants, share, lives, a_cell, confidence):
        a_cell = 1
    cells = _cells(plants, share, lives, a_cell, confidence)
    sown = cells if left is None else min(cells, left // a_cell)
    fewest, most = (
        a_cell * _cells(plants, max(one * warm, WORTHLESS), lives, a_cell, confidence)
        for one in (expected.high, expected.low)
    )
    return SeedNeed(
        packet=expected.packet,
        plants=plants,
        share=share,
        warm=warm,
        lives=lives,
        a_cell=a_cell,
        cells=cells,
        seeds=cells * a_cell,
        blanks=cells * blank_chance(a_cell, share),
        fewest=fewest,
        most=most,
        confidence=confidence,
        left=left,
        sure=sure_of(plants, sown, _plant_chance(share, lives, a_cell)),
    )


def _plant_chance(share: float, lives: float, a_cell: int) -> float:
    return (1 - blank_chance(a_cell, share)) * lives


def _cells(plants: int, share: float, lives: float, a_cell: int, confidence: float) -> int:
    return seeds_to_sow(plants, _plant_chance(share, lives, a_cell), confidence)
