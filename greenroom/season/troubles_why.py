"""Why the causes of a sign stand in their order, and the words of troubles in the grower's unit."""

from __future__ import annotations

import re
from collections.abc import Mapping

from greenroom.season.place import Place
from greenroom.season.temperatures import from_celsius
from greenroom.season.troubles import FACTOR, START, Known, Ranked, Ranking, factor_of
from greenroom.season.why import Why
from greenroom.speech import figure, tr

RULE = tr(
    "Each cause starts with a weight by how often it is behind the sign: often {often:g}, at times "
    "{at_times:g}, seldom {seldom:g}. Each answer multiplies it: strongly for {strongly:g}, for {speaks:g}, "
    "against 1/{against:g}, strongly against 1/{least:g}. The shares are of the sum of the weights. The "
    "weights are this program's own working weights, nobody has published such; that a cause goes with the "
    "sign is the sources' word.",
    often=START["often"],
    at_times=START["at times"],
    seldom=START["seldom"],
    strongly=FACTOR["++"],
    speaks=FACTOR["+"],
    against=1 / FACTOR["-"],
    least=1 / FACTOR["--"],
)
NUMBER = r"([-\u2212]?\d+(?:[.,]\d+)?)"
TO = tr("to", sense="between the two numbers of a span: 25 to 30 °C")
CELSIUS = re.compile(rf"{NUMBER}(?: {re.escape(TO)} {NUMBER})?[ \u00a0\u202f]°C")
"""A temperature or a span of two as the guide writes it, in any language: 12.5 °C, 12,5 °C, 25 to 30 °C."""


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
        words = tr("not answered") if answer is None else in_unit(question.answers[answer], place)
        told = known.get(question.key)
        if told is not None and told.answer == answer:
            words = tr("{answer} (from your record: {told})", answer=words, told=told.words)
        inputs.append((in_unit(question.ask, place), words))
    inputs += [(one.cause.name, weight_words(ranking, one)) for one in ranking.causes]
    sources = dict.fromkeys(source for one in ranking.causes for source in one.cause.citations)
    figure_words = tr("{name}: {what}", name=ranking.sign.name, what=ranking.first.cause.name)
    return Why(figure_words, RULE, tuple(inputs), tuple(sources))


def weight_words(ranking: Ranking, one: Ranked) -> str:
    """Return how the weight of a cause came about: 4 × 9 × 1/3 = 12, 60 %."""
    factors = [factor_of(one.cause, key, answer) for key, answer in ranking.answers.items()]
    told = "".join(f" × {_plain(factor)}" for factor in factors if factor != 1.0)
    start, weight = figure(START[one.cause.often], "g"), figure(one.weight, ".3g")
    return tr(
        "{sum} = {weight}, {percent:.0f}%", sum=f"{start}{told}", weight=weight, percent=one.share * 100
    )


def _plain(factor: float) -> str:
    return figure(factor, "g") if factor >= 1 else f"1/{figure(1 / factor, 'g')}"


def _fahrenheit(found: re.Match[str]) -> str:
    words = [f"{from_celsius(_read(told), 'f'):.0f}" for told in found.groups() if told is not None]
    return f"{f' {TO} '.join(words)} °F"


def _read(number: str) -> float:
    return float(number.replace(",", ".").replace("\u2212", "-"))
