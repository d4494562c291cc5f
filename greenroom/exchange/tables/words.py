"""How the words of fixed lists read in the window; the files keep them in English."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from greenroom.season.care_words import SIGNS, sign_words
from greenroom.season.few_words import FORMS, LOST_BY, RIPE_WORDS
from greenroom.season.hardening_words import SETBACK_WORDS
from greenroom.season.losses import STAGE_WORDS
from greenroom.speech import tr

SHOWS = {
    "bare": tr("bare", sense="stage of a cell"),
    "sown": tr("sown", sense="stage of a cell"),
    "up": tr("up", sense="stage of a cell"),
    "true leaves": tr("true leaves"),
    "lost": tr("lost", sense="stage of a cell"),
    "moved on": tr("moved on", sense="stage of a cell"),
}
WATERED = {"above": tr("above", sense="watered from"), "below": tr("below", sense="watered from")}
WEIGHED = {
    "wet": tr("wet", sense="state of a weight"),
    "now": tr("now", sense="state of a weight"),
    "dry": tr("dry", sense="state of a weight"),
}
VERDICTS = {
    "out": tr("out", sense="verdict on a day"),
    "sheltered": tr("sheltered", sense="verdict on a day"),
    "hold": tr("hold", sense="verdict on a day"),
}
SOON = {"now": tr("now"), "today": tr("today"), "this week": tr("this week")}
ROUND = {
    "to do": tr("to do", sense="state of a job"),
    "done": tr("done", sense="state of a job"),
    "put off": tr("put off", sense="state of a job"),
    "struck out": tr("struck out", sense="state of a job"),
}


def one_of(words: Mapping[str, str]) -> Callable[[str], str]:
    """Return what tells how a word reads; one that is not known, such as the grower's own, stays."""

    def said(word: str) -> str:
        return words.get(word, word) if word else word

    return said


form, stage, watered, weighed = map(one_of, (FORMS, SHOWS, WATERED, WEIGHED))
ripeness, verdict, soon, state = map(one_of, (RIPE_WORDS, VERDICTS, SOON, ROUND))
cause, stage_lost, setback = map(one_of, (LOST_BY, STAGE_WORDS, SETBACK_WORDS))
sign = one_of({sign_words(key): words for key, words in SIGNS.items()})
