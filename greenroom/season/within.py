"""Words put into a sentence: names within it, its first letter, its parts in a row."""

from __future__ import annotations

from collections.abc import Iterable
from functools import reduce

from greenroom.speech import SPEAKER, tr

NOUNS_KEEP_CAPITALS = frozenset({"de"})
"""Languages that write every noun with a capital."""


def within(name: str) -> str:
    """Return the name of a crop, a sign or a cause as it is read in the middle of a sentence."""
    return name if SPEAKER.tongue.code in NOUNS_KEEP_CAPITALS else name.lower()


def inside(words: str) -> str:
    """Return words that open with a capital as they go on in a sentence: only the first letter small."""
    return words if SPEAKER.tongue.code in NOUNS_KEEP_CAPITALS else f"{words[:1].lower()}{words[1:]}"


def opening(words: str) -> str:
    """Return words as they open a sentence: the first letter a capital, the others as they are."""
    return f"{words[:1].upper()}{words[1:]}"


def in_row(parts: Iterable[str]) -> str:
    """Return the parts of a sentence in a row, as the language sets them apart; of none an empty text."""
    told = iter(parts)
    return reduce(lambda first, then: tr("{first}; {then}", first=first, then=then), told, next(told, ""))
