"""Keeping a harvest: what fresh fruit weighs when dried, how many packs it fills frozen, and the cautions."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil

from greenroom.ledger.facts import Variety
from greenroom.season.crops import crop_of
from greenroom.season.picking_why import weight_words
from greenroom.season.state import Season
from greenroom.season.why import Why
from greenroom.speech import figure, many, tr

DRY_WATER = 0.10
"""Water left in vegetables dried until brittle, at which nothing grows in them (extension text, read as
quoted elsewhere). Sun-dried hot peppers hold 7 % (USDA FoodData Central, read as quoted elsewhere)."""

DRY_FROM = tr(
    "Dried until brittle, 10 % of water is left: home drying of vegetables, extension "
    "text, read as quoted elsewhere. Sun-dried hot peppers hold 7 % (USDA FoodData "
    "Central, read as quoted elsewhere)."
)
FREEZE_FROM = tr(
    "University of Wisconsin Extension: hot peppers are frozen on trays for one to two hours, then packed."
)

HOT, SWEET, JALAPENO, TOMATO = tr("hot pepper"), tr("sweet pepper"), tr("jalapeno pepper"), tr("tomato")
SWEET_KINDS = ("bell", "long-sweet", "pimento", "paprika", "frying-pepper")
GENUS_OF = {"pepper": HOT, "tomato": TOMATO}


@dataclass(frozen=True, slots=True)
class Water:
    """How much water fresh fruit holds, as a share of its weight, and who says so."""

    kind: str
    share: float
    source: str


WATERS = {
    HOT: Water(
        HOT,
        0.8802,
        tr(
            "USDA FoodData Central, peppers, hot chili, red, raw: 88.02 g in 100 g, read as quoted elsewhere."
        ),
    ),
    SWEET: Water(
        SWEET, 0.9221, tr("USDA FoodData Central, peppers, sweet, red, raw: 92.21 g in 100 g, from memory.")
    ),
    JALAPENO: Water(
        JALAPENO, 0.9169, tr("USDA FoodData Central, peppers, jalapeno, raw: 91.69 g in 100 g, from memory.")
    ),
    TOMATO: Water(
        TOMATO, 0.9452, tr("USDA FoodData Central, tomatoes, red, ripe, raw: 94.52 g in 100 g, from memory.")
    ),
}


@dataclass(frozen=True, slots=True)
class Caution:
    """What can go wrong in the kitchen, and who says so."""

    words: str
    source: str


CAUTIONS = (
    Caution(
        tr(
            "Tested directions of your extension or food-safety service come first: this page "
            "only reckons weights. Boiling does not make peppers in a jar safe; they are a "
            "low-acid food."
        ),
        tr(
            "21 CFR 114.3(b): peppers are named among low-acid foods that must be acidified to "
            "pH 4.6 or below, read as quoted elsewhere."
        ),
    ),
    Caution(
        tr(
            "Hot peppers burn: wear gloves when cutting, keep hands from eyes and face, air the "
            "room when drying or grinding. Burns: wash with soap or oil, not with vinegar or "
            "bleach; eyes: plenty of water, and a doctor."
        ),
        tr("ACEP Now 2024; University of Wisconsin Extension (gloves)."),
    ),
    Caution(
        tr(
            "Garlic or fresh peppers in oil can grow botulism, which is neither smelt nor "
            "tasted. Never keep them at room temperature: make them fresh, refrigerate at 4 °C "
            "(40 °F) or below and use within 4 days, or freeze."
        ),
        tr(
            "National Center for Home Food Preservation (7 days at most; garlic in oil at room "
            "temperature is at risk); Penn State Extension (10 days); US health advice says 4, "
            "read as quoted elsewhere: the shortest is taken. University of Maine Extension 4385."
        ),
    ),
    Caution(
        tr(
            "Dry at 60 °C (140 °F) until brittle, leave out what is soft or mouldy, and look at "
            "the jars in the first week: damp on the glass means back into the dryer."
        ),
        tr(
            "State extension drying tables (140 °F); looking at the jars: extension text, read "
            "as quoted elsewhere."
        ),
    ),
)


@dataclass(frozen=True, slots=True)
class Kept:
    """What some fresh fruit come to: trimmed, dried or frozen [g]."""

    fresh: float
    trimmed: float
    dried: float
    packs: int
    water: Water
    dry_water: float
    pack: float
    away: float

    @property
    def why(self) -> Why:
        """What the weights are made of."""
        rule = tr(
            "Drying takes water only: what is dry in the fresh fruit is dry in the dried. Dried "
            "weight is the trimmed weight times (1 - water fresh) over (1 - water dried). Packs "
            "are the trimmed weight over that of a pack, rounded up; freezing takes nothing away."
        )
        inputs = (
            (tr("fresh"), weight_words(self.fresh)),
            (tr("trimmed away"), f"{self.away * 100:.0f} %"),
            (
                tr("water in a fresh {kind}", kind=self.water.kind),
                f"{figure(self.water.share * 100, '.1f')} %",
            ),
            (tr("water left when dry"), f"{self.dry_water * 100:.0f} %"),
            (tr("a pack"), weight_words(self.pack)),
        )
        said = tr(
            "{fresh} fresh: {dried} dried", fresh=weight_words(self.fresh), dried=weight_words(self.dried)
        )
        return Why(said, rule, inputs, (self.water.source, DRY_FROM, FREEZE_FROM))

    @property
    def words(self) -> str:
        """What it comes to, in one line."""
        return tr(
            "{dried} dried, or {packs} frozen",
            dried=weight_words(self.dried),
            packs=many(self.packs, "pack"),
        )


def water_in(season: Season, variety: str) -> Water | None:
    """Return how much water the fresh fruit of a variety hold, or None where no published figure fits."""
    fact = season.thing(Variety, variety)
    crop = crop_of(season.guide, fact.crop) if fact else None
    if crop is None:
        return None
    if crop.key in SWEET_KINDS:
        return WATERS[SWEET]
    if crop.key == "jalapeno":
        return WATERS[JALAPENO]
    line = season.guide.lineage(crop.key)
    return next((WATERS[GENUS_OF[key]] for key in line if key in GENUS_OF), None)


def keep(
    fresh: float, water: Water, *, away: float = 0.0, dry_water: float = DRY_WATER, pack: float = 250.0
) -> Kept:
    """Return what fresh fruit come to dried and frozen.

    Parameters
    ----------
    fresh : float
        Weight as picked [g].
    water : Water
        What the fresh fruit hold.
    away : float
        Share trimmed away: stalks, cores, seeds; 0 up to but not including 1.
    dry_water : float
        Water left when dry, as a share of the dried weight.
    pack : float
        Weight of a pack [g].

    Raises
    ------
    ValueError
        Naming what lies outside of what is allowed.
    """
    if not (fresh >= 0 and 0 <= away < 1 and 0 <= dry_water < water.share and pack > 0):
        raise ValueError(
            f"fresh {fresh:g} g, trimmed {away:g}, dried to {dry_water:g}, packs of {pack:g} g: weights are "
            f"above 0, trimmed from 0 to below 1, water left below {water.share:g}"
        )
    trimmed = fresh * (1 - away)
    dried = trimmed * (1 - water.share) / (1 - dry_water)
    return Kept(fresh, trimmed, dried, ceil(trimmed / pack - 1e-9), water, dry_water, pack, away)
