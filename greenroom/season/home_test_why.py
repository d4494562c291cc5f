"""What a germination test made at home says, and how it compares with the seed law's least germination."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from greenroom.agronomy.sprouting import interval
from greenroom.guide import Crop
from greenroom.season.crops import cite
from greenroom.season.germination import least_share
from greenroom.season.germination_why import CLOPPER_PEARSON
from greenroom.season.hardening_words import day_words
from greenroom.season.home_tests import HomeTest
from greenroom.season.sprouting import chance_words
from greenroom.season.why import Why
from greenroom.speech import many, tr


class Beside(StrEnum):
    """Where a test stands beside a share: the whole interval above it, below it, or about it."""

    ABOVE = "above"
    BELOW = "below"
    ABOUT = "about"


def range_of_test(test: HomeTest) -> tuple[float, float]:
    """Return the 95 % interval of a test's share, by Clopper and Pearson."""
    return interval(test.germinated, test.seeds, method="exact")


def beside(test: HomeTest, least: float) -> Beside:
    """Return where a test stands beside the least share that may be sold."""
    low, high = range_of_test(test)
    if low >= least:
        return Beside.ABOVE
    return Beside.BELOW if high < least else Beside.ABOUT


def law_words(test: HomeTest, crop: Crop | None) -> str:
    """Return in one sentence how a test that is over compares with the seed law; empty where it is silent."""
    least = least_share(crop)
    if least is None:
        return ""
    asked = chance_words(least)
    return {
        Beside.ABOVE: tr("Surely above the {share} that the seed law asks of seed for sale.", share=asked),
        Beside.BELOW: tr("Surely below the {share} that the seed law asks of seed for sale.", share=asked),
        Beside.ABOUT: tr(
            "It may lie on either side of the {share} that the seed law asks of seed for sale; more seeds "
            "would tell.",
            share=asked,
        ),
    }[beside(test, least)]


def state_words(test: HomeTest, today: date) -> str:
    """Return how a test stands: its final figure with the interval, or how far it has come."""
    so_far = tr("{germinated} of {seeds}", germinated=test.germinated, seeds=test.seeds)
    if test.over:
        low, high = range_of_test(test)
        share = chance_words(test.germinated / test.seeds)
        return tr(
            "{so_far} germinated: {share} ({low} to {high}).",
            so_far=so_far,
            share=share,
            low=chance_words(low),
            high=chance_words(high),
        )
    if today < test.due:
        day = (today - test.begun).days
        return tr(
            "Day {day} of {days}, {so_far} so far. Last count on {due}.",
            day=day,
            days=test.final_days,
            so_far=so_far,
            due=day_words(test.due),
        )
    return tr(
        "{so_far} so far. The last count was due on {due}; enter it, even if it is 0.",
        so_far=so_far,
        due=day_words(test.due),
    )


def home_test_why(test: HomeTest, crop: Crop | None) -> Why:
    """Return how the figure of a test comes about."""
    low, high = range_of_test(test)
    told = [
        (tr("seeds set"), tr("{seeds} on {day}", seeds=test.seeds, day=day_words(test.begun))),
        (tr("germinated"), str(test.germinated)),
        (
            tr("last count due"),
            tr("day {number}, {day}", number=test.final_days, day=day_words(test.due)),
        ),
    ]
    sources = [CLOPPER_PEARSON]
    if crop is not None and crop.legal_minimum_percent is not None:
        told.append(
            (
                tr("least that may be sold without a warning"),
                f"{crop.legal_minimum_percent.value:.0f} %",
            )
        )
        sources.append(cite(crop.legal_minimum_percent))
    if crop is not None and crop.test_final_count_days is not None:
        sources.append(cite(crop.test_final_count_days))
    rule = tr(
        "The share is the seeds germinated over those set. The interval holds every share "
        "for which so many or fewer, and so many or more, would come up at least one time in "
        "forty: 95 % sure, and wide with few seeds. With {seeds} it cannot be narrower.",
        seeds=many(test.seeds, "seed"),
    )
    figure = tr(
        "{germinated} of {seeds}: {low} to {high}",
        germinated=test.germinated,
        seeds=test.seeds,
        low=chance_words(low),
        high=chance_words(high),
    )
    return Why(figure, rule, tuple(told), tuple(dict.fromkeys(sources)))
