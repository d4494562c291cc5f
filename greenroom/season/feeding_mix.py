"""Mixing a feed: grams, spoons and the stock for an injector, from the label and the strength wanted."""

from __future__ import annotations

from dataclasses import dataclass

from greenroom.agronomy.containers import LITRES_IN_GALLON
from greenroom.agronomy.feeding import GRAMS_IN_OUNCE, grams_per_litre
from greenroom.season.proposal import RefusedError
from greenroom.speech import figure, tr

INJECTORS = (64, 100, 128, 200)
"""An injector of 1:100 lets one part of stock into a hundred parts of feed."""
TEASPOON_G = (4.0, 6.0)
"""What a level teaspoon, 5 mL, of soluble feed weighs: from memory; feeds differ by more than that."""
STRONGEST_STOCK_G_L = 360.0
"""About what common feeds dissolve in cold water, 3 lb in a US gallon: from memory, the label tells."""
STRONGEST_PPM = 2000.0


@dataclass(frozen=True, slots=True)
class Mix:
    """A feed mixed: ``litres`` of it at ``ppm_n`` from a label of ``n_percent``."""

    n_percent: float
    ppm_n: float
    litres: float

    @property
    def grams_a_litre(self) -> float:
        """Feed for one litre of water [g]."""
        return grams_per_litre(self.ppm_n, self.n_percent)

    @property
    def grams(self) -> float:
        """Feed for all the water [g]."""
        return self.grams_a_litre * self.litres

    @property
    def teaspoons(self) -> tuple[float, float]:
        """Level teaspoons, at least and at most."""
        light, heavy = TEASPOON_G
        return self.grams / heavy, self.grams / light

    def stock_g_litre(self, ratio: int) -> float:
        """Return the feed in a litre of the stock that an injector thins by a ratio [g]."""
        return self.grams_a_litre * ratio

    def stock_oz_gallon(self, ratio: int) -> float:
        """Return the feed in a US gallon of that stock [oz], as extension charts tell it."""
        return self.stock_g_litre(ratio) * LITRES_IN_GALLON / GRAMS_IN_OUNCE

    def too_strong(self, ratio: int) -> bool:
        """Whether a stock is stronger than common feeds dissolve."""
        return self.stock_g_litre(ratio) > STRONGEST_STOCK_G_L


def mixed(n_percent: float, ppm_n: float, litres: float) -> Mix:
    """Return a feed mixed.

    Raises
    ------
    RefusedError
        For a label without nitrogen, or a strength or volume that cannot be.
    """
    if not 0 < n_percent <= 100:
        raise RefusedError(
            tr("{n_percent:g} % N on the label: above 0, at most 100 is allowed.", n_percent=n_percent)
        )
    if not 0 <= ppm_n <= STRONGEST_PPM:
        raise RefusedError(
            tr(
                "{ppm_n:g} ppm N: 0 to {most:,.0f} are allowed.",
                ppm_n=ppm_n,
                most=STRONGEST_PPM,
            )
        )
    if not 0 < litres <= 10_000:
        raise RefusedError(tr("{litres:g} L of water: above 0, at most 10,000 are allowed.", litres=litres))
    return Mix(n_percent, ppm_n, litres)


def teaspoon_words(mix: Mix) -> str:
    """Return the level teaspoons in quarters: "1¼ to 2 level teaspoons"."""
    low, high = (round(spoons * 4) / 4 for spoons in mix.teaspoons)
    if high < 0.25:
        return tr("less than ¼ of a level teaspoon")
    spoons = _quarters(high)
    if low not in (0, high):
        spoons = tr("{low} to {high}", low=_quarters(low), high=spoons)
    if high > 1:
        return tr("{spoons} level teaspoons", spoons=spoons)
    return tr("{spoons} of a level teaspoon", spoons=spoons)


def gram_words(grams: float) -> str:
    """Return grams as a kitchen or a pocket scale can weigh them."""
    if grams >= 100:
        return tr("{grams:,.0f} g", grams=grams)
    return tr("{grams:.1f} g", grams=grams) if grams >= 1 else tr("{grams:.2f} g", grams=grams)


def _quarters(spoons: float) -> str:
    if spoons >= 10:
        return figure(spoons, ".0f")
    whole, part = divmod(round(spoons * 4), 4)
    return f"{whole or ''}{('', '¼', '½', '¾')[part]}"
