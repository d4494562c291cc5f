"""What to grow again: yield, earliness, germination and losses weighed in the open; the grower decides."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from functools import partial

from greenroom.guide import Rank
from greenroom.ledger.facts import HolderMade, Variety
from greenroom.season.crops import crop_of
from greenroom.season.deeds_plot import BED
from greenroom.season.learning import lost_in, share_of_variety
from greenroom.season.packets import packets_of
from greenroom.season.picking import Harvest, harvests
from greenroom.season.picking_why import weight_words
from greenroom.season.picking_year import season_of
from greenroom.season.place import place_of
from greenroom.season.ripe_learning import ripening_of
from greenroom.season.state import Season
from greenroom.season.wants import wanted
from greenroom.season.why import Why
from greenroom.speech import figure, many, tr

WEIGHTS: Mapping[str, int] = {"yield": 4, "earliness": 2, "germination": 2, "losses": 2}
"""How much each mark counts until the grower says otherwise: a working rule of this program."""

MARK_WORDS = {
    "yield": tr("yield"),
    "earliness": tr("earliness"),
    "germination": tr("germination"),
    "losses": tr("losses"),
}

END_OF_SEASON = "cold"
"""A plant in a bed lost to cold ended with its season; that is no mark against it."""

PLANNING_MONTHS = 3
"""So long into the year of a season it is still planned for; from then on the next one is."""

RULE = tr(
    "Each mark is a share of the best, 0 to 10. Yield: weight per plant, against the "
    "best of its kind, or of its species where no other of its kind was picked, or of "
    "all. Earliness: the least heat from setting out to ripe of all, over its own. "
    "Germination: the share expected to come up. Losses: the share of seedlings that was "
    "not lost; thinning and the frost that ends a season do not count. The sum is the "
    "mean of the marks that are known, each as often as its weight says. It decides "
    "nothing: taste is not in it."
)
RULE_FROM = tr("The marks and the weights they start with are working rules of this program.")


@dataclass(frozen=True, slots=True)
class Mark:
    """One thing weighed: ``share`` of the best, 0 to 1, None where it is not known; ``words`` say of what."""

    share: float | None
    words: str

    @property
    def shown(self) -> str:
        """The mark as 0 to 10."""
        return "·" if self.share is None else figure(self.share * 10, ".1f")


@dataclass(frozen=True, slots=True)
class Again:
    """What speaks for and against a variety; ``wanted`` plants of it are in the plan already."""

    variety: str
    name: str
    marks: Mapping[str, Mark]
    wanted: int
    grown: int

    def sum(self, weights: Mapping[str, int]) -> float | None:
        """Return the weighted mean of the marks that are known, 0 to 1; None where none counts."""
        known = {name: mark.share for name, mark in self.marks.items() if mark.share is not None}
        whole = sum(weights[name] for name in known)
        return sum(share * weights[name] for name, share in known.items()) / whole if whole else None

    def why(self, weights: Mapping[str, int]) -> Why:
        """Return what the sum is made of."""
        inputs = [
            (
                tr("{mark}, counted {times}", mark=MARK_WORDS[name], times=many(weights[name], "time")),
                tr("{name}: {what}", name=mark.shown, what=mark.words),
            )
            for name, mark in self.marks.items()
        ]
        total = self.sum(weights)
        figure_words = tr("{name}: {what}", name=self.name, what=sum_words(total))
        return Why(figure_words, RULE, tuple(inputs), (RULE_FROM,))


@dataclass(frozen=True, slots=True)
class _Grown:
    variety: str
    name: str
    grams: float | None
    heat: float | None
    days: float | None
    germination: float | None
    raised: int
    lost: int
    plants: int


def sum_words(total: float | None) -> str:
    """Return a weighted sum in words."""
    return tr("not enough known") if total is None else tr("{sum:.1f} of 10", sum=total * 10)


def next_season(season: Season, today: date) -> int:
    """Return the season that is planned for on a day: this year's in its first months, else the next."""
    southern = place_of(season).southern
    year = season_of(today, southern=southern)
    months = (today.month - 7) % 12 if southern else today.month - 1
    return year if months < PLANNING_MONTHS else year + 1


def again(season: Season, year: int, today: date) -> tuple[Again, ...]:
    """Return what speaks for and against each variety ever picked; ``year`` is the season planned for."""
    lots: dict[str, list[Harvest]] = {}
    for one in harvests(season, today):
        lots.setdefault(one.variety, []).append(one)
    came, died = _raised(season)
    grown = [_grown(season, key, found, today, came, died) for key, found in lots.items()]
    wishes = wanted(season, year)
    peers = _Peers(season, grown)
    earliest = min((one.heat for one in grown if one.heat is not None), default=None)
    rows = (
        Again(one.variety, one.name, _marks(one, peers, earliest), wishes.get(one.variety, 0), one.plants)
        for one in grown
    )
    return tuple(sorted(rows, key=lambda row: row.name.casefold()))


