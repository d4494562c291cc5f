"""What share of a packet is to be expected up: its label, its age, tests made at home, own sowings."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from greenroom.guide import Crop
from greenroom.season.crops import crop_of, share_at
from greenroom.season.home_tests import HomeTest, home_tests_of
from greenroom.season.lots import LABEL_SEEDS
from greenroom.season.own_sowings import tray_sowings
from greenroom.season.packets import PacketView, packet_view
from greenroom.season.sprouting import USUAL_GERMINATION
from greenroom.season.state import Season

HALF = 0.5
"""What a lot has come down to at the end of its life where the law names no least germination."""

LEAST_WEIGHT = 4.0
"""However old, a label counts as much as so many seeds of one's own: a working rule of this program."""

SURE_LOW, SURE_HIGH = 0.02, 0.98
"""A label of 0 or 100 % is taken as so: no lot is known to be wholly dead or without a dead seed."""

OUTER = 0.05
"""Below and above the 90 % range lies so much."""


@dataclass(frozen=True, slots=True)
class Tally:
    """Seeds that came up, of those tried that had time and warmth enough to."""

    came: int = 0
    tried: float = 0.0

    def __add__(self, other: Tally) -> Tally:
        return Tally(self.came + other.came, self.tried + other.tried)


@dataclass(frozen=True, slots=True)
class Prior:
    """What is believed before any seed of one's own: a ``share``, counting as ``weight`` seeds.

    ``age`` is the years since the lot was packed, None where that is not known.
    """

    share: float
    weight: float
    age: int | None


@dataclass(frozen=True, slots=True)
class Expected:
    """What share of a packet is to be expected up, 0 to 1, with the range it lies in nine times in ten.

    ``label`` is what the packet says, ``prior`` that after its age, ``tested`` and ``sown`` what the
    grower's own seeds showed. ``least`` is what the law asks of seed for sale, ``below`` the chance that
    this lot lies below it; both None for a crop the law does not name.
    """

    packet: str
    share: float
    low: float
    high: float
    label: float | None
    prior: Prior
    tested: Tally
    sown: Tally
    least: float | None
    below: float | None

    @property
    def alpha(self) -> float:
        """First parameter of the beta distribution: seeds' worth of having come up."""
        return self.prior.share * self.prior.weight + self.tested.came + self.sown.came

    @property
    def beta(self) -> float:
        """Second parameter: seeds' worth of not having come up."""
        return self.prior.weight + self.tested.tried + self.sown.tried - self.alpha


def germination(season: Season, packet: str, today: date) -> Expected | None:
    """Return what share of a packet is to be expected up, or None where there is no such packet."""
    view = packet_view(season, packet)
    if view is None:
        return None
    crop = crop_of(season.guide, view.crop)
    prior = _prior(view, crop, today)
    tests = [test for test in home_tests_of(season, packet) if test.over]
    tested = sum((_tested(season, view, test) for test in tests), Tally())
    sown = sum((_counted(*tray.shown, tray.warm) for tray in tray_sowings(season, packet, today)), Tally())
    alpha = prior.share * prior.weight + tested.came + sown.came
    beta = prior.weight + tested.tried + sown.tried - alpha
    low, high = beta_range(alpha, beta)
    least = least_share(crop)
    below = None if least is None else beta_below(alpha, beta, least)
    share = alpha / (alpha + beta)
    return Expected(packet, share, low, high, view.packet.germination, prior, tested, sown, least, below)


def aged_share(label: float, years: float, life_years: float, least: float | None) -> float:
    """Return what is left of a germination after some years in a cool, dry room.

    Parameters
    ----------
    label : float
        Share that germinated when the lot was packed, 0 to 1.
    years, life_years : float
        Since then, and the life that lists give the crop's seed [years].
    least : float or None
        Share the law asks of seed for sale; half where it asks nothing.

    Returns
    -------
    float

    Notes
    -----
    The probit of the share that lives falls in a straight line. Its slope is this program's working rule:
    over the listed life a lot of usual germination (85 %) comes down to the least that may be sold. For
    pepper that is 802 days a probit, between the 936 and 502 that the viability equation gives for seed
    of 7 and 8 % moisture kept at 20 °C, which is what a drawer indoors does to seed.

    References
    ----------
    Ellis, R. H. and Roberts, E. H. 1980. Annals of Botany 45:13-30.
    """
    from scipy.special import ndtr, ndtri  # slow to import: not before the first window

    floor = min(HALF if least is None else least, USUAL_GERMINATION - 0.05)
    probits_a_year = (ndtri(USUAL_GERMINATION) - ndtri(floor)) / life_years
    return float(ndtr(ndtri(label) - years * probits_a_year))


def beta_range(alpha: float, beta: float) -> tuple[float, float]:
    """Return the shares between which a beta distribution lies nine times in ten."""
    from scipy.special import betaincinv  # as in aged_share

    return float(betaincinv(alpha, beta, OUTER)), float(betaincinv(alpha, beta, 1 - OUTER))


def beta_below(alpha: float, beta: float, share: float) -> float:
    """Return the chance that a beta distribution lies below a share."""
    from scipy.special import betainc  # as in aged_share

    return float(betainc(alpha, beta, share))


def least_share(crop: Crop | None) -> float | None:
    """Return the share that the law asks of a crop's seed for sale, or None where it asks nothing."""
    return crop.legal_minimum_percent.value / 100 if crop and crop.legal_minimum_percent else None


def _prior(view: PacketView, crop: Crop | None, today: date) -> Prior:
    packed = view.packet.packed
    age = None if packed is None else max(0, today.year - packed)
    label = USUAL_GERMINATION if view.packet.germination is None else view.packet.germination
    share, weight = min(max(label, SURE_LOW), SURE_HIGH), float(LABEL_SEEDS)
    life = crop.seed_life_years.value.middle if crop and crop.seed_life_years else None
    if age and life:
        share = max(aged_share(share, age, life, least_share(crop)), SURE_LOW)
        weight = max(LEAST_WEIGHT, weight * 0.5 ** (age / life))
    return Prior(share, weight, age)


def _tested(season: Season, view: PacketView, test: HomeTest) -> Tally:
    return _counted(test.germinated, test.seeds, share_at(season.guide, view.crop, test.warmth_c))


def _counted(came: int, tried: int, warm: float) -> Tally:
    """Count seeds; those that the warmth alone would have kept down do not speak of the lot."""
    return Tally(came, max(float(came), tried * warm))
