"""Why a packet is expected to come up as it is: the label, its age, tests, own sowings, the law."""

from __future__ import annotations

from datetime import date

from greenroom.agronomy.sprouting import interval
from greenroom.guide import Crop
from greenroom.season.crops import cite, crop_of, crop_words
from greenroom.season.germination import Expected, Prior
from greenroom.season.hardening_words import day_words
from greenroom.season.home_tests import HomeTest, home_tests_of
from greenroom.season.lots import LABEL_SEEDS
from greenroom.season.packets import PacketView, packet_view
from greenroom.season.sprouting import USUAL_GERMINATION, chance_words
from greenroom.season.state import Season
from greenroom.season.temperatures import SayC, in_celsius
from greenroom.season.why import Why
from greenroom.speech import many, tr

ELLIS_ROBERTS = tr(
    "Ellis, R. H. and Roberts, E. H. 1980. Improved equations for the prediction of seed "
    "longevity. Annals of Botany 45:13-30 (the probit of the share that lives falls in a "
    "straight line; from memory)."
)
GELMAN = tr(
    "Gelman, A. et al. 2013. Bayesian Data Analysis, 3rd ed., section 2.4 (a beta prior "
    "counted in seeds; from memory)."
)
CLOPPER_PEARSON = tr("Clopper, C. J. and Pearson, E. S. 1934. Biometrika 26:404-413 (exact interval).")


def germination_why(season: Season, expected: Expected, today: date, say_c: SayC = in_celsius) -> Why:
    """Return what went into a packet's expected share; ``say_c`` puts a temperature [°C] into words."""
    view = packet_view(season, expected.packet)
    crop = crop_of(season.guide, view.crop if view else None)
    tests = home_tests_of(season, expected.packet)
    told = _label_words(season, view, crop, expected.prior) if view else []
    told += [*_test_words(tests, today, say_c), *_own_words(expected)]
    sources = _sources(crop, expected.prior, tests)
    return Why(share_words(expected), _rule(crop, expected.prior), tuple(told), sources)


def share_words(expected: Expected) -> str:
    """Return the share with its range: 78 % expected up (61 % to 91 %)."""
    low, high = chance_words(expected.low), chance_words(expected.high)
    return tr("{share} expected up ({low} to {high})", share=chance_words(expected.share), low=low, high=high)


def _label_words(season: Season, view: PacketView, crop: Crop | None, prior: Prior) -> list[tuple[str, str]]:
    label, packed = view.packet.germination, view.packet.packed
    said = tr("nothing; {share} is taken, a working rule", share=chance_words(USUAL_GERMINATION))
    told = [
        (tr("crop"), crop_words(season.guide, view.crop)),
        (tr("the label says"), said if label is None else chance_words(label)),
        (tr("packed"), tr("not known, so its age is left out") if packed is None else str(packed)),
    ]
    life = crop.seed_life_years if crop else None
    if life is not None:
        span = life.value
        years = (
            tr("{low:g} years", low=span.low)
            if span.low == span.high
            else tr("{low:g} to {high:g} years", low=span.low, high=span.high)
        )
        told.append((tr("such seed keeps"), years))
    if prior.age:
        told.append((tr("after {years}", years=many(prior.age, "year")), chance_words(prior.share)))
    return [*told, (tr("the label counts as"), tr("{weight:.0f} seeds", weight=prior.weight))]


def _test_words(tests: list[HomeTest], today: date, say_c: SayC) -> list[tuple[str, str]]:
    told = []
    for test in tests:
        so_far = tr("{germinated} of {seeds}", germinated=test.germinated, seeds=test.seeds)
        if test.over:
            low, high = interval(test.germinated, test.seeds, method="exact")
            words = tr(
                "{so_far} ({low} to {high}, 95 % interval)",
                so_far=so_far,
                low=chance_words(low),
                high=chance_words(high),
            )
        elif today < test.due:
            due = day_words(test.due)
            words = tr("{so_far} so far; counted in when it ends on {day}", so_far=so_far, day=due)
        else:
            words = tr("{so_far} so far; it waits for its last count, which may be 0", so_far=so_far)
        told.append((_test_name(test, say_c), words))
    return told


def _test_name(test: HomeTest, say_c: SayC) -> str:
    day = day_words(test.begun)
    if test.warmth_c is None:
        return tr("test of {day}", day=day)
    return tr("test of {day} at {temperature}", day=day, temperature=say_c(test.warmth_c))


def _own_words(expected: Expected) -> list[tuple[str, str]]:
    told, sown = [], expected.sown
    if sown.tried:
        told.append(
            (
                tr("own sowings that had time"),
                tr("{came} of {tried:.0f} came up", came=sown.came, tried=sown.tried),
            )
        )
    if expected.least is not None and expected.below is not None:
        told.append((tr("least that may be sold without a warning"), chance_words(expected.least)))
        told.append((tr("chance that this lot lies below it"), chance_words(expected.below)))
    return told


def _rule(crop: Crop | None, prior: Prior) -> str:
    aged = tr(
        "Its age is brought in by letting the probit of the share fall in a straight line, "
        "so that over the years such seed keeps a lot of 85 % comes down to the least that "
        "may be sold (half, where the law names none); the label's weight halves over the "
        "same years. How it was stored is not known and matters more than age: test it."
    )
    ageless = tr("How long such seed keeps is not in the guide, so its age is left out.")
    life = crop is not None and crop.seed_life_years is not None
    label = tr(
        "The label counts as much as {seeds} seeds of one's own in the year it was packed.",
        seeds=LABEL_SEEDS,
    )
    added = tr(
        "Seeds of tests that are over, and of own sowings that had time to show, are added one by one; those "
        "that the warmth alone would have kept down are left out. The share is the mean of a beta "
        "distribution, the range holds nine tenths of it."
    )
    return " ".join([label, *([aged if life else ageless] if prior.age else []), added])


def _sources(crop: Crop | None, prior: Prior, tests: list[HomeTest]) -> tuple[str, ...]:
    found = [GELMAN]
    if crop is not None and crop.seed_life_years is not None and prior.age:
        found += [cite(crop.seed_life_years), ELLIS_ROBERTS]
    if crop is not None and crop.legal_minimum_percent is not None:
        found.append(cite(crop.legal_minimum_percent))
    if any(test.over for test in tests):
        found.append(CLOPPER_PEARSON)
    return tuple(dict.fromkeys(found))
