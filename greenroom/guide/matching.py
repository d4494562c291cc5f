"""Finding what a few words from a seed list mean, without asking for the exact name."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence

Names = Mapping[str, Sequence[frozenset[str]]]
PLURALS = ("n", "en", "e", "x")
"""Ends of plurals besides the s: Tomaten, Bohnen; melones; poireaux."""


def words_of(text: str) -> frozenset[str]:
    """Return the words of `text` without accents, capitals, marks and the plural s."""
    letters = re.sub(r"['’]", "", plain(text))
    return frozenset(_singular(word) for word in re.findall(r"[^\W\d_]+", letters))


def plain(text: str) -> str:
    """Return `text` without accents and capitals, by which names are sorted and found."""
    marks = unicodedata.normalize("NFKD", text)
    return "".join(mark for mark in marks if not unicodedata.combining(mark)).casefold()


def best_match(text: str, names: Names, lineage: Mapping[str, Sequence[str]]) -> str | None:
    """Return the key whose names, with those of its ancestors, cover most of the words of `text`.

    Parameters
    ----------
    text
        What somebody wrote, such as "C. chinense" or "Capsicum annuum jalapeño".
    names
        For each key the names it goes by, each as a set of words.
    lineage
        For each key the key itself and its ancestors, nearest first.

    Returns
    -------
    str or None
        None when nothing fits, or when two kinds that are no kin fit alike.
    """
    said = _as_named(words_of(text), names)
    own = {key: _covered(said, every) for key, every in names.items()}
    spread = {key: _union(own[ancestor] for ancestor in lineage[key]) for key in names if own[key]}
    if not spread:
        return None
    most = max(len(words) for words in spread.values())
    best = [key for key, words in spread.items() if len(words) == most]
    eldest = [key for key in best if not set(lineage[key][1:]) & set(best)]
    return eldest[0] if len(eldest) == 1 else None


def _singular(word: str) -> str:
    if len(word) < 4 or not word.endswith("s") or word.endswith(("ss", "us", "is")):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    return word[:-2] if word.endswith(("oes", "shes", "ches")) else word[:-1]


def _as_named(words: frozenset[str], names: Names) -> frozenset[str]:
    """Return the words; with those that no name has, what they may be the plural of in other languages."""
    known = _union(name for every in names.values() for name in every)
    strange = (word for word in words - known if len(word) > 4)
    return words | {word.removesuffix(end) for word in strange for end in PLURALS}


def _covered(said: frozenset[str], names: Iterable[frozenset[str]]) -> frozenset[str]:
    return _union(name for name in names if name <= said)


def _union(sets: Iterable[frozenset[str]]) -> frozenset[str]:
    return frozenset().union(*sets)
