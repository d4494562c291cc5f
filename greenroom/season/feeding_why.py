"""Why a feed is as strong as it is, how it is mixed, and what to take care of."""

from __future__ import annotations

from greenroom.ledger.facts import Fed
from greenroom.season.care_words import analysis_words
from greenroom.season.deeds_care import Feed
from greenroom.season.feeding import EVERY_DAYS, Given, Need
from greenroom.season.feeding_mix import INJECTORS, TEASPOON_G, Mix, gram_words
from greenroom.season.hardening_words import day_words
from greenroom.season.holders import Holder
from greenroom.season.why import CUSTOM, Why
from greenroom.speech import many, tr

RULE = tr(
    "Fed every {every_days} days from the first true leaves on, as strong as the guide "
    "asks for at their stage. From the first flower on the feed holds more potash than "
    "nitrogen. Not while seed leaves last, and not while the guide says none.",
    every_days=EVERY_DAYS,
)
MASS = tr(
    "Mass balance: 1 ppm is 1 mg in a litre, so grams in a litre are ppm over ten times "
    "the percent N of the label. Agrees with the mixing tables of Virginia Tech and "
    "Cornell University extension."
)
RATIOS = tr(
    "Cornell University (Mattson) reads 1:100 as one part of stock in a hundred of feed, "
    "some sellers as one part to a hundred of water: one part in a hundred of difference."
)
DISPUTE = tr(
    "Against it: Duan and others 2010 found that seedlings given more nitrogen were "
    "harmed less by chill (abstract)."
)
LEAFY = tr(
    "Extension advice: much nitrogen makes foliage, and flowers abort. New Mexico State "
    "University (Cotter) calls chile rather insensitive to added nutrients, so more of "
    "it gains little."
)
CARE = tr(
    "The label is the law: read it first and never mix stronger than it allows. Keep "
    "feed in its own closed packet, dry, locked away from children, pets, food and seed. "
    "Wear gloves and eye protection with powders and stock, do not breathe the dust, "
    "wash your hands. Keep feed out of drains and streams. Local rules and your "
    "extension service come first."
)
SPOONS = tr("Spoons are rough: powders settle and differ. Weigh it, or weigh one level spoon of yours first.")


def need_why(need: Need) -> Why:
    """Return why a holder's feed is that strong."""
    asked = need.asked.value
    span = (
        tr("{low:g} ppm N", low=asked.low)
        if asked.low == asked.high
        else tr("{low:g} to {high:g} ppm N", low=asked.low, high=asked.high)
    )
    return Why(
        tr("{ppm_n:g} ppm N for {holder}", ppm_n=need.ppm_n, holder=need.made.name),
        tr(
            "{rule} Where the guide gives a range, its low end is proposed: more can follow, "
            "salt cannot be taken back.",
            rule=RULE,
        ),
        (
            (tr("stage"), need.words),
            (tr("the guide asks for"), span),
            (tr("last fed so"), tr("not yet") if need.last is None else day_words(need.last)),
            (tr("next"), day_words(need.due) if need.ppm_n > 0 else tr("not for now")),
        ),
        (need.source, DISPUTE, CUSTOM) if need.stage == "hardening" else (need.source, CUSTOM),
    )


def mix_why(mix: Mix, feed: Feed) -> Why:
    """Return how the grams were found."""
    stocks = tuple(
        (
            tr("stock for 1:{ratio}", ratio=ratio),
            tr("{grams:,.0f} g a litre", grams=mix.stock_g_litre(ratio)),
        )
        for ratio in INJECTORS
    )
    return Why(
        tr("{grams} of {feed}", grams=gram_words(mix.grams), feed=feed.name or tr("feed")),
        tr(
            "Grams in a litre are the ppm wanted over ten times the percent N of the label; "
            "times the litres. A stock is as many times as strong as the injector thins it. A "
            "level teaspoon is taken to weigh {light_g:g} to {heavy_g:g} g.",
            light_g=TEASPOON_G[0],
            heavy_g=TEASPOON_G[1],
        ),
        (
            (tr("label"), analysis_words(feed.n_percent, feed.p2o5_percent, feed.k2o_percent)),
            (tr("wanted"), tr("{ppm_n:g} ppm N", ppm_n=mix.ppm_n)),
            (tr("water"), tr("{litres:.4g} L", litres=mix.litres)),
            (tr("in a litre"), gram_words(mix.grams_a_litre)),
            *stocks,
        ),
        (MASS, RATIOS),
    )


def record_why(made: Holder, told: tuple[Given, ...], plants: int) -> Why:
    """Return how the nitrogen given was summed."""
    total = told[-1].sum_g if told else 0.0
    return Why(
        tr("{grams} of nitrogen given to {holder}", grams=gram_words(total), holder=made.name),
        tr(
            "Each feed's ppm N times its litres, summed. It tells what was given, not what the "
            "roots took: part of it drains away."
        ),
        (
            (tr("feeds told"), str(len(told))),
            (tr("living plants now"), str(plants)),
            *(
                (
                    day_words(one.fact.day),
                    tr("{ppm_n:g} ppm × {litres:g} L", ppm_n=one.fact.ppm_n, litres=one.fact.litres),
                )
                for one in told[-8:]
            ),
        ),
        (tr("1 ppm is 1 mg in a litre of water."),),
    )


def leafy_words(made: Holder, fed: Fed) -> str:
    """Return the warning when feed with much nitrogen goes on after the first flower."""
    return tr(
        "{holder} is in flower and was fed {feed} ({analysis}) on {day}: nitrogen now makes "
        "leaf, and flowers may drop. Shift to a feed with more potash than nitrogen.",
        holder=made.name,
        feed=fed.feed,
        analysis=analysis_words(fed.n_percent, fed.p2o5_percent, fed.k2o_percent),
        day=day_words(fed.day),
    )


def leafy_why(made: Holder, fed: Fed) -> Why:
    """Return why it warns."""
    return Why(
        tr("Shift the feed of {holder}", holder=made.name),
        tr("From the first flower on the feed holds more potash (K2O) than nitrogen (N), by its label."),
        (
            (
                tr("fed"),
                tr(
                    "{n_percent:g} % N, {k2o_percent:g} % K2O",
                    n_percent=fed.n_percent,
                    k2o_percent=fed.k2o_percent,
                ),
            ),
            (tr("on", sense="a day"), day_words(fed.day)),
        ),
        (LEAFY, CUSTOM),
    )


def plants_words(grams: float, plants: int) -> str:
    """Return nitrogen in all and a plant: "1.2 g in all, 0.05 g for each of 24 plants"."""
    if not plants:
        return tr("{grams} N in all", grams=gram_words(grams))
    return tr(
        "{grams} N in all, {each} for each of {plants}",
        grams=gram_words(grams),
        each=gram_words(grams / plants),
        plants=many(plants, "plant"),
    )