def ranked(rows: Iterable[Again], weights: Mapping[str, int]) -> list[Again]:
    """Return the varieties by their sums, the best first, those without one last."""
    return sorted(rows, key=lambda row: (-(row.sum(weights) or -1.0), row.name.casefold()))


class _Peers:
    """Tells with which other varieties a yield is fairly compared."""

    def __init__(self, season: Season, grown: Sequence[_Grown]) -> None:
        self._guide = season.guide
        self._grown = [one for one in grown if one.grams is not None]
        self._kinds = {one.variety: self._kind(season, one.variety) for one in grown}

    def of(self, one: _Grown) -> tuple[list[_Grown], str]:
        """Return the varieties of its kind, of its species, or all, whichever first holds another.

        With them stands what the best of them is called.
        """
        kind = self._kinds[one.variety]
        near: tuple[tuple[Callable[[str | None], object], str], ...] = (
            (lambda key: key, tr("the most of its kind")),
            (self._species, tr("the most of its species")),
        )
        for level, words in near:
            group = level(kind)
            found = [other for other in self._grown if level(self._kinds[other.variety]) == group]
            if group is not None and len(found) > 1:
                return found, words
        return self._grown, tr("the most of all")

    def _kind(self, season: Season, variety: str) -> str | None:
        fact = season.thing(Variety, variety)
        crop = crop_of(self._guide, fact.crop) if fact else None
        return crop.key if crop else None

    def _species(self, key: str | None) -> str | None:
        if key is None:
            return None
        line = self._guide.lineage(key)
        return next((one for one in line if self._guide.entries[one].rank is Rank.SPECIES), None)


def _grown(
    season: Season,
    variety: str,
    found: Sequence[Harvest],
    today: date,
    came: Mapping[str, int],
    died: Mapping[str, int],
) -> _Grown:
    ripening, share = ripening_of(season, variety, today), share_of_variety(season, variety, today)
    grams = [one.grams_a_plant for one in found if one.grams_a_plant is not None]
    packets = packets_of(season, variety)
    return _Grown(
        variety=variety,
        name=found[0].name,
        grams=sum(grams) / len(grams) if grams else None,
        heat=ripening.learned.own if ripening else None,
        days=ripening.own_days if ripening else None,
        germination=share.figure if share else None,
        raised=sum(came[key] for key in packets),
        lost=sum(died[key] for key in packets),
        plants=next((one.plants for one in found if one.plants), 0),
    )


def _marks(one: _Grown, peers: _Peers, earliest: float | None) -> dict[str, Mark]:
    return {
        "yield": _yield_mark(one, peers),
        "earliness": _early_mark(one, earliest),
        "germination": _germination_mark(one),
        "losses": _loss_mark(one),
    }


def _yield_mark(one: _Grown, peers: _Peers) -> Mark:
    if one.grams is None:
        return Mark(None, tr("weight or number of plants not known"))
    others, most = peers.of(one)
    best = max(others, key=lambda other: other.grams or 0.0)
    weight = weight_words(one.grams)
    if best is one:
        return Mark(1.0, tr("{weight} a plant, {most}", weight=weight, most=most))
    return Mark(
        one.grams / (best.grams or one.grams),
        tr("{weight} a plant; {most} is {variety}", weight=weight, most=most, variety=best.name),
    )


def _early_mark(one: _Grown, earliest: float | None) -> Mark:
    if one.heat is None or earliest is None:
        return Mark(None, tr("no first ripe pick in a bed with known weather"))
    return Mark(
        earliest / one.heat, tr("ripe after {days:.0f} days, {heat:.0f} °C·d", days=one.days, heat=one.heat)
    )


def _germination_mark(one: _Grown) -> Mark:
    if one.germination is None:
        return Mark(None, tr("no packet with a label or own results"))
    return Mark(one.germination, tr("{share:.0f} % expected to come up", share=one.germination * 100))


def _loss_mark(one: _Grown) -> Mark:
    if not one.raised:
        return Mark(None, tr("none raised here"))
    return Mark(
        max(0.0, 1 - one.lost / one.raised),
        tr("{lost} of {seedlings} lost", lost=one.lost, seedlings=many(one.raised, "seedling")),
    )


def _raised(season: Season) -> tuple[Counter[str], Counter[str]]:
    """Return how many seedlings of each packet came up, and how many of them were lost."""
    came, died = Counter[str](), Counter[str]()
    for holder in dict.fromkeys(fact.holder for fact in season.facts(HolderMade)):
        up, lost = season.holder_memo(holder, "raised and lost", partial(_in, season, holder))
        came.update(up)
        died.update(lost)
    return came, died


def _in(season: Season, holder: str) -> tuple[Counter[str], Counter[str]]:
    came, died = Counter[str](), Counter[str]()
    bed = season.holder(holder).form == BED
    for spot in season.spots(holder):
        if spot.packet is not None:
            came[spot.packet] += spot.sprouted
            died[spot.packet] += 0 if bed and spot.cause == END_OF_SEASON else lost_in(spot)
    return came, died
