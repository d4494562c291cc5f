"""How a germination test is made at home, in a few lines, and where that comes from."""

from __future__ import annotations

from greenroom.guide import Crop, Span
from greenroom.season.crops import cite, crop_of
from greenroom.season.home_tests import final_days
from greenroom.season.packets import PacketView
from greenroom.season.state import Season
from greenroom.season.temperatures import SayC
from greenroom.season.why import Why
from greenroom.speech import tr

HANDLING = tr(
    "Laying, rolling and keeping moist: common practice, no source. A test for the law "
    "uses 400 seeds and counts sound seedlings; at home a root that shows is the sign, "
    "which counts a little high."
)
ALL_TESTS = tr("7 CFR 201.58, table 2, names the warmth and the days of the counts for each kind.")


def how_to_words(season: Season, view: PacketView, say_c: SayC) -> str:
    """Return how a packet's seed is tested, with its own warmth and days."""
    crop = crop_of(season.guide, view.crop)
    days = final_days(season, view.key)
    first = crop.test_first_count_days if crop else None
    if first:
        looks = tr(
            "3. Look each day, from day {day:.0f} at the latest: count and take out the seeds whose root "
            "shows.",
            day=first.value,
        )
    else:
        looks = tr("3. Look each day: count and take out the seeds whose root shows.")
    lines = (
        tr(
            "1. Lay the seeds apart on kitchen paper that is moist, not dripping; roll it up and put it in a "
            "bag left a little open."
        ),
        tr("2. Keep it at {warmth}. Wet the paper again before it dries.", warmth=_warmth_words(crop, say_c)),
        looks,
        tr("4. Count a last time on day {day}; what has not come by then has not germinated.", day=days),
    )
    return "\n".join(lines)


def how_to_why(crop: Crop | None, say_c: SayC) -> Why:
    """Return where the way of testing comes from."""
    told, sources = [], [HANDLING, ALL_TESTS]
    if crop is not None and crop.test_c is not None:
        told.append((tr("the law's test"), _test_warmth(crop, say_c)))
        sources.append(cite(crop.test_c))
    if crop is not None and crop.germination_best_c is not None:
        span = crop.germination_best_c.value
        told.append((tr("comes up best at"), _span(span, say_c)))
        sources.append(cite(crop.germination_best_c))
    if crop is not None and crop.test_final_count_days is not None:
        told.append(
            (tr("last count of the law's test"), tr("day {day:.0f}", day=crop.test_final_count_days.value))
        )
    rule = tr(
        "The warmth is that at which the kind comes up best, by the guide. The last count is "
        "that of the law's test, or later where the guide's days to come up for the kind end "
        "later."
    )
    name = crop.name if crop else tr("Seed of a kind not in the guide")
    return Why(
        tr("{crop}: a test on moist paper", crop=name), rule, tuple(told), tuple(dict.fromkeys(sources))
    )


def _span(span: Span, say_c: SayC) -> str:
    return tr("{low} to {high}", low=say_c(span.low), high=say_c(span.high))


def _warmth_words(crop: Crop | None, say_c: SayC) -> str:
    best = crop.germination_best_c if crop else None
    if best is not None:
        span = best.value
        return say_c(span.low) if span.low == span.high else _span(span, say_c)
    return _test_warmth(crop, say_c) if crop and crop.test_c else tr("the warmth you sow in")


def _test_warmth(crop: Crop, say_c: SayC) -> str:
    if crop.test_c is None:
        return ""
    span = crop.test_c.value
    if span.low == span.high:
        return say_c(span.low)
    return tr("{low} for 16 hours of the day and {high} for 8", low=say_c(span.low), high=say_c(span.high))
