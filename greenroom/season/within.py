"""Names as they stand within a sentence: small where the language has them small."""

from __future__ import annotations

from greenroom.speech import SPEAKER

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
