"""The whole book of a ledger: every act, every fact, struck out or not, and every strike."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from itertools import pairwise
from typing import NamedTuple

from greenroom.ledger.change import Act, Entry
from greenroom.ledger.facts import LONGEST_TEXT, BadFactError
from greenroom.ledger.soundness import kept_text, sound
from greenroom.speech import tr

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
    acts = _numbered([act.number for act in book.acts], tr("the acts are not in the order of their numbers"))
    facts = _numbered(
        [entry.number for entry in book.entries], tr("the facts are not in the order of their numbers")
    )
    for act in book.acts:
        _check_act(act, acts)
    for entry in book.entries:
        if entry.act not in acts:
            raise BadFactError(tr("the fact {id!r} is of an act that is not there", id=entry.fact.id))
    for strike in book.strikes:
        if strike.fact not in facts or strike.act not in acts:
            raise BadFactError(tr("a strike is of a fact or an act that is not there"))
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
    wrong = _wrong_with(act, known)
    if wrong:
        raise BadFactError(wrong)


def _wrong_with(act: Act, known: dict[int, int]) -> str:
    """Return what is wrong with an act in a sentence; nothing if it can be kept."""
    number = act.number
    turned = act.deed == "do" if act.reverses is None else act.deed != "do" and act.reverses in known
    texts = (act.name, act.zone, act.who)
    wrong = ""
    if act.deed not in DEEDS:
        wrong = tr("the act {number} is {deed!r}; do, undo or redo is allowed", number=number, deed=act.deed)
    elif not turned:
        wrong = tr("the act {number} reverses none that is there", number=number)
    elif act.reverses is not None and act.reverses >= number:
        wrong = tr("the act {number} reverses a later one", number=number)
    elif not all(_fits(text) for text in texts):
        wrong = tr("the act {number} has an unfit text", number=number)
    elif act.written.tzinfo is None:
        wrong = tr("the act {number} has a time without a zone", number=number)
    elif not FIRST_YEAR < act.written.year < LAST_YEAR:
        wrong = tr("the act {number} has a time out of range", number=number)
    return wrong


def _fits(text: str) -> bool:
    return len(text) <= LONGEST_TEXT and kept_text(text) is not None


def _numbered(numbers: Sequence[int], otherwise: str) -> dict[int, int]:
    """Return the new number of each: 1, 2, 3 in the order they stand in."""
    if not all(one < other for one, other in pairwise(numbers)):
        raise BadFactError(otherwise)
    return {number: place for place, number in enumerate(numbers, start=1)}
