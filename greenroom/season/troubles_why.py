"""Why the causes of a sign stand in their order, and the words of troubles in the grower's unit."""

from __future__ import annotations

import re
from collections.abc import Mapping

from greenroom.season.place import Place
from greenroom.season.troubles import FACTOR, START, Known, Ranked, Ranking, factor_of
from greenroom.season.why import Why

RULE = (
    "Each cause starts with a weight by how often it is behind the sign: "
    + ", ".join(f"{words} {weight:g}" for words, weight in START.items())
    + ". Each answer multiplies it: strongly for "
    + f"{FACTOR['++']:g}, for {FACTOR['+']:g}, against 1/{1 / FACTOR['-']:g}, strongly against "
    + f"1/{1 / FACTOR['--']:g}. The shares are of the sum of the weights. The weights are this program's own "
    "working weights, nobody has published such; that a cause goes with the sign is the sources' word."
)
CELSIUS = re.compile(r"(-?\d+(?:\.\d+)?)(?: to (-?\d+(?:\.\d+)?))? °C")


def in_unit(text: str, place: Place) -> str:
    """Return a text of the guide with its temperatures in the unit of a place."""
    if place.temperature != "f":
        return text
    return CELSIUS.sub(_fahrenheit, text)


def ranking_why(ranking: Ranking, known: Mapping[str, Known], place: Place) -> Why:
    """Return why the causes of a sign stand in their order."""
    inputs = []
    for question in ranking.sign.questions:
        answer = ranking.answers.get(question.key)
        words = "not answered" if answer is None else in_unit(question.answers[answer], place)
        told = known.get(question.key)
        if told is not None and told.answer == answer:
            words += f" (from your record: {told.words})"
        inputs.append((in_unit(question.ask, place), words))
    inputs += [(one.cause.name, weight_words(ranking, one)) for one in ranking.causes]
    sources = dict.fromkeys(source for one in ranking.causes for source in one.cause.citations)
    return Why(f"{ranking.sign.name}: {ranking.first.cause.name}", RULE, tuple(inputs), tuple(sources))


def weight_words(ranking: Ranking, one: Ranked) -> str:
    """Return how the weight of a cause came about: 4 × 9 × 1/3 = 12, 60 %."""
    factors = [factor_of(one.cause, key, answer) for key, answer in ranking.answers.items()]
    told = "".join(f" × {_plain(factor)}" for factor in factors if factor != 1.0)
    return f"{START[one.cause.often]:g}{told} = {one.weight:.3g}, {one.share:.0%}"


def _plain(factor: float) -> str:
    return f"{factor:g}" if factor >= 1 else f"1/{1 / factor:g}"


def _fahrenheit(found: re.Match[str]) -> str:
    low, high = found.groups()
    words = [f"{float(value) * 9 / 5 + 32:.0f}" for value in (low, high) if value is not None]
    return f"{' to '.join(words)} °F"
