"""What is known of troubles: pests to look for, and signs with their causes, each with its sources."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from greenroom.guide.records import Seen, Source
from greenroom.speech import tr

STAGES = ("seedling", "plant", "fruit")
OFTEN = ("often", "at times", "seldom")
SPEAKS = ("++", "+", "-", "--")
MEMORY = "memory"
FROM_MEMORY = tr("Common practice, no source, from memory.")
FIELDS = {
    "look": tr("where to look"),
    "seen": tr("what is seen"),
    "check": tr("what to check"),
    "now": tr("what to do now"),
    "later": tr("what to do next time"),
}
"""The fields of a pest or a cause that may be from memory, in words."""


def cited(source: Source) -> str:
    """Return a source as a whole citation: its note where it has no title, and a word where it is weak."""
    named = str(source) if source.title or not source.note else f"{source}: {source.note.rstrip('.')}"
    if source.seen is not Seen.WEAK:
        return named
    return tr("{citation} (a page that names no source)", citation=named)


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """Something with its sources; ``from_memory`` names the fields that were recalled, not looked up."""

    key: str
    name: str
    sources: tuple[Source, ...]
    from_memory: frozenset[str] = frozenset()

    @property
    def citations(self) -> tuple[str, ...]:
        """The sources as whole citations, and which part of it is only from memory."""
        read = tuple(cited(source) for source in self.sources if source.key != MEMORY)
        parts = [words for key, words in FIELDS.items() if key in self.from_memory]
        if not read:
            return (FROM_MEMORY,)
        return (*read, tr("From memory: {parts}.", parts=", ".join(parts))) if parts else read


@dataclass(frozen=True, slots=True)
class Threshold:
    """A count at which somebody published that it matters, in words, and who."""

    at: int
    words: str
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class Pest(Told):
    """One pest: where to look for it, what is seen, what is counted, and what to do first.

    ``count`` is None where nothing is counted; ``threshold`` where nobody published one.
    """

    picture: str
    look: str
    seen: str
    now: tuple[str, ...]
    later: str
    count: str | None = None
    threshold: Threshold | None = None


@dataclass(frozen=True, slots=True)
class Question:
    """A question that tells causes apart; ``known`` names the fact of the record that may answer it.

    Where that fact is a figure, ``bands`` are the limits between the answers, lowest first.
    """

    key: str
    ask: str
    answers: Mapping[str, str]
    known: str | None = None
    bands: tuple[float, ...] = ()

    def band(self, value: float) -> str:
        """Return the answer that a figure gives; one that lies on a limit belongs to the answer above."""
        return tuple(self.answers)[bisect_right(self.bands, value)]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause(Told):
    """One cause of a sign: how often it is behind it, what answers do to that, and what to do.

    ``when`` holds, for a question and an answer, how that speaks for or against the cause.
    """

    often: str
    when: Mapping[str, Mapping[str, str]]
    check: str
    now: str
    later: str


@dataclass(frozen=True, slots=True)
class Sign:
    """Something seen on a plant, the questions it raises and the causes it may have."""

    key: str
    name: str
    stage: str
    picture: str
    seen: str
    questions: tuple[Question, ...]
    causes: tuple[Cause, ...]

    def question(self, key: str) -> Question:
        """Return one question; LookupError if there is none of that key."""
        found = next((one for one in self.questions if one.key == key), None)
        if found is None:
            raise LookupError(f"{self.name} asks no question {key!r}.")
        return found


@dataclass(frozen=True)
class Troubles:
    """Every pest and every sign, by key in the order of the file, and what holds for all of them.

    ``spray`` is the rule for sprays with its sources, ``doubt`` what to do where the sheet does not settle
    it.
    """

    pests: Mapping[str, Pest] = field(repr=False)
    signs: Mapping[str, Sign] = field(repr=False)
    sources: Mapping[str, Source] = field(repr=False)
    spray: str = ""
    spray_sources: tuple[Source, ...] = ()
    doubt: str = ""

    @cached_property
    def names(self) -> Mapping[str, str]:
        """The names of pests and signs by key."""
        pests = {key: one.name for key, one in self.pests.items()}
        return pests | {key: one.name for key, one in self.signs.items()}
