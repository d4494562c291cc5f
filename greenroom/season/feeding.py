"""Feeding: what a holder's plants are to be given at their stage, and what they were given."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass
from datetime import date, timedelta

from greenroom.agronomy.containers import pot_litres
from greenroom.guide import Cited, Crop, Span
from greenroom.ledger.facts import Fed, Flowered
from greenroom.season.crops import cite
from greenroom.season.deeds_care import Feed
from greenroom.season.deeds_plot import BED, bed_laid
from greenroom.season.hardening import hardening_since
from greenroom.season.holders import Holder
from greenroom.season.plot_plants import crop_at
from greenroom.season.spots import FIRST_TRUE_LEAVES
from greenroom.season.state import Season
from greenroom.speech import tr

FEED_FACTS = (Fed,)
EVERY_DAYS = 7
GROWING_LEAVES = 4
SHARE_OF_MIX = 0.1
"""A feed wets the mix and no more: a tenth of its volume, common practice, no source."""
USUAL_LITRES = 1.0
LITRES_A_PLANT = 1.0
"""What a plant in a bed is given at once: common practice, no source."""
BALANCED = Feed(tr("balanced feed"), 20, 20, 20, 0)
FOR_FRUIT = Feed(tr("feed for fruit"), 4, 2, 8, 0)
SEEDLING, GROWING, HARDENING, POTTED, FRUIT = "seedling", "growing", "hardening", "potted", "fruit"
STAGES = {
    SEEDLING: tr("young seedlings"),
    GROWING: tr("growing away"),
    HARDENING: tr("hardening off"),
    POTTED: tr("in pots"),
    FRUIT: tr("in flower"),
}
SET_OUT = tr("set out", sense="of plants in a bed")


@dataclass(frozen=True, slots=True)
class Need:
    """What one holder is to be fed at its stage; ``last`` is when it was fed so last, ``due`` when next.

    ``asked`` is what the guide asks for, `ppm_n` its low end; 0 means no feed for now.
    """

    made: Holder
    stage: str
    asked: Cited[Span]
    litres: float
    due: date
    last: date | None

    @property
    def ppm_n(self) -> float:
        """How strong: the low end of what the guide asks for."""
        return self.asked.value.low

    @property
    def source(self) -> str:
        """Where that stands."""
        return cite(self.asked)

    @property
    def words(self) -> str:
        """What its plants are about: "growing away", "in pots"."""
        return SET_OUT if self.stage == POTTED and self.made.form == BED else STAGES[self.stage]


@dataclass(frozen=True, slots=True)
class Given:
    """One feed given, and the nitrogen given to the holder as a whole with it and all before it [g]."""

    fact: Fed
    sum_g: float


def need_of(season: Season, made: Holder, today: date, box: Hashable = None) -> Need | None:
    """Return what a holder is to be fed, or None if nothing in it wants feed yet, or the guide says nothing.

    ``box`` is the number of the latest word on the seed box, if the caller knows it: the stage is kept
    until that changes.
    """
    known = season.holder_memo(made.key, ("stage of feed", box), lambda: _stage(season, made))
    if known is None:
        return None
    stage, asked, since = known
    told = [entry.fact for entry in season.holder_facts(made.key) if isinstance(entry.fact, Fed)]
    fed = [one.day for one in told if stage != FRUIT or for_fruit(one)]
    last = max((day for day in fed if day <= today), default=None)
    due = since if last is None else last + timedelta(days=EVERY_DAYS)
    return Need(made, stage, asked, litres_of(season, made), due, last)


def feed_for(season: Season, stage: str, ppm_n: float) -> Feed:
    """Return the grower's own latest feed, one with more potash than nitrogen once plants flower."""
    own = [fact for fact in season.facts(Fed) if stage != FRUIT or for_fruit(fact)]
    usual = FOR_FRUIT if stage == FRUIT else BALANCED
    if own:
        last = own[-1]
        return Feed(last.feed, last.n_percent, last.p2o5_percent, last.k2o_percent, ppm_n)
    return Feed(usual.name, usual.n_percent, usual.p2o5_percent, usual.k2o_percent, ppm_n)


