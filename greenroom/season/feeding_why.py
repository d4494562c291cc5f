"""Why a feed is as strong as it is, how it is mixed, and what to take care of."""

from __future__ import annotations

from greenroom.ledger.facts import Fed
from greenroom.season.deeds_care import Feed
from greenroom.season.feeding import EVERY_DAYS, Given, Need
from greenroom.season.feeding_mix import INJECTORS, TEASPOON_G, Mix, gram_words
from greenroom.season.hardening_words import day_words
from greenroom.season.holders import Holder
from greenroom.season.why import Why
from greenroom.speech import many

CUSTOM = "Common practice, no source."
RULE = (
    f"Fed every {EVERY_DAYS} days from the first true leaves on, as strong as the guide asks for at their "
    "stage. From the first flower on the feed holds more potash than nitrogen. Not while seed leaves last, "
    "and not while the guide says none."
)
MASS = (
    "Mass balance: 1 ppm is 1 mg in a litre, so grams in a litre are ppm over ten times the percent N of the "
    "label. Agrees with the mixing tables of Virginia Tech and Cornell University extension."
)
RATIOS = (
    "Cornell University (Mattson) reads 1:100 as one part of stock in a hundred of feed, some sellers as one "
    "part to a hundred of water: one part in a hundred of difference."
)
DISPUTE = (
    "Against it: Duan and others 2010 found that seedlings given more nitrogen were harmed less by chill "
    "(abstract)."
)
LEAFY = (
    "Extension advice: much nitrogen makes foliage, and flowers abort. New Mexico State University (Cotter) "
    "calls chile rather insensitive to added nutrients, so more of it gains little."
)
CARE = (
    "The label is the law: read it first and never mix stronger than it allows. Keep feed in its own closed "
    "packet, dry, locked away from children, pets, food and seed. Wear gloves and eye protection with "
    "powders and stock, do not breathe the dust, wash your hands. Keep feed out of drains and streams. Local "
    "rules and your extension service come first."
)
SPOONS = "Spoons are rough: powders settle and differ. Weigh it, or weigh one level spoon of yours first."


def need_why(need: Need) -> Why:
    """Return why a holder's feed is that strong."""
    asked = need.asked.value
    span = f"{asked.low:g} ppm N" if asked.low == asked.high else f"{asked.low:g} to {asked.high:g} ppm N"
    return Why(
        f"{need.ppm_n:g} ppm N for {need.made.name}",
        f"{RULE} Where the guide gives a range, its low end is proposed: more can follow, salt cannot be "
        "taken back.",
        (
            ("stage", need.words),
            ("the guide asks for", span),
            ("last fed so", "not yet" if need.last is None else day_words(need.last)),
            ("next", day_words(need.due) if need.ppm_n > 0 else "not for now"),
        ),
        (need.source, DISPUTE, CUSTOM) if need.stage == "hardening" else (need.source, CUSTOM),
    )


def mix_why(mix: Mix, feed: Feed) -> Why:
    """Return how the grams were found."""
    stocks = tuple(
        (f"stock for 1:{ratio}", f"{mix.stock_g_litre(ratio):,.0f} g a litre") for ratio in INJECTORS
    )
    return Why(
        f"{gram_words(mix.grams)} of {feed.name or 'feed'}",
        "Grams in a litre are the ppm wanted over ten times the percent N of the label; times the litres. A "
        "stock is as many times as strong as the injector thins it. A level teaspoon is taken to weigh "
        f"{TEASPOON_G[0]:g} to {TEASPOON_G[1]:g} g.",
        (
            ("label", f"{feed.n_percent:g}-{feed.p2o5_percent:g}-{feed.k2o_percent:g}"),
            ("wanted", f"{mix.ppm_n:g} ppm N"),
            ("water", f"{mix.litres:.4g} L"),
            ("in a litre", gram_words(mix.grams_a_litre)),
            *stocks,
        ),
        (MASS, RATIOS),
    )


def record_why(made: Holder, told: tuple[Given, ...], plants: int) -> Why:
    """Return how the nitrogen given was summed."""
    total = told[-1].sum_g if told else 0.0
    return Why(
        f"{gram_words(total)} of nitrogen given to {made.name}",
        "Each feed's ppm N times its litres, summed. It tells what was given, not what the roots took: part "
        "of it drains away.",
        (
            ("feeds told", str(len(told))),
            ("living plants now", str(plants)),
            *(
                (day_words(one.fact.day), f"{one.fact.ppm_n:g} ppm × {one.fact.litres:g} L")
                for one in told[-8:]
            ),
        ),
        ("1 ppm is 1 mg in a litre of water.",),
    )


def leafy_words(made: Holder, fed: Fed) -> str:
    """Return the warning when feed with much nitrogen goes on after the first flower."""
    analysis = f"{fed.n_percent:g}-{fed.p2o5_percent:g}-{fed.k2o_percent:g}"
    return (
        f"{made.name} is in flower and was fed {fed.feed} ({analysis}) on {day_words(fed.day)}: nitrogen now "
        "makes leaf, and flowers may drop. Shift to a feed with more potash than nitrogen."
    )


def leafy_why(made: Holder, fed: Fed) -> Why:
    """Return why it warns."""
    return Why(
        f"Shift the feed of {made.name}",
        "From the first flower on the feed holds more potash (K2O) than nitrogen (N), by its label.",
        (
            ("fed", f"{fed.n_percent:g} % N, {fed.k2o_percent:g} % K2O"),
            ("on", day_words(fed.day)),
        ),
        (LEAFY, CUSTOM),
    )


def plants_words(grams: float, plants: int) -> str:
    """Return nitrogen in all and a plant: "1.2 g in all, 0.05 g for each of 24 plants"."""
    if not plants:
        return f"{gram_words(grams)} N in all"
    return f"{gram_words(grams)} N in all, {gram_words(grams / plants)} for each of {many(plants, 'plant')}"
