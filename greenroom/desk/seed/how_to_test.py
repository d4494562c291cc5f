"""How a germination test is made at home, in a few lines, and where that comes from."""

from __future__ import annotations

from greenroom.guide import Crop
from greenroom.season.crops import cite, crop_of
from greenroom.season.home_tests import final_days
from greenroom.season.packets import PacketView
from greenroom.season.sprouting import SayC
from greenroom.season.state import Season
from greenroom.season.why import Why

HANDLING = (
    "Laying, rolling and keeping moist: common practice, no source. A test for the law uses 400 seeds and "
    "counts sound seedlings; at home a root that shows is the sign, which counts a little high."
)
ALL_TESTS = "7 CFR 201.58, table 2, names the warmth and the days of the counts for each kind."


def how_to_words(season: Season, view: PacketView, say_c: SayC) -> str:
    """Return how a packet's seed is tested, with its own warmth and days."""
    crop = crop_of(season.guide, view.crop)
    days = final_days(season, view.key)
    first = crop.test_first_count_days if crop else None
    looks = f"Look each day, from day {first.value:.0f} at the latest" if first else "Look each day"
    return (
        "1. Lay the seeds apart on kitchen paper that is moist, not dripping; roll it up and put it in a bag "
        "left a little open.\n"
        f"2. Keep it at {_warmth_words(crop, say_c)}. Wet the paper again before it dries.\n"
        f"3. {looks}: count and take out the seeds whose root shows.\n"
        f"4. Count a last time on day {days}; what has not come by then has not germinated."
    )


def how_to_why(crop: Crop | None, say_c: SayC) -> Why:
    """Return where the way of testing comes from."""
    told, sources = [], [HANDLING, ALL_TESTS]
    if crop is not None and crop.test_c is not None:
        told.append(("the law's test", _test_warmth(crop, say_c)))
        sources.append(cite(crop.test_c))
    if crop is not None and crop.germination_best_c is not None:
        span = crop.germination_best_c.value
        told.append(("comes up best at", f"{say_c(span.low)} to {say_c(span.high)}"))
        sources.append(cite(crop.germination_best_c))
    if crop is not None and crop.test_final_count_days is not None:
        told.append(("last count of the law's test", f"day {crop.test_final_count_days.value:.0f}"))
    rule = (
        "The warmth is that at which the kind comes up best, by the guide. The last count is that of the "
        "law's test, or later where the guide's days to come up for the kind end later."
    )
    name = crop.name if crop else "Seed of a kind not in the guide"
    return Why(f"{name}: a test on moist paper", rule, tuple(told), tuple(dict.fromkeys(sources)))


def _warmth_words(crop: Crop | None, say_c: SayC) -> str:
    best = crop.germination_best_c if crop else None
    if best is not None:
        span = best.value
        return say_c(span.low) if span.low == span.high else f"{say_c(span.low)} to {say_c(span.high)}"
    return _test_warmth(crop, say_c) if crop and crop.test_c else "the warmth you sow in"


def _test_warmth(crop: Crop, say_c: SayC) -> str:
    if crop.test_c is None:
        return ""
    span = crop.test_c.value
    if span.low == span.high:
        return say_c(span.low)
    return f"{say_c(span.low)} for 16 hours of the day and {say_c(span.high)} for 8"