def known_feeds(season: Season) -> tuple[Feed, ...]:
    """Return the feeds to choose from: the grower's own, the latest first, then two of the usual kinds."""
    found: dict[str, Feed] = {}
    for fact in reversed(season.facts(Fed)):
        label = Feed(fact.feed, fact.n_percent, fact.p2o5_percent, fact.k2o_percent, 0)
        found.setdefault(fact.feed, label)
    for usual in (BALANCED, FOR_FRUIT):
        found.setdefault(usual.name, usual)
    return tuple(found.values())


def for_fruit(feed: Feed | Fed) -> bool:
    """Whether a feed holds more potash than nitrogen, as the label tells them."""
    return feed.k2o_percent > feed.n_percent


def flowered_on(season: Season, holder: str) -> date | None:
    """Return the day the first flower was seen on any plant of a holder, or None."""
    return min((fact.day for fact in season.facts(Flowered) if fact.holder == holder), default=None)


def leafy_after_flower(season: Season, holder: str) -> Fed | None:
    """Return the latest feed if it was given since the first flower and holds no more potash than N."""
    flower = flowered_on(season, holder)
    told = [entry.fact for entry in season.holder_facts(holder) if isinstance(entry.fact, Fed)]
    if flower is None or not told or told[-1].day < flower or for_fruit(told[-1]):
        return None
    return told[-1]


def given(season: Season, holder: str) -> tuple[Given, ...]:
    """Return every feed given to a holder in order, with the nitrogen in it: ppm are mg in a litre."""
    found: list[Given] = []
    for entry in season.holder_facts(holder):
        if isinstance(entry.fact, Fed):
            grams = entry.fact.ppm_n * entry.fact.litres / 1000
            found.append(Given(entry.fact, (found[-1].sum_g if found else 0.0) + grams))
    return tuple(found)


def litres_of(season: Season, made: Holder) -> float:
    """Return what is given to a holder at once: what wets its mix [L], in a bed a litre a plant."""
    if made.cell_ml is not None:
        return _at_least(made.cell_ml / 1000 * made.spots * SHARE_OF_MIX)
    if made.form == "bed":
        laid = bed_laid(season, made.key)
        if laid is not None and laid.pot_litres is not None:
            return _at_least(laid.pot_litres * made.spots * SHARE_OF_MIX)
        return _at_least(LITRES_A_PLANT * max(1, season.counts(made.key).living))
    try:
        pot = pot_litres(made.size)
    except ValueError:  # a size in words of the grower's own
        return USUAL_LITRES
    return _at_least(pot * made.spots * SHARE_OF_MIX)


def _at_least(litres: float) -> float:
    return max(0.1, round(litres, 2))


def _stage(season: Season, made: Holder) -> tuple[str, Cited[Span], date] | None:
    """Return the stage of the plants in a holder, what the guide asks for it, and since when."""
    grown = [spot for spot in season.spots(made.key) if spot.up > 0 and spot.leaves >= FIRST_TRUE_LEAVES]
    in_pots = [spot for spot in season.spots(made.key) if spot.up > 0 and made.form != "tray"]
    fed = grown or in_pots
    crop = next((found for spot in fed if (found := crop_at(season, spot)) is not None), None)
    if crop is None:
        return None
    since = min(spot.leaves_on or spot.arrived or spot.first_up or date.max for spot in fed)
    stage, asked = _asked(season, made, crop, max(spot.leaves for spot in fed))
    return (stage, asked, since) if asked is not None else None


def _asked(season: Season, made: Holder, crop: Crop, leaves: int) -> tuple[str, Cited[Span] | None]:
    flower = flowered_on(season, made.key) is not None
    if made.form == "bed":
        return (FRUIT if flower else POTTED), crop.feed_potted_ppm_n
    if hardening_since(season, made.key) is not None:
        return HARDENING, crop.feed_hardening_ppm_n
    if flower:
        return FRUIT, crop.feed_potted_ppm_n
    if made.form == "rack":
        return POTTED, crop.feed_potted_ppm_n
    if leaves >= GROWING_LEAVES:
        return GROWING, crop.feed_growing_ppm_n
    return SEEDLING, crop.feed_seedling_ppm_n
