"""The words of the trade, each with what it means and who says so; found by what is typed, or in a text."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from greenroom.guide.matching import plain
from greenroom.guide.records import Source
from greenroom.guide.troubles import FROM_MEMORY, MEMORY, cited
from greenroom.speech import tr

PROGRAM = "program"
OWN_MEANING = tr("As this program uses the word.")
NO_LETTER = r"(?<![\w])"
NO_MORE = r"(?![\w])"


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """One word: its name, the other forms it is written in, its meaning, sources, and words to see also.

    ``linked`` is False for words too plain to be linked wherever they stand.
    """

    key: str
    name: str
    words: str
    sources: tuple[Source, ...]
    also: tuple[str, ...] = ()
    see: tuple[str, ...] = ()
    linked: bool = True

    @property
    def citations(self) -> tuple[str, ...]:
        """Where the meaning comes from, as whole citations."""
        own = {MEMORY: FROM_MEMORY, PROGRAM: OWN_MEANING}
        return tuple(own.get(source.key) or cited(source) for source in self.sources)

    @property
    def forms(self) -> tuple[str, ...]:
        """The name and every other form."""
        return (self.name, *self.also)


@dataclass(frozen=True)
class Glossary:
    """Every word by its key, in the order of their names."""

    terms: Mapping[str, Term] = field(repr=False)

    def find(self, typed: str) -> list[Term]:
        """Return the words that what was typed may mean: first those that begin so, last those told of."""
        asked = plain(typed).strip()
        if not asked:
            return list(self.terms.values())
        ranked = ((_rank(term, asked), term) for term in self.terms.values())
        return [term for rank, term in sorted(ranked, key=lambda pair: pair[0]) if rank < len(RANKS)]

    def in_text(self, text: str) -> list[Term]:
        """Return the linked words that stand in a text, in the order in which they first stand there."""
        found: dict[str, Term] = {}
        for match in self._pattern.finditer(text):
            term = self._by_form[match.group().casefold()]
            found.setdefault(term.key, term)
        return list(found.values())

    @cached_property
    def _by_form(self) -> dict[str, Term]:
        return {form.casefold(): term for term in self.terms.values() if term.linked for form in term.forms}

    @cached_property
    def _pattern(self) -> re.Pattern[str]:
        """Match the longest form that stands at a place, as whole words."""
        forms = sorted(self._by_form, key=len, reverse=True)
        return re.compile(f"{NO_LETTER}(?:{'|'.join(map(re.escape, forms))}){NO_MORE}", re.IGNORECASE)


def _rank(term: Term, asked: str) -> int:
    """Return how near a word is to what was typed: 0 nearest."""
    name, forms = plain(term.name), [plain(form) for form in term.forms]
    tests = (
        name.startswith(asked),
        any(form.startswith(asked) for form in forms),
        any(asked in form for form in forms),
        asked in plain(term.words),
    )
    return next((rank for rank in RANKS if tests[rank]), len(RANKS))


RANKS = range(4)
