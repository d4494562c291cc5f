"""What is behind a sign: its causes ranked by answers, those known from the record filled in beforehand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import prod

from greenroom.guide.troubles import Cause, Question, Sign, Troubles
from greenroom.guide.troubles_reading import load_troubles
from greenroom.season.state import Season
from greenroom.speech import tr

START = {"often": 4.0, "at times": 2.0, "seldom": 1.0}
"""Weight of a cause before anything is asked: a working weight of this program's own."""
FACTOR = {"++": 9.0, "+": 3.0, "-": 1 / 3, "--": 1 / 9}
"""What an answer multiplies the weight of a cause by: working weights of this program's own."""
FIRST_OF_ALL = 0.5
"""Share of the weights from which a cause is called the likely one: this program's own rule."""
LIKELY, MAY_BE = tr("likely", sense="a cause"), tr("may be", sense="a cause")
LESS_LIKELY, HARDLY = tr("less likely", sense="a cause"), tr("hardly", sense="a cause")
HOW_LIKELY = (LIKELY, MAY_BE, LESS_LIKELY, HARDLY)


@dataclass(frozen=True, slots=True)
class Known:
    """An answer that the record gives, and what in it says so."""

    answer: str
    words: str


@dataclass(frozen=True, slots=True)
class Ranked:
    """One cause with its weight, and its share of the weights of all causes of the sign, 0 to 1."""

    cause: Cause
    weight: float
    share: float

    @property
    def words(self) -> str:
        """How likely, in words: the weights are too rough for a figure."""
        if self.share >= FIRST_OF_ALL:
            return LIKELY
        if self.share >= 0.2:
            return MAY_BE
        return HARDLY if self.share < 0.05 else LESS_LIKELY


@dataclass(frozen=True, slots=True)
class Ranking:
    """The causes of a sign, the likeliest first, for the answers given."""

    sign: Sign
    answers: Mapping[str, str]
    causes: tuple[Ranked, ...]

    @property
    def first(self) -> Ranked:
        """The likeliest cause."""
        return self.causes[0]


def troubles_of(season: Season) -> Troubles:
    """Return what the guide knows of troubles, read once for a season."""
    return season.memo("troubles", (), load_troubles)


def rank(sign: Sign, answers: Mapping[str, str] | None = None) -> Ranking:
    """Return the causes of a sign by their weights.

    Parameters
    ----------
    sign : Sign
    answers : mapping of str to str, optional
        The answer to each question that was answered, by their keys; a question left out counts nothing.

    Returns
    -------
    Ranking
        The likeliest first; causes of the same weight stay in the order of the guide. Shares add up to 1.

    Raises
    ------
    LookupError
        If the sign asks no such question.
    ValueError
        If a question has no such answer.

    Notes
    -----
    The weight of a cause is its weight before anything was asked times a factor for each answer, as in
    Bayes's rule with answers taken to be independent. The order of asking cannot matter.
    """
    given = dict(answers or {})
    for key, answer in given.items():
        question = sign.question(key)
        if answer not in question.answers:
            raise ValueError(f"{answer!r} to {key!r}: {', '.join(question.answers)} are allowed")
    in_order = {one.key: given[one.key] for one in sign.questions if one.key in given}
    weights = [(cause, weight_of(cause, in_order)) for cause in sign.causes]
    total = sum(weight for _, weight in weights)
    ranked = [Ranked(cause, weight, weight / total) for cause, weight in weights]
    return Ranking(sign, in_order, tuple(sorted(ranked, key=lambda one: -one.weight)))


def weight_of(cause: Cause, answers: Mapping[str, str]) -> float:
    """Return the weight of a cause for some answers."""
    return START[cause.often] * prod(factor_of(cause, key, answer) for key, answer in answers.items())


def factor_of(cause: Cause, question: str, answer: str) -> float:
    """Return what an answer multiplies the weight of a cause by; 1 where it tells nothing."""
    speaks = cause.when.get(question, {}).get(answer)
    return 1.0 if speaks is None else FACTOR[speaks]


def next_question(ranking: Ranking) -> Question | None:
    """Return the unanswered question that moves the causes most, or None when all are answered.

    That is the one whose answers, taken as alike likely, move the greatest share furthest in the mean.
    """
    sign = ranking.sign
    left = [one for one in sign.questions if one.key not in ranking.answers]
    return max(left, key=lambda one: _moves(ranking, one), default=None)


def _moves(ranking: Ranking, question: Question) -> float:
    before = {one.cause.key: one.share for one in ranking.causes}
    moved = [
        abs(one.share - before[one.cause.key])
        for answer in question.answers
        for one in rank(ranking.sign, {**ranking.answers, question.key: answer}).causes
    ]
    return sum(moved) / len(question.answers)
