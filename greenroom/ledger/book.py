"""The whole book of a ledger: every act, every fact, struck out or not, and every strike."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from itertools import pairwise
from typing import NamedTuple

from greenroom.ledger.change import Act, Entry
from greenroom.ledger.facts import LONGEST_TEXT, BadFactError
from greenroom.ledger.soundness import sound

DEEDS = ("do", "undo", "redo")
FIRST_YEAR, LAST_YEAR = 1, 9999


class Strike(NamedTuple):
    """A fact, by its number, struck out or restored by an act."""

    fact: int
    act: int
    restored: bool


@dataclass(frozen=True, slots=True)
class Book:
    """Acts, facts and strikes, each in the order of writing."""

    acts: tuple[Act, ...] = ()
    entries: tuple[Entry, ...] = ()
    strikes: tuple[Strike, ...] = ()

    @property
    def struck(self) -> frozenset[int]:
        """The numbers of the facts whose latest strike stands."""
        latest = {strike.fact: strike.restored for strike in self.strikes}
        return frozenset(fact for fact, restored in latest.items() if not restored)

    @property
    def standing(self) -> list[Entry]:
        """The facts in force."""
        out = self.struck
        return [entry for entry in self.entries if entry.number not in out]

    def last_words(self) -> dict[str, datetime]:
        """Return when each fact was last written, struck out or restored, by its id."""
        written = {act.number: act.written for act in self.acts}
        found = {entry.number: written[entry.act] for entry in self.entries}
        found.update((strike.fact, written[strike.act]) for strike in self.strikes)
        return {entry.fact.id: found[entry.number] for entry in self.entries}


def checked(book: Book) -> Book:
    """Return a book that came from elsewhere as a ledger can keep it: numbered from 1 without gaps.

    Raises
    ------
    BadFactError
        With one sentence, if it is not whole: a fact that cannot be true, an act that is not there.
    """
    acts = _numbered([act.number for act in book.acts], "acts")
    facts = _numbered([entry.number for entry in book.entries], "facts")
    for act in book.acts:
        _check_act(act, acts)
    for entry in book.entries:
        _require(entry.act in acts, f"the fact {entry.fact.id!r} is of an act that is not there")
    for strike in book.strikes:
        known = strike.fact in facts and strike.act in acts
        _require(known, "a strike is of a fact or an act that is not there")
    kept = sound(entry.fact for entry in book.entries)
    return Book(
        tuple(
            replace(
                act, number=acts[act.number], reverses=None if act.reverses is None else acts[act.reverses]
            )
            for act in book.acts
        ),
        tuple(
            Entry(facts[entry.number], acts[entry.act], fact)
            for entry, fact in zip(book.entries, kept, strict=True)
        ),
        tuple(Strike(facts[one.fact], acts[one.act], one.restored) for one in book.strikes),
    )


def _check_act(act: Act, known: dict[int, int]) -> None:
    _require(act.deed in DEEDS, f"the act {act.number} is {act.deed!r}; do, undo or redo is allowed")
    turned = act.deed == "do" if act.reverses is None else act.deed != "do" and act.reverses in known
    _require(turned, f"the act {act.number} reverses none that is there")
    _require(act.reverses is None or act.reverses < act.number, f"the act {act.number} reverses a later one")
    for text in (act.name, act.zone, act.who):
        _require(len(text) <= LONGEST_TEXT and "\x00" not in text, f"the act {act.number} has an unfit text")
        _require(text.isascii() or _writable(text), f"the act {act.number} has an unfit text")
    _require(act.written.tzinfo is not None, f"the act {act.number} has a time without a zone")
    _require(FIRST_YEAR < act.written.year < LAST_YEAR, f"the act {act.number} has a time out of range")


def _writable(text: str) -> bool:
    return not any("\ud800" <= one <= "\udfff" for one in text)


def _numbered(numbers: Sequence[int], what: str) -> dict[int, int]:
    """Return the new number of each: 1, 2, 3 in the order they stand in."""
    rising = all(one < other for one, other in pairwise(numbers))
    _require(rising, f"the {what} are not in the order of their numbers")
    return {number: place for place, number in enumerate(numbers, start=1)}


def _require(holds: bool, words: str) -> None:
    if not holds:
        raise BadFactError(words)
